//! A picture's published copies: upright, in sRGB, scaled, their pixels and nothing else.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, ImageFormat, ImageResult};

use super::scaled::scaled;
use super::{Copy, Fault, Picture, Pixels, pixels};
use crate::report::{Finding, Place};

/// JPEG quality at which painted edges show no blocks.
const JPEG_QUALITY: u8 = 84;

/// Counts up whenever this file, or what it makes pictures with, gives other bytes for the same picture.
pub const MAKING: &str = "2";

/// The published copies of a picture, in the format that it came in, each with its bytes.
///
/// # Errors
/// A finding at the picture's file, when it is broken after its header.
pub fn ready(bytes: &[u8], picture: &Picture) -> Result<Vec<(Copy, Vec<u8>)>, Box<Finding>> {
    copies(bytes, &picture.copies).map_err(|fault| Box::new(fault.finding(Place::top_of(picture.file))))
}

/// Makes the widest copy first and each narrower one from the one before, which is as sharp and a good deal quicker.
fn copies(bytes: &[u8], wanted: &[Copy]) -> Result<Vec<(Copy, Vec<u8>)>, Fault> {
    let Pixels { image: mut picture, format } = pixels(bytes)?;
    let mut made = Vec::new();
    for copy in wanted.iter().rev() {
        if picture.width() != copy.size.width || picture.height() != copy.size.height {
            picture = scaled(picture, copy.size.width, copy.size.height);
        }
        let bytes = encode(&picture, format).map_err(|error| Fault::of(&error))?;
        made.push((copy.clone(), bytes));
    }
    Ok(made)
}

fn encode(picture: &DynamicImage, format: ImageFormat) -> ImageResult<Vec<u8>> {
    let mut out = Cursor::new(Vec::new());
    if format == ImageFormat::Jpeg {
        picture.to_rgb8().write_with_encoder(JpegEncoder::new_with_quality(&mut out, JPEG_QUALITY))?;
    } else {
        picture.write_to(&mut out, format)?;
    }
    Ok(out.into_inner())
}
