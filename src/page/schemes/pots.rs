//! The pots of a scheme: mixed once, used in several steps.

use serde::Serialize;

use super::recipe::{self, MixView};
use crate::guide::Pot;
use crate::measure::predicted;
use crate::page::Desk;
use crate::page::parts::line::{LinkView, pot_anchor};
use crate::quantity::{PotNeed, PotUse};
use crate::work::WorkedScheme;

/// One pot.
#[derive(Debug, Serialize)]
pub struct PotView {
    /// Its anchor on the scheme's page.
    pub anchor: String,
    /// What it is called.
    pub title: String,
    /// What is in it.
    pub mix: MixView,
    /// Whether it is one lot for all models and steps.
    pub together: bool,
    /// The steps that use it.
    pub steps: Vec<LinkView>,
    /// Predicted millilitres for one model: likely, and as little and as much as, where that is not all one; where the model's
    /// surface is known.
    pub amounts: Option<Vec<String>>,
}

/// The pots on the scheme's page at `path`.
pub(in crate::page) fn pots(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> Vec<PotView> {
    let scheme = &worked.scheme;
    let pot = |pot: &std::sync::Arc<Pot>| PotView {
        anchor: pot_anchor(&pot.id),
        title: pot.title.clone(),
        mix: recipe::mix(desk, (path, &scheme.slug), &pot.mix, None),
        together: pot.together,
        steps: uses(worked, pot)
            .map(|at| &scheme.steps[at])
            .map(|step| LinkView { title: step.title.clone(), href: format!("#{}", step.stem) })
            .collect(),
        amounts: amounts(desk, worked, pot),
    };
    scheme.pots.iter().map(pot).collect()
}

/// The steps that use a pot, by their places.
fn uses<'a>(worked: &'a WorkedScheme, pot: &'a Pot) -> impl Iterator<Item = usize> + 'a {
    let steps = worked.scheme.steps.iter().enumerate();
    steps.filter(|(_, step)| step.mix.pots.iter().any(|poured| poured.pot.id == pot.id)).map(|(at, _)| at)
}

fn amounts(desk: Desk<'_>, worked: &WorkedScheme, pot: &Pot) -> Option<Vec<String>> {
    let of = |at: usize| {
        let (mix, need) = (&worked.scheme.steps[at].mix, worked.needs[at].as_ref()?);
        Some(PotUse { unit: 0, models: 1, share: 1.0, mix, need })
    };
    let uses = uses(worked, pot).map(of).collect::<Option<Vec<_>>>()?;
    let need = PotNeed::of(pot, &uses, &desk.worked.conditions.bench).need;
    let bounds = [need.low, need.high].into_iter().filter(|_| need.is_open());
    Some(std::iter::once(need.likely).chain(bounds).map(|ml| predicted(ml.0)).collect())
}
