//! What a rule may look at beyond the scheme: all that a scheme's findings depend on stands here.

use crate::guide::{Guide, HouseOrder, Room, Scheme, Stock};
use crate::report::Registry;

/// The guide as the rules for one scheme see it.
#[derive(Debug)]
pub struct Surroundings<'a> {
    /// The author's own ordering rules.
    pub house_order: &'a [HouseOrder],
    /// The air where it is painted.
    pub room: Room,
    /// How many models of the scheme the guide's armies hold that are painted at one time.
    pub models: u32,
    /// All paints of the guide, to name one that would do better.
    pub stock: Stock<'a>,
    /// Every check that there is, for waivers that name one.
    pub registry: Registry,
}

impl<'a> Surroundings<'a> {
    /// The surroundings of a scheme of which the armies hold so many models.
    pub fn new(guide: &'a Guide, models: u32, registry: Registry) -> Self {
        Self { house_order: &guide.house_order, room: guide.room, models, stock: Stock::of(guide), registry }
    }

    /// The surroundings of a scheme.
    pub fn of(guide: &'a Guide, scheme: &Scheme, registry: Registry) -> Self {
        let units = guide.armies.iter().flat_map(|army| &army.units);
        let own = units.filter(|unit| unit.scheme.slug == scheme.slug);
        Self::new(guide, own.fold(0, |sum, unit| sum.saturating_add(unit.models)), registry)
    }
}
