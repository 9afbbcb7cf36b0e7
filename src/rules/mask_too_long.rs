//! A mask that lies for days: the edge of the paint turns brittle, and the glue of the tape stays.

use super::look::rested;
use super::{Look, Rule, Told};
use crate::film::{Deed, Film, Minutes};
use crate::report::{Check, Finding, Group, Level};

pub(super) static RULE: Rule = Rule {
    check: Check {
        id: "mask-too-long",
        level: Level::Note,
        about: "a mask comes off within a day",
        why: "a film that has hardened over the edge of a tape tears there, and old tape leaves its glue behind",
        group: Group::Masks,
        safety: false,
    },
    ordering: false,
    look,
};

/// Best is one to two hours after the last coat over it; after a day tape is known to leave traces.
const LONGEST: Minutes = Minutes(24.0 * 60.0);

fn look(look: &Look<'_>, told: &mut Told) {
    if look.film.turn(look.position).is_none_or(|turn| turn.deed != Deed::Unmask) {
        return;
    }
    let before = look.before();
    let masks = look.areas().iter().filter_map(|area| Some((*area, before.mask(*area)?)));
    let Some((area, on)) = masks.min_by_key(|(_, on)| *on) else { return };
    let lay = lay(look.film, on, look.position);
    if lay.0 < LONGEST.0 {
        return;
    }
    let Some(mask) = look.film.turn(on) else { return };
    told.tell(look.index, Some(mask.step), || {
        let message = format!(
            "the mask of {} lies on {} for {} until {}",
            look.title(mask.step),
            look.area_titles([area]),
            rested(lay),
            look.own_title()
        );
        let mend = "take it off an hour or two after the last coat over it, and let the paint dry without it";
        let finding = Finding::new(&RULE.check, look.step.places.title, message, mend);
        look.see(finding, mask.step, "the mask")
    });
}

/// How long a mask lies: from just before the next step, because nobody masks days ahead, until it is taken off, and at
/// least until what was laid meanwhile beside it has dried as its step says.
fn lay(film: &Film<'_>, on: usize, off: usize) -> Minutes {
    let taken_off = film.turn(off).map_or(Minutes::default(), |turn| turn.begins);
    let begun = film.turn(on + 1).map_or(taken_off, |turn| turn.begins);
    let put_on = film.turn(on).map_or(begun, |turn| turn.ends.max(begun));
    let dried = (on + 1..off).filter_map(|position| {
        let dry = film.step(position)?.dry.map(Minutes::from);
        Some(film.turn(position)?.ends + dry.or(film.coat(position).map(|coat| coat.drying.recoat))?)
    });
    dried.fold(taken_off, Minutes::max) - put_on
}
