//! A drybrush dusts whatever it meets: what is finished beside it gets flecks of its paint.

use crate::film::{Coat, Deed, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Stage, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "drybrush-beside-finished",
        level: Level::Note,
        about: "drybrushing comes before the neat work beside it",
        why: "a dry brush touches everything near: its dust lies on the finished work and has to be painted out",
        group: Group::Order,
        safety: false,
    },
    example: "'Fur light' is drybrushed after 'Light edges' on 'Cloak' is done",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let dusts = look.film.dusts_beside(look.position, &look.conditions.bench);
    let Some(coat) = look.coat().filter(|_| dusts) else { return };
    let own = look.areas();
    if look.step.all_over || look.scheme.model.is_ground() {
        return;
    }
    // One mistake is one finding: the next drybrushing does no more harm than the first.
    let earlier = look.film.coats().iter().filter(|other| other.position < look.position && other.dusts());
    let since = earlier.map(|other| other.position).max();
    let beside = (0..look.scheme.areas.len()).filter(|area| !own.contains(area));
    let done: Vec<(usize, &Coat<'_>)> = beside
        .filter(|area| look.before().mask(*area).is_none())
        .filter_map(|area| Some((area, neat_work(look, area)?)))
        .filter(|(_, work)| since.is_none_or(|since| work.position > since))
        .collect();
    let Some((_, work)) = done.last().filter(|_| !is_apart(look)) else { return };
    told.tell(&RULE, coat.step, Some(work.step), || {
        let areas = look.area_titles(done.iter().map(|(area, _)| *area));
        let title = look.title(work.step);
        let message = format!("{} is drybrushed after {title} on {areas} is done", look.own_title());
        let mend = format!("drybrush before {title}, or leave time to tidy up {areas}");
        let finding = Finding::new(&RULE.check, look.step.places.technique, message, mend);
        look.see(finding, work.step, "the neat work beside it")
    });
}

/// The last neat brushwork on an area, if it is done before this step and nothing is painted there afterwards.
fn neat_work<'a>(look: &Look<'a>, area: usize) -> Option<&'a Coat<'a>> {
    let film = look.film;
    let mut on_area = film.coats().iter().filter(|coat| film.areas(coat.position).contains(&area));
    let neat = |coat: &&Coat<'_>| {
        coat.technique == Technique::Brush
            && coat.what == What::Colour
            && matches!(coat.stage, Stage::Highlight | Stage::Detail)
    };
    let work = on_area.clone().take_while(|coat| coat.position < look.position).filter(neat).last()?;
    let again =
        on_area.any(|coat| coat.position > look.position && coat.what != What::Varnish && !coat.stage.weathers());
    (!again).then_some(work)
}

/// Whether the part is put onto the model only later.
fn is_apart(look: &Look<'_>) -> bool {
    let film = look.film;
    let assembled = |at: usize| film.turn(at).is_some_and(|turn| turn.deed == Deed::Assemble);
    let mut later = (look.position + 1..film.turns().len()).filter(|at| assembled(*at));
    later.any(|at| look.areas().iter().all(|area| film.areas(at).contains(area)))
}
