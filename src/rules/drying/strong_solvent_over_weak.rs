//! A strong solvent bites into a weaker film beneath: it lifts, wrinkles or crazes.
//! An undercoat over paint is out of place before its solvent counts, and left to the rule for that.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::needed;
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Stage};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "strong-solvent-over-weak",
        level: Level::Error,
        about: "no strong solvent goes on a film that it dissolves, unless that film is cured and the coat a mist",
        why: "the film beneath swells and wrinkles within minutes, and everything on it is lost",
        group: Group::Chemistry,
        safety: false,
    },
    example: "the solvent of 'Hot gloss' (lacquer) bites into 'Rust' (oil) on 'Boards'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| !matches!(coat.what, What::Decal | What::Powder | What::Fixer)) else {
        return;
    };
    let before = look.before();
    let bitten = look.by_step(
        |area, zone| {
            let under = before.top_film(area, zone)?;
            Some((under, harm(look, coat, under, before.age(under))?))
        },
        |(under, _)| under.step,
    );
    for ((under, harm), areas) in &bitten {
        told.tell(&RULE, coat.step, Some(under.step), || {
            let areas = look.area_titles(areas.iter().copied());
            let (strong, weak) = (coat.cup.strongest(), under.cup.family());
            let message = format!(
                "the solvent of {} ({strong}) bites into {} ({weak}) on {areas}",
                look.own_title(),
                look.title(under.step)
            );
            let mend = match harm {
                Harm::Always => {
                    "use a water-based product here, or seal with a water-based varnish and let that cure first"
                        .to_owned()
                }
                Harm::ByBrush => "spray it in thin mists, or use a water-based product here".to_owned(),
                Harm::Young(rest) => {
                    format!(
                        "let {} dry for at least {} first, then spray thin mists",
                        look.title(under.step),
                        needed(*rest)
                    )
                }
            };
            let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend);
            look.see(finding, under.step, "the weaker film")
        });
    }
}

/// In which way a coat harms the film beneath it.
enum Harm {
    Always,
    ByBrush,
    Young(Minutes),
}

fn harm(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>, age: Minutes) -> Option<Harm> {
    let bench = &look.conditions.bench;
    let young = |rest: Minutes| (age < rest).then_some(Harm::Young(rest));
    let after_water = Minutes(bench.get(Figure::SolventAfterWater)).min(under.drying.cured);
    let washed_off = under.cup.family() == Family::Enamel && matches!(under.what, What::Colour | What::Ground);
    if washed_off && coat.stage.weathers() && matches!(coat.cup.strongest(), Family::Enamel | Family::Oil) {
        return Some(Harm::Always);
    }
    let is_late_ground = coat.stage == Stage::Undercoat
        && coat.is_all_over()
        && !matches!(under.what, What::Ground | What::Filler | What::Texture);
    match (coat.cup.strongest(), under.cup.family()) {
        (_, _) if under.what == What::Resist || is_late_ground => None,
        (Family::Lacquer | Family::TwoPack, Family::Enamel | Family::Oil) | (Family::Alcohol, Family::Oil) => {
            Some(Harm::Always)
        }
        (Family::Alcohol, Family::Enamel) => young(under.drying.safe),
        (Family::Lacquer | Family::TwoPack, Family::Water) if !coat.technique.sprays() => Some(Harm::ByBrush),
        (Family::Lacquer | Family::TwoPack, Family::Water) => young(after_water),
        (Family::Alcohol, Family::Water) => young(after_water.times(bench.get(Figure::SolventSafeShare))),
        _ => None,
    }
}
