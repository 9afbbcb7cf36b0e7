//! The work of an army: passes over the models, and what must stand on one evening.

use std::ops::Range;

use super::Seconds;
use super::hands::{Changes, Hands, Kit, Tool};

/// All that is to be done.
#[derive(Debug, Clone)]
pub(super) struct Workload {
    /// The passes, unit by unit, each unit's in the order of its steps and coats.
    pub(super) passes: Vec<Pass>,
    /// What one evening holds, in the order of the passes; every pass is in one.
    pub(super) bundles: Vec<Bundle>,
    /// What the passes are done with.
    pub(super) kits: Vec<Kit>,
    /// What changing tools takes.
    pub(super) changes: Changes,
    /// How many models each unit has.
    pub(super) models: Vec<u32>,
}

/// One coat of one step over all models of a unit.
#[derive(Debug, Clone)]
pub(super) struct Pass {
    pub(super) unit: usize,
    pub(super) step: usize,
    /// Which coat, from 1.
    pub(super) coat: u32,
    /// Hands-on time for one model.
    pub(super) each: Seconds,
    /// What it is done with.
    pub(super) kit: usize,
    /// What it follows.
    pub(super) links: Vec<Link>,
    /// How long it dries before the next step.
    pub(super) rest: Seconds,
    /// The bundle it is in.
    pub(super) bundle: usize,
}

/// A model's turn in one pass follows its turn in another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Link {
    /// The other pass.
    pub(super) pass: usize,
    /// How long after its end.
    pub(super) rest: Seconds,
}

/// Passes that one evening holds, for some models or for all.
#[derive(Debug, Clone)]
pub(super) struct Bundle {
    /// The passes, all of one unit.
    pub(super) passes: Range<usize>,
    /// Whether all models are done on that evening.
    pub(super) whole: bool,
}

impl Workload {
    /// What a pass is done with.
    pub(super) fn tool(&self, pass: &Pass) -> Tool {
        self.kits.get(pass.kit).map_or(Tool::Bare, |kit| kit.tool)
    }

    /// How many models a pass goes over.
    pub(super) fn models_of(&self, pass: &Pass) -> u32 {
        self.models.get(pass.unit).copied().unwrap_or_default()
    }

    /// Hands-on time of a pass for all its models.
    pub(super) fn hands_on(&self, pass: &Pass) -> Seconds {
        pass.each * Seconds::from(self.models_of(pass))
    }

    /// The passes of a range.
    pub(super) fn slice(&self, range: &Range<usize>) -> &[Pass] {
        self.passes.get(range.clone()).unwrap_or_default()
    }

    /// Lays passes of one bundle out for so many models, each as early as may be; `outside` says how long the links out
    /// of it hold a pass up. Gives when each begins, and when the last ends. `starts` is scratch space.
    pub(super) fn lay_out(
        &self,
        range: &Range<usize>,
        models: u32,
        (now, mut hands): (Seconds, Hands),
        starts: &mut Vec<Seconds>,
        outside: impl Fn(&Pass) -> Seconds,
    ) -> Seconds {
        starts.clear();
        let mut free = now;
        for pass in self.slice(range) {
            let tool = self.tool(pass);
            let ready = pass.links.iter().filter_map(|link| {
                let at = link.pass.checked_sub(range.start)?;
                self.follows(pass, *link, *starts.get(at)?, models)
            });
            let change = hands.change(pass.kit, tool, &self.changes);
            let start = ready.fold((free + change).max(outside(pass)), Seconds::max);
            starts.push(start);
            free = start + pass.each * Seconds::from(models);
            hands = hands.with(pass.kit, tool);
        }
        free
    }

    /// When a pass may begin behind another that began at a moment, both over the same models.
    fn follows(&self, pass: &Pass, link: Link, began: Seconds, models: u32) -> Option<Seconds> {
        let other = self.passes.get(link.pass)?;
        let lag = other.each.saturating_sub(pass.each) * Seconds::from(models.saturating_sub(1));
        Some(began + other.each + link.rest + lag)
    }

    /// How long passes of one bundle take for so many models on an evening of their own: with setting up, cleaning and waiting.
    pub(super) fn span(&self, range: &Range<usize>, models: u32) -> Seconds {
        let end = self.lay_out(range, models, (0, Hands::default()), &mut Vec::new(), |_| 0);
        end + if self.sprays(range) { self.changes.strip } else { 0 }
    }

    /// Whether an airbrush is in it.
    pub(super) fn sprays(&self, range: &Range<usize>) -> bool {
        self.slice(range).iter().any(|pass| self.tool(pass) == Tool::Airbrush)
    }

    /// For how many models of their unit passes of one bundle go into a length of time.
    pub(super) fn most_models(&self, range: &Range<usize>, length: Seconds) -> u32 {
        let all = self.slice(range).first().map_or(0, |pass| self.models_of(pass));
        let (mut fit, mut too_many) = (0, all + 1);
        while fit + 1 < too_many {
            let middle = fit + (too_many - fit) / 2;
            if self.span(range, middle) <= length { fit = middle } else { too_many = middle }
        }
        fit
    }
}
