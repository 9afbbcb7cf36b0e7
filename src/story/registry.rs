//! The one list of what is checked. A layer that checks something names its list here, and everybody knows of it: the
//! page "What is checked", waivers, exports, documents and tests.

use crate::report::Registry;
use crate::{card, caution, guide, mesh, page, picture, plan, plate, quantity, rules, source, theme};

/// Every check that a guide goes through before it is pressed.
pub static REGISTRY: Registry = Registry::of(&[
    source::CHECKS,
    guide::CHECKS,
    picture::CHECKS,
    mesh::CHECKS,
    plate::CHECKS,
    quantity::CHECKS,
    caution::CHECKS,
    card::CHECKS,
    theme::CHECKS,
    plan::CHECKS,
    page::CHECKS,
    rules::SCHEME_CHECKS,
    rules::GUIDE_CHECKS,
    rules::OTHER_CHECKS,
]);
