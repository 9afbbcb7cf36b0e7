//! **The film**: what lies on a model, coat over coat, after every step.
//!
//! Every area has three zones (recesses, faces, edges) with a stack of coats each, and beside them its spots and
//! its decals. Stacks only grow, so one [`Film`] holds the whole history of a scheme, and a [`View`] shows it as
//! it is before or after a step. A film is walked in any order of the steps: that is how a mend is tried out.
//!
//! What the program decides where trade and file format leave it open:
//! - time flows by the hands: a step begins when the hands are free and its areas are ready, that is when the
//!   step before on each of them has dried as its `dry` says, or else as long as this step needs (see [`need`]);
//! - a step on `all` areas leaves out those under a mask (unless all are, or the mask `covers` a part of them); a step
//!   that names a masked area reaches it: what the mask leaves free, where its author says how much it covers, and
//!   otherwise all of it, because then the mask keeps something small on it;
//! - only a brush keeps to its zones: what is sprayed or wiped lies where its step says, but touches all zones, so that waits
//!   and solvents count there ([`touched`]);
//! - `basing` without areas stands beside the model and lays nothing on it;
//! - a decal lies on the faces: the next coat that reaches the faces covers it, and so does a varnish on spots;
//! - a coat of one product on an area is even over its zones, except a wash on the whole of it, which gathers in the recesses.

mod appearance;
mod clock;
mod coat;
mod conditions;
mod cup;
mod drying;
mod history;
mod needs;
mod now;
mod patches;
mod shown;
mod turn;
mod view;
mod walk;
mod what;

pub use appearance::lies_as_flecks;
pub use clock::{beneath, touched};
pub use coat::{Coat, aimed_share, figure_of as film_figure};
pub use conditions::Conditions;
pub use cup::{Cup, strength};
pub use drying::{Air, Drying};
pub use history::{Film, Link};
pub(crate) use needs::is_wiped;
pub use needs::{Need, Next, Reason, is_soft_mask, need};
pub use now::{OnTop, SurfaceNow, sheen, surface_now};
pub use patches::{Cell, Patch};
pub use shown::{Appearance, Laying, Shown};
pub use turn::{Deed, Preparation, Turn, Wait};
pub use view::{Layer, View};
pub use what::{Opacity, What};

use crate::bench::{Bench, Figure};
use crate::guide::Scheme;
use crate::trade::{Stage, Zone};

impl<'s> Film<'s> {
    /// Walks the steps of a scheme in an order, given as positions in its list.
    pub fn walk(scheme: &'s Scheme, order: &[usize], conditions: &Conditions) -> Self {
        walk::walk(scheme, order, conditions)
    }

    /// Everything that lies on the model when the step at a place of the order begins.
    pub fn before(&self, position: usize) -> View<'_, 's> {
        let now = self.turns.get(position).map_or_else(|| self.end(), |turn| turn.begins);
        View::new(self, position, now)
    }

    /// Everything that lies on the model when the last coat of the step at a place of the order has been laid.
    pub fn after(&self, position: usize) -> View<'_, 's> {
        let now = self.turns.get(position).map_or_else(|| self.end(), |turn| turn.ends);
        View::new(self, position.saturating_add(1), now)
    }

    /// Everything that lies on the model in the end.
    pub fn finished(&self) -> View<'_, 's> {
        View::new(self, self.turns.len(), self.end())
    }

    /// What one sees of it, predicted when it is first asked for, under the conditions that it was walked under.
    pub fn appearance(&self, conditions: &Conditions) -> &Appearance {
        self.appearance.get_or_init(|| appearance::appearance(self, conditions))
    }

    /// Whether what is laid on an area at a place of the order lies beside a mask that keeps a part of the area.
    pub fn is_beside_mask(&self, position: usize, area: usize) -> bool {
        self.before(position).masks(area).any(|mask| mask.covers.is_some())
    }

    /// The part of an area on which most of that lies: the largest that no mask covers then.
    pub fn beside_mask(&self, position: usize, area: usize, appearance: &Appearance) -> Option<Patch> {
        let before = self.before(position);
        let is_open = |cell: &Cell| !cell.masks.iter().any(|mask| before.lies_under(area, *mask));
        let open = appearance.cells(area).iter().enumerate().filter(|(_, cell)| is_open(cell));
        let largest = open.reduce(|one, other| if other.1.share > one.1.share { other } else { one });
        let side = self.coat(position).and_then(|coat| coat.from);
        let patch = Patch { side, cell: largest.map_or(0, |(cell, _)| cell) };
        self.is_beside_mask(position, area).then_some(patch)
    }

    /// What a zone shows where a coat lies on it, once it is laid.
    pub fn own_look<'a>(&self, coat: &Coat<'_>, (area, zone): (usize, Zone), appearance: &'a Appearance) -> &'a Shown {
        let aimed = coat.from.map(|_| Patch { side: coat.from, cell: 0 });
        match self.beside_mask(coat.position, area, appearance).or(aimed) {
            Some(patch) => appearance.after_on(coat.position, area, zone, patch),
            None => appearance.after(coat.position, area, zone),
        }
    }

    /// Whether an area is still apart from what a step at a place of the order works on: a later one glues it on.
    pub fn is_apart(&self, position: usize, area: usize) -> bool {
        let glues = |at: usize| self.step(at).filter(|step| step.stage == Stage::Assemble && !step.all_over);
        let later = position.saturating_add(1)..self.turns.len();
        later.filter_map(glues).any(|step| {
            step.areas.contains(&area) && !self.areas(position).iter().any(|worked| step.areas.contains(worked))
        })
    }

    /// The areas that a spray at a place of the order may dust: neither named, nor under a mask, shut in or still apart.
    pub fn dusted(&self, position: usize) -> impl Iterator<Item = usize> {
        let sprays = self.step(position).is_some_and(|step| step.technique.sprays());
        self.beside(position).take(if sprays { usize::MAX } else { 0 })
    }

    /// The areas beside those of the step at a place of the order that lie open on the same part of the model.
    pub fn beside(&self, position: usize) -> impl Iterator<Item = usize> {
        let before = self.before(position);
        let open = move |area: &usize| before.mask(*area).is_none() && before.shut_in(*area).is_none();
        (0..self.scheme.areas.len())
            .filter(move |area| !self.areas(position).contains(area) && open(area) && !self.is_apart(position, *area))
    }

    /// Whether the step at a place of the order drybrushes so much of the model, its base left out, that it dusts what is
    /// beside that.
    pub fn dusts_beside(&self, position: usize, bench: &Bench) -> bool {
        let areas = self.areas(position).iter().filter_map(|area| self.scheme.areas.get(*area));
        let shares = areas.filter(|area| !area.is_base()).filter_map(|area| area.share);
        let share: f64 = shares.map(|share| share.as_fraction().as_f64()).sum();
        self.coat(position).is_some_and(Coat::dusts) && share >= bench.get(Figure::DrybrushDustsFrom)
    }
}
