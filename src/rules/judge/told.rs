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
    /// Whether its own mend is a product or a time, so that no move is looked for.
    own_mend: bool,
    /// Whether its own mend is named first, and a move only as another way.
    pub(in crate::rules) own_first: bool,
    /// The finding, where words were asked for.
    pub(in crate::rules) finding: Option<Finding>,
}

impl Fault {
    /// Whether a move of a step could mend it, and is what a painter would do.
    pub(in crate::rules) fn may_move(&self) -> bool {
        self.rule.ordering && !self.own_mend
    }

    /// The steps that it is about.
    pub(in crate::rules) fn steps(&self) -> impl Iterator<Item = usize> + use<> {
        [Some(self.step), self.clash].into_iter().flatten()
    }
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
        self.faults.push(Fault {
            rule,
            step,
            clash,
            extent,
            own_mend: false,
            own_first: false,
            finding: self.words.then(finding),
        });
    }

    /// Tells a fault whose mend is another product or more time: no move is named for it.
    pub fn tell_with_own_mend(
        &mut self,
        rule: &'static Rule,
        step: usize,
        clash: Option<usize>,
        finding: impl FnOnce() -> Finding,
    ) {
        self.tell_often(rule, 1, step, clash, finding);
        self.latest(|fault| fault.own_mend = true);
    }

    /// Tells a fault that a painter mends by a step more; a move comes second.
    pub fn tell_with_mend_first(
        &mut self,
        rule: &'static Rule,
        step: usize,
        clash: Option<usize>,
        finding: impl FnOnce() -> Finding,
    ) {
        self.tell_often(rule, 1, step, clash, finding);
        self.latest(|fault| fault.own_first = true);
    }

    fn latest(&mut self, mark: impl FnOnce(&mut Fault)) {
        if let Some(fault) = self.faults.last_mut() {
            mark(fault);
        }
    }

    pub(in crate::rules) fn into_faults(self) -> Vec<Fault> {
        self.faults
    }
}

/// Faults without what another says of the same wait: whoever lets it harden for tape or varnish waits long enough for
/// the next coat.
pub(in crate::rules) fn once_a_wait(mut faults: Vec<Fault>) -> Vec<Fault> {
    let short = |fault: &Fault| fault.rule.check.id == "dry-too-short";
    let place = |fault: &Fault| fault.finding.as_ref().map(|finding| finding.place);
    let graver: Vec<_> = faults.iter().filter(|fault| !short(fault)).map(place).collect();
    faults.retain(|fault| !short(fault) || !graver.contains(&place(fault)));
    faults
}
