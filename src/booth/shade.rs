//! A baked view in colours.

use super::bake::{Baked, PATTERN, Spot};
use super::develop::{Shaded, Tiny};
use super::seat::{self, Seat};
use super::vector::{mix, smooth};

/// How one zone of an area looks; colours in linear light.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tone {
    /// Its colour; of metal, near the glint.
    pub colour: [f32; 3],
    /// Of metal, the colour away from the glint.
    pub off_glint: Option<[f32; 3]>,
    /// How it shines.
    pub shine: Shine,
}

/// How a surface shines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Shine {
    /// Not at all.
    #[default]
    Matt,
    /// Softly.
    Satin,
    /// Like glass.
    Gloss,
    /// Like metal.
    Metal,
    /// Like metal under a clear gloss.
    GlossMetal,
}

/// Flecks on a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flecks {
    /// How they lie.
    pub grain: Grain,
    /// How much of the surface they cover, from 0 to 1.
    pub share: f32,
    /// How strongly they cover it, from 0 to 1.
    pub strength: f32,
    /// Their colour, in linear light.
    pub colour: [f32; 3],
    /// How they shine.
    pub shine: Shine,
    /// The side that they came from, by its place in [`SIDES`]; none: from everywhere.
    pub from: Option<usize>,
}

/// The sides of a model from which something can come.
pub const SIDES: [&str; 6] = ["above", "below", "front", "back", "left", "right"];

/// What looks to one side, where that has a look of its own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sided {
    /// The side, by its place in [`SIDES`].
    pub side: usize,
    /// Recesses, faces and edges.
    pub zones: [Tone; 3],
}

/// A part of an area that kept a look of its own while it lay under a mask. Where it lies is the booth's own guess: nobody
/// draws a pattern for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// How much of the area it is, from 0 to 1.
    pub share: f32,
    /// Recesses, faces and edges.
    pub zones: [Tone; 3],
    /// Whether the mask lies on it still.
    pub masked: bool,
}

/// How flecks lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// On edges, as chips do.
    Chips,
    /// Running down, as rust and rain do.
    Streaks,
    /// Low down and on what looks up, as dust and mud do.
    Dust,
    /// On the ridges of fine grain, as a dry brush leaves it.
    Ridges,
}

/// How an area looks.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AreaLook {
    /// Recesses, faces and edges.
    pub zones: [Tone; 3],
    /// What looks to some side, where something came from there; `zones` is then the rest.
    pub sides: Vec<Sided>,
    /// Parts of it that look otherwise.
    pub patches: Vec<Patch>,
    /// What lies on them, from below upwards.
    pub flecks: Vec<Flecks>,
    /// Whether nobody knows its colour: it is hatched.
    pub unknown: bool,
    /// Whether a mask lies on it.
    pub masked: bool,
    /// Whether decals lie on it.
    pub decals: bool,
    /// Whether the tiny picture shows it brighter than the others.
    pub lifted: bool,
}

/// A decal: its field and the line around it.
const DECAL: [f32; 2] = [0.78, 0.06];

/// Masking tape.
const TAPE: [f32; 3] = [0.72, 0.53, 0.20];

impl Baked {
    /// The view in the colours of each area; `rest` is for what belongs to none.
    pub fn shade(&self, areas: &[AreaLook], rest: &AreaLook) -> Shaded {
        let mut out = vec![[0.0_f32; 3]; self.width * self.height];
        let mut left = vec![1.0_f32; self.width * self.height];
        let mut tiny = Tiny::of(self.width, self.height);
        let seats = self.seats(areas);
        let any_lifted = areas.iter().chain([rest]).any(|look| look.lifted);
        for spot in &self.spots {
            let look = areas.get(usize::from(spot.area)).unwrap_or(rest);
            let at = spot.pixel as usize;
            let mut colour = if look.masked { taped(spot) } else { lit(spot, look, at, self.width) };
            if look.decals && !look.masked {
                let of_area = seats.iter().filter(|(area, _)| *area == spot.area);
                let away = of_area.map(|(_, seat)| seat.away(at, self.width)).fold(f32::INFINITY, f32::min);
                colour = decaled(colour, spot, away);
            }
            for (out, colour) in out[at].iter_mut().zip(colour) {
                *out += colour * spot.part;
            }
            left[at] -= spot.part;
            if any_lifted {
                tiny.change((at % self.width, at / self.width), spot.part, colour, look.lifted);
            }
        }
        for ((out, left), behind) in out.iter_mut().zip(&left).zip(&self.ground) {
            if *left > 0.001 {
                for channel in 0..3 {
                    out[channel] += left * behind[channel];
                }
            }
        }
        tiny.add(&out, self.width);
        self.add_near_view(&mut out, areas, rest);
        Shaded { colours: out, tiny }
    }

    /// Where decals sit, with the areas that have any.
    fn seats(&self, areas: &[AreaLook]) -> Vec<(u16, Seat)> {
        let decaled = (0_u16..).zip(areas).filter(|(_, look)| look.decals);
        let of = |area: u16| seat::seats(&self.spots, area, (self.width, self.height));
        decaled.flat_map(|(area, _)| of(area).into_iter().map(move |seat| (area, seat))).collect()
    }
}

/// A plain decal with a dark line around it, over what lies below.
fn decaled(below: [f32; 3], spot: &Spot, away: f32) -> [f32; 3] {
    let (paper, line) = (smooth(0.80, 0.72, away), smooth(1.04, 0.96, away));
    [0, 1, 2].map(|channel| mix(mix(below[channel], DECAL[1] * spot.light, line), DECAL[0] * spot.light, paper))
}

fn taped(spot: &Spot) -> [f32; 3] {
    let crease = 1.0 - 0.16 * smooth(0.45, 0.5, (spot.grain[1] - 0.5).abs()) - 0.1 * spot.recess;
    TAPE.map(|channel| channel * spot.light * crease)
}

/// The colour of one surface in one pixel.
fn lit(spot: &Spot, look: &AreaLook, at: usize, width: usize) -> [f32; 3] {
    let mut colour = [0.0; 3];
    let looks: f32 = look.sides.iter().map(|sided| spot.toward(sided.side)).sum();
    add_zones(&mut colour, &look.zones, (1.0 - looks).max(0.0), spot);
    for sided in &look.sides {
        add_zones(&mut colour, &sided.zones, spot.toward(sided.side) / looks.max(1.0), spot);
    }
    patched(&mut colour, look, spot, false);
    if look.unknown && ((at % width + at / width) / 5).is_multiple_of(2) {
        colour = colour.map(|channel| channel * 0.8);
    }
    for flecks in &look.flecks {
        let cover = covered(flecks, spot) * flecks.strength * flecks.from.map_or(1.0, |side| spot.toward(side));
        if cover > 0.0 {
            let fleck = shown(flecks.colour, None, flecks.shine, spot);
            for channel in 0..3 {
                colour[channel] = mix(colour[channel], fleck[channel], cover);
            }
        }
    }
    patched(&mut colour, look, spot, true);
    colour
}

/// Lays the patches of a look over a spot: those under tape, or the others.
fn patched(colour: &mut [f32; 3], look: &AreaLook, spot: &Spot, masked: bool) {
    for (number, patch) in look.patches.iter().enumerate().filter(|(_, patch)| patch.masked == masked) {
        let cover = lies_on(&look.patches, number, spot.grain[PATTERN]);
        if cover > 0.0 {
            let mut own = [0.0; 3];
            if masked {
                own = taped(spot);
            } else {
                add_zones(&mut own, &patch.zones, 1.0, spot);
            }
            *colour = [0, 1, 2].map(|channel| mix(colour[channel], own[channel], cover));
        }
    }
}

/// How far one of several patches lies on a spot of such a grain: the first where that is lowest, the second where it is
/// highest, any others beside the first. So none lies on another, and each gets its share.
fn lies_on(patches: &[Patch], number: usize, grain: f32) -> f32 {
    const EDGE: f32 = 0.012;
    let share = |at: usize| patches.get(at).map_or(0.0, |patch| patch.share);
    if number == 1 {
        let from = 1.0 - share(1);
        return smooth(from - EDGE, from + EDGE, grain);
    }
    let from: f32 = (0..number).filter(|at| *at != 1).map(share).sum();
    let to = from + share(number);
    let above = if number == 0 { 1.0 } else { smooth(from - EDGE, from + EDGE, grain) };
    above * smooth(to + EDGE, to - EDGE, grain)
}

/// Adds the zones of a look, as far as a spot lies in each, for so much of the spot.
fn add_zones(colour: &mut [f32; 3], zones: &[Tone; 3], of_it: f32, spot: &Spot) {
    let recess = spot.recess;
    let edge = spot.edge.min(1.0 - recess);
    for (tone, part) in zones.iter().zip([recess, 1.0 - recess - edge, edge]) {
        if part * of_it > 0.0 {
            let shown = shown(tone.colour, tone.off_glint, tone.shine, spot);
            for channel in 0..3 {
                colour[channel] += of_it * part * shown[channel];
            }
        }
    }
}

impl Spot {
    /// How much of what comes from a side lands on it.
    fn toward(&self, side: usize) -> f32 {
        self.sides.get(side).copied().unwrap_or_default()
    }
}

/// A colour in the light of a spot, with what it mirrors.
fn shown(colour: [f32; 3], off_glint: Option<[f32; 3]>, shine: Shine, spot: &Spot) -> [f32; 3] {
    let [dull, satin, gloss] = spot.mirrored;
    let light = spot.light;
    match shine {
        Shine::Matt => colour.map(|channel| channel * light),
        Shine::Satin => added(colour, light, (satin - 0.55) * (0.035 + 0.2 * spot.aslant)),
        Shine::Gloss => added(colour, light, (gloss - 0.6) * (0.055 + 0.6 * spot.aslant)),
        Shine::Metal | Shine::GlossMetal => {
            let glint = smooth(0.25, 1.25, satin);
            let bright = 0.32 * light + 0.68 * (0.35 * dull + 0.65 * satin) * 1.35;
            let off = off_glint.unwrap_or(colour);
            let body = [0, 1, 2].map(|at| mix(off[at], colour[at], glint) * bright);
            if shine == Shine::GlossMetal { added(body, 1.0, (gloss - 0.6) * (0.05 + 0.4 * spot.aslant)) } else { body }
        }
    }
}

fn added(colour: [f32; 3], light: f32, mirrored: f32) -> [f32; 3] {
    colour.map(|channel| (channel * light + mirrored).max(channel * light * 0.7))
}

/// How far flecks cover a spot.
fn covered(flecks: &Flecks, spot: &Spot) -> f32 {
    let [coarse, streaks, fine, _] = spot.grain;
    let share = flecks.share;
    let least = 1.0 - share;
    match flecks.grain {
        Grain::Chips => {
            let worn = coarse * 0.72 + fine * 0.28 + 0.34 * spot.edge - 0.25 * spot.recess;
            smooth(least - 0.02, least + 0.02, worn - 0.06)
        }
        Grain::Streaks => {
            let steep = 1.0 - spot.up.abs();
            let run = streaks * 0.92 + coarse * 0.08 - 0.3 * (1.0 - steep);
            smooth(least - 0.10, least + 0.12, run)
        }
        Grain::Dust => {
            smooth(least - 0.35, least + 0.25, 0.55 * coarse + 0.25 * fine + 0.3 * spot.up.max(0.0) + 0.2 * spot.recess)
        }
        Grain::Ridges => {
            smooth(least - 0.08, least + 0.08, 0.6 * fine + 0.4 * streaks + 0.3 * spot.edge - 0.4 * spot.recess)
        }
    }
}
