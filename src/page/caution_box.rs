//! The caution boxes: written here and not in a theme, so that no theme can lose a word of them.

use super::Desk;
use crate::caution::{CautionKind, CautionTexts, StepCautions};
use crate::guide::Guide;
use crate::work::WorkedScheme;

/// The warning triangle, drawn here.
const TRIANGLE: &str = "<svg class=\"caution-sign\" viewBox=\"0 0 32 28\" aria-hidden=\"true\" focusable=\"false\"><path fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.6\" stroke-linejoin=\"round\" d=\"M16 2.5 30 26H2z\"/><path fill=\"currentColor\" d=\"M14.6 10h2.8l-.5 8.6h-1.8zM14.5 20.4h3v2.8h-3z\"/></svg>";

/// The box of each step, in the order of the steps; empty where a step needs none.
pub(super) fn of_steps(desk: Desk<'_>, worked: &WorkedScheme) -> Vec<String> {
    worked.step_cautions.iter().map(|cautions| of_step(&desk.worked.guide, cautions)).collect()
}

/// The box of one step.
pub(super) fn of_step(guide: &Guide, cautions: &StepCautions) -> String {
    if cautions.is_empty() {
        return String::new();
    }
    let texts = CautionTexts::of(&guide.language);
    let mut inner = String::new();
    for kind in &cautions.kinds {
        inner.push_str(&paragraph(texts, *kind, ""));
    }
    if !cautions.notes.is_empty() {
        inner.push_str(&notes(texts, cautions.notes.iter().map(String::as_str)));
    }
    if !cautions.statements.is_empty() {
        inner.push_str(&statements(texts, cautions));
    }
    boxed(texts, &inner)
}

/// The box of a whole scheme: each caution once, with the steps it holds for.
pub(super) fn of_scheme(desk: Desk<'_>, worked: &WorkedScheme) -> String {
    let cautions = &worked.cautions;
    if cautions.kinds.is_empty() && cautions.notes.is_empty() {
        return String::new();
    }
    let texts = CautionTexts::of(&desk.worked.guide.language);
    let mut inner = String::new();
    for (kind, steps) in &cautions.kinds {
        inner.push_str(&paragraph(texts, *kind, &step_links(texts, worked, steps)));
    }
    if !cautions.notes.is_empty() {
        inner.push_str(&notes(texts, cautions.notes.iter().map(|(_, note)| note.as_str())));
    }
    boxed(texts, &inner)
}

fn boxed(texts: &CautionTexts, inner: &str) -> String {
    let closing = escape(&texts.closing);
    let label = escape(&texts.cautions);
    format!(
        "<aside class=\"caution\" aria-label=\"{label}\">{TRIANGLE}<div class=\"caution-body\">{inner}<p class=\"caution-closing\">{closing}</p></div></aside>"
    )
}

fn paragraph(texts: &CautionTexts, kind: CautionKind, steps: &str) -> String {
    let text = texts.text(kind);
    format!("<p><strong class=\"caution-title\">{}</strong>{steps} {}</p>", escape(&text.title), escape(&text.text))
}

/// The numbers of the steps that a caution holds for, as links to them.
fn step_links(texts: &CautionTexts, worked: &WorkedScheme, numbers: &[usize]) -> String {
    let links: Vec<String> = numbers
        .iter()
        .filter_map(|number| worked.scheme.steps.get(number.wrapping_sub(1)))
        .map(|step| format!("<a href=\"#{}\">{}</a>", step.stem, step.number))
        .collect();
    format!(" <span class=\"caution-steps\">{} {}</span>", escape(&texts.for_steps), links.join(", "))
}

fn notes<'a>(texts: &CautionTexts, notes: impl Iterator<Item = &'a str>) -> String {
    let items: String = notes.map(|note| format!("<li>{}</li>", escape(note))).collect();
    format!(
        "<p><strong class=\"caution-title\">{}</strong></p><ul class=\"caution-notes\">{items}</ul>",
        escape(&texts.author_note)
    )
}

/// The statements from the data sheets, in their official English.
fn statements(texts: &CautionTexts, cautions: &StepCautions) -> String {
    let items: String = cautions
        .statements
        .iter()
        .map(|statement| {
            let names = escape(&statement.paints.join(", "));
            let (code, text) = (escape(&statement.code), escape(&statement.text));
            format!(
                "<li><b>{code}</b> <span lang=\"en\">{text}</span> <span class=\"caution-of\">({names})</span></li>"
            )
        })
        .collect();
    format!(
        "<p><strong class=\"caution-title\">{}</strong></p><ul class=\"caution-statements\">{items}</ul>",
        escape(&texts.statements)
    )
}

fn escape(text: &str) -> String {
    super::prose::escaped(text)
}
