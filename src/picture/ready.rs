//! A picture's published copy: upright, scaled, its pixels and nothing else.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};

use super::survey::{Fault, MOST_PIXELS};
use super::{Picture, Size};
use crate::report::{Finding, Place};

/// JPEG quality at which painted edges show no blocks.
const JPEG_QUALITY: u8 = 84;

/// The published copy of a picture, in the format that it came in.
///
/// # Errors
/// A finding at the picture's file, when it is broken behind its header.
pub fn ready(bytes: &[u8], picture: Picture) -> Result<Vec<u8>, Box<Finding>> {
    copy(bytes, picture.size)
        .map_err(|error| Box::new(Fault::Unreadable(error.to_string()).finding(Place::top_of(picture.file))))
}

fn copy(bytes: &[u8], size: Size) -> image::ImageResult<Vec<u8>> {
    let reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    let format = reader.format().unwrap_or(ImageFormat::Jpeg);
    let mut decoder = reader.into_decoder()?;
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_PIXELS * 4);
    decoder.set_limits(limits)?;
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let mut picture = DynamicImage::from_decoder(decoder)?;
    picture.apply_orientation(orientation);
    if picture.width() != size.width || picture.height() != size.height {
        picture = picture.resize_exact(size.width, size.height, FilterType::CatmullRom);
    }
    let mut out = Cursor::new(Vec::new());
    if format == ImageFormat::Jpeg {
        picture.to_rgb8().write_with_encoder(JpegEncoder::new_with_quality(&mut out, JPEG_QUALITY))?;
    } else {
        picture.write_to(&mut out, format)?;
    }
    Ok(out.into_inner())
}
