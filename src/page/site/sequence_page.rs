//! A sequence: what it is, its steps, and where it is used. Its instructions stand where they are painted, with their
//! paints and their cautions.

use serde::Serialize;

use crate::guide::{Sequence, Thing, step_anchor};
use crate::page::parts::address::Address;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::parts::prose::{self, Company, Setting};
use crate::page::{Desk, Page, View};

/// One sequence.
#[derive(Debug, Serialize)]
pub struct SequenceView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// What it is called.
    pub title: String,
    /// One sentence on what it gives.
    pub summary: Option<String>,
    /// The introduction, as HTML.
    pub intro: String,
    /// Its steps.
    pub steps: Vec<SequenceStepView>,
    /// Where it is used.
    pub uses: Vec<SequenceUseView>,
}

/// One step of a sequence.
#[derive(Debug, Serialize)]
pub struct SequenceStepView {
    /// Its anchor on the page.
    pub anchor: String,
    /// What it is called.
    pub title: String,
    /// Its stage; words below `stage`.
    pub stage: &'static str,
}

/// A scheme that uses a sequence.
#[derive(Debug, Serialize)]
pub struct SequenceUseView {
    /// The scheme.
    pub scheme: LinkView,
    /// The areas that it lies on there.
    pub areas: Vec<String>,
    /// Its steps there.
    pub steps: Vec<LinkView>,
}

/// The page of a sequence.
pub(in crate::page) fn page(desk: Desk<'_>, sequence: &Sequence) -> Page {
    let guide = &desk.worked.guide;
    let path = Address::of(&Thing::Sequence(sequence.slug.clone()));
    let steps = sequence.steps.iter();
    let view = SequenceView {
        frame: Frame::new(guide, &path, Section::Schemes, &sequence.title, sequence.summary.as_deref()),
        title: sequence.title.clone(),
        summary: sequence.summary.clone(),
        intro: prose::html(desk, &sequence.intro, Setting { path: &path, level: 2, company: Company::None }),
        steps: steps
            .map(|(stem, title, stage)| SequenceStepView {
                anchor: step_anchor(stem),
                title: title.clone(),
                stage: stage.name(),
            })
            .collect(),
        uses: desk
            .ledger
            .borrowers(desk.worked, &sequence.slug)
            .map(|scheme| of_scheme(scheme, sequence, &path))
            .collect(),
    };
    Page { path, view: View::Sequence(view), must_show: Vec::new() }
}

fn of_scheme(scheme: &crate::guide::Scheme, sequence: &Sequence, path: &str) -> SequenceUseView {
    let is_of = |step: &&crate::guide::Step| step.via.as_ref().is_some_and(|via| via.sequence == sequence.slug);
    let steps = || scheme.steps.iter().filter(is_of);
    let mut areas: Vec<usize> = steps().flat_map(|step| step.areas.iter().copied()).collect();
    areas.sort_unstable();
    areas.dedup();
    let whole = areas.len() == scheme.areas.len();
    let titles = areas.iter().filter_map(|at| scheme.areas.get(*at)).map(|area| area.title.clone());
    SequenceUseView {
        scheme: LinkView::to(path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
        areas: if whole { Vec::new() } else { titles.collect() },
        steps: steps()
            .map(|step| LinkView::to(path, &Thing::Step(scheme.slug.clone(), step.stem.clone()), &step.title))
            .collect(),
    }
}
