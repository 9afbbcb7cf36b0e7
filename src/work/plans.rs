//! The plans of a guide's armies, each made when it is first asked for.

use std::sync::OnceLock;

use crate::film::Conditions;
use crate::guide::{Army, Guide};
use crate::measure::Date;
use crate::plan::{self, Plan};

/// One place for each army; checking a guide asks for no plan, and for days only where several armies have one scheme.
#[derive(Debug, Default)]
pub(super) struct Plans(Vec<OfArmy>);

/// What is laid out for an army.
#[derive(Debug, Default)]
struct OfArmy {
    plan: OnceLock<Option<Plan>>,
    days: OnceLock<Option<(Date, Date)>>,
}

impl Plans {
    /// Room for the plans of a guide.
    pub(super) fn of(guide: &Guide) -> Self {
        Self(guide.armies.iter().map(|_| OfArmy::default()).collect())
    }

    /// The plan of the army of a slug, if it has one.
    pub(super) fn get(&self, guide: &Guide, conditions: &Conditions, slug: &str) -> Option<&Plan> {
        let (army, of) = self.army(guide, slug)?;
        of.plan.get_or_init(|| plan::plan(army, conditions)).as_ref()
    }

    /// The days from which to which the army of a slug is at the desk at most, if that can be told.
    pub(super) fn days(&self, guide: &Guide, conditions: &Conditions, slug: &str) -> Option<(Date, Date)> {
        let (army, of) = self.army(guide, slug)?;
        let is_whole = army.units.iter().all(|unit| unit.scheme.whole);
        *of.days.get_or_init(|| plan::days(army, conditions).filter(|_| is_whole))
    }

    fn army<'g>(&self, guide: &'g Guide, slug: &str) -> Option<(&'g Army, &OfArmy)> {
        let at = guide.armies.iter().position(|army| army.slug == slug)?;
        Some((guide.armies.get(at)?, self.0.get(at)?))
    }
}
