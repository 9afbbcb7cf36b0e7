//! The same light in a third of the bands: enough to compare colours that are calculated alike, at a third of the cost.

use super::bands;
use super::cie;
use super::depths::Depths;
use super::film::Film;
use super::matrix::dot;
use super::space::LinearRgb;
use super::surface::Surface;

/// Of so many bands the middle one stands for all.
const STRIDE: usize = 3;

/// How many are left.
pub(crate) const COUNT: usize = bands::COUNT / STRIDE;

/// One number in each of them.
pub(crate) type Coarse = [f64; COUNT];

/// A number in each of them.
pub(crate) fn each(of: impl Fn(usize) -> f64) -> Coarse {
    bands::numbers(of)
}

/// What stands for a third of the bands.
pub(crate) fn thinned(all: &bands::Bands) -> Coarse {
    each(|at| all[at * STRIDE + STRIDE / 2])
}

/// The other way: each stands for its three bands.
pub(crate) fn filled(coarse: &Coarse) -> bands::Bands {
    bands::each(|band| coarse[band / STRIDE])
}

/// The weights of the bands for red, green and blue.
pub(crate) fn weights() -> [Coarse; 3] {
    cie::weights().map(|weights| each(|at| weights[at * STRIDE..(at + 1) * STRIDE].iter().sum()))
}

/// Optical depths.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CoarseDepths {
    /// Absorbed.
    pub(crate) absorbed: Coarse,
    /// Scattered.
    pub(crate) scattered: Coarse,
}

impl CoarseDepths {
    /// A film that does nothing.
    pub(crate) const NONE: Self = Self { absorbed: [0.0; COUNT], scattered: [0.0; COUNT] };

    /// Those of a film in fewer bands.
    pub(crate) fn of(depths: &Depths) -> Self {
        Self { absorbed: thinned(&depths.absorbed), scattered: thinned(&depths.scattered) }
    }

    /// With so many films of another on top.
    #[must_use]
    pub(crate) fn with(&self, other: &Self, films: f64) -> Self {
        Self {
            absorbed: each(|at| self.absorbed[at] + films * other.absorbed[at]),
            scattered: each(|at| self.scattered[at] + films * other.scattered[at]),
        }
    }

    /// What so many such films reflect on a ground; both without the skin.
    pub(crate) fn over(&self, films: f64, ground: &Coarse) -> Coarse {
        each(|at| self.film(films, at).over(ground[at]))
    }

    /// The same on several grounds.
    pub(crate) fn over_each<const N: usize>(&self, films: f64, grounds: &[Coarse; N]) -> [Coarse; N] {
        let mut all = [[0.0; COUNT]; N];
        for at in 0..COUNT {
            let film = self.film(films, at);
            for (seen, ground) in all.iter_mut().zip(grounds) {
                seen[at] = film.over(ground[at]);
            }
        }
        all
    }

    fn film(&self, films: f64, at: usize) -> Film {
        Film::new(self.absorbed[at] * films, self.scattered[at] * films)
    }
}

/// The colour of what lies under a skin.
pub(crate) fn seen(below: &Coarse, surface: Surface) -> LinearRgb {
    let outer = each(|at| surface.outer_in(below[at]));
    let [red, green, blue] = &*WEIGHTS;
    LinearRgb::new(dot(red, &outer), dot(green, &outer), dot(blue, &outer))
}

static WEIGHTS: std::sync::LazyLock<[Coarse; 3]> = std::sync::LazyLock::new(weights);
