//! The shapes that a card is drawn with: three-tone chips with a pattern for each zone, so that a black and white
//! printer tells them apart; the warning triangle; boxes to tick; and the QR code.

use qrcodegen::{QrCode, QrCodeEcc};

use super::ink::{self, between};
use super::sheet::{At, Mark, Meaning, Paint, Shape, What, rectangle};
use super::strokes::strokes;
use crate::draw;
use crate::measure::Colour;
use crate::trade::{Kind, Zone};
use crate::work::Tones;

const WHITE: Colour = Colour([255; 3]);
/// From line to line of a hatching, in points.
const HATCH: f32 = 3.2;

/// The chip of an area, with its upper left corner at the origin.
pub(super) fn three_tone(name: &str, tones: &Tones, width: f32, patterns: bool) -> Vec<Mark> {
    let scale = width / 160.0;
    let mut marks = Vec::new();
    let zones = [(Zone::Recesses, tones.recesses), (Zone::Faces, tones.faces), (Zone::Edges, tones.edges)];
    let fields = draw::tone_fields(name);
    if let (Some(_), Some(faces), Some(_)) = (tones.recesses, tones.faces, tones.edges) {
        // One colour under all three, so that no paper shows through where they meet.
        let whole = [fields[0][0], fields[2][1], fields[2][2], fields[0][3]].map(|corner| scaled(corner, scale));
        marks.push(Mark::decoration(vec![whole.to_vec()], Paint::Fill(faces)));
    }
    for (field, (zone, tone)) in fields.iter().zip(zones) {
        let corners: Vec<At> = field.iter().map(|corner| scaled(*corner, scale)).collect();
        marks.push(match tone {
            Some(colour) => Mark::decoration(vec![corners.clone()], Paint::Fill(colour)),
            None => Mark::decoration(vec![corners.clone()], Paint::Outline(ink::SOFT, 0.5)),
        });
        if zone == Zone::Faces
            && let Some(colour) = tone.filter(|_| tones.metallic)
        {
            let sheen = [(92.0, 4.0), (104.0, 4.0), (68.0, 56.0), (56.0, 56.0)].map(|at| scaled(at, scale));
            marks.push(Mark::decoration(vec![sheen.to_vec()], Paint::Fill(between(colour, WHITE, 0.3))));
        }
        if zone == Zone::Faces {
            let spot = |(blob, colour): (Vec<(f64, f64)>, Colour)| {
                let corners = blob.into_iter().map(|at| scaled(at, scale)).collect();
                Mark::decoration(vec![corners], Paint::Fill(colour))
            };
            marks.extend(draw::pattern_on(tones).into_iter().map(spot));
        }
        // What looks like the faces is one field with them.
        if patterns && is_marked(zone, tones) {
            marks.extend(pattern(&corners, zone, tone));
        }
    }
    marks
}

/// Whether a zone is marked by a pattern on the chip.
pub(super) fn is_marked(zone: Zone, tones: &Tones) -> bool {
    match zone {
        Zone::Recesses => tones.recesses != tones.faces,
        Zone::Faces => false,
        Zone::Edges => tones.edges != tones.faces,
    }
}

/// How high a chip of a width is.
pub(super) fn height(width: f32) -> f32 {
    width * 60.0 / 160.0
}

fn scaled((x, y): (f64, f64), scale: f32) -> At {
    #[expect(clippy::cast_possible_truncation, reason = "a place on a sheet needs no more than seven digits")]
    let at = (x as f32 * scale, y as f32 * scale);
    at
}

/// The key of a zone: a small square with its pattern.
pub(super) fn key(zone: Zone, side: f32) -> Vec<Mark> {
    let corners = rectangle((0.0, 0.0), side, side);
    let mut marks = vec![Mark::decoration(vec![corners.clone()], Paint::Outline(ink::SOFT, 0.5))];
    marks.extend(pattern(&corners, zone, None));
    marks
}

/// Recesses are hatched, faces plain, edges dotted.
fn pattern(corners: &[At], zone: Zone, ground: Option<Colour>) -> Option<Mark> {
    let colour = match ground {
        Some(colour) if colour.lightness() < 55.0 => between(colour, WHITE, 0.55),
        Some(colour) => between(colour, ink::INK, 0.6),
        None => ink::SOFT,
    };
    match zone {
        Zone::Recesses => Some(Mark::decoration(hatching(corners), Paint::Line(colour, 0.45))),
        Zone::Faces => None,
        Zone::Edges => Some(Mark::decoration(dots(corners), Paint::Fill(colour))),
    }
}

/// The box around some corners: left, top, right, bottom.
fn bounds(corners: &[At]) -> [f32; 4] {
    let least = |value: fn(&At) -> f32| corners.iter().map(value).fold(f32::INFINITY, f32::min);
    let most = |value: fn(&At) -> f32| corners.iter().map(value).fold(f32::NEG_INFINITY, f32::max);
    [least(|at| at.0), least(|at| at.1), most(|at| at.0), most(|at| at.1)]
}

/// Rising lines, cut at the edges of a polygon without dents.
fn hatching(corners: &[At]) -> Vec<Vec<At>> {
    let [left, top, right, bottom] = bounds(corners);
    let mut lines = Vec::new();
    let mut sum = left + top + HATCH / 2.0;
    while sum < right + bottom {
        // The points of a rising line all have the same x + y.
        let crossings: Vec<At> = sides(corners).filter_map(|(from, to)| crossing(from, to, sum)).collect();
        if let (Some(first), Some(last)) = (
            crossings.iter().copied().min_by(|one, other| one.0.total_cmp(&other.0)),
            crossings.iter().copied().max_by(|one, other| one.0.total_cmp(&other.0)),
        ) {
            lines.push(vec![first, last]);
        }
        sum += HATCH * std::f32::consts::SQRT_2;
    }
    lines
}

fn sides(corners: &[At]) -> impl Iterator<Item = (At, At)> + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

fn crossing(from: At, to: At, sum: f32) -> Option<At> {
    let (start, end) = (from.0 + from.1, to.0 + to.1);
    let part = (sum - start) / (end - start);
    (part.is_finite() && (0.0..=1.0).contains(&part))
        .then_some((from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part))
}

/// Dots in every place of a grid that lies well inside a polygon.
fn dots(corners: &[At]) -> Vec<Vec<At>> {
    const SIDE: f32 = 0.9;
    let [left, top, right, bottom] = bounds(corners);
    let mut dots = Vec::new();
    let mut y = top + HATCH / 2.0;
    let mut odd = false;
    while y < bottom {
        let mut x = left + if odd { HATCH } else { HATCH / 2.0 };
        while x < right {
            let dot = rectangle((x - SIDE / 2.0, y - SIDE / 2.0), SIDE, SIDE);
            if dot.iter().all(|corner| inside(corners, *corner)) {
                dots.push(dot);
            }
            x += HATCH;
        }
        y += HATCH * 0.9;
        odd = !odd;
    }
    dots
}

/// Whether a point lies inside a polygon without dents: on the same side of all its sides.
fn inside(corners: &[At], at: At) -> bool {
    let turn = |(from, to): (At, At)| (to.0 - from.0) * (at.1 - from.1) - (to.1 - from.1) * (at.0 - from.0);
    sides(corners).all(|side| turn(side) >= 0.0) || sides(corners).all(|side| turn(side) <= 0.0)
}

/// The warning triangle, so many points wide.
pub(super) fn triangle(width: f32) -> Vec<Mark> {
    let at = |x: f32, y: f32| (x * width / 32.0, y * width / 32.0);
    let outline = vec![at(16.0, 2.5), at(30.0, 26.0), at(2.0, 26.0)];
    let stem = vec![at(14.4, 9.5), at(17.6, 9.5), at(17.0, 18.6), at(15.0, 18.6)];
    let dot = rectangle(at(14.4, 20.2), width * 3.2 / 32.0, width * 3.0 / 32.0);
    vec![
        Mark::decoration(vec![outline], Paint::Outline(ink::INK, width * 2.4 / 32.0)),
        Mark::decoration(vec![stem, dot], Paint::Fill(ink::INK)),
    ]
}

/// A product in a mix, so many points high: a brush-out in its colour with a frame around it, so that white is seen on
/// paper; what has no colour by what it is for.
pub(super) fn swatch(kind: Kind, colour: Option<Colour>, tall: f32) -> Vec<Mark> {
    let at = |x: f32, y: f32| (x * tall / 8.0, y * tall / 8.0);
    let corners = vec![at(0.3, 0.5), at(12.8, 0.0), at(13.2, 7.6), at(0.0, 8.0)];
    let frame = |width: f32| Mark::decoration(vec![corners.clone()], Paint::Outline(ink::SOFT, width));
    match (draw::kind_outline(kind), colour) {
        (Some(outline), None) => {
            let side = tall * 1.25;
            let drawn = Mark::decoration(strokes(outline, side), Paint::Line(ink::SOFT, side / 15.0));
            vec![drawn.moved((0.0, (tall - side) / 2.0))]
        }
        (_, Some(colour)) => vec![Mark::decoration(vec![corners.clone()], Paint::Fill(colour)), frame(0.6)],
        (None, None) => vec![frame(0.6)],
    }
}

/// A box to tick.
pub(super) fn tick_box(side: f32) -> Mark {
    Mark::decoration(vec![rectangle((0.0, 0.0), side, side)], Paint::Outline(ink::SOFT, 0.6))
}

/// The longest address that makes a code coarse enough for the camera of a phone, in bytes.
const LONGEST_ADDRESS: usize = 200;

/// The QR code of an address as rectangles in a square whose side is 1; none where the address is too long.
pub(super) fn qr_code(address: &str) -> Option<Vec<Vec<At>>> {
    let short = Some(address).filter(|address| address.len() <= LONGEST_ADDRESS)?;
    let code = QrCode::encode_text(short, QrCodeEcc::Medium).ok()?;
    let across = u16::try_from(code.size()).ok()?;
    let module = f32::from(across).recip();
    let mut outlines = Vec::new();
    for row in 0..across {
        let line: Vec<bool> = (0..across).map(|column| code.get_module(column.into(), row.into())).collect();
        let mut column = 0_u16;
        for run in line.chunk_by(|one, other| one == other) {
            let length = u16::try_from(run.len()).ok()?;
            if run.first() == Some(&true) {
                let at = (f32::from(column) * module, f32::from(row) * module);
                outlines.push(rectangle(at, f32::from(length) * module, module));
            }
            column += length;
        }
    }
    Some(outlines)
}

/// A code as one piece of the text, so long on a side.
pub(super) fn code_mark(code: &[Vec<At>], side: f32, piece: usize) -> Mark {
    let scaled = |outline: &Vec<At>| outline.iter().map(|(x, y)| (x * side, y * side)).collect();
    let shape = Shape { outlines: code.iter().map(scaled).collect(), paint: Paint::Fill(ink::INK) };
    Mark { what: What::Shape(shape), meaning: Meaning::Piece(piece) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn patterns_stay_inside_their_field() {
        let corners = [(0.0, 0.0), (20.0, 1.0), (19.0, 12.0), (1.0, 11.0)];
        let lines = hatching(&corners);
        assert!(lines.len() > 3);
        let close = |at: &At| inside(&corners, (at.0 * 0.999 + 0.01, at.1 * 0.999 + 0.006));
        assert!(lines.iter().flatten().all(close), "{lines:?}");
        assert!(dots(&corners).len() > 10);
    }

    #[test]
    fn an_address_that_is_too_long_for_a_phone_gets_no_code() {
        assert!(qr_code("https://guides.example/fen/").is_some());
        assert!(qr_code(&"x".repeat(3000)).is_none());
    }
}
