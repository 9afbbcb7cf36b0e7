//! How much of a step's mix one needs: what is measured out for all models, and the drops for a cup.

use serde::Serialize;
use serde_json::{Value, json};

use crate::guide::{Measured, Mix};
use crate::measure::{Millilitres, exact, guessed_sum, predicted};
use crate::quantity::{By, Laying, MeasuredOut, StepAmounts, StepNeed, SurfaceSource, less_than_a_drop};

/// How much of a mix, for a number of models.
#[derive(Debug, Serialize)]
pub struct MixAmounts {
    /// How many models it is for: as many as are usual for the scheme.
    pub models: u32,
    /// What is measured out for them, where it is a mix.
    pub lot: Option<LotView>,
    /// The drops for one cup or one palette, where a ratio is measured in them.
    pub cup: Option<CupView>,
    /// How the amount is said; words below `mix`: `need`, `can` (of all that is in it), `trace` (less than a drop).
    pub said: &'static str,
    /// Predicted millilitres for them.
    pub likely: String,
    /// It may be as little as this.
    pub low: String,
    /// It may be as much as this.
    pub high: String,
    /// What the surface rests on; words below `mix`: `from-given`, `from-mesh`, `from-guess`.
    pub from: &'static str,
    /// The surface of one model in cm².
    pub surface: String,
    /// The coefficients for a script that calculates it for another number of models: JSON.
    pub scaling: String,
}

/// What is measured out for all models: whole multiples of the parts.
#[derive(Debug, Serialize)]
pub struct LotView {
    /// In what; words below `mix`: `lot` in drops, `pour` in millilitres.
    pub said: &'static str,
    /// How much of each line.
    pub parts: Vec<String>,
}

/// The drops for one cup.
#[derive(Debug, Serialize)]
pub struct CupView {
    /// The drops of each line.
    pub drops: Vec<String>,
    /// How many millilitres they make.
    pub size: String,
    /// Whether they come near the ratio and are not the same.
    pub near: bool,
    /// Whether that is because drops differ in size.
    pub sized: bool,
    /// Whether the cup is filled from one lot that is mixed once for all models, and does not hold it.
    pub from_lot: bool,
    /// Whether it is the cup of an airbrush; otherwise they lie on a palette.
    pub airbrush: bool,
}

/// What a script is given: the coefficients that it uses, whether they are about a can, below which volume they are less
/// than a drop, and how many of the parts each line of the mix is, for a pot is several. What is no number of it is left
/// out, as a script takes that for no; and what is as something else is, which it takes from there.
fn for_script(mix: &Mix, need: &StepNeed, can: bool) -> String {
    let mut given = json!(need.scaling);
    if let Some(fields) = given.as_object_mut() {
        fields.retain(|name, field| match name.as_str() {
            "load" | "spread_drops" => false,
            "shares" => need.scaling.counting.in_drops.is_none(),
            _ => !field.is_null(),
        });
    }
    let is_alike = |one: &str, other: &str| given[one] == given[other];
    let mut needless = Vec::new();
    needless.extend(is_alike("in_marks", "in_drops").then_some("in_marks"));
    needless.extend(is_alike("first", "per_model").then_some("first"));
    needless.extend((need.scaling.reserve <= 0.0).then_some(["reserve", "reserve_least"]).into_iter().flatten());
    if let Some(fields) = given.as_object_mut() {
        fields.retain(|name, _| !needless.contains(&name.as_str()));
        fields.values_mut().for_each(rounded);
    }
    if can {
        given["can"] = json!(true);
    }
    given["trace"] = json!(less_than_a_drop(need.drop).0);
    given["lines"] = mix.lines().map(|line| line.parts.len()).collect();
    given.to_string()
}

/// Figures to twelve places: they are counted up to whole recipes, and seventeen are many bytes on a page of many mixes.
fn rounded(value: &mut Value) {
    if let Value::Array(entries) = value {
        entries.iter_mut().for_each(rounded);
    } else if let Some(number) = value.as_f64().filter(|_| value.is_f64()) {
        *value = json!((number * 1e12).round() / 1e12);
    }
}

impl MixAmounts {
    /// The amounts of a step for a number of models.
    pub(in crate::page) fn of(mix: &Mix, need: &StepNeed, models: u32) -> Self {
        let amounts = need.for_models(models);
        let can = matches!(need.sum.laying, Laying::Can(_));
        let said = match amounts.need.likely.0 {
            _ if can => "can",
            less if less < less_than_a_drop(need.drop).0 => "trace",
            _ => "need",
        };
        Self {
            models,
            lot: mix.is_ratio().then(|| LotView::of(mix, &amounts.out)),
            cup: cup(mix, need, &amounts).filter(|cup| cup.airbrush || said != "trace"),
            said,
            likely: predicted(amounts.need.likely.0),
            low: predicted(amounts.need.low.0),
            high: predicted(amounts.need.high.0),
            from: match need.sum.source {
                SurfaceSource::Given => "from-given",
                SurfaceSource::Mesh => "from-mesh",
                SurfaceSource::Guessed(_) => "from-guess",
            },
            surface: match need.sum.source {
                SurfaceSource::Guessed(_) => guessed_sum([need.sum.area.0 - need.sum.base.0, need.sum.base.0]),
                SurfaceSource::Given | SurfaceSource::Mesh => exact(need.sum.area.0, 1),
            },
            scaling: for_script(mix, need, can),
        }
    }
}

impl LotView {
    fn of(mix: &Mix, out: &MeasuredOut) -> Self {
        let ml: Vec<f64> = out.volumes.iter().map(|volume| volume.0).collect();
        let volumes = |written: fn(f64) -> String| mix.lines().filter_map(|line| line.sum(&ml)).map(written).collect();
        let counts = || mix.lines().filter_map(|line| line.sum(&out.counts)).map(|count: u32| count.to_string());
        let (said, parts) = match out.by {
            By::Drops => ("lot", counts().collect()),
            By::Marks => ("pour", volumes(|ml| exact(ml, 1))),
            By::Volume => ("pour", volumes(predicted)),
        };
        Self { said, parts }
    }
}

/// The drops that fill a cup; an author who counts drops for a palette has said them already. A palette holds no more than all
/// models take, and what is one lot for all of them is mixed at once.
fn cup(mix: &Mix, need: &StepNeed, amounts: &StepAmounts) -> Option<CupView> {
    let airbrush = matches!(need.sum.laying, Laying::Airbrush(_));
    if !mix.is_ratio() || (mix.measured == Measured::Drops && !airbrush) {
        return None;
    }
    let from_lot = airbrush && need.together && amounts.loads > 1;
    let size = need.scaling.load?;
    let out = need.filling(Millilitres(size))?;
    if !airbrush && need.is_mixed_at_once(amounts) {
        return None;
    }
    let size = if airbrush { exact(size, 2) } else { exact(out.total().0, 1) };
    let drops = mix.lines().filter_map(|line| line.sum(&out.counts));
    Some(CupView {
        drops: drops.map(|count| count.to_string()).collect(),
        // A cup that is filled from the lot is not counted out.
        near: out.near && !from_lot,
        sized: out.sized && !from_lot,
        from_lot,
        size,
        airbrush,
    })
}
