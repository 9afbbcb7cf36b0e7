//! The chip of a step in the strip of steps: in the colour that it leaves behind, with its number, and a triangle where
//! there is a caution. Where it leaves no colour it is an outline.

use std::fmt::Write as _;

use super::hand::{Hand, figure, points};
use crate::colour::space;
use crate::measure::Colour;

/// From this luminance on a colour takes dark figures: where black and white give the same contrast (WCAG 2.2).
const DARK_FIGURES_FROM: f64 = 0.179;

/// The chip with a name from which its hand is drawn. The link around it says the same in words.
pub(crate) fn step_chip(name: &str, number: usize, colour: Option<Colour>, caution: bool) -> String {
    let mut hand = Hand::of(name);
    let mut slip = || hand.slip(1.6);
    let corners = [
        (2.0 + slip(), 3.0 + slip()),
        (58.0 + slip(), 3.0 + slip()),
        (58.0 + slip(), 41.0 + slip()),
        (2.0 + slip(), 41.0 + slip()),
    ];
    let mut svg = String::from(
        "<svg class=\"strip-chip\" viewBox=\"0 0 60 44\" preserveAspectRatio=\"xMinYMid\" aria-hidden=\"true\">",
    );
    let ink = match colour {
        None => {
            let _ = write!(svg, "<polygon class=\"strip-bare\" points=\"{}\"/>", points(&corners));
            "currentColor"
        }
        Some(colour) => {
            let _ = write!(svg, "<polygon class=\"strip-laid\" fill=\"{colour}\" points=\"{}\"/>", points(&corners));
            if space::luminance(space::linear(colour)) >= DARK_FIGURES_FROM { "#000" } else { "#fffdf8" }
        }
    };
    let _ = write!(svg, "<text x=\"8\" y=\"30\" fill=\"{ink}\">{number}</text>");
    if caution {
        let top = figure(9.0);
        let _ = write!(
            svg,
            "<path fill=\"none\" stroke=\"{ink}\" stroke-width=\"1.8\" stroke-linejoin=\"round\" d=\"M46 {top}l7 12.5H39z\"/><path stroke=\"{ink}\" stroke-width=\"1.8\" d=\"M46 13.5v4M46 18.6v1.4\"/>"
        );
    }
    svg + "</svg>"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chip_says_by_shape_what_it_leaves_behind_and_that_there_is_a_caution() {
        let gold = step_chip("gold", 4, Some(Colour([212, 192, 128])), true);
        assert!(gold.contains("#d4c080") && gold.contains(">4</text>") && gold.contains("M46 "));
        assert!(gold.contains("fill=\"#000\""), "dark figures on a light colour");
        let varnish = step_chip("varnish", 7, None, false);
        assert!(varnish.contains("strip-bare") && !varnish.contains("M46 "));
    }
}
