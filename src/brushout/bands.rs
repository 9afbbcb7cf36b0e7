//! What the card's bands reflect under the paint; colours over others are told as over the usual ones.

use crate::colour::space::LinearRgb;
use crate::colour::{BLACK_CARD, Film, Surface, WHITE_CARD, invert};

/// What the two bands of a card reflect in every band of the spectrum, 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bands {
    /// The white one.
    pub white: f64,
    /// The black one.
    pub black: f64,
}

impl Bands {
    /// Those that the colour method counts with.
    pub const USUAL: Self = Self { white: WHITE_CARD, black: BLACK_CARD };

    /// What the paint would show over the usual bands, from what it shows over these: first over white, then over black.
    ///
    /// In each channel the film is looked for that shows both, and what it would show more or less is added: a reading
    /// that no film could give stays as it was read.
    pub(super) fn as_usual(self, seen: [LinearRgb; 2]) -> [LinearRgb; 2] {
        if self == Self::USUAL {
            return seen;
        }
        let [white, black] = seen.map(|one| [one.red, one.green, one.blue]);
        let moved: [[f64; 2]; 3] = std::array::from_fn(|channel| self.moved(white[channel], black[channel]));
        [0, 1].map(|band| LinearRgb::from(std::array::from_fn::<f64, 3, _>(|channel| moved[channel][band])))
    }

    fn moved(self, white: f64, black: f64) -> [f64; 2] {
        let inside = |outer: f64| Surface::CHART.inner_in(outer);
        let grounds = [self.white, self.black].map(inside);
        let (absorbed, scattered) = invert::depths(inside(black), inside(white), grounds[1], grounds[0]);
        let film = Film::new(absorbed, scattered);
        let shown = |ground: f64| Surface::CHART.outer_in(film.over(ground));
        let usual = [Self::USUAL.white, Self::USUAL.black].map(inside);
        let more = |band: usize| shown(usual[band]) - shown(grounds[band]);
        [(white + more(0)).max(0.0), (black + more(1)).max(0.0)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_film_over_other_bands_is_told_as_over_the_usual_ones() {
        let film = Film::new(0.3, 0.4);
        let over = |ground: f64| Surface::CHART.outer_in(film.over(Surface::CHART.inner_in(ground)));
        let grey = |value: f64| LinearRgb::new(value, value, value);
        let other = Bands { white: 0.93, black: 0.05 };
        let [white, black] = other.as_usual([grey(over(0.93)), grey(over(0.05))]);
        assert!(
            (white.red - over(0.85)).abs() < 1e-3 && (black.green - over(0.02)).abs() < 1e-3,
            "{white:?} {black:?}"
        );
        assert_eq!(Bands::USUAL.as_usual([grey(0.4), grey(0.1)]), [grey(0.4), grey(0.1)]);
    }
}
