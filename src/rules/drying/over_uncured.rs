//! Oil and enamel harden for days; what is laid over them before cracks, slides or never dries.

use super::strong_solvent_over_weak::never_goes;
use super::young::young;
use crate::bench::{Figure, Minutes};
use crate::film::{Coat, Need, Reason, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind, Reach};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "over-uncured",
        level: Level::Error,
        about: "oil and enamel are left to harden before anything of another family covers them",
        why: "the coat above cuts off the air that oil and enamel need: it cracks and slides, and stays soft under it",
        group: Group::Chemistry,
        safety: false,
    },
    example: "'Matt' covers 'Streaks' on 'Boards' after 2 d",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat() else { return };
    let soft = young(look, |under, need, age| {
        // What no rest mends is told of the solvent.
        let night = Minutes(look.conditions.bench.get(Figure::VarnishRest));
        // Fixer is next to nothing but spirit, which is gone by the morning.
        let gone = is_fixer(look, under) && !look.is_short(age, night);
        // Fixer is no film that a solvent could be told to bite into.
        let told = never_goes(look, coat, under) && !matches!(under.what, What::Fixer | What::Powder);
        let mends = need.reason == Reason::Harden && !told && !was_covered(look, under);
        let mends = mends && !gone;
        mends.then(|| harm(look, under, need, age)).flatten()
    });
    let Some(soft) = soft else { return };
    told.tell(&RULE, soft.step, Some(coat.step), || {
        let areas = look.area_titles(soft.areas.iter().copied());
        let age = rested(soft.age);
        let message = format!("{} covers {} on {areas} after {age}", look.own_title(), look.title(soft.under.step));
        let mend = format!("let it harden: 'dry: {}'", needed(soft.need.time));
        let finding = Finding::new(&RULE.check, look.step_at(soft.step).places.dry, message, mend).at(soft.level);
        look.see(finding, coat.step, "what covers it")
    });
}

/// Whether it is fixer, alone or with the powder that it holds.
fn is_fixer(look: &Look<'_>, under: &Coat<'_>) -> bool {
    let parts = || look.step_at(under.step).mix.parts.iter().map(|part| part.paint.kind);
    under.what == What::Fixer
        || (under.what == What::Powder
            && parts().all(|kind| matches!(kind, Kind::Pigment | Kind::Medium | Kind::Thinner)))
}

/// Whether an earlier step covered it already: too little time before that one is one mistake, and told there.
fn was_covered(look: &Look<'_>, under: &Coat<'_>) -> bool {
    let slow = |coat: &Coat<'_>| matches!(coat.cup.family(), Family::Oil | Family::Enamel | Family::Dry);
    let shared: Vec<&usize> =
        look.areas().iter().filter(|area| look.film.areas(under.position).contains(area)).collect();
    look.film.coats().iter().any(|coat| {
        let between = coat.position > under.position && coat.position < look.position;
        between && !slow(coat) && shared.iter().all(|area| look.film.areas(coat.position).contains(area))
    })
}

/// A painted film is spoiled before it can be painted over, and doubtful until it has hardened. A wash, streaks and dots
/// are thin: they are spoiled while they are wet, doubtful for a day, and from then on only worth a word.
fn harm(look: &Look<'_>, under: &Coat<'_>, need: Need, age: Minutes) -> Option<Level> {
    let short = |time: Minutes| look.is_short(age, time);
    let bench = &look.conditions.bench;
    let thin = (under.stage.weathers() && !under.is_neat_oil(bench)) || under.is_thin_oil(bench);
    let day = Minutes(bench.get(Figure::ThinOilLeast));
    // A line along an edge is no wash, and no painted area either.
    let half = need.time.times(bench.get(Figure::SolventSafeShare));
    let (ruin, doubt) = match under.reach {
        _ if thin => (under.drying.touch.min(day.times(0.5)), day),
        Reach::Edges => (under.drying.recoat.min(half), half),
        _ => (under.drying.recoat, need.time),
    };
    if short(ruin) {
        Some(Level::Error)
    } else if short(doubt) {
        Some(Level::Warning)
    } else {
        short(need.time).then_some(Level::Note)
    }
}
