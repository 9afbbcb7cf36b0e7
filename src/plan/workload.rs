//! The work of an army: passes over the models, and what must be on one evening.

use std::ops::Range;

use super::Seconds;
use super::hands::{Change, Changes, Habits, Hands, Kit, Tool};

/// All that is to be done.
#[derive(Debug, Clone)]
pub(super) struct Workload {
    /// The passes, unit by unit, each unit's in the order of its steps and coats.
    pub(super) passes: Vec<Pass>,
    /// What one evening holds, in the order of the passes; every pass is in one.
    pub(super) bundles: Vec<Bundle>,
    /// Bundles of several units that are begun only when all of them can be.
    pub(super) lots: Vec<Vec<usize>>,
    /// Masks that had better not lie over night: the passes that put one on and that take it off.
    pub(super) masks: Vec<(usize, usize)>,
    /// What the passes are done with.
    pub(super) kits: Vec<Kit>,
    /// What changing tools takes.
    pub(super) changes: Changes,
    /// How an evening is used.
    pub(super) habits: Habits,
    /// How often the search for a better plan may look at a bundle, in all.
    pub(super) most_looks: u64,
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
    /// Whether its author wants all models done in one go.
    pub(super) together: bool,
    /// Whether nothing else comes between the pass before it and this one.
    pub(super) unbroken: bool,
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
    /// For how many models the longest evening holds them, where they are to be done in as few runs as that allows;
    /// `None` where any number of models may be done in one go.
    pub(super) run: Option<u32>,
}

impl Bundle {
    /// How many of the models that are left must be done in one go, so that no run more than needed is left behind it.
    pub(super) fn least(&self, left: u32) -> u32 {
        let fits = self.run.unwrap_or(1).max(1);
        let later = if self.run.is_some() { left.div_ceil(fits).saturating_sub(1) * fits } else { left };
        left.saturating_sub(later).max(1)
    }

    /// Whether it is the coats of one step, for as many models as an evening has time for.
    pub(super) fn is_chained(&self) -> bool {
        self.run.is_none() && self.passes.len() > 1
    }
}

impl Workload {
    /// The same with every coat for itself; `None` where no bundle is chained.
    pub(super) fn unchained(&self) -> Option<Self> {
        self.bundles.iter().any(Bundle::is_chained).then_some(())?;
        let mut apart = Self { bundles: Vec::with_capacity(self.passes.len()), ..self.clone() };
        for bundle in &self.bundles {
            let piece = if bundle.is_chained() { 1 } else { bundle.passes.len().max(1) };
            for first in bundle.passes.clone().step_by(piece) {
                let own = apart.bundles.len();
                apart.passes.iter_mut().skip(first).take(piece).for_each(|pass| pass.bundle = own);
                apart.bundles.push(Bundle { passes: first..first + piece, run: bundle.run });
            }
        }
        Some(apart)
    }

    /// The first coat of the step that a pass is a coat of.
    pub(super) fn first_of_step(&self, at: usize) -> usize {
        let coat = self.passes.get(at).and_then(|pass| usize::try_from(pass.coat).ok()).unwrap_or(1);
        at.saturating_sub(coat.saturating_sub(1))
    }

    /// Whether a bundle goes on with what was begun, by how many models each pass has done: coats of a step, its models, or what
    /// is done under a mask.
    pub(super) fn goes_on(&self, bundle: &Bundle, done: &[u32]) -> bool {
        let first = bundle.passes.start;
        let is_begun = |at: usize| done.get(at).is_some_and(|done| *done > 0);
        let masked = |(on, off): &(usize, usize)| *on < first && first <= *off && is_begun(*on);
        is_begun(self.first_of_step(first)) || self.masks.iter().any(masked)
    }

    /// What a pass is done with.
    pub(super) fn tool(&self, pass: &Pass) -> Tool {
        self.kits.get(pass.kit).map_or(Tool::Bare, |kit| kit.tool)
    }

    /// Whether a pass needs nothing that holds paint.
    pub(super) fn is_bare(&self, pass: &Pass) -> bool {
        self.kits.get(pass.kit).is_none_or(|kit| kit.mix.parts.is_empty())
    }

    /// What it takes until the hands can begin a pass.
    pub(super) fn change(&self, hands: Hands, pass: &Pass) -> Change {
        hands.change(pass.kit, &self.kits, &self.changes)
    }

    /// How many models a pass goes over.
    pub(super) fn models_of(&self, pass: &Pass) -> u32 {
        self.models.get(pass.unit).copied().unwrap_or_default()
    }

    /// Hands-on time of a pass for all its models.
    pub(super) fn hands_on(&self, pass: &Pass) -> Seconds {
        pass.each * Seconds::from(self.models_of(pass))
    }

    /// How long hands must wait at the least, over all models, before a pass that nothing comes before.
    pub(super) fn held_up(&self, pass: &Pass) -> Seconds {
        let run = self.bundles.get(pass.bundle).and_then(|bundle| bundle.run).filter(|_| pass.unbroken);
        let Some(fits) = run.map(|fits| fits.clamp(1, self.models_of(pass).max(1))) else { return 0 };
        let ready = pass.links.iter().map(|link| pass.each + link.rest).max().unwrap_or_default();
        let lots = self.models_of(pass).div_ceil(fits);
        ready.saturating_sub(pass.each * Seconds::from(fits)) * Seconds::from(lots)
    }

    /// The least time between two passes over a model: it dries, and where both are done with one hand it takes up the
    /// other kit.
    pub(super) fn way(&self, pass: &Pass, link: Link) -> Seconds {
        let Some(before) = self.passes.get(link.pass).filter(|before| before.kit != pass.kit) else { return link.rest };
        let sprays = self.tool(pass) == Tool::Airbrush;
        let hands = Hands::default().with(before.kit, self.tool(before));
        let one_hand = if sprays { hands.airbrush.is_some() } else { hands.brush.is_some() };
        if one_hand { link.rest.max(self.change(hands, pass).takes()) } else { link.rest }
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
            let ready = pass.links.iter().filter_map(|link| {
                let at = link.pass.checked_sub(range.start)?;
                self.follows(pass, *link, *starts.get(at)?, models)
            });
            let change = self.change(hands, pass).takes();
            let start = ready.fold((free + change).max(outside(pass)), Seconds::max);
            starts.push(start);
            free = start + pass.each * Seconds::from(models);
            hands = hands.with(pass.kit, self.tool(pass));
        }
        free
    }

    /// When passes that were laid out are over and the airbrush is stripped: in the end, or while something dries after
    /// the last spraying.
    pub(super) fn stripped(&self, range: &Range<usize>, models: u32, starts: &[Seconds], end: Seconds) -> Seconds {
        let strip = self.changes.strip;
        let passes = self.slice(range);
        let Some(last) = passes.iter().rposition(|pass| self.tool(pass) == Tool::Airbrush) else { return end + strip };
        let (Some(pass), Some(start)) = (passes.get(last), starts.get(last)) else { return end + strip };
        let sprayed = start + pass.each * Seconds::from(models);
        // The next pass takes up its tool first; what of a gap is left holds the strip, or a part of it.
        let gap = passes
            .get(last + 1)
            .zip(starts.get(last + 1))
            .map_or(0, |(next, start)| start.saturating_sub(sprayed + self.changes.whole(self.tool(next))));
        end + strip.saturating_sub(gap)
    }

    /// When a pass may begin after another that began at a moment, both over the same models.
    fn follows(&self, pass: &Pass, link: Link, began: Seconds, models: u32) -> Option<Seconds> {
        let other = self.passes.get(link.pass)?;
        let lag = other.each.saturating_sub(pass.each) * Seconds::from(models.saturating_sub(1));
        Some(began + other.each + link.rest + lag)
    }

    /// How long passes of one bundle take for so many models on an evening of their own: with setting up, cleaning and waiting.
    pub(super) fn span(&self, range: &Range<usize>, models: u32) -> Seconds {
        let mut starts = Vec::new();
        let end = self.lay_out(range, models, (0, Hands::default()), &mut starts, |_| 0);
        if self.sprays(range) { self.stripped(range, models, &starts, end) } else { end }
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
