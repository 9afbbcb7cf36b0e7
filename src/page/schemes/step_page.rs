//! One step, large, for the painting desk.

use serde::Serialize;

use super::recipe::{self, Spot, StepView};
use crate::guide::{Scheme, Thing};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::caution_box;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::{Desk, Page, View};
use crate::work::WorkedScheme;

/// One step with the way to its neighbours.
#[derive(Debug, Serialize)]
pub struct StepPageView {
    /// What stands around it.
    pub frame: Frame,
    /// The scheme it belongs to, led to its own place there.
    pub scheme: LinkView,
    /// How many steps the scheme has.
    pub count: usize,
    /// All steps of the scheme, for the row of marks at the top.
    pub steps: Vec<MarkView>,
    /// The step.
    pub step: StepView,
    /// The step before.
    pub before: Option<NeighbourView>,
    /// The step after.
    pub next: Option<NeighbourView>,
}

/// A step in the row of marks.
#[derive(Debug, Serialize)]
pub struct MarkView {
    /// Its number.
    pub number: usize,
    /// What it is called.
    pub title: String,
    /// Its page.
    pub href: String,
    /// Whether it is before, at, or after this one: `past`, `here` or `ahead`.
    pub state: &'static str,
    /// Whether every model is done in one go.
    pub together: bool,
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
    let spot = Spot { path: &path, level: 2, whole_scheme: false, to_do: &to_do, cautions: &cautions };
    let mut back = LinkView::to(&path, &Thing::Scheme(scheme.slug.clone()), &scheme.title);
    back.href = format!("{}#{}", back.href, step.stem);
    let view = StepPageView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Schemes, &step.title, Some(&scheme.title)),
        scheme: back,
        count: scheme.steps.len(),
        steps: (0..scheme.steps.len()).map(|other| mark(scheme, &path, other, at)).collect(),
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

fn mark(scheme: &Scheme, path: &str, at: usize, here: usize) -> MarkView {
    let state = match at.cmp(&here) {
        std::cmp::Ordering::Less => "past",
        std::cmp::Ordering::Equal => "here",
        std::cmp::Ordering::Greater => "ahead",
    };
    let NeighbourView { number, title, href } = neighbour(scheme, path, at);
    MarkView { number, title, href, state, together: scheme.steps[at].together }
}

fn neighbour(scheme: &Scheme, path: &str, at: usize) -> NeighbourView {
    let step = &scheme.steps[at];
    NeighbourView { number: step.number, title: step.title.clone(), href: relative(path, &address(scheme, at)) }
}
