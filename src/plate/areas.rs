//! Which area each pixel of a map is.

use std::collections::BTreeMap;

use booth::NO_AREA;
use image::imageops::FilterType;
use image::{DynamicImage, RgbaImage};

use crate::measure::Colour;

/// How far a pixel may be from an area's colour, over all channels in steps of 255, squared: what is farther is none's.
const FARTHEST: i32 = 110 * 110;

/// A pixel is seen through where it is this clear.
const CLEAR: u8 = 128;

/// From this many pixels across a map has lines between its areas that are nobody's; a smaller one is taken as it is.
const LARGE: usize = 200;

/// A pixel with fewer alike around it is the edge between two others.
const FEWEST_ALIKE: usize = 3;

/// A flat colour that fills this part of a map is meant as an area.
const MEANT: f64 = 0.01;

/// A colour with a smaller range of channels may be the photograph itself, shining through.
const COLOURED: u8 = 80;

/// Steps by which colours of a map are told apart when they are counted.
const STEP: u8 = 8;

/// The areas of a map, pixel by pixel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct AreaMap {
    width: usize,
    height: usize,
    of: Vec<u16>,
    /// Flat colours on it that are no area's.
    pub(super) strays: Vec<Colour>,
}

impl AreaMap {
    /// Reads a map in at most the size that is asked for. A larger one is thinned out first, so that its colours stay as
    /// they are.
    pub(crate) fn read_within(map: &DynamicImage, colours: &[Option<Colour>], [width, height]: [u32; 2]) -> Self {
        let thinned = (map.width() > width).then(|| map.resize_exact(width, height, FilterType::Nearest));
        Self::read(thinned.as_ref().unwrap_or(map), colours)
    }

    /// Reads a map on which each area has a colour, or none.
    fn read(map: &DynamicImage, colours: &[Option<Colour>]) -> Self {
        let map = map.to_rgba8();
        let (width, height) = (map.width() as usize, map.height() as usize);
        let of = map.pixels().map(|pixel| owner(pixel.0, colours)).collect();
        let strays = strays(&map, colours);
        let raw = Self { width, height, of, strays };
        if width >= LARGE { raw.without_lines() } else { raw }
    }

    /// How many pixels each of so many areas has.
    pub(super) fn counts(&self, areas: usize) -> Vec<usize> {
        let mut counts = vec![0; areas];
        for area in &self.of {
            if let Some(count) = counts.get_mut(usize::from(*area)) {
                *count += 1;
            }
        }
        counts
    }

    /// The map in another size; where that is larger, slanting edges stay slanting.
    pub(crate) fn at_size(&self, width: usize, height: usize) -> Vec<u16> {
        let (across, down) = (self.width as f32 / width as f32, self.height as f32 / height as f32);
        let one = |at: usize| {
            let x = ((at % width) as f32 + 0.5) * across - 0.5;
            let y = ((at / width) as f32 + 0.5) * down - 0.5;
            self.at(x, y)
        };
        (0..width * height).map(one).collect()
    }

    /// The area that has most of what is around a place.
    fn at(&self, x: f32, y: f32) -> u16 {
        let (left, top) = (x.floor(), y.floor());
        let (right, foot) = (x - left, y - top);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the map")]
        let pixel = |x: f32, y: f32| {
            let x = (x.max(0.0) as usize).min(self.width.saturating_sub(1));
            let y = (y.max(0.0) as usize).min(self.height.saturating_sub(1));
            self.of.get(y * self.width + x).copied().unwrap_or(NO_AREA)
        };
        let four = [
            (pixel(left, top), (1.0 - right) * (1.0 - foot)),
            (pixel(left + 1.0, top), right * (1.0 - foot)),
            (pixel(left, top + 1.0), (1.0 - right) * foot),
            (pixel(left + 1.0, top + 1.0), right * foot),
        ];
        let all = |area: u16| four.iter().filter(|(other, _)| *other == area).map(|(_, part)| part).sum::<f32>();
        let mut best = four[0].0;
        for (area, _) in four {
            if all(area) > all(best) {
                best = area;
            }
        }
        best
    }

    /// The map without the lines that smoothed edges leave: a third colour between two areas, and gaps between them.
    fn without_lines(mut self) -> Self {
        let before = self.counts(usize::from(NO_AREA));
        let kept: Vec<u16> = (0..self.of.len())
            .map(|at| if self.alike_around(at) < FEWEST_ALIKE { NO_AREA } else { self.of[at] })
            .collect();
        let raw = std::mem::replace(&mut self.of, kept);
        let after = self.counts(usize::from(NO_AREA));
        let lost = |area: usize| after.get(area) == Some(&0) && before.get(area) > Some(&0);
        // An area that would be lost with its lines is a thin one, such as a rope; between two others it is their edge.
        let thin = |at: usize| self.sides(at).all(|[one, other]| one.1 == other.1);
        let back: Vec<usize> = (0..raw.len()).filter(|at| lost(usize::from(raw[*at])) && thin(*at)).collect();
        for at in back {
            self.of[at] = raw[at];
        }
        self.of = (0..self.of.len()).map(|at| self.bridged(at)).collect();
        self
    }

    fn alike_around(&self, at: usize) -> usize {
        let own = self.of[at];
        if own == NO_AREA {
            return usize::MAX;
        }
        let (x, y) = (at % self.width, at / self.width);
        let rows = y.saturating_sub(1)..(y + 2).min(self.height);
        let columns = x.saturating_sub(1)..(x + 2).min(self.width);
        let around = rows.flat_map(|row| columns.clone().map(move |column| (row, column)));
        around.filter(|(row, column)| self.of[row * self.width + column] == own).count() - 1
    }

    /// The area of a pixel; of one that is nobody's and lies between areas on two opposite sides, the nearer of these.
    fn bridged(&self, at: usize) -> u16 {
        if self.of[at] != NO_AREA {
            return self.of[at];
        }
        self.sides(at).map(|[one, other]| one.min(other)).min().map_or(NO_AREA, |(_, area)| area)
    }

    /// The areas on two opposite sides of a pixel, with how far away they are: at most two pixels.
    fn sides(&self, at: usize) -> impl Iterator<Item = [(isize, u16); 2]> {
        let (x, y) = ((at % self.width).cast_signed(), (at / self.width).cast_signed());
        let towards = move |dx: isize, dy: isize| {
            (1..=2_isize).find_map(|far| {
                let column = usize::try_from(x + dx * far).ok().filter(|column| *column < self.width)?;
                let row = usize::try_from(y + dy * far).ok().filter(|row| *row < self.height)?;
                let area = self.of[row * self.width + column];
                (area != NO_AREA).then_some((far, area))
            })
        };
        let lines = [(1, 0), (0, 1), (1, 1), (1, -1)].into_iter();
        lines.filter_map(move |(dx, dy)| Some([towards(dx, dy)?, towards(-dx, -dy)?]))
    }
}

/// The area with the nearest colour.
fn owner([red, green, blue, alpha]: [u8; 4], colours: &[Option<Colour>]) -> u16 {
    if alpha < CLEAR {
        return NO_AREA;
    }
    let away = |colour: Colour| -> i32 {
        let apart = |(one, other): (u8, u8)| (i32::from(one) - i32::from(other)).pow(2);
        [red, green, blue].into_iter().zip(colour.0).map(apart).sum()
    };
    let known = colours.iter().enumerate().filter_map(|(at, colour)| Some((at, away((*colour)?))));
    let nearest = known.filter(|(_, away)| *away <= FARTHEST).min_by_key(|(_, away)| *away);
    nearest.and_then(|(at, _)| u16::try_from(at).ok()).unwrap_or(NO_AREA)
}

/// Flat colours that fill a good part of a map and are no area's. What runs along most of its rim is its ground.
fn strays(map: &RgbaImage, colours: &[Option<Colour>]) -> Vec<Colour> {
    let mut counts: BTreeMap<[u8; 3], (usize, usize)> = BTreeMap::new();
    for (x, y, pixel) in map.enumerate_pixels() {
        let [red, green, blue, alpha] = pixel.0;
        if alpha < CLEAR || owner(pixel.0, colours) != NO_AREA {
            continue;
        }
        let rim = x == 0 || y == 0 || x + 1 == map.width() || y + 1 == map.height();
        let (all, at_rim) = counts.entry([red, green, blue].map(|channel| channel / STEP)).or_default();
        *all += 1;
        *at_rim += usize::from(rim);
    }
    let whole = f64::from(map.width()) * f64::from(map.height());
    let rim = 2.0 * (f64::from(map.width()) + f64::from(map.height()));
    let meant = |(colour, (all, at_rim)): (&[u8; 3], &(usize, usize))| {
        let colour = colour.map(|channel| channel * STEP + STEP / 2);
        let range = colour.iter().max()? - colour.iter().min()?;
        let ground = *at_rim as f64 > rim * 0.3;
        (*all as f64 > whole * MEANT && range >= COLOURED && !ground).then_some(Colour(colour))
    };
    counts.iter().filter_map(meant).collect()
}

#[cfg(test)]
mod tests {
    use image::Rgba;

    use super::*;

    const RED: Colour = Colour([255, 0, 0]);
    const BLUE: Colour = Colour([0, 0, 255]);
    const VIOLET: Colour = Colour([128, 0, 128]);

    fn halves(width: u32, height: u32) -> DynamicImage {
        let side = |x: u32| if x < width / 2 { Rgba([255, 0, 0, 255]) } else { Rgba([0, 0, 255, 255]) };
        RgbaImage::from_fn(width, height, |x, _| side(x)).into()
    }

    #[test]
    fn a_smoothed_edge_is_no_area_of_its_own() {
        let smoothed = halves(80, 40).resize_exact(400, 200, FilterType::Triangle);
        let map = AreaMap::read(&smoothed, &[Some(RED), Some(BLUE), Some(VIOLET)]);
        let counts = map.counts(3);
        assert!(counts[2] < 400 * 200 / 100, "{counts:?}");
        let sharp = halves(400, 200).resize_exact(399, 200, FilterType::Triangle);
        let map = AreaMap::read(&sharp, &[Some(RED), Some(BLUE), Some(VIOLET)]);
        assert_eq!(map.counts(3)[2], 0);
        assert_eq!(map.counts(2).iter().sum::<usize>(), 399 * 200, "and leaves no gap");
    }

    #[test]
    fn a_thin_rope_across_an_area_is_kept() {
        let mut picture = halves(400, 200).to_rgba8();
        for x in 20..150 {
            picture.put_pixel(x, 100, Rgba([128, 0, 128, 255]));
        }
        let map = AreaMap::read(&picture.into(), &[Some(RED), Some(BLUE), Some(VIOLET)]);
        assert_eq!(map.counts(3)[2], 130);
    }

    #[test]
    fn a_tiny_map_keeps_each_pixel_and_grows_evenly() {
        let map = AreaMap::read(&halves(4, 3), &[Some(RED), Some(BLUE)]);
        assert_eq!(map.counts(2), [6, 6]);
        let large = map.at_size(40, 30);
        assert_eq!(large.iter().filter(|area| **area == 0).count(), 600);
    }

    #[test]
    fn what_is_clear_or_of_another_colour_is_nobody_s() {
        let mut picture = halves(40, 40).to_rgba8();
        for (x, y, pixel) in picture.enumerate_pixels_mut() {
            match (x, y) {
                (0..8, _) => *pixel = Rgba([255, 0, 0, 10]),
                (10..20, 10..20) => *pixel = Rgba([0, 255, 0, 255]),
                _ => {}
            }
        }
        let map = AreaMap::read(&picture.into(), &[Some(RED), Some(BLUE)]);
        assert_eq!(map.counts(2), [12 * 40 - 100, 800]);
        assert_eq!(map.strays.len(), 1, "a green patch was meant as an area");
    }
}
