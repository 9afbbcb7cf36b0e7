//! A scheme's recipe as files: to print, to paste, and as the picture for links.

use image::RgbImage;

use super::drawn;
use crate::card::{self, Portrait};
use crate::page::{Address, Desk, Page, View};
use crate::render::Studio;
use crate::tell;
use crate::theme::Words;
use crate::work::WorkedScheme;

/// The path of the picture for links to the guide.
pub(in crate::page) const GUIDE_PREVIEW: &str = "preview.png";

/// The printed recipe of a scheme.
pub(in crate::page) fn page(desk: Desk<'_>, worked: &WorkedScheme, photo: Option<&RgbImage>) -> Page {
    let portrait = portrait(desk.studio, worked, desk.words, photo.cloned());
    let view = match card::pdf(desk.kit, desk.worked, worked, desk.worked.guide.paper, portrait.as_ref()) {
        Ok(bytes) => View::Finished(bytes),
        Err(finding) => View::Failed(finding),
    };
    Page { path: Address::card(&worked.scheme.slug), view, must_show: Vec::new() }
}

/// What a card shows of the finished model: its photo, or where nobody took one, the drawn picture.
pub fn portrait(studio: &Studio, worked: &WorkedScheme, words: &Words, photo: Option<RgbImage>) -> Option<Portrait> {
    let taken = photo.zip(worked.scheme.photo.as_ref());
    taken.map(|(pixels, photo)| Portrait { pixels, alt: photo.alt.clone() }).or_else(|| {
        let pixels = drawn::on_paper(studio, worked)?;
        Some(Portrait { pixels, alt: drawn::finished_in_words(worked, words)? })
    })
}

/// The recipe as plain text, to paste.
pub(in crate::page) fn text(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    Page::finished(Address::recipe(&worked.scheme.slug), tell::recipe::text(desk.worked, worked, desk.kit.words))
}

/// The picture for links to a scheme.
pub(in crate::page) fn preview(desk: Desk<'_>, worked: &WorkedScheme, photo: Option<&RgbImage>) -> Page {
    let drawn = if photo.is_none() { drawn::for_links(desk.studio, worked) } else { None };
    let picture = card::scheme_preview(desk.kit, desk.worked, worked, photo.or(drawn.as_ref()));
    Page::finished(Address::preview(&worked.scheme.slug), picture)
}

/// The picture for links to the guide.
pub(in crate::page) fn guide_preview(desk: Desk<'_>) -> Page {
    Page::finished(GUIDE_PREVIEW.to_owned(), card::guide_preview(desk.kit, desk.worked))
}
