//! What is checked about photographs of bare models and their maps.

use crate::report::{Check, Group, Level};

/// Every check of this layer.
pub(crate) const CHECKS: &[&Check] = &[&BARE_UNREADABLE, &BARE_FIT, &BARE_AREA, &BARE_SMALL, &BARE_DARK];

/// Both pictures can be read.
pub(super) static BARE_UNREADABLE: Check = Check {
    id: "bare-unreadable",
    level: Level::Error,
    about: "the photo of the bare model and its map can be read",
    why: "the steps can't be drawn on it",
    group: Group::Links,
    safety: false,
};

/// The map lies on the photograph.
pub(super) static BARE_FIT: Check = Check {
    id: "bare-fit",
    level: Level::Warning,
    about: "the map of a bare model has the shape of its photo",
    why: "the areas would lie beside the model, so the steps are not drawn",
    group: Group::Links,
    safety: false,
};

/// Areas are found on the map.
pub(super) static BARE_AREA: Check = Check {
    id: "bare-area",
    level: Level::Warning,
    about: "every area has a colour of its own on the map of a bare model, and every flat colour there is an area's",
    why: "the pictures of the steps leave that part as it was photographed",
    group: Group::Links,
    safety: false,
};

/// Both are large enough.
pub(super) static BARE_SMALL: Check = Check {
    id: "bare-small",
    level: Level::Note,
    about: "the photo of a bare model has at least 480 pixels across, and its map 160",
    why: "the pictures of the steps come out coarse",
    group: Group::Links,
    safety: false,
};

/// There is light in the photograph.
pub(super) static BARE_DARK: Check = Check {
    id: "bare-dark",
    level: Level::Note,
    about: "the lit faces of a bare model are lighter in its photo than nearly black",
    why: "the steps are drawn in the light of the photo, so light colours come out dark and coarse",
    group: Group::Links,
    safety: false,
};
