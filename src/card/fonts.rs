//! The fonts of a theme, read once for all cards: what each of them is for, and which letters they have.

use std::sync::Arc;

use krilla::text::Font;
use parley::FontContext;
use parley::fontique::{Blob, Collection, CollectionOptions, FontInfoOverride, SourceCache};
use skrifa::MetadataProvider;

use super::checks;
use super::known_lines::KnownLines;
pub(super) use super::voice::Voice;
use crate::report::{Finding, Place, wording};
use crate::theme::{Letters, Theme};

/// One font.
pub(super) struct Face {
    path: String,
    /// The name by which the layout asks for it, for this program alone.
    family: String,
    /// The bytes, with the number by which the layout tells them again.
    pub(super) blob: Blob<u8>,
    /// The same font, ready for a PDF.
    pub(super) for_pdf: Font,
    /// The letters that it has, rising.
    letters: Vec<u32>,
}

impl Face {
    fn read(letters: &Letters, at: usize) -> Option<Self> {
        let data: Arc<dyn AsRef<[u8]> + Send + Sync> = Arc::new(Arc::clone(&letters.bytes));
        let font = skrifa::FontRef::new(&letters.bytes).ok()?;
        let mut known: Vec<u32> = font.charmap().mappings().map(|(letter, _)| letter).collect();
        known.sort_unstable();
        known.dedup();
        let for_pdf = Font::new(Arc::clone(&data).into(), 0)?;
        let family = format!("{at} {}", letters.path);
        Some(Self { path: letters.path.clone(), family, blob: Blob::new(data), for_pdf, letters: known })
    }

    fn has(&self, letter: char) -> bool {
        self.letters.binary_search(&u32::from(letter)).is_ok()
    }
}

/// All fonts of a theme.
pub struct Fonts {
    /// The fonts, the guide's own first.
    pub(super) faces: Vec<Face>,
    /// What was set in them.
    pub(super) known: KnownLines,
    context: FontContext,
}

impl std::fmt::Debug for Fonts {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_list().entries(self.faces.iter().map(|face| &face.family)).finish()
    }
}

impl Fonts {
    /// Reads the fonts of a theme. One that can't be read is reported at `place`, and a built-in one is used.
    pub fn read(theme: &Theme, place: Place) -> (Self, Vec<Finding>) {
        let collection = Collection::new(CollectionOptions { shared: false, system_fonts: false });
        let context = FontContext { collection, source_cache: SourceCache::default() };
        let mut fonts = Self { faces: Vec::new(), known: KnownLines::default(), context };
        let mut findings = Vec::new();
        for (at, letters) in theme.letters.iter().enumerate() {
            let face = Face::read(letters, at).filter(|face| fonts.register(face));
            match face {
                Some(face) => fonts.faces.push(face),
                None => findings.push(unreadable(letters, place)),
            }
        }
        (fonts, findings)
    }

    fn register(&mut self, face: &Face) -> bool {
        let named =
            FontInfoOverride { family_name: Some(&face.family), width: None, style: None, weight: None, axes: None };
        !self.context.collection.register_fonts(face.blob.clone(), Some(named)).is_empty()
    }

    /// What the layout needs, for one card at a time.
    pub(super) fn context(&self) -> FontContext {
        self.context.clone()
    }

    /// The families to ask for a letter, in this order: those made for the voice, then those for running text, then all.
    pub(super) fn families(&self, voice: Voice) -> Vec<&str> {
        let rank = |face: &Face| match face.path.as_str() {
            path if path == voice.path() => 0,
            path if path == Voice::Text.path() => 1,
            _ => 2,
        };
        let mut faces: Vec<&Face> = self.faces.iter().collect();
        faces.sort_by_key(|face| rank(face));
        faces.into_iter().map(|face| face.family.as_str()).collect()
    }

    /// Whether one of the fonts has all these letters; marks must come from the font of the letter that they are on.
    pub(super) fn have(&self, letters: &[char]) -> bool {
        self.faces.iter().any(|face| letters.iter().all(|letter| face.has(*letter)))
    }

    /// The position of the font that the layout used.
    pub(super) fn position(&self, blob: u64) -> Option<usize> {
        self.faces.iter().position(|face| face.blob.id() == blob)
    }
}

fn unreadable(letters: &Letters, place: Place) -> Finding {
    let message = format!("the theme's font {} can't be read", wording::quoted(&letters.path));
    Finding::new(&checks::PRINT_FONT, place, message, "put a TrueType or OpenType font there, or take the file out")
}
