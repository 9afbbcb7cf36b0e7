//! The cautions of several steps as plain lines, for what is not a page: calendars, the terminal, data.

use crate::caution::{self, CautionTexts};
use crate::tell::plan::planned::UnitStep;

/// Every caution of some steps, each once and in full, without the closing line.
pub(crate) fn of(texts: &CautionTexts, steps: &[UnitStep<'_>]) -> Vec<String> {
    let gathered = caution::together(steps.iter().enumerate().filter_map(|(at, of)| Some((at, of.cautions?))));
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
