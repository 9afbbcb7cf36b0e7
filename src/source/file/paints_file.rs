//! `paints/*.yaml`: one range of a maker's paints.

use crate::measure::{Colour, Count, Fraction, Millilitres, Money, Time};
use crate::source::reading::Table;
use crate::source::record::record;
use crate::source::scalar::{Flag, HazardCode, Id, PigmentName};
use crate::trade::{Family, Hiding, Kind, Sheen};

record! {
    /// One range of paints.
    pub PaintsFile, "a range of paints" {
        /// Who makes them.
        needed maker: String = "Tarn & Daughter",
        /// What the range is called.
        needed range: String = "Mere",
        /// What carries the paint, for all that do not say otherwise.
        needed family: Family,
        /// The size of a bottle, for all that do not say otherwise.
        optional bottle: Millilitres,
        /// The price of a bottle, for all that do not say otherwise.
        optional price: Money,
        /// How well one coat covers, for paints, metals, primers and inks that do not say otherwise.
        optional hiding: Hiding,
        /// How the dry film shines, for paints, primers, inks and washes that do not say otherwise.
        optional sheen: Sheen,
        /// How much a drop is, for all that do not say otherwise.
        optional drop: Millilitres = "0.045 ml",
        /// How long until a coat may be touched, for all of the range's family that lay a film and do not say otherwise.
        optional touch_dry: Time = "10 min",
        /// How long until a coat may be painted over, for the same.
        optional recoat: Time = "30 min",
        /// How long until a coat is through and through hard, for the same.
        optional cure: Time = "24 h",
        /// The paints by their ids.
        needed paints: Table<Id, PaintEntry> = "{bog-iron: {name: Bog Iron, kind: paint}}",
    }
}

record! {
    /// One paint.
    pub PaintEntry, "a paint" {
        /// What the label calls it.
        needed name: String = "Bog Iron",
        /// What it is for.
        needed kind: Kind,
        /// What carries it, where it differs from the range.
        optional family: Family,
        /// The dry, opaque colour; for a clear or a transparent ink two coats over white, for a one-coat paint one flooded coat, for a wash where it has gathered deep.
        optional colour: Colour,
        /// How well one coat covers.
        optional hiding: Hiding,
        /// How the dry film shines.
        optional sheen: Sheen,
        /// The maker's own number.
        optional code: String = "M-14",
        /// How much a drop of it is.
        optional drop: Millilitres = "0.045 ml",
        /// The size of a bottle.
        optional bottle: Millilitres,
        /// The price of a bottle.
        optional price: Money,
        /// All sizes it is sold in, in place of one bottle and price.
        optional bottles: Vec<BottleEntry>,
        /// Measured brush-outs; each narrows the prediction of its colour.
        optional swatches: Vec<SwatchEntry>,
        /// The pigments that its maker prints, by their colour index names; they narrow the prediction of its mixes.
        optional pigments: Vec<PigmentName> = "[PB15:3, PW6]",
        /// The only thinners that suit it; without it the family's rule holds.
        optional thin_with: Vec<Id> = "[mere-thinner]",
        /// For a thinner or cleaner: the families or paints that it suits.
        optional suits: Vec<Id> = "[water]",
        /// Hazard statement codes from its own safety data sheet.
        optional hazards: Vec<HazardCode>,
        /// How long until it may be touched.
        optional touch_dry: Time,
        /// How long until it may be painted over.
        optional recoat: Time = "30 min",
        /// How long until it is through and through hard.
        optional cure: Time = "24 h",
        /// Whether it has left the market.
        optional discontinued: Flag,
        /// Whether its label or its data sheet says that it must not be sprayed.
        optional not_for_spraying: Flag,
        /// Anything worth knowing.
        optional note: String = "Shake for a minute.",
    }
}

record! {
    /// One size that a paint is sold in.
    pub BottleEntry, "a bottle" {
        /// How much is in it.
        needed size: Millilitres,
        /// What it costs.
        optional price: Money,
    }
}

record! {
    /// A measured brush-out: over white, over black, or as a tint with a known white.
    pub SwatchEntry, "a swatch" {
        /// The ground it was brushed over: white or black.
        optional over: Id = "white",
        /// How many coats.
        optional coats: Count,
        /// The white paint it was mixed with.
        optional with: Id = "chalk",
        /// How many parts of this paint.
        optional parts: Fraction,
        /// How many parts of the white.
        optional to: Fraction,
        /// The colour that was measured.
        needed colour: Colour,
    }
}
