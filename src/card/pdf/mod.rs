//! From a card to a PDF: tagged (PDF/UA-1, ISO 14289-1), with its fonts cut down to few letters, and the same bytes every
//! time.
//!
//! Nearly all that takes long is done once for all cards: fonts are cut and packed with the letters that most cards need.

mod document;
mod drawn;
mod facts;
mod letters;
mod tags;

use pdf_writer::{Pdf, Ref};

use self::document::{Document, count, photo};
use self::drawn::SHORT;
use super::fonts::Fonts;
use super::packing::Packing;
use super::sheet::Card;

/// By what a card is known again: that it was made here stands in its list of facts, as a fact and not as a word.
pub(super) const MARK: &str = "/Creator(Maulstick)";

/// Writes a card as a PDF.
///
/// # Errors
/// What keeps it from being a correct one, in words: a font that can't be cut down.
pub(super) fn write(card: &Card, fonts: &Fonts) -> Result<Vec<u8>, String> {
    let mut document =
        Document { card, pdf: Pdf::with_settings(SHORT), packing: Packing::default(), next: Ref::new(1) };
    let cut = letters::cut_fonts(card, fonts)?;
    let resources = document.resources(&cut);
    let pages = document.new_ref();
    let sheets: Vec<Ref> = card.sheets.iter().map(|_| document.new_ref()).collect();
    let mut drawn = Vec::new();
    for (at, marks) in card.sheets.iter().enumerate() {
        let sheet = drawn::draw(marks, card.size.1, &cut, photos_before(card, at));
        document.sheet((at, &sheet), &sheets, pages, resources);
        drawn.push(sheet);
    }
    document.pdf.pages(pages).kids(sheets.iter().copied()).count(count(sheets.len()));
    let tree = document.tags(&sheets, &drawn);
    document.facts(pages, &sheets, tree);
    Ok(document.pdf.finish())
}

/// How many photos stand on the sheets before one.
fn photos_before(card: &Card, sheet: usize) -> usize {
    card.sheets.iter().take(sheet).flatten().filter_map(photo).count()
}
