//! One army: its units, its evenings, its cupboard.

use serde::Serialize;

use super::address::{Address, relative};
use super::frame::{Frame, Section};
use super::line::{LinkView, ProductView};
use super::{Desk, Page, View};
use crate::guide::{Army, Thing};
use crate::source::Have;

/// One army.
#[derive(Debug, Serialize)]
pub struct ArmyView {
    /// What stands around it.
    pub frame: Frame,
    /// What it is called.
    pub title: String,
    /// One sentence on it.
    pub summary: Option<String>,
    /// How many models it has.
    pub models: u32,
    /// Its units.
    pub units: Vec<UnitView>,
    /// When there is time to paint.
    pub evenings: Option<EveningsView>,
    /// What already stands in the cupboard.
    pub have: Vec<HaveView>,
    /// Its shopping list.
    pub shopping: String,
}

/// One unit.
#[derive(Debug, Serialize)]
pub struct UnitView {
    /// The scheme it is painted in.
    pub scheme: LinkView,
    /// How many models.
    pub models: u32,
    /// Hands-on seconds for all of them, as far as the steps say.
    pub hands_on: u32,
}

/// When there is time to paint.
#[derive(Debug, Serialize)]
pub struct EveningsView {
    /// The days of the week; words below `day`.
    pub days: Vec<&'static str>,
    /// When an evening begins.
    pub from: String,
    /// How long an evening is, in seconds.
    pub length: u32,
    /// The first day.
    pub first: String,
}

/// Something in the cupboard.
#[derive(Debug, Serialize)]
pub struct HaveView {
    /// The product.
    pub product: ProductView,
    /// How much.
    pub amount: String,
    /// Of what; words below `have`.
    pub unit: &'static str,
}

/// The page of an army.
pub(super) fn page(desk: Desk<'_>, army: &Army) -> Page {
    let path = Address::of(&Thing::Army(army.slug.clone()));
    let view = ArmyView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Armies, &army.title, army.summary.as_deref()),
        title: army.title.clone(),
        summary: army.summary.clone(),
        models: army.units.iter().fold(0, |sum, unit| sum.saturating_add(unit.models)),
        units: units(desk, army, &path),
        evenings: army.evenings.as_ref().map(|evenings| EveningsView {
            days: evenings.days.iter().map(|day| day.name()).collect(),
            from: evenings.from.to_string(),
            length: evenings.length.as_seconds(),
            first: evenings.first.to_string(),
        }),
        have: have(army, &path),
        shopping: relative(&path, &Address::army_shopping(&army.slug, "html")),
    };
    Page { path, view: View::Army(view), must_show: Vec::new() }
}

fn units(desk: Desk<'_>, army: &Army, path: &str) -> Vec<UnitView> {
    let hands_on = |slug: &str| {
        let worked = desk.ledger.scheme(desk.worked, slug);
        worked.map(|worked| worked.glance.hands_on).unwrap_or_default()
    };
    let units = army.units.iter();
    units
        .map(|unit| UnitView {
            scheme: LinkView::to(path, &Thing::Scheme(unit.scheme.slug.clone()), &unit.scheme.title),
            models: unit.models,
            hands_on: hands_on(&unit.scheme.slug).times(unit.models).as_seconds(),
        })
        .collect()
}

fn have(army: &Army, path: &str) -> Vec<HaveView> {
    let entries = army.have.iter();
    entries
        .map(|(paint, amount)| {
            let (amount, unit) = match amount {
                Have::Volume(volume) => (format!("{:.1}", volume.0).trim_end_matches(".0").to_owned(), "ml"),
                Have::Bottles(bottles) => (bottles.to_string(), "bottles"),
                Have::Drops(drops) => (drops.to_string(), "drops"),
            };
            HaveView { product: ProductView::of(path, paint), amount, unit }
        })
        .collect()
}
