//! The cautions of several steps as plain lines, for what is not a page: calendars, the terminal, data.

use crate::caution::{CautionTexts, Statement, StepCautions};
use crate::tell::plan::planned::UnitStep;

/// Every caution of some steps, each once and in full, without the closing line.
pub(crate) fn of(texts: &CautionTexts, steps: &[UnitStep<'_>]) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut say = |line: String| {
        if !lines.contains(&line) {
            lines.push(line);
        }
    };
    let cautions = || steps.iter().filter_map(|of| of.cautions);
    for kind in cautions().flat_map(|cautions| &cautions.kinds) {
        let caution = texts.caution(*kind);
        say(format!("{}. {}", caution.title, caution.text));
    }
    for note in cautions().flat_map(|cautions| &cautions.notes) {
        say(format!("{}: {note}", texts.labels().author_note));
    }
    for statement in statements(cautions()) {
        let text = statement.text.as_deref().unwrap_or_default();
        say(format!("{} {text} ({})", statement.code, statement.paints.join(", ")));
    }
    lines
}

/// The statements of several steps, each code once with all products that carry it.
pub(crate) fn statements<'a>(all: impl Iterator<Item = &'a StepCautions>) -> Vec<Statement> {
    let mut merged: Vec<Statement> = Vec::new();
    for statement in all.flat_map(|cautions| &cautions.statements) {
        let Some(known) = merged.iter_mut().find(|known| known.code == statement.code) else {
            merged.push(statement.clone());
            continue;
        };
        for paint in &statement.paints {
            if !known.paints.contains(paint) {
                known.paints.push(paint.clone());
            }
        }
    }
    merged
}
