//! The paints of a guide as somebody sees them who looks for one that would do: what was looked at is noted.

use std::cell::Cell;
use std::sync::Arc;

use super::{Guide, Paint};
use crate::trade::Kind;

/// All paints of a guide.
///
/// Work on a scheme that rests on other paints than those of its own mixes has to be done again when they change. So
/// they are reached only from here, and [`Self::seen`] tells which they were.
#[derive(Debug)]
pub struct Stock<'a> {
    paints: &'a [Arc<Paint>],
    looked_at_all: Cell<bool>,
    /// The kinds that were looked at, a bit each.
    kinds: Cell<u64>,
}

/// What was seen of a stock.
#[derive(Debug, Clone, Default)]
pub struct Seen {
    all: Option<Vec<Arc<Paint>>>,
    kinds: Vec<(Kind, Vec<Arc<Paint>>)>,
}

impl<'a> Stock<'a> {
    /// The stock of a guide, of which nothing was looked at yet.
    pub fn of(guide: &'a Guide) -> Self {
        Self { paints: &guide.paints, looked_at_all: Cell::new(false), kinds: Cell::new(0) }
    }

    /// All paints.
    pub fn all(&self) -> &'a [Arc<Paint>] {
        self.looked_at_all.set(true);
        self.paints
    }

    /// The products of one kind, in the guide's order.
    pub fn of_kind(&self, kind: Kind) -> impl Iterator<Item = &'a Arc<Paint>> + use<'a> {
        self.kinds.set(self.kinds.get() | bit(kind));
        of_kind(self.paints, kind)
    }

    /// What was looked at so far.
    pub fn seen(&self) -> Seen {
        let kinds = Kind::ALL.iter().copied().filter(|kind| self.kinds.get() & bit(*kind) != 0);
        Seen {
            all: self.looked_at_all.get().then(|| self.paints.to_vec()),
            kinds: kinds.map(|kind| (kind, of_kind(self.paints, kind).cloned().collect())).collect(),
        }
    }

    /// Whether whoever saw that would see the same here.
    pub fn shows(&self, seen: &Seen) -> bool {
        seen.all.as_ref().is_none_or(|all| are_same(all, self.paints.iter()))
            && seen.kinds.iter().all(|(kind, paints)| are_same(paints, of_kind(self.paints, *kind)))
    }
}

fn of_kind(paints: &[Arc<Paint>], kind: Kind) -> impl Iterator<Item = &Arc<Paint>> {
    paints.iter().filter(move |paint| paint.kind == kind)
}

fn are_same<'a>(then: &[Arc<Paint>], mut now: impl Iterator<Item = &'a Arc<Paint>>) -> bool {
    then.iter().all(|paint| now.next().is_some_and(|other| Arc::ptr_eq(paint, other))) && now.next().is_none()
}

fn bit(kind: Kind) -> u64 {
    1 << (kind as u32)
}
