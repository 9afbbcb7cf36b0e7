//! From a card to a PDF: tagged (PDF/UA-1, ISO 14289-1), with its fonts cut down to few letters, and the same bytes every
//! time.
//!
//! Nearly all that takes long is done once for all cards: fonts are cut and packed with the letters that most cards need.

mod cut_font;
mod drawn;
mod facts;
mod letters;
mod packing;
mod tags;

use std::collections::BTreeMap;
use std::sync::Arc;

use pdf_writer::types::TabOrder;
use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref, Settings};

use self::cut_font::CutFont;
pub(super) use self::cut_font::can_hold;
use self::drawn::Drawn;
pub(super) use self::letters::{CutFonts, Shown, usual};
use self::packing::Packing;
use super::fonts::Fonts;
use super::sheet::{Card, Mark, PaperPhoto, What};

/// The name that every card carries as its maker.
const MAKER: &str = "Maulstick";

/// By what a card is known again: that it was made here stands in its list of facts, as a fact and not as a word.
pub(super) const MARK: &str = "/Creator(Maulstick)";

/// No spaces that only people need.
const SHORT: Settings = Settings { pretty: false };

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

/// A card in the making.
struct Document<'a> {
    card: &'a Card,
    pdf: Pdf,
    packing: Packing,
    /// What the next part is called.
    next: Ref,
}

impl Document<'_> {
    fn new_ref(&mut self) -> Ref {
        self.next.bump()
    }

    /// The fonts and photos of all sheets.
    fn resources(&mut self, cut: &BTreeMap<usize, Arc<CutFont>>) -> Ref {
        let fonts: Vec<(usize, Ref)> =
            cut.iter().map(|(at, font)| (*at, font.write(&mut self.pdf, &mut self.next))).collect();
        let photos: Vec<&PaperPhoto> = self.card.sheets.iter().flatten().filter_map(photo).collect();
        let photos: Vec<Ref> = photos.into_iter().map(|photo| self.photo(photo)).collect();
        let own = self.new_ref();
        let mut all = self.pdf.indirect(own).dict();
        let mut named = all.insert(Name(b"Font")).dict();
        for (at, font) in fonts {
            named.pair(Name(drawn::font_name(at).as_bytes()), font);
        }
        named.finish();
        let mut named = all.insert(Name(b"XObject")).dict();
        for (at, photo) in photos.into_iter().enumerate() {
            named.pair(Name(drawn::photo_name(at).as_bytes()), photo);
        }
        named.finish();
        all.finish();
        own
    }

    /// A photo, which stays the JPEG that it is.
    fn photo(&mut self, photo: &PaperPhoto) -> Ref {
        let own = self.new_ref();
        let mut image = self.pdf.image_xobject(own, &photo.jpeg);
        image.filter(Filter::DctDecode);
        image.width(count(photo.pixels.0)).height(count(photo.pixels.1));
        image.color_space().device_rgb();
        image.bits_per_component(8).interpolate(true);
        own
    }

    /// One sheet with what is drawn on it.
    fn sheet(&mut self, (at, drawn): (usize, &Drawn), sheets: &[Ref], pages: Ref, resources: Ref) {
        let (content, own) = (self.new_ref(), sheets[at]);
        let packed = self.packing.pack(&drawn.content);
        self.pdf.stream(content, &packed).filter(Filter::FlateDecode);
        let mut page = self.pdf.page(own);
        page.parent(pages).media_box(Rect::new(0.0, 0.0, self.card.size.0, self.card.size.1));
        page.contents(content).struct_parents(count(at)).tab_order(TabOrder::StructureOrder);
        page.pair(Name(b"Resources"), resources);
    }
}

/// A number of things, which are never as many as a PDF can't count.
fn count(things: usize) -> i32 {
    i32::try_from(things).unwrap_or(i32::MAX)
}

fn photo(mark: &Mark) -> Option<&PaperPhoto> {
    match &mark.what {
        What::Photo(photo) => Some(photo),
        What::Text(_) | What::Shape(_) => None,
    }
}

/// How many photos stand on the sheets before one.
fn photos_before(card: &Card, sheet: usize) -> usize {
    card.sheets.iter().take(sheet).flatten().filter_map(photo).count()
}
