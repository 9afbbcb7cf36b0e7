//! The rules put to a scheme.

use crate::film::{Conditions, Film};
use crate::guide::Scheme;
use crate::rules::book::RULES;
use crate::rules::judge::told::Fault;
use crate::rules::order::budget::Budget;
use crate::rules::{Look, Rule, Surroundings, Told};

/// A scheme to which the rules are put, in one order of its steps or another.
#[derive(Debug, Clone, Copy)]
pub(in crate::rules) struct Trial<'a> {
    pub(in crate::rules) around: &'a Surroundings<'a>,
    pub(in crate::rules) scheme: &'a Scheme,
    pub(in crate::rules) conditions: &'a Conditions,
    /// How many other orders may still be tried.
    pub(in crate::rules) budget: &'a Budget,
}

impl Trial<'_> {
    /// What some rules say about a film; with words, or only which rule and which step.
    pub(in crate::rules) fn look_at(&self, film: &Film<'_>, rules: impl Fn(&Rule) -> bool, words: bool) -> Vec<Fault> {
        let mut told = Told::new(words);
        for position in 0..film.turns().len() {
            let Some(look) = Look::at(self.around, self.conditions, film, position) else { continue };
            for rule in RULES.iter().copied().filter(|rule| rules(rule)) {
                (rule.look)(&look, &mut told);
            }
        }
        told.into_faults()
    }
}
