//! Fixer that has dried before the powder comes holds nothing.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "fixer-before-powder",
        level: Level::Warning,
        about: "fixer comes into the powder, or powder into wet fixer",
        why: "fixer that has dried is a varnish: the powder on it lies as loose as before",
        group: Group::Washes,
        safety: false,
    },
    example: "'Fix' dries on 'Hull' before the powder of 'Dust' comes",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Fixer) else { return };
    let wet = look.conditions.bench.get(Figure::WipeRest);
    // Powder is pressed into fixer that is still wet.
    if look.step.dry.is_some_and(|dry| dry.as_minutes() <= wet) {
        return;
    }
    let film = look.film;
    let holds = |other: &Coat<'_>| matches!(other.what, What::Fixer | What::Varnish);
    let idle = |area: usize| {
        let is_powder = |other: &&Coat<'_>| other.what == What::Powder;
        let before = Zone::ALL.iter().any(|zone| look.before().coats(area, *zone).any(|other| is_powder(&other)))
            || look.before().spots(area).any(|other| is_powder(&other));
        let mut later = film.coats().iter().filter(|other| other.position > coat.position);
        let powder = later.clone().find(|other| is_powder(other) && film.areas(other.position).contains(&area))?;
        let held = later.any(|other| {
            other.position > powder.position && holds(other) && film.areas(other.position).contains(&area)
        });
        (!before && !held).then_some(powder)
    };
    let dry: Vec<(usize, &Coat<'_>)> = look.areas().iter().filter_map(|area| Some((*area, idle(*area)?))).collect();
    let Some((_, powder)) = dry.first() else { return };
    told.tell(&RULE, coat.step, Some(powder.step), || {
        let areas = look.area_titles(dry.iter().map(|(area, _)| *area));
        let title = look.title(powder.step);
        let message = format!("{} dries on {areas} before the powder of {title} comes", look.own_title());
        let mend = format!("put it after {title}; or lay the powder into it while it is wet: 'dry: 5 min'");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, powder.step, "the powder")
    });
}
