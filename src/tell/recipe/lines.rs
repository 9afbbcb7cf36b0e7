//! What is on a card, as plain words in the guide's language: the printed card and the text to paste say the same.

use std::sync::Arc;

use super::chain;
use crate::caution::{self, Action, CautionTexts, Held};
use crate::guide::{Guide, Measured, Mix, MixRow, Scheme, Tool};
use crate::measure::{Colour, Millilitres, Time, exact};
use crate::quantity::{By, MeasuredOut, StepNeed};
use crate::shop::{Line, List, Order};
use crate::tell::cautions::CautionPart;
use crate::tell::facts::{self, StepFact};
use crate::tell::shopping::Voice;
use crate::theme::Words;
use crate::trade::Kind;
use crate::work::{Tones, Worked, WorkedScheme};

/// A scheme in words.
#[derive(Debug)]
pub(crate) struct Recipe<'a> {
    /// What it is called.
    pub(crate) title: &'a str,
    /// One sentence on how it looks.
    pub(crate) summary: Option<&'a str>,
    /// The title of the guide.
    pub(crate) guide: &'a str,
    /// Who wrote it.
    pub(crate) author: &'a str,
    /// Where the scheme's page is.
    pub(crate) address: Option<String>,
    /// The figures of the scheme, each after its label.
    pub(crate) glance: Vec<(String, String)>,
    /// The parts of the model.
    pub(crate) areas: Vec<AreaLine>,
    /// What comes before the line of what to do.
    pub(crate) first: &'static str,
    /// What to do before the whole scheme, as one line.
    pub(crate) to_do: String,
    /// The same, one action after the other, with its words.
    pub(crate) actions: Vec<(Action, &'static str)>,
    /// The cautions.
    pub(crate) cautions: CautionPart,
    /// The steps.
    pub(crate) steps: Vec<StepLine>,
    /// For how many models it is bought, in words.
    pub(crate) models: String,
    /// What has to be bought: products, then what is counted in pieces.
    pub(crate) bought: Vec<BoughtLine>,
    /// What to have at hand beside these.
    pub(crate) tools: Vec<String>,
}

/// Something that has to be bought.
#[derive(Debug)]
pub(crate) struct BoughtLine {
    /// What it is called.
    pub(crate) name: String,
    /// How many bottles, or how many pieces in how many packs; empty where that is not known.
    pub(crate) count: String,
    /// Who makes it; empty where nobody is named.
    pub(crate) maker: String,
}

/// A part of the model.
#[derive(Debug)]
pub(crate) struct AreaLine {
    /// Its id, which decides how its chip is cut.
    pub(crate) id: String,
    /// What it is called.
    pub(crate) title: String,
    /// Its share of the surface.
    pub(crate) share: Option<String>,
    /// Its colours.
    pub(crate) tones: Tones,
    /// The paints that it gets, in the order of work; empty where there are none.
    pub(crate) chain: String,
}

/// One step.
#[derive(Debug, Clone)]
pub(crate) struct StepLine {
    /// Its number.
    pub(crate) number: usize,
    /// What it is called.
    pub(crate) title: String,
    /// How, where, how often, and what to wait for.
    pub(crate) facts: Vec<StepFact>,
    /// How many coats; 0 where nothing is laid.
    pub(crate) coats: u32,
    /// The mix.
    pub(crate) mix: Vec<PartLine>,
    /// What comes before the mix in a text.
    pub(crate) label: String,
    /// What the drops make: one load of the airbrush or the palette, or so many of them where one is not enough.
    pub(crate) load: Option<String>,
    /// What to do before it, as one line; the cautions stand in full on the same card.
    pub(crate) to_do: String,
    /// The same, one action after the other, with its words.
    pub(crate) actions: Vec<(Action, &'static str)>,
    /// The author's own cautions that hold for this step alone.
    pub(crate) notes: Vec<String>,
    /// What to do, in one sentence of the author's.
    pub(crate) sentence: Option<String>,
    /// What changed, with the day.
    pub(crate) changed: Vec<String>,
}

/// One line of a mix.
#[derive(Debug, Clone)]
pub(crate) struct PartLine {
    /// How much; empty where there is nothing to measure.
    pub(crate) amount: String,
    /// What the amount counts, where it is not parts: drops.
    pub(crate) unit: Option<String>,
    /// What the product is called.
    pub(crate) name: String,
    /// Its drops for one load, and how many loads where one is not enough; where the amounts are parts.
    pub(crate) load: Option<String>,
    /// What it is for.
    pub(crate) kind: Kind,
    /// Its colour, if it has one.
    pub(crate) colour: Option<Colour>,
}

impl<'a> Recipe<'a> {
    /// A scheme in words.
    pub(crate) fn of(all: &'a Worked, worked: &'a WorkedScheme, words: &Words) -> Self {
        let guide = &all.guide;
        let list = List::of(Order::of_scheme(all, worked, None));
        let scheme = &worked.scheme;
        let texts = CautionTexts::of(&guide.language);
        let actions = caution::to_do(&worked.step_cautions);
        let models = u32::try_from(list.order.models()).unwrap_or(u32::MAX);
        Self {
            title: &scheme.title,
            summary: scheme.summary.as_deref(),
            guide: &guide.title,
            author: &guide.author,
            address: guide
                .address
                .as_ref()
                .map(|address| format!("{}schemes/{}.html", address.as_folder(), scheme.slug)),
            glance: glance(worked, words),
            areas: areas(worked, words),
            first: &texts.labels().first,
            to_do: texts.to_do(&actions),
            actions: in_words(&actions, texts),
            cautions: cautions(guide, worked),
            steps: (0..scheme.steps.len()).filter_map(|at| step((worked, at), models, words, texts)).collect(),
            models: words.counted("slip.for-models", list.order.models()),
            bought: bought(&list, Voice::new(words, &guide.language)),
            tools: tools(scheme),
        }
    }
}

fn glance(worked: &WorkedScheme, words: &Words) -> Vec<(String, String)> {
    let model = &worked.scheme.model;
    let named = [model.name.clone(), model.scale.map(|scale| scale.to_string()), model.material.clone()];
    let named: Vec<String> = named.into_iter().flatten().collect();
    let work = |time: Time| (time.as_seconds() > 0).then(|| words.work(u64::from(time.as_seconds())));
    let level = worked.scheme.level.map(|level| words.filled(&format!("level.{}", level.name()), &[]));
    let figures = [
        ("glance.model", Some(named.join(", ")).filter(|text| !text.is_empty())),
        ("glance.hands-on", work(worked.glance.hands_on).map(|time| about(worked, time, words))),
        ("glance.ready", facts::ready(worked, words)),
        ("glance.steps", Some(worked.glance.steps.to_string())),
        ("glance.products", Some(worked.glance.products.to_string())),
        ("glance.level", level),
    ];
    let known = figures.into_iter().filter_map(|(key, value)| Some((key, value?)));
    known.map(|(key, value)| (words.filled(key, &[]), value)).collect()
}

/// A time, as one that is not quite known where steps don't say how long they take.
fn about(worked: &WorkedScheme, time: String, words: &Words) -> String {
    if worked.glance.usual { words.filled("glance.about", &[("time", &time)]) } else { time }
}

fn areas(worked: &WorkedScheme, words: &Words) -> Vec<AreaLine> {
    let areas = worked.scheme.areas.iter().zip(&worked.tones).enumerate();
    areas
        .map(|(at, (area, tones))| AreaLine {
            id: area.id.clone(),
            title: if tones.measured {
                format!("{} ({})", area.title, words.filled("colour.measured", &[]))
            } else {
                area.title.clone()
            },
            share: area.share.map(|share| words.percent(share.as_percent(), 1)),
            tones: *tones,
            chain: chain::of_area(worked, at, words),
        })
        .collect()
}

/// The cautions of the scheme, each with the numbers of its steps.
fn cautions(guide: &Guide, worked: &WorkedScheme) -> CautionPart {
    let labels = CautionTexts::of(&guide.language).labels();
    CautionPart::of(&guide.language, &worked.cautions, |steps| {
        format!("{} {}", labels.for_steps(steps.len()), ranges(steps))
    })
}

fn in_words(actions: &[Action], texts: &'static CautionTexts) -> Vec<(Action, &'static str)> {
    actions.iter().map(|action| (*action, texts.action(*action))).collect()
}

/// Rising numbers in short: three or more that follow each other as the first and the last of them.
fn ranges(numbers: &[usize]) -> String {
    let runs = numbers.chunk_by(|one, next| one + 1 == *next);
    let shown = runs.map(|run| match run {
        [first, _, .., last] => format!("{first}–{last}"),
        _ => run.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
    });
    shown.collect::<Vec<_>>().join(", ")
}

fn step(
    (worked, at): (&WorkedScheme, usize),
    models: u32,
    words: &Words,
    texts: &'static CautionTexts,
) -> Option<StepLine> {
    let step = worked.scheme.steps.get(at)?;
    let need = worked.needs.get(at).and_then(Option::as_ref);
    let loads = need.and_then(|need| Loads::of(&step.mix, need, models));
    let changed = step
        .changed
        .iter()
        .map(|(day, what)| format!("{} {}: {what}", words.filled("step.changed", &[]), words.day(&day.to_string())));
    let actions = caution::to_do(worked.step_cautions.get(at));
    let own = |held: &&Held<String, usize>| held.steps == [step.number];
    let notes = worked.cautions.notes.iter().filter(own).map(|held| held.what.clone());
    Some(StepLine {
        number: step.number,
        title: step.title.clone(),
        facts: facts::in_short(worked, at, words).collect(),
        coats: if step.mix.parts.is_empty() { 0 } else { step.coats },
        mix: mix(&step.mix, loads.as_ref(), words),
        label: words.filled(label(&step.mix), &[]),
        load: loads.map(|loads| loads.in_words(models, words)),
        to_do: texts.to_do(&actions),
        actions: in_words(&actions, texts),
        notes: notes.collect(),
        sentence: step.sentence(),
        changed: changed.collect(),
    })
}

/// The word for what comes before the paints of a step in a text.
fn label(mix: &Mix) -> &'static str {
    match mix.parts.as_slice() {
        _ if mix.is_mixed() => "mix.label",
        [_] => "mix.one",
        _ => "mix.apart",
    }
}

fn mix(mix: &Mix, loads: Option<&Loads>, words: &Words) -> Vec<PartLine> {
    let in_drops = mix.is_ratio() && mix.measured == Measured::Drops;
    let unit = |amount: &str| words.filled(if amount == "1" { "mix.drop" } else { "mix.drops" }, &[]);
    let leading = |line: &MixRow<'_>| {
        let poured = mix.parts.get(line.parts.clone()).unwrap_or_default();
        let coloured = poured.iter().find(|part| part.paint.kind.has_colour());
        coloured.or(poured.first()).map(|part| &part.paint)
    };
    let name = |line: &MixRow<'_>| match line.pot {
        Some(pot) => format!("{} ({})", pot.title, pot.mix.in_words(|number| words.number(number))),
        None => line.name.to_owned(),
    };
    mix.lines()
        .map(|line| PartLine {
            amount: if mix.is_ratio() { words.number(&line.amount.to_string()) } else { String::new() },
            unit: in_drops.then(|| unit(&line.amount.to_string())),
            name: name(&line),
            load: loads.and_then(|loads| loads.of_line(&line, words)),
            kind: leading(&line).map_or(Kind::Paint, |paint| paint.kind),
            colour: leading(&line).and_then(|paint| paint.colour.filter(|_| paint.kind.has_colour())),
        })
        .collect()
}

impl StepLine {
    /// What is between the lines of its mix in a text.
    pub(crate) fn between(&self) -> &'static str {
        if self.mix.iter().any(|part| !part.amount.is_empty()) { " + " } else { ", " }
    }
}

/// What is mixed for a step, where the author gives parts: a palette, or where it is one lot for all models or less than a
/// palette all that they take; of the airbrush all in as many loads, all alike, as it is mixed in.
struct Loads {
    /// One of them.
    each: MeasuredOut,
    /// How many.
    count: u32,
    /// Whether the last ones get a recipe less.
    uneven: bool,
    /// Whether they are all that the models take; a palette is refilled as it empties.
    all: bool,
    /// Whether it is one lot, mixed once, that no cup holds.
    one_lot: bool,
}

impl Loads {
    fn of(mix: &Mix, need: &StepNeed, models: u32) -> Option<Self> {
        let load = need.scaling.load.filter(|_| mix.is_ratio() && mix.measured == Measured::Parts)?;
        let alone = |each: MeasuredOut| Self { each, count: 1, uneven: false, all: false, one_lot: false };
        let lot = need.for_models(models);
        if !need.sum.laying.sprays() {
            let palette = need.filling(Millilitres(load))?;
            let all = need.is_mixed_at_once(&lot);
            return Some(Self { all, ..alone(if all { lot.out } else { palette }) });
        }
        let count = lot.loads.max(1);
        if count < 2 || need.together {
            return Some(Self { all: true, one_lot: need.together && count > 1, ..alone(lot.out) });
        }
        // What one cup does not hold is parted into cups that are alike.
        let recipes = lot.out.times.div_ceil(count);
        let each = match lot.out.by {
            By::Drops => lot.out.total().0 / f64::from(lot.out.times.max(1)) * f64::from(recipes),
            By::Marks | By::Volume => lot.out.total().0 / f64::from(count),
        };
        let uneven = lot.out.by == By::Drops && !lot.out.times.is_multiple_of(count);
        Some(Self { count, uneven, all: true, ..alone(need.filling(Millilitres(each))?) })
    }

    /// What of a line goes into each load: drops, or millilitres of what is poured.
    fn of_line(&self, line: &MixRow<'_>, words: &Words) -> Option<String> {
        let amount = match self.each.by {
            By::Drops => words.counted("card.drops", u64::from(line.sum(&self.each.counts)?)),
            By::Marks | By::Volume => {
                let volumes: Vec<f64> = self.each.volumes.iter().map(|volume| volume.0).collect();
                format!("{} ml", words.number(&exact(line.sum(&volumes)?, 1)))
            }
        };
        Some(self.times(&amount))
    }

    /// An amount for one load, and how often it is wanted.
    fn times(&self, amount: &str) -> String {
        if self.count > 1 { format!("{} × {amount}", self.count) } else { amount.to_owned() }
    }

    /// What the drops make, and for how many models where it is several loads.
    fn in_words(&self, models: u32, words: &Words) -> String {
        let ml = words.number(&exact(self.each.total().0, 1));
        let load = words.filled("card.load", &[("ml", &self.times(&ml))]);
        let whom = self.all.then(|| words.counted("slip.for-models", u64::from(models)));
        let uneven = self.uneven.then(|| words.filled("card.last-less", &[]));
        let one_lot = self.one_lot.then(|| words.filled("mix.one-lot", &[]));
        // What is poured shows in its millilitres.
        let how =
            self.each.how().filter(|_| self.each.by == By::Drops).map(|how| words.filled(&format!("mix.{how}"), &[]));
        std::iter::once(load).chain(uneven).chain(whom).chain(how).chain(one_lot).collect::<Vec<_>>().join(", ")
    }
}

/// What has to be bought: each product with its bottles and who makes it, then what is counted, protective gear with it,
/// with what the page of the list says of it.
fn bought(list: &List<'_>, voice: Voice<'_>) -> Vec<BoughtLine> {
    let product = |line: &Line<'_>| BoughtLine {
        name: line.paint.name.clone(),
        count: voice.picks(&line.picks),
        maker: line.paint.maker.clone(),
    };
    let counted = |tool: &Arc<Tool>| BoughtLine {
        name: tool.name.clone(),
        count: voice.pieces(tool, list).unwrap_or_default(),
        maker: String::new(),
    };
    list.lines.iter().map(product).chain(list.counted().iter().map(counted)).collect()
}

/// What lies on the desk; what is counted stands among what has to be bought.
fn tools(scheme: &Scheme) -> Vec<String> {
    let mut tools: Vec<String> = Vec::new();
    for tool in scheme.steps.iter().flat_map(|step| &step.tools).filter(|tool| tool.per_model.is_none()) {
        if !tools.contains(&tool.name) {
            tools.push(tool.name.clone());
        }
    }
    tools
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_steps_are_said_in_short() {
        for (numbers, shown) in [
            (vec![1], "1"),
            (vec![1, 2], "1, 2"),
            (vec![1, 2, 3, 5, 7, 8, 9, 10], "1–3, 5, 7–10"),
            (vec![2, 4, 6], "2, 4, 6"),
        ] {
            assert_eq!(ranges(&numbers), shown);
        }
    }
}
