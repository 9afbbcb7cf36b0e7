//! The parts of a model with the colours that they come out in.

use serde::Serialize;

use crate::draw;
use crate::measure::{Colour, exact};
use crate::work::{Tones, WorkedScheme};

/// One part of the model.
#[derive(Debug, Serialize)]
pub struct AreaView {
    /// What it is called.
    pub title: String,
    /// Its share in per cent.
    pub percent: Option<String>,
    /// Its three-tone chip, as SVG.
    pub chip: String,
    /// The colours of recesses, faces and edges, as `#rrggbb`, where they are known.
    pub tones: [Option<String>; 3],
    /// The colours of a pattern beside that of the faces, in a list.
    pub pattern: Option<String>,
    /// Whether the faces were measured on the finished model.
    pub measured: bool,
}

/// The areas of a scheme.
pub(in crate::page) fn areas(worked: &WorkedScheme) -> Vec<AreaView> {
    let pairs = worked.scheme.areas.iter().zip(&worked.tones);
    pairs
        .map(|(area, tones)| AreaView {
            title: area.title.clone(),
            percent: area.share.map(|share| exact(share.as_percent(), 1)),
            chip: draw::three_tone(&format!("{}/{}", worked.scheme.slug, area.id), tones),
            tones: shown(tones),
            pattern: listed(tones.pattern),
            measured: tones.measured,
        })
        .collect()
}

fn listed(colours: [Option<Colour>; 2]) -> Option<String> {
    let all: Vec<String> = colours.into_iter().flatten().map(|colour| colour.to_string()).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

fn shown(tones: &Tones) -> [Option<String>; 3] {
    [tones.recesses, tones.faces, tones.edges].map(|tone| tone.map(|colour| colour.to_string()))
}
