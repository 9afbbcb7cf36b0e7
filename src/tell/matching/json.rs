//! The answer for scripts. Its fields are described in the README and stay as they are.

use serde::Serialize;
use serde_json::{Value, json};

use super::Answer;
use crate::colour::{Evidence, Uncertainty, space};
use crate::guide::{Bottle, Paint};
use crate::measure::to_places;
use crate::nearest::{Blend, Change, Fact, changes};
use crate::report;

#[derive(Serialize)]
struct Product<'a> {
    id: &'a str,
    name: &'a str,
    maker: &'a str,
    range: &'a str,
    code: Option<&'a str>,
    kind: &'static str,
    family: &'static str,
    colour: Option<String>,
    hiding: Option<&'static str>,
    sheen: &'static str,
    discontinued: bool,
    bottles: Value,
}

/// The whole answer as one JSON document.
pub(crate) fn json(answer: &Answer) -> String {
    let nearest = answer.nearest.iter().zip(answer.ranks()).map(|(near, rank)| {
        let changes = answer.paint().map(|paint| changes(paint, &near.paint)).unwrap_or_default();
        json!({
            "paint": product(&near.paint),
            "delta_e": near.delta_e().map(rounded),
            "off_by": near.apart.map(|apart| off_by(apart.off)),
            "rank": rank,
            "alike": near.alike(),
            "changes": changes.iter().map(change).collect::<Vec<_>>(),
        })
    });
    let mixes = answer.mixes.iter().flatten().zip(answer.ranks_of_mixes()).map(|(one, rank)| mix(one, rank));
    let document = json!({
        "paint": answer.paint().map(product),
        "colour": answer.look.map(|look| space::shown(space::linear_of(look.lab)).to_string()),
        "nearest": nearest.collect::<Vec<_>>(),
        "mixes": mixes.collect::<Vec<_>>(),
        "currency": answer.other_currency,
    });
    report::json_text(&document)
}

fn product(paint: &Paint) -> Product<'_> {
    Product {
        id: &paint.id,
        name: &paint.name,
        maker: &paint.maker,
        range: &paint.range,
        code: paint.code.as_deref(),
        kind: paint.kind.name(),
        family: paint.family.name(),
        colour: paint.colour.map(|colour| colour.to_string()),
        hiding: paint.kind.has_colour().then(|| paint.hiding.name()),
        sheen: paint.sheen.name(),
        discontinued: paint.discontinued,
        bottles: sold(&paint.bottles),
    }
}

fn change(change: &Change) -> Value {
    json!({ "aspect": change.aspect, "from": fact(&change.from), "to": fact(&change.to) })
}

fn fact(fact: &Fact) -> Value {
    match fact {
        Fact::Word(word) => json!(word),
        Fact::Wait(time) => json!(time.as_seconds()),
        Fact::MaySpray(may) => json!(may),
        Fact::Codes(codes) => json!(codes),
        Fact::Sold(bottles) => sold(bottles),
        Fact::Untold => Value::Null,
    }
}

fn sold(bottles: &[Bottle]) -> Value {
    let bottles = bottles.iter();
    bottles.map(|one| json!({ "ml": one.size.0, "price": one.price.map(|price| price.to_string()) })).collect()
}

fn off_by(off: Uncertainty) -> Value {
    json!({ "median": rounded(off.median), "nine_in_ten": rounded(off.nine_in_ten) })
}

fn mix(mix: &Blend, rank: usize) -> Value {
    let parts = mix.parts.iter().map(|(paint, parts)| json!({ "paint": product(paint), "parts": parts }));
    json!({
        "parts": parts.collect::<Vec<_>>(),
        "delta_e": rounded(mix.apart.delta_e),
        "rank": rank,
        "alike": mix.alike(),
        "colour": mix.colour.to_string(),
        "hiding": mix.hiding,
        "rests_on": mix.evidence.map(evidence),
        "off_by": mix.uncertainty.map(|off| {
            json!({ "median": rounded(off.median), "nine_in_ten": rounded(off.nine_in_ten), "sure": off.sureness() })
        }),
        "theory_alone": mix.is_theory_alone(),
        "wants_tint": mix.wants_tint.iter().map(|paint| paint.id.as_str()).collect::<Vec<_>>(),
    })
}

fn evidence(evidence: Evidence) -> &'static str {
    match evidence {
        Evidence::Class => "class",
        Evidence::CoatCounts => "coat-counts",
        Evidence::BlackAndWhite => "black-and-white",
        Evidence::Tint => "tint",
    }
}

/// Two decimals are more than any eye sees.
fn rounded(delta_e: f64) -> f64 {
    to_places(delta_e, 2)
}
