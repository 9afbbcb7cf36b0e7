//! The colour that a paint is filed under, as one looks for it on a rack: not a measurement, a drawer.

use crate::colour::space;
use crate::measure::Colour;

/// Every drawer, in the order of the rack.
pub(super) const ALL: &[&str] =
    &["white", "grey", "black", "brown", "red", "orange", "yellow", "green", "blue", "violet"];

/// Below this chroma one sees no hue (CIELAB).
const NO_HUE: f64 = 9.0;
/// Darker and duller than this, what is orange or yellow is called brown.
const BROWN_LIGHTNESS: f64 = 58.0;
const BROWN_CHROMA: f64 = 48.0;

/// The drawer of a colour.
pub(super) fn of(colour: Colour) -> &'static str {
    let lab = space::lab(space::linear(colour));
    let (chroma, angle) = (lab.a.hypot(lab.b), lab.b.atan2(lab.a).to_degrees().rem_euclid(360.0));
    if chroma < NO_HUE {
        return match lab.l {
            ..28.0 => "black",
            88.0.. => "white",
            _ => "grey",
        };
    }
    match angle {
        30.0..105.0 if lab.l < BROWN_LIGHTNESS && chroma < BROWN_CHROMA => "brown",
        42.0..72.0 => "orange",
        72.0..105.0 => "yellow",
        105.0..195.0 => "green",
        195.0..295.0 => "blue",
        295.0..345.0 => "violet",
        _ => "red",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_colour_lies_where_one_looks_for_it() {
        for (colour, drawer) in [
            ([0xf4, 0xf2, 0xec], "white"),
            ([0x80, 0x80, 0x82], "grey"),
            ([0x18, 0x17, 0x16], "black"),
            ([0x5a, 0x3a, 0x20], "brown"),
            ([0xb0, 0x20, 0x20], "red"),
            ([0xd9, 0x80, 0x1e], "orange"),
            ([0xe6, 0xc8, 0x20], "yellow"),
            ([0x2a, 0x70, 0x3a], "green"),
            ([0x20, 0x50, 0xa0], "blue"),
            ([0x70, 0x30, 0x80], "violet"),
        ] {
            assert_eq!(of(Colour(colour)), drawer);
            assert!(ALL.contains(&drawer));
        }
    }
}
