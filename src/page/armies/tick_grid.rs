//! An army's models against their steps, to print and to tick off at the desk.

use serde::Serialize;

use crate::guide::{Army, Thing, Unit};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::caution_box;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::{Desk, Page, View};
use crate::tell::plan::planned::{self, UnitStep};

/// More rows than this stand for several models each.
const MOST_ROWS: u32 = 120;

/// So many steps go beside each other on a sheet of A4; more make another grid.
const STEPS_BESIDE: usize = 18;

/// More coats than this have one box with their number.
const MOST_BOXES: u32 = 6;

/// The grids of one army.
#[derive(Debug, Serialize)]
pub struct TickGridView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// The army's page.
    pub army: LinkView,
    /// One for each unit.
    pub units: Vec<UnitGrid>,
    /// The cautions of all steps in full, finished.
    pub cautions: String,
}

/// The grids of one unit.
#[derive(Debug, Serialize)]
pub struct UnitGrid {
    /// Its letter in the army, which stands before the numbers of its steps; none where there is one unit.
    pub mark: String,
    /// The scheme it is painted in.
    pub scheme: LinkView,
    /// How many models.
    pub models: u32,
    /// What each row is called: a model, or a few.
    pub rows: Vec<String>,
    /// Its steps, as many as go beside each other.
    pub sheets: Vec<TickSheet>,
    /// What to do first, as one line, finished.
    pub to_do: String,
}

/// A part of a unit's steps.
#[derive(Debug, Serialize)]
pub struct TickSheet {
    /// Steps of one stage that follow each other.
    pub stages: Vec<StageHead>,
    /// The steps.
    pub steps: Vec<GridStep>,
}

/// The head over some steps.
#[derive(Debug, Serialize)]
pub struct StageHead {
    /// The stage; words below `stage`.
    pub stage: &'static str,
    /// Over how many steps it stands.
    pub steps: usize,
}

/// A column.
#[derive(Debug, Serialize)]
pub struct GridStep {
    /// The number of the step.
    pub number: usize,
    /// Its title and page.
    pub link: LinkView,
    /// One entry for each coat that has a box of its own.
    pub boxes: Vec<u32>,
    /// How many coats, where one box stands for all.
    pub coats: Option<u32>,
}

/// The grids of an army.
pub(in crate::page) fn page(desk: Desk<'_>, army: &Army) -> Page {
    let path = Address::tick_grid(&army.slug);
    let steps: Vec<Vec<UnitStep<'_>>> =
        army.units.iter().enumerate().map(|(at, unit)| unit_steps(desk, at, unit)).collect();
    let units: Vec<UnitGrid> =
        army.units.iter().zip(&steps).enumerate().map(|(at, of)| grid(desk, &path, army.mark(at), of)).collect();
    let called = |of: &UnitStep<'_>| format!("{}{}", army.mark(of.unit), of.step.number);
    let cautions = caution_box::of_some(&desk.worked.guide, &path, &steps.concat(), called);
    let must_show = units.iter().map(|unit| &unit.to_do).chain([&cautions]);
    let must_show = must_show.filter(|text| !text.is_empty()).cloned().collect();
    let view = TickGridView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Armies, &army.title, army.summary.as_deref()),
        army: LinkView::to(&path, &Thing::Army(army.slug.clone()), &army.title),
        units,
        cautions,
    };
    Page { path, view: View::TickGrid(view), must_show }
}

fn unit_steps<'a>(desk: Desk<'a>, at: usize, unit: &Unit) -> Vec<UnitStep<'a>> {
    (0..unit.scheme.steps.len()).filter_map(|step| planned::step_of(desk.worked, unit, at, step)).collect()
}

fn grid(desk: Desk<'_>, path: &str, mark: String, (unit, steps): (&Unit, &Vec<UnitStep<'_>>)) -> UnitGrid {
    UnitGrid {
        mark,
        scheme: LinkView::to(path, &Thing::Scheme(unit.scheme.slug.clone()), &unit.scheme.title),
        models: unit.models,
        rows: rows(unit.models),
        sheets: steps.chunks(STEPS_BESIDE).map(|steps| sheet(path, steps)).collect(),
        to_do: caution_box::line(&desk.worked.guide, steps.iter().filter_map(|of| of.cautions)),
    }
}

fn rows(models: u32) -> Vec<String> {
    let each = models.div_ceil(MOST_ROWS).max(1);
    let firsts = (0..models.div_ceil(each)).map(|row| row * each + 1);
    firsts.map(|first| planned::models(first, (first + each - 1).min(models))).collect()
}

fn sheet(path: &str, steps: &[UnitStep<'_>]) -> TickSheet {
    let stages = steps.chunk_by(|a, b| a.step.stage == b.step.stage);
    let stages = stages.filter_map(|run| Some(StageHead { stage: run.first()?.step.stage.name(), steps: run.len() }));
    TickSheet { stages: stages.collect(), steps: steps.iter().map(|of| column(path, of)).collect() }
}

fn column(path: &str, of: &UnitStep<'_>) -> GridStep {
    let thing = Thing::Step(of.scheme.slug.clone(), of.step.stem.clone());
    let several = of.step.coats > MOST_BOXES;
    GridStep {
        number: of.step.number,
        link: LinkView { title: of.step.title.clone(), href: relative(path, &Address::of(&thing)) },
        boxes: if several { vec![1] } else { (1..=of.step.coats).collect() },
        coats: several.then_some(of.step.coats),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn large_units_have_rows_for_several_models() {
        assert_eq!(rows(3), ["1", "2", "3"]);
        let rows = rows(1000);
        assert!(rows.len() <= 120 && rows.first().unwrap() == "1–9" && rows.last().unwrap() == "1000", "{rows:?}");
    }
}
