//! Oil and enamel harden for days; what is laid over them before cracks, slides or never dries.

use super::look::{needed, rested};
use super::{Look, Rule, Told};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::trade::Family;

pub(super) static RULE: Rule = Rule {
    check: Check {
        id: "over-uncured",
        level: Level::Error,
        about: "oil and enamel are left to harden before anything of another family covers them",
        why: "the coat above cuts off the air that oil and enamel need: it cracks and slides, and beneath it stays soft",
        group: Group::Chemistry,
        safety: false,
    },
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat() else { return };
    let before = look.before();
    let soft = look.on_zones(|area, zone| {
        let under = before.coats(area, zone).rfind(|under| under.what != What::Powder)?;
        (is_sealed_soft(coat, under) && before.age(under) < under.drying.safe).then_some(under)
    });
    let Some((_, under)) = soft.first() else { return };
    told.tell(under.step, Some(coat.step), || {
        let areas = look.area_titles(soft.iter().map(|(area, _)| *area));
        let age = rested(before.age(under));
        let message = format!("{} covers {} on {areas} after {age}", look.own_title(), look.title(under.step));
        let mend = format!("let it harden: 'dry: {}'", needed(under.drying.safe));
        let finding = Finding::new(&RULE.check, look.step_at(under.step).places.dry, message, mend);
        look.see(finding, coat.step, "what covers it")
    });
}

/// Whether a coat of another family shuts in oil or enamel.
pub(super) fn is_sealed_soft(coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    let slow = |coat: &Coat<'_>| matches!(coat.cup.family(), Family::Enamel | Family::Oil);
    slow(under) && !slow(coat) && !matches!(coat.what, What::Powder | What::Decal | What::Texture)
}
