//! The order of a scheme's steps: a house's own, and better ones that are tried out.

pub(super) mod budget;
pub(super) mod house_order;
mod keeps;
pub(super) mod mend;
mod moves;
mod natural;
pub(super) mod propose;
pub(super) mod renumber;
pub(super) mod trial;
