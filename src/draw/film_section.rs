//! The film section: a cut through the paint on an area, recess, face and edge side by side, growing with the steps.
//!
//! Stripes are to scale and in the colours that they are predicted to show when they lie on top; what they are shows by
//! their pattern too, so that a black and white print can be read. A colour that is unknown is struck through. Figures
//! and colours stand beside the picture in words, so it is hidden from screen readers.

use std::fmt::Write as _;

use super::hand::figure;
use crate::film::What;
use crate::work::{Cut, Stripe};

/// The width of one column.
const COLUMN: f64 = 34.0;

/// The space between two columns.
const GAP: f64 = 3.0;

/// A stripe thinner than this can't be seen, so none is drawn thinner.
const THINNEST: f64 = 1.6;

/// The height of a section that shows the whole build of a scheme.
const TALLEST: f64 = 150.0;

/// The most that a µm measures, so that a thin build does not look like a thick one.
const MOST_A_MICROMETRE: f64 = 3.6;

/// How high a µm is drawn, so that a film of `most` µm just fits.
pub fn film_scale(most: f64) -> f64 {
    if most <= 0.0 { MOST_A_MICROMETRE } else { (TALLEST / most).min(MOST_A_MICROMETRE) }
}

/// The section of a cut at a scale; all sections of a scheme share one, so that one sees the film grow.
pub fn film_section(cut: &Cut, scale: f64) -> String {
    let columns = cut.zones.each_ref().map(|stripes| heights(stripes, scale));
    let tall = columns.iter().map(|column| column.iter().sum::<f64>()).fold(THINNEST, f64::max);
    let (wide, high) = (3.0 * COLUMN + 2.0 * GAP, tall + 5.0);
    let mut svg = format!(
        "<svg class=\"film\" viewBox=\"-1 -1 {} {}\" width=\"{}\" height=\"{}\" aria-hidden=\"true\" focusable=\"false\">",
        figure(wide + 2.0),
        figure(high + 1.0),
        figure(wide + 2.0),
        figure(high + 1.0)
    );
    for (at, (stripes, heights)) in (0_u8..).zip(cut.zones.iter().zip(&columns)) {
        let left = f64::from(at) * (COLUMN + GAP);
        let mut foot = tall;
        frame(&mut svg, left, tall, heights.iter().sum());
        for (stripe, height) in stripes.iter().zip(heights) {
            foot -= height;
            stripe_at(&mut svg, stripe, left, foot, *height);
        }
        let _ = write!(
            svg,
            "<path stroke=\"currentColor\" stroke-width=\"2\" d=\"M{} {}h{}\"/>",
            figure(left),
            figure(tall + 1.5),
            figure(COLUMN)
        );
    }
    svg.push_str("</svg>");
    svg
}

/// A thin line around a column, so that a black film is seen on a dark page and a white one on paper.
fn frame(svg: &mut String, left: f64, tall: f64, high: f64) {
    let _ = write!(
        svg,
        "<path fill=\"none\" stroke=\"currentColor\" stroke-opacity=\".45\" stroke-width=\".8\" d=\"M{} {}h{}v{}h-{}z\"/>",
        figure(left),
        figure(tall - high),
        figure(COLUMN),
        figure(high),
        figure(COLUMN)
    );
}

fn heights(stripes: &[Stripe], scale: f64) -> Vec<f64> {
    stripes.iter().map(|stripe| (stripe.dry.0 * scale).max(THINNEST)).collect()
}

fn stripe_at(svg: &mut String, stripe: &Stripe, left: f64, top: f64, height: f64) {
    let (x, y, w, h) = (figure(left), figure(top), figure(COLUMN), figure(height));
    match stripe.colour.filter(|_| !matches!(stripe.what, What::Varnish | What::Resist | What::Fixer)) {
        Some(colour) => {
            let _ = write!(svg, "<path fill=\"{colour}\" d=\"M{x} {y}h{w}v{h}h-{w}z\"/>");
        }
        None => {
            let _ = write!(
                svg,
                "<path fill=\"none\" stroke=\"currentColor\" stroke-width=\".8\" stroke-dasharray=\"2 1.6\" d=\"M{} {}h{}v{}h-{}z\"/>",
                figure(left + 0.4),
                figure(top + 0.4),
                figure(COLUMN - 0.8),
                figure((height - 0.8).max(0.4)),
                figure(COLUMN - 0.8)
            );
        }
    }
    svg.push_str(&pattern(stripe, left, top, height));
    if stripe.fresh {
        let _ = write!(
            svg,
            "<path class=\"film-fresh\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.4\" d=\"M{x} {y}h{w}\"/>"
        );
    }
}

/// What a stripe is, in lines: metal in slanting strokes, washes in dots, tints in a broken line, powder in specks.
fn pattern(stripe: &Stripe, left: f64, top: f64, height: f64) -> String {
    let middle = figure(top + height / 2.0);
    let line = |dash: &str, width: &str| {
        format!(
            "<path fill=\"none\" stroke=\"#fff\" stroke-opacity=\".55\" stroke-width=\"{width}\" stroke-dasharray=\"{dash}\" d=\"M{} {middle}h{}\"/>",
            figure(left + 2.0),
            figure(COLUMN - 4.0)
        )
    };
    let clear = matches!(stripe.what, What::Varnish | What::Resist | What::Fixer);
    match stripe.what {
        _ if stripe.colour.is_none() && !clear => struck_through(left, top, height),
        _ if stripe.metallic => slanting(left, top, height),
        What::Tint => line("5 3", "1"),
        What::Shade => line("1 2.5", "1.2"),
        What::Powder | What::Texture => line("1 1", "1.6"),
        What::Decal => line("9 2", "1.6"),
        _ => String::new(),
    }
}

/// A colour that nobody knows.
fn struck_through(left: f64, top: f64, height: f64) -> String {
    let (x, y) = (figure(left), figure(top + height));
    let line = format!("M{x} {y}l{} -{}", figure(COLUMN), figure(height));
    format!("<path stroke=\"currentColor\" stroke-width=\".8\" d=\"{line}\"/>")
}

fn slanting(left: f64, top: f64, height: f64) -> String {
    let lean = height.min(6.0);
    let mut path = String::new();
    for at in [5.0, 13.0, 21.0] {
        let _ = write!(path, "M{} {}l{} -{}", figure(left + at), figure(top + height), figure(lean), figure(height));
    }
    format!("<path stroke=\"#fff\" stroke-opacity=\".5\" stroke-width=\"1.2\" d=\"{path}\"/>")
}
