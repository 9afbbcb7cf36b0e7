//! What is used up piece by piece: so many for each model, bought in packs.

use rust_decimal::Decimal;

use super::order::Order;
use crate::guide::Tool;
use crate::measure::Money;

/// So many pieces of something.
#[derive(Debug, Clone, PartialEq)]
pub struct Pieces {
    /// How many are needed.
    pub needed: u64,
    /// How many are in a pack; 1 where they are sold singly.
    pub pack: u32,
    /// How many packs that is.
    pub packs: u64,
    /// What they cost; `None` where that is not known.
    pub price: Option<Money>,
}

/// How many models of an order take a tool.
pub(super) fn takers(order: &Order<'_>, tool: &Tool) -> u64 {
    let takes = |steps: &[crate::guide::Step]| steps.iter().flat_map(|step| &step.tools).any(|own| own.id == tool.id);
    let units = order.units.iter().filter(|(worked, _)| takes(&worked.scheme.steps));
    units.map(|(_, models)| u64::from(*models)).sum()
}

/// How many pieces of a tool the models of an order take.
pub(super) fn pieces(order: &Order<'_>, tool: &Tool) -> Option<Pieces> {
    let each = tool.per_model?.as_f64();
    let models = takers(order, tool);
    // Of what is shared by several models a piece is begun, and a third of three is no second one.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of pieces, bounded when read")]
    let needed = (each * models as f64 - 1e-9).ceil().max(0.0) as u64;
    let pack = tool.pack.unwrap_or(1).max(1);
    let packs = needed.div_ceil(u64::from(pack));
    let price = tool.price.and_then(|one| one.0.checked_mul(Decimal::from(packs))).map(Money);
    Some(Pieces { needed, pack, packs, price })
}
