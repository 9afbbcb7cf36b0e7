//! What holds for all schemes of a guide.

use std::sync::Arc;

use super::drying::Air;
use crate::bench::Bench;
use crate::colour::Shelf;
use crate::guide::Guide;

/// What holds for all schemes of a guide: its figures, its air and its paints.
#[derive(Debug, Clone)]
pub struct Conditions {
    /// The figures.
    pub bench: Bench,
    /// How the air of the room slows drying.
    pub air: Air,
    /// The paints as a colour maker sees them.
    pub shelf: Arc<Shelf>,
    /// How many armies are planned: they share the time in which better plans are looked for.
    pub armies: usize,
}

impl Conditions {
    /// The conditions of a guide.
    pub fn of(guide: &Guide) -> Self {
        Self {
            bench: Bench::of(&guide.bench),
            air: Air::of(guide.room),
            shelf: Arc::new(Shelf::of(&guide.paints)),
            armies: guide.armies.len(),
        }
    }
}
