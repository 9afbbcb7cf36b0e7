//! Which way a paint leans where it lies thin. A dark that covers tells hardly anything of it: a brown, a black and a violet of one
//! lightness differ by a few hundredths of a channel, and thinned they are three colours.
//!
//! What is known is how makers choose: a dark brown is made to stay a brown when it is thinned. So of the recipes of a dark those are
//! likelier that lean over white towards the hue which the dark shows, and a dark that shows none leans nowhere. Where a maker says that it
//! hides well, a dull dark is made with black and white and not of one strong transparent pigment: then it stays as dull.
//!
//! A deep red tells as little: a scarlet toned down and a rose are the same where they cover, and with yellow one makes an orange, the other a
//! dusty pink. What shows a warm red is held to be likelier of what is a warm one when it is thinned.

use super::constants::{
    BODY_KEEPS_WITHIN, BODY_THINS_TO, BROWN_HUES, BROWN_LEANS_WITHIN, DARK, LEANS_FULLY, LEANS_WITHIN, WARM_REDS,
    WARM_REDS_LEAN_WITHIN,
};
use super::depths::Depths;
use super::observation::Observation;
use super::space::{self, Lab, LinearRgb};

/// Which way a film leans, and how far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Leaning {
    /// From nothing for a grey to one for a colour, in the direction of its hue.
    towards: [f64; 2],
    /// CIE a and b.
    chroma: [f64; 2],
    /// Whether it is a warm red that is no dark: only where its hue goes is known of it.
    is_red: bool,
}

/// More coats than this on a card count as covering.
const DEEP: f64 = 5.0;

impl Leaning {
    /// Which way the paint leans that so much is known of, if it is a dark or a warm red and what it looks like where it covers
    /// is known.
    pub(crate) fn of_paint(known: &[Observation]) -> Option<Self> {
        let covering = |one: &Observation| match one {
            Observation::Swatch(seen) if seen.with == Depths::NONE => {
                (seen.ground.is_none() || seen.amount > DEEP).then_some(seen.colour)
            }
            _ => None,
        };
        let lab = space::lab(space::linear(known.iter().find_map(covering)?));
        let (dark, is_red) = (lab.l < DARK, is_warm_red(lab));
        (dark || is_red).then(|| Self { is_red: is_red && !dark, ..Self::of(lab, LEANS_FULLY.0) })
    }

    /// Which way a film leans that lies thin over white.
    pub(crate) fn of_thin(seen: LinearRgb) -> Self {
        Self::of(space::lab(seen), LEANS_FULLY.1)
    }

    /// `half` is the chroma at which it leans half as far as it can.
    fn of(lab: Lab, half: f64) -> Self {
        let far = lab.a.hypot(lab.b) + half;
        Self { towards: [lab.a / far, lab.b / far], chroma: [lab.a, lab.b], is_red: false }
    }

    /// How unlikely it is that a dark with body thins to this, as a squared standard number.
    pub(crate) fn unlikely_with_body(self, thinned: Self) -> f64 {
        if self.is_red {
            return 0.0;
        }
        let (fixed, grows) = BODY_KEEPS_WITHIN;
        let [a, b] = self.chroma;
        let [thin_a, thin_b] = thinned.chroma.map(|chroma| chroma / BODY_THINS_TO);
        let within = fixed + grows * a.hypot(b);
        ((thin_a - a) / within).powi(2) + ((thin_b - b) / within).powi(2)
    }

    /// How unlikely it is that what leans one way leans the other way when it is thinned, as a squared standard number. How far
    /// it leans is less certain than which way, where it is a brown.
    pub(crate) fn unlikely(self, thinned: Self) -> f64 {
        let [a, b] = self.towards;
        let far = a.hypot(b).max(f64::MIN_POSITIVE);
        let (x, y) = (a / far, b / far);
        let (da, db) = (thinned.towards[0] - a, thinned.towards[1] - b);
        let (along, across) = (x * da + y * db, x * db - y * da);
        if self.is_red {
            return (across / WARM_REDS_LEAN_WITHIN).powi(2);
        }
        let is_brown = (BROWN_HUES.0..BROWN_HUES.1).contains(&b.atan2(a).to_degrees());
        let within = if is_brown { BROWN_LEANS_WITHIN } else { LEANS_WITHIN };
        (along / LEANS_WITHIN).powi(2) + (across / within).powi(2)
    }
}

fn is_warm_red(lab: Lab) -> bool {
    let ((from, to), chroma, lightness) = WARM_REDS;
    (from..to).contains(&lab.b.atan2(lab.a).to_degrees()) && lab.a.hypot(lab.b) > chroma && lab.l < lightness
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leaning(l: f64, a: f64, b: f64, half: f64) -> Leaning {
        Leaning::of(Lab::new(l, a, b), half)
    }

    #[test]
    fn a_brown_is_likelier_to_thin_to_a_brown_than_to_a_violet() {
        let dark = leaning(14.0, 4.0, 7.0, LEANS_FULLY.0);
        let thin = |a: f64, b: f64| dark.unlikely(leaning(70.0, a, b, LEANS_FULLY.1));
        assert!(thin(8.0, 18.0) < 0.2 && thin(0.0, 1.0) < 0.6 && thin(25.0, -35.0) > 2.0);
    }

    #[test]
    fn a_dull_navy_with_body_is_likelier_to_thin_to_a_grey_blue_than_to_an_azure() {
        let navy = leaning(16.0, 4.0, -16.0, LEANS_FULLY.0);
        let thin = |a: f64, b: f64| navy.unlikely_with_body(leaning(70.0, a, b, LEANS_FULLY.1));
        assert!(thin(2.0, -20.0) < 1.0 && thin(-8.0, -45.0) > 9.0, "{} {}", thin(2.0, -20.0), thin(-8.0, -45.0));
    }
    #[test]
    fn a_warm_red_is_likelier_to_thin_to_a_coral_than_to_a_rose() {
        let (red, rose) = (Lab::new(34.0, 52.0, 30.0), Lab::new(34.0, 55.0, 5.0));
        assert!(is_warm_red(red) && !is_warm_red(rose));
        let red = Leaning { is_red: true, ..Leaning::of(red, LEANS_FULLY.0) };
        let thin = |a: f64, b: f64| red.unlikely(Leaning::of(Lab::new(70.0, a, b), LEANS_FULLY.1));
        assert!(thin(40.0, 20.0) < 0.2 && thin(45.0, -5.0) > 2.0, "{} {}", thin(40.0, 20.0), thin(45.0, -5.0));
    }
}
