//! A thinner that the label does not name, or that the trade advises against: it may work, and it may not.

use super::thinning::{Verdict, better, first_pair, suited_families};
use super::wrong_thinner::made_for;
use crate::guide::Paint;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "doubtful-thinner",
        level: Level::Warning,
        about: "a paint is thinned with what its label names, or with a thinner made for its family",
        why: "the wrong thinner weakens the film, clouds it or makes it string, often only after an hour in the cup",
        group: Group::Chemistry,
        safety: false,
    },
    example: "'Red' thins 'Red' with 'Alcohol', which is for alcohol and not for water",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some((paint, thinner)) = first_pair(look, Verdict::Doubtful) else { return };
    told.tell(&RULE, look.index, None, || {
        let message = format!(
            "{} thins {} with {}, {}",
            look.own_title(),
            wording::quoted(&paint.paint.name),
            wording::quoted(&thinner.paint.name),
            doubt(&paint.paint, &thinner.paint)
        );
        let finding = Finding::new(&RULE.check, thinner.place, message, better(look, &paint.paint));
        finding.see(paint.place, "what it is to thin")
    });
}

/// Why it is doubtful.
fn doubt(paint: &Paint, thinner: &Paint) -> String {
    if thinner.kind == Kind::Cleaner {
        "which is a cleaner".to_owned()
    } else if matches!(paint.family, Family::Enamel | Family::Oil)
        && suited_families(thinner).any(|family| family == Family::Lacquer)
    {
        // It mixes well enough; what suffers is the paint below.
        format!("which is for {} and bites into what lies under it", made_for(thinner))
    } else if paint.thin_with.is_empty() {
        format!("which is for {} and not for {}", made_for(thinner), paint.family)
    } else {
        "which is not among what it is thinned with".to_owned()
    }
}
