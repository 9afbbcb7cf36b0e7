//! A varnish over everything in the middle of the painting protects nothing of what follows, and its sheen is painted over.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Stage};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "varnish-in-between",
        level: Level::Note,
        about: "a varnish over everything waits until the painting is done",
        why: "paint does not hold as well on it, and its sheen is lost where painting goes on",
        group: Group::Varnish,
        safety: false,
    },
    example: "4 steps still paint over 'Matt'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Varnish && look.step.all_over) else { return };
    let later = || look.film.coats().iter().filter(move |later| later.position > coat.position);
    // A seal under decals, oils, washes, glazes or a film for chips is what such a varnish is for.
    if later().any(needs_seal) {
        return;
    }
    let painted = || later().filter(|later| paints(later));
    let paint = u32::try_from(painted().count()).unwrap_or(u32::MAX);
    let much = f64::from(paint) >= look.conditions.bench.get(Figure::PaintAfterVarnish);
    let Some((first, last)) = painted().next().zip(painted().next_back()).filter(|_| much) else { return };
    told.tell(&RULE, coat.step, Some(first.step), || {
        let message = format!("{paint} steps still paint over {}", look.own_title());
        let mend =
            format!("put it after {}, or leave it out if another closes the paint in the end", look.title(last.step));
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, first.step, "the first of them")
    });
}

fn needs_seal(coat: &Coat<'_>) -> bool {
    matches!(coat.what, What::Decal | What::Resist | What::Tint)
        || matches!(coat.stage, Stage::PanelWash | Stage::Weather | Stage::Chip)
        || matches!(coat.cup.family(), Family::Oil | Family::Enamel)
}

fn paints(coat: &Coat<'_>) -> bool {
    matches!(coat.what, What::Colour | What::Shade) && coat.stage != Stage::Detail
}
