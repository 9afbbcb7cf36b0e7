//! What a step finds too young beneath it, where an author wrote the wait. One mistake is one finding: at the last step
//! before it, whatever else lies there. What an author left out the film fills in, and nothing is ever told of that.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, Need, Next, What, beneath, need};
use crate::report::Level;
use crate::rules::Look;
use crate::trade::{Family, Technique};

/// A coat that is too young for a step.
pub(in crate::rules) struct Young<'a> {
    /// The youngest such coat.
    pub(in crate::rules) under: &'a Coat<'a>,
    /// What it needs.
    pub(in crate::rules) need: Need,
    /// What it got.
    pub(in crate::rules) age: Minutes,
    /// How much it matters.
    pub(in crate::rules) level: Level,
    /// Where that coat is.
    pub(in crate::rules) areas: Vec<usize>,
    /// The step whose `dry` is too short, by its place in the scheme's list.
    pub(in crate::rules) step: usize,
}

/// Finds what is too young beneath a step: `judge` says how much it matters that a coat with a need got so much time.
pub(in crate::rules) fn young<'a>(
    look: &Look<'a>,
    judge: impl Fn(&Coat<'_>, Need, Minutes) -> Option<Level>,
) -> Option<Young<'a>> {
    let (before, bench) = (look.before(), &look.conditions.bench);
    let next = Next { deed: look.film.turn(look.position)?.deed, coat: look.coat(), step: look.step };
    let mut found: Option<Young<'a>> = None;
    for area in look.areas() {
        let Some(last) = look.film.written_before(look.position, *area) else { continue };
        for under in beneath(before, *area, &next) {
            let (need, age) = (need(under, &next, bench), look.age(under));
            let Some(level) = judge(under, need, age) else { continue };
            let step = look.film.turn(last).map_or(look.index, |turn| turn.step);
            match &mut found {
                None => found = Some(Young { under, need, age, level, areas: vec![*area], step }),
                Some(known) => known.add(Young { under, need, age, level, areas: vec![*area], step }, look),
            }
        }
    }
    found
}

impl Young<'_> {
    /// Takes in another: the latest coat and the latest step are reported, at the worst level, with the longest need.
    fn add(&mut self, other: Self, look: &Look<'_>) {
        let level = self.level.min(other.level);
        let time = self.need.time.max(other.need.time);
        if look.place_of(other.step) > look.place_of(self.step) {
            self.step = other.step;
        }
        if other.under.position > self.under.position {
            (self.under, self.need, self.age, self.areas) = (other.under, other.need, other.age, other.areas);
        } else if other.under.position == self.under.position {
            self.areas.extend(other.areas.into_iter().filter(|area| !self.areas.contains(area)).collect::<Vec<_>>());
        }
        (self.level, self.need.time) = (level, time);
    }
}

impl Look<'_> {
    /// Where in the order a step stands.
    fn place_of(&self, step: usize) -> usize {
        self.film.turns().iter().position(|turn| turn.step == step).unwrap_or_default()
    }

    /// Whether a wait falls short of a time by more than anybody measures.
    pub(in crate::rules) fn is_short(&self, wait: Minutes, time: Minutes) -> bool {
        wait.0 < time.0 * (1.0 - self.conditions.bench.get(Figure::ShortfallForgiven))
    }

    /// The least time until a coat can be painted over: what a label says, or half of what is usual for its family.
    pub(in crate::rules) fn least_recoat(&self, coat: &Coat<'_>) -> Minutes {
        let bench = &self.conditions.bench;
        let usual = bench.get(Figure::SurelyTooShort);
        let label = 1.0 - bench.get(Figure::ShortfallForgiven);
        coat.drying.recoat.times(if coat.drying.labelled { label } else { usual })
    }

    /// The least time between two mists from an airbrush: they are thin, and follow each other in minutes.
    pub(in crate::rules) fn least_mist(&self, coat: &Coat<'_>) -> Minutes {
        let bench = &self.conditions.bench;
        Minutes(bench.get(Figure::MistRest)).min(coat.drying.recoat).times(bench.get(Figure::SurelyTooShort))
    }

    /// The least time until a coat can be painted over with another: of two airbrushed colours no more than between the
    /// coats of one step.
    pub(in crate::rules) fn least_under(&self, coat: &Coat<'_>, under: &Coat<'_>) -> Minutes {
        if is_mist(coat) && is_mist(under) { self.least_mist(under) } else { self.least_recoat(under) }
    }

    /// Where the product stands that keeps a coat from drying.
    pub(in crate::rules) fn slowest(&self, coat: &Coat<'_>) -> Option<crate::report::Place> {
        let part = self.step_at(coat.step).mix.parts.get(coat.drying.slowest?)?;
        Some(part.paint.place)
    }
}

/// Whether a coat is colour that an airbrush lays and that dries as it lands.
fn is_mist(coat: &Coat<'_>) -> bool {
    coat.technique == Technique::Airbrush
        && matches!(coat.what, What::Colour | What::Shade | What::Tint)
        && !matches!(coat.cup.family(), Family::Enamel | Family::Oil | Family::TwoPack)
}
