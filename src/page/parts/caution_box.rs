//! The caution boxes: written here and not in a theme, so that no theme can lose a word of them.

use super::address::{Address, relative};
use super::prose::escaped;
use crate::caution::{Caution, CautionKind, CautionTexts, Statement, StepCautions};
use crate::guide::{Guide, Thing};
use crate::page::Desk;
use crate::tell::cautions;
use crate::tell::plan::planned::UnitStep;
use crate::work::WorkedScheme;

/// The warning triangle, drawn here.
pub(in crate::page) const TRIANGLE: &str = "<svg class=\"caution-sign\" viewBox=\"0 0 32 28\" aria-hidden=\"true\" focusable=\"false\"><path fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.6\" stroke-linejoin=\"round\" d=\"M16 2.5 30 26H2z\"/><path fill=\"currentColor\" d=\"M14.6 10h2.8l-.5 8.6h-1.8zM14.5 20.4h3v2.8h-3z\"/></svg>";

/// The box of each step, in the order of the steps; empty where a step needs none.
pub(in crate::page) fn of_steps(desk: Desk<'_>, worked: &WorkedScheme) -> Vec<String> {
    worked.step_cautions.iter().map(|cautions| of_step(&desk.worked.guide, cautions)).collect()
}

/// The box of one step.
pub(in crate::page) fn of_step(guide: &Guide, cautions: &StepCautions) -> String {
    let StepCautions { kinds, statements, notes } = cautions;
    if kinds.is_empty() && statements.is_empty() && notes.is_empty() {
        return String::new();
    }
    let texts = CautionTexts::of(&guide.language);
    let mut inner: String = kinds.iter().map(|kind| paragraph(texts, *kind, "")).collect();
    inner.push_str(&noted(texts, notes.iter().map(|note| (note.as_str(), String::new()))));
    inner.push_str(&stated(texts, statements));
    boxed(guide, texts, &inner)
}

/// The box of a whole scheme: each caution once, with the steps it holds for.
pub(in crate::page) fn of_scheme(desk: Desk<'_>, worked: &WorkedScheme) -> String {
    let cautions = &worked.cautions;
    if cautions.kinds.is_empty() && cautions.notes.is_empty() && cautions.statements.is_empty() {
        return String::new();
    }
    let guide = &desk.worked.guide;
    let texts = CautionTexts::of(&guide.language);
    let links = |steps: &[usize]| step_links(texts, worked, steps);
    let kinds = cautions.kinds.iter();
    let mut inner: String = kinds.map(|held| paragraph(texts, held.kind, &links(&held.steps))).collect();
    inner.push_str(&noted(texts, cautions.notes.iter().map(|held| (held.note.as_str(), links(&held.steps)))));
    inner.push_str(&stated(texts, &cautions.statements));
    boxed(guide, texts, &inner)
}

/// The box of several steps on the page at `path`, which may be of several schemes: each caution once, with links to the
/// steps that it holds for.
pub(in crate::page) fn of_some(guide: &Guide, path: &str, steps: &[UnitStep<'_>]) -> String {
    let texts = CautionTexts::of(&guide.language);
    let one_scheme = steps.chunk_by(|a, b| a.scheme.slug == b.scheme.slug).count() == 1;
    let holding = |holds: &dyn Fn(&StepCautions) -> bool| {
        let held: Vec<&UnitStep<'_>> = steps.iter().filter(|of| of.cautions.is_some_and(holds)).collect();
        // What holds for all that stands here needs no list of steps.
        if held.len() == steps.len() {
            return String::new();
        }
        let links: Vec<String> = held.into_iter().map(|of| step_link(path, of, one_scheme)).collect();
        holds_for(texts, &links)
    };
    let all = || steps.iter().filter_map(|of| of.cautions);
    let kinds = CautionKind::ALL.iter().filter(|kind| all().any(|cautions| cautions.kinds.contains(kind)));
    let mut inner: String =
        kinds.map(|kind| paragraph(texts, *kind, &holding(&|cautions| cautions.kinds.contains(kind)))).collect();
    let notes: Vec<&str> = once(all().flat_map(|cautions| &cautions.notes).map(String::as_str));
    let noted_steps = |note: &str| holding(&|cautions| cautions.notes.iter().any(|own| own == note));
    inner.push_str(&noted(texts, notes.into_iter().map(|note| (note, noted_steps(note)))));
    inner.push_str(&stated(texts, &cautions::statements(all())));
    if inner.is_empty() { inner } else { boxed(guide, texts, &inner) }
}

/// A link to a step, by its number among those of one scheme, otherwise by its title.
fn step_link(path: &str, of: &UnitStep<'_>, one_scheme: bool) -> String {
    let thing = Thing::Step(of.scheme.slug.clone(), of.step.stem.clone());
    let href = relative(path, &Address::of(&thing));
    let words = if one_scheme { of.step.number.to_string() } else { escaped(&of.step.title) };
    format!("<a href=\"{}\">{words}</a>", escaped(&href))
}

/// Each thing once, in the order in which they first come.
fn once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut known = Vec::new();
    for one in all {
        if !known.contains(&one) {
            known.push(one);
        }
    }
    known
}

fn boxed(guide: &Guide, texts: &CautionTexts, inner: &str) -> String {
    let (closing, label) = (escaped(texts.closing()), escaped(&texts.labels().cautions));
    // Where there are no cautions in the guide's language they are in English, and say so.
    let other = texts.language() != guide.language;
    let language = if other { format!(" lang=\"{}\"", texts.language()) } else { String::new() };
    format!(
        "<div role=\"note\" class=\"caution\" aria-label=\"{label}\"{language}>{TRIANGLE}<div class=\"caution-body\">{inner}\
         <p class=\"caution-closing\">{closing}</p></div></div>"
    )
}

fn paragraph(texts: &CautionTexts, kind: CautionKind, steps: &str) -> String {
    let Caution { title, text } = texts.caution(kind);
    format!("<p><strong class=\"caution-title\">{}</strong>{steps} {}</p>", escaped(title), escaped(text))
}

/// The numbers of the steps that a caution holds for, as links to them.
fn step_links(texts: &CautionTexts, worked: &WorkedScheme, numbers: &[usize]) -> String {
    let steps = numbers.iter().filter_map(|number| worked.scheme.steps.get(number.wrapping_sub(1)));
    let links: Vec<String> = steps.map(|step| format!("<a href=\"#{}\">{}</a>", step.stem, step.number)).collect();
    holds_for(texts, &links)
}

/// Links to steps behind a caution that holds for them.
fn holds_for(texts: &CautionTexts, links: &[String]) -> String {
    let label = escaped(texts.labels().for_steps(links.len()));
    format!(" <span class=\"caution-steps\">{label} {}</span>", links.join(", "))
}

/// The author's own notes, each with what stands behind it.
fn noted<'a>(texts: &CautionTexts, notes: impl Iterator<Item = (&'a str, String)>) -> String {
    let items: String = notes.map(|(note, behind)| format!("<li>{}{behind}</li>", escaped(note))).collect();
    listed(&texts.labels().author_note, "caution-notes", &items)
}

/// The statements from the data sheets, in their official English.
fn stated(texts: &CautionTexts, statements: &[Statement]) -> String {
    let items: String = statements
        .iter()
        .map(|statement| {
            let names = escaped(&statement.paints.join(", "));
            let text = escaped(statement.text.as_deref().unwrap_or_default());
            let code = escaped(&statement.code);
            format!(
                "<li><b>{code}</b> <span lang=\"en\">{text}</span> <span class=\"caution-of\">({names})</span></li>"
            )
        })
        .collect();
    listed(&texts.labels().statements, "caution-statements", &items)
}

fn listed(title: &str, class: &str, items: &str) -> String {
    if items.is_empty() {
        return String::new();
    }
    format!("<p><strong class=\"caution-title\">{}</strong></p><ul class=\"{class}\">{items}</ul>", escaped(title))
}
