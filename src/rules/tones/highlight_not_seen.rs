//! A highlight that is hardly lighter or darker than what it lies on is work that nobody sees.

use crate::bench::Figure;
use crate::colour::Stack;
use crate::colour::space::lab_difference;
use crate::film::{Coat, What};
use crate::guide::Step;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "highlight-not-seen",
        level: Level::Note,
        about: "a layer or a highlight differs enough from what it lies on to be seen",
        why: "at arm's length the eye takes the two colours for one, and the work on every model of the unit is for nothing",
        group: Group::Order,
        safety: false,
    },
    example: "'Edges' can hardly be seen on 'Cloth': by prediction it moves the colour by 0.4",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| is_to_be_seen(coat)) else { return };
    let limit = look.conditions.bench.get(Figure::HighlightSeenFrom);
    let unseen: Vec<(usize, f64)> = look
        .areas()
        .iter()
        .filter(|area| !neatens(look, **area))
        .filter_map(|area| {
            let (apart, furthest) = stands_off(look, *area)?;
            (apart < limit && furthest < limit * UNSURE).then_some((*area, apart))
        })
        .collect();
    let Some(most) = unseen.iter().map(|(_, apart)| *apart).reduce(f64::max) else { return };
    told.tell(&RULE, coat.step, None, || {
        let areas = look.area_titles(unseen.iter().map(|(area, _)| *area));
        let message = format!(
            "{} can hardly be seen on {areas}: by prediction it moves the colour by {most:.1}",
            look.own_title()
        );
        let mend = "take a colour that is further away, thin it less, or leave the step out";
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}

fn is_to_be_seen(coat: &Coat<'_>) -> bool {
    matches!(coat.stage, Stage::Layer | Stage::Highlight)
        && !matches!(coat.reach, Reach::All | Reach::Spots)
        && coat.optical > 0.0
        && !coat.is_clear_film()
}

/// Whether it only lays again what is there: edges made neat, a thin spot mended, or a colour brought back over a wash.
fn neatens(look: &Look<'_>, area: usize) -> bool {
    let before = look.before();
    let beneath_wash = |zone| before.coats(area, zone).rfind(|coat| matches!(coat.what, What::Colour | What::Tint));
    let below = look.zones().iter().flat_map(|zone| [before.seen(area, *zone), beneath_wash(*zone)]);
    let below = below.flatten().map(|coat| look.step_at(coat.step));
    let coloured = |step: &'_ Step| -> Vec<String> {
        let parts = step.mix.parts.iter().filter(|part| part.paint.kind.has_colour());
        parts.map(|part| part.paint.id.clone()).collect()
    };
    let own = coloured(look.step);
    below.map(coloured).any(|below| own.iter().all(|paint| below.contains(paint)))
}

/// Nothing is said where one of the paints that may be it would stand off by so many times what is just seen.
const UNSURE: f64 = 2.0;

/// How far the coat stands off where it stands off most, by the likeliest paints and by the furthest of all that they may be:
/// from what was there before and, on edges, from the faces beside them. `None` where a colour is unknown.
fn stands_off(look: &Look<'_>, area: usize) -> Option<(f64, f64)> {
    let mut most = None;
    for zone in look.zones() {
        let after = look.shows(area, *zone).stack()?;
        let before = look.showed(area, *zone).stack()?;
        let apart = |other: &Stack| (lab_difference(other.lab(), after.lab()), after.moved_from(other));
        let mut off = apart(before);
        if look.zones() == [Zone::Edges] {
            let beside = apart(look.shows(area, Zone::Faces).stack()?);
            off = (off.0.min(beside.0), off.1.min(beside.1));
        }
        most = most.map_or(Some(off), |so_far: (f64, f64)| Some((off.0.max(so_far.0), off.1.max(so_far.1))));
    }
    most
}
