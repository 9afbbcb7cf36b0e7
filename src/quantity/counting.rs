//! How a mix is measured out, as a page embeds it: its script counts drops and marks as [`measured_out`](super::measured_out)
//! does.

use serde::Serialize;

use super::measured_out::Measure;
use super::portion::Portion;
use crate::bench::{Bench, Figure};

/// What a mix or a pot is measured out by. All volumes are in ml.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Counting {
    /// The share of each line of the mix by volume, for what is not counted out.
    pub shares: Vec<f64>,
    /// What a drop of each line counts for, where it is measured in drops.
    pub drops: Vec<Option<f64>>,
    /// The whole parts of each line in drops; `null` where the mix is not counted out.
    pub in_drops: Option<Vec<u32>>,
    /// The same in marks of a cup.
    pub in_marks: Option<Vec<u32>>,
    /// From this volume on it is poured.
    pub pour_from: f64,
    /// What one mark may be, the coarsest first: of a cup, of a syringe; for many parts of a syringe alone.
    pub marks: Vec<f64>,
}

impl Counting {
    /// By the lines of a mix, and how they are counted out where they can be.
    pub(super) fn of(portions: &[Portion], measure: Option<&Measure>, bench: &Bench) -> Self {
        Self {
            shares: portions.iter().map(|portion| portion.share).collect(),
            drops: portions.iter().map(|portion| portion.drop.map(|_| portion.unit.0)).collect(),
            in_drops: measure.map(|measure| measure.drops.parts.clone()),
            in_marks: measure.map(|measure| measure.marks.parts.clone()),
            pour_from: bench.get(Figure::PourFrom),
            marks: measure.map(|measure| measure.by_marks.iter().map(|mark| mark.0).collect()).unwrap_or_default(),
        }
    }
}
