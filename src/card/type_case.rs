//! What one card is set from: the fonts laid ready, and the glyphs of its texts. To find the glyphs of a text takes long,
//! to break it into lines does not, so a text is shaped once, however many sizes and widths are tried.

use std::collections::HashMap;
use std::ops::Range;

use parley::style::{FontFamily, FontFamilyName, LineHeight, OverflowWrap, StyleProperty};
use parley::{FontContext, LayoutContext};

use super::breaks::Breaks;
use super::fonts::{Fonts, Voice};
use super::known_texts::{Shaped, Text};
use super::letters::printable;
use super::look::Span;

/// What one card is set from.
pub(super) struct TypeCase {
    fonts: FontContext,
    layout: LayoutContext<[u8; 4]>,
    texts: HashMap<Text, Shaped>,
}

impl TypeCase {
    /// One with no texts yet.
    pub(super) fn new(fonts: &Fonts) -> Self {
        Self { fonts: fonts.context(), layout: LayoutContext::new(), texts: HashMap::new() }
    }

    /// A text with its glyphs, and how many times larger than they are they are wanted; none where it has no pieces.
    pub(super) fn shaped(&mut self, fonts: &Fonts, spans: &[Span<'_>]) -> Option<(&mut Shaped, f32)> {
        let (text, larger) = Text::of(spans)?;
        let Self { fonts: context, layout, texts } = self;
        let shaped = texts.entry(text).or_insert_with_key(|text| {
            fonts.known.get(text).unwrap_or_else(|| {
                let shaped = shape(text, fonts, context, layout);
                fonts.known.put(text, &shaped);
                shaped
            })
        });
        Some((shaped, larger))
    }
}

fn shape(asked: &Text, fonts: &Fonts, context: &mut FontContext, layout: &mut LayoutContext<[u8; 4]>) -> Shaped {
    let (text, ranges) = joined(asked, fonts);
    let mut builder = layout.ranged_builder(context, &text, 1.0, false);
    builder.push_default(StyleProperty::OverflowWrap(OverflowWrap::Anywhere));
    // The defaults hold every line up, so they must be no larger than the text itself.
    if let Some(first) = asked.pieces.first() {
        builder.push_default(StyleProperty::FontFamily(family(fonts, first.voice, "")));
        builder.push_default(StyleProperty::FontSize(first.size.points()));
    }
    builder.push_default(StyleProperty::LineHeight(LineHeight::Absolute(asked.leading.points())));
    for (piece, range) in asked.pieces.iter().zip(ranges) {
        let [red, green, blue] = piece.colour.0;
        builder.push(StyleProperty::FontFamily(family(fonts, piece.voice, &piece.words)), range.clone());
        builder.push(StyleProperty::FontSize(piece.size.points()), range.clone());
        builder.push(StyleProperty::Brush([red, green, blue, 255]), range);
    }
    Shaped { glyphs: builder.build(&text), text: text.into(), breaks: Breaks::default() }
}

/// The whole text as it can be printed, and the bytes of each piece in it.
fn joined(asked: &Text, fonts: &Fonts) -> (String, Vec<Range<usize>>) {
    let mut text = String::new();
    let ranges = asked.pieces.iter().map(|piece| {
        let start = text.len();
        let spaced = piece.words.starts_with(' ') && !text.is_empty();
        text.push_str(if spaced { " " } else { "" });
        text.push_str(&printable(fonts, &piece.words));
        start..text.len()
    });
    let ranges = ranges.collect();
    (text, ranges)
}

fn family(fonts: &Fonts, voice: Voice, text: &str) -> FontFamily<'static> {
    let names = fonts.families(voice, text).into_iter();
    FontFamily::List(names.map(|name| FontFamilyName::Named(name.to_owned().into())).collect::<Vec<_>>().into())
}
