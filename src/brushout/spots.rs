//! Patches of any picture, with the light that bare patches tell.

use super::card::{Bare, Spot, reflected, unusable};
use super::light::Light;
use super::patch::Sample;
use super::point::{PatchSize, Point};
use super::refusal::Refusal;
use crate::colour::space;
use crate::picture::{Pixels, pixels};

/// Reads the patches around named points, in the light that bare patches tell.
///
/// # Errors
/// When the picture is broken or too large, or when a patch is outside, tiny, clipped or uneven.
pub fn spots(
    bytes: &[u8],
    named: &[(&str, Point)],
    bare: &[Bare],
    patch: PatchSize,
) -> Result<(Vec<Spot>, Light), Refusal> {
    let Pixels { image, .. } = pixels(bytes).map_err(unusable)?;
    let (width, height) = (image.width(), image.height());
    let side = patch.in_picture(width, height);
    let sample = |what: &str, at: Point| Sample::of(&image, what, at.in_picture(width, height), side);
    let known = bare.iter().map(|bare| Ok((sample(bare.name, bare.at)?, bare.reflects)));
    let light = Light::over(&known.collect::<Result<Vec<_>, Refusal>>()?, &[])?;
    let read = named.iter().map(|(name, at)| {
        let sample = sample(name, *at)?;
        Ok(Spot { sample, colour: space::shown(reflected(name, &sample, &light)?) })
    });
    Ok((read.collect::<Result<_, _>>()?, light))
}
