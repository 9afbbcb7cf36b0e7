//! Setting text: from words and a width to lines of glyphs.

use std::borrow::Cow;
use std::sync::Arc;

use parley::style::{FontFamily, FontFamilyName, LineHeight, OverflowWrap, StyleProperty};
use parley::{Alignment, AlignmentOptions, FontContext, LayoutContext};

use super::fonts::{Fonts, Voice};
use super::known_lines::Asked;
use super::letters::printable;
pub(super) use super::set_line::SetLine;
use super::sheet::{Glyph, Mark, Run};
use crate::measure::Colour;
use crate::theme::is_from_right;

/// How a text looks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    /// Which font it asks for.
    pub(super) voice: Voice,
    /// Its size, in points.
    pub(super) size: f32,
    /// From line to line, in points.
    pub(super) leading: f32,
    /// Its colour.
    pub(super) colour: Colour,
}

impl Look {
    /// A look with a leading of 1.25.
    pub(super) const fn new(voice: Voice, size: f32, colour: Colour) -> Self {
        Self { voice, size, leading: size * 1.25, colour }
    }
}

/// A piece of a paragraph in one look.
pub(super) type Span<'a> = (&'a str, Look);

/// A typesetter with its case of letters.
pub(super) struct Setter<'a> {
    fonts: &'a Fonts,
    /// Whether the marks will be put the other way round ([`Mark::mirrored`](super::sheet::Mark::mirrored)).
    mirrored: bool,
    context: FontContext,
    layout: LayoutContext<[u8; 4]>,
}

impl<'a> Setter<'a> {
    /// A typesetter for one card in a language.
    pub(super) fn new(fonts: &'a Fonts, language: &str) -> Self {
        Self { fonts, mirrored: is_from_right(language), context: fonts.context(), layout: LayoutContext::new() }
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
        let asked = self.asked(spans, width, alignment);
        if let Some(known) = self.fonts.known.get(&asked) {
            return known.to_vec();
        }
        let lines = self.set_anew(spans, width, alignment);
        self.fonts.known.put(asked, &lines);
        lines
    }

    /// All that decides how a paragraph comes out.
    fn asked(&self, spans: &[Span<'_>], width: f32, alignment: Alignment) -> Asked {
        let span = |(text, look): &Span<'_>| {
            ((*text).to_owned(), look.voice, [look.size.to_bits(), look.leading.to_bits()], look.colour)
        };
        Asked {
            spans: spans.iter().map(span).collect(),
            width: width.to_bits(),
            alignment: std::mem::discriminant(&alignment),
            mirrored: self.mirrored,
        }
    }

    fn set_anew(&mut self, spans: &[Span<'_>], width: f32, alignment: Alignment) -> Vec<SetLine> {
        let (text, ranges) = joined(self.fonts, spans);
        let Some((_, first)) = spans.first().filter(|_| !text.trim().is_empty()) else { return Vec::new() };
        let fonts = self.fonts;
        let families = |voice, text: &str| family(fonts, voice, text);
        let mut builder = self.layout.ranged_builder(&mut self.context, &text, 1.0, false);
        builder.push_default(StyleProperty::OverflowWrap(OverflowWrap::Anywhere));
        // The defaults hold every line up, so they must be no larger than the text itself.
        builder.push_default(StyleProperty::FontFamily(families(first.voice, "")));
        builder.push_default(StyleProperty::FontSize(first.size));
        builder.push_default(StyleProperty::LineHeight(LineHeight::Absolute(first.leading)));
        for ((words, look), range) in spans.iter().zip(ranges) {
            let [red, green, blue] = look.colour.0;
            builder.push(StyleProperty::FontFamily(families(look.voice, words)), range.clone());
            builder.push(StyleProperty::FontSize(look.size), range.clone());
            builder.push(StyleProperty::Brush([red, green, blue, 255]), range);
        }
        let mut layout = builder.build(&text);
        layout.break_all_lines(Some(width));
        let alignment = if self.mirrored && matches!(alignment, Alignment::Start) { Alignment::End } else { alignment };
        layout.align(alignment, AlignmentOptions::default());
        let text: Arc<str> = text.into();
        layout.lines().map(|line| self.line(&text, &layout, &line)).collect()
    }

    fn line(
        &self,
        text: &Arc<str>,
        layout: &parley::Layout<[u8; 4]>,
        line: &parley::layout::Line<'_, [u8; 4]>,
    ) -> SetLine {
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
                    runs.push(Run {
                        text: Arc::clone(text),
                        font,
                        size,
                        colour,
                        at: (x, baseline),
                        glyphs: Vec::new(),
                    });
                }
                if let Some(open) = runs.last_mut() {
                    x += take(open, &cluster);
                }
            }
        }
        debug_assert!(layout.text_len() == text.len());
        runs.retain(|run| !run.glyphs.is_empty());
        // Each has its place, so they can stand in the order in which they are read, for who hears the card.
        runs.sort_by_key(|run| run.glyphs.iter().map(|glyph| glyph.range.start).min());
        let line = SetLine { height: metrics.line_height, runs };
        if self.mirrored { line.reversed() } else { line }
    }
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
        run.glyphs.push(Glyph {
            id: glyph.id,
            advance: glyph.advance,
            moved: (glyph.x, glyph.y),
            range: range.clone(),
        });
    }
    width
}

/// The whole text of a paragraph as it can be printed, and the bytes of each piece in it.
fn joined(fonts: &Fonts, spans: &[Span<'_>]) -> (String, Vec<std::ops::Range<usize>>) {
    let mut text = String::new();
    let ranges = spans.iter().map(|(piece, _)| {
        let start = text.len();
        let spaced = piece.starts_with(' ') && !text.is_empty();
        text.push_str(if spaced { " " } else { "" });
        text.push_str(&printable(fonts, piece));
        start..text.len()
    });
    let ranges = ranges.collect();
    (text, ranges)
}

fn family(fonts: &Fonts, voice: Voice, text: &str) -> FontFamily<'static> {
    let names = fonts.families(voice, text).into_iter();
    FontFamily::List(Cow::Owned(names.map(|name| FontFamilyName::Named(Cow::Owned(name.to_owned()))).collect()))
}

/// How high some lines are together.
pub(super) fn height(lines: &[SetLine]) -> f32 {
    lines.iter().map(|line| line.height).sum()
}
