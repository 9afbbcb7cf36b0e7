//! Texts whose glyphs are known. The glyphs of a text are the same at every size and every width, so what decides them is
//! its words and how its pieces look beside each other; what stands on many cards (words of the interface, cautions, names
//! of paints) is kept for all of them, with the lines that it breaks into.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};
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
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Text {
    /// Its words, with how they look.
    pub(super) pieces: Vec<(String, PieceLook)>,
    /// From line to line.
    pub(super) leading: Parts,
}

/// How a piece of a text looks beside the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct PieceLook {
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

/// A text that is asked for, with nothing of it copied.
pub(super) struct Asked<'a> {
    spans: &'a [Span<'a>],
    first: &'a Look,
    /// Many texts are looked up many times, so they are found by a hash that is made once.
    hash: u64,
}

impl<'a> Asked<'a> {
    /// A text from its spans; none without any.
    pub(super) fn new(spans: &'a [Span<'a>]) -> Option<Self> {
        let (_, first) = spans.first()?;
        let asked = Self { spans, first, hash: 0 };
        let mut hasher = DefaultHasher::new();
        asked.leading().hash(&mut hasher);
        asked.pieces().for_each(|piece| piece.hash(&mut hasher));
        Some(Self { hash: hasher.finish(), ..asked })
    }

    /// How many times larger than it is shaped it is wanted.
    pub(super) fn larger(&self) -> f32 {
        self.first.size / SIZE
    }

    fn leading(&self) -> Parts {
        Parts::of(self.first.leading, self.first)
    }

    fn pieces(&self) -> impl Iterator<Item = (&'a str, PieceLook)> {
        let first = self.first;
        let face =
            move |look: &Look| PieceLook { voice: look.voice, size: Parts::of(look.size, first), colour: look.colour };
        self.spans.iter().map(move |(words, look)| (*words, face(look)))
    }

    fn is(&self, text: &Text) -> bool {
        let known = text.pieces.iter().map(|(words, face)| (words.as_str(), *face));
        text.leading == self.leading() && known.eq(self.pieces())
    }

    /// The text, to keep.
    pub(super) fn text(&self) -> Text {
        let pieces = self.pieces().map(|(words, face)| (words.to_owned(), face));
        Text { pieces: pieces.collect(), leading: self.leading() }
    }
}

/// A text with its glyphs.
pub(super) struct Shaped {
    /// The whole text, in which the ranges of its glyphs count.
    pub(super) text: Arc<str>,
    /// Whether it is read from the right: then its lines begin where the width ends.
    pub(super) from_right: bool,
    typeset: Mutex<Typeset>,
}

/// The glyphs of a text, and how they break into lines.
pub(super) struct Typeset {
    /// The glyphs, at the size at which texts are shaped.
    pub(super) glyphs: Glyphs,
    /// How they break in the widths that were tried.
    pub(super) breaks: Breaks,
}

impl Shaped {
    /// A text with its glyphs, of which no line is broken yet.
    pub(super) fn new(text: String, glyphs: Glyphs) -> Self {
        let from_right = glyphs.is_rtl();
        Self { text: text.into(), from_right, typeset: Mutex::new(Typeset { glyphs, breaks: Breaks::default() }) }
    }

    /// Its glyphs, for one card at a time.
    pub(super) fn typeset(&self) -> MutexGuard<'_, Typeset> {
        self.typeset.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Texts that were shaped.
#[derive(Default)]
pub(super) struct ShapedTexts {
    by_hash: HashMap<u64, Vec<(Text, Arc<Shaped>)>>,
    count: usize,
}

impl ShapedTexts {
    /// A text, if it was shaped before.
    pub(super) fn get(&self, asked: &Asked<'_>) -> Option<Arc<Shaped>> {
        let same = self.by_hash.get(&asked.hash)?.iter().find(|(text, _)| asked.is(text));
        same.map(|(_, shaped)| Arc::clone(shaped))
    }

    /// Remembers a text that is not there yet.
    pub(super) fn put(&mut self, asked: &Asked<'_>, shaped: &Arc<Shaped>) {
        self.count += 1;
        self.by_hash.entry(asked.hash).or_default().push((asked.text(), Arc::clone(shaped)));
    }
}

/// The texts that are known for all cards.
#[derive(Default)]
pub(super) struct KnownTexts(Mutex<ShapedTexts>);

impl KnownTexts {
    /// A text, if it was shaped before.
    pub(super) fn get(&self, asked: &Asked<'_>) -> Option<Arc<Shaped>> {
        self.all().get(asked)
    }

    /// Remembers a text while there is room.
    pub(super) fn put(&self, asked: &Asked<'_>, shaped: &Arc<Shaped>) {
        let mut all = self.all();
        if all.count < MOST && all.get(asked).is_none() {
            all.put(asked, shaped);
        }
    }

    fn all(&self) -> MutexGuard<'_, ShapedTexts> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
