//! Cautions as plain words, for what is not a page: card, recipe, calendars, the terminal, data. What to do comes first
//! ([`first`]), before any mix or amount; the texts in full ([`CautionPart`], [`of`]) once, with the closing sentence after
//! them.

use crate::caution::{self, Caution, CautionTexts, StepCautions, Together};
use crate::tell::plan::planned::UnitStep;

/// The cautions of some steps, in full.
#[derive(Debug)]
pub(crate) struct CautionPart {
    /// The language they are in, where it is not the guide's.
    pub(crate) language: Option<&'static str>,
    /// The heading.
    pub(crate) heading: String,
    /// Each caution in full.
    pub(crate) entries: Vec<CautionLine>,
    /// The heading over the author's own.
    pub(crate) by_author: String,
    /// The author's own cautions, in full.
    pub(crate) notes: Vec<CautionLine>,
    /// The heading over the official statements.
    pub(crate) on_products: String,
    /// The official statements on the products, in full.
    pub(crate) statements: Vec<CautionLine>,
    /// The sentence below all of them.
    pub(crate) closing: String,
}

/// One caution: its heading, the steps that it holds for, and its text.
#[derive(Debug)]
pub(crate) struct CautionLine {
    /// Its heading; empty for one of the author's own.
    pub(crate) title: String,
    /// The steps, in words; for a statement, the products.
    pub(crate) steps: String,
    /// What it says.
    pub(crate) text: String,
    /// The language of the text, where it is another one.
    pub(crate) language: Option<&'static str>,
}

impl CautionPart {
    /// The cautions of some steps in a guide of a language; `steps` says in words for which steps one holds.
    pub(crate) fn of<K>(language: &str, cautions: &Together<K>, steps: impl Fn(&[K]) -> String) -> Self {
        let texts = CautionTexts::of(language);
        let labels = texts.labels();
        let line = |title: &str, steps, text: &str| CautionLine {
            title: title.to_owned(),
            steps,
            text: text.to_owned(),
            language: None,
        };
        let entries = cautions.kinds.iter().map(|held| {
            let Caution { title, text } = texts.caution(held.what);
            line(title, steps(&held.steps), text)
        });
        let notes = cautions.notes.iter().map(|held| line("", steps(&held.steps), &held.what));
        let statements = cautions.statements.iter().map(|statement| {
            let (text, language) = texts.statement(&statement.code).unwrap_or_default();
            let language = Some(language).filter(|used| !used.is_empty() && *used != texts.language());
            CautionLine { language, ..line(&statement.code, statement.paints.join(", "), &text) }
        });
        Self {
            language: Some(texts.language()).filter(|used| *used != language),
            heading: labels.cautions.clone(),
            entries: entries.collect(),
            by_author: labels.author_note.clone(),
            notes: notes.collect(),
            on_products: labels.statements.clone(),
            statements: statements.collect(),
            closing: texts.closing().to_owned(),
        }
    }

    /// Each official statement as one line: code, text, products.
    pub(crate) fn stated(&self) -> impl Iterator<Item = String> {
        self.statements.iter().map(|said| format!("{} {} ({})", said.title, said.text, said.steps))
    }
}

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
    let said = CautionPart::of(texts.language(), &caution::together(steps.enumerate()), |_| String::new());
    let entries = said.entries.iter().map(|one| format!("{}. {}", one.title, one.text));
    let notes = said.notes.iter().map(|note| format!("{}: {}", said.by_author, note.text));
    entries.chain(notes).chain(said.stated()).collect()
}

/// What to do before a step and the closing sentence, for a form that has room for no more; empty where there is
/// nothing to do.
pub(crate) fn in_short<'a>(texts: &CautionTexts, steps: impl IntoIterator<Item = &'a StepCautions>) -> String {
    let first = texts.to_do(&caution::to_do(steps));
    if first.is_empty() { first } else { format!("{first}. {}", texts.closing()) }
}
