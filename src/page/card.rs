//! A scheme's recipe as a file to print.

use super::{Address, Desk, Page, View};
use crate::card;
use crate::work::WorkedScheme;

/// The printed recipe of a scheme.
pub(super) fn page(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    let guide = &desk.worked.guide;
    let view = match card::pdf(desk.kit, guide, worked, guide.paper) {
        Ok(bytes) => View::Finished(bytes),
        Err(finding) => View::Failed(finding),
    };
    Page { path: Address::card(&worked.scheme.slug), view, must_show: Vec::new() }
}
