//! A PDF in the making: its resources, its photos and its sheets.

use std::collections::BTreeMap;
use std::sync::Arc;

use pdf_writer::types::TabOrder;
use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref};

use super::drawn::{self, Drawn};
use crate::card::cut_font::CutFont;
use crate::card::packing::Packing;
use crate::card::sheet::{Card, Mark, PaperPhoto, What};

/// A card in the making.
pub(super) struct Document<'a> {
    /// The card.
    pub(super) card: &'a Card,
    /// What was written.
    pub(super) pdf: Pdf,
    /// What packs its streams.
    pub(super) packing: Packing,
    /// What the next part is called.
    pub(super) next: Ref,
}

impl Document<'_> {
    /// A name for a new part.
    pub(super) fn new_ref(&mut self) -> Ref {
        self.next.bump()
    }

    /// The fonts and photos of all sheets.
    pub(super) fn resources(&mut self, cut: &BTreeMap<usize, Arc<CutFont>>) -> Ref {
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
    pub(super) fn sheet(&mut self, (at, drawn): (usize, &Drawn), sheets: &[Ref], pages: Ref, resources: Ref) {
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
pub(super) fn count(things: usize) -> i32 {
    i32::try_from(things).unwrap_or(i32::MAX)
}

/// The photo that a mark is.
pub(super) fn photo(mark: &Mark) -> Option<&PaperPhoto> {
    match &mark.what {
        What::Photo(photo) => Some(photo),
        What::Text(_) | What::Shape(_) => None,
    }
}
