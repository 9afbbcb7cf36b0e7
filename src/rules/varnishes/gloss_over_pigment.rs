//! A gloss varnish over powder turns dust into wet mud.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::Kind;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "gloss-over-pigment",
        level: Level::Warning,
        about: "no gloss lies over powder",
        why: "dust is dusty because it is matt: under gloss it turns dark and looks wet",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Gloss' lies over the powder of 'Dust' on 'Deck'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let gloss = look.conditions.bench.get(Figure::GlossAbove);
    let Some(coat) = look.coat().filter(|coat| coat.what == What::Varnish && coat.gloss().0 > gloss) else { return };
    let before = look.before();
    // Resin is poured over powder as it is over earth, once that is fixed.
    let is_poured = coat.cup.kind() == Some(Kind::Resin);
    let powder = |area, zone| {
        let open = |coat: &&Coat<'_>| coat.what == What::Powder || (!is_poured && coat.what == What::Fixer);
        let coats = before.coats(area, zone).rev().take_while(open);
        coats.filter(|coat| coat.what == What::Powder).last()
    };
    let dusty: Vec<(usize, &Coat<'_>)> = look.on_zones(powder);
    let Some((_, powder)) = dusty.first() else { return };
    told.tell_with_own_mend(&RULE, coat.step, Some(powder.step), || {
        let areas = look.area_titles(dusty.iter().map(|(area, _)| *area));
        let message = format!("{} lies over the powder of {} on {areas}", look.own_title(), look.title(powder.step));
        let mend = if is_poured {
            format!("fix {} and let it dry before the pour, or the powder floats up in it", look.title(powder.step))
        } else {
            format!("take a matt varnish, leave {areas} out, or put matt over this and the powder on that")
        };
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend);
        look.see(finding, powder.step, "the powder")
    });
}
