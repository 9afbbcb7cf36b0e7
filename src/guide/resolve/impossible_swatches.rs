//! Swatches of one paint that no paint can show together: exchanged, mistaken or measured in other light.
//!
//! Only what holds for every film that absorbs and scatters is asked (Kubelka and Munk): it sends back more of each
//! wavelength over white than over black, and each coat more brings it nearer to what it shows where it covers. Flakes
//! mirror, and are not asked: how bright they are is a matter of the angle.

use palette::color_difference::Ciede2000;
use palette::white_point::D65;
use palette::{IntoColor, Lab, Srgb, Xyz};

use crate::guide::{Paint, Swatch, checks};
use crate::measure::Colour;
use crate::report::{Finding, Level, Place, Placed, wording};
use crate::trade::{Kind, Sheen};

/// Two patches of one photograph are of different lightness if they lie further apart (CIE L*). Light that falls off
/// unlevelled by 4 % makes 1.5 on either of them (what `maulstick swatch` lets pass without a word).
const SIDE_BY_SIDE: f64 = 3.0;

/// The same of patches that were photographed one by one, each with the error of its own light.
const ONE_BY_ONE: f64 = 6.0;

/// Less light than this part of a perfect white is no difference: what a gloss card or a film mirrors of a room. An
/// estimate: a matt surface mirrors some 3 % at most, and two patches do not differ in it by more than a third of that.
const MIRRORED: f64 = 0.01;

/// Two readings of the same film differ by less (CIEDE2000). By hand two coats differ in thickness by up to a half,
/// which makes some 5 on a transparent paint; an estimate.
const READ_TWICE: f64 = 10.0;

/// Over white, a film darker than this darkens the card whatever it is: no white card reflects so little (CIE L*; it is
/// 57 % of the light). What is lighter may be a white or glow on a card that is darker than it.
const DARKENS: f64 = 80.0;

/// Over black, a film lighter than this lightens the card whatever it is: a black card of 11 % would be a grey one.
const LIGHTENS: f64 = 40.0;

/// A colour that is stated lies nearer than this (CIEDE2000) to some swatch of its paint. Charts of makers are up to some
/// 10 from what is measured; a thin film that hardly colours is told by what it can't show ([`READ_TWICE`]).
const STATED_NEAR: f64 = 25.0;

/// What can't be of the swatches of a paint, one finding for each swatch at most.
pub(super) fn findings(paint: &Paint, swatches: &[Placed<Swatch>], colour: Option<Place>) -> Vec<Finding> {
    if paint.kind == Kind::Metal || paint.sheen == Sheen::Metallic || !paint.kind.has_colour() {
        return Vec::new();
    }
    let shows_coats = |swatch: &&Placed<Swatch>| match &swatch.value {
        Swatch::OverWhite(coats, _) | Swatch::OverBlack(coats, _) => *coats > 0,
        Swatch::Tint { .. } => true,
    };
    let swatches: Vec<&Placed<Swatch>> = swatches.iter().filter(shows_coats).collect();
    let with_earlier =
        |(at, later): (usize, &&Placed<Swatch>)| swatches[..at].iter().find_map(|earlier| clash(earlier, later));
    let mut findings: Vec<Finding> = swatches.iter().enumerate().filter_map(with_earlier).collect();
    findings.extend(colour.and_then(|place| stated(paint, &swatches, place)));
    findings
}

/// Why two swatches can't be of one paint, told at the later one.
fn clash(earlier: &Placed<Swatch>, later: &Placed<Swatch>) -> Option<Finding> {
    let message = match (&earlier.value, &later.value) {
        (Swatch::OverWhite(on_white, white), Swatch::OverBlack(on_black, black))
        | (Swatch::OverBlack(on_black, black), Swatch::OverWhite(on_white, white)) => {
            let lighter = on_white == on_black && is_lighter(*black, *white, SIDE_BY_SIDE);
            lighter.then(|| {
                format!(
                    "{} is lighter than {}: no paint does that",
                    shown(*on_black, "black", *black),
                    over_white(*white)
                )
            })
        }
        (Swatch::OverWhite(one, a), Swatch::OverWhite(other, b)) => of_one_card("white", (*one, *a), (*other, *b)),
        (Swatch::OverBlack(one, a), Swatch::OverBlack(other, b)) => of_one_card("black", (*one, *a), (*other, *b)),
        (
            Swatch::Tint { white, parts, to, colour },
            Swatch::Tint { white: other_white, parts: other_parts, to: other_to, colour: other },
        ) => {
            let share = parts.as_f64() * other_to.as_f64() - other_parts.as_f64() * to.as_f64();
            let same = white == other_white && share.abs() < 1e-9;
            (same && difference(*colour, *other) > READ_TWICE)
                .then(|| format!("the same tint is {colour} once and {other} once: one paint has one colour in it"))
        }
        _ => None,
    };
    let mend = "are the two exchanged, or is one of another paint? If not, measure both again out of the glare; of what \
                shines by flakes or pearl say 'sheen: metallic'";
    let finding = Finding::new(&checks::SWATCH, later.place, message?, mend).at(Level::Warning);
    Some(finding.see(earlier.place, "the other swatch"))
}

/// Why two films of so many coats over the same card can't be of one paint.
fn of_one_card(card: &str, (one, a): (u32, Colour), (other, b): (u32, Colour)) -> Option<String> {
    if one == other {
        let apart = difference(a, b);
        return (apart > READ_TWICE).then(|| {
            let same = wording::counted(one, "coat", "coats");
            format!("{same} over {card} is {a} once and {b} once, {apart:.0} apart (ΔE00): one film has one colour")
        });
    }
    let ((fewer, thin), (more, thick)) = if one < other { ((one, a), (other, b)) } else { ((other, b), (one, a)) };
    let (says, impossible) = if card == "white" {
        ("lighter", thin.lightness() < DARKENS && is_lighter(thick, thin, ONE_BY_ONE))
    } else {
        ("darker", thin.lightness() > LIGHTENS && is_lighter(thin, thick, ONE_BY_ONE))
    };
    impossible.then(|| {
        let fewer = wording::counted(fewer, "coat", "coats");
        let does = if card == "white" { "darkens a white" } else { "lightens a black" };
        let thicker = shown(more, card, thick);
        format!("{thicker} is {says} than {fewer} ({thin}): a paint that {does} card does so more with every coat")
    })
}

/// `3 coats over white (#c9a070)`
fn shown(coats: u32, card: &str, colour: Colour) -> String {
    format!("{} over {card} ({colour})", wording::counted(coats, "coat", "coats"))
}

fn over_white(colour: Colour) -> String {
    format!("as much over white ({colour})")
}

/// Whether a colour is surely lighter than another.
fn is_lighter(one: Colour, than: Colour, by: f64) -> bool {
    one.lightness() > than.lightness() + by && xyz(one).y > xyz(than).y + MIRRORED
}

/// Why the colour that is stated can't be that of these swatches where they cover.
fn stated(paint: &Paint, swatches: &[&Placed<Swatch>], place: Place) -> Option<Finding> {
    // What is sold to tint and to run is known by its colour over white, in some coats that nobody counted.
    if matches!(paint.kind, Kind::Clear | Kind::Wash | Kind::OneCoat | Kind::Ink) {
        return None;
    }
    let stated = paint.colour?;
    // Where a paint covers it sends back no more than any film of it over white, and no less than any over black.
    let mut possible = xyz(stated);
    let mut nearest: Option<(Colour, &Placed<Swatch>)> = None;
    for swatch in swatches {
        let seen = match &swatch.value {
            Swatch::OverWhite(_, seen) | Swatch::OverBlack(_, seen) => *seen,
            Swatch::Tint { .. } => continue,
        };
        let bound = xyz(seen);
        possible = if matches!(swatch.value, Swatch::OverWhite(..)) {
            Xyz::new(possible.x.min(bound.x), possible.y.min(bound.y), possible.z.min(bound.z))
        } else {
            Xyz::new(possible.x.max(bound.x), possible.y.max(bound.y), possible.z.max(bound.z))
        };
        if nearest.is_none_or(|(near, _)| difference(seen, stated) < difference(near, stated)) {
            nearest = Some((seen, swatch));
        }
    }
    let (near, swatch) = nearest?;
    let beyond = lab(xyz(stated)).difference(lab(possible));
    let apart = difference(near, stated);
    if beyond <= READ_TWICE || apart <= STATED_NEAR {
        return None;
    }
    let message = format!(
        "the stated colour {stated} is none that a paint with these swatches can have: the nearest, {near}, is {apart:.0} \
         away (ΔE00)"
    );
    let mend = "is the colour or are the swatches of another paint? Leave out 'colour' if the swatches are right: it is \
                predicted from them";
    let finding = Finding::new(&checks::SWATCH, place, message, mend).at(Level::Warning);
    Some(finding.see(swatch.place, "the nearest swatch"))
}

/// CIEDE2000 (ISO/CIE 11664-6).
fn difference(a: Colour, b: Colour) -> f64 {
    lab(xyz(a)).difference(lab(xyz(b)))
}

fn lab(xyz: Xyz<D65, f64>) -> Lab<D65, f64> {
    xyz.into_color()
}

fn xyz(colour: Colour) -> Xyz<D65, f64> {
    let [red, green, blue] = colour.0;
    Srgb::new(red, green, blue).into_format::<f64>().into_color()
}

#[cfg(test)]
mod tests {
    use super::*;

    const PALE: Colour = Colour([0xc9, 0xa0, 0x70]);
    const DARK: Colour = Colour([0x4a, 0x30, 0x20]);

    #[test]
    fn what_a_paint_may_do_is_quiet() {
        let white = [Colour([0xf0, 0xf0, 0xee]), Colour([0xfc, 0xfc, 0xfa])];
        for (what, found) in [
            ("a white over white", of_one_card("white", (1, white[0]), (3, white[1]))),
            ("more coats over white", of_one_card("white", (1, PALE), (3, DARK))),
            ("more coats over black", of_one_card("black", (1, DARK), (3, PALE))),
            ("a black over a greyish black", of_one_card("black", (1, Colour([0x38; 3])), (3, Colour([0x18; 3])))),
            ("the same, read twice", of_one_card("white", (2, PALE), (2, Colour([0xc2, 0x98, 0x64])))),
        ] {
            assert_eq!(found, None, "{what}");
        }
        assert!(!is_lighter(Colour([0x22; 3]), Colour([0x16; 3]), SIDE_BY_SIDE), "what mirrors differs in the dark");
    }

    #[test]
    fn what_no_paint_does_is_told() {
        assert!(of_one_card("white", (3, PALE), (1, DARK)).is_some_and(|told| told.contains("3 coats over white")));
        assert!(of_one_card("black", (1, PALE), (3, DARK)).is_some_and(|told| told.contains("is darker than 1 coat")));
        assert!(of_one_card("white", (1, PALE), (1, DARK)).is_some());
        assert!(is_lighter(PALE, DARK, SIDE_BY_SIDE));
    }
}
