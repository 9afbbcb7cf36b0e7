//! Everything that is to be said of one step's mix, as JSON has it and the text shows it.
//!
//! Volumes are in millilitres, each with the bounds that it may lie in; figures of a step whose amounts are not known
//! are left out, its ratio and its cautions never.

use serde::Serialize;

use crate::caution::CautionTexts;
use crate::guide::{Measured, Step};
use crate::measure::Millilitres;
use crate::quantity::{
    Dropped, Estimate, Extra, Laying, Purpose, Scaling, StepAmounts, StepNeed, SurfaceSource, drops, workable,
};
use crate::report::{Finding, Level};
use crate::story::Checked;
use crate::work::WorkedScheme;

/// One step for a number of models.
#[derive(Debug, Serialize)]
pub(super) struct Sheet {
    /// The scheme's title.
    pub(super) scheme: String,
    /// The step's number.
    pub(super) number: usize,
    /// The step's title.
    pub(super) step: String,
    /// What puts the paint on.
    pub(super) technique: &'static str,
    /// For how many models.
    pub(super) models: u32,
    /// Whether all of them are done in one go.
    pub(super) together: bool,
    /// The lines of the mix, in the author's order.
    pub(super) parts: Vec<Part>,
    /// The amounts, where they can be worked out.
    pub(super) amounts: Option<Amounts>,
    /// What was found about the files of the step and of its scheme, such as a mesh that can't be measured.
    pub(super) findings: Vec<Told>,
    /// What can hurt somebody.
    pub(super) cautions: Option<Cautions>,
}

/// One line of the mix.
#[derive(Debug, Serialize)]
pub(super) struct Part {
    pub(super) paint: String,
    pub(super) name: String,
    pub(super) maker: String,
    /// Parts or drops, as the author wrote it.
    pub(super) amount: String,
    /// What the amounts count: `parts` or `drops`.
    pub(super) counted_in: &'static str,
    /// How large its drop is; `null` where it is not measured in drops.
    pub(super) drop_ml: Option<f64>,
    /// Its drops in the whole lot.
    pub(super) drops: Option<u32>,
    pub(super) ml: Option<Estimate>,
    pub(super) grams: Option<f64>,
}

/// How much, in loads of what size, and how that came about.
#[derive(Debug, Serialize)]
pub(super) struct Amounts {
    pub(super) lot_ml: Estimate,
    pub(super) reserve_ml: f64,
    /// Whether there are so few drops that the ratio is chance.
    pub(super) too_few_drops: bool,
    /// Then the least that can be counted out.
    pub(super) workable_drops: Option<Vec<u32>>,
    pub(super) loads: Option<Loads>,
    pub(super) beside: Vec<Beside>,
    pub(super) sum: SumOf,
    pub(super) scaling: Scaling,
}

/// The cups that the lot fills, each as full as the others.
#[derive(Debug, Serialize)]
pub(super) struct Loads {
    pub(super) count: u32,
    /// What the cup holds.
    pub(super) cup_ml: f64,
    /// What is mixed in it each time.
    pub(super) each_ml: f64,
    /// The drops of each line in one cup.
    pub(super) each_drops: Option<Vec<u32>>,
}

/// Something used up beside the mix.
#[derive(Debug, Serialize)]
pub(super) struct Beside {
    /// What it is for.
    pub(super) purpose: &'static str,
    /// The guide's product, if it has one for it.
    pub(super) name: Option<String>,
    pub(super) ml: Estimate,
}

/// The factors.
#[derive(Debug, Serialize)]
pub(super) struct SumOf {
    pub(super) surface_cm2: f64,
    /// `given`, `mesh` or `guessed`.
    pub(super) surface_from: &'static str,
    pub(super) areas: f64,
    pub(super) touched: f64,
    pub(super) film_um: f64,
    pub(super) coats: u32,
    pub(super) on_one_model_ml: f64,
    pub(super) efficiency: f64,
    /// How it is laid, in words.
    pub(super) laid: &'static str,
    pub(super) lost_ml: f64,
}

/// A finding about the step.
#[derive(Debug, Serialize)]
pub(super) struct Told {
    pub(super) rule: &'static str,
    pub(super) level: Level,
    pub(super) message: String,
    pub(super) mend: String,
}

/// What can hurt somebody, in full and in the guide's language.
#[derive(Debug, Serialize)]
pub(super) struct Cautions {
    pub(super) title: String,
    /// Heading and text of each.
    pub(super) texts: Vec<(String, String)>,
    pub(super) author_note: String,
    pub(super) notes: Vec<String>,
    pub(super) statements_title: String,
    pub(super) statements: Vec<String>,
    pub(super) closing: String,
}

impl Sheet {
    /// The sheet of a step; `cup` replaces the size of the airbrush's cup, or asks for cups where a brush is used.
    pub(super) fn of(
        checked: &Checked,
        worked: &WorkedScheme,
        at: usize,
        models: u32,
        cup: Option<Millilitres>,
    ) -> Self {
        let step = &worked.scheme.steps[at];
        let need = worked.needs.get(at).and_then(Option::as_ref);
        let amounts = need.map(|need| need.for_models(models));
        let dropped = need.zip(amounts.as_ref()).and_then(|(need, all)| drops(&need.portions, all.lot.likely));
        let files = [step.file, worked.scheme.file];
        let findings = checked.findings.iter().filter(|finding| files.contains(&finding.place.file));
        Self {
            scheme: worked.scheme.title.clone(),
            number: step.number,
            step: step.title.clone(),
            technique: step.technique.name(),
            models,
            together: step.together,
            parts: parts(step, need, amounts.as_ref(), dropped.as_ref()),
            amounts: need.zip(amounts).map(|(need, all)| Amounts::of(need, &all, dropped.as_ref(), cup)),
            findings: findings.map(Told::of).collect(),
            cautions: cautions(checked, worked, at),
        }
    }
}

fn parts(step: &Step, need: Option<&StepNeed>, all: Option<&StepAmounts>, dropped: Option<&Dropped>) -> Vec<Part> {
    let counted_in = if step.mix.measured == Measured::Drops { "drops" } else { "parts" };
    let part = |(at, part): (usize, &crate::guide::MixPart)| {
        let portion = need.and_then(|need| need.portions.get(at));
        let ml = all.and_then(|all| all.parts.get(at)).copied();
        Part {
            paint: part.paint.id.clone(),
            name: part.paint.name.clone(),
            maker: part.paint.maker.clone(),
            amount: part.amount.to_string(),
            counted_in,
            drop_ml: portion.and_then(|portion| portion.drop).map(|drop| drop.0),
            drops: dropped.and_then(|dropped| dropped.counts.get(at)).copied(),
            ml,
            grams: portion.zip(ml).map(|(portion, ml)| thousandths(ml.likely.0 * portion.density)),
        }
    };
    step.mix.parts.iter().enumerate().map(part).collect()
}

impl Amounts {
    fn of(need: &StepNeed, all: &StepAmounts, dropped: Option<&Dropped>, cup: Option<Millilitres>) -> Self {
        let beside = need.extras.iter().zip(&all.extras).map(|(extra, ml)| Beside::of(extra, *ml));
        let too_few_drops = need.portions.len() > 1 && dropped.is_some_and(Dropped::too_few);
        let least = || workable(&need.portions, all.lot.likely).map(|dropped| dropped.counts);
        Self {
            lot_ml: all.lot,
            reserve_ml: thousandths(all.reserve.0),
            too_few_drops,
            workable_drops: too_few_drops.then(least).flatten(),
            loads: loads(need, all.lot.likely, cup),
            beside: beside.collect(),
            sum: SumOf::of(need, all.models),
            scaling: need.scaling.clone(),
        }
    }
}

fn loads(need: &StepNeed, lot: Millilitres, cup: Option<Millilitres>) -> Option<Loads> {
    let sprayed = matches!(need.sum.laying, Laying::Airbrush(_));
    let own = need.scaling.load.filter(|_| sprayed).map(Millilitres);
    let cup = cup.filter(|_| need.scaling.load.is_some()).or(own)?;
    let count = Scaling::loads(lot, cup);
    let each = Millilitres(lot.0 / f64::from(count.max(1)));
    Some(Loads {
        count,
        cup_ml: cup.0,
        each_ml: thousandths(each.0),
        each_drops: drops(&need.portions, each).map(|dropped| dropped.counts),
    })
}

impl Beside {
    fn of(extra: &Extra, ml: Estimate) -> Self {
        let purpose = match extra.purpose {
            Purpose::ColourChange => "to clean the airbrush for the next colour",
            Purpose::Flush => "to flush the airbrush",
            Purpose::BrushCleaning => "to clean the brush",
            Purpose::DecalSoftening => "to soften the decals",
        };
        Self { purpose, name: extra.product.as_ref().map(|paint| paint.name.clone()), ml }
    }
}

impl SumOf {
    fn of(need: &StepNeed, models: u32) -> Self {
        let sum = &need.sum;
        let alone = models < 2;
        Self {
            surface_cm2: sum.area.0,
            surface_from: match sum.source {
                SurfaceSource::Given => "given",
                SurfaceSource::Mesh => "mesh",
                SurfaceSource::Guessed(_) => "guessed",
            },
            areas: sum.areas,
            touched: sum.zones,
            film_um: sum.film.0,
            coats: sum.coats,
            on_one_model_ml: thousandths(sum.on_model().0 * 1000.0) / 1000.0,
            efficiency: if alone { sum.efficiency_alone } else { sum.efficiency },
            laid: laid(sum.laying, alone),
            lost_ml: thousandths(sum.lost.0),
        }
    }
}

fn laid(laying: Laying, alone: bool) -> &'static str {
    match laying {
        Laying::Brush => "by brush from a wet palette",
        Laying::DryPalette => "by brush from a dry palette",
        Laying::Drybrush => "by drybrush, most of it wiped off before",
        Laying::Wash => "flooded or wiped on",
        Laying::Varnish => "by brush, as varnish",
        Laying::Dabbed => "dabbed on",
        Laying::Paste => "as a paste",
        Laying::Powder => "as powder",
        Laying::Airbrush(crate::quantity::ModelSize::Figure) if alone => "by airbrush, one figure alone",
        Laying::Airbrush(crate::quantity::ModelSize::Figure) => "by airbrush, figures in a row",
        Laying::Airbrush(_) => "by airbrush, a large model",
        Laying::Can(_) => "from the can, of all that is in it",
    }
}

impl Told {
    fn of(finding: &Finding) -> Self {
        Self {
            rule: finding.check.id,
            level: finding.level(),
            message: finding.message.clone(),
            mend: finding.mend.clone(),
        }
    }
}

fn cautions(checked: &Checked, worked: &WorkedScheme, at: usize) -> Option<Cautions> {
    let step = worked.step_cautions.get(at)?;
    if step.kinds.is_empty() && step.notes.is_empty() && step.statements.is_empty() {
        return None;
    }
    let texts = CautionTexts::of(&checked.worked.guide.language);
    let labels = texts.labels();
    let kinds = step.kinds.iter().map(|kind| texts.caution(*kind));
    let statement = |statement: &crate::caution::Statement| {
        let text = statement.text.as_deref().unwrap_or_default();
        format!("{} {text} ({})", statement.code, statement.paints.join(", "))
    };
    Some(Cautions {
        title: labels.cautions.clone(),
        texts: kinds.map(|caution| (caution.title.clone(), caution.text.clone())).collect(),
        author_note: labels.author_note.clone(),
        notes: step.notes.clone(),
        statements_title: labels.statements.clone(),
        statements: step.statements.iter().map(statement).collect(),
        closing: texts.closing().to_owned(),
    })
}

fn thousandths(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}
