//! Whether a photograph can be that of a card, and whether its named points can be what they are said to be.

use image::{DynamicImage, GenericImageView};

use super::light::Light;
use super::patch::Sample;
use super::refusal::Refusal;

/// A larger part of the light is no veil: over it the black card would be photographed lighter than a middle grey
/// (CIE L* above 60). An estimate; a lamp in the lens makes a tenth.
const MOST_VEIL: f64 = 0.3;

/// A channel that differs from the others by no more than so many levels of 255 shows no colour: converting to JPEG's
/// or WebP's signals and back rounds by one level in each direction.
const NO_COLOUR: u8 = 2;

/// One bare patch farther from the paint than this part of the picture's longer side is told. Beside a window light
/// falls off by some 20 % over a card that fills the picture: over half of it by 10 %, which makes some 4 (CIEDE2000).
/// An estimate.
const FAR: f64 = 0.5;

/// Refuses points whose patches share a part of the picture: one spot is not two things.
pub(super) fn refuse_shared(patches: &[(&str, Sample)]) -> Result<(), Refusal> {
    let shares = |one: &Sample, other: &Sample| {
        let side = f64::from(one.side.min(other.side));
        (one.at.0 - other.at.0).abs() < side && (one.at.1 - other.at.1).abs() < side
    };
    let mut pairs =
        patches.iter().enumerate().flat_map(|(at, one)| patches[..at].iter().map(move |earlier| (earlier, one)));
    let Some(((first, _), (second, _))) = pairs.find(|((_, one), (_, other))| shares(one, other)) else {
        return Ok(());
    };
    let (what, why) = if first == second {
        (format!("two patches of {first} lie on one another"), "one spot does not show how the light falls off")
    } else {
        (format!("the patches {first} and {second} lie on one another"), "one spot of a card can't be both")
    };
    let mend =
        "give each its own point, or a smaller --patch; leave out the option for what the photograph does not show";
    Err(Refusal::new(what, why, mend))
}

/// Refuses so strong a veil that nothing is left to be read.
pub(super) fn refuse_veil(light: &Light) -> Result<(), Refusal> {
    let veil = light.veil();
    if veil <= MOST_VEIL {
        return Ok(());
    }
    Err(Refusal::new(
        format!("{:.0} % of the light would be a veil over the picture", 100.0 * veil),
        "no lens scatters so much, and what a paint sends would be lost in it",
        "see that --black-card lies on the bare black card and on no glare, or keep lamps and windows out of the lens and \
         photograph again",
    ))
}

/// What to mind where the picture has no colour anywhere; in lower case and without a full stop.
pub(super) fn without_colour(image: &DynamicImage) -> Option<String> {
    let grey = |[red, green, blue]: [u8; 3]| red.max(green).max(blue) - red.min(green).min(blue) <= NO_COLOUR;
    let coloured =
        image.color().has_color() && image.pixels().any(|(_, _, pixel)| !grey([pixel.0[0], pixel.0[1], pixel.0[2]]));
    (!coloured).then(|| {
        "the picture has no colour anywhere, so it is a black and white one, and both colours are greys whatever the \
         paint is: use this entry only for a paint that is a pure grey, and photograph any other in colour"
            .to_owned()
    })
}

/// What to mind where one bare patch alone, far from the paint, stands for the light on it.
pub(super) fn far_bare(bare: &[Sample], paint: [&Sample; 2], (width, height): (u32, u32)) -> Option<String> {
    let [only] = bare else { return None };
    let away = |sample: &Sample| (sample.at.0 - only.at.0).hypot(sample.at.1 - only.at.1);
    let farthest = paint.into_iter().map(away).fold(0.0, f64::max) / f64::from(width.max(height));
    (farthest > FAR).then(|| {
        "one bare patch can't show how the light falls off, and this one lies far from a patch of paint: name a second one \
         on the other side of the paint, or one close to it"
            .to_owned()
    })
}
