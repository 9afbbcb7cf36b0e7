//! The fonts that are cut down for PDFs. Most cards need the same letters, so a font is cut and packed once with those; a
//! card that has others too gets a font of its own.

use std::collections::{BTreeMap, HashMap};
use std::sync::{Arc, Mutex, PoisonError};

use skrifa::{FontRef, GlyphId, MetadataProvider};

use super::cut_font::CutFont;

/// Glyphs by their numbers in the whole font, with the text that each shows.
pub(super) type Shown = BTreeMap<u32, String>;

/// The letters and signs of the program's own sentences in any language.
const ALL: std::ops::RangeInclusive<char> = ' '..='~';
const SIGNS: &str = "–—‘’“”„…°±²µ·×½¼¾→−≈≤≥";

/// What a language has beyond those: nearly every card in it needs them.
const OWN: [(&str, &str); 3] = [("de", "ÄÖÜßäöü"), ("es", "ÁÉÍÑÓÚáéíñóúü¡¿«»"), ("fr", "ÀÇÉÈÊàâçéèêëîïôùûœ«»")];

/// Letters that are set as one, and the letters that they show.
const TOGETHER: [(char, &str); 5] =
    [('\u{fb00}', "ff"), ('\u{fb01}', "fi"), ('\u{fb02}', "fl"), ('\u{fb03}', "ffi"), ('\u{fb04}', "ffl")];

/// So many cut fonts are kept at most; what comes later is cut for its card alone.
const MOST: usize = 48;

/// The fonts that were cut for any card: by their position, and the letters beyond the usual ones.
#[derive(Default)]
pub(super) struct CutFonts(Mutex<HashMap<(usize, Shown), Arc<CutFont>>>);

impl CutFonts {
    /// The font at a position, given with its usual letters, cut down to those and some more.
    ///
    /// # Errors
    /// Why it can't be cut down, in words.
    pub(super) fn of(&self, (at, font): (usize, &[u8]), usual: &Shown, more: Shown) -> Result<Arc<CutFont>, String> {
        let kept = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let which = (at, more);
        if let Some(known) = kept().get(&which) {
            return Ok(Arc::clone(known));
        }
        let all = usual.iter().chain(&which.1);
        let cut = Arc::new(CutFont::new(font, all.map(|(glyph, text)| (*glyph, text.as_str())))?);
        let mut kept = kept();
        if kept.len() < MOST {
            kept.insert(which, Arc::clone(&cut));
        }
        Ok(cut)
    }
}

/// The glyphs of a font that most cards in a language need.
pub(super) fn usual(font: &[u8], language: &str) -> Shown {
    let Ok(font) = FontRef::new(font) else { return Shown::new() };
    let letters = font.charmap();
    let mut shown = Shown::new();
    let mut add = |letter: char, text: &str| {
        if let Some(glyph) = letters.map(letter).map(GlyphId::to_u32).filter(|glyph| *glyph > 0) {
            shown.entry(glyph).or_insert_with(|| text.to_owned());
        }
    };
    let own = OWN.iter().filter(|(of, _)| language.split('-').next() == Some(*of)).flat_map(|(_, own)| own.chars());
    for letter in ALL.chain(SIGNS.chars()).chain(own) {
        add(letter, letter.encode_utf8(&mut [0; 4]));
    }
    for (one, text) in TOGETHER {
        add(one, text);
    }
    shown
}
