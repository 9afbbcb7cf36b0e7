//! The author measured an area on the finished model, and by prediction it comes out as another colour. What they wrote
//! counts; what in the steps may be otherwise is found by trying.

use std::sync::Arc;

use crate::colour::space::{lab, lab_difference, linear};
use crate::film::{Conditions, Film, What};
use crate::guide::{Paint, Scheme, Step};
use crate::measure::{Colour, Fraction};
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Hiding, Kind, Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "shows-otherwise",
        level: Level::Note,
        about: "a colour that was measured on the finished model is near what the steps are predicted to give",
        why: "a step that is written otherwise than it was painted gives other people another colour",
        group: Group::Order,
        safety: false,
    },
    example: "'Shell' was measured as #c08a30, and by prediction it comes out as #8a2018: they are 39 apart, and such predictions are mostly off by less than 5",
    ordering: false,
    look,
};

/// A change helps where it takes away this part of the distance at least.
const HELPS: f64 = 0.4;

/// Looks once, at the last step, when all areas are finished.
fn look(look: &Look<'_>, told: &mut Told) {
    if look.position + 1 != look.film.turns().len() {
        return;
    }
    for (at, area) in look.scheme.areas.iter().enumerate() {
        let Some(measured) = area.shows else { continue };
        let shown = look.appearance().after(look.position, at, Zone::Faces);
        let Some((stack, off)) = shown.stack().and_then(|stack| Some((stack, stack.uncertainty()?))) else { continue };
        let apart = lab_difference(stack.lab(), lab(linear(measured)));
        let colours = |coat: &&crate::film::Coat<'_>| matches!(coat.what, What::Colour | What::Tint | What::Shade);
        let Some(coat) = look.film.finished().coats(at, Zone::Faces).rfind(colours) else { continue };
        if apart <= off.nine_in_ten {
            continue;
        }
        told.tell(&RULE, coat.step, None, || {
            let message = format!(
                "{} was measured as {measured}, and by prediction it comes out as {}: they are {apart:.0} apart, and such predictions are mostly off by less than {:.0}",
                look.area_titles([at]),
                stack.colour(),
                off.nine_in_ten.ceil()
            );
            let mend = match likeliest(look, at, measured, apart) {
                Some(cause) => format!("see whether {cause}; then they would be {:.0} apart", cause.apart),
                None => "measure it again in even light, or brush its paints out: their colours on file may be off".into(),
            };
            Finding::new(&RULE.check, area.place, message, mend)
        });
    }
}

/// A change of one step, and how far the colour would be off with it.
struct Cause {
    words: String,
    apart: f64,
}

impl std::fmt::Display for Cause {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.words)
    }
}

/// The change of one step that brings the prediction nearest to what was measured, if one helps.
fn likeliest(look: &Look<'_>, area: usize, measured: Colour, apart: f64) -> Option<Cause> {
    let steps = look.scheme.steps.iter().enumerate().filter(|(_, step)| step.areas.contains(&area));
    let tried = steps.flat_map(|(at, step)| {
        let changes = changes(step).into_iter();
        changes.filter_map(move |change| change.tried(look, at, step, area, measured))
    });
    tried.min_by(|a, b| a.apart.total_cmp(&b.apart)).filter(|cause| cause.apart <= (1.0 - HELPS) * apart)
}

/// What may have been otherwise when a step was painted.
enum Change {
    Coats(u32),
    Reach(Reach),
    Thinner(bool),
    Hiding(Arc<Paint>, Hiding),
}

/// What may have been otherwise with this step.
fn changes(step: &Step) -> Vec<Change> {
    let mut all = Vec::new();
    let coloured = || step.mix.parts.iter().filter(|part| part.paint.kind.has_colour());
    if coloured().next().is_none() {
        return all;
    }
    all.extend([step.coats + 1, step.coats.saturating_sub(1).max(1), step.coats * 2].map(Change::Coats));
    match (step.stage, step.reach) {
        (Stage::Shade | Stage::PanelWash, Reach::All) => all.push(Change::Reach(Reach::Recesses)),
        (Stage::Shade | Stage::PanelWash, Reach::Recesses) => all.push(Change::Reach(Reach::All)),
        _ => {}
    }
    if step.mix.parts.iter().any(|part| thins(&part.paint)) {
        all.extend([true, false].map(Change::Thinner));
    }
    for part in coloured() {
        let own = Hiding::ALL.iter().position(|class| *class == part.paint.hiding).unwrap_or_default();
        let beside = [own.checked_sub(1), Some(own + 1)].into_iter().flatten();
        let classes = beside.filter_map(|at| Hiding::ALL.get(at));
        all.extend(classes.map(|class| Change::Hiding(Arc::clone(&part.paint), *class)));
    }
    all
}

fn thins(paint: &Paint) -> bool {
    matches!(paint.kind, Kind::Thinner | Kind::Medium)
}

impl Change {
    fn tried(&self, look: &Look<'_>, at: usize, step: &Step, area: usize, measured: Colour) -> Option<Cause> {
        let mut scheme = look.scheme.clone();
        let mut conditions = look.conditions.clone();
        self.make(scheme.steps.get_mut(at)?, &mut conditions);
        let shown = finished(&scheme, &conditions, area)?;
        let words = self.words(step);
        Some(Cause { words, apart: lab_difference(shown, lab(linear(measured))) })
    }

    fn make(&self, step: &mut Step, conditions: &mut Conditions) {
        match self {
            Self::Coats(coats) => step.coats = *coats,
            Self::Reach(reach) => step.reach = *reach,
            Self::Thinner(more) => {
                for part in step.mix.parts.iter_mut().filter(|part| thins(&part.paint)) {
                    part.amount = part.amount * if *more { Fraction::new(2, 1) } else { Fraction::new(1, 2) };
                }
            }
            Self::Hiding(paint, class) => {
                let other = Arc::new(Paint { hiding: *class, ..Paint::clone(paint) });
                for part in step.mix.parts.iter_mut().filter(|part| part.paint.id == paint.id) {
                    part.paint = Arc::clone(&other);
                }
                conditions.shelf = Arc::new(conditions.shelf.with(&other));
            }
        }
    }

    fn words(&self, step: &Step) -> String {
        let title = wording::quoted(&step.title);
        match self {
            Self::Coats(coats) => format!("{title} has {coats} coats and not {}", step.coats),
            Self::Reach(Reach::All) => format!("{title} lies all over and not in the recesses alone"),
            Self::Reach(_) => format!("{title} lies in the recesses alone and not all over"),
            Self::Thinner(true) => format!("{title} was thinned twice as much"),
            Self::Thinner(false) => format!("{title} was thinned half as much"),
            Self::Hiding(paint, class) => {
                format!("{} is {} and not {}", wording::quoted(&paint.name), class.name(), paint.hiding.name())
            }
        }
    }
}

/// What the faces of an area show in the end.
fn finished(scheme: &Scheme, conditions: &Conditions, area: usize) -> Option<crate::colour::space::Lab> {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    film.appearance(conditions).after(usize::MAX, area, Zone::Faces).lab()
}
