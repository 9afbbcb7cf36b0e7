//! A strong solvent bites into a weaker film beneath: it lifts, wrinkles or crazes.
//! An undercoat over paint is out of place before its solvent counts, and left to the rule for that.

use super::young::young;
use crate::bench::{Figure, Minutes};
use crate::film::{Coat, Need, Reason, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::needed;
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Reach, Stage, names_mist};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "strong-solvent-over-weak",
        level: Level::Error,
        about: "no strong solvent goes on a film that it dissolves; on water-based paint that has cured a mist may",
        why: "the film under it swells and wrinkles within minutes, and everything on it is lost",
        group: Group::Chemistry,
        safety: false,
    },
    example: "the solvent of 'Hot gloss' (lacquer) bites into 'Rust' (oil) on 'Boards'",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let laid = |coat: &&Coat<'_>| !matches!(coat.what, What::Decal | What::Powder | What::Fixer);
    let Some(coat) = look.coat().filter(laid) else { return };
    let before = look.before();
    let bitten = look.by_step_in(
        look.touched(),
        |area, zone| {
            let under = before.top_film(area, zone)?;
            Some((under, harm(look, coat, under)?))
        },
        |(under, _)| under.step,
    );
    for group in by_harm(&bitten) {
        tell_bitten(look, coat, &group, told);
    }
    let young = young(look, |under, need, age| young_harm(look, coat, under, need, age));
    if !bitten.is_empty() {
        return;
    }
    let Some(young) = young else { return tell_on_decals(look, coat, told) };
    told.tell(&RULE, young.step, Some(coat.step), || {
        let message = message(look, coat, &[(young.under, &young.areas)]);
        let mist = if coat.cup.strongest() == Family::TwoPack { "" } else { ", and spray thin mists" };
        let mend = format!("let it dry longer: 'dry: {}'{mist}", needed(young.need.time));
        let finding = Finding::new(&RULE.check, look.step_at(young.step).places.dry, message, mend).at(young.level);
        look.see(finding, coat.step, "what bites into it")
    });
}

/// Tells of open decals under a lacquer varnish that is laid wet. A first mist or two closes them; what is named as a mist is one.
fn tell_on_decals(look: &Look<'_>, coat: &Coat<'_>, told: &mut Told) {
    let step = look.step;
    let strong = matches!(coat.cup.strongest(), Family::Lacquer | Family::TwoPack) && !coat.is_solvent_free();
    let instruction = step.body.text.get(step.body.start..).unwrap_or_default();
    let is_mist = || [&step.title, &step.stem, instruction].into_iter().any(names_mist);
    let is_wet = !coat.technique.sprays() || (coat.count > 1 && !is_mist());
    if coat.what != What::Varnish || !strong || !is_wet {
        return;
    }
    let before = look.before();
    let on_area = |area: &usize| Some((*area, before.bare_decals(*area).last()?));
    let open: Vec<(usize, &Coat<'_>)> = look.areas().iter().filter_map(on_area).collect();
    let Some((_, decal)) = open.first() else { return };
    told.tell_with_own_mend(&RULE, coat.step, Some(decal.step), || {
        let areas = look.area_titles(open.iter().map(|(area, _)| *area));
        let (title, strongest) = (look.own_title(), coat.cup.strongest());
        let message = format!("the solvent of {title} ({strongest}) lies wet on {} on {areas}", look.title(decal.step));
        let mend = "lay thin mists first, in a step of their own, or use a water-based product here";
        let finding = Finding::new(&RULE.check, step.places.paints, message, mend).at(Level::Note);
        look.see(finding, decal.step, "the decals")
    });
}

/// What one coat bites into, and where.
type Bitten<'a> = ((&'a Coat<'a>, Harm), Vec<usize>);

/// What is bitten into in one way is one finding, however many steps laid it.
fn by_harm<'b, 'a>(bitten: &'b [Bitten<'a>]) -> Vec<Vec<&'b Bitten<'a>>> {
    let mut groups: Vec<Vec<&Bitten<'a>>> = Vec::new();
    for one in bitten {
        match groups.iter_mut().find(|group| group.iter().all(|known| known.0.1 == one.0.1)) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups
}

fn tell_bitten(look: &Look<'_>, coat: &Coat<'_>, group: &[&Bitten<'_>], told: &mut Told) {
    let Some(((under, harm), _)) = group.first() else { return };
    told.tell_often(&RULE, group.len(), coat.step, Some(under.step), || {
        let mend = match harm {
            Harm::Always if has_cured(look, under) => {
                "use a water-based product here or seal with a water-based varnish that cures first"
            }
            Harm::Always => {
                "let it harden, and use a water-based product here or seal with a water-based varnish that cures first"
            }
            Harm::CuredWash => "try it on scrap first and spray it in thin mists, or use a water-based product here",
            Harm::Drags => "spray it in thin mists, or lay a water-based gloss varnish between and let that cure first",
            Harm::ByBrush(_) => "spray it in thin mists, or use a water-based product here",
        };
        let day = Minutes(look.conditions.bench.get(Figure::SolventAfterWater)).min(under.drying.cured);
        // A mist wants a film that has hardened, too.
        let mend = match harm {
            Harm::ByBrush(_) if look.is_short(look.age(under), day) => {
                format!("let {} dry a day ('dry: {}') and {mend}", look.title(under.step), needed(day))
            }
            _ => mend.to_owned(),
        };
        let films: Vec<(&Coat<'_>, &[usize])> =
            group.iter().map(|((under, _), areas)| (*under, areas.as_slice())).collect();
        let message = message(look, coat, &films);
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend).at(harm.level());
        films.iter().fold(finding, |finding, (under, _)| look.see(finding, under.step, "the weaker film"))
    });
}

fn message(look: &Look<'_>, coat: &Coat<'_>, films: &[(&Coat<'_>, &[usize])]) -> String {
    let into = films.iter().map(|(under, areas)| {
        let areas = look.area_titles(areas.iter().copied());
        format!("{} ({}) on {areas}", look.title(under.step), under.cup.family())
    });
    let into: Vec<String> = into.collect();
    format!("the solvent of {} ({}) bites into {}", look.own_title(), coat.cup.strongest(), into.join(", and into "))
}

/// A thin film of oil or enamel is never taken for hard in less than a week, the longest that painters wait for one
/// before they spray (two to seven days).
const WASH_HARD_AFTER: Minutes = Minutes(7.0 * 24.0 * 60.0);

/// In which way a coat harms the film beneath it, however old that is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Harm {
    Always,
    /// A thin film that has cured: mists mostly go well, and a wet coat wrinkles it.
    CuredWash,
    Drags,
    ByBrush(Level),
}

impl Harm {
    fn level(self) -> Level {
        match self {
            Self::Always => RULE.check.level,
            Self::ByBrush(level) => level,
            Self::CuredWash | Self::Drags => Level::Warning,
        }
    }
}

/// Whether a coat harms the film beneath it however long that rests.
pub(in crate::rules) fn never_goes(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    matches!(harm(look, coat, under), Some(Harm::Always))
}

fn harm(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>) -> Option<Harm> {
    if coat.is_solvent_free() || under.what == What::Resist || is_late_ground(coat, under) {
        return None;
    }
    let (strongest, weak) = (coat.cup.strongest(), under.cup.family());
    if is_enamel_coat(look, under) && coat.stage.weathers() && matches!(strongest, Family::Enamel | Family::Oil) {
        return Some(Harm::Always);
    }
    match (strongest, weak) {
        (Family::Lacquer, Family::Enamel | Family::Oil) if is_cured_wash(look, coat, under) => Some(Harm::CuredWash),
        (Family::Lacquer | Family::TwoPack, Family::Enamel | Family::Oil) => Some(Harm::Always),
        (Family::Alcohol, Family::Oil) if !under.is_thin_oil(&look.conditions.bench) => Some(Harm::Always),
        // What only a thinner brings is told of the thinner, and a ground holds against alcohol.
        (_, Family::Water) if !coat.technique.sprays() => match (coat.cup.family(), under.what) {
            (Family::Lacquer, What::Ground) => Some(Harm::ByBrush(Level::Note)),
            (Family::Alcohol, What::Ground) => None,
            (Family::Alcohol, _) if is_dab(look, coat) => Some(Harm::ByBrush(Level::Note)),
            (Family::Lacquer | Family::Alcohol, _) => Some(Harm::ByBrush(Level::Warning)),
            _ => None,
        },
        // A brush wets metal of its own kind again and drags the flakes along.
        (Family::Alcohol | Family::Lacquer, weak)
            if weak == strongest
                && under.metallic()
                && !coat.technique.sprays()
                && !coat.metallic()
                && !is_dab(look, coat) =>
        {
            Some(Harm::Drags)
        }
        _ => None,
    }
}

/// Whether a film has had the time that it needs to cure.
fn has_cured(look: &Look<'_>, under: &Coat<'_>) -> bool {
    !look.is_short(look.age(under), under.drying.cured)
}

/// Whether a spray goes over a wash, a stain, a filter or streaks that have cured. An army is often dipped and sprayed matt.
fn is_cured_wash(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    let is_thin = under.stage == Stage::Shade || under.lies_thin(&look.conditions.bench);
    coat.technique.sprays() && is_thin && has_cured(look, under) && !look.is_short(look.age(under), WASH_HARD_AFTER)
}

/// A mist over a film that has not hardened: mostly a nuisance, and on a ground, which holds, worth a word.
fn young_harm(look: &Look<'_>, coat: &Coat<'_>, under: &Coat<'_>, need: Need, age: Minutes) -> Option<Level> {
    let spared = under.what == What::Resist || is_late_ground(coat, under);
    let by_brush = !coat.technique.sprays() && strongest_only_thins(coat);
    let least = need.time.times(look.conditions.bench.get(Figure::SolventSafeShare)).max(under.drying.recoat);
    if need.reason != Reason::Solvent || spared || by_brush || !look.is_short(age, least) {
        return None;
    }
    let wet = age < look.least_recoat(under);
    Some(if under.what == What::Ground && !wet { Level::Note } else { Level::Warning })
}

/// Whether it is a dab: a lens, a gem, some spots. It is dry before it has bitten.
fn is_dab(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    let shares = look.areas().iter().filter_map(|area| look.scheme.areas.get(*area)).map(|area| area.share);
    let share: Option<f64> = shares.map(|share| share.map(|share| share.as_fraction().as_f64())).sum();
    coat.reach == Reach::Spots || share.is_some_and(|share| share <= look.conditions.bench.get(Figure::DabUpTo))
}

/// Whether the strong solvent is only what thins a milder paint.
fn strongest_only_thins(coat: &Coat<'_>) -> bool {
    coat.cup.family() != coat.cup.strongest()
}

/// Enamel that was painted on, which white spirit dissolves again. A filter, a wash or a streak is none.
fn is_enamel_coat(look: &Look<'_>, under: &Coat<'_>) -> bool {
    let wash = under.stage.weathers() || under.cup.thinner >= look.conditions.bench.get(Figure::WashFromThinner);
    under.cup.family() == Family::Enamel && matches!(under.what, What::Colour | What::Ground) && !wash
}

fn is_late_ground(coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    coat.stage == Stage::Undercoat
        && coat.is_all_over()
        && !matches!(under.what, What::Ground | What::Filler | What::Texture)
}
