//! How much of a step's mix one needs: the drops for a cup, and what one model takes.

use serde::Serialize;

use crate::guide::{Measured, Mix};
use crate::measure::{Millilitres, exact, predicted};
use crate::quantity::{Laying, StepNeed, SurfaceSource};

/// How much of a mix.
#[derive(Debug, Serialize)]
pub struct MixAmounts {
    /// The drops for one cup or one palette, where a ratio is measured in them.
    pub cup: Option<CupView>,
    /// How the amount is said; words below `mix`: `one`, `can` (of all that is in it), `trace` (less than a drop).
    pub said: &'static str,
    /// Predicted millilitres for one model.
    pub likely: String,
    /// It may be as little as this.
    pub low: String,
    /// It may be as much as this.
    pub high: String,
    /// What the surface rests on; words below `mix`: `from-given`, `from-mesh`, `from-guess`.
    pub from: &'static str,
    /// The surface of one model in cm².
    pub surface: String,
}

/// The drops for one cup.
#[derive(Debug, Serialize)]
pub struct CupView {
    /// The drops of each line.
    pub drops: Vec<String>,
    /// How many millilitres they make.
    pub size: String,
    /// Whether it is the cup of an airbrush; otherwise they lie on a palette.
    pub airbrush: bool,
}

/// Less than this, in ml, is less than a drop of anything.
const TRACE: f64 = 0.02;

impl MixAmounts {
    /// The amounts of a step.
    pub(in crate::page) fn of(mix: &Mix, need: &StepNeed) -> Self {
        let lot = need.for_models(1).need;
        let said = match need.sum.laying {
            Laying::Can(_) => "can",
            _ if lot.likely.0 < TRACE => "trace",
            _ => "one",
        };
        Self {
            cup: cup(mix, need).filter(|cup| cup.airbrush || said != "trace"),
            said,
            likely: predicted(lot.likely.0),
            low: predicted(lot.low.0),
            high: predicted(lot.high.0),
            from: match need.sum.source {
                SurfaceSource::Given => "from-given",
                SurfaceSource::Mesh => "from-mesh",
                SurfaceSource::Guessed(_) => "from-guess",
            },
            surface: exact(need.sum.area.0, 1),
        }
    }
}

/// The drops that fill a cup; an author who counts drops for a palette has said them already.
fn cup(mix: &Mix, need: &StepNeed) -> Option<CupView> {
    let airbrush = matches!(need.sum.laying, Laying::Airbrush(_));
    if !mix.is_ratio() || (mix.measured == Measured::Drops && !airbrush) {
        return None;
    }
    let size = need.scaling.load?;
    let out = need.filling(Millilitres(size))?;
    let size = if airbrush { exact(size, 2) } else { exact(out.total().0, 1) };
    let drops = mix.lines().filter_map(|line| line.sum(&out.counts));
    Some(CupView { drops: drops.map(|count| count.to_string()).collect(), size, airbrush })
}
