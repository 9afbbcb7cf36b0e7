//! What is in the cup: paints and how much of each.

use std::ops::Range;
use std::sync::Arc;

use super::Paint;
use crate::measure::Fraction;
use crate::report::Place;

/// A mix of one or more paints.
#[derive(Debug, Clone, PartialEq, Hash, Default)]
pub struct Mix {
    /// Its lines, in the author's order; none where the step uses no paint.
    pub parts: Vec<MixPart>,
    /// What the amounts count.
    pub measured: Measured,
    /// The pots that some of its lines are poured from.
    pub pots: Vec<Poured>,
    /// Whether its products are used one beside or after the other; then their amounts say nothing.
    pub unmixed: bool,
    /// Where it is two that are blended wet in wet, half of each: the first of its parts that belong to the second.
    pub blend: Option<usize>,
}

/// A pot in a mix.
#[derive(Debug, Clone, PartialEq, Hash)]
pub struct Poured {
    /// The pot.
    pub pot: Arc<Pot>,
    /// How many parts or drops of it, as the author wrote it.
    pub amount: Fraction,
    /// What comes of it, among the lines of the mix.
    pub parts: Range<usize>,
}

/// A mix that is made once and used in several steps.
#[derive(Debug, Clone, PartialEq, Hash)]
pub struct Pot {
    /// The id by which steps use it.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// What is in it.
    pub mix: Mix,
    /// Whether it is one lot for all models and all steps that use it.
    pub together: bool,
    /// Where it is in its file.
    pub place: Place,
}

/// A line of a mix as its author wrote it: a product, or a pot with all that is in it.
#[derive(Debug, Clone)]
pub struct MixRow<'a> {
    /// What it is, among the parts of the mix.
    pub parts: Range<usize>,
    /// How many parts or drops.
    pub amount: Fraction,
    /// What it is called.
    pub name: &'a str,
    /// The pot, if it is one.
    pub pot: Option<&'a Arc<Pot>>,
}

/// One line of a mix.
#[derive(Debug, Clone, PartialEq, Hash)]
pub struct MixPart {
    /// The paint.
    pub paint: Arc<Paint>,
    /// How many parts or drops.
    pub amount: Fraction,
    /// Where the line stands.
    pub place: Place,
}

/// What the amounts of a mix count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Measured {
    /// Parts by volume.
    #[default]
    Parts,
    /// Drops.
    Drops,
}

impl Mix {
    /// Whether more than one product is in it.
    pub fn is_mixed(&self) -> bool {
        self.parts.len() > 1 && !self.unmixed
    }

    /// Whether its products lie one beside or after the other; two that are blended run together.
    pub fn is_beside(&self) -> bool {
        self.unmixed && self.blend.is_none()
    }

    /// Whether more than one thing is measured out for it: a pot counts as one.
    pub fn is_ratio(&self) -> bool {
        self.is_mixed() && self.lines().nth(1).is_some()
    }

    /// Its lines as the author wrote them.
    pub fn lines(&self) -> impl Iterator<Item = MixRow<'_>> {
        let mut at = 0;
        std::iter::from_fn(move || {
            let part = self.parts.get(at)?;
            let poured = self.pots.iter().find(|poured| poured.parts.start == at);
            let line = match poured {
                Some(Poured { pot, amount, parts }) => {
                    MixRow { parts: parts.clone(), amount: *amount, name: &pot.title, pot: Some(pot) }
                }
                None => MixRow { parts: at..at + 1, amount: part.amount, name: &part.paint.name, pot: None },
            };
            at = line.parts.end.max(at + 1);
            Some(line)
        })
    }

    /// What is in it as one text, such as `2 Otter Strap : 1 Mere Thinner`; numbers as `number` writes them.
    pub fn in_words(&self, number: impl Fn(&str) -> String) -> String {
        let sign = if self.measured == Measured::Drops { " + " } else { " : " };
        let line = |line: MixRow<'_>| {
            if self.is_mixed() {
                format!("{} {}", number(&line.amount.to_string()), line.name)
            } else {
                line.name.to_owned()
            }
        };
        self.lines().map(line).collect::<Vec<_>>().join(if self.unmixed { ", " } else { sign })
    }
}

impl MixRow<'_> {
    /// What is measured out of it, added up over what is in it; `None` where that is not known.
    pub fn sum<T: Copy + std::iter::Sum>(&self, of_parts: &[T]) -> Option<T> {
        Some(of_parts.get(self.parts.clone())?.iter().copied().sum())
    }
}
