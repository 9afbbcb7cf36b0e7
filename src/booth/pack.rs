//! Pixels packed for a browser. It stands here, and not with who asks for it, so that it is compiled with all speed too.

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

use super::develop::Pixels;

/// JPEG quality at which soft shading shows no blocks and colours stay within a step or two.
const QUALITY: u8 = 86;

/// From this many pixels across hue is packed at half the size: nobody sees a border of hue so fine.
const WIDE: u16 = 640;

impl Pixels {
    /// The picture as JPEG; `None` where the encoder refuses it.
    pub fn jpeg(&self) -> Option<Vec<u8>> {
        let (width, height) = (u16::try_from(self.width).ok()?, u16::try_from(self.height).ok()?);
        let mut out = Vec::with_capacity(self.bytes.len() / 12);
        let mut encoder = Encoder::new(&mut out, QUALITY);
        let hues = if width < WIDE { SamplingFactor::F_1_1 } else { SamplingFactor::F_2_2 };
        encoder.set_sampling_factor(hues);
        encoder.encode(&self.bytes, width, height, ColorType::Rgb).ok()?;
        Some(out)
    }
}
