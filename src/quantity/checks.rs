//! What is checked about amounts.

use crate::report::{Check, Group, Level};

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&SURFACE_GUESSED, &TOO_FEW_DROPS];

/// The surface is known.
pub(crate) static SURFACE_GUESSED: Check = Check {
    id: "surface-guessed",
    level: Level::Note,
    about: "a model gives its surface, or a mesh to measure it from",
    why: "a surface that is guessed from scale and kind may be half or twice the true one, and every amount with it",
    group: Group::Bookkeeping,
    safety: false,
};

/// A mix is large enough to be measured in drops.
pub(crate) static TOO_FEW_DROPS: Check = Check {
    id: "too-few-drops",
    level: Level::Note,
    about: "what one model needs of a mix can be measured in six drops or more",
    why: "one drop more or less is then a sixth of the mix and more, and the colour differs from model to model",
    group: Group::Bookkeeping,
    safety: false,
};
