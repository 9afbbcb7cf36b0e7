//! Rules about gluing together: what holds on what, and what can still be reached.

pub(super) mod glue_on_paint;
pub(super) mod instant_glue_fogs;
mod named;
pub(super) mod painted_out_of_reach;
