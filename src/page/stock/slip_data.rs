//! The figures behind a shopping list, for a script that calculates it again for another number of models.
//!
//! They stand in the page as a data block (`<script type="application/json" id="slip-data">`), which no browser runs:
//!
//! ```json
//! {
//!   "usable": 0.93, "zero": "€0.00",
//!   "units": [{"scheme": "fen-warden", "models": 24}],
//!   "steps": [{"unit": 0, "scaling": {…}, "parts": ["clear-amber", "osk-thinner"], "arrives": [18, 25], "trace": 0.045,
//!              "pots": [{"pot": 0, "from": 0, "to": 2}],
//!              "extras": [{"id": "osk-cleaner", "fixed": {…}, "per_model": {…}}]}],
//!   "pots": [{"scaling": {…}, "parts": ["reed-glaze", "osk-thinner"]}],
//!   "lines": [{"id": "clear-amber", "have": 0, "unknown": false, "trace": 0.045, "sizes": [{"ml": 15, "price": 4.2}]}]
//!   "pieces": [{"id": "reed-tufts", "models": 24, "per_model": 3, "pack": 40, "price": 4.5}],
//! }
//! ```
//!
//! Of `pieces`, `models` take some; `n` models take `per_model` · n, rounded up, in packs of `pack` (null: singly), each at `price`. For `n` models of its unit, a step needs of each of its parts what the formula of [`crate::quantity`] says with its
//! `scaling` (`shares` in the order of `parts`), and of each extra `fixed` + n · `per_model`; `fixed` and `per_model`
//! are `{low, likely, high}`. The parts `from` up to `to` of a step are poured from a pot, which is measured out once for
//! all steps as its own `scaling` says. Added up over all steps, less `have`, the `high` figure is divided by `usable` and rounded
//! up to bottles; a line that is `unknown` can't be calculated and is one bottle. `zero` shows how the language writes
//! money. A line that is `gone` is no longer sold: its bottles count for nothing to buy. `sizes` are all that are sold (`price` is null where it is not known), and the cheapest set that
//! covers it is bought. What is less than `trace` at its `high` figure is said to be a drop or two. Each line of the page
//! has `data-have="<id>"` on its tick box.

use std::sync::Arc;

use rust_decimal::prelude::ToPrimitive;
use serde_json::{Value, json};

use crate::guide::{Pot, Poured, Tool};
use crate::measure::Money;
use crate::quantity::{Estimate, PotScaling, StepNeed, a_drop_or_two};
use crate::shop::{Line, List, pots};
use crate::tell::shopping::Voice;

/// The data block's content: JSON, safe inside a script element.
pub(in crate::page) fn json(list: &List<'_>, voice: Voice<'_>) -> String {
    let units = list.order.units.iter();
    let pots: Vec<Arc<Pot>> = pots(&list.order).into_iter().map(|(pot, _)| pot).collect();
    let data = json!({
        "usable": list.usable,
        "zero": voice.money(Some(Money::default()), list),
        "units": units.map(|(unit, models)| json!({ "scheme": unit.scheme.slug, "models": models })).collect::<Vec<_>>(),
        "steps": steps(list, &pots),
        "pots": pots.iter().map(|pot| potted(list, pot)).collect::<Vec<_>>(),
        "pieces": list.counted().iter().filter_map(|tool| pieces(list, tool)).collect::<Vec<_>>(),
        "lines": list.lines.iter().map(|of| line(of, list)).collect::<Vec<_>>(),
    });
    data.to_string().replace('<', "\\u003c")
}

fn steps(list: &List<'_>, pots: &[Arc<Pot>]) -> Vec<Value> {
    let units = list.order.units.iter().enumerate();
    let needs = units.flat_map(|(at, (worked, _))| {
        let steps = worked.scheme.steps.iter().zip(&worked.needs);
        steps.filter_map(move |(step, need)| Some((at, step, need.as_ref()?)))
    });
    needs
        .map(|(unit, step, need)| {
            let parts: Vec<&str> = step.mix.parts.iter().map(|part| part.paint.id.as_str()).collect();
            let trace = a_drop_or_two(need.drop).0;
            let mut given = json!({ "unit": unit, "scaling": need.scaling, "parts": parts, "arrives": arrives(need), "trace": trace, "extras": extras(need) });
            if !step.mix.pots.is_empty() {
                given["pots"] = step.mix.pots.iter().filter_map(|poured| taken(poured, pots)).collect();
            }
            given
        })
        .collect()
}

/// What a step takes of a pot.
fn taken(poured: &Poured, pots: &[Arc<Pot>]) -> Option<Value> {
    let pot = pots.iter().position(|pot| *pot == poured.pot)?;
    Some(json!({ "pot": pot, "from": poured.parts.start, "to": poured.parts.end }))
}

fn potted(list: &List<'_>, pot: &Pot) -> Value {
    let parts: Vec<&str> = pot.mix.parts.iter().map(|part| part.paint.id.as_str()).collect();
    json!({ "scaling": PotScaling::of(pot, &list.order.worked.conditions.bench), "parts": parts })
}

/// Per cent that reach a model, of one alone and of several.
fn arrives(need: &StepNeed) -> Value {
    let percent = |models: u32| need.sum.efficiency_for(models) * 100.0;
    json!([percent(1), percent(2)])
}

fn extras(need: &StepNeed) -> Vec<Value> {
    let known = need.extras.iter().filter_map(|extra| Some((extra.product.as_ref()?, extra)));
    known.map(|(paint, extra)| json!({ "id": paint.id, "fixed": exact(extra.fixed), "per_model": exact(extra.per_model) })).collect()
}

/// Nothing is rounded that is still to be multiplied.
fn exact(amount: Estimate) -> Value {
    json!({ "low": amount.low.0, "likely": amount.likely.0, "high": amount.high.0 })
}

/// What is counted in pieces.
fn pieces(list: &List<'_>, tool: &Tool) -> Option<Value> {
    let each = tool.per_model?.as_f64();
    let price = tool.price.and_then(|price| price.0.to_f64());
    Some(json!({ "id": tool.id, "models": list.takers(tool), "per_model": each, "pack": tool.pack, "price": price }))
}

fn line(line: &Line<'_>, list: &List<'_>) -> Value {
    let sizes = line.paint.bottles.iter();
    let sizes: Vec<Value> = sizes
        .map(|bottle| json!({ "ml": bottle.size.0, "price": bottle.price.and_then(|price| price.0.to_f64()) }))
        .collect();
    let trace = a_drop_or_two(list.order.worked.conditions.bench.drop(&line.paint)).0;
    let mut given = json!({ "id": line.paint.id, "have": line.have.0, "unknown": line.need.is_none(), "trace": trace, "sizes": sizes });
    if line.paint.discontinued {
        given["gone"] = json!(true);
    }
    given
}
