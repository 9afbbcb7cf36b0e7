//! The cautions of several steps as plain lines, for what is not a page: calendars, the terminal, data. What to do comes
//! first ([`first`]), before any mix or amount; the texts in full ([`of`]) once, with the closing sentence behind them.

use crate::caution::{self, CautionTexts, StepCautions};
use crate::tell::plan::planned::UnitStep;

/// Every caution of some steps of units, each once and in full, without the closing line.
pub(crate) fn of(texts: &CautionTexts, steps: &[UnitStep<'_>]) -> Vec<String> {
    in_full(texts, steps.iter().filter_map(|of| of.cautions))
}

/// What to do before some steps of units, as a line; empty where there is nothing to do.
pub(crate) fn first(texts: &CautionTexts, steps: &[UnitStep<'_>]) -> String {
    texts.to_do(&caution::to_do(steps.iter().filter_map(|of| of.cautions)))
}

/// Every caution of some steps, each once and in full, without the closing line.
pub(crate) fn in_full<'a>(texts: &CautionTexts, steps: impl Iterator<Item = &'a StepCautions>) -> Vec<String> {
    let gathered = caution::together(steps.enumerate());
    let kinds = gathered.kinds.iter().map(|held| {
        let caution = texts.caution(held.what);
        format!("{}. {}", caution.title, caution.text)
    });
    let notes = gathered.notes.iter().map(|held| format!("{}: {}", texts.labels().author_note, held.what));
    let statements = gathered.statements.iter().map(|statement| {
        let text = statement.text.as_deref().unwrap_or_default();
        format!("{} {text} ({})", statement.code, statement.paints.join(", "))
    });
    kinds.chain(notes).chain(statements).collect()
}

/// What to do before a step and the closing sentence, for a form that has room for no more; empty where there is
/// nothing to do.
pub(crate) fn in_short<'a>(texts: &CautionTexts, steps: impl IntoIterator<Item = &'a StepCautions>) -> String {
    let first = texts.to_do(&caution::to_do(steps));
    if first.is_empty() { first } else { format!("{first}. {}", texts.closing()) }
}
