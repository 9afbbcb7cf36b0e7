//! A photographed card: which points are what, and what was read there.

use super::light::Light;
use super::patch::Sample;
use super::point::{PatchSize, Point};
use super::refusal::Refusal;
use crate::colour::JUST_SEEN;
use crate::colour::space::{self, LinearRgb};
use crate::measure::Colour;
use crate::picture::{Fault, Pixels, pixels};

/// Where things lie on the card.
#[derive(Debug, Clone)]
pub struct Card {
    /// The paint over the white band.
    pub white: Point,
    /// The paint over the black band.
    pub black: Point,
    /// Bare patches of known reflectance.
    pub bare: Vec<Bare>,
    /// The side of the patches.
    pub patch: PatchSize,
}

/// A bare patch.
#[derive(Debug, Clone, Copy)]
pub struct Bare {
    /// What it is called in messages.
    pub name: &'static str,
    /// Where it lies.
    pub at: Point,
    /// What it reflects in every band, 0 to 1.
    pub reflects: f64,
}

/// What was read of a card.
#[derive(Debug, Clone)]
pub struct Reading {
    /// Pixels across and down, upright.
    pub size: (u32, u32),
    /// The paint over white.
    pub white: Spot,
    /// The paint over black.
    pub black: Spot,
    /// The bare patches with their names; their colours are as photographed.
    pub bare: Vec<(&'static str, Spot)>,
    /// The light.
    pub light: Light,
    /// What to mind; in lower case and without a full stop.
    pub warnings: Vec<String>,
}

/// A patch with its colour.
#[derive(Debug, Clone, Copy)]
pub struct Spot {
    /// What was read.
    pub sample: Sample,
    /// Its colour.
    pub colour: Colour,
}

/// Reflectance above which no card and no paint lies.
const BRIGHTEST: f64 = 1.15;

/// Above this spread a patch is told to be streaky.
const STREAKY: f64 = 3.0;

/// Reads a photograph.
///
/// # Errors
/// When the picture is broken or too large, or when a patch is outside, tiny, clipped or uneven.
pub fn read(bytes: &[u8], card: &Card) -> Result<Reading, Refusal> {
    let Pixels { image, .. } = pixels(bytes).map_err(unusable)?;
    let (width, height) = (image.width(), image.height());
    let side = card.patch.in_picture(width, height);
    let sample = |what: &str, at: Point| Sample::of(&image, what, at.in_picture(width, height), side);
    let white = sample("over white", card.white)?;
    let black = sample("over black", card.black)?;
    let bare = card.bare.iter().map(|bare| sample(bare.name, bare.at)).collect::<Result<Vec<_>, Refusal>>()?;
    let known: Vec<(Sample, f64)> = bare.iter().copied().zip(card.bare.iter().map(|bare| bare.reflects)).collect();
    let light = Light::over(&known)?;
    let names = card.bare.iter().map(|bare| bare.name);
    let reading = Reading {
        size: (width, height),
        white: spot("over white", white, &light)?,
        black: spot("over black", black, &light)?,
        bare: names.zip(bare.iter().map(|bare| Spot { sample: *bare, colour: space::shown(bare.seen) })).collect(),
        light,
        warnings: Vec::new(),
    };
    let warnings = warnings(&reading)?;
    Ok(Reading { warnings, ..reading })
}

/// Why a picture can't be used.
pub fn unusable(fault: Fault) -> Refusal {
    match fault {
        Fault::Unreadable(why) => Refusal::new(
            format!("the picture can't be read: {why}"),
            "nothing is taken from a part of a picture",
            "save it again as JPEG, PNG or WebP",
        ),
        Fault::TooLarge(what) => Refusal::new(
            what,
            "a larger one than 50 million pixels may be made to fill the memory",
            "save a smaller copy; 3000 pixels across are enough",
        ),
    }
}

pub(super) fn spot(what: &str, sample: Sample, light: &Light) -> Result<Spot, Refusal> {
    let reflected = light.reflected(&sample);
    let LinearRgb { red, green, blue, .. } = reflected;
    if red.max(green).max(blue) > BRIGHTEST {
        return Err(Refusal::new(
            format!("the patch {what} comes out brighter than white"),
            "the bare patch is not as light as it was said to be, or lies in the shade",
            "see that --paper lies on the white card and --grey on the grey one, in the same light as the paint",
        ));
    }
    Ok(Spot { sample, colour: space::shown(reflected) })
}

fn warnings(reading: &Reading) -> Result<Vec<String>, Refusal> {
    let mut warnings = Vec::new();
    let (white, black) = (&reading.white, &reading.black);
    let lightness = |spot: &Spot| space::lab(space::linear(spot.colour)).l;
    if lightness(black) > lightness(white) + 2.0 * JUST_SEEN {
        return Err(Refusal::new(
            format!("the paint is lighter over black ({}) than over white ({})", black.colour, white.colour),
            "no paint does that",
            "see whether the points of --white and --black are exchanged, or glare lies on the black band",
        ));
    }
    if reading.bare.is_empty() {
        warnings.push(
            "no bare patch was named, so the camera's own white balance and exposure are believed; \
             give --paper X,Y for the bare white card or --grey X,Y for a grey card"
                .to_owned(),
        );
    }
    for (what, spot) in [("over white", white), ("over black", black)] {
        if spot.sample.spread > STREAKY {
            warnings.push(format!(
                "the patch {what} is streaky: parts of it differ from the whole by ΔE00 {:.1}",
                spot.sample.spread
            ));
        }
        if spot.colour.0.contains(&0) {
            warnings.push(format!("the patch {what} is darker in one channel than a screen can show"));
        }
    }
    Ok(warnings)
}
