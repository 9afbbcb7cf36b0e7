//! What changes for a painter who takes one paint in the place of another.

use crate::guide::{Bottle, Paint};
use crate::measure::Time;
use crate::trade::choice;

choice! {
    /// What may change.
    Aspect, "a property" {
        /// What carries it.
        Family = "family",
        /// How it shines.
        Sheen = "sheen",
        /// How well it covers.
        Hiding = "hiding",
        /// When it may be touched.
        TouchDry = "touch-dry",
        /// When it may be painted over.
        Recoat = "recoat",
        /// When it is hard.
        Cure = "cure",
        /// Whether it may be sprayed.
        Spraying = "spraying",
        /// The statements of its safety data sheet.
        Hazards = "hazards",
        /// The sizes and prices.
        Bottles = "bottles",
    }
}

/// One thing that is not the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// What it is.
    pub aspect: Aspect,
    /// As it is with the paint that is replaced.
    pub from: Fact,
    /// As it is with the one that takes its place.
    pub to: Fact,
}

/// What is known of one aspect of a paint.
#[derive(Debug, Clone, PartialEq)]
pub enum Fact {
    /// A word of the trade: a family, a sheen, a hiding class.
    Word(&'static str),
    /// A wait.
    Wait(Time),
    /// Whether it may be sprayed.
    MaySpray(bool),
    /// Hazard statement codes.
    Codes(Vec<String>),
    /// Sizes and prices.
    Sold(Vec<Bottle>),
    /// The author does not say.
    Untold,
}

/// What changes where `to` takes the place of `from`, the weightiest first.
///
/// Hazard statements are reported where the new paint has one that the old one has not: a step needs more care then. Fewer of
/// them are no news, because a list may be incomplete.
pub fn changes(from: &Paint, to: &Paint) -> Vec<Change> {
    let facts = |paint: &Paint| {
        [
            (Aspect::Family, Fact::Word(paint.family.name())),
            (Aspect::Hazards, Fact::Codes(paint.hazards.iter().map(|code| code.0.clone()).collect())),
            (Aspect::Spraying, Fact::MaySpray(!paint.not_for_spraying)),
            (Aspect::Sheen, shine(paint)),
            (Aspect::Hiding, cover(paint)),
            (Aspect::TouchDry, wait(paint.touch_dry)),
            (Aspect::Recoat, wait(paint.recoat)),
            (Aspect::Cure, wait(paint.cure)),
            (Aspect::Bottles, sold(paint)),
        ]
    };
    let both = facts(from).into_iter().zip(facts(to));
    let changes = both.map(|((aspect, from), (_, to))| Change { aspect, from, to });
    changes.filter(Change::counts).collect()
}

impl Change {
    fn counts(&self) -> bool {
        match (&self.from, &self.to) {
            (Fact::Codes(from), Fact::Codes(to)) => to.iter().any(|code| !from.contains(code)),
            (from, to) => from != to,
        }
    }

    /// The hazard statements that only the new paint has.
    pub fn added_codes(&self) -> Vec<&str> {
        match (&self.from, &self.to) {
            (Fact::Codes(from), Fact::Codes(to)) => {
                to.iter().filter(|code| !from.contains(code)).map(String::as_str).collect()
            }
            _ => Vec::new(),
        }
    }
}

/// Varnishes and mediums shine too; what leaves no film does not.
fn shine(paint: &Paint) -> Fact {
    if paint.kind.makes_film() { Fact::Word(paint.sheen.name()) } else { Fact::Untold }
}

fn cover(paint: &Paint) -> Fact {
    if paint.kind.has_colour() { Fact::Word(paint.hiding.name()) } else { Fact::Untold }
}

fn wait(time: Option<Time>) -> Fact {
    time.map_or(Fact::Untold, Fact::Wait)
}

fn sold(paint: &Paint) -> Fact {
    if paint.bottles.is_empty() { Fact::Untold } else { Fact::Sold(paint.bottles.clone()) }
}
