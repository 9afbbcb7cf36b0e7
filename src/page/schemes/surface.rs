//! What lies on the model after a step, in words.

use serde::Serialize;

use crate::film::{OnTop, SurfaceNow, What};
use crate::trade::Zone;
use crate::work::WorkedScheme;

/// The surface of one area or of several that look the same.
#[derive(Debug, Serialize)]
pub struct SurfaceView {
    /// The areas; empty where it holds for all areas of the step.
    pub areas: Vec<String>,
    /// The zone that is meant, where it is not the faces; words below `reach`.
    pub zone: Option<&'static str>,
    /// How it shines; words below `sheen`.
    pub sheen: &'static str,
    /// What lies on top; words below `lies`.
    pub top: &'static str,
    /// What carried it; words below `family`.
    pub family: &'static str,
    /// What shows through; words below `lies`.
    pub under: Option<&'static str>,
    /// Whether a clear film shuts it in.
    pub sealed: bool,
    /// Whether a decal lies bare.
    pub bare_decals: bool,
    /// Whether a decal lies beneath a coat.
    pub covered_decals: bool,
    /// Whether it is chipped.
    pub chipped: bool,
    /// Whether a mask lies on it.
    pub masked: bool,
    /// Seconds until it is cured.
    pub cured_after: u32,
}

/// The surfaces after the step at a position of a scheme.
pub(in crate::page) fn surfaces(worked: &WorkedScheme, at: usize) -> Vec<SurfaceView> {
    let Some(film) = worked.films.get(at) else { return Vec::new() };
    let title = |area: &usize| worked.scheme.areas.get(*area).map(|area| area.title.clone());
    let several = film.surfaces.len() > 1;
    let named = |areas: &[usize]| if several { areas.iter().filter_map(title).collect() } else { Vec::new() };
    film.surfaces.iter().map(|(areas, now)| surface(named(areas), now)).collect()
}

/// A surface in words; how long it rests stands with the step.
fn surface(areas: Vec<String>, now: &SurfaceNow) -> SurfaceView {
    SurfaceView {
        areas,
        zone: Some(now.zone).filter(|zone| *zone != Zone::Faces).map(Zone::name),
        sheen: now.sheen.name(),
        top: lies(now.top),
        family: now.top.family.name(),
        under: now.under.map(lies),
        sealed: now.sealed,
        bare_decals: now.bare_decals,
        covered_decals: now.covered_decals,
        chipped: now.chipped,
        masked: now.masked,
        cured_after: now.cured_after.as_seconds(),
    }
}

/// The word for what lies there.
fn lies(top: OnTop) -> &'static str {
    match top.what {
        What::Ground => "ground",
        What::Colour if top.metallic => "metal",
        What::Colour => "colour",
        What::Shade => "wash",
        What::Tint => "tint",
        What::Varnish => "varnish",
        What::Resist => "resist",
        What::Powder if top.holds => "powder-held",
        What::Powder => "powder",
        What::Fixer => "fixer",
        What::Texture => "texture",
        What::Filler => "filler",
        What::Decal => "decal",
    }
}
