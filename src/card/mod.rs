//! **Card**: the printed recipe as a PDF, and the picture for links.
//!
//! A scheme becomes a recipe in plain words; that is set in type and flows over sheets of paper, which are nothing but
//! marks with their places and their meaning; and these are written as a PDF,
//! or drawn as pixels. All letters come from the theme.

mod breaks;
mod caution_part;
mod checks;
mod chips;
mod compose;
mod composer;
mod cut_font;
mod cut_fonts;
mod few_colours;
mod flow;
mod fonts;
mod head_part;
mod ink;
mod kept;
mod kit;
mod known_texts;
mod letter_masks;
mod letters;
mod look;
mod measures;
mod needs_part;
mod packing;
mod pdf;
mod photo;
mod pixels;
mod preview;
mod running;
mod set_line;
mod setting;
mod sheet;
mod step_part;
mod strokes;
mod to_do_part;
mod type_case;
mod voice;

pub use checks::CHECKS;
pub use fonts::Fonts;
pub use kept::{KeptLetters, check};
pub use kit::Kit;
pub use preview::PREVIEW_SIZE;

use image::RgbImage;

use crate::guide::Area;
use crate::report::{Finding, wording};
use crate::tell::recipe::Recipe;
use crate::trade::Paper;
use crate::work::{Tones, Worked, WorkedScheme};
use compose::Layout;
use photo::Photo;
use preview::Preview;

/// The finished model, photographed or drawn.
#[derive(Debug)]
pub struct Portrait {
    /// The picture.
    pub pixels: RgbImage,
    /// What can be seen on it.
    pub alt: String,
}

/// The printed recipe of a scheme, as a PDF: with the picture of the finished model, where there is one.
///
/// # Errors
/// A finding where a font of the theme can't be put into a PDF.
pub fn pdf(
    kit: Kit<'_>,
    all: &Worked,
    worked: &WorkedScheme,
    paper: Paper,
    portrait: Option<&Portrait>,
) -> Result<Vec<u8>, Box<Finding>> {
    let recipe = Recipe::of(all, worked, kit.words);
    let photo = portrait.and_then(|portrait| Photo::of(&portrait.pixels, &portrait.alt));
    let code = recipe.address.as_deref().and_then(chips::qr_code);
    let (slug, language) = (&worked.scheme.slug, &all.guide.language);
    let card = Layout { kit, recipe: &recipe, slug, language, photo, code }.compose(paper);
    pdf::write(&card, kit.fonts).map_err(|reason| {
        let message = format!("the card of {} can't be made: {reason}", wording::quoted(&worked.scheme.title));
        let mend = "take your own fonts out of guide.yaml and the theme's folder print, one by one, to see which of them it is";
        Box::new(Finding::new(&checks::PRINT_FONT, all.guide.theme_place, message, mend))
    })
}

/// The picture for links to a scheme, as PNG: with a picture of the finished model, where there is one.
pub fn scheme_preview(kit: Kit<'_>, all: &Worked, worked: &WorkedScheme, photo: Option<&RgbImage>) -> Vec<u8> {
    let scheme = &worked.scheme;
    // The first of them are shown: the largest, where their shares are known.
    let mut areas: Vec<(&Area, &Tones)> = scheme.areas.iter().zip(&worked.tones).collect();
    areas.sort_by_key(|(area, _)| std::cmp::Reverse(area.share));
    let shown = Preview {
        over: &all.guide.title,
        title: &scheme.title,
        under: scheme.summary.as_deref().unwrap_or_default(),
        chips: areas.into_iter().map(|(area, tones)| (cut(worked, &area.id), area.title.as_str(), *tones)).collect(),
        language: &all.guide.language,
        photo,
    };
    preview::draw(&shown, kit.fonts).unwrap_or_default()
}

/// The picture for links to the guide itself, as PNG: one chip of each of its first schemes.
pub fn guide_preview(kit: Kit<'_>, worked: &Worked) -> Vec<u8> {
    let guide = &worked.guide;
    let first = worked.schemes.iter().filter_map(|worked| {
        let (area, tones) = worked.scheme.areas.iter().zip(&worked.tones).next()?;
        Some((cut(worked, &area.id), worked.scheme.title.as_str(), *tones))
    });
    let shown = Preview {
        over: &guide.author,
        title: &guide.title,
        under: guide.summary.as_deref().unwrap_or_default(),
        chips: first.collect(),
        language: &guide.language,
        photo: None,
    };
    preview::draw(&shown, kit.fonts).unwrap_or_default()
}

/// The name that decides how the chip of an area is cut, the same as on the site.
fn cut(worked: &WorkedScheme, area: &str) -> String {
    format!("{}/{area}", worked.scheme.slug)
}

/// Whether these are the bytes of a card, so that a new one may take its place: the program made it, and not only does its
/// name stand in it.
pub fn is_ours(head: &[u8]) -> bool {
    is_pdf(head) && head.windows(pdf::MARK.len()).any(|part| part == pdf::MARK.as_bytes())
}

/// Whether these are the first bytes of any PDF.
pub fn is_pdf(head: &[u8]) -> bool {
    head.starts_with(b"%PDF-")
}
