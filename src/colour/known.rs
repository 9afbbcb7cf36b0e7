//! The pigments that are known: what each absorbs and scatters, in a few numbers, with its source.
//!
//! The file `pigments.tsv` holds ln K at fifteen wavelengths and ln S at eight, of an ordinary coat; straight lines join
//! them. They were fitted to what measured paints show, alone and with white:
//!
//! - `acrylics`: R. S. Berns, "Artist paint spectral database", Color and Imaging Conference 24 (2016), 19 paints.
//! - `oils`: Geldof, Proaño Gaibor, Kirchner and Ligterink, Heritage Science 6:17 (2018), 20 reconstructed oil paints, CC0.
//! - `bands`: made from published absorption bands, and trusted less. Iron oxides: Sherman and Waite, American Mineralogist
//!   70 (1985) 1262; carbon black: Bond and Bergstrom, Aerosol Science and Technology 40 (2006) 27; chromium oxide: Burns,
//!   "Mineralogical Applications of Crystal Field Theory" (1993).
//!
//! Levels are those of a paint of ordinary strength; how strong a paint of it is, is always found anew.

use std::sync::LazyLock;

use super::bands::{self, Bands, wavelength};
use super::constants::{FIRST_BAND, OUTDATED};
use super::depths::Depths;

/// From one number of ln K to the next, in nanometres.
const ABSORBED_STEP: f64 = 25.0;

/// From one number of ln S to the next, in nanometres.
const SCATTERED_STEP: f64 = 50.0;

/// What a pigment does in a paint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Body {
    /// It colours.
    Colour,
    /// It lightens.
    White,
    /// It fills, and hardly does either: no paint is made of it alone.
    Extender,
}

/// A pigment.
#[derive(Debug, Clone, PartialEq)]
pub struct Known {
    /// What it is called.
    pub name: String,
    /// Its colour index name.
    pub index: String,
    /// Where its numbers come from.
    pub source: String,
    /// What it does.
    pub body: Body,
    /// Of an ordinary coat.
    pub depths: Depths,
}

/// All of them, in the order of the file.
pub(crate) static KNOWN: LazyLock<Vec<Known>> =
    LazyLock::new(|| include_str!("pigments.tsv").lines().filter_map(Known::of_line).collect());

impl Known {
    fn of_line(line: &str) -> Option<Self> {
        let mut fields = line.split('\t');
        let mut field = || fields.next();
        let (name, index, source) = (field()?, field()?, field()?);
        let body = match field()? {
            "colour" => Body::Colour,
            "white" => Body::White,
            "extender" => Body::Extender,
            _ => return None,
        };
        let (absorbed, scattered) = (numbers(field()?)?, numbers(field()?)?);
        let depths =
            Depths { absorbed: joined(&absorbed, ABSORBED_STEP), scattered: joined(&scattered, SCATTERED_STEP) };
        Some(Self { name: name.to_owned(), index: index.to_owned(), source: source.to_owned(), body, depths })
    }

    /// Whether this is a pigment of that colour index name.
    pub fn is_called(&self, index: &str) -> bool {
        self.index.eq_ignore_ascii_case(index)
    }

    /// Whether no maker of paints for models uses it by now.
    pub(crate) fn is_outdated(&self) -> bool {
        OUTDATED.0.iter().any(|index| self.is_called(index))
    }

    /// Whether it is a black, by its colour index name.
    pub(crate) fn is_black(&self) -> bool {
        self.index.starts_with("PBk")
    }

    /// Whether this is a shade of the pigment of that name: PB15:3 of PB15, and of PB15:4.
    pub fn is_shade_of(&self, index: &str) -> bool {
        plain(&self.index).eq_ignore_ascii_case(plain(index))
    }
}

/// A colour index name without its shade.
fn plain(index: &str) -> &str {
    index.split(':').next().unwrap_or(index)
}

/// Hundredths.
fn numbers(text: &str) -> Option<Vec<f64>> {
    text.split(' ').map(|number| number.parse::<i32>().ok().map(|number| f64::from(number) / 100.0)).collect()
}

/// The depth in each band of logarithms that straight lines join.
fn joined(logs: &[f64], step: f64) -> Bands {
    bands::each(|band| {
        let place = (wavelength(band) - FIRST_BAND) / step;
        let at =
            |knot: f64| logs.iter().enumerate().find(|(own, _)| (*own as f64 - knot).abs() < 0.5).map(|(_, log)| *log);
        let below = at(place.floor()).unwrap_or_default();
        let above = at(place.floor() + 1.0).unwrap_or(below);
        (below + (above - below) * place.fract()).exp()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_the_file_is_a_pigment() {
        let lines = include_str!("pigments.tsv").lines().skip(1).count();
        assert_eq!(KNOWN.len(), lines);
        assert!(
            KNOWN.iter().all(|known| known
                .depths
                .absorbed
                .iter()
                .chain(&known.depths.scattered)
                .all(|d| d.is_finite()))
        );
        assert!(KNOWN.iter().filter(|known| known.source != "bands").count() >= 38);
    }

    #[test]
    fn the_names_that_an_author_can_write_are_those_of_the_file() {
        let of_file: std::collections::BTreeSet<&str> = KNOWN.iter().map(|known| known.index.as_str()).collect();
        assert_eq!(crate::trade::PIGMENTS.iter().copied().collect::<std::collections::BTreeSet<_>>(), of_file);
    }

    #[test]
    fn a_name_stands_for_its_shades() {
        let shades = |index: &str| KNOWN.iter().filter(|known| known.is_shade_of(index)).count();
        assert_eq!((shades("PB15:4"), shades("pb15"), shades("PB99")), (2, 2, 0));
        assert_eq!(KNOWN.iter().filter(|known| known.is_called("pb15:3")).count(), 1);
    }
}
