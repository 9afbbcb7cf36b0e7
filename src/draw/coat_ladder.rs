//! The coat ladder: a strip of brush-outs that touch each other, one coat more on each.
//!
//! Under the first is what lies below, the step's own coat is framed and says to stop. The strip along the foot of a rung
//! shows two colours that it may be as well. No rung is dimmed: that would falsify its colour.

use std::fmt::Write as _;

use super::hand::figure;
use super::marked::escaped;
use crate::colour::{PLAINLY_SEEN, difference, in_whole};
use crate::theme::label_width;
use crate::work::{Ladder, Rung};

/// How wide and how high a rung is.
const RUNG: f64 = 56.0;

/// The size of the letters where the ladder is no wider than a narrow screen, and how wide it is there. A wider one is made
/// smaller to fit, so its letters are larger from the beginning, and no larger than this where there is room.
const SIZE: f64 = 17.0;
const NARROW: f64 = 340.0;
const LARGEST: f64 = 20.0;

/// The words of a ladder.
#[derive(Debug, Clone)]
pub(crate) struct LadderWords {
    /// What is under the first rung: what lies below.
    pub ground: String,
    /// What is at the step's own coat.
    pub stop: String,
}

/// The ladder. Hidden from screen readers: [`in_figures`] says the same.
pub(crate) fn coat_ladder(ladder: &Ladder, words: &LadderWords) -> String {
    let wide = RUNG * ladder.rungs.len() as f64;
    let size = SIZE * (wide / NARROW).max(1.0);
    let middle = |at: u32| RUNG * (f64::from(at) + 0.5);
    let half = |words: &str| label_width(words) * size / 2.0;
    // The words stand around the middle of their rung, and may be wider.
    let stop = (middle(ladder.own), half(&words.stop));
    let from = (middle(0) - half(&words.ground)).min(stop.0 - stop.1).min(-2.0).floor();
    let all = (stop.0 + stop.1).max(wide + 2.0).ceil() - from;
    let high = 65.0 + 2.25 * size;
    let shown = (LARGEST / size).min(1.0);
    let mut svg = format!(
        "<svg class=\"ladder\" viewBox=\"{} {} {} {}\" width=\"{}\" height=\"{}\" font-size=\"{}\" aria-hidden=\"true\">",
        figure(from),
        figure(17.0 - size),
        figure(all),
        figure(high),
        figure(all * shown),
        figure(high * shown),
        figure(size)
    );
    let left = |at: u32| RUNG * f64::from(at);
    let mut coats = String::new();
    for (at, rung) in (0_u32..).zip(&ladder.rungs) {
        let x = figure(left(at));
        let _ = write!(svg, "<path fill=\"{}\" d=\"M{x} 26h56v56H{x}z\"/>", rung.colour);
        if is_seen(rung) {
            let [dark, light] = rung.between;
            let light_from = figure(middle(at));
            let _ = write!(
                svg,
                "<path fill=\"{dark}\" d=\"M{x} 68h28v14H{x}z\"/><path fill=\"{light}\" d=\"M{light_from} 68h28v14H{light_from}z\"/>"
            );
        }
        let label = if at == 0 { escaped(&words.ground) } else { at.to_string() };
        let _ = write!(coats, "<tspan x=\"{}\">{label}</tspan>", figure(middle(at)));
    }
    let _ = write!(svg, "<text y=\"{}\">{coats}</text>", figure(82.0 + size));
    let _ = write!(
        svg,
        "<path class=\"ladder-stop\" d=\"M{} 24.5h59v59h-59z\"/><text x=\"{}\" y=\"17\">{}</text>",
        figure(left(ladder.own) - 1.5),
        figure(stop.0),
        escaped(&words.stop)
    );
    svg.push_str("</svg>");
    svg
}

/// The same in figures: coats, colour, what it may be as well, and the difference from the coat before.
pub(crate) fn in_figures(ladder: &Ladder) -> String {
    let colours = |rung: &Rung| {
        let [dark, light] = rung.between;
        if is_seen(rung) { format!("{} ({dark} – {light})", rung.colour) } else { rung.colour.to_string() }
    };
    let rung = |(at, rung): (usize, &Rung)| match at {
        0 => format!("0: {}", colours(rung)),
        _ => format!("{at}: {}, {}", colours(rung), in_whole(rung.apart)),
    };
    ladder.rungs.iter().enumerate().map(rung).collect::<Vec<_>>().join("; ")
}

/// Whether everybody sees what a rung may be as well apart; of less the figure beside the ladder tells.
fn is_seen(rung: &Rung) -> bool {
    let [dark, light] = rung.between;
    difference(dark, light) >= PLAINLY_SEEN
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Colour;

    fn drawn(rungs: u8, stop: &str) -> String {
        let rung = |at: u8| {
            let colour = Colour([at * 20; 3]);
            Rung { colour, between: [colour; 2], apart: 3.0 }
        };
        let own = u32::from(rungs) - 1;
        let ladder = Ladder { rungs: (0..rungs).map(rung).collect(), own, shows_until: Some(1) };
        coat_ladder(&ladder, &LadderWords { ground: "ground".to_owned(), stop: stop.to_owned() })
    }

    fn number(svg: &str, before: &str) -> f64 {
        let rest = svg.split_once(before).unwrap().1;
        rest.split('"').next().unwrap().parse().unwrap()
    }

    #[test]
    fn a_ladder_that_is_made_smaller_has_larger_letters() {
        let (few, many) = (drawn(4, "stop here"), drawn(9, "stop here"));
        let letters = |svg: &str, room: f64| {
            let all: f64 = svg.split(' ').nth(4).unwrap().parse().unwrap();
            number(svg, "font-size=\"") * number(svg, " width=\"").min(room) / all
        };
        for svg in [&few, &many] {
            assert!((16.0..18.0).contains(&letters(svg, 358.0)) && letters(svg, 800.0) < 20.5, "{svg}");
        }
        assert_eq!(few.matches("<text").count(), 2, "the coats and where to stop, and nothing across them");
    }

    #[test]
    fn the_words_of_the_last_coat_are_inside_the_picture() {
        let wide = |stop| number(&drawn(9, stop), " width=\"");
        assert!(wide("hier aufhören, und nicht weiter") > wide("stop") + 40.0);
    }
}
