//! The film as a relief: one cut through a groove, a flat and a ridge, and every coat as a band that follows it.
//!
//! What is new is named at the side in the accent and underlined, what lay there before in ink, the model below is hatched. A coat is
//! drawn as what it does: a wash pools in the groove, a highlight caps the ridge, drybrushing lies in dots, a varnish is
//! a clear band with its light on top. Thicknesses are not to scale: they say which is more, and no figure is beside
//! them. The width and the ground are the same from step to step, so that one sees the film grow.

use std::fmt::Write as _;
use std::sync::LazyLock;

use super::cut_line::{BARE, FOOT, GROUND, Line, RIDGE, RIDGE_AT, bell, between, path};
use super::hand::figure;
use super::marked::escaped;
use crate::film::What;
use crate::measure::Colour;
use crate::theme::{SQUARE_FROM, label_width};

/// How wide the cut is.
const WIDE: f64 = 200.0;

/// Where its labels begin.
const LABELS: f64 = 216.0;

/// How wide the whole picture is.
const ALL: f64 = 340.0;

/// The most that all coats together rise above the flat.
const MOST: f64 = 52.0;

/// From one label to the next.
const LINE: f64 = 17.0;

/// The size of the letters: that of `.film` in the theme's style.
const SIZE: f64 = 17.0;

/// One coat in the relief.
#[derive(Debug, Clone)]
pub(crate) struct Band {
    /// What its label says.
    pub name: String,
    /// What one sees of it, predicted; `None` where it is unknown or clear.
    pub colour: Option<Colour>,
    /// How high it is drawn in the recess, on the face and on the edge; zero where it does not lie.
    pub high: [f64; 3],
    /// How many coats of it lie there.
    pub coats: u32,
    /// What it is.
    pub what: What,
    /// How it lies.
    pub lies: Lies,
    /// Whether this very step laid it.
    pub fresh: bool,
}

/// How a coat lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Lies {
    /// As a closed film.
    Closed,
    /// On what stands out, in dots.
    Dotted,
    /// In single places.
    Spotted,
    /// As a lens on the flat.
    Lens,
}

/// What lies on the coats of a relief, or was taken out of them.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Marks {
    /// Whether a mask lies on it.
    pub masked: bool,
    /// Whether it was chipped.
    pub chipped: bool,
}

/// The relief of some coats, from the bottom up, and what the model below is called. All reliefs of a scheme are drawn for
/// the highest of them, so that one sees the film grow. The words beside it say the same, so it is hidden from screen
/// readers.
pub(crate) fn relief(bands: &[Band], model: &str, marks: Marks, highest: f64) -> String {
    let Marks { masked, chipped } = marks;
    let scale = if highest > MOST { MOST / highest } else { 1.0 };
    let top = (GROUND - RIDGE - highest.min(MOST) - 12.0).floor();
    let mut drawing = Drawing { svg: String::new(), line: *BARE, scale, loose: Vec::new() };
    let _ =
        write!(drawing.svg, "<svg class=\"film\" viewBox=\"0 {top} {ALL} {}\" aria-hidden=\"true\">", FOOT + 2.0 - top);
    let mut pieces = Vec::new();
    let places: Vec<(f64, &Band)> = bands.iter().map(|band| (drawing.band(band, &mut pieces), band)).collect();
    // Each band is drawn down to the foot, the uppermost first, and the next over it: so one line is enough for a band.
    pieces.into_iter().rev().for_each(|piece| drawing.svg.push_str(&piece));
    drawing.svg.push_str(&MODEL);
    drawing.on_top(bands);
    drawing.surface();
    if masked {
        drawing.mask();
    }
    if chipped {
        drawing.chips();
    }
    drawing.labels(&places, model, FOOT - top);
    drawing.svg.push_str("</svg>");
    drawing.svg
}

/// The model below the paint: the same in every cut.
static MODEL: LazyLock<String> = LazyLock::new(model);

/// A band as a picture, down to the foot.
fn filled(band: &Band, below: &Line, above: &Line) -> String {
    let clear = matches!(band.what, What::Varnish | What::Resist | What::Fixer);
    let outline = above.down();
    let mut svg = match band.colour.filter(|_| !clear) {
        Some(colour) => format!("<path fill=\"{colour}\" d=\"{outline}\"/>"),
        None => format!("<path class=\"film-clear\" d=\"{outline}\"/>"),
    };
    // Coats of one product are parted by fine lines.
    let coats = band.coats.min(8);
    let parted = (1..coats).map(|coat| {
        let share = f64::from(coat) / f64::from(coats);
        path(below.changed(|at, _, low| low + (above.0[at] - low) * share).points())
    });
    let parted: String = parted.collect();
    if !parted.is_empty() {
        let _ = write!(svg, "<path class=\"film-coat\" d=\"{parted}\"/>");
    }
    if band.what == What::Varnish {
        let lit = above.points().map(|(x, y)| (x, y + 1.2));
        let _ = write!(svg, "<path class=\"film-light\" d=\"{}\"/>", path(lit));
    }
    svg
}

struct Drawing {
    svg: String,
    line: Line,
    scale: f64,
    /// The lines that what lies in dots and single places lies on.
    loose: Vec<Line>,
}

/// The model below the paint, hatched.
fn model() -> String {
    let ground = *BARE;
    let mut hatch = String::new();
    for at in 0..=28_u32 {
        // Slanting lines, each from the foot of the model up to its surface.
        let foot = f64::from(at) * 8.0 - 24.0;
        let inside: Vec<(f64, f64)> = ground
            .points()
            .map(|(x, y)| (x, FOOT - (x - foot), y))
            .filter(|(x, slant, y)| *x >= foot && slant > y)
            .map(|(x, slant, _)| (x, slant))
            .collect();
        if let (Some(first), Some(last)) = (inside.first(), inside.last()) {
            hatch.push_str(&path([*first, *last].into_iter()));
        }
    }
    format!("<path class=\"film-model\" d=\"{}\"/><path class=\"film-hatch\" d=\"{hatch}\"/>", ground.down())
}

impl Drawing {
    /// Lays a band, and gives the height at the right rim where its label points to.
    fn band(&mut self, band: &Band, pieces: &mut Vec<String>) -> f64 {
        let below = self.line;
        let rim = |line: &Line| line.0.last().copied().unwrap_or(GROUND);
        if !matches!(band.lies, Lies::Closed | Lies::Lens) {
            self.loose.push(below);
            return rim(&below);
        }
        let high = band.high.map(|high| high * self.scale);
        let above = below.changed(|at, x, y| y - lens(band, x).unwrap_or_else(|| between(high, at)));
        pieces.push(filled(band, &below, &above));
        let middle = f64::midpoint(rim(&below), rim(&above));
        self.line = above;
        if high[1] > 0.0 { middle } else { rim(&below) }
    }

    /// What lies in dots and single places, over the bands.
    fn on_top(&mut self, bands: &[Band]) {
        let lines = std::mem::take(&mut self.loose);
        let loose = bands.iter().filter(|band| !matches!(band.lies, Lies::Closed | Lies::Lens));
        for (band, line) in loose.zip(lines) {
            if band.lies == Lies::Dotted { self.dots(band, &line) } else { self.spots(band, &line) }
        }
        if bands.last().is_some_and(|band| matches!(band.what, What::Powder | What::Texture)) {
            let above = self.line;
            self.specks(&above);
        }
    }

    /// Drybrushing: dots on what stands out.
    fn dots(&mut self, band: &Band, below: &Line) {
        let dots: String = below
            .points()
            .enumerate()
            .filter(|(at, (x, _))| bell(*x, RIDGE_AT) > 0.35 || at % 7 == 3)
            .map(|(_, (x, y))| format!("M{} {}h.01", figure(x), figure(y - 1.6)))
            .collect();
        self.stroked("film-dots", band.colour, &dots);
    }

    /// Single places, such as an eye or a chip that is painted on.
    fn spots(&mut self, band: &Band, below: &Line) {
        let spots: String = below
            .points()
            .filter(|(x, _)| [88.0, 116.0, 152.0].iter().any(|spot| (x - spot).abs() < 4.1))
            .map(|(x, y)| format!("M{} {}h.01", figure(x), figure(y - 1.8)))
            .collect();
        self.stroked("film-spots", band.colour, &spots);
    }

    fn stroked(&mut self, class: &str, colour: Option<Colour>, path: &str) {
        let stroke = colour.map_or_else(|| "currentColor".to_owned(), |colour| colour.to_string());
        let _ = write!(self.svg, "<path class=\"{class}\" stroke=\"{stroke}\" d=\"{path}\"/>");
    }

    /// Powder and grit stand on the surface as specks.
    fn specks(&mut self, above: &Line) {
        let grains = above.points().enumerate().filter(|(at, _)| at % 3 != 1);
        let specks: String = grains
            .map(|(at, (x, y))| format!("M{} {}h.01", figure(x), figure(y - if at % 2 == 0 { 1.0 } else { 3.2 })))
            .collect();
        let _ = write!(self.svg, "<path class=\"film-specks\" d=\"{specks}\"/>");
    }

    fn surface(&mut self) {
        let _ = write!(self.svg, "<path class=\"film-top\" d=\"{}\"/>", path(self.line.points()));
    }

    /// A mask: a bar over everything.
    fn mask(&mut self) {
        let top = self.line.0.iter().copied().fold(f64::INFINITY, f64::min) - 8.0;
        let _ = write!(self.svg, "<path class=\"film-mask\" d=\"M2 {}H{}\"/>", figure(top), figure(WIDE - 2.0));
    }

    /// Chips: bites out of the surface.
    fn chips(&mut self) {
        let bites: String = self
            .line
            .points()
            .filter(|(x, _)| [92.0, 148.0, 160.0].iter().any(|bite| (x - bite).abs() < 2.1))
            .map(|(x, y)| format!("M{} {}l3 6 3-4 3 5 3-7z", figure(x - 6.0), figure(y - 1.0)))
            .collect();
        let _ = write!(self.svg, "<path class=\"film-bite\" d=\"{bites}\"/>");
    }

    /// The names at the side, the uppermost coat first, none over another; of more than find room the lowest are counted.
    fn labels(&mut self, places: &[(f64, &Band)], model: &str, room: f64) {
        let mut said: Vec<Label> = Vec::new();
        let mut known: Vec<&str> = Vec::new();
        for (at, band) in places.iter().rev() {
            // A product that lies there several times is named once, where it lies the highest.
            if !known.contains(&band.name.as_str()) {
                known.push(&band.name);
                said.push((*at, band.name.clone(), if band.fresh { "film-name film-fresh" } else { "film-name" }));
            }
        }
        // A line may stand out above the picture.
        fit(&mut said, room);
        said.push((f64::midpoint(GROUND, FOOT) + 6.0, model.to_owned(), "film-name film-under"));
        let lines: Vec<Vec<String>> = said.iter().map(|(_, name, _)| wrapped(name)).collect();
        let needed: f64 = lines.iter().map(|lines| lines.len() as f64 * LINE).sum();
        let first = (FOOT - needed).min(GROUND - RIDGE - 20.0) + 12.0;
        let heights: Vec<f64> = lines.iter().map(|lines| lines.len() as f64 * LINE).collect();
        let wanted: Vec<f64> = said.iter().map(|(at, ..)| *at + 5.0).collect();
        let places = spread(&wanted, &heights, first, FOOT - 2.0 + LINE);
        for (((at, name, class), lines), y) in said.iter().zip(&lines).zip(places) {
            let from_right = runs_from_right(name);
            // The second line is there even if it is empty: how a name breaks never changes what the picture is made of.
            let line = |row: usize| lines.get(row).map(|line| written(line, from_right)).unwrap_or_default();
            let named = format!("{}<tspan x=\"{LABELS}\" dy=\"{LINE}\">{}</tspan>", line(0), line(1));
            let _ = write!(
                self.svg,
                "<path class=\"{}film-lead\" d=\"M{WIDE} {}H{}L{} {}\"/><text class=\"{class}\" x=\"{LABELS}\" y=\"{}\">{named}</text>",
                class.strip_prefix("film-name ").map(|more| format!("{more} ")).unwrap_or_default(),
                figure(*at),
                WIDE + 5.0,
                LABELS - 4.0,
                figure(y - 5.0),
                figure(y)
            );
        }
    }
}

/// A name with the height that it belongs to, and its class.
type Label = (f64, String, &'static str);

/// Takes out the names of the lowest coats, and says how many, where all together are higher than the room for them. What
/// is new stays.
fn fit(said: &mut Vec<Label>, room: f64) {
    let height = |label: &Label| wrapped(&label.1).len() as f64 * LINE;
    let mut all: f64 = said.iter().map(height).sum();
    let mut left_out: Option<(f64, usize)> = None;
    while all + LINE * f64::from(u8::from(left_out.is_some())) > room {
        let Some(at) = said.iter().rposition(|(.., class)| *class == "film-name") else { break };
        let lowest = said.remove(at);
        all -= height(&lowest);
        left_out = Some(left_out.map_or((lowest.0, 1), |(place, count)| (place, count + 1)));
    }
    said.extend(left_out.map(|(place, count)| (place, format!("+ {count}"), "film-name")));
}

/// Labels one below the other, each as near to its place as the others leave it, between a first and a last line.
fn spread(wanted: &[f64], heights: &[f64], first: f64, end: f64) -> Vec<f64> {
    let mut next = first;
    let down = wanted.iter().zip(heights).map(|(wanted, height)| {
        let place = next.max(*wanted);
        next = place + height;
        place
    });
    let mut places: Vec<f64> = down.collect();
    let mut room = end;
    for (place, height) in places.iter_mut().zip(heights).rev() {
        *place = place.min(room - height);
        room = *place;
    }
    places
}

/// A decal is a lens on the flat between groove and ridge.
fn lens(band: &Band, x: f64) -> Option<f64> {
    if band.lies != Lies::Lens {
        return None;
    }
    let away = (x - 102.0) / 18.0;
    Some(if away.abs() < 1.0 { 5.0 * (1.0 - away * away) } else { 0.0 })
}

/// A name on at most two lines; what does not go there ends in an ellipsis.
fn wrapped(name: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in name.split_whitespace().flat_map(broken) {
        match lines.last_mut().filter(|line| fits(&format!("{line} {word}"))) {
            Some(line) => {
                line.push(' ');
                line.push_str(&word);
            }
            None => lines.push(word),
        }
    }
    if lines.len() > 2 {
        lines.truncate(2);
        if let Some(last) = lines.last_mut() {
            while last.ends_with('-') || !fits(&format!("{last}…")) {
                last.pop();
            }
            last.push('…');
        }
    }
    lines
}

/// A line of a name as markup. The drawing runs from the left: a name that does not keeps its own way (UAX #9, isolates),
/// so that its ellipsis is where it was cut.
fn written(line: &str, from_right: bool) -> String {
    let line = escaped(line);
    if from_right && !line.is_empty() { format!("\u{2067}{line}\u{2069}") } else { line }
}

/// Whether the first letter of a name is of a script that runs from right to left (UAX #9, rule P2; the ranges that its
/// class file gives to such scripts).
fn runs_from_right(name: &str) -> bool {
    let first = name.chars().find(|letter| letter.is_alphabetic());
    first.is_some_and(|letter| {
        matches!(letter, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}' | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')
    })
}

/// Whether a text goes on a line of a label.
fn fits(text: &str) -> bool {
    label_width(text) * SIZE <= ALL - LABELS
}

/// A word as it stands where it goes on a line; a longer one in pieces that do.
fn broken(word: &str) -> Vec<String> {
    if fits(word) {
        return vec![word.to_owned()];
    }
    let (mut pieces, mut piece) = (Vec::new(), String::new());
    for letter in word.chars() {
        let hyphen = if letter < SQUARE_FROM { "-" } else { "" };
        if !piece.is_empty() && !fits(&format!("{piece}{letter}{hyphen}")) {
            pieces.push(std::mem::take(&mut piece) + hyphen);
        }
        piece.push(letter);
    }
    pieces.push(piece);
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    fn band(name: &str, high: [f64; 3], what: What, fresh: bool) -> Band {
        Band {
            name: name.to_owned(),
            colour: Some(Colour([200, 120, 30])),
            high,
            coats: 1,
            what,
            lies: Lies::Closed,
            fresh,
        }
    }

    #[test]
    fn what_is_new_is_named_in_the_accent_and_a_product_once() {
        let bands = [
            band("Black", [4.0; 3], What::Ground, false),
            band("Gold", [4.0; 3], What::Colour, false),
            band("Amber & rust", [4.0; 3], What::Tint, true),
            band("Gold", [0.0, 0.0, 3.0], What::Colour, false),
        ];
        let drawn = relief(&bands, "the model", Marks::default(), 20.0);
        assert_eq!(drawn.matches(">Gold<").count(), 1);
        assert!(drawn.contains("film-name film-fresh\" x=") && drawn.contains("Amber &amp; rust"));
        assert!(drawn.contains("the model"));
    }

    #[test]
    fn a_wash_lies_deeper_in_the_groove_than_on_the_flat() {
        let line = |high| {
            let mut drawing = Drawing { svg: String::new(), line: *BARE, scale: 1.0, loose: Vec::new() };
            drawing.band(&band("Wash", high, What::Shade, true), &mut Vec::new());
            let rise = |at: usize| BARE.0[at] - drawing.line.0[at];
            (rise(10), rise(20), rise(30))
        };
        let (groove, flat, ridge) = line([9.0, 1.0, 0.0]);
        assert!(groove > 8.0 && flat < 2.0 && ridge < 0.5, "{groove} {flat} {ridge}");
    }

    #[test]
    fn labels_stand_apart_and_inside_the_picture() {
        let places = spread(&[20.0, 22.0, 118.0, 130.0], &[15.0, 30.0, 15.0, 15.0], 10.0, 130.0);
        assert_eq!(places, [20.0, 35.0, 100.0, 115.0]);
    }

    #[test]
    fn more_names_than_find_room_are_counted() {
        let name = |at: u8, class| (f64::from(at), format!("Paint {at}"), class);
        let mut said: Vec<Label> = (0..9).map(|at| name(at, "film-name")).collect();
        said[8].2 = "film-name film-fresh";
        fit(&mut said, 5.0 * LINE);
        let names: Vec<&str> = said.iter().map(|(_, name, _)| name.as_str()).collect();
        assert_eq!(names, ["Paint 0", "Paint 1", "Paint 2", "Paint 8", "+ 5"]);
        let mut few = vec![name(1, "film-name")];
        fit(&mut few, 5.0 * LINE);
        assert_eq!(few.len(), 1);
    }

    #[test]
    fn a_long_name_takes_two_lines() {
        assert_eq!(wrapped("Pale Lamp Gold"), ["Pale Lamp Gold"]);
        assert_eq!(wrapped("Osk Levelling Thinner for Reeds and more"), ["Osk Levelling", "Thinner for Reeds…"]);
    }

    #[test]
    fn a_name_that_runs_from_the_right_keeps_its_way_with_its_dots() {
        let of = |name: &str| relief(&[band(name, [4.0; 3], What::Colour, false)], "the model", Marks::default(), 20.0);
        let drawn = of("أسود المستنقع العميق جدا مع كلمات أخرى كثيرة");
        let lines: Vec<&str> =
            drawn.split('\u{2067}').skip(1).filter_map(|line| line.split('\u{2069}').next()).collect();
        assert!(lines.len() == 2 && lines[1].ends_with('…'), "{lines:?}");
        assert!(drawn.contains(">the model<"));
        assert!(!of("Osk أسود").contains('\u{2067}') && !of("沼の苔色").contains('\u{2067}'));
        assert!(of("12 שחור").contains("\u{2067}12 שחור\u{2069}"));
    }

    #[test]
    fn no_line_of_a_name_is_wider_than_its_room() {
        let long = "Moorwasserdunkelgrünblau";
        let lines = wrapped(long);
        assert!(lines.len() == 2 && lines[0].ends_with('-'), "{lines:?}");
        assert_eq!(lines.concat().replace('-', ""), long);
        let longer = "Moorwasserdunkelgrünblauschattierung";
        assert!(wrapped(longer)[1].ends_with('…'), "{:?}", wrapped(longer));
        for name in [
            long,
            longer,
            "WWWWWWWWWWWWWWWWWWWWWW and more of it",
            "沼の苔色の古い鎧と青い旗の色",
            "Pale WWWWWWWWWWWW-2027",
        ] {
            let lines = wrapped(name);
            assert!(lines.len() <= 2 && lines.iter().all(|line| fits(line)), "{lines:?}");
        }
    }
}
