//! What a rule may look at beyond the scheme: all that a scheme's findings depend on stands here.

use std::cell::Cell;
use std::sync::Arc;

use crate::guide::{Guide, HouseOrder, Paint, Room, Scheme};

/// The guide as the rules for one scheme see it.
#[derive(Debug)]
pub struct Surroundings<'a> {
    /// The author's own ordering rules.
    pub house_order: &'a [HouseOrder],
    /// The air where it is painted.
    pub room: Room,
    /// How many models of the scheme the guide's armies hold.
    pub models: u32,
    stock: &'a [Arc<Paint>],
    looked_at_stock: Cell<bool>,
}

impl<'a> Surroundings<'a> {
    /// The surroundings of a scheme of which the armies hold so many models.
    pub fn new(guide: &'a Guide, models: u32) -> Self {
        let Guide { house_order, room, paints, .. } = guide;
        Self { house_order, room: *room, models, stock: paints, looked_at_stock: Cell::new(false) }
    }

    /// The surroundings of a scheme.
    pub fn of(guide: &'a Guide, scheme: &Scheme) -> Self {
        let units = guide.armies.iter().flat_map(|army| &army.units);
        let own = units.filter(|unit| unit.scheme.slug == scheme.slug);
        Self::new(guide, own.fold(0, |sum, unit| sum.saturating_add(unit.models)))
    }

    /// All paints of the guide, to name one that would do better. A scheme that asks for them is worked again when any
    /// of them changes.
    pub fn stock(&self) -> &'a [Arc<Paint>] {
        self.looked_at_stock.set(true);
        self.stock
    }

    /// All paints of the guide, if a rule asked for them.
    pub fn stock_that_was_looked_at(&self) -> Option<&'a [Arc<Paint>]> {
        self.looked_at_stock.get().then_some(self.stock)
    }

    /// Whether the guide's paints are these very ones.
    pub fn has_stock(&self, stock: &[Arc<Paint>]) -> bool {
        self.stock.len() == stock.len() && self.stock.iter().zip(stock).all(|(one, other)| Arc::ptr_eq(one, other))
    }
}
