//! One to five coats of a paint side by side, each over a white and a black card: one sees how it builds up.

use std::fmt::Write as _;

use super::hand::figure;
use crate::measure::Colour;

/// How wide and how high a brush-out is, and what is left of the card beside the first.
const WIDE: f64 = 56.0;
const HIGH: f64 = 34.0;
const BARE: f64 = 14.0;

/// Brush-outs of one coat, of two and so on, over white and over black; below each the number of its coats. The words
/// beside it say the same, so it is hidden from screen readers.
pub(crate) fn coats_on_card(coats: &[[Colour; 2]]) -> String {
    let wide = BARE * 2.0 + WIDE * coats.len() as f64;
    let (all, foot) = (figure(wide + 2.0), figure(HIGH * 2.0 + 20.0));
    let mut svg = format!(
        "<svg class=\"ladder coats-on-card\" viewBox=\"-1 -1 {all} {foot}\" width=\"{all}\" height=\"{foot}\" aria-hidden=\"true\" \
        ><path fill=\"#fff\" d=\"M0 0h{card}v{HIGH}H0z\"/><path fill=\"#161412\" d=\"M0 {HIGH}h{card}v{HIGH}H0z\"/>",
        card = figure(wide)
    );
    let mut numbers = String::new();
    for (at, halves) in coats.iter().enumerate() {
        let x = BARE + WIDE * at as f64;
        for (half, colour) in halves.iter().enumerate() {
            let y = figure(HIGH * half as f64 + if half == 0 { 6.0 } else { 0.0 });
            let _ = write!(svg, "<path fill=\"{colour}\" d=\"M{} {y}h56v28h-56z\"/>", figure(x));
        }
        let _ = write!(numbers, "<tspan x=\"{}\">{}</tspan>", figure(x + WIDE / 2.0), at + 1);
    }
    let _ = write!(
        svg,
        "<path class=\"chip-rim\" fill=\"none\" stroke=\"#8d8578\" d=\"M0 0h{}v{}H0z\"/><text y=\"{}\">{numbers}</text></svg>",
        figure(wide),
        figure(HIGH * 2.0),
        figure(HIGH * 2.0 + 16.0)
    );
    svg
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_coat_stands_over_white_and_over_black_with_its_number() {
        let svg = coats_on_card(&[
            [Colour([200, 190, 180]), Colour([90, 80, 70])],
            [Colour([190, 170, 160]), Colour([120, 110, 100])],
        ]);
        assert!(svg.contains("#c8beb4") && svg.contains("#786e64") && svg.contains(">2</tspan>"), "{svg}");
    }
}
