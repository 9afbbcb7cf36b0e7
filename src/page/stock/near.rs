//! A paint that comes near another one, and what changes with it.

use serde::Serialize;

use super::shopping::{BottleView, bottles};
use crate::guide::Paint;
use crate::measure::Time;
use crate::nearest::{Aspect, Change, Fact, Near, changes};
use crate::page::Desk;
use crate::page::parts::line::ProductView;

/// A paint near the one that the page is about.
#[derive(Debug, Serialize)]
pub struct NearView {
    /// The paint.
    pub product: ProductView,
    /// How far off its colour is (CIEDE2000), with one decimal; nothing where the two only do the same work.
    pub delta_e: Option<String>,
    /// How far that may be off, in nine cases of ten.
    pub off: Option<String>,
    /// The same in words; words below `near.alike`.
    pub alike: Option<&'static str>,
    /// What changes, the weightiest first.
    pub changes: Vec<ChangeView>,
}

/// One thing that changes.
#[derive(Debug, Serialize)]
pub struct ChangeView {
    /// What it is; labels below `paint`, and below it the words of `family`, `sheen` and `hiding`.
    pub aspect: &'static str,
    /// How it was.
    pub from: FactView,
    /// How it is with the new paint.
    pub to: FactView,
    /// Codes of the data sheet that the new paint adds.
    pub codes: Vec<String>,
    /// Where the sizes or prices differ: those of the new paint.
    pub bottles: Vec<BottleView>,
}

/// One side of a change; all empty where the author does not say.
#[derive(Debug, Serialize, Default)]
pub struct FactView {
    /// A word of the trade.
    pub word: Option<&'static str>,
    /// A wait in seconds.
    pub seconds: Option<u32>,
    /// Whether it may be sprayed.
    pub may_spray: Option<bool>,
}

impl NearView {
    /// A paint near another, on the page at `path`.
    pub(in crate::page) fn of(desk: Desk<'_>, path: &str, paint: &Paint, near: &Near) -> Self {
        let view = |change: &Change| ChangeView {
            aspect: change.aspect.name(),
            from: FactView::of(&change.from),
            to: FactView::of(&change.to),
            codes: change.added_codes().into_iter().map(str::to_owned).collect(),
            bottles: if change.aspect == Aspect::Bottles { bottles(&near.paint) } else { Vec::new() },
        };
        Self {
            product: ProductView::of(desk, path, &near.paint),
            delta_e: near.delta_e().map(|delta_e| format!("{delta_e:.1}")),
            off: near.apart.map(|apart| format!("{:.0}", apart.off.nine_in_ten)),
            alike: near.alike().map(crate::nearest::Alike::name),
            changes: changes(paint, &near.paint).iter().map(view).collect(),
        }
    }
}

impl FactView {
    fn of(fact: &Fact) -> Self {
        match fact {
            Fact::Word(word) => Self { word: Some(word), ..Self::default() },
            Fact::Wait(wait) => Self { seconds: Some(Time::as_seconds(*wait)), ..Self::default() },
            Fact::MaySpray(may) => Self { may_spray: Some(*may), ..Self::default() },
            Fact::Codes(_) | Fact::Sold(_) | Fact::Untold => Self::default(),
        }
    }
}
