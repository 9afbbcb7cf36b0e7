//! The caution boxes: written here and not in a theme, so that no theme can lose a word of them.
//!
//! There are two. The **line** ([`line()`]) says what to do, in drawn outlines with their words: it comes before the mix
//! and the instruction of every step, and at the head of an evening. The **texts** ([`of_step`], [`of_scheme`],
//! [`of_some`]) say everything in full with the closing sentence: they stand once on a page, visible without a click. Of a
//! scheme's page in its head, of a step's page under the instruction, of an army's page at its end. A page puts every box
//! that it shows into `must_show`; an empty box means that there is nothing to say.

use super::address::{Address, relative};
use super::prose::escaped;
use crate::caution::{self, Action, Caution, CautionKind, CautionTexts, Held, Statement, StepCautions, Together};
use crate::draw;
use crate::guide::{Guide, Thing};
use crate::page::Desk;
use crate::tell::plan::planned::UnitStep;
use crate::theme::is_from_right;
use crate::work::WorkedScheme;

/// The warning triangle, drawn here.
pub(in crate::page) const TRIANGLE: &str = "<svg class=\"caution-sign\" viewBox=\"0 0 32 28\" aria-hidden=\"true\"><path fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.6\" stroke-linejoin=\"round\" d=\"M16 2.5 30 26H2z\"/><path fill=\"currentColor\" d=\"M14.6 10h2.8l-.5 8.6h-1.8zM14.5 20.4h3v2.8h-3z\"/></svg>";

/// What to do before some steps, as one line; empty where there is nothing to do.
pub(in crate::page) fn line<'a>(guide: &Guide, steps: impl IntoIterator<Item = &'a StepCautions>) -> String {
    drawn_line(guide, steps, draw::action)
}

/// The lines of one page: each drawing stands in the first line that has it, and the others show it from there.
pub(in crate::page) fn lines_of_page<'a, S: IntoIterator<Item = &'a StepCautions>>(
    guide: &Guide,
    each: impl IntoIterator<Item = S>,
) -> Vec<String> {
    let mut drawn: Vec<Action> = Vec::new();
    let mut draw = |action| {
        if drawn.contains(&action) {
            return draw::action_again(action);
        }
        drawn.push(action);
        draw::action_first(action)
    };
    each.into_iter().map(|steps| drawn_line(guide, steps, &mut draw)).collect()
}

fn drawn_line<'a>(
    guide: &Guide,
    steps: impl IntoIterator<Item = &'a StepCautions>,
    mut draw: impl FnMut(Action) -> String,
) -> String {
    let actions = caution::to_do(steps);
    if actions.is_empty() {
        return String::new();
    }
    let texts = CautionTexts::of(&guide.language);
    let item = |action| {
        let label = escaped(texts.action(action));
        format!("<li class=\"caution-{}\">{}{label}</li>", action.name(), draw(action))
    };
    let items: String = actions.into_iter().map(item).collect();
    let label = escaped(&texts.labels().first);
    format!(
        "<div role=\"note\" class=\"caution-line\" aria-label=\"{label}\"{}>{TRIANGLE}<ul>{items}</ul></div>",
        in_language(guide, texts)
    )
}

/// The texts of one step.
pub(in crate::page) fn of_step(guide: &Guide, cautions: &StepCautions) -> String {
    texts(guide, &caution::together([((), cautions)]), None, |_| String::new())
}

/// The texts of a whole scheme: each once, with the steps it holds for.
pub(in crate::page) fn of_scheme(desk: Desk<'_>, worked: &WorkedScheme) -> String {
    let guide = &desk.worked.guide;
    let by_step = CautionTexts::of(&guide.language).labels().by_step.as_str();
    texts(guide, &worked.cautions, Some(by_step), |steps| step_links(CautionTexts::of(&guide.language), worked, steps))
}

/// The texts of several steps on the page at `path`, which may be of several schemes: each once, with links to the steps
/// that it holds for, called as they are elsewhere on the page.
pub(in crate::page) fn of_some(
    guide: &Guide,
    path: &str,
    steps: &[UnitStep<'_>],
    called: impl Fn(&UnitStep<'_>) -> String,
) -> String {
    // Units may share a scheme: its steps are told once.
    let same = |a: &UnitStep<'_>, b: &UnitStep<'_>| a.scheme.slug == b.scheme.slug && a.at == b.at;
    let mut named: Vec<&UnitStep<'_>> = Vec::new();
    for of in steps {
        if !named.iter().any(|known| same(known, of)) {
            named.push(of);
        }
    }
    let all = named.len();
    let gathered = caution::together(named.iter().enumerate().filter_map(|(at, of)| Some((at, of.cautions?))));
    texts(guide, &gathered, None, |held| {
        // What holds for all that is here needs no list of steps.
        if held.len() == all {
            return String::new();
        }
        let links: Vec<String> = held.iter().map(|at| step_link(path, named[*at], &called(named[*at]))).collect();
        holds_for(CautionTexts::of(&guide.language), &links)
    })
}

/// The texts of some steps; `links` gives the steps that one of them holds for, and `heading` says what they are.
pub(super) fn texts<K>(
    guide: &Guide,
    gathered: &Together<K>,
    heading: Option<&str>,
    links: impl Fn(&[K]) -> String,
) -> String {
    if gathered.is_empty() {
        return String::new();
    }
    let texts = CautionTexts::of(&guide.language);
    let kind = |held: &Held<CautionKind, K>| paragraph(texts, held.what, &links(&held.steps));
    let heading = heading.map(|words| format!("<p class=\"caution-heading\">{}</p>", escaped(words)));
    let mut inner: String = heading.into_iter().chain(gathered.kinds.iter().map(kind)).collect();
    inner.push_str(&noted(texts, gathered.notes.iter().map(|held| (held.what.as_str(), links(&held.steps)))));
    inner.push_str(&stated(texts, &gathered.statements));
    boxed(guide, texts, &inner)
}

fn step_link(path: &str, of: &UnitStep<'_>, words: &str) -> String {
    let thing = Thing::Step(of.scheme.slug.clone(), of.step.stem.clone());
    let href = relative(path, &Address::of(&thing));
    format!("<a href=\"{}\">{}</a>", escaped(&href), escaped(words))
}

fn boxed(guide: &Guide, texts: &CautionTexts, inner: &str) -> String {
    let (closing, label) = (escaped(texts.closing()), escaped(&texts.labels().cautions));
    let language = in_language(guide, texts);
    format!(
        "<div role=\"note\" class=\"caution\" aria-label=\"{label}\"{language}>{TRIANGLE}<div class=\"caution-body\">{inner}\
         <p class=\"caution-closing\">{closing}</p></div></div>"
    )
}

/// Where there are no cautions in the guide's language they are in English, and say so.
pub(super) fn in_language(guide: &Guide, texts: &CautionTexts) -> String {
    let direction = if is_from_right(&guide.language) { " dir=\"ltr\"" } else { "" };
    let other = texts.language() != guide.language;
    if other { format!(" lang=\"{}\"{direction}", texts.language()) } else { String::new() }
}

fn paragraph(texts: &CautionTexts, kind: CautionKind, steps: &str) -> String {
    let Caution { title, text } = texts.caution(kind);
    format!("<p><strong class=\"caution-title\">{}</strong>{steps} {}</p>", escaped(title), escaped(text))
}

/// The numbers of the steps that a caution holds for, as links to them; runs of three and more by their ends. What the
/// numbers are stands in the heading, and for readers by ear with each group.
fn step_links(texts: &CautionTexts, worked: &WorkedScheme, numbers: &[usize]) -> String {
    let link = |number: &usize| {
        let step = worked.scheme.steps.get(number.wrapping_sub(1))?;
        Some(format!("<a href=\"#{}\">{}</a>", step.stem, step.number))
    };
    let run = |run: &[usize]| {
        let shown: Vec<String> = run.iter().filter_map(link).collect();
        match shown.as_slice() {
            [first, _, .., last] => format!("{first}–{last}"),
            few => few.join(" "),
        }
    };
    let runs: Vec<String> = numbers.chunk_by(|a, b| a + 1 == *b).map(run).collect();
    let label = escaped(texts.labels().for_steps(numbers.len()));
    format!(" <span class=\"caution-steps\" role=\"group\" aria-label=\"{label}\">{}</span>", runs.join(" "))
}

/// Links to steps behind a caution that holds for them.
fn holds_for(texts: &CautionTexts, links: &[String]) -> String {
    let label = escaped(texts.labels().for_steps(links.len()));
    format!(" <span class=\"caution-steps\">{label} {}</span>", links.join(", "))
}

/// The author's own notes, each with what comes after it.
fn noted<'a>(texts: &CautionTexts, notes: impl Iterator<Item = (&'a str, String)>) -> String {
    let items: String = notes.map(|(note, behind)| format!("<li>{}{behind}</li>", escaped(note))).collect();
    listed(&texts.labels().author_note, "caution-notes", &items)
}

/// The statements from the data sheets, in their official words; those of the same products stand together.
fn stated(texts: &CautionTexts, statements: &[Statement]) -> String {
    let mut by_products: Vec<(&[String], String)> = Vec::new();
    for statement in statements {
        let (text, language) = texts.statement(&statement.code).unwrap_or_default();
        let said = format!("<b>{}</b> <span lang=\"{language}\">{}</span> ", escaped(&statement.code), escaped(&text));
        match by_products.iter_mut().find(|(paints, _)| *paints == statement.paints) {
            Some((_, known)) => known.push_str(&said),
            None => by_products.push((&statement.paints, said)),
        }
    }
    let items: String = by_products
        .into_iter()
        .map(|(paints, said)| {
            format!("<li>{said}<span class=\"caution-of\">({})</span></li>", escaped(&paints.join(", ")))
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
