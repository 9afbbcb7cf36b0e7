//! Decals that come onto dirt look freshly stuck on: what fades and soils the model should go over them too.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "decal-on-dirt",
        level: Level::Warning,
        about: "decals come before the weathering, so that they share its dirt",
        why: "a clean mark on a dirty model looks freshly stuck on, and it does not lie flat on dust",
        group: Group::Decals,
        safety: false,
    },
    example: "'Marks' lies on the dirt of 'Streaks' on 'Hull'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(decal) = look.coat().filter(|coat| coat.what == What::Decal) else { return };
    let (before, finished) = (look.before(), look.film.finished());
    let on_area =
        |area: usize| Zone::ALL.iter().flat_map(move |zone| finished.coats(area, *zone)).chain(finished.spots(area));
    let late = |area: &usize| {
        let later = |is: fn(&Coat<'_>) -> bool| on_area(*area).any(|coat| coat.position > decal.position && is(coat));
        let first = |is: fn(&Coat<'_>) -> bool| {
            let under = on_area(*area).filter(|coat| coat.position < decal.position && is(coat));
            under.min_by_key(|coat| coat.position).filter(|_| !later(soils) && !later(is))
        };
        let under = first(soils).or_else(|| first(runs_in_lines))?;
        before.mask(*area).is_none().then_some((*area, under))
    };
    let late: Vec<(usize, &Coat<'_>)> = look.areas().iter().filter_map(late).collect();
    let graver = late.iter().find(|(_, under)| soils(under));
    let Some((_, under)) = graver.or(late.first()) else { return };
    let level = if graver.is_some() { RULE.check.level } else { Level::Note };
    let smooth = before_dirt(look, under, &late);
    // Where a gloss was there before the dirt, the decals belong on it: dirt that is put behind the last varnish lies open.
    let clash = smooth.is_none().then_some(under.step);
    told.tell(&RULE, decal.step, clash, || {
        let areas = look.area_titles(late.iter().map(|(area, _)| *area));
        let what = if under.stage == Stage::Chip { "chips" } else { "dirt" };
        let message = format!("{} lies on the {what} of {} on {areas}", look.own_title(), look.title(under.step));
        let mend = match smooth {
            Some(gloss) => {
                format!("put it right after {}, and seal it there with a gloss varnish", look.title(gloss.step))
            }
            None => format!("put it before {}, or soil the marks afterwards as well", look.title(under.step)),
        };
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend).at(level);
        look.see(finding, under.step, format!("the {what}"))
    });
}

/// The last varnish before the dirt that is smooth enough for decals, where it lies on all their areas.
fn before_dirt<'a>(look: &Look<'a>, dirt: &Coat<'_>, late: &[(usize, &Coat<'_>)]) -> Option<&'a Coat<'a>> {
    let needed = look.conditions.bench.get(Figure::DecalGloss);
    let film = look.film;
    let lies = |coat: &Coat<'_>| late.iter().all(|(area, _)| film.areas(coat.position).contains(area));
    let earlier = film.coats().iter().take_while(|coat| coat.position < dirt.position);
    earlier.filter(|coat| coat.what == What::Varnish && coat.gloss().0 >= needed && lies(coat)).last()
}

/// Whether a coat is dirt in the joints of an area: that is worth a word, for a mark that crosses them should share it.
fn runs_in_lines(coat: &Coat<'_>) -> bool {
    coat.stage == Stage::PanelWash && coat.what == What::Shade
}

/// Whether a coat is dirt or painted wear on the faces of an area: lines in its hollows go round a mark.
fn soils(coat: &Coat<'_>) -> bool {
    matches!(coat.stage, Stage::Weather | Stage::Pigment | Stage::Chip)
        && matches!(coat.what, What::Shade | What::Colour | What::Powder)
        && matches!(coat.reach, Reach::All | Reach::Faces | Reach::Raised | Reach::Spots)
}
