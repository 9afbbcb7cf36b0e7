//! The list as JSON, for scripts.
//!
//! Volumes are in millilitres, prices plain numbers in `currency`. Beside `ml_needed`, the likely figure, stand `ml_low`
//! and `ml_high`; bottles cover `ml_high`. `ml_per_model` is what each further model takes, `ml_per_batch` the rest
//! of `ml_needed`. Where several sizes are bought, `bottle_ml` and `price_each` are null and `buy` has them all. What is
//! no longer sold is no bottle to buy, so the lines add up to `bottles`.

use rust_decimal::prelude::ToPrimitive;
use serde_json::{Value, json};

use crate::caution::{self, CautionTexts};
use crate::measure::{Millilitres, Money, to_places};
use crate::quantity::Estimate;
use crate::shop::{self, Line, List, Pick, Use};
use crate::tell::cautions;

/// The list as a JSON text.
pub(crate) fn json(list: &List<'_>) -> String {
    format!("{:#}\n", value(list))
}

fn value(list: &List<'_>) -> Value {
    let order = &list.order;
    let texts = CautionTexts::of(&order.worked.guide.language);
    let said = || list.cautions.iter().map(|(_, said)| *said);
    let units = order.units.iter();
    let gear = list.gear.iter().map(|line| {
        let said = texts.gear(line.gear);
        let own = line.own.iter().map(|tool| json!({ "id": tool.id, "name": tool.name, "note": tool.note }));
        json!({ "id": line.gear.name(), "name": said.title, "note": said.text, "own": own.collect::<Vec<_>>(), "uses": steps(&line.uses) })
    });
    let tools = list.tools.iter().map(|(tool, uses)| {
        let pieces = list.pieces(tool).map(|pieces| {
            json!({ "needed": pieces.needed, "pack": pieces.pack, "packs": pieces.packs, "price": money(pieces.price) })
        });
        let kind = tool.kind.name();
        json!({ "id": tool.id, "name": tool.name, "kind": kind, "note": tool.note, "pieces": pieces, "uses": steps(uses) })
    });
    let (packs, single) = list.packs();
    json!({
        "target": order.target,
        "title": order.title,
        "models": order.models(),
        "units": units.map(|(unit, models)| {
            json!({ "scheme": unit.scheme.slug, "title": unit.scheme.title, "models": models })
        }).collect::<Vec<_>>(),
        "currency": list.currency(),
        "lines": list.lines.iter().map(|line| product(line, list)).collect::<Vec<_>>(),
        "tools": tools.collect::<Vec<_>>(),
        "safety": gear.collect::<Vec<_>>(),
        "safety_first": texts.to_do(&caution::to_do(said())),
        "safety_texts": cautions::in_full(texts, said()),
        "safety_closing": if caution::to_do(said()).is_empty() { Value::Null } else { json!(texts.closing()) },
        "bottles": list.bottles(),
        "packs": packs,
        "single_pieces": single,
        "unpriced": list.unpriced,
        "gone": list.gone,
        "total_likely": money(list.total_likely),
        "total": money(list.total),
    })
}

fn product(line: &Line<'_>, list: &List<'_>) -> Value {
    let paint = &line.paint;
    let models = list.order.models();
    let need = |of: fn(Estimate) -> Millilitres| line.need.map(of).map(ml);
    let only: Option<&Pick> = line.picks.first().filter(|_| line.picks.len() == 1);
    // Whoever adds the lines up adds what can be bought.
    let bought = |picks: &[Pick]| if paint.discontinued { 0 } else { shop::count(picks) };
    let buy = line.picks.iter().filter(|_| !paint.discontinued);
    json!({
        "id": paint.id,
        "name": paint.name,
        "maker": paint.maker,
        "range": paint.range,
        "code": paint.code,
        "kind": paint.kind.name(),
        "group": line.role.name(),
        "uses": steps(&line.uses),
        "ml_per_model": ml(line.per_model),
        "ml_per_batch": ml(line.per_batch(models)),
        "ml_needed": need(|need| need.likely),
        "ml_low": need(|need| need.low),
        "ml_high": need(|need| need.high),
        "ml_have": ml(line.have),
        "bottle_ml": only.map(|pick| ml(pick.bottle.size)),
        "bottles": bought(&line.picks),
        "bottles_likely": bought(&line.picks_likely),
        "price_each": only.map(|pick| money(pick.bottle.price)),
        "price_total": money(line.price),
        "buy": buy.map(|pick| {
            json!({ "bottle_ml": ml(pick.bottle.size), "bottles": pick.count, "price_each": money(pick.bottle.price) })
        }).collect::<Vec<_>>(),
        "discontinued": paint.discontinued,
        "substitutes": line.substitutes.iter().map(|other| {
            let delta_e = other.delta_e.map(|delta_e| to_places(delta_e, 2));
            json!({ "id": other.paint.id, "name": other.paint.name, "delta_e": delta_e, "ml_have": ml(other.have) })
        }).collect::<Vec<_>>(),
        "still_sold": line.still_sold.as_ref().map(|other| {
            let delta_e = other.delta_e.map(|delta_e| to_places(delta_e, 2));
            json!({ "id": other.paint.id, "name": other.paint.name, "delta_e": delta_e })
        }),
    })
}

/// The steps, each by its scheme and its own name.
fn steps(uses: &[Use<'_>]) -> Vec<Value> {
    let steps = uses.iter();
    steps
        .map(|of| {
            let (step, scheme) = (of.step, of.scheme);
            json!({ "scheme": scheme.slug, "step": step.stem, "number": step.number, "title": step.title })
        })
        .collect()
}

/// Millilitres to a millionth, so that what one model takes can still be multiplied.
fn ml(volume: Millilitres) -> Value {
    json!(to_places(volume.0, 6))
}

fn money(money: Option<Money>) -> Value {
    json!(money.and_then(|money| money.0.to_f64()))
}
