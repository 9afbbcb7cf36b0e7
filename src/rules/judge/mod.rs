//! How rules look at a film and report what they find.

pub(super) mod look;
pub(super) mod surroundings;
pub(super) mod told;
pub(super) mod waivers;
