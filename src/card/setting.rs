//! Setting text: from words and a width to lines of glyphs.

use std::cell::RefCell;
use std::sync::Arc;

use parley::{Alignment, AlignmentOptions};

use super::fonts::Fonts;
use super::known_texts::{Shaped, Typeset};
pub(super) use super::look::{Look, Span};
use super::set_line::LineSize;
pub(super) use super::set_line::SetLine;
use super::sheet::{Glyph, Mark, Run};
use super::type_case::TypeCase;
use crate::measure::Colour;
use crate::theme::is_from_right;

/// A typesetter with its case of letters.
pub(super) struct Setter<'a> {
    fonts: &'a Fonts,
    /// Whether the marks will be put the other way round ([`Mark::mirrored`](super::sheet::Mark::mirrored)).
    mirrored: bool,
    case: &'a RefCell<TypeCase>,
    wanted: Wanted,
}

/// What is wanted of a card: to find the size of type, the measures of its lines are enough.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wanted {
    /// How high and how wide they are.
    Measures,
    /// Their glyphs too.
    Glyphs,
}

impl<'a> Setter<'a> {
    /// A typesetter for one card in a language.
    pub(super) fn new(fonts: &'a Fonts, language: &str, case: &'a RefCell<TypeCase>, wanted: Wanted) -> Self {
        Self { fonts, mirrored: is_from_right(language), case, wanted }
    }

    /// Whether marks are wanted, and not only measures.
    pub(super) fn draws(&self) -> bool {
        self.wanted == Wanted::Glyphs
    }

    /// Asks for measures or for glyphs from now on; gives what was asked for before.
    pub(super) fn want(&mut self, wanted: Wanted) -> Wanted {
        std::mem::replace(&mut self.wanted, wanted)
    }

    /// Whether the card is laid out from the right.
    pub(super) fn is_mirrored(&self) -> bool {
        self.mirrored
    }

    /// Marks as they stand on a sheet so wide: the other way round, where the language is read from the right.
    pub(super) fn placed(&self, marks: Vec<Mark>, width: f32) -> Vec<Mark> {
        if self.mirrored { marks.into_iter().map(|mark| mark.mirrored(width)).collect() } else { marks }
    }

    /// Sets a paragraph in a width. Words that are wider are broken anywhere.
    pub(super) fn set(&mut self, spans: &[Span<'_>], width: f32) -> Vec<SetLine> {
        self.set_aligned(spans, width, Alignment::Start)
    }

    /// Sets a paragraph against the edge where the card begins, whichever way its words are read.
    pub(super) fn set_left(&mut self, spans: &[Span<'_>], width: f32) -> Vec<SetLine> {
        self.set_aligned(spans, width, Alignment::Left)
    }

    /// Sets a paragraph against the right edge.
    pub(super) fn set_right(&mut self, spans: &[Span<'_>], width: f32) -> Vec<SetLine> {
        self.set_aligned(spans, width, Alignment::Right)
    }

    /// Sets a paragraph against one edge or around its middle.
    pub(super) fn set_aligned(&mut self, spans: &[Span<'_>], width: f32, alignment: Alignment) -> Vec<SetLine> {
        let shaped = self.case.borrow_mut().shaped(self.fonts, spans);
        let Some((shaped, larger)) = shaped.filter(|(shaped, _)| !shaped.text.trim().is_empty()) else {
            return Vec::new();
        };
        let width = width / larger;
        match (self.wanted, alignment) {
            (Wanted::Measures, _) => measured(&shaped, width, larger),
            (Wanted::Glyphs, Alignment::Start) if !self.mirrored && !shaped.from_right => {
                self.set_from_left(&shaped, width).iter().map(|line| line.times(larger)).collect()
            }
            (Wanted::Glyphs, _) => {
                let lines = self.lines(&shaped, width, alignment);
                let lines = lines.into_iter().map(|line| line.times(larger));
                if self.mirrored { lines.map(SetLine::reversed).collect() } else { lines.collect() }
            }
        }
    }

    /// The lines of a text against the left edge, at the size at which it is shaped. They are the same in every width in which
    /// it breaks alike, so they are kept.
    fn set_from_left(&self, shaped: &Shaped, width: f32) -> Arc<[SetLine]> {
        let known = shaped.typeset().breaks.set_in_width(width);
        known.unwrap_or_else(|| {
            let set: Arc<[SetLine]> = self.lines(shaped, width, Alignment::Start).into();
            shaped.typeset().breaks.remember_set(width, &set);
            set
        })
    }

    /// The lines of a text, at the size at which it is shaped.
    fn lines(&self, shaped: &Shaped, width: f32, alignment: Alignment) -> Vec<SetLine> {
        let Typeset { glyphs, breaks } = &mut *shaped.typeset();
        glyphs.break_all_lines(Some(width));
        if breaks.in_width(width).is_none() {
            breaks.remember(width, glyphs.lines());
        }
        let alignment = if self.mirrored && matches!(alignment, Alignment::Start) { Alignment::End } else { alignment };
        glyphs.align(alignment, AlignmentOptions::default());
        let set = |line: parley::layout::Line<'_, [u8; 4]>| SetLine {
            runs: self.runs(&shaped.text, &line),
            ..SetLine::measured(LineSize::of(&line), 1.0)
        };
        glyphs.lines().map(set).collect()
    }

    /// The glyphs of a line.
    fn runs(&self, text: &Arc<str>, line: &parley::layout::Line<'_, [u8; 4]>) -> Vec<Run> {
        let metrics = line.metrics();
        let baseline = metrics.baseline - metrics.block_min_coord;
        let mut runs: Vec<Run> = Vec::new();
        let mut x = metrics.offset;
        for run in line.runs() {
            let Some(font) = self.fonts.position(run.font().data.id()) else { continue };
            let mut style = None;
            for cluster in run.visual_clusters() {
                if style != Some(cluster.style_index()) {
                    style = Some(cluster.style_index());
                    let [red, green, blue, _] = cluster.style().brush;
                    let (size, colour) = (run.font_size(), Colour([red, green, blue]));
                    let (text, at) = (Arc::clone(text), (x, baseline));
                    runs.push(Run { text, font, size, colour, at, glyphs: Vec::new() });
                }
                if let Some(open) = runs.last_mut() {
                    x += take(open, &cluster);
                }
            }
        }
        runs.retain(|run| !run.glyphs.is_empty());
        // Each has its place, so they can stand in the order in which they are read, for who hears the card.
        runs.sort_by_key(|run| run.glyphs.iter().map(|glyph| glyph.range.start).min());
        runs
    }
}

/// How high and how wide the lines of a text are.
fn measured(shaped: &Shaped, width: f32, larger: f32) -> Vec<SetLine> {
    let Typeset { glyphs, breaks } = &mut *shaped.typeset();
    if let Some(known) = breaks.in_width(width) {
        return known.iter().map(|size| SetLine::measured(*size, larger)).collect();
    }
    glyphs.break_all_lines(Some(width));
    breaks.remember(width, glyphs.lines());
    glyphs.lines().map(|line| SetLine::measured(LineSize::of(&line), larger)).collect()
}

/// Takes the glyphs of a cluster into a run; gives how wide they are.
fn take(run: &mut Run, cluster: &parley::layout::Cluster<'_, [u8; 4]>) -> f32 {
    let range = cluster.text_range();
    if cluster.is_ligature_continuation() {
        if let Some(last) = run.glyphs.last_mut() {
            last.range = last.range.start.min(range.start)..last.range.end.max(range.end);
        }
        return 0.0;
    }
    let mut width = 0.0;
    for glyph in cluster.glyphs() {
        width += glyph.advance;
        let moved = (glyph.x, glyph.y);
        run.glyphs.push(Glyph { id: glyph.id, advance: glyph.advance, moved, range: range.clone() });
    }
    width
}

/// How high some lines are together.
pub(super) fn height(lines: &[SetLine]) -> f32 {
    lines.iter().map(|line| line.height).sum()
}
