//! Paint for a place that has been closed: the parts are together, and no brush gets in.

use crate::film::Coat;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "painted-out-of-reach",
        level: Level::Warning,
        about: "an area is painted before a step that assembles shuts it in",
        why: "the brush does not get there any more, and prising the parts apart again breaks them",
        group: Group::Order,
        safety: false,
    },
    example: "'Seat and pedals' paints 'Cockpit', which 'Close the hull' has shut in",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    // A step that says 'all' leaves out what is shut in.
    let Some(coat) = look.coat().filter(|_| !look.step.all_over) else { return };
    let before = look.before();
    let shut: Vec<(usize, usize)> =
        look.areas().iter().filter_map(|area| Some((*area, before.shut_in(*area)?))).collect();
    let Some(closing) = shut.first().and_then(|(_, at)| look.film.turn(*at)).map(|turn| turn.step) else { return };
    tell(look, told, coat, (&shut, closing));
}

fn tell(look: &Look<'_>, told: &mut Told, coat: &Coat<'_>, (shut, closing): (&[(usize, usize)], usize)) {
    told.tell(&RULE, coat.step, Some(closing), || {
        let areas = look.area_titles(shut.iter().map(|(area, _)| *area));
        let message = format!("{} paints {areas}, which {} has shut in", look.own_title(), look.title(closing));
        let mend = format!("put it before {}", look.title(closing));
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        look.see(finding, closing, "what shuts it in")
    });
}
