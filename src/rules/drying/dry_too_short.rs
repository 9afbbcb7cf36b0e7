//! A coat that is painted over while it is half dry tears under the brush.
//!
//! What other rules say with a longer wait is left to them: decals, varnish on colour, anything on oil and enamel.
//! `dry: 0 min` between two brushed colours of one family is no short wait: they are blended while both are wet.

use super::young::young;
use crate::bench::{Figure, Minutes, Setting};
use crate::film::{Coat, Need, Reason, What};
use crate::measure::Time;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::weathering::enamel_on_unsealed::is_wiped;
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Reach, Stage, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "dry-too-short",
        level: Level::Warning,
        about: "the drying time that a step gives is as long as its paint needs before the next coat there",
        why: "the brush drags up a half-dry film in blotches, and a spray shuts its solvent in",
        group: Group::Drying,
        safety: false,
    },
    example: "'Red' gets 5 min on 'Shell' before 'Light' follows",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let takes_any = |coat: &Coat<'_>| coat.is_dry_powder() || matches!(coat.what, What::Fixer | What::Decal);
    let Some(coat) = look.coat().filter(|coat| !takes_any(coat)) else { return on_base(look, told) };
    let wet = young(look, |under, need, age| {
        let own = need.reason == Reason::Recoat
            || (need.reason == Reason::Spirit && coat.what != What::Varnish && !is_wiped(coat));
        let short = own
            && !takes_any(under)
            && (under.what != What::Powder || under.is_thinned_powder())
            && !is_blended(look, coat, under)
            && !may_lie_thin(look, under, age)
            && age < look.least_under(coat, under).max(least_of_long(look, under, need));
        short.then_some(RULE.check.level)
    });
    let Some(wet) = wet else { return on_base(look, told) };
    told.tell(&RULE, wet.step, Some(coat.step), || {
        let areas = look.area_titles(wet.areas.iter().copied());
        let wait = needed(wet.under.drying.recoat.max(wet.need.time));
        let message = format!(
            "{} gets {} on {areas} before {} follows",
            look.title(wet.under.step),
            rested(wet.age),
            look.own_title()
        );
        let room = look.by_room(wet.under);
        let mend = format!("give it what it needs before it is painted over: 'dry: {wait}'{room}");
        let finding = Finding::new(&RULE.check, look.step_at(wet.step).places.dry, message, mend);
        let finding = look.see(finding, coat.step, "the next coat there");
        match look.slowest(wet.under) {
            Some(place) => finding.see(place, "what needs so long"),
            None => finding,
        }
    });
}

/// The same on the base beside the model, of which the film knows no areas: what lies uppermost there is painted over.
fn on_base(look: &Look<'_>, told: &mut Told) {
    let film = look.film;
    let Some((coat, under)) = film.laid_on_base(look.position).zip(film.top_of_base(look.position)) else { return };
    let scattered = |what: What| matches!(what, What::Powder | What::Fixer | What::Texture);
    let below = look.step_at(under.step);
    // Two sprays over everything meet on the model, and are judged there.
    let own = look.step.is_about_base() || below.is_about_base();
    let age = look.age(under);
    // Glue, paste and powder lie on top of the base: who paints its rim goes past them.
    let past = look.step.reach == Reach::Edges && (scattered(under.what) || below.reach == Reach::Faces);
    let waits = own
        && below.dry.is_some()
        && !past
        && !is_blended(look, coat, under)
        && !scattered(coat.what)
        && under.what != What::Powder;
    if !waits || age >= look.least_under(coat, under) {
        return;
    }
    told.tell(&RULE, under.step, Some(coat.step), || {
        let (title, rest) = (look.title(under.step), rested(age));
        let message = format!("{title} gets {rest} on the base before {} follows", look.own_title());
        let wait = needed(under.drying.recoat.to_be_written());
        let mend = format!("give it what it needs before it is painted over: 'dry: {wait}'{}", look.by_room(under));
        let finding = Finding::new(&RULE.check, look.step_at(under.step).places.dry, message, mend);
        look.see(finding, coat.step, "the next coat there")
    });
}

/// The least of a rest that is longer than until the next coat: less than half of it is surely too short.
fn least_of_long(look: &Look<'_>, under: &Coat<'_>, need: Need) -> Minutes {
    let half = need.time.times(look.conditions.bench.get(Figure::SurelyTooShort));
    if need.reason == Reason::Recoat && half > under.drying.recoat { half } else { Minutes::default() }
}

/// Whether two brushed colours of one family are worked into one another: the author gives the lower one no time.
fn is_blended(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    let brushed = |coat: &Coat<'_>| {
        matches!(coat.technique, Technique::Brush | Technique::Stipple)
            && matches!(coat.what, What::Colour | What::Shade | What::Tint)
    };
    let at_once = look.step_at(under.step).dry.is_some_and(|dry| dry == Time::default());
    at_once && brushed(coat) && brushed(under) && coat.cup.family() == under.cup.family()
}

/// Whether a shade of paint that is drawn out may lie thin: that it floods its area is only assumed where the author says
/// nothing of it.
fn may_lie_thin(look: &Look<'_>, under: &Coat<'_>, age: Minutes) -> bool {
    let bench = &look.conditions.bench;
    let [_, recoat, ..] = bench.times(Setting::WaterThin, false);
    under.stage == Stage::Shade
        && look.step_at(under.step).places.reach.is_none()
        && under.cup.kind() == Some(Kind::Paint)
        && 1.0 - under.cup.coloured >= bench.get(Figure::ThinFromThinner)
        && age.0 >= recoat * bench.get(Figure::SurelyTooShort)
}
