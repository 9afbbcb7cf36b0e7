//! A photographed card: which points are what, and what was read there.

use super::bands::Bands;
use super::light::Light;
use super::patch::Sample;
use super::plausible;
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
    /// Light bare patches of known reflectance: white card and grey card.
    pub bare: Vec<Bare>,
    /// Bare patches of the black card: what they send beyond what they reflect is a veil over the whole picture.
    pub dark: Vec<Bare>,
    /// What the two bands reflect under the paint.
    pub bands: Bands,
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
    /// The bare patches with their names, the black ones last; their colours are as photographed.
    pub bare: Vec<(&'static str, Spot)>,
    /// What the bands reflect, where it is not what the colour method counts with: the colours are reported as over those.
    pub other_bands: Option<Bands>,
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

/// Bare patches that lie farther from evenly falling light than this part of it are told: it makes some 1.5 (CIEDE2000).
const UNEVEN: f64 = 0.04;

/// Above this part of the light a veil is told to spoil the dark.
const VEILED: f64 = 0.08;

/// Reads a photograph.
///
/// # Errors
/// When the picture is broken or too large, when a patch is outside, tiny, clipped or uneven, when two of them are one
/// spot, or when nothing but a veil would be left.
pub fn read(bytes: &[u8], card: &Card) -> Result<Reading, Refusal> {
    let Pixels { image, .. } = pixels(bytes).map_err(unusable)?;
    let (width, height) = (image.width(), image.height());
    let side = card.patch.in_picture(width, height);
    let sample = |what: &str, at: Point| Sample::of(&image, what, at.in_picture(width, height), side);
    let white = sample("over white", card.white)?;
    let black = sample("over black", card.black)?;
    let bare = card.bare.iter().map(|bare| sample(bare.name, bare.at)).collect::<Result<Vec<_>, Refusal>>()?;
    let dark = card.dark.iter().map(|dark| sample(dark.name, dark.at)).collect::<Result<Vec<_>, Refusal>>()?;
    let known = |samples: &[Sample], of: &[Bare]| -> Vec<(Sample, f64)> {
        samples.iter().copied().zip(of.iter().map(|bare| bare.reflects)).collect()
    };
    let names = card.bare.iter().chain(&card.dark).map(|bare| bare.name);
    let patches = bare.iter().chain(&dark).copied();
    let paint = [("over white", white), ("over black", black)];
    plausible::refuse_shared(&paint.into_iter().chain(names.clone().zip(patches)).collect::<Vec<_>>())?;
    let light = Light::over(&known(&bare, &card.bare), &known(&dark, &card.dark))?;
    plausible::refuse_veil(&light)?;
    let seen = [reflected("over white", &white, &light)?, reflected("over black", &black, &light)?];
    let [over_white, over_black] = card.bands.as_usual(seen).map(space::shown);
    let as_photographed = |sample: &Sample| Spot { sample: *sample, colour: space::shown(sample.seen) };
    let reading = Reading {
        size: (width, height),
        white: Spot { sample: white, colour: over_white },
        black: Spot { sample: black, colour: over_black },
        bare: names.zip(bare.iter().chain(&dark).map(as_photographed)).collect(),
        other_bands: Some(card.bands).filter(|bands| *bands != Bands::USUAL),
        light,
        warnings: Vec::new(),
    };
    let far = plausible::far_bare(&bare, [&white, &black], (width, height));
    let of_picture = plausible::without_colour(&image).into_iter().chain(far).collect();
    let warnings = [warnings(&reading, card)?, of_light(&light), of_picture].concat();
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

/// What a patch reflects in this light.
pub(super) fn reflected(what: &str, sample: &Sample, light: &Light) -> Result<LinearRgb, Refusal> {
    let reflected = light.reflected(sample);
    let LinearRgb { red, green, blue, .. } = reflected;
    if red.max(green).max(blue) > BRIGHTEST {
        return Err(Refusal::new(
            format!("the patch {what} comes out brighter than white"),
            "the bare patch is not as light as it was said to be, or lies in the shade",
            "see that --paper lies on the white card and --grey on the grey one, in the same light as the paint",
        ));
    }
    Ok(reflected)
}

/// What to mind of the light.
fn of_light(light: &Light) -> Vec<String> {
    let mut warnings = Vec::new();
    if light.off > UNEVEN {
        warnings.push(format!(
            "the light is neither even nor does it fall off evenly: a bare patch is {:.0} % from what the others tell; \
             look for shade or glare on it, light the card anew, or name bare patches close to the paint",
            100.0 * light.off
        ));
    }
    if light.too_dark {
        warnings.push(
            "the black card is photographed darker than it is said to be, so no veil can be told: the camera deepens \
             the shadows, or --black-value is too high"
                .to_owned(),
        );
    }
    if light.veil() > VEILED {
        warnings.push(format!(
            "a veil of {:.0} % of the light lies over the picture; it was taken out, but what little a dark paint sends \
             is lost in it: keep lamps and windows out of the lens",
            100.0 * light.veil()
        ));
    }
    warnings
}

/// What to mind of the patches.
fn warnings(reading: &Reading, card: &Card) -> Result<Vec<String>, Refusal> {
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
    if card.bare.is_empty() {
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
