//! The three-tone chip of an area: recess, face and edge side by side.

use super::hand::{Hand, figure, points};
use crate::measure::Colour;
use crate::work::Tones;

/// The chip of an area in predicted colours; a zone whose colour is unknown is struck through.
///
/// It is hidden from screen readers: the page says the same in words around it.
pub(crate) fn three_tone(name: &str, tones: &Tones) -> String {
    let mut svg = String::from("<svg class=\"tones\" viewBox=\"-1 0 162 60\" aria-hidden=\"true\">");
    for (corners, tone) in tone_fields(name).iter().zip([tones.recesses, tones.faces, tones.edges]) {
        svg.push_str(&field(corners, tone));
    }
    for (blob, colour) in pattern_on(tones) {
        svg.extend(["<polygon fill=\"", &colour.to_string(), "\" points=\"", &points(&blob), "\"/>"]);
    }
    if tones.metallic {
        svg.push_str("<path fill=\"#fff\" fill-opacity=\".25\" d=\"M92 4h12L68 56H56z\"/>");
    }
    svg.push_str("</svg>");
    svg
}

/// The spots of a pattern on the field of the faces, in the chip's own units, each with its colour.
pub(crate) fn pattern_on(tones: &Tones) -> Vec<(Vec<(f64, f64)>, Colour)> {
    const LEFT: &[(f64, f64)] = &[
        (48.0, 20.0),
        (58.0, 8.0),
        (75.0, 12.0),
        (80.0, 23.0),
        (71.0, 30.0),
        (77.0, 42.0),
        (64.0, 52.0),
        (53.0, 44.0),
        (57.0, 31.0),
    ];
    const RIGHT: &[(f64, f64)] = &[
        (92.0, 7.0),
        (110.0, 6.0),
        (118.0, 17.0),
        (107.0, 25.0),
        (113.0, 37.0),
        (100.0, 51.0),
        (87.0, 44.0),
        (92.0, 30.0),
        (85.0, 19.0),
    ];
    let [first, second] = tones.pattern;
    let spots = [(LEFT, first), (RIGHT, second.or(first))];
    spots.into_iter().filter_map(|(blob, colour)| Some((blob.to_vec(), colour?))).collect()
}

/// Four corners, in order.
pub(super) type Field = [(f64, f64); 4];

/// The fields of recess, face and edge in a chip 160 wide and 60 high, cut by hand for this name.
pub(crate) fn tone_fields(name: &str) -> [Field; 3] {
    let mut hand = Hand::of(name);
    let mut slip = || hand.slip(2.0);
    let top = [(2.0 + slip(), 3.0 + slip()), (158.0 + slip(), 3.0 + slip())];
    let foot = [(158.0 + slip(), 57.0 + slip()), (2.0 + slip(), 57.0 + slip())];
    let along = |from: (f64, f64), to: (f64, f64), part: f64| {
        (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part)
    };
    let field = |from, to| {
        [
            along(top[0], top[1], from),
            along(top[0], top[1], to),
            along(foot[1], foot[0], to),
            along(foot[1], foot[0], from),
        ]
    };
    [field(0.0, 0.25), field(0.25, 0.78), field(0.78, 1.0)]
}

fn field(corners: &[(f64, f64)], tone: Option<Colour>) -> String {
    if let Some(colour) = tone {
        return format!("<polygon fill=\"{colour}\" points=\"{}\"/>", points(corners));
    }
    let ((x, y), (far_x, far_y)) = (corners[0], corners[2]);
    let line = format!("M{} {}L{} {}", figure(x), figure(far_y), figure(far_x), figure(y));
    let outline = points(corners);
    format!("<polygon fill=\"none\" stroke=\"#8d8578\" points=\"{outline}\"/><path stroke=\"#8d8578\" d=\"{line}\"/>")
}
