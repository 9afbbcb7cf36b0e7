//! Too much water leaves too little binder: the film is weak, and the colour runs into pools.

use crate::bench::Figure;
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind, Stage, Technique, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "over-thinned",
        level: Level::Warning,
        about: "water-based paint keeps about half of what is in the cup, unless a medium makes up for it",
        why: "a film with too little binder runs off edges, dries in rings, and rubs off under the next brush",
        group: Group::Chemistry,
        safety: false,
    },
    example: "67 % of the mix of 'Red' is thinner",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| needs_binder(coat)) else { return };
    // A glaze is drawn out off a wiped brush or built up in mists, at one to six and more.
    let is_glaze = coat.stage == Stage::Glaze;
    let is_filter = coat.cup.thinner >= look.conditions.bench.get(Figure::FilterFromThinner);
    let most = match coat.stage {
        // What is wiped off a heavy drybrush is no wash.
        _ if coat.technique == Technique::Drybrush => Figure::ThinnerBrushed,
        Stage::Glaze | Stage::Layer | Stage::Highlight | Stage::Preshade | Stage::Detail => Figure::ThinnerInALayer,
        _ if coat.technique.sprays() => Figure::ThinnerSprayed,
        _ => Figure::ThinnerBrushed,
    };
    let most = look.conditions.bench.get(most);
    let bound = look.step.mix.parts.iter().any(|part| part.paint.kind == Kind::Medium);
    let is_drybrush = coat.technique == Technique::Drybrush && !coat.overbrushed;
    let is_wet = coat.cup.thinner >= WET_DRYBRUSH - f64::EPSILON;
    if is_drybrush && is_wet && !bound && !is_glaze && !is_drunk(look) {
        return runs_off_the_bristles(look, coat, told);
    }
    if bound || is_glaze || is_drunk(look) || coat.cup.thinner <= most || (coat.stage == Stage::Glaze && is_filter) {
        return;
    }
    told.tell(&RULE, look.index, None, || {
        let share = (coat.cup.thinner * 100.0).round();
        let message = format!("{share} % of the mix of {} is thinner", look.own_title());
        let mend =
            format!("let no more than {:.0} % be thinner, or put a medium in the place of some of it", most * 100.0);
        // A mist dries before it can run, and holds on what was sprayed beneath it.
        let misted = coat.technique.sprays() && coat.cup.thinner <= look.conditions.bench.get(Figure::ThinnerMisted);
        let level = if misted { Level::Note } else { RULE.check.level };
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend).at(level);
        let thinner = look.step.mix.parts.iter().find(|part| part.paint.kind == Kind::Thinner);
        thinner.map_or(finding.clone(), |part| finding.see(part.place, "the thinner"))
    });
}

/// From this share of thinner on a drybrush is wet. Own estimate: a painter wipes off most of what is in the bristles, and
/// what is left must not flow.
const WET_DRYBRUSH: f64 = 1.0 / 3.0;

/// A drybrush takes paint as it comes: thinned, it runs into the recesses that it was to leave.
fn runs_off_the_bristles(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) {
    let wash = coat.cup.thinner > look.conditions.bench.get(Figure::ThinnerBrushed);
    told.tell(&RULE, look.index, None, || {
        let share = (coat.cup.thinner * 100.0).round();
        let message =
            format!("{share} % of the mix of {} is thinner, and a drybrush wants hardly any", look.own_title());
        let mend = "use the paint as it comes, and wipe the brush until it leaves next to nothing on paper";
        let level = if wash { RULE.check.level } else { Level::Note };
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend).at(level);
        let thinner = look.step.mix.parts.iter().find(|part| part.paint.kind == Kind::Thinner);
        thinner.map_or(finding.clone(), |part| finding.see(part.place, "the thinner"))
    });
}

/// Whether a coat is an ordinary water-based film that has to hold by itself.
fn needs_binder(coat: &Coat<'_>) -> bool {
    let is_paint = matches!(coat.cup.kind(), Some(Kind::Paint | Kind::Metal | Kind::Primer | Kind::Varnish));
    // What a sponge dabs on is a stain in blotches, and wants to run out at its edges.
    let dabbed = matches!(coat.technique, Technique::Sponge | Technique::Stipple);
    coat.cup.family() == Family::Water
        && is_paint
        && !dabbed
        && !matches!(coat.stage, Stage::Prepare | Stage::Assemble)
        && !coat.stage.weathers()
}

/// Whether it soaks into plaster, card or wood that nothing closes: the ground holds its pigment, as it holds a stain.
fn is_drunk(look: &Look<'_>) -> bool {
    let before = look.before();
    let closes = |coat: &Coat<'_>| coat.what == What::Ground || coat.is_clear_film();
    let open = |area: &usize| Zone::ALL.iter().all(|zone| !before.coats(*area, *zone).any(closes));
    look.materials().drink() && look.areas().iter().all(open)
}
