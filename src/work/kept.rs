//! What is kept of the work, so that the next run works only on schemes that changed.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::sitter::Sitting;
use super::worked::WorkedScheme;
use crate::bench::Bench;
use crate::colour::{Shelf, Surface};
use crate::film::{Air, Conditions};
use crate::guide::{Guide, HouseOrder, Paint, Room, Scheme, Seen};
use crate::report::Finding;
use crate::rules::Surroundings;

/// The schemes as they were worked out the last time.
#[derive(Debug, Default)]
pub struct KeptWork {
    shared: Option<Shared>,
    /// The paints of the guide, and what a colour maker sees of them.
    shelf: Option<(Vec<Arc<Paint>>, Arc<Shelf>)>,
    schemes: BTreeMap<String, Arc<KeptScheme>>,
}

/// What the work on every scheme rests on; where it changes, all of them are worked again.
#[derive(Debug, PartialEq)]
struct Shared {
    bench: Bench,
    air: Air,
    surface: Surface,
    house_order: Vec<HouseOrder>,
    room: Room,
}

/// A scheme that was worked out, and what it rests on beside [`Shared`]. The scheme itself is in the work; it is
/// compared by being the same one, and holds its paints.
#[derive(Debug, Clone)]
pub(super) struct KeptScheme {
    /// The work.
    pub(super) worked: Arc<WorkedScheme>,
    /// What was found.
    pub(super) findings: Vec<Finding>,
    models: u32,
    /// The paints of the guide that the work looked at, beside those of the scheme's own mixes.
    seen: Seen,
    /// The shelf that the colours were predicted from. Film and rules ask it for paints of the scheme's own mixes alone.
    shelf: Arc<Shelf>,
}

impl KeptScheme {
    /// The work on a scheme in its conditions and surroundings.
    pub(super) fn new(
        worked: WorkedScheme,
        findings: Vec<Finding>,
        conditions: &Conditions,
        around: &Surroundings<'_>,
    ) -> Self {
        let (models, seen, shelf) = (around.models, around.stock.seen(), Arc::clone(&conditions.shelf));
        Self { worked: Arc::new(worked), findings, models, seen, shelf }
    }

    fn holds(
        &self,
        scheme: &Arc<Scheme>,
        around: &Surroundings<'_>,
        sitting: Sitting<'_>,
        colours: &Arc<Shelf>,
    ) -> bool {
        Arc::ptr_eq(&self.worked.scheme, scheme)
            && self.models == around.models
            && sitting.is_of(&self.worked)
            && around.stock.shows(&self.seen)
            && (Arc::ptr_eq(&self.shelf, colours) || has_same_pigments(scheme, &self.shelf, colours))
    }
}

/// Whether two shelves say the same of every paint in a scheme; a tint's white may have changed, and the tint with it.
fn has_same_pigments(scheme: &Scheme, one: &Shelf, other: &Shelf) -> bool {
    let mut parts = scheme.steps.iter().flat_map(|step| &step.mix.parts);
    parts.all(|part| one.pigment(&part.paint.id) == other.pigment(&part.paint.id))
}

impl KeptWork {
    /// Begins a run; where it rests on something else than the last one, nothing of that holds.
    pub(super) fn begin(&mut self, guide: &Guide) -> Conditions {
        let same = |paints: &[Arc<Paint>]| {
            paints.len() == guide.paints.len()
                && paints.iter().zip(&guide.paints).all(|(one, other)| Arc::ptr_eq(one, other))
        };
        let mut conditions = Conditions::of(guide);
        match &self.shelf {
            Some((paints, known)) if same(paints) => conditions.shelf = Arc::clone(known),
            known => {
                if let Some((_, known)) = known {
                    conditions.shelf = Arc::new(known.again(&guide.paints));
                }
                self.shelf = Some((guide.paints.clone(), Arc::clone(&conditions.shelf)));
            }
        }
        let shared = Shared {
            bench: conditions.bench.clone(),
            air: conditions.air,
            surface: conditions.shelf.surface(),
            house_order: guide.house_order.clone(),
            room: guide.room,
        };
        if self.shared.as_ref() != Some(&shared) {
            self.schemes.clear();
        }
        self.shared = Some(shared);
        conditions
    }

    /// The work on a scheme, if it still holds.
    pub(super) fn of(
        &self,
        scheme: &Arc<Scheme>,
        around: &Surroundings<'_>,
        sitting: Sitting<'_>,
    ) -> Option<Arc<KeptScheme>> {
        let (_, colours) = self.shelf.as_ref()?;
        let known = self.schemes.get(&scheme.slug).filter(|known| known.holds(scheme, around, sitting, colours))?;
        if Arc::ptr_eq(&known.shelf, colours) {
            return Some(Arc::clone(known));
        }
        // An older shelf that says the same is let go.
        Some(Arc::new(KeptScheme { shelf: Arc::clone(colours), ..KeptScheme::clone(known) }))
    }

    /// Keeps the work of a run, and none besides.
    pub(super) fn keep(&mut self, worked: Vec<Arc<KeptScheme>>) {
        self.schemes = worked.into_iter().map(|known| (known.worked.scheme.slug.clone(), known)).collect();
    }
}
