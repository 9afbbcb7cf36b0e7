//! What would do in the place of something that has to be bought: from the cupboard, and from the shop where the thing
//! itself is no longer sold.

use std::sync::Arc;

use super::Cupboard;
use crate::guide::Paint;
use crate::measure::Millilitres;
use crate::nearest::{Near, Rack, Wanted};
use crate::trade::Kind;

/// So many are named at most.
const MOST: usize = 3;

/// A paint in the place of another one.
#[derive(Debug, Clone)]
pub struct Substitute {
    /// The paint.
    pub paint: Arc<Paint>,
    /// How much of it is in the cupboard.
    pub have: Millilitres,
    /// How far its colour lies from that of the other (CIEDE2000); `None` where neither has a colour.
    pub delta_e: Option<f64>,
}

/// A cupboard laid out for the search.
pub(super) struct Shelves<'a> {
    cupboard: &'a Cupboard,
    stock: Rack,
    guide: Rack,
}

impl<'a> Shelves<'a> {
    /// The cupboard, if anything is in it.
    pub(super) fn of(cupboard: &'a Cupboard, paints: &[Arc<Paint>]) -> Option<Self> {
        let stock: Vec<Arc<Paint>> = cupboard.paints().cloned().collect();
        (!stock.is_empty()).then(|| Self { cupboard, stock: Rack::of(&stock), guide: Rack::of(paints) })
    }

    /// What would do in the place of a paint: the same carrier, so that no order of work and no wait changes, and a
    /// colour that passes for the other; of a varnish the same sheen, which is all that it is chosen for.
    pub(super) fn in_place_of(&self, paint: &Paint) -> Vec<Substitute> {
        let near = self.stock.nearest(&Wanted::in_place_of(paint, self.guide.look(paint)), MOST);
        let passes = near.into_iter().filter(|near| {
            near.paint.family == paint.family
                && (paint.kind != Kind::Varnish || near.paint.sheen == paint.sheen)
                && !near.is_different()
        });
        passes.map(|near| substitute(near, self.cupboard)).collect()
    }
}

/// What is still sold in the place of a paint that left the market: the nearest, unless that is a different colour.
pub(super) fn still_sold(paint: &Paint, guide: &Rack, cupboard: &Cupboard) -> Option<Substitute> {
    let near = guide.substitutes(&Wanted::in_place_of(paint, guide.look(paint)), 1).into_iter().next()?;
    (!near.is_different()).then(|| substitute(near, cupboard))
}

fn substitute(near: Near, cupboard: &Cupboard) -> Substitute {
    Substitute { have: cupboard.amount(&near.paint.id), delta_e: near.delta_e(), paint: near.paint }
}
