//! A picture's published copy: upright, scaled, its pixels and nothing else.

use std::io::Cursor;

use image::ImageFormat;
use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;

use super::{Fault, Picture, Pixels, Size, pixels};
use crate::report::{Finding, Place};

/// JPEG quality at which painted edges show no blocks.
const JPEG_QUALITY: u8 = 84;

/// The published copy of a picture, in the format that it came in.
///
/// # Errors
/// A finding at the picture's file, when it is broken behind its header.
pub fn ready(bytes: &[u8], picture: Picture) -> Result<Vec<u8>, Box<Finding>> {
    copy(bytes, picture.size).map_err(|fault| Box::new(fault.finding(Place::top_of(picture.file))))
}

fn copy(bytes: &[u8], size: Size) -> Result<Vec<u8>, Fault> {
    let Pixels { mut image, format, .. } = pixels(bytes)?;
    if image.width() != size.width || image.height() != size.height {
        image = image.resize_exact(size.width, size.height, FilterType::CatmullRom);
    }
    let mut out = Cursor::new(Vec::new());
    let written = if format == ImageFormat::Jpeg {
        image.to_rgb8().write_with_encoder(JpegEncoder::new_with_quality(&mut out, JPEG_QUALITY))
    } else {
        image.write_to(&mut out, format)
    };
    written.map_err(|error| Fault::Unreadable(error.to_string()))?;
    Ok(out.into_inner())
}
