//! What is already in the cupboard, in millilitres.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::bench::{Bench, Figure};
use crate::guide::Paint;
use crate::measure::Millilitres;
use crate::source::Have;

/// The products that need not be bought, or not as much of them.
#[derive(Debug, Clone, Default)]
pub struct Cupboard {
    stock: BTreeMap<String, (Arc<Paint>, Millilitres)>,
}

impl Cupboard {
    /// A cupboard with these amounts in it. Of a bottle only the usable share counts, and where a paint is sold in
    /// several sizes it is taken for the smallest; a bottle of a paint without a known size counts for nothing.
    pub fn of(entries: &[(Arc<Paint>, Have)], bench: &Bench) -> Self {
        let mut cupboard = Self::default();
        for (paint, amount) in entries {
            let (_, stands) = cupboard.entry(paint);
            stands.0 += millilitres(paint, *amount, bench).0;
        }
        cupboard
    }

    /// Both lists speak of the same shelf: of what is in both, the larger amount is there.
    pub fn take_over(&mut self, other: &Self) {
        for (paint, amount) in other.stock.values() {
            let (_, stands) = self.entry(paint);
            stands.0 = stands.0.max(amount.0);
        }
    }

    fn entry(&mut self, paint: &Arc<Paint>) -> &mut (Arc<Paint>, Millilitres) {
        self.stock.entry(paint.id.clone()).or_insert_with(|| (Arc::clone(paint), Millilitres(0.0)))
    }

    /// How much of a paint is there.
    pub fn amount(&self, paint: &str) -> Millilitres {
        self.stock.get(paint).map_or(Millilitres(0.0), |(_, amount)| *amount)
    }

    /// All that is there, by id.
    pub fn paints(&self) -> impl Iterator<Item = &Arc<Paint>> {
        self.stock.values().filter(|(_, amount)| amount.0 > 0.0).map(|(paint, _)| paint)
    }
}

fn millilitres(paint: &Paint, amount: Have, bench: &Bench) -> Millilitres {
    match amount {
        Have::Volume(volume) => volume,
        Have::Drops(drops) => Millilitres(drops.as_f64() * bench.drop(paint).0),
        Have::Bottles(bottles) => {
            let smallest = paint.bottles.iter().map(|bottle| bottle.size.0).min_by(f64::total_cmp);
            Millilitres(bottles.as_f64() * smallest.unwrap_or(0.0) * usable(bench))
        }
    }
}

/// The share of a bottle that can be got out of it.
pub(super) fn usable(bench: &Bench) -> f64 {
    bench.get(Figure::BottleUsable).clamp(0.05, 1.0)
}
