//! The cut through the paint after a step: a relief, and its coats in words.

use serde::Serialize;

use crate::draw::{self, Band, Lies, Marks};
use crate::film::What;
use crate::guide::Step;
use crate::page::Desk;
use crate::tell::{called, facts};
use crate::theme::Words;
use crate::trade::Technique;
use crate::work::{CutCoat, WorkedScheme};

/// The cut through the paint on one area.
#[derive(Debug, Serialize)]
pub struct FilmView {
    /// The area.
    pub area: String,
    /// The relief, as SVG.
    pub picture: String,
    /// Its coats in words, from the bottom up.
    pub coats: Vec<FilmCoat>,
}

/// The coats of one step in words.
#[derive(Debug, Serialize)]
pub struct FilmCoat {
    /// The product and the number of its coats.
    pub name: String,
    /// What one sees of it, predicted, as `#rrggbb`, where it is known.
    pub colour: Option<String>,
    /// Whether this very step laid it.
    pub fresh: bool,
}

/// The cut after the step at a position of a scheme; none where the step changed nothing of it.
pub(in crate::page) fn film(desk: Desk<'_>, worked: &WorkedScheme, at: usize) -> Option<FilmView> {
    let cut = worked.films.get(at)?.cut.as_ref().filter(|cut| cut.changed && !cut.coats.is_empty())?;
    let all = worked.films.iter().filter_map(|film| film.cut.as_ref());
    let highest = all.map(|cut| highest(worked, &cut.coats)).fold(0.0, f64::max);
    let bands: Vec<Band> = cut.coats.iter().filter_map(|coat| band(worked, coat, desk.words)).collect();
    let model = desk.words.filled("film.model", &[]);
    let marks = Marks { masked: cut.masked, chipped: cut.chipped };
    Some(FilmView {
        area: worked.scheme.areas.get(cut.area)?.title.clone(),
        picture: draw::relief(&bands, &model, marks, highest),
        coats: bands
            .into_iter()
            .map(|band| FilmCoat {
                colour: band.colour.filter(|_| !is_clear(band.what)).map(|colour| colour.to_string()),
                name: band.name,
                fresh: band.fresh,
            })
            .collect(),
    })
}

/// How high some coats are together, where they are the highest.
fn highest(worked: &WorkedScheme, coats: &[CutCoat]) -> f64 {
    let mut zones = [0.0_f64; 3];
    for coat in coats {
        let Some(step) = worked.scheme.steps.get(coat.step) else { continue };
        for (zone, high) in zones.iter_mut().zip(heights(coat, step.coats)) {
            *zone += high;
        }
    }
    zones.into_iter().fold(0.0, f64::max)
}

fn is_clear(what: What) -> bool {
    matches!(what, What::Varnish | What::Resist | What::Fixer)
}

fn band(worked: &WorkedScheme, coat: &CutCoat, words: &Words) -> Option<Band> {
    let step = worked.scheme.steps.get(coat.step)?;
    Some(Band {
        name: name(step, words),
        colour: coat.colour,
        high: heights(coat, step.coats),
        coats: step.coats,
        what: coat.what,
        lies: lies(coat),
        fresh: coat.fresh,
    })
}

fn lies(coat: &CutCoat) -> Lies {
    match (coat.what, coat.technique) {
        (What::Decal, _) => Lies::Lens,
        _ if coat.spots => Lies::Spotted,
        (_, Technique::Drybrush) => Lies::Dotted,
        _ if coat.aimed => Lies::Dotted,
        _ => Lies::Closed,
    }
}

/// How high some coats are drawn: by their number, and where they lie thicker by their share. A paste is higher; what lies
/// in single places or is a lens has no height of its own.
fn heights(coat: &CutCoat, coats: u32) -> [f64; 3] {
    if lies(coat) != Lies::Closed {
        return [0.0; 3];
    }
    let thick = if matches!(coat.what, What::Texture | What::Filler) { 9.0 } else { 2.2 };
    let usual = thick + 2.6 * f64::from(coats.min(8));
    let lying = coat.dry.iter().map(|dry| dry.0).filter(|dry| *dry > 0.0);
    let mean = lying.clone().sum::<f64>() / lying.count().max(1) as f64;
    coat.dry.map(|dry| if dry.0 > 0.0 && mean > 0.0 { usual * dry.0 / mean } else { 0.0 })
}

/// What the step's mix is called, all of it where nothing in it gives it its look; how many coats of it; and from which
/// side, where they don't lie on all.
fn name(step: &Step, words: &Words) -> String {
    let called = called::of_layer(&step.mix, words).or_else(|| called::whole(&step.mix, words));
    let called = called.unwrap_or_else(|| step.title.clone());
    let counted = if step.coats > 1 { format!("{called} × {}", step.coats) } else { called };
    std::iter::once(counted).chain(facts::side(step, words)).collect::<Vec<_>>().join(", ")
}
