//! Texts whose glyphs are known. The glyphs of a text are the same at every size and every width, so what decides them is
//! its words and how its pieces look beside each other; what stands on many cards (words of the interface, cautions, names
//! of paints) is kept for all of them.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::breaks::Breaks;
use super::look::{Look, Span};
use super::voice::Voice;
use crate::measure::Colour;

/// So many texts are known at most for all cards. What all cards have is among the first.
const MOST: usize = 600;

/// The size at which texts are shaped, in points: that of their first letter.
const SIZE: f32 = 16.0;

/// How fine sizes and leadings are counted, in parts of the size of the first letter.
const PARTS: f32 = 4096.0;

/// The glyphs of a text with all that decides where its lines may end.
pub(super) type Glyphs = parley::Layout<[u8; 4]>;

/// All that decides how a text is shaped in the fonts of one theme.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Text {
    /// Its pieces.
    pub(super) pieces: Vec<Piece>,
    /// From line to line.
    pub(super) leading: Parts,
}

/// A piece of a text in one look.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Piece {
    /// Its words.
    pub(super) words: String,
    /// Which font it asks for.
    pub(super) voice: Voice,
    /// Its size.
    pub(super) size: Parts,
    /// Its colour.
    pub(super) colour: Colour,
}

/// A length in parts of the size of the first letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Parts(u16);

impl Parts {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept within what fits")]
    fn of(length: f32, first: &Look) -> Self {
        Self((length / first.size.max(f32::MIN_POSITIVE) * PARTS).round().clamp(1.0, f32::from(u16::MAX)) as u16)
    }

    /// The length in points, where the first letter has the size at which texts are shaped.
    pub(super) fn points(self) -> f32 {
        f32::from(self.0) / PARTS * SIZE
    }
}

impl Text {
    /// The text, and how many times larger than it is shaped it is wanted; none without pieces.
    pub(super) fn of(spans: &[Span<'_>]) -> Option<(Self, f32)> {
        let (_, first) = spans.first()?;
        let pieces = spans.iter().map(|(words, look)| Piece {
            words: (*words).to_owned(),
            voice: look.voice,
            size: Parts::of(look.size, first),
            colour: look.colour,
        });
        Some((Self { pieces: pieces.collect(), leading: Parts::of(first.leading, first) }, first.size / SIZE))
    }
}

/// A text with its glyphs.
#[derive(Clone)]
pub(super) struct Shaped {
    /// The glyphs, at the size at which texts are shaped.
    pub(super) glyphs: Glyphs,
    /// The whole text, in which their ranges count.
    pub(super) text: Arc<str>,
    /// How it breaks in the widths that were tried.
    pub(super) breaks: Breaks,
}

/// The texts that are known for all cards.
#[derive(Default)]
pub(super) struct KnownTexts(Mutex<HashMap<Text, Shaped>>);

impl KnownTexts {
    /// A text, if it was shaped before.
    pub(super) fn get(&self, text: &Text) -> Option<Shaped> {
        self.all().get(text).cloned()
    }

    /// Remembers a text while there is room.
    pub(super) fn put(&self, text: &Text, shaped: &Shaped) {
        let mut all = self.all();
        if all.len() < MOST {
            all.insert(text.clone(), shaped.clone());
        }
    }

    fn all(&self) -> MutexGuard<'_, HashMap<Text, Shaped>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
