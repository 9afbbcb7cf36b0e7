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
use crate::report::{Finding, Findings, Level};
use crate::work::{Worked, WorkedScheme};

/// One step for a number of models.
#[derive(Debug, Serialize)]
pub(crate) struct Sheet {
    /// The scheme's title.
    pub(crate) scheme: String,
    /// The step's number.
    pub(crate) number: usize,
    /// The step's title.
    pub(crate) step: String,
    /// What puts the paint on.
    pub(crate) technique: &'static str,
    /// For how many models.
    pub(crate) models: u32,
    /// Whether all of them are done in one go.
    pub(crate) together: bool,
    /// The lines of the mix, in the author's order.
    pub(crate) parts: Vec<Part>,
    /// The amounts, where they can be worked out.
    pub(crate) amounts: Option<Amounts>,
    /// What was found about the files of the step and of its scheme, such as a mesh that can't be measured.
    pub(crate) findings: Vec<Told>,
    /// What can hurt somebody.
    pub(crate) cautions: Option<Cautions>,
}

/// One line of the mix.
#[derive(Debug, Serialize)]
pub(crate) struct Part {
    pub(crate) paint: String,
    pub(crate) name: String,
    pub(crate) maker: String,
    /// Parts or drops, as the author wrote it.
    pub(crate) amount: String,
    /// What the amounts count: `parts` or `drops`.
    pub(crate) counted_in: &'static str,
    /// How large its drop is; `null` where it is not measured in drops.
    pub(crate) drop_ml: Option<f64>,
    /// Its drops in the whole lot.
    pub(crate) drops: Option<u32>,
    pub(crate) ml: Option<Estimate>,
    pub(crate) grams: Option<f64>,
}

/// How much, in loads of what size, and how that came about.
#[derive(Debug, Serialize)]
pub(crate) struct Amounts {
    pub(crate) lot_ml: Estimate,
    pub(crate) reserve_ml: f64,
    /// Whether there are so few drops that the ratio is chance.
    pub(crate) too_few_drops: bool,
    /// Then the least that can be counted out.
    pub(crate) workable_drops: Option<Vec<u32>>,
    pub(crate) loads: Option<Loads>,
    pub(crate) beside: Vec<Beside>,
    pub(crate) sum: SumOf,
    pub(crate) scaling: Scaling,
}

/// The cups that the lot fills, each as full as the others.
#[derive(Debug, Serialize)]
pub(crate) struct Loads {
    pub(crate) count: u32,
    /// What the cup holds.
    pub(crate) cup_ml: f64,
    /// What is mixed in it each time.
    pub(crate) each_ml: f64,
    /// The drops of each line in one cup.
    pub(crate) each_drops: Option<Vec<u32>>,
}

/// Something used up beside the mix.
#[derive(Debug, Serialize)]
pub(crate) struct Beside {
    /// What it is for.
    pub(crate) purpose: &'static str,
    /// The guide's product, if it has one for it.
    pub(crate) name: Option<String>,
    pub(crate) ml: Estimate,
}

/// The factors.
#[derive(Debug, Serialize)]
pub(crate) struct SumOf {
    pub(crate) surface_cm2: f64,
    /// `given`, `mesh` or `guessed`.
    pub(crate) surface_from: &'static str,
    pub(crate) areas: f64,
    pub(crate) touched: f64,
    pub(crate) film_um: f64,
    pub(crate) coats: u32,
    pub(crate) on_one_model_ml: f64,
    pub(crate) efficiency: f64,
    /// How it is laid, in words.
    pub(crate) laid: &'static str,
    pub(crate) lost_ml: f64,
}

/// A finding about the step.
#[derive(Debug, Serialize)]
pub(crate) struct Told {
    pub(crate) rule: &'static str,
    pub(crate) level: Level,
    pub(crate) message: String,
    pub(crate) mend: String,
}

/// What can hurt somebody, in full and in the guide's language.
#[derive(Debug, Serialize)]
pub(crate) struct Cautions {
    /// What to do before anything else, as one line.
    pub(crate) first: String,
    pub(crate) title: String,
    /// Heading and text of each.
    pub(crate) texts: Vec<(String, String)>,
    pub(crate) author_note: String,
    pub(crate) notes: Vec<String>,
    pub(crate) statements_title: String,
    pub(crate) statements: Vec<String>,
    pub(crate) closing: String,
}

impl Sheet {
    /// The sheet of a step; `cup` replaces the size of the airbrush's cup, or asks for cups where a brush is used.
    pub(crate) fn of(
        all: &Worked,
        found: &Findings,
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
        let findings = found.iter().filter(|finding| files.contains(&finding.place.file));
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
            cautions: cautions(all, worked, at),
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

fn cautions(all: &Worked, worked: &WorkedScheme, at: usize) -> Option<Cautions> {
    let step = worked.step_cautions.get(at)?;
    if step.kinds.is_empty() && step.notes.is_empty() && step.statements.is_empty() {
        return None;
    }
    let texts = CautionTexts::of(&all.guide.language);
    let labels = texts.labels();
    let kinds = step.kinds.iter().map(|kind| texts.caution(*kind));
    let statement = |statement: &crate::caution::Statement| {
        let text = statement.text.as_deref().unwrap_or_default();
        format!("{} {text} ({})", statement.code, statement.paints.join(", "))
    };
    Some(Cautions {
        first: texts.to_do(&crate::caution::to_do([step])),
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
