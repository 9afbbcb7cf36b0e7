//! A paint that nobody can buy any more.

use crate::guide::Paint;
use crate::nearest::{self, Aspect, Change, Fact, Near};
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "discontinued-paint",
        level: Level::Warning,
        about: "a scheme uses paints that can still be bought",
        why: "readers search the shops for it, and a second batch will not match the first",
        group: Group::Bookkeeping,
        safety: false,
    },
    example: "'Red' uses 'Old Red', which has left the market",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    for part in look.step.mix.parts.iter().filter(|part| part.paint.discontinued) {
        told.tell(&RULE, look.index, None, || {
            let name = wording::quoted(&part.paint.name);
            let message = format!("{} uses {name}, which has left the market", look.own_title());
            let substitutes = nearest::substitutes(&part.paint, look.around.stock.all(), 2);
            let finding = Finding::new(&RULE.check, part.place, message, mend(&part.paint, &substitutes));
            finding.see(part.paint.place, "its entry")
        });
    }
}

/// The nearest substitute by CIEDE2000 with what its user must mind; where it has another carrier, also the nearest that
/// has the same one.
fn mend(paint: &Paint, substitutes: &[Near]) -> String {
    let Some((first, others)) = substitutes.split_first() else {
        return nothing_near(paint);
    };
    let apart: Vec<_> = substitutes.iter().map(|near| near.apart).collect();
    let nearest = if nearest::ranks(&apart).iter().filter(|rank| **rank == 1).count() > 1 {
        "is among the nearest"
    } else {
        "comes nearest"
    };
    let advice = match first.alike() {
        Some(_) if first.is_different() => {
            let id = &paint.id;
            format!(
                "of those still sold {} {nearest}, but it is a different colour{}; 'maulstick match GUIDE {id} --two' looks for a mix",
                wording::quoted(&first.paint.name),
                how_near(first)
            )
        }
        Some(_) => format!(
            "try {} in its place: of those still sold it {nearest}{}",
            wording::quoted(&first.paint.name),
            how_near(first)
        ),
        None => format!("try {} in its place: it does the same work", wording::quoted(&first.paint.name)),
    };
    let alike = others.iter().find(|near| first.paint.family != paint.family && near.paint.family == paint.family);
    let same_carrier = alike.map(|near| {
        format!("; carried by {} too is {}{}", paint.family, wording::quoted(&near.paint.name), how_near(near))
    });
    advice + &minded(paint, &first.paint) + &same_carrier.unwrap_or_default()
}

fn nothing_near(paint: &Paint) -> String {
    if paint.colour.is_none() {
        return "use one that is still sold, or mix it from others".to_owned();
    }
    format!(
        "nothing that is still sold and used like it comes near its colour; 'maulstick match GUIDE {} --two' looks for a mix",
        paint.id
    )
}

/// The number with its words, in brackets; a different colour is called so already.
fn how_near(near: &Near) -> String {
    match (near.delta_e(), near.alike()) {
        (Some(delta_e), Some(_)) if near.is_different() => format!(" (ΔE00 {delta_e:.1})"),
        (Some(delta_e), Some(alike)) => format!(" (ΔE00 {delta_e:.1}, {})", alike.words()),
        _ => String::new(),
    }
}

/// What would spoil a model or hurt somebody who did not mind it: carrier, hazards, sheen, hiding.
fn minded(paint: &Paint, other: &Paint) -> String {
    let told = |change: &Change| match (&change.from, &change.to) {
        (Fact::Word(from), Fact::Word(to)) if change.aspect == Aspect::Family => {
            Some(format!("it is carried by {to} and not by {from}"))
        }
        (Fact::Word(from), Fact::Word(to)) => Some(format!("it is {to} and not {from}")),
        (Fact::Codes(_), Fact::Codes(_)) => Some(format!("its data sheet adds {}", change.added_codes().join(", "))),
        _ => None,
    };
    let told: Vec<String> = nearest::changes(paint, other).iter().filter_map(told).collect();
    if told.is_empty() { String::new() } else { format!("; mind that {}", told.join(", ")) }
}
