//! The plans of a guide's armies, each made when it is first asked for.

use std::sync::OnceLock;

use crate::film::Conditions;
use crate::guide::Guide;
use crate::plan::{self, Plan};

/// One place for each army; checking a guide asks for none of them.
#[derive(Debug, Default)]
pub(super) struct Plans(Vec<OnceLock<Option<Plan>>>);

impl Plans {
    /// Room for the plans of a guide.
    pub(super) fn of(guide: &Guide) -> Self {
        Self(guide.armies.iter().map(|_| OnceLock::new()).collect())
    }

    /// The plan of the army of a slug, if it has one.
    pub(super) fn get(&self, guide: &Guide, conditions: &Conditions, slug: &str) -> Option<&Plan> {
        let at = guide.armies.iter().position(|army| army.slug == slug)?;
        let army = guide.armies.get(at)?;
        self.0.get(at)?.get_or_init(|| plan::plan(army, conditions)).as_ref()
    }
}
