//! Rounds of work: armies whose evenings overlap are painted at one time. Thinned paint is not kept from one round to the
//! next, so each has mixes, losses and cleaning of its own.

use std::collections::BTreeMap;

use super::plans::Plans;
use super::worked::Worked;
use crate::film::Conditions;
use crate::guide::{Army, Guide};

/// Whether two armies are painted at one time: the evenings of both overlap, or nobody says when one of them is painted.
pub(super) fn overlap((plans, guide, conditions): (&Plans, &Guide, &Conditions), one: &Army, other: &Army) -> bool {
    if one.slug == other.slug {
        return true;
    }
    let days = |army: &Army| plans.days(guide, conditions, &army.slug);
    match (days(one), days(other)) {
        (Some(one), Some(other)) => one.0 <= other.1 && other.0 <= one.1,
        _ => true,
    }
}

/// Of the armies that have a scheme, those painted at one time that have the most models of it, with how many each has.
fn largest<'a>(having: &[(&'a Army, u32)], overlap: impl Fn(&Army, &Army) -> bool) -> Vec<(&'a Army, u32)> {
    let with = |army: &Army| -> Vec<(&'a Army, u32)> {
        having.iter().copied().filter(|(other, _)| overlap(army, other)).collect()
    };
    let rounds = having.iter().map(|(army, _)| with(army));
    // Of rounds that have as many, the first.
    rounds.rev().max_by_key(|round| sum(round)).unwrap_or_default()
}

fn sum(round: &[(&Army, u32)]) -> u32 {
    round.iter().fold(0, |sum, (_, models)| sum.saturating_add(*models))
}

/// The armies that have each scheme, by its slug, with how many models of it each has.
fn having(guide: &Guide) -> BTreeMap<&str, Vec<(&Army, u32)>> {
    let mut having: BTreeMap<&str, Vec<(&Army, u32)>> = BTreeMap::new();
    for army in &guide.armies {
        for unit in &army.units {
            let armies = having.entry(&unit.scheme.slug).or_default();
            match armies.last_mut().filter(|(last, _)| last.slug == army.slug) {
                Some((_, models)) => *models = models.saturating_add(unit.models),
                None => armies.push((army, unit.models)),
            }
        }
    }
    having
}

/// How many models of each scheme are painted in its largest round, by its slug.
pub(super) fn models<'a>(guide: &'a Guide, conditions: &Conditions, plans: &Plans) -> BTreeMap<&'a str, u32> {
    let largest = |armies: &[(&Army, u32)]| sum(&largest(armies, |a, b| overlap((plans, guide, conditions), a, b)));
    having(guide).into_iter().map(|(slug, armies)| (slug, largest(&armies))).collect()
}

impl Worked {
    /// Whether two armies are painted at one time, as far as anybody says when.
    pub fn overlap(&self, one: &Army, other: &Army) -> bool {
        overlap((&self.plans, &self.guide, &self.conditions), one, other)
    }

    /// Of the armies that have a scheme, those painted at one time that have the most models of it, with how many each has.
    pub fn largest_round(&self, scheme: &str) -> Vec<(&Army, u32)> {
        let of = |army| {
            let army: &Army = army;
            let units = army.units.iter().filter(|unit| unit.scheme.slug == scheme);
            (army, units.fold(0_u32, |sum, unit| sum.saturating_add(unit.models)))
        };
        let having: Vec<(&Army, u32)> = self.guide.armies.iter().map(of).filter(|(_, models)| *models > 0).collect();
        largest(&having, |one, other| self.overlap(one, other))
    }
}
