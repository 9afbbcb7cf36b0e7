//! A mask that stays on when the work is done: the edge of the paint turns brittle, and the glue of the tape stays.

use crate::bench::{Figure, Minutes};
use crate::film::{Deed, Film};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::rested;
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "mask-too-long",
        level: Level::Note,
        about: "a mask on open paint comes off while the last coat over it is young",
        why: "a film that has hardened over the edge of a tape tears there, and old tape leaves its glue behind",
        group: Group::Masks,
        safety: false,
    },
    example: "the mask of 'Tape' stays on 'Cloth' for 24 h after the last coat, until 'Bare'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    if look.film.turn(look.position).is_none_or(|turn| turn.deed != Deed::Unmask) {
        return;
    }
    let before = look.before();
    let masks = look.areas().iter().filter_map(|area| Some((*area, before.mask(*area)?)));
    let masks = masks.filter(|(area, on)| lies_on_paint(look.film, *area, *on));
    let Some((area, on)) = masks.min_by_key(|(_, on)| *on) else { return };
    let stay = stay(look.film, on, look.position);
    if stay.0 <= look.conditions.bench.get(Figure::MaskLongest) {
        return;
    }
    let Some(mask) = look.film.turn(on) else { return };
    told.tell(&RULE, look.index, Some(mask.step), || {
        let message = format!(
            "the mask of {} stays on {} for {} after the last coat, until {}",
            look.title(mask.step),
            look.area_titles([area]),
            rested(stay),
            look.own_title()
        );
        let mend = "take it off an hour or two after the last coat over it, and let the paint dry without it";
        let finding = Finding::new(&RULE.check, look.step.places.title, message, mend);
        look.see(finding, mask.step, "the mask")
    });
}

/// Whether a mask lies on open paint. A canopy or a varnished part may stay under its mask until the model is done.
fn lies_on_paint(film: &Film<'_>, area: usize, on: usize) -> bool {
    film.before(on).top_film(area, Zone::Faces).is_some_and(|top| !top.is_clear_film())
}

/// How long a mask stays on when the last coat over or beside it has been laid: masks for one colour after the other may
/// lie for days, and then it is this wait that counts. Until it is taken off, and at least until that coat has dried as
/// its step says; what nobody wrote is not held against anybody.
fn stay(film: &Film<'_>, on: usize, off: usize) -> Minutes {
    let last = (on + 1..off).rev().find_map(|position| film.coat(position));
    let (Some(last), Some(taken_off)) = (last, film.turn(off)) else { return Minutes::default() };
    let written = film.step(last.position).and_then(|step| step.dry).map(Minutes::from);
    let idle = (last.position..off).any(|position| film.step(position).is_some_and(|step| step.dry.is_some()));
    let lay = if idle { taken_off.begins - last.laid } else { Minutes::default() };
    written.unwrap_or_default().max(lay)
}
