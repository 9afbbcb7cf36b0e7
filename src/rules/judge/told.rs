//! What the rules tell. While mends are tried out only the rule and the step count, and no words are made.

use super::look::Look;
use crate::report::{Check, Finding};

/// One rule.
#[derive(Debug)]
pub struct Rule {
    /// What is checked, and why.
    pub check: Check,
    /// What it says about a scheme that breaks it, word for word as in one of its cases.
    pub example: &'static str,
    /// Whether another order of the same steps could mend it.
    pub ordering: bool,
    /// Looks at one step.
    pub look: fn(&Look<'_>, &mut Told),
}

/// Gathers what the rules tell.
#[derive(Debug)]
pub struct Told {
    words: bool,
    faults: Vec<Fault>,
}

/// One thing that a rule told.
#[derive(Debug)]
pub(in crate::rules) struct Fault {
    /// The rule.
    pub(in crate::rules) rule: &'static Rule,
    /// The step whose file has the mend, by its place in the scheme's list.
    pub(in crate::rules) step: usize,
    /// The step that it clashes with.
    pub(in crate::rules) clash: Option<usize>,
    /// How often it strikes: areas, or pieces of work that are lost. It guides the search for a better order.
    pub(in crate::rules) extent: usize,
    /// The finding, where words were asked for.
    pub(in crate::rules) finding: Option<Finding>,
}

impl Told {
    pub(in crate::rules) fn new(words: bool) -> Self {
        Self { words, faults: Vec::new() }
    }

    /// Tells that a step breaks a rule, by the step's place in the scheme's list, and the step that it clashes with.
    pub fn tell(&mut self, rule: &'static Rule, step: usize, clash: Option<usize>, finding: impl FnOnce() -> Finding) {
        self.tell_often(rule, 1, step, clash, finding);
    }

    /// Tells a fault that strikes several times: one finding, but the more of it the farther from a sound order.
    pub fn tell_often(
        &mut self,
        rule: &'static Rule,
        extent: usize,
        step: usize,
        clash: Option<usize>,
        finding: impl FnOnce() -> Finding,
    ) {
        self.faults.push(Fault { rule, step, clash, extent, finding: self.words.then(finding) });
    }

    pub(in crate::rules) fn into_faults(self) -> Vec<Fault> {
        self.faults
    }
}
