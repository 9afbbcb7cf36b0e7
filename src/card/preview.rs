//! The picture that a chat or a forum shows beside a link: the name on the colour card's paper, three-tone chips, and
//! the photo of the model at the right, whole.

use std::cell::RefCell;

use image::imageops::FilterType;
use image::{DynamicImage, RgbImage};

use super::chips;
use super::flow::column_width;
use super::fonts::{Fonts, Voice};
use super::ink;
use super::pixels;
use super::setting::{Look, SetLine, Setter, Wanted};
use super::sheet::{At, Mark, Meaning};
use super::type_case::TypeCase;
use crate::work::Tones;

/// Width and height in pixels, as link previews want them (Open Graph, 1.91 : 1).
pub const PREVIEW_SIZE: (u32, u32) = (1200, 630);

const LEFT: f32 = 72.0;
const WIDTH: f32 = 1056.0;
/// The widest photo, in pixels.
const WIDEST_PHOTO: u32 = 504;
/// The space between words and photo.
const BESIDE: f32 = 44.0;
/// The most chips in a row.
const MOST_CHIPS: usize = 3;
/// The space between chips.
const GAP: f32 = 28.0;
/// Fewer chips than this are no wider.
const FEWEST_CHIPS: usize = 3;
/// More letters of a text than this never fit.
const MOST_LETTERS: usize = 240;

/// What a preview shows.
#[derive(Debug)]
pub(super) struct Preview<'a> {
    /// Small, above the title.
    pub(super) over: &'a str,
    /// The title.
    pub(super) title: &'a str,
    /// A sentence below it.
    pub(super) under: &'a str,
    /// Chips: how they are cut, what is below them, and their colours.
    pub(super) chips: Vec<(String, &'a str, Tones)>,
    /// The language of its words.
    pub(super) language: &'a str,
    /// The model.
    pub(super) photo: Option<&'a RgbImage>,
}

/// Draws a preview as PNG.
pub(super) fn draw(preview: &Preview<'_>, fonts: &Fonts) -> Option<Vec<u8>> {
    let photo = preview.photo.and_then(fitted);
    let width = photo.as_ref().map_or(WIDTH, |photo| room_beside(photo.width()));
    let case = RefCell::new(TypeCase::new(fonts));
    let mut page =
        Page { setter: Setter::new(fonts, preview.language, &case, Wanted::Glyphs), marks: Vec::new(), width };
    page.marks.push(Mark::line((LEFT, 118.0), (LEFT + width, 118.0), ink::INK, 2.0));
    page.marks.push(Mark::line((LEFT, 118.0), (LEFT + 120.0, 118.0), ink::MADDER, 8.0));
    page.put(preview.over, Look::new(Voice::Label, 34.0, ink::SOFT), (LEFT, 62.0), width, 1);
    let top = page.chips(preview);
    let low = page.title(preview.title);
    let look = Look::new(Voice::Text, 31.0, ink::SOFT);
    let room = (top - low - 32.0) / look.leading;
    let lines = (1..=2_u8).rev().find(|lines| f32::from(*lines) <= room);
    if let Some(lines) = lines {
        page.put(preview.under, look, (LEFT, low + 12.0), width, lines.into());
    }
    // The photo keeps its place at the right, and the words theirs beside it.
    let marks = page.setter.placed(page.marks, 2.0 * LEFT + width);
    pixels::png(PREVIEW_SIZE, ink::PAPER, &marks, photo.as_ref(), fonts)
}

/// A photo as large as the picture has room for, and nothing of it cut off.
fn fitted(photo: &RgbImage) -> Option<RgbImage> {
    let (wide, tall) = photo.dimensions();
    if wide == 0 || tall == 0 {
        return None;
    }
    let by_height = u64::from(wide) * u64::from(PREVIEW_SIZE.1) / u64::from(tall);
    let width = by_height.clamp(1, WIDEST_PHOTO.into());
    let height = (u64::from(tall) * width / u64::from(wide)).clamp(1, PREVIEW_SIZE.1.into());
    let [width, height] = [width, height].map(|side| u32::try_from(side).unwrap_or(1));
    Some(DynamicImage::from(photo.clone()).resize_exact(width, height, FilterType::CatmullRom).into_rgb8())
}

/// The width that a photo of so many pixels leaves for words.
fn room_beside(photo: u32) -> f32 {
    let wide = f32::from(u16::try_from(PREVIEW_SIZE.0 - photo.min(PREVIEW_SIZE.0)).unwrap_or_default());
    wide - LEFT - BESIDE
}

/// A picture in the making.
struct Page<'a> {
    setter: Setter<'a>,
    marks: Vec<Mark>,
    /// How wide the words may be.
    width: f32,
}

impl Page<'_> {
    /// Puts a text on at most so many lines; what is left over is given up for a `…`. Gives how far down it goes.
    fn put(&mut self, text: &str, look: Look, at: At, width: f32, most: usize) -> f32 {
        let mut y = at.1;
        for line in self.fitted(text, look, width, most) {
            let tall = line.height;
            self.marks.extend(line.marks((at.0, y), Meaning::Decoration));
            y += tall;
        }
        y
    }

    fn fitted(&mut self, text: &str, look: Look, width: f32, most: usize) -> Vec<SetLine> {
        let short: String = text.chars().take(MOST_LETTERS).collect();
        let whole = self.setter.set(&[(&short, look)], width);
        if whole.len() <= most && short.len() == text.len() {
            return whole;
        }
        let words: Vec<&str> = short.split_whitespace().collect();
        for count in (1..words.len()).rev() {
            let part = words.iter().take(count).copied().collect::<Vec<_>>().join(" ");
            let part = part.trim_end_matches([',', ';', '.', ':']);
            let lines = self.setter.set(&[(&format!("{part}…"), look)], width);
            if lines.len() <= most {
                return lines;
            }
        }
        self.cut(&short, look, width, most)
    }

    /// As much of the letters of a text as goes on some lines, where not even its first word does.
    fn cut(&mut self, text: &str, look: Look, width: f32, most: usize) -> Vec<SetLine> {
        let mut set = |ends: usize| self.setter.set(&[(&format!("{}…", &text[..ends]), look)], width);
        let ends: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
        let fitting = ends.partition_point(|end| set(*end).len() <= most);
        ends.get(fitting.saturating_sub(1)).map(|end| set(*end)).unwrap_or_default()
    }

    /// The whole title, as large as it goes.
    fn title(&mut self, title: &str) -> f32 {
        let look = |size: f32| Look { leading: size * 1.12, ..Look::new(Voice::Heading, size, ink::INK) };
        let short: String = title.chars().take(MOST_LETTERS).collect();
        // The smaller it is, the more lines there is room for.
        let sizes = [(80.0, 2), (70.0, 2), (56.0, 3), (44.0, 4), (34.0, 5)];
        let fits = |(size, lines): &(f32, usize)| self.setter.set(&[(&short, look(*size))], self.width).len() <= *lines;
        let (size, lines) = sizes.into_iter().find(fits).unwrap_or((34.0, 5));
        self.put(title, look(size), (LEFT, 146.0), self.width, lines)
    }

    /// The chips at the lower edge, each with a name; gives where they begin.
    fn chips(&mut self, preview: &Preview<'_>) -> f32 {
        let shown: Vec<_> = preview.chips.iter().take(MOST_CHIPS).collect();
        let wide = column_width(self.width, shown.len().max(FEWEST_CHIPS), GAP);
        let top = 630.0 - 70.0 - chips::height(wide) - 42.0;
        for (at, (cut, name, tones)) in (0_u8..).zip(shown) {
            let x = LEFT + f32::from(at) * (wide + GAP);
            self.marks.extend(chips::three_tone(cut, tones, wide, false).into_iter().map(|mark| mark.moved((x, top))));
            let label = Look::new(Voice::Label, 29.0, ink::INK);
            self.put(name, label, (x, top + chips::height(wide) + 6.0), wide, 1);
        }
        top
    }
}
