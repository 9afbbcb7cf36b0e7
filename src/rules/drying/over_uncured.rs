//! Oil and enamel harden for days; what is laid over them before cracks, slides or never dries.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::Family;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "over-uncured",
        level: Level::Error,
        about: "oil and enamel are left to harden before anything of another family covers them",
        why: "the coat above cuts off the air that oil and enamel need: it cracks and slides, and beneath it stays soft",
        group: Group::Chemistry,
        safety: false,
    },
    example: "'Matt' covers 'Streaks' on 'Boards' after 2 d",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat() else { return };
    let before = look.before();
    let soft = look.by_step(
        |area, zone| {
            let under = before.coats(area, zone).rfind(|under| under.what != What::Powder)?;
            (is_sealed_soft(coat, under) && before.age(under) < least(look, under)).then_some(under)
        },
        |under| under.step,
    );
    for (under, areas) in &soft {
        told.tell(&RULE, under.step, Some(coat.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let age = rested(before.age(under));
            let message = format!("{} covers {} on {areas} after {age}", look.own_title(), look.title(under.step));
            let mend = format!("let it harden: 'dry: {}'", needed(under.drying.safe));
            let finding = Finding::new(&RULE.check, look.step_at(under.step).places.dry, message, mend);
            look.see(finding, coat.step, "what covers it")
        });
    }
}

/// The wait below which a coat is surely soft. A film of oil or a wash is thin: after half of the usual time a quick
/// coat closes over it without harm (a clear over a wash after 12 to 24 hours, over thin oil after 2 to 7 days).
fn least(look: &Look<'_>, under: &Coat<'_>) -> Minutes {
    let thin = under.cup.family() == Family::Oil || under.stage.weathers();
    let share = if thin { look.conditions.bench.get(Figure::SurelyTooShort) } else { 1.0 };
    under.drying.safe.times(share).max(under.drying.recoat)
}

/// Whether a coat of another family shuts in oil or enamel.
pub(in crate::rules) fn is_sealed_soft(coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    let slow = |coat: &Coat<'_>| matches!(coat.cup.family(), Family::Enamel | Family::Oil);
    slow(under) && !slow(coat) && !matches!(coat.what, What::Powder | What::Decal | What::Texture)
}
