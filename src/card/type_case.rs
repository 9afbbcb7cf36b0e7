//! What one card is set from: the fonts laid ready, and the glyphs of its texts. To find the glyphs of a text takes long,
//! to break it into lines does not, so a text is shaped once, however many sizes and widths are tried.

use std::ops::Range;
use std::sync::Arc;

use parley::style::{FontFamily, FontFamilyName, LineHeight, OverflowWrap, StyleProperty};
use parley::{FontContext, LayoutContext};

use super::fonts::{Fonts, Voice};
use super::known_texts::{Asked, Shaped, ShapedTexts, Text};
use super::letters::printable;
use super::look::Span;

/// What one card is set from.
pub(super) struct TypeCase {
    fonts: FontContext,
    layout: LayoutContext<[u8; 4]>,
    texts: ShapedTexts,
}

impl TypeCase {
    /// One with no texts yet.
    pub(super) fn new(fonts: &Fonts) -> Self {
        Self { fonts: fonts.context(), layout: LayoutContext::new(), texts: ShapedTexts::default() }
    }

    /// A text with its glyphs, and how many times larger than they are they are wanted; none where it has no pieces.
    pub(super) fn shaped(&mut self, fonts: &Fonts, spans: &[Span<'_>]) -> Option<(Arc<Shaped>, f32)> {
        let asked = Asked::new(spans)?;
        let shaped = self.texts.get(&asked).unwrap_or_else(|| {
            let shaped = fonts.known.get(&asked).unwrap_or_else(|| {
                let shaped = Arc::new(shape(&asked.text(), fonts, &mut self.fonts, &mut self.layout));
                fonts.known.put(&asked, &shaped);
                shaped
            });
            self.texts.put(&asked, &shaped);
            shaped
        });
        Some((shaped, asked.larger()))
    }
}

fn shape(asked: &Text, fonts: &Fonts, context: &mut FontContext, layout: &mut LayoutContext<[u8; 4]>) -> Shaped {
    let (text, ranges) = joined(asked, fonts);
    let mut builder = layout.ranged_builder(context, &text, 1.0, false);
    builder.push_default(StyleProperty::OverflowWrap(OverflowWrap::Anywhere));
    // The defaults hold every line up, so they must be no larger than the text itself.
    if let Some(first) = asked.pieces.first() {
        let (_, face) = first;
        builder.push_default(StyleProperty::FontFamily(family(fonts, face.voice, "")));
        builder.push_default(StyleProperty::FontSize(face.size.points()));
    }
    builder.push_default(StyleProperty::LineHeight(LineHeight::Absolute(asked.leading.points())));
    for ((words, face), range) in asked.pieces.iter().zip(ranges) {
        let [red, green, blue] = face.colour.0;
        builder.push(StyleProperty::FontFamily(family(fonts, face.voice, words)), range.clone());
        builder.push(StyleProperty::FontSize(face.size.points()), range.clone());
        builder.push(StyleProperty::Brush([red, green, blue, 255]), range);
    }
    let glyphs = builder.build(&text);
    Shaped::new(text, glyphs)
}

/// The whole text as it can be printed, and the bytes of each piece in it.
fn joined(asked: &Text, fonts: &Fonts) -> (String, Vec<Range<usize>>) {
    let mut text = String::new();
    let ranges = asked.pieces.iter().map(|(words, _)| {
        let start = text.len();
        let spaced = words.starts_with(' ') && !text.is_empty();
        text.push_str(if spaced { " " } else { "" });
        text.push_str(&printable(fonts, words));
        start..text.len()
    });
    let ranges = ranges.collect();
    (text, ranges)
}

fn family(fonts: &Fonts, voice: Voice, text: &str) -> FontFamily<'static> {
    let names = fonts.families(voice, text).into_iter();
    FontFamily::List(names.map(|name| FontFamilyName::Named(name.to_owned().into())).collect::<Vec<_>>().into())
}
