//! The order of a scheme's steps: a house's own, and better ones that are tried out.

pub(super) mod house_order;
pub(super) mod mend;
pub(super) mod renumber;
pub(super) mod trial;
