//! A brush that works on an area under a mask paints the mask.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "painted-under-mask",
        level: Level::Warning,
        about: "an area is not worked on with a brush while a mask lies on it",
        why: "the paint ends up on the tape, and the area comes out from under it as it was",
        group: Group::Masks,
        safety: false,
    },
    example: "'Shadows' works on 'Canopy', which lies under 'Mask the canopy'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat() else { return };
    if let Some(area) = look.areas().iter().find(|area| look.before().free(**area) < 0.005) {
        return leaves_nothing(look, *area, told);
    }
    if !by_hand(coat) {
        return;
    }
    // A step that says 'all' leaves out what is masked.
    if look.step.all_over {
        return;
    }
    let before = look.before();
    // Tape on the faces leaves the edges free: lines are drawn along it. So does a mask over a part, as its author says.
    let meets = |at: usize| {
        let mask = look.film.step(at);
        let reach = mask.map_or(Reach::All, |mask| mask.reach);
        mask.is_none_or(|mask| mask.covers.is_none()) && reach.zones().iter().any(|zone| look.zones().contains(zone))
    };
    let masked: Vec<(usize, usize)> = look
        .areas()
        .iter()
        .filter_map(|area| Some((*area, before.mask(*area)?)))
        .filter(|(_, at)| meets(*at))
        .collect();
    let Some(mask) = masked.first().and_then(|(_, at)| look.film.turn(*at)).map(|turn| turn.step) else { return };
    told.tell(&RULE, coat.step, Some(mask), || {
        let areas = look.area_titles(masked.iter().map(|(area, _)| *area));
        let message = format!("{} works on {areas}, which lies under {}", look.own_title(), look.title(mask));
        let mend = "take the mask off before this, or take the area out of this step";
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        look.see(finding, mask, "the mask")
    });
}

/// Masks that lie on parts of an area, and together on all of it.
fn leaves_nothing(look: &Look<'_>, area: usize, told: &mut Told) {
    let mask = look.before().mask(area).and_then(|at| look.film.turn(at)).map(|turn| turn.step);
    let Some(mask) = mask else { return };
    told.tell(&RULE, look.index, Some(mask), || {
        let message = format!("the masks on {} leave nothing for {}", look.area_titles([area]), look.own_title());
        let mend = "let them cover less: what each covers is added up while they lie there together";
        let finding = Finding::new(&RULE.check, look.step.places.areas, message, mend);
        look.see(finding, mask, "the last of them")
    });
}

/// Whether a coat is brushed on. A spray on a masked area is meant for the part of it that the mask leaves free.
fn by_hand(coat: &Coat<'_>) -> bool {
    !coat.technique.sprays() && coat.stage != Stage::Mask && !matches!(coat.what, What::Filler)
}
