//! A plan as JSON, for scripts.

use serde_json::{Value, json};

use super::planned::{Mixing, MixingPart, Planned, PotMixing, per_cent};
use crate::caution::CautionTexts;
use crate::guide::Army;
use crate::measure::to_places;
use crate::plan::{self, Evening, Task, Tool};
use crate::tell::cautions;
use crate::theme::Words;
use crate::work::Worked;

/// The plan of an army as JSON; `evenings` is `null` where there is no plan. Times of the day are minutes and seconds
/// since the midnight before the evening, all lengths are seconds.
pub(crate) fn plan_json(worked: &Worked, army: &Army, words: &Words) -> String {
    let effort = plan::effort(army, &worked.conditions);
    let units = army.units.iter().enumerate().map(|(at, unit)| {
        json!({ "scheme": unit.scheme.base(), "version": unit.scheme.version.as_ref().map(|_| &unit.scheme.slug), "models": unit.models, "hands_on": effort.of_unit(at).as_seconds() })
    });
    let assumed = effort.assumed.iter().filter_map(|(unit, step)| {
        let step = army.units.get(*unit)?.scheme.steps.get(*step)?;
        Some(json!({ "unit": unit, "step": step.stem }))
    });
    let planned = Planned::of(worked, army);
    let value = json!({
        "army": army.slug,
        "title": army.title,
        "units": units.collect::<Vec<_>>(),
        "hands_on": effort.hands_on,
        "assumed_minutes": assumed.collect::<Vec<_>>(),
        "totals": planned.map(totals),
        "evenings": planned.map(|planned| planned.plan.evenings.iter().map(|one| evening(planned, one, words)).collect::<Vec<_>>()),
    });
    format!("{value:#}\n")
}

fn totals(planned: Planned<'_>) -> Value {
    let plan = planned.plan;
    json!({
        "evenings": plan.takes_evenings,
        "least_evenings": plan.least_evenings,
        "evening_length": plan.longest.as_seconds(),
        "dry_on": planned.dry_on().map(|date| date.to_string()),
        "ready_by": planned.ready_by().map(|(by, days)| json!({ "date": by.to_string(), "days_to_spare": days })),
        "changing": plan.changing,
        "finish": plan.finish,
        "bound": plan.bound,
        "gap_percent": per_cent(plan.gap()).parse::<f64>().ok(),
    })
}

fn evening(planned: Planned<'_>, evening: &Evening, words: &Words) -> Value {
    let texts = CautionTexts::of(&planned.worked.guide.language);
    let steps = planned.steps(&evening.blocks);
    let first = cautions::first(texts, &steps);
    let mut cautions = cautions::of(texts, &steps);
    if !cautions.is_empty() {
        cautions.push(texts.closing().to_owned());
    }
    let last_tonight = planned.stops(evening);
    let last_tonight = last_tonight
        .iter()
        .map(|stop| json!({ "unit": stop.of.unit, "step": stop.of.step.stem, "coat": stop.coat, "last": stop.last }));
    let resting = evening.resting.iter().filter_map(|rest| {
        let of = planned.step(rest.unit, rest.step)?;
        let rests = rest.rests.as_seconds();
        let before = of.dries_before(rest.coat).map(|step| &step.stem);
        Some(json!({ "unit": rest.unit, "step": of.step.stem, "first": rest.first, "last": rest.last, "rests": rests,
            "reason": of.dries_for(rest.coat).name(), "before": before }))
    });
    json!({
        "number": evening.number,
        "date": evening.date.to_string(),
        "from": evening.from,
        "to": evening.to,
        "ends": evening.ends(),
        "steps": steps.iter().map(|of| json!({ "unit": of.unit, "step": of.step.stem, "facts": planned.facts(of, words) })).collect::<Vec<_>>(),
        "pots": planned.pots(evening).iter().map(pot).collect::<Vec<_>>(),
        "mixes": planned.mixings(evening).iter().map(mix).collect::<Vec<_>>(),
        "blocks": (0..evening.blocks.len()).filter_map(|at| block(planned, evening, at)).collect::<Vec<_>>(),
        "stops": last_tonight.collect::<Vec<_>>(),
        "resting": resting.collect::<Vec<_>>(),
        "first": first,
        "cautions": cautions,
    })
}

fn mix(mixing: &Mixing<'_>) -> Value {
    json!({
        "unit": mixing.of.unit,
        "step": mixing.of.step.stem,
        "one_lot": mixing.lot,
        "ml": mixing.ml.map(rounded),
        "counted": mixing.counted,
        "parts": parts(&mixing.parts),
    })
}

fn pot(mixing: &PotMixing<'_>) -> Value {
    let steps = mixing.steps.iter().map(|of| json!({ "unit": of.unit, "step": of.step.stem }));
    json!({
        "id": mixing.pot.id,
        "one_lot": mixing.pot.together,
        "ml": mixing.ml.map(rounded),
        "counted": mixing.counted,
        "parts": parts(&mixing.parts),
        "steps": steps.collect::<Vec<_>>(),
    })
}

fn parts(parts: &[MixingPart]) -> Vec<Value> {
    let part = |part: &MixingPart| json!({ "id": part.product.id(), "ratio": part.ratio, "drops": part.drops, "ml": part.ml.map(rounded) });
    parts.iter().map(part).collect()
}

/// To a hundredth.
fn rounded(ml: f64) -> f64 {
    to_places(ml, 2)
}

fn block(planned: Planned<'_>, evening: &Evening, at: usize) -> Option<Value> {
    let block = evening.blocks.get(at)?;
    let (start, end) = (block.start, block.end);
    Some(match block.task {
        Task::Paint { unit, step, coat, first, last, dry, .. } => {
            let of = planned.step(unit, step)?;
            json!({ "start": start, "end": end, "do": "paint", "unit": unit, "step": of.step.stem, "coat": coat,
                "first": first, "last": last, "dry": dry, "stands_until": planned.stands_until(evening, at) })
        }
        Task::Ready { kit, rinse } => {
            let kit = planned.plan.kits.get(kit)?;
            let what = if rinse {
                "rinse"
            } else if kit.tool == Tool::Airbrush {
                "set-up"
            } else {
                "take-up"
            };
            let paints: Vec<&str> = kit.mix.parts.iter().map(|part| part.paint.id.as_str()).collect();
            json!({ "start": start, "end": end, "do": what, "tool": kit.technique.name(), "paints": paints })
        }
        Task::Strip { next } => {
            let next = next.and_then(|kit| planned.plan.kits.get(kit));
            let next = next.map(|kit| kit.mix.parts.iter().map(|part| part.paint.id.as_str()).collect::<Vec<_>>());
            json!({ "start": start, "end": end, "do": "clean", "tool": "airbrush", "next": next })
        }
        Task::Wait => json!({ "start": start, "end": end, "do": "wait" }),
    })
}
