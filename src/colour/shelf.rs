//! The pigments of all paints of a guide, each worked out when it is first asked for.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use super::pigment::Pigment;
use super::surface::Surface;
use crate::guide::Paint;

/// All paints of a guide under one surface. May be asked from many threads at once.
#[derive(Debug)]
pub struct Shelf {
    surface: Surface,
    places: BTreeMap<String, Place>,
}

/// A paint with what was worked out about it.
#[derive(Debug)]
struct Place {
    paint: Arc<Paint>,
    pigment: OnceLock<Option<Pigment>>,
    as_white: OnceLock<Option<Pigment>>,
}

impl Shelf {
    /// A shelf of these paints; nothing is worked out yet.
    pub fn of(paints: &[Arc<Paint>]) -> Self {
        let place = |paint: &Arc<Paint>| Place {
            paint: Arc::clone(paint),
            pigment: OnceLock::new(),
            as_white: OnceLock::new(),
        };
        Self {
            surface: Surface::of(paints.iter().map(Arc::as_ref)),
            places: paints.iter().map(|paint| (paint.id.clone(), place(paint))).collect(),
        }
    }

    /// The skin of these paints.
    pub fn surface(&self) -> Surface {
        self.surface
    }

    /// The pigment of a paint, by its id; `None` where its colour is unknown.
    pub fn pigment(&self, id: &str) -> Option<&Pigment> {
        let place = self.places.get(id)?;
        let work_out = || Pigment::of(&place.paint, self.surface, |white| self.white(white).cloned());
        place.pigment.get_or_init(work_out).as_ref()
    }

    /// A white as tints know it: from everything but its own tints, so that two paints may be tinted with each other.
    fn white(&self, id: &str) -> Option<&Pigment> {
        let place = self.places.get(id)?;
        place.as_white.get_or_init(|| Pigment::of(&place.paint, self.surface, |_| None)).as_ref()
    }
}
