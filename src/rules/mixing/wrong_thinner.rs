//! A thinner of another sort does not thin: it makes the paint curdle or separate.

use super::thinning::{Verdict, better, first_pair, suited_families};
use crate::guide::Paint;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "wrong-thinner",
        level: Level::Error,
        about: "a paint is thinned with something that its carrier mixes with",
        why: "the binder falls out in strings or the thinner floats on top; what is in the cup can't be used",
        group: Group::Chemistry,
        safety: false,
    },
    example: "'Red' thins 'Red' (water) with 'Spirit', which is for enamel and oil",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some((paint, thinner)) = first_pair(look, Verdict::Never) else { return };
    told.tell(&RULE, look.index, None, || {
        let message = format!(
            "{} thins {} ({}) with {}, which is for {}",
            look.own_title(),
            wording::quoted(&paint.paint.name),
            paint.paint.family,
            wording::quoted(&thinner.paint.name),
            made_for(&thinner.paint)
        );
        let finding = Finding::new(&RULE.check, thinner.place, message, better(look, &paint.paint));
        finding.see(paint.place, "what it is to thin")
    });
}

/// The families that a thinner is for: `water`, `enamel and oil`.
pub(in crate::rules) fn made_for(thinner: &Paint) -> String {
    let mut families: Vec<&str> = suited_families(thinner).map(crate::trade::Family::name).collect();
    if families.is_empty() {
        families.push(thinner.family.name());
    }
    families.join(" and ")
}
