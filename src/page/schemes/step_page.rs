//! One step, large, for the painting desk.

use serde::Serialize;

use super::recipe::{self, Spot, StepView};
use super::strip::{self, StripStep};
use crate::guide::{Scheme, Thing};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::caution_box;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::{Desk, Page, View};
use crate::shop::usual_models;
use crate::work::WorkedScheme;

/// One step with the way to its neighbours.
#[derive(Debug, Serialize)]
pub struct StepPageView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// The scheme it belongs to, led to its own place there.
    pub scheme: LinkView,
    /// How many steps the scheme has.
    pub count: usize,
    /// All steps of the scheme, for the strip at the top.
    pub strip: Vec<StripStep>,
    /// For how many models the amounts are, until the reader says another number.
    pub models: u32,
    /// The step.
    pub step: StepView,
    /// The step before.
    pub before: Option<NeighbourView>,
    /// The step after.
    pub next: Option<NeighbourView>,
}

/// A neighbouring step.
#[derive(Debug, Serialize)]
pub struct NeighbourView {
    /// Its number.
    pub number: usize,
    /// What it is called.
    pub title: String,
    /// Its page.
    pub href: String,
}

/// The page of the step at a position of a scheme.
pub(in crate::page) fn page(desk: Desk<'_>, worked: &WorkedScheme, at: usize) -> Page {
    let scheme = &worked.scheme;
    let step = &scheme.steps[at];
    let path = address(scheme, at);
    let said = &worked.step_cautions[at];
    let to_do = caution_box::line(&desk.worked.guide, [said]);
    let cautions = caution_box::of_step(&desk.worked.guide, said);
    let models = usual_models(desk.worked, worked);
    let spot = Spot { path: &path, level: 2, whole_scheme: None, models, to_do: &to_do, cautions: &cautions };
    let about = format!("{}: {}", scheme.title, recipe::begun(&step.body));
    let mut back = LinkView::to(&path, &Thing::Scheme(scheme.slug.clone()), &scheme.title);
    back.href = format!("{}#{}", back.href, step.stem);
    let view = StepPageView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Schemes, &step.title, Some(&about)),
        scheme: back,
        count: scheme.steps.len(),
        strip: strip::strip(desk, worked, &path, Some(at)),
        models,
        step: recipe::step(desk, worked, at, spot),
        before: at.checked_sub(1).map(|before| neighbour(scheme, &path, before)),
        next: (at + 1 < scheme.steps.len()).then(|| neighbour(scheme, &path, at + 1)),
    };
    let must_show = [to_do, cautions].into_iter().filter(|text| !text.is_empty()).collect();
    Page { path, view: View::Step(Box::new(view)), must_show }
}

/// Where the step at a position of a scheme stands.
pub(in crate::page) fn address(scheme: &Scheme, at: usize) -> String {
    Address::of(&Thing::Step(scheme.slug.clone(), scheme.steps[at].stem.clone()))
}

fn neighbour(scheme: &Scheme, path: &str, at: usize) -> NeighbourView {
    let step = &scheme.steps[at];
    NeighbourView { number: step.number, title: step.title.clone(), href: relative(path, &address(scheme, at)) }
}
