//! Pixels packed for a browser.

use booth::Pixels;
use image::ExtendedColorType;
use image::codecs::jpeg::JpegEncoder;

/// JPEG quality at which soft shading shows no blocks and colours stay within a step or two.
const QUALITY: u8 = 86;

/// A picture as JPEG; `None` where the encoder refuses it.
pub(super) fn jpeg(pixels: &Pixels) -> Option<Vec<u8>> {
    let (width, height) = (u32::try_from(pixels.width).ok()?, u32::try_from(pixels.height).ok()?);
    let mut out = Vec::with_capacity(pixels.bytes.len() / 12);
    let mut encoder = JpegEncoder::new_with_quality(&mut out, QUALITY);
    encoder.encode(&pixels.bytes, width, height, ExtendedColorType::Rgb8).ok()?;
    Some(out)
}
