//! What is kept of the work, so that the next run works only on schemes that changed.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::WorkedScheme;
use crate::film::Conditions;
use crate::guide::{Guide, HouseOrder, Room, Scheme, Seen};
use crate::report::Finding;
use crate::rules::Surroundings;

/// The schemes as they were worked out the last time.
#[derive(Debug, Default)]
pub struct Kept {
    shared: Option<Shared>,
    schemes: BTreeMap<String, Arc<KeptScheme>>,
}

/// What the work on every scheme rests on; where it changes, all of them are worked again.
#[derive(Debug, PartialEq)]
pub(super) struct Shared {
    conditions: Conditions,
    house_order: Vec<HouseOrder>,
    room: Room,
}

impl Shared {
    /// What a guide's schemes share.
    pub(super) fn of(guide: &Guide) -> Self {
        Self { conditions: Conditions::of(guide), house_order: guide.house_order.clone(), room: guide.room }
    }
}

/// A scheme that was worked out, and what it rests on beside [`Shared`]. The scheme itself stands in the work; it is
/// compared by being the very same one, and holds its paints.
#[derive(Debug)]
pub(super) struct KeptScheme {
    /// The work.
    pub(super) worked: Arc<WorkedScheme>,
    /// What was found.
    pub(super) findings: Vec<Finding>,
    models: u32,
    mesh_area: Option<f64>,
    /// The paints of the guide that the work looked at, beside those of the scheme's own mixes.
    seen: Seen,
}

impl KeptScheme {
    /// The work on a scheme in its surroundings, with the area of its model's mesh.
    pub(super) fn new(
        worked: WorkedScheme,
        findings: Vec<Finding>,
        around: &Surroundings<'_>,
        mesh_area: Option<f64>,
    ) -> Self {
        let (models, seen) = (around.models, around.stock.seen());
        Self { worked: Arc::new(worked), findings, models, mesh_area, seen }
    }

    fn holds(&self, scheme: &Arc<Scheme>, around: &Surroundings<'_>, mesh_area: Option<f64>) -> bool {
        Arc::ptr_eq(&self.worked.scheme, scheme)
            && self.models == around.models
            && self.mesh_area == mesh_area
            && around.stock.shows(&self.seen)
    }
}

impl Kept {
    /// Begins a run; where it rests on something else than the last one, nothing of that holds.
    pub(super) fn begin(&mut self, shared: Shared) -> &Conditions {
        if self.shared.as_ref() != Some(&shared) {
            self.schemes.clear();
        }
        &self.shared.insert(shared).conditions
    }

    /// The work on a scheme, if it still holds.
    pub(super) fn of(
        &self,
        scheme: &Arc<Scheme>,
        around: &Surroundings<'_>,
        mesh_area: Option<f64>,
    ) -> Option<Arc<KeptScheme>> {
        self.schemes.get(&scheme.slug).filter(|known| known.holds(scheme, around, mesh_area)).cloned()
    }

    /// Keeps the work of a run, and none besides.
    pub(super) fn keep(&mut self, worked: Vec<Arc<KeptScheme>>) {
        self.schemes = worked.into_iter().map(|known| (known.worked.scheme.slug.clone(), known)).collect();
    }
}
