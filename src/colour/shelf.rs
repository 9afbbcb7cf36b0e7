//! The pigments of all paints of a guide, each worked out when it is first asked for.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use super::pigment::Pigment;
use super::surface::Surface;
use crate::guide::{Paint, Swatch};

/// All paints of a guide under one surface. May be asked from many threads at once.
#[derive(Debug)]
pub struct Shelf {
    surface: Surface,
    places: BTreeMap<String, Arc<Place>>,
}

/// A paint with what was worked out about it.
#[derive(Debug)]
struct Place {
    paint: Arc<Paint>,
    pigment: OnceLock<Option<Pigment>>,
    as_white: OnceLock<Option<Pigment>>,
}

impl Place {
    /// The paints that tints of this one were mixed with, by their ids: its pigment rests on theirs.
    fn whites(&self) -> impl Iterator<Item = &str> {
        self.paint.swatches.iter().filter_map(|swatch| match swatch {
            Swatch::Tint { white, .. } => Some(white.as_str()),
            _ => None,
        })
    }
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
            places: paints.iter().map(|paint| (paint.id.clone(), Arc::new(place(paint)))).collect(),
        }
    }

    /// A shelf of these paints that takes over from this one what was worked out about those that are the same.
    #[must_use]
    pub fn again(&self, paints: &[Arc<Paint>]) -> Self {
        let fresh = Self::of(paints);
        if fresh.surface != self.surface {
            return fresh;
        }
        let is_same = |id: &str| match (self.places.get(id), fresh.places.get(id)) {
            (Some(then), Some(now)) => Arc::ptr_eq(&then.paint, &now.paint),
            (then, now) => then.is_none() && now.is_none(),
        };
        let place = |(id, now): (&String, &Arc<Place>)| {
            let holds = is_same(id) && now.whites().all(is_same);
            (id.clone(), Arc::clone(self.places.get(id).filter(|_| holds).unwrap_or(now)))
        };
        let places = fresh.places.iter().map(place).collect();
        Self { places, ..fresh }
    }

    /// This shelf with another paint in the place of the one with its id, to try what would be.
    #[must_use]
    pub fn with(&self, paint: &Arc<Paint>) -> Self {
        let own = self.places.values().map(|place| &place.paint);
        let paints = own.map(|own| Arc::clone(if own.id == paint.id { paint } else { own }));
        self.again(&paints.collect::<Vec<_>>())
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
