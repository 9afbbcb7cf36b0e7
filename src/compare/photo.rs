//! The areas of a photographed model: at named points, or through a map.

use image::DynamicImage;

use crate::brushout::{Bare, PatchSize, Point, Refusal, spots, unusable};
use crate::colour::space;
use crate::guide::Scheme;
use crate::measure::Colour;
use crate::picture::{Pixels, pixels};
use crate::plate::AreaMap;

/// A map is looked at with no more pixels across than this, as the plates of models are: areas are no finer.
const WIDEST: u32 = 1920;

/// Of an area's pixels those between these parts of its range from dark to light count: faces in the light, no glints.
const COUNTED: (f64, f64) = (0.60, 0.90);

/// Shapes differ where the longer side of one is off by more than this part.
const SAME_SHAPE: f64 = 0.02;

/// Fewer pixels than this are no area.
const FEWEST: usize = 40;

/// Where the areas are, and where something of known brightness is.
#[derive(Debug)]
pub struct Question<'a> {
    /// Points with the areas that they lie on, by their positions in the scheme's list.
    pub points: Vec<(usize, Point)>,
    /// The bytes of a map on which each area has a colour of its own.
    pub map: Option<&'a [u8]>,
    /// Patches of known reflectance in the photograph.
    pub bare: Vec<Bare>,
    /// The side of the patches that are read.
    pub patch: PatchSize,
}

/// The colour of an area on the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The area, by its position in the scheme's list.
    pub area: usize,
    /// Its colour, balanced.
    pub colour: Colour,
}

/// Why nothing was measured of an area that a map was to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Absence {
    /// Nothing says which colour it has on the map.
    Unnamed,
    /// It has this colour, which is not on the map.
    NotOnMap(Colour),
    /// So few pixels of the photograph are of it.
    Small(usize),
}

/// An area of which nothing was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Missing {
    /// The area, by its position in the scheme's list.
    pub area: usize,
    /// Why.
    pub why: Absence,
}

/// What a photograph shows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Reading {
    /// The areas that were found.
    pub measured: Vec<Measured>,
    /// Those that were not; none where no map was asked.
    pub missing: Vec<Missing>,
    /// Flat colours on the map, about, that are no area's.
    pub strays: Vec<Colour>,
}

/// Reads the areas of a photograph.
///
/// # Errors
/// When a picture or a patch can't be used, or the map does not show any area.
pub fn measure(bytes: &[u8], scheme: &Scheme, question: &Question<'_>) -> Result<Reading, Refusal> {
    let named: Vec<(&str, Point)> = question.points.iter().map(|(area, at)| (title(scheme, *area), *at)).collect();
    let (read, light) = spots(bytes, &named, &question.bare, question.patch)?;
    let areas = question.points.iter().map(|(area, _)| *area);
    let measured = areas.zip(&read).map(|(area, spot)| Measured { area, colour: spot.colour }).collect();
    let mut reading = Reading { measured, ..Reading::default() };
    if let Some(map) = question.map {
        let Pixels { image, .. } = pixels(bytes).map_err(unusable)?;
        let Pixels { image: map, .. } = pixels(map).map_err(unusable)?;
        fitting(&image, &map)?;
        let colours: Vec<Option<Colour>> = scheme.areas.iter().map(|area| area.shape.map).collect();
        let (mapped, strays) = mapped(&image, &map, &colours);
        reading.strays = strays;
        for (area, found) in mapped.into_iter().enumerate() {
            if reading.measured.iter().any(|known| known.area == area) {
                continue;
            }
            match found {
                Ok(linear) => reading.measured.push(Measured { area, colour: space::shown(light.balanced(linear)) }),
                Err(why) => reading.missing.push(Missing { area, why }),
            }
        }
        if reading.measured.is_empty() {
            return Err(Refusal::new(
                "the map shows none of the areas".to_owned(),
                "an area is found by the colour that it has there",
                "give each area its colour on the map, as in 'areas: {shell: {map: \"#ff0000\"}}'",
            ));
        }
    }
    reading.measured.sort_by_key(|known| known.area);
    Ok(reading)
}

/// A map of another shape than the photograph was painted over another picture.
fn fitting(photo: &DynamicImage, map: &DynamicImage) -> Result<(), Refusal> {
    let shape = |picture: &DynamicImage| f64::from(picture.width()) / f64::from(picture.height().max(1));
    let apart = shape(photo) / shape(map);
    if apart.max(1.0 / apart) <= 1.0 + SAME_SHAPE {
        return Ok(());
    }
    let (photo, map) = ((photo.width(), photo.height()), (map.width(), map.height()));
    Err(Refusal::new(
        format!("the map has {} × {} pixels, the photo {} × {}", map.0, map.1, photo.0, photo.1),
        "the areas would be looked for beside where they are",
        "name a map that was painted over this photo with --map, or a point on each area with --at",
    ))
}

fn title(scheme: &Scheme, area: usize) -> &str {
    scheme.areas.get(area).map_or("", |area| area.title.as_str())
}

/// What the areas look like in a photograph, in linear light, whose map is read as that of a bare model is; and the flat
/// colours on the map that are no area's.
fn mapped(
    photo: &DynamicImage,
    map: &DynamicImage,
    colours: &[Option<Colour>],
) -> (Vec<Result<space::LinearRgb, Absence>>, Vec<Colour>) {
    let (width, height) = (photo.width(), photo.height());
    let wide = width.min(WIDEST);
    let tall = u32::try_from(u64::from(height) * u64::from(wide) / u64::from(width.max(1))).unwrap_or(height);
    let map = AreaMap::read_within(map, colours, [wide, tall.max(1)]);
    let owners = map.at_size(width as usize, height as usize);
    let photo = photo.to_rgb8();
    let seen = |area: usize| owners.iter().zip(photo.pixels()).filter(move |(owner, _)| usize::from(**owner) == area);
    let one = |(area, colour): (usize, &Option<Colour>)| {
        let colour = colour.ok_or(Absence::Unnamed)?;
        lit(seen(area).map(|(_, pixel)| pixel.0).collect()).map_err(|pixels| match pixels {
            0 => Absence::NotOnMap(colour),
            few => Absence::Small(few),
        })
    };
    (colours.iter().enumerate().map(one).collect(), map.unclaimed().collect())
}

/// What the well-lit faces of an area look like, in linear light; where it has too few pixels, how many.
fn lit(mut seen: Vec<[u8; 3]>) -> Result<space::LinearRgb, usize> {
    if seen.len() < FEWEST {
        return Err(seen.len());
    }
    let light = |pixel: &[u8; 3]| space::luminance(space::linear(Colour(*pixel)));
    seen.sort_by(|one, other| light(one).total_cmp(&light(other)));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a part of a length")]
    let at = |part: f64| (part * seen.len() as f64) as usize;
    let counted = &seen[at(COUNTED.0)..at(COUNTED.1).max(at(COUNTED.0) + 1)];
    let sum = counted.iter().fold([0.0; 3], |sum, pixel| {
        let linear = space::linear(Colour(*pixel));
        [sum[0] + linear.red, sum[1] + linear.green, sum[2] + linear.blue]
    });
    let [red, green, blue] = sum.map(|channel| channel / counted.len() as f64);
    Ok(space::LinearRgb::new(red, green, blue))
}

#[cfg(test)]
mod tests {
    use image::{Rgb, RgbImage, Rgba, RgbaImage};

    use super::*;

    const RED: Colour = Colour([255, 0, 0]);
    const ROSE: Colour = Colour([255, 48, 48]);

    /// A photograph whose left half is dark and whose right half is light, in flat colours.
    fn photo(width: u32, height: u32) -> DynamicImage {
        RgbImage::from_fn(width, height, |x, _| Rgb(if x < width / 2 { [40, 60, 80] } else { [200, 180, 160] })).into()
    }

    fn read(map: impl Into<DynamicImage>, colours: &[Option<Colour>]) -> Vec<Option<Colour>> {
        let (found, _) = mapped(&photo(120, 80), &map.into(), colours);
        found.into_iter().map(|linear| linear.ok().map(space::shown)).collect()
    }

    const DARK: Option<Colour> = Some(Colour([40, 60, 80]));
    const LIGHT: Option<Colour> = Some(Colour([200, 180, 160]));

    #[test]
    fn of_two_colours_that_are_near_each_other_an_area_has_the_nearest() {
        let map = RgbImage::from_fn(120, 80, |x, _| Rgb(if x < 60 { RED.0 } else { ROSE.0 }));
        assert_eq!(read(map, &[Some(RED), Some(ROSE)]), [DARK, LIGHT]);
    }

    #[test]
    fn what_is_clear_on_a_map_is_no_area() {
        let map = RgbaImage::from_fn(120, 80, |x, _| Rgba([255, 0, 0, if x < 60 { 255 } else { 0 }]));
        assert_eq!(read(map, &[Some(RED), None]), [DARK, None]);
    }

    #[test]
    fn an_area_that_is_not_found_says_why() {
        let map = RgbImage::from_fn(120, 80, |x, y| match (x, y) {
            (0..60, _) => Rgb(RED.0),
            (60..63, 0..6) => Rgb([0, 0, 255]),
            (70..110, 20..60) => Rgb([0, 160, 60]),
            _ => Rgb([255; 3]),
        });
        let areas = [Some(RED), None, Some(Colour([255, 255, 0])), Some(Colour([0, 0, 255]))];
        let (found, strays) = mapped(&photo(120, 80), &map.clone().into(), &areas);
        let why: Vec<Option<Absence>> = found.into_iter().map(Result::err).collect();
        let yellow = Absence::NotOnMap(Colour([255, 255, 0]));
        assert_eq!(why, [None, Some(Absence::Unnamed), Some(yellow), Some(Absence::Small(18))]);
        assert_eq!(strays, [Colour([0, 160, 60])]);
        let (found, strays) = mapped(&photo(120, 80), &map.into(), &[Some(RED), Some(Colour([0, 160, 60]))]);
        assert!(found.iter().all(Result::is_ok) && strays.is_empty(), "{found:?} {strays:?}");
    }

    #[test]
    fn a_map_of_another_size_lies_over_the_whole_photo() {
        for width in [30, 1200] {
            let map = RgbImage::from_fn(width, width * 2 / 3, |x, _| Rgb(if x < width / 2 { RED.0 } else { ROSE.0 }));
            assert_eq!(read(map, &[Some(ROSE), Some(RED)]), [LIGHT, DARK], "{width} pixels across");
        }
    }
}
