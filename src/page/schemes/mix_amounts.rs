//! How much of a step's mix one needs: the drops for a cup, and what one model takes.

use serde::Serialize;

use crate::guide::{Measured, Mix};
use crate::measure::{Millilitres, in_figures};
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
    /// Whether they come near the ratio and are not the very same.
    pub near: bool,
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
            likely: in_figures(lot.likely.0),
            low: in_figures(lot.low.0),
            high: in_figures(lot.high.0),
            from: match need.sum.source {
                SurfaceSource::Given => "from-given",
                SurfaceSource::Mesh => "from-mesh",
                SurfaceSource::Guessed(_) => "from-guess",
            },
            surface: in_figures(need.sum.area.0),
        }
    }
}

/// The drops that fill a cup; an author who counts drops for a palette has said them already.
fn cup(mix: &Mix, need: &StepNeed) -> Option<CupView> {
    let airbrush = matches!(need.sum.laying, Laying::Airbrush(_));
    if !mix.is_mixed() || (mix.measured == Measured::Drops && !airbrush) {
        return None;
    }
    let size = need.scaling.load?;
    let out = need.filling(Millilitres(size))?;
    let made = format!("{:.1}", out.total().0);
    let size = if airbrush { in_figures(size) } else { made };
    Some(CupView { drops: out.counts.iter().map(u32::to_string).collect(), near: out.near, size, airbrush })
}
