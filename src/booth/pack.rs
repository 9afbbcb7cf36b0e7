//! Pixels packed for a browser. It stands here, and not with who asks for it, so that it is compiled with all speed too.

use image::ExtendedColorType;
use image::codecs::jpeg::JpegEncoder;

use super::shade::Pixels;

/// JPEG quality at which soft shading shows no blocks and colours stay within a step or two.
const QUALITY: u8 = 86;

impl Pixels {
    /// The picture as JPEG; `None` where the encoder refuses it.
    pub fn jpeg(&self) -> Option<Vec<u8>> {
        let (width, height) = (u32::try_from(self.width).ok()?, u32::try_from(self.height).ok()?);
        let mut out = Vec::with_capacity(self.bytes.len() / 12);
        let mut encoder = JpegEncoder::new_with_quality(&mut out, QUALITY);
        encoder.encode(&self.bytes, width, height, ExtendedColorType::Rgb8).ok()?;
        Some(out)
    }
}
