//! A picture's published copies: upright, in sRGB, scaled, their pixels and nothing else.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, ImageResult, Limits};

use super::survey::{Fault, MOST_PIXELS};
use super::to_srgb::to_srgb;
use super::{Copy, Picture};
use crate::report::{Finding, Place};

/// JPEG quality at which painted edges show no blocks.
const JPEG_QUALITY: u8 = 84;

/// The published copies of a picture, in the format that it came in, each with its bytes.
///
/// # Errors
/// A finding at the picture's file, when it is broken behind its header.
pub fn ready(bytes: &[u8], picture: &Picture) -> Result<Vec<(Copy, Vec<u8>)>, Box<Finding>> {
    copies(bytes, &picture.copies)
        .map_err(|error| Box::new(Fault::Unreadable(error.to_string()).finding(Place::top_of(picture.file))))
}

/// Makes the widest copy first and each narrower one from the one before, which is as sharp and a good deal quicker.
fn copies(bytes: &[u8], wanted: &[Copy]) -> ImageResult<Vec<(Copy, Vec<u8>)>> {
    let (mut picture, format) = decode(bytes)?;
    let mut made = Vec::new();
    for copy in wanted.iter().rev() {
        if picture.width() != copy.size.width || picture.height() != copy.size.height {
            picture = picture.resize_exact(copy.size.width, copy.size.height, FilterType::CatmullRom);
        }
        made.push((copy.clone(), encode(&picture, format)?));
    }
    Ok(made)
}

/// The whole picture, upright and in sRGB.
fn decode(bytes: &[u8]) -> ImageResult<(DynamicImage, ImageFormat)> {
    let reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    let format = reader.format().unwrap_or(ImageFormat::Jpeg);
    let mut decoder = reader.into_decoder()?;
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_PIXELS * 4);
    decoder.set_limits(limits)?;
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let profile = decoder.icc_profile().unwrap_or_default();
    let mut picture = to_srgb(DynamicImage::from_decoder(decoder)?, profile.as_deref());
    picture.apply_orientation(orientation);
    Ok((picture, format))
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
