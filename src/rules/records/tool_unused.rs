//! A tool on the list that no step asks for.

use crate::guide::Guide;
use crate::report::{Check, Finding, Group, Level, wording};

/// Tools are used.
pub(in crate::rules) static TOOL_UNUSED: Check = Check {
    id: "tool-unused",
    level: Level::Note,
    about: "every tool in tools.yaml is named by a step",
    why: "either a step forgot to ask for it, or readers put something on the desk that nothing needs",
    group: Group::Bookkeeping,
    safety: false,
};

/// How many more of them are shown where they stand: all are named.
const SHOWN: usize = 2;

/// One note for all tools that no step names; none while a scheme or a step could not be read.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    if !guide.schemes.are_whole() {
        return Vec::new();
    }
    let steps = || guide.schemes.iter().flat_map(|scheme| &scheme.steps);
    let is_named = |id: &str| steps().flat_map(|step| &step.tools).any(|tool| tool.id == id);
    let unused: Vec<_> = guide.tools.iter().filter(|tool| tool.listed && !is_named(&tool.id)).collect();
    let Some(first) = unused.first() else { return Vec::new() };
    let names = wording::listed(unused.iter().map(|tool| &tool.name));
    let message = format!("no step asks for {names}");
    let mend = "name it under 'tools' of the steps that need it, or take it off the list";
    let finding = Finding::new(&TOOL_UNUSED, first.place, message, mend);
    vec![unused.iter().skip(1).take(SHOWN).fold(finding, |finding, tool| finding.see(tool.place, "another one"))]
}
