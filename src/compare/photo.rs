//! The areas of a photographed model: at named points, or through a map.

use image::DynamicImage;
use image::imageops::FilterType;

use crate::brushout::{Bare, PatchSize, Point, Refusal, spots, unusable};
use crate::colour::space;
use crate::guide::Scheme;
use crate::measure::Colour;
use crate::picture::{Pixels, pixels};

/// Pixels of a map that are farther than this from every area's colour belong to none, in steps of 255 a channel.
const FARTHEST: i32 = 60;

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

/// Reads the areas of a photograph.
///
/// # Errors
/// When a picture or a patch can't be used, or the map does not show any area.
pub fn measure(bytes: &[u8], scheme: &Scheme, question: &Question<'_>) -> Result<Vec<Measured>, Refusal> {
    let named: Vec<(&str, Point)> = question.points.iter().map(|(area, at)| (title(scheme, *area), *at)).collect();
    let (read, light) = spots(bytes, &named, &question.bare, question.patch)?;
    let areas = question.points.iter().map(|(area, _)| *area);
    let mut measured: Vec<Measured> =
        areas.zip(&read).map(|(area, spot)| Measured { area, colour: spot.colour }).collect();
    if let Some(map) = question.map {
        let Pixels { image, .. } = pixels(bytes).map_err(unusable)?;
        let Pixels { image: map, .. } = pixels(map).map_err(unusable)?;
        fitting(&image, &map)?;
        let map = map.resize_exact(image.width(), image.height(), FilterType::Nearest).to_rgb8();
        let photo = image.to_rgb8();
        for (at, area) in scheme.areas.iter().enumerate() {
            let Some(own) = area.shape.map.filter(|_| !measured.iter().any(|known| known.area == at)) else { continue };
            let owned = map.pixels().zip(photo.pixels()).filter(|(map, _)| is_near(map.0, own));
            let seen: Vec<[u8; 3]> = owned.map(|(_, photo)| photo.0).collect();
            if let Some(linear) = lit(seen) {
                measured.push(Measured { area: at, colour: space::shown(light.balanced(linear)) });
            }
        }
        if measured.is_empty() {
            return Err(Refusal::new(
                "the map shows none of the areas".to_owned(),
                "an area is found by the colour that it has there",
                "give each area its colour on the map, as in 'areas: {shell: {map: \"#ff0000\"}}'",
            ));
        }
    }
    measured.sort_by_key(|known| known.area);
    Ok(measured)
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

fn is_near(map: [u8; 3], own: Colour) -> bool {
    map.iter().zip(own.0).all(|(one, other)| (i32::from(*one) - i32::from(other)).abs() <= FARTHEST)
}

/// What the well-lit faces of an area look like, in linear light.
fn lit(mut seen: Vec<[u8; 3]>) -> Option<space::LinearRgb> {
    if seen.len() < FEWEST {
        return None;
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
    Some(space::LinearRgb::new(red, green, blue))
}
