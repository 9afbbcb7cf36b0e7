//! One army: its units, its evenings, its cupboard.

use serde::Serialize;

use super::plan_view::{self, PlanView};
use crate::guide::{Army, EveningDay, Thing};
use crate::measure::exact;
use crate::page::parts::address::{Address, relative};
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::{LinkView, ProductView};
use crate::page::parts::picture::PictureView;
use crate::page::schemes::areas::{AreaView, areas};
use crate::page::schemes::drawn;
use crate::page::{Desk, Page, View};
use crate::plan::{self, Effort};
use crate::source::Have;
use crate::tell::plan::planned::{Planned, whole_minutes};

/// One army.
#[derive(Debug, Serialize)]
pub struct ArmyView {
    /// The frame around it: head, navigation and foot.
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
    /// The plan, where the army has one.
    pub plan: Option<PlanView>,
    /// Hands-on seconds of all models.
    pub hands_on: u64,
    /// The steps whose minutes are the usual ones of their stage.
    pub assumed: Vec<String>,
    /// Its grid to tick off.
    pub tick_grid: String,
    /// What is already in the cupboard.
    pub have: Vec<HaveView>,
    /// Its shopping list.
    pub shopping: String,
}

/// One unit.
#[derive(Debug, Serialize)]
pub struct UnitView {
    /// The letter by which the plan names it; empty where there is only one.
    pub mark: String,
    /// The scheme it is painted in.
    pub scheme: LinkView,
    /// The finished model.
    pub photo: Option<PictureView>,
    /// Its areas in their colours, where there is no photo.
    pub areas: Vec<AreaView>,
    /// How many models.
    pub models: u32,
    /// Hands-on seconds for all of them.
    pub hands_on: u64,
}

/// When there is time to paint.
#[derive(Debug, Serialize)]
pub struct EveningsView {
    /// The days of the week with their hours.
    pub days: Vec<EveningDayView>,
    /// The first day.
    pub first: String,
    /// Days off.
    pub not: Vec<String>,
    /// The date by which all is to be ready.
    pub by: Option<String>,
}

/// One day of the week with an evening.
#[derive(Debug, Serialize)]
pub struct EveningDayView {
    /// The day; words below `day`.
    pub day: &'static str,
    /// When its evening begins.
    pub from: String,
    /// How long its evening is, in seconds.
    pub length: u32,
}

impl EveningDayView {
    fn of(hours: &EveningDay) -> Self {
        Self { day: hours.day.name(), from: hours.from.to_string(), length: hours.length.as_seconds() }
    }
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
pub(in crate::page) fn page(desk: Desk<'_>, army: &Army) -> Page {
    let path = Address::of(&Thing::Army(army.slug.clone()));
    let effort = plan::effort(army, &desk.worked.conditions);
    let planned = Planned::of(desk.worked, army).map(|planned| plan_view::view(desk, planned, &path));
    let lines = planned.iter().flat_map(|plan| &plan.evenings).map(|evening| evening.to_do.clone());
    let must_show = lines.chain(planned.iter().map(|plan| plan.cautions.clone()));
    let must_show: Vec<String> = must_show.filter(|text| !text.is_empty()).collect();
    let view = ArmyView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Armies, &army.title, army.summary.as_deref()),
        title: army.title.clone(),
        summary: army.summary.clone(),
        models: army.units.iter().fold(0, |sum, unit| sum.saturating_add(unit.models)),
        units: units(desk, army, &effort, &path),
        hands_on: whole_minutes(effort.hands_on),
        assumed: assumed(army, &effort),
        tick_grid: relative(&path, &Address::tick_grid(&army.slug)),
        plan: planned,
        evenings: army.evenings.as_ref().map(|evenings| EveningsView {
            days: evenings.days.iter().map(EveningDayView::of).collect(),
            first: evenings.first.to_string(),
            not: evenings.not.iter().map(|day| day.value.to_string()).collect(),
            by: evenings.by.as_ref().map(|day| day.value.to_string()),
        }),
        have: have(desk, army, &path),
        shopping: relative(&path, &Address::army_shopping(&army.slug, "html")),
    };
    Page { path, view: View::Army(Box::new(view)), must_show }
}

fn units(desk: Desk<'_>, army: &Army, effort: &Effort, path: &str) -> Vec<UnitView> {
    let units = army.units.iter().enumerate();
    let tones = |slug: &str| desk.worked.scheme(slug).map(areas).unwrap_or_default();
    let drawn = |slug: &str| drawn::finished(desk, desk.worked.scheme(slug)?, path);
    units
        .map(|(at, unit)| {
            let slug = &unit.scheme.slug;
            let photo = PictureView::of(desk, path, unit.scheme.photo.as_ref()).or_else(|| drawn(slug));
            UnitView {
                mark: army.mark(at),
                scheme: LinkView::to(path, &Thing::Scheme(slug.clone()), &unit.scheme.title),
                areas: if photo.is_none() { tones(slug) } else { Vec::new() },
                photo,
                models: unit.models,
                hands_on: whole_minutes(u64::from(effort.of_unit(at).as_seconds())),
            }
        })
        .collect()
}

/// The titles of the steps that do not say how long they take.
fn assumed(army: &Army, effort: &Effort) -> Vec<String> {
    let step = |(unit, step): &(usize, usize)| army.units.get(*unit)?.scheme.steps.get(*step);
    let mut titles: Vec<String> = effort.assumed.iter().filter_map(step).map(|step| step.title.clone()).collect();
    titles.dedup();
    titles
}

fn have(desk: Desk<'_>, army: &Army, path: &str) -> Vec<HaveView> {
    let entries = army.have.iter();
    entries
        .map(|(paint, amount)| {
            let (amount, unit) = match amount {
                Have::Volume(volume) => (exact(volume.0, 1), "ml"),
                Have::Bottles(bottles) => (bottles.to_string(), "bottles"),
                Have::Drops(drops) => (drops.to_string(), "drops"),
            };
            HaveView { product: ProductView::of(desk, path, paint), amount, unit }
        })
        .collect()
}
