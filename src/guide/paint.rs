//! A paint, or any other product of the shelf: thinner, varnish, glue.

use std::ops::RangeInclusive;

use crate::measure::{Colour, Fraction, Millilitres, Money, Time};
use crate::report::Place;
use crate::source::HazardCode;
use crate::trade::{Family, Hiding, Kind, Sheen};

/// A product with everything that its range and its kind settle filled in.
#[derive(Debug, Clone, PartialEq, Hash)]
pub struct Paint {
    /// The id by which steps use it.
    pub id: String,
    /// What the label calls it.
    pub name: String,
    /// Who makes it.
    pub maker: String,
    /// The range it belongs to.
    pub range: String,
    /// What it is for.
    pub kind: Kind,
    /// What carries it.
    pub family: Family,
    /// The dry, opaque colour; of what tints, how it looks in some coats over white. `None`: the author does
    /// not say.
    pub colour: Option<Colour>,
    /// How well one coat covers.
    pub hiding: Hiding,
    /// How the dry film shines.
    pub sheen: Sheen,
    /// The maker's own number.
    pub code: Option<String>,
    /// How much a drop of it is, if the author says so of it or of all; otherwise the bench knows what is usual.
    pub drop: Option<Millilitres>,
    /// The sizes it is sold in.
    pub bottles: Vec<Bottle>,
    /// Measured brush-outs.
    pub swatches: Vec<Swatch>,
    /// The colour index names of the pigments that its maker prints.
    pub pigments: Vec<String>,
    /// The ids of the only thinners that suit it; empty: the family's rule holds.
    pub thin_with: Vec<String>,
    /// For a thinner or cleaner: what it suits.
    pub suits: Vec<Suits>,
    /// Hazard statement codes from its own safety data sheet.
    pub hazards: Vec<HazardCode>,
    /// How long until it may be touched, if the author says.
    pub touch_dry: Option<Time>,
    /// How long until it may be painted over, if the author says.
    pub recoat: Option<Time>,
    /// How long until it is hard through and through, if the author says.
    pub cure: Option<Time>,
    /// Whether it has left the market.
    pub discontinued: bool,
    /// Whether its label or its data sheet says that it must not be sprayed.
    pub not_for_spraying: bool,
    /// Anything worth knowing.
    pub note: Option<String>,
    /// Where its id is in its file.
    pub place: Place,
}

/// What only containers under pressure have on their data sheet: aerosols and gases; P211, P251 and P412 are given to
/// aerosols alone.
const PRESSURISED: &[RangeInclusive<&str>] =
    &["H220"..="H223", "H229"..="H229", "H280"..="H284", "P211"..="P211", "P251"..="P251", "P412"..="P412"];

impl Paint {
    /// Whether it comes out of a container under pressure: a spray can.
    pub fn is_pressurised(&self) -> bool {
        self.codes().any(|code| PRESSURISED.iter().any(|run| run.contains(&code)))
    }

    /// The family of its solvent: its own, or that of a thinner which stands among paints that it does not suit, white
    /// spirit in a drawer of lacquers.
    pub fn solvent(&self) -> Family {
        let mut suited = self.suits.iter().filter_map(|suits| match suits {
            Suits::Family(family) => Some(*family),
            Suits::Paint(_) => None,
        });
        let is_foreign = self.kind == Kind::Thinner && !self.suits.contains(&Suits::Family(self.family));
        suited.next().filter(|_| is_foreign).unwrap_or(self.family)
    }

    /// The single codes of its data sheet, without the letters behind their digits.
    pub fn codes(&self) -> impl Iterator<Item = &str> {
        let single = self.hazards.iter().flat_map(|code| code.0.split('+'));
        single.map(|code| code.trim_end_matches(|letter: char| letter.is_ascii_alphabetic()))
    }
}

/// One size that a paint is sold in.
#[derive(Debug, Clone, Copy, PartialEq, Hash)]
pub struct Bottle {
    /// How much is in it.
    pub size: Millilitres,
    /// What it costs, if the author says.
    pub price: Option<Money>,
}

/// A measured brush-out.
#[derive(Debug, Clone, PartialEq, Hash)]
pub enum Swatch {
    /// So many coats over white paper.
    OverWhite(u32, Colour),
    /// So many coats over black paper.
    OverBlack(u32, Colour),
    /// A tint: `parts` of the paint to `to` parts of the white paint with that id, fully covered.
    Tint {
        /// The white paint.
        white: String,
        /// Parts of the paint.
        parts: Fraction,
        /// Parts of the white.
        to: Fraction,
        /// The measured colour.
        colour: Colour,
    },
}

/// What a thinner suits.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Suits {
    /// Every paint of a family.
    Family(Family),
    /// One paint, by its id.
    Paint(String),
}
