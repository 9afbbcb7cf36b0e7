//! Everything that is to be said of one step's mix, as JSON has it and the text shows it.
//!
//! Volumes are in millilitres, each with the bounds that it may lie in; figures of a step whose amounts are not known
//! are left out, its ratio and its cautions never.

use serde::Serialize;

use crate::caution::{self, CautionTexts};
use crate::guide::{Measured, Mix, MixRow, Step};
use crate::measure::{Millilitres, to_places};
use crate::quantity::{
    By, Estimate, Extra, Laying, MeasuredOut, Purpose, Scaling, StepAmounts, StepNeed, SurfaceSource,
};
use crate::report::{Finding, Findings, Level};
use crate::tell::cautions::CautionPart;
use crate::tell::facts::{self, StepFact};
use crate::theme::Words;
use crate::work::{Worked, WorkedScheme};

/// One step for a number of models.
#[derive(Debug, Serialize)]
pub(crate) struct MixSheet {
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
    /// How, where, how often, and what to wait for, in the guide's language.
    pub(crate) facts: Vec<StepFact>,
    /// Whether its products are used one beside or after the other.
    pub(crate) unmixed: bool,
    /// Whether it is two that are blended wet in wet, from the first to the second.
    pub(crate) blend: bool,
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
    /// Who makes it; of a pot what is in it.
    pub(crate) maker: String,
    /// The same with the decimal sign of the guide's language.
    #[serde(skip)]
    pub(crate) maker_shown: String,
    /// Parts or drops, as the author wrote it.
    pub(crate) amount: String,
    /// What the amounts count: `parts` or `drops`.
    pub(crate) counted_in: &'static str,
    /// What a drop of it counts for in this mix, so that `drops` times this is its volume: sizes that are about alike count
    /// as their mean. `null` where it is not measured in drops.
    pub(crate) drop_ml: Option<f64>,
    /// Its drops in the whole lot, where it is counted out in drops.
    pub(crate) drops: Option<u32>,
    /// Its marks of a cup in the whole lot, where it is poured.
    pub(crate) marks: Option<u32>,
    pub(crate) ml: Option<Estimate>,
    pub(crate) grams: Option<f64>,
}

/// How much, in loads of what size, and how that came about.
#[derive(Debug, Serialize)]
pub(crate) struct Amounts {
    /// What is mixed: whole recipes.
    pub(crate) lot_ml: Estimate,
    /// What is needed.
    pub(crate) need_ml: Estimate,
    pub(crate) reserve_ml: f64,
    pub(crate) measured: Measuring,
    pub(crate) loads: Option<Loads>,
    pub(crate) beside: Vec<Beside>,
    pub(crate) sum: SumOf,
    pub(crate) scaling: Scaling,
}

/// How the lot is measured out.
#[derive(Debug, Serialize)]
pub(crate) struct Measuring {
    /// In `drops`, in `marks` of a cup, or by `volume`.
    pub(crate) by: By,
    /// What one mark is, where it goes by marks.
    pub(crate) mark_ml: Option<f64>,
    /// The whole parts of one recipe; none by volume.
    pub(crate) parts: Vec<u32>,
    /// How many of these recipes the lot is.
    pub(crate) times: u32,
    /// Whether these parts are near the author's ratio and not the same.
    pub(crate) near: bool,
    /// Whether that is because drops differ in size; a script sees it from the sizes.
    #[serde(skip)]
    pub(crate) sized: bool,
}

/// The cups that the lot fills.
#[derive(Debug, Serialize)]
pub(crate) struct Loads {
    pub(crate) count: u32,
    /// What the cup holds.
    pub(crate) cup_ml: f64,
    /// What is mixed in it each time; in drops the last one may be less.
    pub(crate) each_ml: f64,
    /// The drops of each line in one cup.
    pub(crate) each_drops: Option<Vec<u32>>,
    /// How many cups get so much.
    pub(crate) fuller: u32,
    /// The drops of each line in the last cups, where they get one recipe less.
    pub(crate) last_drops: Option<Vec<u32>>,
    /// Whether they are filled from one lot, which is mixed once.
    #[serde(skip)]
    pub(crate) one_lot: bool,
}

/// Something used up beside the mix.
#[derive(Debug, Serialize)]
pub(crate) struct Beside {
    /// What it is for, in English.
    pub(crate) purpose: &'static str,
    /// The same by the key of its words, below `purpose`.
    #[serde(skip)]
    pub(crate) purpose_key: &'static str,
    /// The guide's product, if it has one for it.
    pub(crate) name: Option<String>,
    pub(crate) ml: Estimate,
}

/// The factors.
#[derive(Debug, Serialize)]
pub(crate) struct SumOf {
    pub(crate) surface_cm2: f64,
    /// How much of it is the base.
    pub(crate) base_cm2: f64,
    /// `given`, `mesh` or `guessed`.
    pub(crate) surface_from: &'static str,
    pub(crate) areas: f64,
    pub(crate) touched: f64,
    pub(crate) film_um: f64,
    pub(crate) coats: u32,
    /// How often it is gone over with products that are not mixed; else 1.
    pub(crate) rounds: f64,
    pub(crate) on_one_model_ml: f64,
    /// What one model takes at least, because a palette is refilled.
    pub(crate) refilled_ml: f64,
    pub(crate) efficiency: f64,
    /// How it is laid, in English.
    pub(crate) laid: &'static str,
    /// The same by the key of its words, below `laid`.
    #[serde(skip)]
    pub(crate) laid_key: &'static str,
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

impl MixSheet {
    /// The sheet of a step; `cup` replaces the size of the airbrush's cup, or asks for cups where a brush is used.
    pub(crate) fn of(
        all: &Worked,
        (found, words): (&Findings, &Words),
        (worked, at): (&WorkedScheme, usize),
        models: u32,
        cup: Option<Millilitres>,
    ) -> Self {
        let step = &worked.scheme.steps[at];
        let need = worked.needs.get(at).and_then(Option::as_ref);
        let amounts = need.map(|need| need.for_models(models));
        let files = [step.file, worked.scheme.file];
        let findings = found.iter().filter(|finding| files.contains(&finding.place.file));
        Self {
            scheme: worked.scheme.title.clone(),
            number: step.number,
            step: step.title.clone(),
            technique: step.technique.name(),
            models,
            together: step.together,
            facts: facts::of_step(worked, at, words),
            unmixed: step.mix.unmixed,
            blend: step.mix.blend.is_some(),
            parts: parts(step, need, amounts.as_ref(), words),
            amounts: need.zip(amounts).map(|(need, all)| Amounts::of(need, &all, cup)),
            findings: findings.map(Told::of).collect(),
            cautions: cautions(all, worked, at),
        }
    }
}

fn parts(step: &Step, need: Option<&StepNeed>, all: Option<&StepAmounts>, words: &Words) -> Vec<Part> {
    let counted_in = if step.mix.measured == Measured::Drops { "drops" } else { "parts" };
    let out = all.map(|all| &all.out);
    let mls = all.map(|all| all.parts.as_slice()).unwrap_or_default();
    let part = |line: MixRow<'_>| {
        let first = line.parts.start;
        let portions = need.and_then(|need| need.portions.get(line.parts.clone())).unwrap_or_default();
        let grams = portions.iter().zip(mls.get(line.parts.clone()).unwrap_or_default());
        let grams: Vec<f64> = grams.map(|(portion, ml)| ml.likely.0 * portion.density).collect();
        let count = |by: By| out.filter(|out| out.by == by).and_then(|out| line.sum(&out.counts));
        let maker = step.mix.parts.get(first).map_or("", |part| part.paint.maker.as_str());
        let maker = |number: &dyn Fn(&str) -> String| {
            line.pot.map_or_else(|| maker.to_owned(), |pot| pot.mix.in_words(|figure| number(figure)))
        };
        Part {
            paint: line.pot.map_or_else(|| paint_id(&step.mix, first), |pot| pot.id.clone()),
            name: line.name.to_owned(),
            maker: maker(&str::to_owned),
            maker_shown: maker(&|figure| words.number(figure)),
            amount: line.amount.to_string(),
            counted_in,
            drop_ml: portions
                .first()
                .filter(|_| line.pot.is_none())
                .filter(|portion| portion.drop.is_some())
                .map(|portion| portion.unit.0),
            drops: count(By::Drops),
            marks: count(By::Marks),
            ml: line.sum(mls),
            grams: (!grams.is_empty()).then(|| thousandths(grams.iter().sum())),
        }
    };
    step.mix.lines().map(part).collect()
}

fn paint_id(mix: &Mix, at: usize) -> String {
    mix.parts.get(at).map(|part| part.paint.id.clone()).unwrap_or_default()
}

impl Amounts {
    fn of(need: &StepNeed, all: &StepAmounts, cup: Option<Millilitres>) -> Self {
        let beside = need.extras.iter().zip(&all.extras).map(|(extra, ml)| Beside::of(extra, *ml));
        Self {
            lot_ml: all.lot,
            need_ml: all.need,
            reserve_ml: thousandths(all.reserve.0),
            measured: Measuring {
                by: all.out.by,
                mark_ml: all.out.mark().map(|mark| thousandths(mark.0)),
                parts: all.out.parts.clone(),
                times: all.out.times,
                near: all.out.near,
                sized: all.out.how() == Some("sized"),
            },
            loads: loads(need, &all.out, cup),
            beside: beside.collect(),
            sum: SumOf::of(need, all.models),
            scaling: need.scaling.clone(),
        }
    }
}

fn loads(need: &StepNeed, lot: &MeasuredOut, cup: Option<Millilitres>) -> Option<Loads> {
    let sprayed = matches!(need.sum.laying, Laying::Airbrush(_));
    let own = need.scaling.load.filter(|_| sprayed).map(Millilitres);
    let cup = cup.filter(|_| need.scaling.load.is_some()).or(own)?;
    let count = lot.loads(cup, need.scaling.missing);
    let all = lot.total();
    // Cups are filled alike, from one lot or by so many recipes in each, and one less in the last ones where they don't come
    // out even.
    let one_lot = need.together && count > 1;
    let recipes = lot.times.div_ceil(count.max(1));
    let fuller = match lot.times % count.max(1) {
        0 => count,
        rest => rest,
    };
    let by_drops = count > 1 && lot.by == By::Drops && !one_lot;
    let drops = |recipes: u32| lot.parts.iter().map(|part| part.saturating_mul(recipes)).collect::<Vec<u32>>();
    let one = all.0 / f64::from(lot.times.max(1));
    let each = if by_drops { one * f64::from(recipes) } else { all.0 / f64::from(count.max(1)) };
    Some(Loads {
        count,
        cup_ml: cup.0,
        each_ml: thousandths(each),
        each_drops: by_drops.then(|| drops(recipes)),
        fuller: if by_drops { fuller } else { count },
        one_lot,
        last_drops: (by_drops && fuller < count).then(|| drops(recipes - 1)),
    })
}

impl Beside {
    fn of(extra: &Extra, ml: Estimate) -> Self {
        let (purpose_key, purpose) = match extra.purpose {
            Purpose::ColourChange => ("colour-change", "to clean the airbrush for the next colour"),
            Purpose::Flush => ("flush", "to flush the airbrush"),
            Purpose::BrushCleaning => ("brush", "to clean the brush"),
            Purpose::DecalSoftening => ("decal", "to soften the decals"),
        };
        Self { purpose, purpose_key, name: extra.product.as_ref().map(|paint| paint.name.clone()), ml }
    }
}

impl SumOf {
    fn of(need: &StepNeed, models: u32) -> Self {
        let sum = &need.sum;
        let (laid_key, laid) = laid(sum.laying, models < 2);
        Self {
            surface_cm2: thousandths(sum.area.0),
            base_cm2: thousandths(sum.base.0),
            surface_from: match sum.source {
                SurfaceSource::Given => "given",
                SurfaceSource::Mesh => "mesh",
                SurfaceSource::Guessed(_) => "guessed",
            },
            areas: sum.areas,
            touched: sum.zones,
            film_um: sum.film.0,
            coats: sum.coats,
            rounds: sum.rounds,
            on_one_model_ml: thousandths(sum.on_model().0 * 1000.0) / 1000.0,
            refilled_ml: thousandths(sum.refilled.0 * 1000.0) / 1000.0,
            efficiency: sum.efficiency_for(models),
            laid,
            laid_key,
            lost_ml: thousandths(sum.lost.0),
        }
    }
}

/// How paint is laid: the key of its words, and what data says in every language.
fn laid(laying: Laying, alone: bool) -> (&'static str, &'static str) {
    match laying {
        Laying::Brush => ("brush", "by brush from a wet palette"),
        Laying::DryPalette => ("dry-palette", "by brush from a dry palette"),
        Laying::LargeBrush => ("large-brush", "by a large brush, straight from pot or cup"),
        Laying::Drybrush(_) => ("drybrush", "by drybrush, most of it wiped off before"),
        Laying::Wash => ("wash", "flooded or wiped on"),
        Laying::PinWash => ("pin-wash", "run into the lines, and wiped off beside them"),
        Laying::Deep => ("deep", "poured or spread to its depth"),
        Laying::Varnish => ("varnish", "by brush, as varnish"),
        Laying::Dabbed => ("dabbed", "dabbed on"),
        Laying::Paste => ("paste", "as a paste"),
        Laying::Powder => ("powder", "as powder"),
        Laying::Airbrush(crate::quantity::ModelSize::Figure) if alone => {
            ("airbrush-alone", "by airbrush, one figure alone")
        }
        Laying::Airbrush(crate::quantity::ModelSize::Figure) => ("airbrush-row", "by airbrush, figures in a row"),
        Laying::Airbrush(crate::quantity::ModelSize::Between(_)) => {
            ("airbrush-middle", "by airbrush, a model of middle size")
        }
        Laying::Airbrush(_) => ("airbrush-large", "by airbrush, a large model"),
        Laying::Can(_) => ("can", "from the can, of all that is in it"),
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
    let language = &all.guide.language;
    let gathered = caution::together([((), step)]);
    if gathered.is_empty() {
        return None;
    }
    let said = CautionPart::of(language, &gathered, |_| String::new());
    Some(Cautions {
        first: CautionTexts::of(language).to_do(&caution::to_do([step])),
        statements: said.stated().collect(),
        title: said.heading,
        texts: said.entries.into_iter().map(|one| (one.title, one.text)).collect(),
        author_note: said.by_author,
        notes: said.notes.into_iter().map(|note| note.text).collect(),
        statements_title: said.on_products,
        closing: said.closing,
    })
}

pub(super) fn thousandths(value: f64) -> f64 {
    to_places(value, 3)
}
