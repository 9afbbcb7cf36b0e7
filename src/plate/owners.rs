//! Whose each pixel of a map is: that of the nearest colour, an area's or one that is nobody's.

use booth::NO_AREA;
use image::RgbaImage;

use super::flats::{CLEAR, FARTHEST, Flats, NARROW, apart};
use crate::measure::Colour;

/// How far a soft edge reaches from what has an area's colour: this many pixels, or this part of the map's width. A blur
/// of 6 pixels on a map of 1200 pixels across makes edges that reach 7.
const REACH: (usize, usize) = (8, 100);

/// A colour of the map, and whose it is.
#[derive(Debug, Clone, Copy)]
struct Seed {
    colour: Colour,
    owner: u16,
}

/// The owner of each pixel, row by row.
///
/// A pixel whose colour is an area's only about is the area's only near others that have it for certain: it is their soft
/// edge. Elsewhere it is something else in the photograph, of a colour that is similar. Where an area has no pixel for
/// certain, all count.
pub(super) fn owners(map: &RgbaImage, colours: &[Option<Colour>], flats: &Flats) -> Vec<u16> {
    let seeds = seeds(colours, flats);
    let mut last = ([0; 4], nearest([0; 4], &seeds));
    let mut one = |pixel: [u8; 4]| {
        // Maps are flat: most pixels are as the one before.
        if pixel != last.0 {
            last = (pixel, nearest(pixel, &seeds));
        }
        last.1
    };
    let found: Vec<(u16, bool)> = map.pixels().map(|pixel| one(pixel.0)).collect();
    let mut certain = vec![false; colours.len()];
    for (owner, is_certain) in &found {
        if let Some(any) = certain.get_mut(usize::from(*owner)) {
            *any |= is_certain;
        }
    }
    let is_held = |(owner, is_certain): &(u16, bool)| *is_certain || certain.get(usize::from(*owner)) != Some(&true);
    let mut kept: Vec<bool> = found.iter().map(is_held).collect();
    let owners: Vec<u16> = found.into_iter().map(|(owner, _)| owner).collect();
    grow(&owners, &mut kept, map.width() as usize);
    owners.into_iter().zip(kept).map(|(owner, is_kept)| if is_kept { owner } else { NO_AREA }).collect()
}

/// The colours of the areas, then the flat ones of the map.
fn seeds(colours: &[Option<Colour>], flats: &Flats) -> Vec<Seed> {
    let owner = |at: usize| u16::try_from(at).unwrap_or(NO_AREA);
    let named =
        colours.iter().enumerate().filter_map(|(at, colour)| Some(Seed { colour: (*colour)?, owner: owner(at) }));
    let flat = |(colour, area): (Colour, Option<usize>)| Seed { colour, owner: area.map_or(NO_AREA, owner) };
    named.chain(flats.owned().map(flat)).collect()
}

/// The owner of a pixel by its colour alone, and whether that is certain.
fn nearest([red, green, blue, alpha]: [u8; 4], seeds: &[Seed]) -> (u16, bool) {
    if alpha < CLEAR {
        return (NO_AREA, true);
    }
    let colour = Colour([red, green, blue]);
    let away = seeds.iter().map(|seed| (apart(seed.colour, colour), seed.owner));
    let nearest = away.min_by_key(|(away, _)| *away).filter(|(away, _)| *away <= FARTHEST);
    nearest.map_or((NO_AREA, true), |(away, owner)| (owner, away <= NARROW))
}

/// Keeps what is connected with what was kept by no more steps than an edge is wide.
fn grow(owners: &[u16], kept: &mut [bool], width: usize) {
    let reach = REACH.0.max(width / REACH.1);
    let mut front: Vec<usize> = (0..owners.len()).filter(|at| kept[*at] && owners[*at] != NO_AREA).collect();
    for _ in 0..reach {
        let mut next = Vec::new();
        for at in front {
            for beside in around(at, width, owners.len()) {
                if !kept[beside] && owners[beside] == owners[at] {
                    kept[beside] = true;
                    next.push(beside);
                }
            }
        }
        front = next;
    }
}

/// The four pixels beside one.
fn around(at: usize, width: usize, all: usize) -> impl Iterator<Item = usize> {
    let column = at % width;
    let beside = [
        (column > 0).then(|| at - 1),
        (column + 1 < width).then_some(at + 1),
        at.checked_sub(width),
        Some(at + width).filter(|below| *below < all),
    ];
    beside.into_iter().flatten()
}
