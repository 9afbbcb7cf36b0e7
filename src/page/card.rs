//! A scheme's recipe as files: to print, to paste, and as the picture for links.

use super::{Address, Desk, Page, View};
use crate::card;
use crate::work::WorkedScheme;

/// The path of the picture for links to the guide.
pub(super) const GUIDE_PREVIEW: &str = "preview.png";

/// The printed recipe of a scheme.
pub(super) fn page(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    let view = match card::pdf(desk.kit, desk.worked, worked, desk.worked.guide.paper) {
        Ok(bytes) => View::Finished(bytes),
        Err(finding) => View::Failed(finding),
    };
    Page { path: Address::card(&worked.scheme.slug), view, must_show: Vec::new() }
}

/// The recipe as plain text, to paste.
pub(super) fn text(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    Page::finished(Address::recipe(&worked.scheme.slug), card::text(desk.kit, desk.worked, worked))
}

/// The picture for links to a scheme.
pub(super) fn preview(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    let picture = card::scheme_preview(desk.kit, desk.worked, worked);
    Page::finished(Address::preview(&worked.scheme.slug), picture)
}

/// The picture for links to the guide.
pub(super) fn guide_preview(desk: Desk<'_>) -> Page {
    Page::finished(GUIDE_PREVIEW.to_owned(), card::guide_preview(desk.kit, desk.worked))
}
