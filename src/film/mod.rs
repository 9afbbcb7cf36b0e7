//! **The film**: what lies on a model, coat over coat, after every step.
//!
//! Every area has three zones (recesses, faces, edges) with a stack of coats each, and beside them its spots and
//! its decals. Stacks only grow, so one [`Film`] holds the whole history of a scheme, and a [`View`] shows it as
//! it is before or after a step. A film is walked in any order of the steps: that is how a mend is tried out.
//!
//! What the program decides where trade and file format leave it open:
//! - time flows by the hands: a step begins when the hands are free and its areas are ready, that is when the
//!   step before on each of them has dried as its `dry` says, or else as long as this step needs (see [`need`]);
//! - a step on `all` areas leaves out those under a mask (unless all are); a step that names a masked area
//!   reaches it, because then the mask lies on a part of it only;
//! - `basing` without areas stands beside the model and lays nothing on it;
//! - a decal lies on the faces: the next coat that reaches the faces covers it, and so does a varnish on spots;
//! - a coat of one product on an area is even over its zones, except a wash on the whole of it, which gathers in the recesses.

mod appearance;
mod clock;
mod coat;
mod cup;
mod drying;
mod needs;
mod now;
mod turn;
mod view;
mod walk;

pub use appearance::{Appearance, Laying, Shown, lies_as_flecks};
pub use clock::{Link, Rest, beneath};
pub use coat::{Coat, Opacity, What, figure_of as film_figure};
pub use cup::{Cup, Families, strength};
pub use drying::{Air, Drying};
pub use needs::{Bite, Need, Next, Reason, bite, is_gentle, is_soft_mask, need, shuts_in_colour, shuts_in_slow};
pub use now::{OnTop, SurfaceNow, surface_now};
pub use turn::{Deed, Preparation, Turn, Wait};
pub use view::{Layer, View};

use std::sync::{Arc, OnceLock};

use crate::bench::{Bench, Micrometres, Minutes};
use crate::colour::Shelf;
use crate::guide::{Guide, Scheme, Step};
use crate::trade::Zone;

/// What holds for all schemes of a guide: its figures, its air and its paints.
#[derive(Debug, Clone)]
pub struct Conditions {
    /// The figures.
    pub bench: Bench,
    /// How the air of the room slows drying.
    pub air: Air,
    /// The paints as a colour maker sees them.
    pub shelf: Arc<Shelf>,
}

impl Conditions {
    /// The conditions of a guide.
    pub fn of(guide: &Guide) -> Self {
        Self { bench: Bench::of(&guide.bench), air: Air::of(guide.room), shelf: Arc::new(Shelf::of(&guide.paints)) }
    }
}

/// The history of a scheme's film, in one order of its steps.
#[derive(Debug, Clone)]
pub struct Film<'s> {
    scheme: &'s Scheme,
    turns: Vec<Turn>,
    reached: Vec<usize>,
    coats: Vec<Coat<'s>>,
    links: Vec<Link>,
    stacks: Vec<Vec<Laid>>,
    masks: Vec<MaskSpan>,
    appearance: OnceLock<Appearance>,
}

/// A coat in a stack, and how thick it lies there.
#[derive(Debug, Clone, Copy)]
struct Laid {
    coat: usize,
    dry: Micrometres,
}

/// From where to where in the order an area lies under a mask.
#[derive(Debug, Clone, Copy)]
struct MaskSpan {
    area: usize,
    on: usize,
    off: Option<usize>,
}

/// The stacks of one area.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Slot {
    Zone(Zone),
    Spots,
    Decals,
}

impl Slot {
    const COUNT: usize = 5;

    fn index(self, area: usize) -> usize {
        let slot = match self {
            Self::Zone(zone) => zone as usize,
            Self::Spots => 3,
            Self::Decals => 4,
        };
        area * Self::COUNT + slot
    }
}

impl<'s> Film<'s> {
    /// Walks the steps of a scheme in an order, given as positions in its list.
    pub fn walk(scheme: &'s Scheme, order: &[usize], conditions: &Conditions) -> Self {
        walk::walk(scheme, order, conditions)
    }

    /// The scheme.
    pub fn scheme(&self) -> &'s Scheme {
        self.scheme
    }

    /// The turns, in order.
    pub fn turns(&self) -> &[Turn] {
        &self.turns
    }

    /// The turn at a place of the order.
    pub fn turn(&self, position: usize) -> Option<&Turn> {
        self.turns.get(position)
    }

    /// The step at a place of the order.
    pub fn step(&self, position: usize) -> Option<&'s Step> {
        self.scheme.steps.get(self.turns.get(position)?.step)
    }

    /// The areas that the step at a place of the order reached.
    pub fn areas(&self, position: usize) -> &[usize] {
        let range = self.turns.get(position).map(|turn| turn.areas.clone()).unwrap_or_default();
        self.reached.get(range).unwrap_or_default()
    }

    /// The coat that was laid at a place of the order, if one was.
    pub fn coat(&self, position: usize) -> Option<&Coat<'s>> {
        self.coats.get(self.turns.get(position)?.coat?)
    }

    /// All coats, in the order in which they were laid.
    pub fn coats(&self) -> &[Coat<'s>] {
        &self.coats
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
        self.appearance.get_or_init(|| Appearance::of(self, conditions))
    }

    /// The areas that a spray at a place of the order may dust: neither named nor under a mask.
    pub fn dusted(&self, position: usize) -> impl Iterator<Item = usize> {
        let sprays = self.step(position).is_some_and(|step| step.technique.sprays());
        let before = self.before(position);
        let others = if sprays { self.scheme.areas.len() } else { 0 };
        (0..others).filter(move |area| !self.areas(position).contains(area) && before.mask(*area).is_none())
    }

    fn stack(&self, area: usize, slot: Slot) -> &[Laid] {
        self.stacks.get(slot.index(area)).map(Vec::as_slice).unwrap_or_default()
    }

    fn end(&self) -> Minutes {
        self.turns.iter().map(|turn| turn.ends).fold(Minutes::default(), Minutes::max)
    }
}
