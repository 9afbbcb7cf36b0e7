//! A scheme's recipe as files: to print, to paste, and as the picture for links.

use image::RgbImage;

use crate::card;
use crate::page::{Address, Desk, Page, View};
use crate::tell;
use crate::work::WorkedScheme;

/// The path of the picture for links to the guide.
pub(in crate::page) const GUIDE_PREVIEW: &str = "preview.png";

/// The printed recipe of a scheme.
pub(in crate::page) fn page(desk: Desk<'_>, worked: &WorkedScheme, photo: Option<&RgbImage>) -> Page {
    let view = match card::pdf(desk.kit, desk.worked, worked, desk.worked.guide.paper, photo) {
        Ok(bytes) => View::Finished(bytes),
        Err(finding) => View::Failed(finding),
    };
    Page { path: Address::card(&worked.scheme.slug), view, must_show: Vec::new() }
}

/// The recipe as plain text, to paste.
pub(in crate::page) fn text(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    Page::finished(Address::recipe(&worked.scheme.slug), tell::recipe::text(desk.worked, worked, desk.kit.words))
}

/// The picture for links to a scheme.
pub(in crate::page) fn preview(desk: Desk<'_>, worked: &WorkedScheme, photo: Option<&RgbImage>) -> Page {
    let picture = card::scheme_preview(desk.kit, desk.worked, worked, photo);
    Page::finished(Address::preview(&worked.scheme.slug), picture)
}

/// The picture for links to the guide.
pub(in crate::page) fn guide_preview(desk: Desk<'_>) -> Page {
    Page::finished(GUIDE_PREVIEW.to_owned(), card::guide_preview(desk.kit, desk.worked))
}
