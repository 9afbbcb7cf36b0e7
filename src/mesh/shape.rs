//! The shape of a model: its triangles told apart by area, made coarse enough to be drawn, and its relief measured.

use std::collections::HashMap;

use booth::{AreaRelief, NO_AREA};
use sha2::{Digest, Sha256};

use super::soup::{self, Soup};
use crate::guide::{Area, Mesh, Scheme, Space};
use crate::measure::{Colour, Coordinate};
use crate::trade::Up;

/// A mesh of more triangles than this is made coarser for drawing and for its relief.
const MOST_DRAWN: usize = 160_000;

/// How many cells a mesh is long where it is made coarser.
const COARSE: f32 = 420.0;

/// How far a corner's colour may be from that of an area, in steps of 255 over all channels.
const FARTHEST_COLOUR: u32 = 110 * 110;

/// The shape of a model.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// The surface that its areas have together; of all triangles, where it has no areas. In square units of its files.
    pub surface: f64,
    /// How much of that each area has, in the order of the scheme's areas.
    pub areas: Vec<f64>,
    /// How the relief of each area splits into recesses, faces and edges; together 1.
    pub zones: Vec<[f64; 3]>,
    /// The triangles to be drawn, in millimetres of the model, with `y` up.
    pub drawn: booth::Mesh,
    /// The groups and materials of its files.
    pub names: Vec<String>,
    /// What tells it from any other shape.
    pub mark: [u8; 32],
}

impl Shape {
    /// Whether any part of it is an area.
    pub fn has_areas(&self) -> bool {
        self.areas.iter().any(|area| *area > 0.0)
    }

    /// The shape of a scheme's model from the triangles of its files, in the order in which the mesh names them.
    pub(super) fn of(scheme: &Scheme, mesh: &Mesh, soups: &[&Soup]) -> Self {
        let tally = Tally::of(scheme, mesh, soups);
        let own: f64 = tally.areas.iter().sum();
        let drawn = drawn(mesh, soups, &tally.owners);
        let relief = if own > 0.0 { booth::measure(&drawn, scheme.areas.len()).areas } else { Vec::new() };
        let zones = |relief: &AreaRelief| relief.zones;
        let mut names: Vec<String> = soups.iter().flat_map(|soup| &soup.names).cloned().collect();
        names.sort();
        names.dedup();
        Self {
            surface: if own > 0.0 { own } else { tally.rest },
            areas: tally.areas,
            zones: relief.iter().map(zones).collect(),
            mark: mark(&drawn),
            drawn,
            names,
        }
    }

    /// How the relief of the whole model splits.
    pub fn all_zones(&self) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for (zones, area) in self.zones.iter().zip(&self.areas) {
            for (sum, zone) in sum.iter_mut().zip(zones) {
                *sum += zone * area;
            }
        }
        sum.map(|zone| zone / self.surface)
    }
}

/// Whose each triangle is, and how much surface that makes.
struct Tally {
    owners: Vec<Vec<u16>>,
    areas: Vec<f64>,
    rest: f64,
}

impl Tally {
    fn of(scheme: &Scheme, mesh: &Mesh, soups: &[&Soup]) -> Self {
        let mut tally = Self { owners: Vec::new(), areas: vec![0.0; scheme.areas.len()], rest: 0.0 };
        for (file, soup) in mesh.files.iter().zip(soups) {
            let finder = Finder::of(scheme, mesh, &file.path, soup);
            let owners: Vec<u16> = (0..soup.triangles.len()).map(|at| finder.owner(soup, at)).collect();
            for (corners, owner) in soup.triangles.iter().zip(&owners) {
                let known = tally.areas.get_mut(usize::from(*owner));
                *known.unwrap_or(&mut tally.rest) += soup::area(*corners);
            }
            tally.owners.push(owners);
        }
        tally
    }
}

/// Finds the area of a triangle in one file.
struct Finder<'a> {
    areas: &'a [Area],
    /// The area of the whole file.
    whole: Option<u16>,
    /// The area of each name.
    by_name: Vec<Option<u16>>,
    scale: f64,
}

impl<'a> Finder<'a> {
    fn of(scheme: &'a Scheme, mesh: &Mesh, path: &str, soup: &Soup) -> Self {
        let areas = &scheme.areas;
        let number = |at: usize| u16::try_from(at).ok().filter(|at| *at != NO_AREA);
        let stem = path.rsplit('/').next().unwrap_or(path).rsplit_once('.').map_or(path, |(stem, _)| stem);
        let named = |name: &str| {
            let said = |area: &Area| area.shape.groups.iter().any(|group| same(&group.value, name));
            let called =
                |area: &Area| area.shape.groups.is_empty() && (same(&area.id, name) || same(&area.title, name));
            areas.iter().position(said).or_else(|| areas.iter().position(called)).and_then(number)
        };
        let whole = areas.iter().position(|area| area.shape.files.iter().any(|file| file == path)).and_then(number);
        let whole = whole.or_else(|| named(stem));
        Self { areas, whole, by_name: soup.names.iter().map(|name| named(name)).collect(), scale: mesh.scale.as_f64() }
    }

    fn owner(&self, soup: &Soup, at: usize) -> u16 {
        let named = |names: &[u32]| names.get(at).and_then(|name| self.by_name.get(*name as usize).copied().flatten());
        // Many programs write both what a part is called and what it is made of; whichever is an area's counts.
        let own = named(&soup.owners).or_else(|| named(&soup.others));
        let found = own.or_else(|| self.by_space(&soup.triangles[at]));
        let found = found.or_else(|| soup.colours.get(at).and_then(|colour| self.by_colour(*colour)));
        found.or(self.whole).unwrap_or(NO_AREA)
    }

    fn by_space(&self, corners: &[[f32; 3]; 3]) -> Option<u16> {
        let middle = [0, 1, 2].map(|axis| {
            let sum: f32 = corners.iter().map(|corner| corner[axis]).sum();
            f64::from(sum) / 3.0 * self.scale
        });
        let found = self.areas.iter().position(|area| area.shape.within.iter().any(|space| holds(space, middle)));
        u16::try_from(found?).ok()
    }

    fn by_colour(&self, colour: [u8; 3]) -> Option<u16> {
        let away = |map: Colour| -> u32 {
            map.0.iter().zip(colour).map(|(one, other)| u32::from(one.abs_diff(other)).pow(2)).sum()
        };
        let maps = self.areas.iter().enumerate().filter_map(|(at, area)| Some((at, away(area.shape.map?))));
        let (at, _) = maps.filter(|(_, away)| *away <= FARTHEST_COLOUR).min_by_key(|(_, away)| *away)?;
        u16::try_from(at).ok()
    }
}

/// Whether two names are the same to a reader: letters and digits, large or small.
fn same(one: &str, other: &str) -> bool {
    let letters =
        |text: &str| text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect::<String>();
    letters(one) == letters(other)
}

fn holds(space: &Space, [x, y, z]: [f64; 3]) -> bool {
    match space {
        Space::Box(low, high) => [x, y, z]
            .iter()
            .zip(low.iter().zip(high))
            .all(|(at, (low, high))| (low.as_millimetres()..=high.as_millimetres()).contains(at)),
        Space::Sphere(middle, radius) => {
            let away = |(at, middle): (&f64, &Coordinate)| (at - middle.as_millimetres()).powi(2);
            let away: f64 = [x, y, z].iter().zip(middle).map(away).sum();
            away <= radius.as_millimetres().powi(2)
        }
    }
}

/// The triangles to be drawn, with corners that are at the same place joined.
fn drawn(mesh: &Mesh, soups: &[&Soup], owners: &[Vec<u16>]) -> booth::Mesh {
    let all: usize = soups.iter().map(|soup| soup.triangles.len()).sum();
    let cell = if all > MOST_DRAWN { longest(soups) / COARSE } else { 0.0 };
    let mut drawn = booth::Mesh::default();
    let mut known: HashMap<[u32; 3], u32> = HashMap::with_capacity(all.min(MOST_DRAWN));
    for ((soup, owners), file) in soups.iter().zip(owners).zip(&mesh.files) {
        let upright = upright(mesh, &file.path);
        for (corners, owner) in soup.triangles.iter().zip(owners) {
            let face = corners.map(|corner| {
                let count = u32::try_from(drawn.corners.len()).unwrap_or(u32::MAX);
                *known.entry(place_of(corner, cell)).or_insert_with(|| {
                    drawn.corners.push(upright(corner));
                    count
                })
            });
            // Corners that fell together leave a line.
            if face[0] != face[1] && face[1] != face[2] && face[2] != face[0] {
                drawn.faces.push(face);
                drawn.areas.push(*owner);
            }
        }
    }
    drawn
}

/// What two corners at the same place have in common: their numbers, or the cell of a grid.
fn place_of(corner: [f32; 3], cell: f32) -> [u32; 3] {
    if cell > 0.0 {
        #[expect(clippy::cast_possible_truncation, reason = "a cell within the mesh")]
        let cells = corner.map(|number| (number / cell).floor() as i32);
        return cells.map(i32::cast_unsigned);
    }
    // Nought is the same below and above.
    corner.map(|number| (number + 0.0).to_bits())
}

/// The longest side of a box around all triangles.
fn longest(soups: &[&Soup]) -> f32 {
    let corners = || soups.iter().flat_map(|soup| soup.triangles.iter().flatten());
    let side = |axis: usize| {
        let low = corners().map(|corner| corner[axis]).fold(f32::INFINITY, f32::min);
        corners().map(|corner| corner[axis]).fold(f32::NEG_INFINITY, f32::max) - low
    };
    side(0).max(side(1)).max(side(2))
}

/// The hash of what is drawn.
fn mark(drawn: &booth::Mesh) -> [u8; 32] {
    let mut hash = Sha256::new();
    for number in drawn.corners.iter().flatten() {
        hash.update(number.to_bits().to_le_bytes());
    }
    for corner in drawn.faces.iter().flatten() {
        hash.update(corner.to_le_bytes());
    }
    for area in &drawn.areas {
        hash.update(area.to_le_bytes());
    }
    hash.finalize().into()
}

/// From the units and axes of a file to millimetres with `y` up.
fn upright(mesh: &Mesh, path: &str) -> impl Fn([f32; 3]) -> [f32; 3] + use<> {
    #[expect(clippy::cast_possible_truncation, reason = "a scale is no long number")]
    let scale = mesh.scale.as_f64() as f32;
    let is_obj = path.to_lowercase().ends_with(".obj");
    let lies = mesh.up.unwrap_or(if is_obj { Up::Y } else { Up::Z }) == Up::Z;
    move |[x, y, z]| {
        let placed = if lies { [x, z, -y] } else { [x, y, z] };
        placed.map(|number| number * scale)
    }
}
