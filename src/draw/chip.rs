//! The paint chip: a brush-out cut by hand, over a white and a black band, so that one sees how the paint hides.

use super::hand::{Hand, points};
use super::kind_outline::kind_outline;
use crate::measure::Colour;
use crate::trade::{Kind, Sheen};
use crate::work::BrushOut;

/// The chip of the paint with this id, as it is predicted to come out of two coats; what has no colour, or none that is
/// known, is the outline of its kind.
///
/// The picture only repeats what is on the paint's own page in words, so it is hidden from screen readers.
pub(crate) fn chip(id: &str, kind: Kind, brush_out: Option<&BrushOut>) -> String {
    match (kind_outline(kind), brush_out) {
        (_, Some(brush_out)) => brushed(id, brush_out),
        (Some(outline), None) => outlined(outline, 1.6),
        (None, None) => outlined(UNKNOWN, 1.6),
    }
}

/// The outline of a card that nothing was brushed on: a paint whose colour is not known.
const UNKNOWN: &str = "M2 5L22 5L22 19L2 19ZM2 12L22 12";

const OPEN: &str = "<svg class=\"chip\" viewBox=\"0 0 64 44\" aria-hidden=\"true\">";

fn brushed(id: &str, brush_out: &BrushOut) -> String {
    let mut hand = Hand::of(id);
    let mut slip = || hand.slip(2.2);
    let left = (9.0 + slip(), 5.0 + slip());
    let right = (55.0 + slip(), 4.0 + slip());
    let low_right = (54.0 + slip(), 39.0 + slip());
    let low_left = (10.0 + slip(), 40.0 + slip());
    let at = |from: (f64, f64), to: (f64, f64), y: f64| (from.0 + (to.0 - from.0) * (y - from.1) / (to.1 - from.1), y);
    let (mid_left, mid_right) = (at(left, low_left, 22.0), at(right, low_right, 22.0));
    let mut svg = String::from(OPEN);
    svg.push_str("<path fill=\"#fff\" d=\"M1 1h62v21H1z\"/><path fill=\"#161412\" d=\"M1 22h62v21H1z\"/>");
    svg.push_str(&polygon(&[left, right, mid_right, mid_left], brush_out.over_white));
    if let Some([pool, edge]) = brush_out.pooled {
        // The flood draws back from its upper rim and stands in a puddle at its foot.
        let (high, low) = (at(left, low_left, 9.5), at(left, low_left, 17.0));
        let (high_right, low_right) = (at(right, low_right, 9.0), at(right, low_right, 17.5));
        svg.push_str(&polygon(&[left, right, high_right, high], edge));
        svg.push_str(&polygon(&[low, low_right, mid_right, mid_left], pool));
    }
    svg.push_str(&polygon(&[mid_left, mid_right, low_right, low_left], brush_out.over_black));
    svg.push_str(&shine(brush_out.sheen, left, right, low_right));
    svg.push_str(
        "<path class=\"chip-rim\" fill=\"none\" stroke=\"#8d8578\" stroke-width=\"1\" d=\"M.5.5h63v43H.5z\"/></svg>",
    );
    svg
}

fn polygon(corners: &[(f64, f64)], fill: Colour) -> String {
    format!("<polygon fill=\"{fill}\" points=\"{}\"/>", points(corners))
}

/// What one sees of the sheen: a light edge for gloss, a shorter one for satin, a soft diagonal for metal flakes.
fn shine(sheen: Sheen, left: (f64, f64), right: (f64, f64), low_right: (f64, f64)) -> String {
    let edge = |end: f64| {
        let line = points(&[(left.0 + 3.0, left.1 + 4.0), (left.0 + (right.0 - left.0) * end, right.1 + 3.4)]);
        format!(
            "<polyline fill=\"none\" stroke=\"#fff\" stroke-opacity=\".75\" stroke-width=\"1.6\" points=\"{line}\"/>"
        )
    };
    match sheen {
        Sheen::Matt => String::new(),
        Sheen::Satin => edge(0.45),
        Sheen::Gloss => edge(0.92),
        Sheen::Metallic => {
            let stripe = |x: f64, wide: f64| {
                let foot = low_right.1 - 1.5;
                let corners = [
                    (x + 14.0, left.1 + 2.5),
                    (x + 14.0 + wide, left.1 + 2.5),
                    (x + wide - 4.0, foot),
                    (x - 4.0, foot),
                ];
                format!("<polygon fill=\"#fff\" fill-opacity=\".32\" points=\"{}\"/>", points(&corners))
            };
            stripe(18.0, 7.0) + &stripe(32.0, 3.0)
        }
    }
}

/// An outline of 24 units in the middle of the chip.
fn outlined(outline: &str, wide: f64) -> String {
    format!(
        "{OPEN}<path class=\"chip-drop\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"{wide}\" stroke-linejoin=\"round\" \
         stroke-linecap=\"round\" transform=\"translate(11.6 1.6) scale(1.7)\" d=\"{outline}\"/></svg>"
    )
}
