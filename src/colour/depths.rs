//! What paint does to light, band by band: how much a nominal coat absorbs and how much it scatters.

use super::bands::{self, Bands};
use super::film::{self, Film};
use super::surface::Inner;

/// Optical depths of a film in each band, without a unit, at least 0.
///
/// A nominal coat is what a painter judges a hiding class on: an ordinary brushed coat of the product, undiluted, some
/// 30 µm wet. Depths of mixed paints add up by their shares of the wet volume (Duncan, Journal of the Oil and Colour
/// Chemists' Association 32 (1949) 296), and those of a thinner or thicker film grow with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Depths {
    /// K·X: absorbed.
    pub absorbed: Bands,
    /// S·X: scattered.
    pub scattered: Bands,
}

impl Depths {
    /// A film that does nothing: medium, thinner, a clear varnish.
    pub const NONE: Self = Self { absorbed: [0.0; bands::COUNT], scattered: [0.0; bands::COUNT] };

    /// The depths of so many such films, or of a part of one.
    #[must_use]
    pub fn times(&self, films: f64) -> Self {
        Self {
            absorbed: bands::each(|band| self.absorbed[band] * films),
            scattered: bands::each(|band| self.scattered[band] * films),
        }
    }

    /// The depths of both together.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        Self {
            absorbed: bands::each(|band| self.absorbed[band] + other.absorbed[band]),
            scattered: bands::each(|band| self.scattered[band] + other.scattered[band]),
        }
    }

    /// The film in one band.
    pub fn film(&self, band: usize) -> Film {
        Film::new(self.absorbed[band], self.scattered[band])
    }

    /// The reflectance of this film on a ground.
    pub fn over(&self, ground: &Inner) -> Inner {
        Inner(bands::each(|band| self.film(band).over(ground.0[band])))
    }

    /// The same on several grounds.
    pub fn over_each<const N: usize>(&self, grounds: &[Inner; N]) -> [Inner; N] {
        let mut all = [Inner([0.0; bands::COUNT]); N];
        for band in 0..bands::COUNT {
            let film = self.film(band);
            for (seen, ground) in all.iter_mut().zip(grounds) {
                seen.0[band] = film.over(ground.0[band]);
            }
        }
        all
    }

    /// The reflectance when it is so thick that nothing beneath shows.
    pub fn opaque(&self) -> Inner {
        Inner(bands::each(|band| film::opaque(self.absorbed[band], self.scattered[band])))
    }
}
