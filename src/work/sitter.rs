//! What a scheme's model is drawn on: its mesh, or else a photograph of it bare.

use std::sync::Arc;

use super::WorkedScheme;
use crate::mesh::{Meshes, Shape};
use crate::plate::{Plate, Plates};
use crate::render::Sitter;
use crate::trade::{Stage, Zone};

/// What all models of a guide are drawn on.
#[derive(Debug, Clone, Copy)]
pub struct Sitters<'a> {
    /// Their meshes.
    pub meshes: &'a Meshes,
    /// Photographs of them bare.
    pub plates: &'a Plates,
}

/// What one model is drawn on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sitting<'a> {
    pub(super) shape: Option<&'a Arc<Shape>>,
    pub(super) plate: Option<&'a Arc<Plate>>,
}

impl<'a> Sitters<'a> {
    pub(super) fn of(self, slug: &str) -> Sitting<'a> {
        Sitting { shape: self.meshes.shape(slug), plate: self.plates.plate(slug) }
    }
}

impl Sitting<'_> {
    /// Whether anything of it can be drawn in the colours of areas.
    pub(super) fn has_areas(self) -> bool {
        self.plate.is_some() || self.shape.is_some_and(|shape| shape.has_areas())
    }

    /// Whether a scheme was worked out with the same.
    pub(super) fn is_of(self, worked: &WorkedScheme) -> bool {
        is_same(worked.shape.as_ref(), self.shape) && is_same(worked.plate.as_ref(), self.plate)
    }
}

/// Whether both are the same, or none in either case.
fn is_same<T>(one: Option<&Arc<T>>, other: Option<&Arc<T>>) -> bool {
    match (one, other) {
        (None, None) => true,
        (Some(one), Some(other)) => Arc::ptr_eq(one, other),
        _ => false,
    }
}

impl WorkedScheme {
    /// What its model is drawn on, if it can be drawn.
    pub fn sitter(&self) -> Option<Sitter<'_>> {
        if self.looks.is_empty() {
            return None;
        }
        let shape = self.shape.as_deref().filter(|shape| shape.has_areas());
        let mesh = shape.map(|shape| Sitter::Mesh { shape, view: self.scheme.model.view, turned: false });
        mesh.or_else(|| Some(Sitter::Photo { plate: self.plate.as_deref()?, coat: self.undercoat() }))
    }

    /// The colour of the primed model, in linear light; where nothing primes it, a neutral grey.
    fn undercoat(&self) -> [f32; 3] {
        let primed = self.scheme.steps.iter().position(|step| step.stage == Stage::Undercoat);
        let look =
            primed.and_then(|at| self.looks.get(at)).and_then(|look| look.areas.iter().find(|area| !area.masked));
        look.map_or([0.5; 3], |area| area.zones[Zone::Faces as usize].colour)
    }
}
