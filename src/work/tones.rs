//! The colours of an area in its recesses, on its faces and on its edges, as its paints lie over each other.
//!
//! This shows the paints' own colours laid over each other by how well they hide; it is a sketch for the
//! eye, not a prediction, and pages must not call it one.

use crate::guide::{Mix, Scheme, Step};
use crate::measure::Colour;
use crate::trade::{Hiding, Zone};

/// The last colour in each zone of an area, where any paint with a known colour reached it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tones {
    /// Deep folds, joints, panel lines.
    pub recesses: Option<Colour>,
    /// The broad surfaces.
    pub faces: Option<Colour>,
    /// Rims, ridges, corners.
    pub edges: Option<Colour>,
    /// Whether the last coloured coat on the faces shines by metal flakes, or lies clear over such a coat.
    pub metallic: bool,
}

/// Lays the steps' paints over each other on one area.
pub fn tones(scheme: &Scheme, area: usize) -> Tones {
    let mut tones = Tones::default();
    for step in scheme.steps.iter().filter(|step| step.areas.contains(&area)) {
        let Some(coat) = Coat::of(&step.mix, step) else { continue };
        for zone in step.reach.zones() {
            let under = match zone {
                Zone::Recesses => &mut tones.recesses,
                Zone::Faces => &mut tones.faces,
                Zone::Edges => &mut tones.edges,
            };
            *under = Some(coat.over(*under));
        }
        if step.reach.zones().contains(&Zone::Faces) {
            tones.metallic = coat.metallic || (tones.metallic && coat.cover < 0.9);
        }
    }
    tones
}

/// What a step adds: a colour and how much of the ground it covers, from 0 to 1.
struct Coat {
    colour: [f64; 3],
    cover: f64,
    metallic: bool,
}

impl Coat {
    fn of(mix: &Mix, step: &Step) -> Option<Self> {
        let coloured: Vec<_> = mix
            .parts
            .iter()
            .filter(|part| part.paint.kind.has_colour())
            .filter_map(|part| part.paint.colour.map(|colour| (part, colour)))
            .collect();
        let total: f64 = mix.parts.iter().map(|part| part.amount.as_f64()).sum();
        let weight: f64 = coloured.iter().map(|(part, _)| part.amount.as_f64()).sum();
        if weight <= 0.0 {
            return None;
        }
        let mut colour = [0.0; 3];
        let mut bare = 0.0;
        for (part, own) in &coloured {
            let share = part.amount.as_f64() / weight;
            for (channel, value) in colour.iter_mut().zip(own.0) {
                *channel += share * f64::from(value);
            }
            bare += share * (1.0 - one_coat_cover(part.paint.hiding));
        }
        let cover_once = (1.0 - bare) * weight / total;
        let coats = i32::try_from(step.coats.min(50)).unwrap_or(50);
        let cover = 1.0 - (1.0 - cover_once).powi(coats);
        let metallic = coloured.iter().any(|(part, _)| part.paint.sheen == crate::trade::Sheen::Metallic);
        Some(Self { colour, cover, metallic })
    }

    fn over(&self, under: Option<Colour>) -> Colour {
        let mut mixed = [0; 3];
        for (at, channel) in mixed.iter_mut().enumerate() {
            let ground = under.map_or(self.colour[at], |colour| f64::from(colour.0[at]));
            let value = (self.cover * self.colour[at] + (1.0 - self.cover) * ground).round().clamp(0.0, 255.0);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "rounded and clamped to 0 ..= 255"
            )]
            let byte = value as u8;
            *channel = byte;
        }
        Colour(mixed)
    }
}

/// How much of the ground one coat covers, by the hiding class: a drawing convention of this sketch.
fn one_coat_cover(hiding: Hiding) -> f64 {
    match hiding {
        Hiding::Opaque => 0.95,
        Hiding::SemiOpaque => 0.8,
        Hiding::SemiTransparent => 0.5,
        Hiding::Transparent => 0.3,
    }
}
