//! How a colour looks to eyes that lack one of the three kinds of cones.
//!
//! G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color Vision
//! Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009) 1291, the matrices for a severity of
//! 1.0, for sRGB in linear light. A model fitted to dichromats; milder forms, which are more common, see more.

use super::space::LinearRgb;

/// The three ways of lacking cones.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sight {
    /// No long-wave cones: some one man in a hundred.
    Protanopia,
    /// No middle-wave cones: some one man in a hundred; weak ones are several times as common.
    Deuteranopia,
    /// No short-wave cones: rare.
    Tritanopia,
}

impl Sight {
    /// All of them, the more common first.
    pub const ALL: &[Self] = &[Self::Deuteranopia, Self::Protanopia, Self::Tritanopia];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Protanopia => "protanopia",
            Self::Deuteranopia => "deuteranopia",
            Self::Tritanopia => "tritanopia",
        }
    }

    /// The colour that such eyes see, as others would have to see it; cut to what a screen shows.
    pub fn seen(self, light: LinearRgb) -> LinearRgb {
        let light = [light.red, light.green, light.blue].map(|channel| channel.clamp(0.0, 1.0));
        let [red, green, blue] = self
            .matrix()
            .map(|row| row.iter().zip(light).map(|(weight, channel)| weight * channel).sum::<f64>().clamp(0.0, 1.0));
        LinearRgb::new(red, green, blue)
    }

    fn matrix(self) -> [[f64; 3]; 3] {
        match self {
            Self::Protanopia => [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
            Self::Deuteranopia => [
                [0.367_322, 0.860_646, -0.227_968],
                [0.280_085, 0.672_501, 0.047_413],
                [-0.011_820, 0.042_940, 0.968_881],
            ],
            Self::Tritanopia => [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::space;
    use crate::measure::Colour;

    #[test]
    fn greys_stay_grey() {
        for sight in Sight::ALL {
            for byte in [0, 60, 128, 200, 255] {
                let grey = Colour([byte; 3]);
                let seen = space::shown(sight.seen(space::linear(grey)));
                assert!(seen.0.iter().all(|channel| channel.abs_diff(byte) <= 1), "{sight:?} {seen:?}");
            }
        }
    }

    #[test]
    fn red_and_green_of_one_lightness_run_together_and_blue_stays_apart() {
        let [red, green, blue] = ["#a04a38", "#6a6a30", "#3858a8"].map(|text| space::linear(colour(text)));
        let apart = |sight: Sight, a, b| space::lab_difference(space::lab(sight.seen(a)), space::lab(sight.seen(b)));
        let plain = space::lab_difference(space::lab(red), space::lab(green));
        assert!(plain > 20.0 && apart(Sight::Deuteranopia, red, green) < plain / 3.0);
        assert!(apart(Sight::Deuteranopia, red, blue) > 20.0);
    }

    fn colour(text: &str) -> Colour {
        use crate::measure::FromText as _;
        Colour::from_text(text).unwrap_or(Colour([0; 3]))
    }
}
