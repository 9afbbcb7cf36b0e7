//! The coat ladder: a strip of brush-outs that touch each other, one coat more on each.
//!
//! Under the first is what lies below, the step's own coat is framed and says to stop, and one bracket spans what
//! can't be told apart any more. The strip along the foot of a rung shows two colours that it may be as well. No rung is
//! dimmed: that would falsify its colour.

use std::fmt::Write as _;

use super::hand::figure;
use super::marked::escaped;
use crate::colour::{PLAINLY_SEEN, difference, in_whole};
use crate::work::{Ladder, Rung};

/// How wide and how high a rung is.
const RUNG: f64 = 56.0;

/// The words of a ladder.
#[derive(Debug, Clone)]
pub(crate) struct LadderWords {
    /// What is under the first rung: what lies below.
    pub ground: String,
    /// What is at the step's own coat.
    pub stop: String,
    /// What is at the bracket.
    pub same: String,
}

/// The ladder. Hidden from screen readers: [`in_figures`] says the same.
pub(crate) fn coat_ladder(ladder: &Ladder, words: &LadderWords) -> String {
    let wide = RUNG * ladder.rungs.len() as f64;
    // The bracket's words may stand out on the right.
    let all = figure(wide + 84.0);
    let mut svg = format!(
        "<svg class=\"ladder\" viewBox=\"-2 0 {all} 118\" width=\"{all}\" height=\"118\" aria-hidden=\"true\">"
    );
    let left = |at: u32| RUNG * f64::from(at);
    let mut coats = String::new();
    for (at, rung) in (0_u32..).zip(&ladder.rungs) {
        let x = figure(left(at));
        let _ = write!(svg, "<path fill=\"{}\" d=\"M{x} 26h56v56H{x}z\"/>", rung.colour);
        if is_seen(rung) {
            let [dark, light] = rung.between;
            let half = figure(left(at) + RUNG / 2.0);
            let _ = write!(
                svg,
                "<path fill=\"{dark}\" d=\"M{x} 68h28v14H{x}z\"/><path fill=\"{light}\" d=\"M{half} 68h28v14H{half}z\"/>"
            );
        }
        let label = if at == 0 { escaped(&words.ground) } else { at.to_string() };
        let _ = write!(coats, "<tspan x=\"{}\">{label}</tspan>", figure(left(at) + RUNG / 2.0));
    }
    let _ = write!(svg, "<text y=\"99\">{coats}</text>");
    let own = left(ladder.own);
    let _ = write!(
        svg,
        "<path class=\"ladder-stop\" d=\"M{x} 24.5h59v59h-59z\"/><text class=\"ladder-word\" x=\"{middle}\" y=\"17\">{stop}</text>",
        x = figure(own - 1.5),
        middle = figure(own + RUNG / 2.0),
        stop = escaped(&words.stop)
    );
    if let Some(last) = ladder.shows_until {
        let from = left(last) + 6.0;
        let _ = write!(
            svg,
            "<path class=\"ladder-same\" d=\"M{} 102v5H{}v-5\"/><text class=\"ladder-end\" x=\"{}\" y=\"117\">{}</text>",
            figure(from),
            figure(wide - 6.0),
            figure(wide),
            escaped(&words.same)
        );
    }
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
