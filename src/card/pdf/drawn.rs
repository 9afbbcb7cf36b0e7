//! What is drawn on a sheet, in the words of a PDF (ISO 32000-1, 8 and 9). Colours, widths and fonts are said where they
//! change, and lengths to a hundredth of a point.

use std::collections::BTreeMap;
use std::sync::Arc;

use pdf_writer::types::ArtifactType;
use pdf_writer::{Content, Finish as _, Name, Settings, Str, TextStr};

use crate::card::cut_font::{CutFont, Letter};
use crate::card::sheet::{At, Glyph, Mark, Meaning, Paint, PaperPhoto, Run, Shape, What};
use crate::measure::Colour;

/// What a glyph stands nearer or further is said from so many thousandths of the size on: a fiftieth of a point in type of
/// ten points. What is less is kept for the glyphs behind it.
const LEAST: f32 = 2.0;

/// No spaces that only people need.
pub(super) const SHORT: Settings = Settings { pretty: false };

/// A sheet as it is drawn.
pub(super) struct Drawn {
    /// The words.
    pub(super) content: Vec<u8>,
    /// The pieces of the text that were drawn, by the numbers under which they were.
    pub(super) pieces: Vec<usize>,
}

/// What a font is called on the sheets.
pub(super) fn font_name(at: usize) -> String {
    format!("f{at}")
}

/// What a photo is called on the sheets.
pub(super) fn photo_name(at: usize) -> String {
    format!("p{at}")
}

/// Draws the marks of a sheet of some height, where so many photos were drawn before.
pub(super) fn draw(marks: &[Mark], height: f32, fonts: &BTreeMap<usize, Arc<CutFont>>, photos: usize) -> Drawn {
    let content = Content::with_settings_and_capacity(SHORT, 1 << 16);
    let mut pen = Pen { content, height, fonts, photos, fill: None, stroke: None, font: None, at: None };
    let mut pieces = Vec::new();
    for marks in marks.chunk_by(|one, other| one.meaning == other.meaning) {
        let Some(first) = marks.first() else { continue };
        match first.meaning {
            Meaning::Decoration => pen.begin_artifact(ArtifactType::Layout),
            Meaning::Margin => pen.begin_artifact(ArtifactType::Pagination),
            Meaning::Piece(piece) => {
                pen.begin_piece(matches!(first.what, What::Text(_)), i32::try_from(pieces.len()).unwrap_or(i32::MAX));
                pieces.push(piece);
            }
        }
        for mark in marks {
            match &mark.what {
                What::Text(run) => pen.text(run),
                What::Shape(shape) => pen.shape(shape),
                What::Photo(photo) => pen.photo(photo),
            }
        }
        pen.end_text();
        pen.content.end_marked_content();
    }
    Drawn { content: pen.content.finish().into_vec(), pieces }
}

/// What draws, and what it drew with last.
struct Pen<'a> {
    content: Content,
    /// The height of the sheet: a PDF counts from below.
    height: f32,
    fonts: &'a BTreeMap<usize, Arc<CutFont>>,
    photos: usize,
    fill: Option<Colour>,
    stroke: Option<(Colour, f32)>,
    font: Option<(usize, f32)>,
    /// Where the last line of a text began, as long as texts follow each other.
    at: Option<At>,
}

impl Pen<'_> {
    fn begin_artifact(&mut self, kind: ArtifactType) {
        self.content.begin_marked_content_with_properties(Name(b"Artifact")).properties().artifact().kind(kind);
    }

    fn begin_piece(&mut self, is_text: bool, number: i32) {
        let tag = Name(if is_text { b"Span" } else { b"P" });
        self.content.begin_marked_content_with_properties(tag).properties().identify(number);
    }

    fn end_text(&mut self) {
        if self.at.take().is_some() {
            self.content.end_text();
        }
    }

    fn fill_with(&mut self, colour: Colour) {
        if self.fill.replace(colour) != Some(colour) {
            let [red, green, blue] = parts(colour);
            self.content.set_fill_rgb(red, green, blue);
        }
    }

    fn draw_with(&mut self, colour: Colour, width: f32) {
        let before = self.stroke.replace((colour, width));
        if before.is_none_or(|(last, _)| last != colour) {
            let [red, green, blue] = parts(colour);
            self.content.set_stroke_rgb(red, green, blue);
        }
        if before.is_none_or(|(_, last)| last.to_bits() != width.to_bits()) {
            self.content.set_line_width(width);
        }
    }

    fn photo(&mut self, photo: &PaperPhoto) {
        self.end_text();
        let ((x, y), (wide, tall)) = (photo.at, photo.size);
        self.content.save_state();
        let place = [wide, 0.0, 0.0, tall, x, self.height - y - tall].map(fine);
        self.content.transform(place).x_object(Name(photo_name(self.photos).as_bytes()));
        self.content.restore_state();
        self.photos += 1;
    }

    fn shape(&mut self, shape: &Shape) {
        self.end_text();
        let closed = !matches!(shape.paint, Paint::Line(..));
        match shape.paint {
            Paint::Fill(colour) => self.fill_with(colour),
            Paint::Outline(colour, width) | Paint::Line(colour, width) => self.draw_with(colour, width),
        }
        let mut any = false;
        for outline in &shape.outlines {
            any |= self.outline(outline, closed);
        }
        match shape.paint {
            _ if !any => {}
            Paint::Fill(_) => drop(self.content.fill_even_odd()),
            Paint::Outline(..) | Paint::Line(..) => drop(self.content.stroke()),
        }
    }

    /// One outline; whether there is any.
    fn outline(&mut self, outline: &[At], closed: bool) -> bool {
        let up = |y: f32| fine(self.height - y);
        if let ([(left, top), .., (_, bottom)], true) = (outline, closed && is_rectangle(outline)) {
            let right = outline[1].0;
            let (left, bottom, top) = (fine(*left), up(*bottom), up(*top));
            self.content.rect(left, bottom, fine(fine(right) - left), fine(top - bottom));
            return true;
        }
        let Some(((x, y), rest)) = outline.split_first() else { return false };
        self.content.move_to(fine(*x), up(*y));
        for (x, y) in rest {
            self.content.line_to(fine(*x), fine(self.height - y));
        }
        if closed {
            self.content.close_path();
        }
        !rest.is_empty()
    }

    fn text(&mut self, run: &Run) {
        let fonts = self.fonts;
        let Some(font) = fonts.get(&run.font) else { return };
        if self.at.is_none() {
            self.content.begin_text();
            self.at = Some((0.0, 0.0));
        }
        self.fill_with(run.colour);
        if self.font.replace((run.font, run.size)) != Some((run.font, run.size)) {
            self.content.set_font(Name(font_name(run.font).as_bytes()), run.size);
        }
        let from_right = reads_from_right(&run.glyphs);
        let mut x = run.at.0;
        let parts = Parts { rest: &run.glyphs, run, font, from_right };
        for part in parts {
            if let Some(text) = part.says {
                let mut span = self.content.begin_marked_content_with_properties(Name(b"Span"));
                span.properties().actual_text(TextStr(text));
            }
            if from_right {
                self.content.begin_marked_content(Name(b"ReversedChars"));
            }
            for level in part.glyphs.chunk_by(|one, other| one.moved.1.to_bits() == other.moved.1.to_bits()) {
                self.move_to((x, run.at.1 - level[0].moved.1));
                show(&mut self.content, level, run.size, font);
                x += level.iter().map(|glyph| glyph.advance).sum::<f32>();
            }
            if from_right {
                self.content.end_marked_content();
            }
            if part.says.is_some() {
                self.content.end_marked_content();
            }
        }
    }

    /// Begins a line of text at a place: a PDF counts from where the last one began.
    fn move_to(&mut self, (x, y): At) {
        let (x, y) = (fine(x), fine(self.height - y));
        let last = self.at.replace((x, y)).unwrap_or_default();
        self.content.next_line(fine(x - last.0), fine(y - last.1));
    }
}

/// Shows glyphs of one line, with what each stands nearer or further than its font has it. What is lost by rounding that to
/// a thousandth of the size is made good with the next glyph.
fn show(content: &mut Content, glyphs: &[Glyph], size: f32, font: &CutFont) {
    let thousandths = |length: f32| length / size * 1000.0;
    let (mut numbers, mut due) = (Vec::with_capacity(glyphs.len() * 2), 0.0_f32);
    let mut shown = content.show_positioned();
    let mut items = shown.items();
    for glyph in glyphs {
        let Some(letter) = font.letter(glyph.id) else { continue };
        let aside = thousandths(glyph.moved.0);
        due += aside;
        let whole = due.round();
        if whole.abs() >= LEAST {
            if !numbers.is_empty() {
                items.show(Str(&numbers));
                numbers.clear();
            }
            items.adjust(-whole);
            due -= whole;
        }
        numbers.extend(letter.number.to_be_bytes());
        due += thousandths(glyph.advance) - letter.width - aside;
    }
    if !numbers.is_empty() {
        items.show(Str(&numbers));
    }
    items.finish();
}

/// Whether a text is read from the right: what its glyphs show goes back from each to the next.
fn reads_from_right(glyphs: &[Glyph]) -> bool {
    glyphs.len() > 1 && glyphs.windows(2).all(|two| two[0].range.start >= two[1].range.end)
}

/// Glyphs that follow each other.
struct Part<'a> {
    glyphs: &'a [Glyph],
    /// The text that they show together, where it is not what each says by itself.
    says: Option<&'a str>,
}

/// A line of text in parts that are written in one go: such as say by themselves what they show, and such as need a word
/// beside them, because one letter is several glyphs, or a glyph shows here what it does not show elsewhere.
struct Parts<'a> {
    rest: &'a [Glyph],
    run: &'a Run,
    font: &'a CutFont,
    from_right: bool,
}

impl<'a> Parts<'a> {
    /// The first glyphs that show the same letters of the text, and what they say if they don't say it by themselves.
    fn first(&self, glyphs: &'a [Glyph]) -> Option<Part<'a>> {
        let range = &glyphs.first()?.range;
        let together = glyphs.iter().take_while(|glyph| glyph.range == *range).count();
        let text = self.run.text.get(range.clone()).unwrap_or_default();
        let plain = together == 1 && self.font.letter(glyphs[0].id).is_some_and(|letter| says(letter, text));
        Some(Part { glyphs: &glyphs[..together], says: (!plain).then_some(text) })
    }
}

impl<'a> Iterator for Parts<'a> {
    type Item = Part<'a>;

    fn next(&mut self) -> Option<Part<'a>> {
        let mut part = self.first(self.rest)?;
        if part.says.is_none() {
            let mut length = part.glyphs.len();
            while let Some(next) = self.first(&self.rest[length..]).filter(|next| next.says.is_none()) {
                length += next.glyphs.len();
                // Read from the right, no space stands inside (ISO 32000-1, 14.8.2.3.3).
                let is_space = self.run.text.get(next.glyphs[0].range.clone()) == Some(" ");
                if self.from_right && is_space {
                    break;
                }
            }
            part.glyphs = &self.rest[..length];
        }
        self.rest = &self.rest[part.glyphs.len()..];
        Some(part)
    }
}

/// Whether a glyph says by itself that it shows a text. One kind of space is as good as another.
fn says(letter: &Letter, text: &str) -> bool {
    let is_space = |text: &str| text.chars().all(char::is_whitespace) && !text.is_empty();
    letter.text == text || is_space(&letter.text) && is_space(text)
}

/// Whether an outline is a rectangle as `sheet::rectangle` makes it.
fn is_rectangle(outline: &[At]) -> bool {
    let [a, b, c, d] = outline else { return false };
    let same = |one: f32, other: f32| one.to_bits() == other.to_bits();
    same(a.1, b.1) && same(b.0, c.0) && same(c.1, d.1) && same(d.0, a.0)
}

/// A length in hundredths of a point, which no printer shows.
fn fine(length: f32) -> f32 {
    (length * 100.0).round() / 100.0
}

/// A colour in parts of 1, fine enough for 255 steps.
fn parts(colour: Colour) -> [f32; 3] {
    colour.0.map(|byte| (f32::from(byte) / 255.0 * 1000.0).round() / 1000.0)
}
