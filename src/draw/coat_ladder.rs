//! The coat ladder: a strip of brush-outs, one coat more on each, with the difference between neighbours.
//!
//! The step's own number of coats stands on a bar; behind a broken line nothing more can be seen. No rung is dimmed:
//! that would falsify its colour.

use std::fmt::Write as _;

use super::hand::{Hand, figure};
use crate::work::Ladder;

/// From one rung to the next.
const RUNG: f64 = 46.0;

/// How high a rung is.
const TALL: f64 = 36.0;

/// The ladder with a name from which its hand is drawn. Hidden from screen readers: [`in_figures`] says the same.
pub fn coat_ladder(name: &str, ladder: &Ladder) -> String {
    let mut hand = Hand::of(name);
    let mut slip = || hand.slip(2.0).round();
    let wide = figure(RUNG * ladder.rungs.len() as f64);
    let mut svg = format!(
        "<svg class=\"ladder\" viewBox=\"0 0 {wide} 74\" width=\"{wide}\" height=\"74\" aria-hidden=\"true\" focusable=\"false\">"
    );
    let (mut coats, mut steps) = (String::new(), String::new());
    for (at, rung) in (0_u32..).zip(&ladder.rungs) {
        let left = RUNG * f64::from(at);
        let (top, lean, side, foot) = (4.0 + slip(), slip(), TALL - 4.0 + slip(), slip());
        let path = format!("M{} {}l38 {}v{}l-38 {}z", left + 3.0, top, lean, side, foot);
        let _ = write!(svg, "<path fill=\"{}\" d=\"{path}\"/>", rung.colour);
        let _ = write!(coats, "<tspan x=\"{}\">{at}</tspan>", left + 22.0);
        if at > 0 {
            let apart = away(rung.apart).replace('<', "&lt;");
            let _ = write!(steps, "<tspan x=\"{}\">{apart}</tspan>", left - 1.0);
        }
    }
    let _ = write!(svg, "<text y=\"55\">{coats}</text><text class=\"ladder-step\" y=\"70\">{steps}</text>");
    let own = RUNG * f64::from(ladder.own) + 8.0;
    let _ = write!(svg, "<path stroke=\"currentColor\" stroke-width=\"3\" d=\"M{} 60h28\"/>", figure(own));
    if let Some(last) = ladder.shows_until {
        let line = RUNG * (f64::from(last) + 1.0) - 1.0;
        let _ = write!(
            svg,
            "<path stroke=\"currentColor\" stroke-width=\"1.5\" stroke-dasharray=\"3 2.5\" d=\"M{} 1v42\"/>",
            figure(line)
        );
    }
    svg.push_str("</svg>");
    svg
}

/// The same in figures: coats, colour, and the difference from the coat before.
pub fn in_figures(ladder: &Ladder) -> String {
    let rung = |(at, rung): (usize, &crate::work::Rung)| match at {
        0 => format!("0: {}", rung.colour),
        _ => format!("{at}: {}, {}", rung.colour, away(rung.apart)),
    };
    ladder.rungs.iter().enumerate().map(rung).collect::<Vec<_>>().join("; ")
}

/// A difference of colour, no finer than it is worth.
fn away(difference: f64) -> String {
    if difference < 1.0 { "<1".to_owned() } else { format!("{difference:.0}") }
}
