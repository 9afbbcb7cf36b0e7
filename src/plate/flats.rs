//! The flat colours of a map, and whose each of them is: what was painted on it, told from what shines through.

use std::collections::BTreeMap;

use image::RgbaImage;

use crate::measure::Colour;

/// How far a pixel may be from an area's colour, over all channels in steps of 255, squared: what is farther is none's.
pub(super) const FARTHEST: i32 = 110 * 110;

/// A pixel this near, squared, has an area's colour for certain: a camera's grain and JPEG move it by less.
pub(super) const NARROW: i32 = 30 * 30;

/// A pixel is seen through where it is this clear.
pub(super) const CLEAR: u8 = 128;

/// A map of this many pixels across is a large one.
pub(super) const LARGE: usize = 200;

/// The sides of the patches in which flat colours are looked for, on a small map and on a large one.
const PATCH: [u32; 2] = [2, 4];

/// A patch with a larger range in a channel is an edge. Grain of a photograph that shines through stays below it: that of
/// a standard deviation of 16 does.
const EVEN: u8 = 80;

/// The means of two patches of one colour differ by no more than this in any channel.
const ALIKE: u8 = 16;

/// A patch with a smaller range was painted: a camera's pixels differ by more.
const PAINTED: u8 = 2;

/// Steps in which colours are told apart when they are counted.
const STEP: u8 = 4;

/// A shade with a smaller part of the map is not looked at, which bounds how many are compared with each other.
const LEAST_SHADE: f64 = 0.0005;

/// A colour with a smaller part of the map decides nothing: edges leave such.
const LEAST: f64 = 0.005;

/// So many colours are told apart at most, the largest first. Each pixel is compared with all of them.
const MOST: usize = 64;

/// Shades nearer than this, squared over all channels, are one colour.
const SAME: i32 = 12 * 12;

/// A colour this near to an area's, squared, is that colour: JPEG of quality 30 moves a flat one by 5 at most.
const EXACT: i32 = 10 * 10;

/// What runs along more than this part of the rim is the ground.
const GROUND: f64 = 0.3;

/// A flat colour that fills this part of a map is meant as an area.
const MEANT: f64 = 0.01;

/// A colour with a smaller range of channels may be the photograph itself, shining through.
const COLOURED: u8 = 80;

/// A painted colour with a smaller range than this is a grey: an even ground, more likely than an area.
const TINTED: u8 = 24;

/// A colour that was given to no area is confused with one where it is at least this far from it, squared; what is
/// nearer is told as two areas of one colour.
const NEAR: i32 = 24 * 24;

/// A flat colour that is no area's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stray {
    /// About this colour.
    pub(super) colour: Colour,
    /// The area, by its position, with a colour that it may be taken for.
    pub(super) near: Option<usize>,
}

/// The flat colours of a map.
#[derive(Debug, Clone, Default)]
pub(super) struct Flats {
    all: Vec<Flat>,
    patches: usize,
    at_rim: usize,
}

#[derive(Debug, Clone, Copy)]
struct Flat {
    colour: Colour,
    patches: usize,
    painted: usize,
    at_rim: usize,
    owner: Option<usize>,
}

impl Flats {
    /// Looks for the flat colours of a map, and says whose they are.
    pub(super) fn of(map: &RgbaImage, colours: &[Option<Colour>]) -> Self {
        let mut flats = Self::counted(map);
        let ground = flats.ground();
        let nearest = flats.all.iter().map(|flat| nearest(flat.colour, colours)).collect::<Vec<_>>();
        let owner = |at: usize, flat: &Flat| {
            let (area, away) = nearest[at]?;
            let own = colours[area]?;
            let is_found = is_exact(&nearest, area);
            // Shades of a hue may all be the area's. Of two greys side by side on the map only one is.
            let is_shade = away <= NARROW && (range(own) >= TINTED || !is_found);
            let is_meant = is_shade || (!is_found && ground != Some(at));
            (away <= EXACT || (is_meant && is_kin(own, flat.colour, away))).then_some(area)
        };
        let owners: Vec<Option<usize>> = flats.all.iter().enumerate().map(|(at, flat)| owner(at, flat)).collect();
        for (flat, owner) in flats.all.iter_mut().zip(owners) {
            flat.owner = owner;
        }
        flats
    }

    /// Each colour with its owner.
    pub(super) fn owned(&self) -> impl Iterator<Item = (Colour, Option<usize>)> {
        self.all.iter().map(|flat| (flat.colour, flat.owner))
    }

    /// Colours that fill a good part of a map and are no area's. What runs along most of its rim is its ground.
    pub(super) fn strays(&self, colours: &[Option<Colour>]) -> Vec<Stray> {
        let ground = self.ground();
        let stray = |(at, flat): (usize, &Flat)| {
            let is_meant = |patches: usize| patches as f64 > self.patches as f64 * MEANT;
            let near = nearest(flat.colour, colours).filter(|(_, away)| (NEAR..=FARTHEST).contains(away));
            let range = range(flat.colour);
            let is_plain = is_meant(flat.patches) && range >= COLOURED && !self.is_ground(flat);
            let is_like = near.is_some() && is_meant(flat.painted) && range >= TINTED && ground != Some(at);
            let stray = Stray { colour: flat.colour, near: near.map(|(area, _)| area) };
            (flat.owner.is_none() && (is_plain || is_like)).then_some(stray)
        };
        let mut strays: Vec<Stray> = self.all.iter().enumerate().filter_map(stray).collect();
        strays.sort_by_key(|stray| stray.colour);
        strays
    }

    fn is_ground(&self, flat: &Flat) -> bool {
        flat.at_rim as f64 > self.at_rim as f64 * GROUND
    }

    /// The colour that most of the rim has.
    fn ground(&self) -> Option<usize> {
        let grounds = self.all.iter().enumerate().filter(|(_, flat)| self.is_ground(flat));
        grounds.max_by_key(|(_, flat)| flat.at_rim).map(|(at, _)| at)
    }

    /// The colours of a map that fill more than edges do.
    fn counted(map: &RgbaImage) -> Self {
        let (shades, patches, at_rim) = shades(map);
        let mut shades: Vec<Flat> = shades.into_values().filter_map(Shade::flat).collect();
        shades.retain(|shade| shade.patches as f64 > patches as f64 * LEAST_SHADE);
        shades.sort_by_key(|shade| std::cmp::Reverse((shade.patches, shade.colour)));
        let mut all: Vec<Flat> = Vec::new();
        for shade in shades {
            match all.iter_mut().find(|flat| apart(flat.colour, shade.colour) < SAME) {
                Some(flat) => {
                    flat.patches += shade.patches;
                    flat.painted += shade.painted;
                    flat.at_rim += shade.at_rim;
                }
                None => all.push(shade),
            }
        }
        all.retain(|flat| flat.patches as f64 > patches as f64 * LEAST);
        all.sort_by_key(|flat| std::cmp::Reverse((flat.patches, flat.colour)));
        all.truncate(MOST);
        Self { all, patches, at_rim }
    }
}

/// A few pixels of a map that are alike: their mean colour, and the largest range of its channels.
#[derive(Debug, Clone, Copy)]
struct Patch {
    mean: [u8; 3],
    range: u8,
}

/// What was counted of one shade.
#[derive(Debug, Clone, Copy, Default)]
struct Shade {
    sum: [usize; 3],
    patches: usize,
    painted: usize,
    at_rim: usize,
}

impl Shade {
    fn flat(self) -> Option<Flat> {
        let mean = |sum: usize| u8::try_from(sum.checked_div(self.patches)?).ok();
        let colour = Colour([mean(self.sum[0])?, mean(self.sum[1])?, mean(self.sum[2])?]);
        Some(Flat { colour, patches: self.patches, painted: self.painted, at_rim: self.at_rim, owner: None })
    }
}

/// The shades of a map's even patches, with how many patches there are on it, and along its rim.
fn shades(map: &RgbaImage) -> (BTreeMap<[u8; 3], Shade>, usize, usize) {
    let side = PATCH[usize::from(map.width() as usize >= LARGE)].min(map.width()).min(map.height()).max(1);
    let (across, down) = ((map.width() / side) as usize, (map.height() / side) as usize);
    let places = (0..map.height() / side).flat_map(|row| (0..map.width() / side).map(move |column| (row, column)));
    let patches: Vec<Option<Patch>> =
        places.map(|(row, column)| patch(map, [column * side, row * side], side)).collect();
    let mut shades: BTreeMap<[u8; 3], Shade> = BTreeMap::new();
    let mut at_rim = 0;
    for (at, one) in patches.iter().enumerate() {
        let (row, column) = (at / across, at % across);
        let is_rim = row == 0 || column == 0 || row + 1 == down || column + 1 == across;
        at_rim += usize::from(is_rim);
        let Some(Patch { mean, range }) = *one else { continue };
        // The edge between two areas is one patch wide, and unlike what is on its sides.
        let beside = if column + 1 == across { at.checked_sub(1) } else { Some(at + 1) };
        let below = if row + 1 == down { at.checked_sub(across) } else { Some(at + across) };
        let is_like = |other: Option<usize>| other.is_none_or(|other| is_alike(mean, patches[other]));
        if !is_like(beside) || !is_like(below) {
            continue;
        }
        let shade = shades.entry(mean.map(|channel| channel / STEP)).or_default();
        for (sum, channel) in shade.sum.iter_mut().zip(mean) {
            *sum += usize::from(channel);
        }
        shade.patches += 1;
        shade.painted += usize::from(range <= PAINTED);
        shade.at_rim += usize::from(is_rim);
    }
    (shades, patches.len(), at_rim)
}

fn is_alike(mean: [u8; 3], other: Option<Patch>) -> bool {
    other.is_some_and(|other| mean.into_iter().zip(other.mean).all(|(one, other)| one.abs_diff(other) <= ALIKE))
}

/// A patch; `None` where it is clear, or an edge.
fn patch(map: &RgbaImage, [left, top]: [u32; 2], side: u32) -> Option<Patch> {
    let (mut least, mut most, mut sum) = ([u8::MAX; 3], [0; 3], [0_u32; 3]);
    for (x, y) in (top..top + side).flat_map(|y| (left..left + side).map(move |x| (x, y))) {
        let pixel = map.get_pixel(x, y).0;
        if pixel[3] < CLEAR {
            return None;
        }
        for channel in 0..3 {
            least[channel] = least[channel].min(pixel[channel]);
            most[channel] = most[channel].max(pixel[channel]);
            sum[channel] += u32::from(pixel[channel]);
        }
    }
    let range = (0..3).map(|channel| most[channel] - least[channel]).max()?;
    let mean = sum.map(|sum| u8::try_from((sum + side * side / 2) / (side * side)).unwrap_or(u8::MAX));
    (range <= EVEN).then_some(Patch { mean, range })
}

/// Whether a colour on the map is that of an area, and not only the nearest to it.
fn is_exact(nearest: &[Option<(usize, i32)>], area: usize) -> bool {
    nearest.iter().flatten().any(|(other, away)| *other == area && *away <= EXACT)
}

/// The area with the nearest colour, and how far that is, squared.
fn nearest(colour: Colour, colours: &[Option<Colour>]) -> Option<(usize, i32)> {
    let known = colours.iter().enumerate().filter_map(|(at, own)| Some((at, apart(colour, (*own)?))));
    known.min_by_key(|(_, away)| *away)
}

/// How far two colours are apart over all channels, squared.
pub(super) fn apart(one: Colour, other: Colour) -> i32 {
    one.0.into_iter().zip(other.0).map(|(one, other)| (i32::from(one) - i32::from(other)).pow(2)).sum()
}

fn range(colour: Colour) -> u8 {
    let [red, green, blue] = colour.0;
    red.max(green).max(blue) - red.min(green).min(blue)
}

/// Whether a colour so far away, squared, may be an area's that was painted thinly, or named roughly: the same hue, and
/// at least half as strong. Greys are kin only to greys near them.
fn is_kin(own: Colour, other: Colour, away: i32) -> bool {
    /// The cosine of the angle between two hues: 18 degrees. Red and orange (`#ff6000`) are 22 degrees apart.
    const HUE: f64 = 0.95;
    /// The chroma below which a colour has no hue to speak of.
    const GREY: f64 = 10.0;
    let chroma = |colour: Colour| {
        let [red, green, blue] = colour.0.map(f64::from);
        let mean = (red + green + blue) / 3.0;
        [red - mean, green - mean, blue - mean]
    };
    let times = |one: [f64; 3], other: [f64; 3]| one[0] * other[0] + one[1] * other[1] + one[2] * other[2];
    let (own, other) = (chroma(own), chroma(other));
    let (strong, other_strong) = (times(own, own).sqrt(), times(other, other).sqrt());
    if strong < GREY {
        return other_strong < GREY && away <= NARROW;
    }
    let is_hue = times(own, other) >= HUE * strong * other_strong;
    away <= FARTHEST && other_strong >= strong / 2.0 && is_hue
}
