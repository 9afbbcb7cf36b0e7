//! The fonts of a theme, read once for all cards: what each of them is for, and which letters they have.

use std::sync::{Arc, OnceLock};

use parley::FontContext;
use parley::fontique::{Blob, Collection, CollectionOptions, FontInfoOverride, SourceCache};

use super::checks;
use super::cut_font::{self, CutFont};
use super::cut_fonts::{self, CutFonts, Shown};
use super::known_texts::KnownTexts;
use super::letter_masks::LetterMasks;
pub(super) use super::voice::Voice;
use crate::guide::Guide;
use crate::report::{Finding, wording};
use crate::theme::{Letters, Theme};

/// One font.
pub(super) struct Face {
    /// The font of the theme, with the letters that it has.
    letters: Letters,
    /// What it is for.
    voice: String,
    /// Whether it only lends letters to the font of its voice.
    lends: bool,
    /// The name by which the layout asks for it, for this program alone.
    family: String,
    /// The bytes, with the number by which the layout tells them again.
    pub(super) blob: Blob<u8>,
    /// The language of the guide.
    language: String,
    /// See [`Self::usual`].
    usual: OnceLock<Shown>,
}

impl Face {
    fn read(letters: &Letters, at: usize, language: &str) -> Option<Self> {
        let data: Arc<dyn AsRef<[u8]> + Send + Sync> = Arc::new(Arc::clone(&letters.bytes));
        cut_font::can_hold(&letters.bytes).then_some(())?;
        let family = format!("{at} {}", letters.path);
        let language = language.to_owned();
        let (voice, lends) = (letters.voice().to_owned(), letters.lends());
        Some(Self {
            letters: letters.clone(),
            voice,
            lends,
            family,
            blob: Blob::new(data),
            language,
            usual: OnceLock::new(),
        })
    }

    /// The glyphs that most cards need of it: none of a font that only lends letters.
    pub(super) fn usual(&self) -> &Shown {
        self.usual.get_or_init(|| {
            if self.lends { Shown::new() } else { cut_fonts::usual(&self.letters.bytes, &self.language) }
        })
    }
}

/// All fonts of a theme.
pub struct Fonts {
    /// The fonts, the guide's own first.
    pub(super) faces: Vec<Face>,
    /// What was shaped in them.
    pub(super) known: KnownTexts,
    /// Their letters as pixels.
    pub(super) masks: LetterMasks,
    /// What was cut of them for PDFs.
    cut: CutFonts,
    /// Whether they have all letters of ASCII, which is all that most texts are written in.
    has_ascii: bool,
    /// Whether they have the quotes, dashes and dots of print too, which Markdown makes of those of ASCII.
    has_print: bool,
    context: FontContext,
}

impl std::fmt::Debug for Fonts {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_list().entries(self.faces.iter().map(|face| &face.family)).finish()
    }
}

impl Fonts {
    /// Reads the fonts of a theme. One that can't be read is reported where the guide names it, or else the theme, and a
    /// built-in one is used.
    pub fn read(theme: &Theme, guide: &Guide) -> (Self, Vec<Finding>) {
        let collection = Collection::new(CollectionOptions { shared: false, system_fonts: false });
        let context = FontContext { collection, source_cache: SourceCache::default() };
        let mut fonts = Self {
            faces: Vec::new(),
            known: KnownTexts::default(),
            masks: LetterMasks::default(),
            cut: CutFonts::default(),
            has_ascii: false,
            has_print: false,
            context,
        };
        let mut findings = Vec::new();
        for (at, letters) in theme.letters.iter().enumerate() {
            let face = Face::read(letters, at, &guide.language).filter(|face| fonts.register(face));
            match face {
                Some(face) => fonts.faces.push(face),
                None => findings.push(unreadable(letters, guide)),
            }
        }
        fonts.has_ascii = (' '..='~').all(|letter| fonts.have(&[letter]));
        fonts.has_print = "“”‘’–—…".chars().all(|letter| fonts.have(&[letter]));
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

    /// The families to ask for the letters of a text, in this order: those made for the voice, then those that lend
    /// letters to it, then those for running text, then all. Where a text needs what is lent, that comes first, so that a
    /// sign such as 'μ', which Latin fonts have too, is of one font with the Greek letters around it.
    pub(super) fn families(&self, voice: Voice, text: &str) -> Vec<&str> {
        let of_voice =
            |lends: bool| self.faces.iter().filter(move |face| face.voice == voice.name() && face.lends == lends);
        // Nearly always the first one has all letters, and then no other is looked at.
        if let Some(first) = of_voice(false).next().filter(|face| text.chars().all(|letter| face.letters.has(letter))) {
            return vec![&first.family];
        }
        let lacks = |letter: char| of_voice(false).all(|face| !face.letters.has(letter));
        let borrows = text
            .chars()
            .any(|letter| !letter.is_ascii() && lacks(letter) && of_voice(true).any(|face| face.letters.has(letter)));
        let rank = |face: &Face| match (face.voice.as_str(), face.lends) {
            (name, lends) if name == voice.name() => u8::from(lends != borrows),
            (name, lends) if name == Voice::Text.name() => 2 + u8::from(lends),
            _ => 4,
        };
        let mut faces: Vec<&Face> = self.faces.iter().collect();
        faces.sort_by_key(|face| rank(face));
        faces.into_iter().map(|face| face.family.as_str()).collect()
    }

    /// Whether one of the fonts has all these letters; marks must come from the font of the letter that they are on.
    pub(super) fn have(&self, letters: &[char]) -> bool {
        self.faces.iter().any(|face| letters.iter().all(|letter| face.letters.has(*letter)))
    }

    /// Whether a text is plain enough to see at a glance that all of its letters are there.
    pub(super) fn have_plain(&self, text: &str) -> bool {
        self.has_ascii && text.bytes().all(|letter| matches!(letter, b' '..=b'~' | b'\n' | b'\r' | b'\t'))
    }

    /// The same of Markdown, whatever of it is printed. Behind a `&` any letter may stand by its name or its number.
    pub(super) fn have_plain_markdown(&self, markdown: &str) -> bool {
        self.has_print && !markdown.contains('&') && self.have_plain(markdown)
    }

    /// The font at a position, cut down to its usual letters and some more.
    ///
    /// # Errors
    /// Why it can't be cut down, in words.
    pub(super) fn cut(&self, at: usize, more: Shown) -> Result<Arc<CutFont>, String> {
        let face = self.faces.get(at).ok_or("a font is missing")?;
        self.cut.of((at, face.blob.as_ref()), face.usual(), more)
    }

    /// The position of the font that the layout used.
    pub(super) fn position(&self, blob: u64) -> Option<usize> {
        self.faces.iter().position(|face| face.blob.id() == blob)
    }
}

fn unreadable(letters: &Letters, guide: &Guide) -> Finding {
    let named = guide.fonts.iter().find(|font| letters.is_of_guide(&font.value));
    let (whose, path, place) = named
        .map_or(("theme", letters.path.as_str(), guide.theme_place), |font| ("guide", font.value.as_str(), font.place));
    let message = format!("the {whose}'s font {} can't be read", wording::quoted(path));
    Finding::new(&checks::PRINT_FONT, place, message, "put a TrueType or OpenType font there, or take the file out")
}
