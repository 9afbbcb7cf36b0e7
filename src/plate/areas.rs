//! Which area each pixel of a map is.

use booth::NO_AREA;
use image::DynamicImage;
use image::imageops::FilterType;

use super::flats::{Flats, LARGE, Stray};
use super::owners::owners;
use crate::measure::Colour;

/// A pixel with fewer alike around it is the edge between two others.
const FEWEST_ALIKE: usize = 3;

/// The areas of a map, pixel by pixel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct AreaMap {
    width: usize,
    height: usize,
    of: Vec<u16>,
    /// Flat colours on it that are no area's.
    pub(super) strays: Vec<Stray>,
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
        let flats = Flats::of(&map, colours);
        let (of, strays) = (owners(&map, colours, &flats), flats.strays(colours));
        let raw = Self { width, height, of, strays };
        // A smaller map is taken as it is; on a large one there are lines between areas that are nobody's.
        if width >= LARGE { raw.without_lines() } else { raw }
    }

    /// The flat colours on the map, about, that are no area's.
    pub(crate) fn unclaimed(&self) -> impl Iterator<Item = Colour> {
        self.strays.iter().map(|stray| stray.colour)
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

#[cfg(test)]
mod tests {
    use image::{Rgba, RgbaImage};

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

    /// Three areas of muted colours on a ground, and something on the ground that is none.
    fn muted(ground: [u8; 3], other: [u8; 3]) -> (RgbaImage, [Option<Colour>; 3]) {
        let areas = [[0x5a, 0x4a, 0x3e], [0x2f, 0x7f, 0x7a], [0xc8, 0x78, 0x1e]];
        let picture = RgbaImage::from_fn(400, 300, |x, y| {
            let [red, green, blue] = match (x, y) {
                (60..340, 60..120) => areas[0],
                (60..200, 120..200) => areas[1],
                (200..340, 120..200) => areas[2],
                (60..340, 230..270) => other,
                _ => ground,
            };
            Rgba([red, green, blue, 255])
        });
        (picture, areas.map(|area| Some(Colour(area))))
    }

    #[test]
    fn a_ground_of_a_colour_like_an_area_s_is_nobody_s() {
        for grey in [20, 40, 60, 70, 75, 80, 90, 110, 124, 135, 150] {
            let (picture, colours) = muted([grey; 3], [grey; 3]);
            let map = AreaMap::read(&picture.into(), &colours);
            assert_eq!(map.counts(3), [280 * 60, 140 * 80, 140 * 80], "a ground of {grey}");
            assert_eq!(map.strays, [], "a ground is no mistake: {grey}");
        }
    }

    #[test]
    fn a_ground_that_is_photographed_and_not_painted_is_nobody_s_either() {
        let (mut picture, colours) = muted([0; 3], [0; 3]);
        for (x, y, pixel) in picture.enumerate_pixels_mut().filter(|(.., pixel)| pixel.0[..3] == [0; 3]) {
            // A gradual shadow with grain: every pixel differs from those beside it.
            let grain = (x * 7 + y * 13 + x * y % 11) % 19;
            let shade = u8::try_from(30 + x / 4 + grain).unwrap_or(u8::MAX);
            *pixel = Rgba([shade, shade, shade, 255]);
        }
        let map = AreaMap::read(&picture.into(), &colours);
        let wanted = [280 * 60, 140 * 80, 140 * 80];
        for (area, (count, wanted)) in map.counts(3).into_iter().zip(wanted).enumerate() {
            assert!(count.abs_diff(wanted) < wanted / 20, "area {area}: {count} pixels for {wanted}");
        }
    }

    #[test]
    fn a_part_of_a_colour_like_an_area_s_is_nobody_s_and_is_told() {
        let brown = [0x8a, 0x5a, 0x3e];
        let (picture, colours) = muted([235; 3], brown);
        let map = AreaMap::read(&picture.into(), &colours);
        assert_eq!(map.counts(3), [280 * 60, 140 * 80, 140 * 80]);
        assert_eq!(map.strays, [Stray { colour: Colour(brown), near: Some(0) }]);
        let base = RgbaImage::from_fn(400, 300, |x, y| match (x, y) {
            (_, 250..) => Rgba([255, 96, 0, 255]),
            (100..300, 50..250) => Rgba([255, 0, 0, 255]),
            _ => Rgba([255; 4]),
        });
        let map = AreaMap::read(&base.into(), &[Some(RED), Some(BLUE)]);
        assert_eq!(map.counts(1), [200 * 200], "a base in orange is not red");
        assert_eq!(map.strays, [Stray { colour: Colour([255, 96, 0]), near: Some(0) }]);
    }

    #[test]
    fn an_area_that_is_painted_thinly_or_in_another_shade_of_its_hue_is_found() {
        // Seven tenths of the area's colour over a grey model in a gradual light.
        let thin = |x: u32, own: [u8; 3]| {
            let under = 0.3 * (40.0 + f64::from(x) / 3.0);
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a mean of two bytes")]
            own.map(|own| (0.7 * f64::from(own) + under) as u8)
        };
        let picture = RgbaImage::from_fn(400, 300, |x, y| {
            let [red, green, blue] = match (x, y) {
                (60..200, 60..240) => thin(x, RED.0),
                (200..340, 60..240) => [60, 40, 230],
                _ => [177, 174, 167],
            };
            Rgba([red, green, blue, 255])
        });
        let map = AreaMap::read(&picture.into(), &[Some(RED), Some(BLUE)]);
        assert_eq!((map.counts(2), map.strays.len()), (vec![140 * 180, 140 * 180], 0));
    }

    #[test]
    fn soft_edges_and_jpeg_leave_muted_areas_where_they_are() {
        let (picture, colours) = muted([90; 3], [90; 3]);
        let sharp = AreaMap::read(&picture.clone().into(), &colours);
        let soft = DynamicImage::from(image::imageops::blur(&picture, 2.0));
        let mut jpeg = std::io::Cursor::new(Vec::new());
        let encoder = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut jpeg, 40);
        DynamicImage::from(picture).to_rgb8().write_with_encoder(encoder).unwrap();
        let jpeg = image::load_from_memory(jpeg.get_ref()).unwrap();
        for (name, map) in [("soft", soft), ("jpeg", jpeg)] {
            let map = AreaMap::read(&map, &colours);
            let wrong = map.of.iter().zip(&sharp.of).filter(|(one, other)| one != other).count();
            assert!(wrong < sharp.of.len() / 100, "{name}: {wrong} pixels");
        }
    }
}
