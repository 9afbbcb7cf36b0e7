//! Weathering tells a story from the ground up: dirt settles in joints, rain draws it down, dust lies on top.

use super::pigment_under_brush::{drags, loose_powder};
use crate::bench::{Bench, Figure};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Reach, Stage, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "weathering-order",
        level: Level::Note,
        about: "the dark in the joints comes first, streaks after it, and dust last",
        why: "a pin wash is wiped, and the wiping takes streaks along; anything wet that runs over dust leaves tide marks",
        group: Group::Washes,
        safety: false,
    },
    example: "'Grime' comes after 'Rust streaks' on 'Hull'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let bench = &look.conditions.bench;
    let Some((coat, own)) = look.coat().and_then(|coat| Some((coat, Weathering::of(coat, bench)?))) else { return };
    let late: Vec<(usize, &Coat<'_>)> =
        look.areas().iter().filter_map(|area| Some((*area, later_work(look, *area, own)?))).collect();
    let Some((_, over)) = late.first() else { return };
    told.tell(&RULE, coat.step, Some(over.step), || {
        let areas = look.area_titles(late.iter().map(|(area, _)| *area));
        let message = format!("{} comes after {} on {areas}", look.own_title(), look.title(over.step));
        let mend = format!("put it before {}, or shut that in under a varnish first", look.title(over.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, over.step, "what it runs over")
    });
}

/// The layers of weathering, from the lowest up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Weathering {
    PinWash,
    Streaks,
    Dust,
}

impl Weathering {
    /// Which layer the work of a step is. A filter tones the whole surface and may come at any time, and spills over dust.
    fn of(coat: &Coat<'_>, bench: &Bench) -> Option<Self> {
        Self::lying(coat, bench).filter(|own| coat.reach != Reach::Spots || *own != Self::Streaks)
    }

    /// Which layer a coat is that lies there already: streaks in spots are wiped off with a wash that runs over them.
    fn lying(coat: &Coat<'_>, bench: &Bench) -> Option<Self> {
        let on_faces = matches!(coat.reach, Reach::All | Reach::Faces | Reach::Raised | Reach::Spots);
        let slow = matches!(coat.cup.family(), Family::Enamel | Family::Oil);
        let filter = coat.cup.thinner >= bench.get(Figure::FilterFromThinner);
        match (coat.what, coat.stage) {
            (What::Powder, _) => Some(Self::Dust),
            (What::Shade | What::Colour, Stage::PanelWash) => Some(Self::PinWash),
            (What::Shade | What::Colour, Stage::Weather) if on_faces && slow && !filter => Some(Self::Streaks),
            _ => None,
        }
    }
}

/// The open weathering on an area that should have come after this step; powder only where this step wets it.
/// Loose powder under a brush is told by the rule for that.
fn later_work<'a>(look: &Look<'a>, area: usize, own: Weathering) -> Option<&'a Coat<'a>> {
    let (before, bench) = (look.before(), &look.conditions.bench);
    let worked = |zone: Zone| look.zones().contains(&zone);
    let told_elsewhere = |zone: Zone| {
        look.coat().is_some_and(drags) && loose_powder(look.film, before, look.position, (area, zone)).is_some()
    };
    let in_zones = || {
        Zone::ALL.iter().find_map(|zone| {
            let mut open = before.coats(area, *zone).rev().take_while(|coat| !coat.is_clear_film());
            open.find(|coat| match Weathering::lying(coat, bench) {
                Some(Weathering::Dust) => own < Weathering::Dust && worked(*zone) && !told_elsewhere(*zone),
                Some(other) => other > own,
                None => false,
            })
        })
    };
    let shut_in = |coat: &Coat<'_>| {
        before.coats(area, Zone::Faces).any(|over| over.position > coat.position && over.is_clear_film())
    };
    let in_spots = || {
        let mut open = before.spots(area).rev().filter(|coat| coat.what != What::Powder && !shut_in(coat));
        open.find(|coat| Weathering::lying(coat, bench).is_some_and(|other| other > own))
    };
    in_zones().or_else(in_spots)
}
