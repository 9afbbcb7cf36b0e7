//! A decal that nothing covers lifts at its edges: from a wash, from handling, from time.

use crate::film::{Coat, Opacity, View, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Zone;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "decal-unsealed",
        level: Level::Error,
        about: "a decal is sealed under a clear coat before washes, weathering and the end of the scheme",
        why: "the edge of an open decal soaks up every wash, and the film tears off under a finger",
        group: Group::Decals,
        safety: false,
    },
    example: "'Marks' is never sealed on 'Shell'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(decal) = look.coat().filter(|coat| coat.what == What::Decal) else { return };
    let finished = look.film.finished();
    let open: Vec<(usize, Option<&Coat<'_>>)> = look
        .areas()
        .iter()
        .map(|area| (*area, first_over(&finished, decal, *area)))
        .filter(|(_, over)| over.is_none_or(soaks))
        .collect();
    let Some((_, over)) = open.first() else { return };
    let areas = || look.area_titles(open.iter().map(|(area, _)| *area));
    let later = look.film.coats().iter().find(|coat| {
        coat.what == What::Varnish
            && coat.position > decal.position
            && open.iter().any(|(area, _)| look.film.areas(coat.position).contains(area))
    });
    let clash = over.or(later).map(|coat| coat.step);
    told.tell_with_mend_first(&RULE, decal.step, clash, || {
        // A wash wants a gloss to run on; what only closes them may be of any sheen.
        let mend = match over {
            Some(over) if is_wash(over) => format!("add a gloss varnish on {} after this", areas()),
            _ => format!("add a varnish on {} after this, matt or satin as the finish wants it", areas()),
        };
        match over {
            None => {
                let message = format!("{} is never sealed on {}", look.own_title(), areas());
                Finding::new(&RULE.check, look.step.places.stage, message, mend)
            }
            Some(over) => {
                let message = format!(
                    "{} lies open on {} when {} comes over it",
                    look.own_title(),
                    areas(),
                    look.title(over.step)
                );
                let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
                look.see(finding, over.step, "what comes over it")
            }
        }
    });
}

/// What first comes over a decal: what covers it, or a wash before that, which runs under its edge from the joints too.
fn first_over<'a>(finished: &View<'a, 'a>, decal: &Coat<'_>, area: usize) -> Option<&'a Coat<'a>> {
    let wash = |coat: &&Coat<'_>| coat.position > decal.position && is_wash(coat);
    let washes = Zone::ALL.iter().filter_map(|zone| finished.coats(area, *zone).find(wash));
    washes.chain(finished.first_over(decal, area)).min_by_key(|coat| coat.position)
}

/// Whether a coat is washed on.
fn is_wash(coat: &Coat<'_>) -> bool {
    coat.stage.weathers() && matches!(coat.what, What::Shade | What::Colour)
}

/// Whether a coat soaks into the edge of a decal instead of sealing it. What buries it is another rule's business.
fn soaks(coat: &Coat<'_>) -> bool {
    !coat.is_clear_film() && coat.opacity < Opacity::Covering
}
