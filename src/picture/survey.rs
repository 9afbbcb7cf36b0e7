//! The sizes of all pictures that the guide shows, from their headers alone.

use std::collections::BTreeMap;
use std::io::{self, Cursor};

use image::metadata::Orientation;
use image::{ImageDecoder, ImageFormat, ImageReader};
use rayon::prelude::*;

use super::checks;
use crate::door::Door;
use crate::report::{FileId, Files, Finding, Place};

/// The widest that a published picture gets, in pixels.
pub(super) const WIDEST: u32 = 1600;

/// The most bytes that a picture file may have.
pub(super) const MOST_BYTES: u64 = 60_000_000;

/// The most pixels that a picture may have.
pub(super) const MOST_PIXELS: u64 = 50_000_000;

/// The size at which a picture is published, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

/// A picture that can be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Picture {
    /// Its own file, where findings about it stand.
    pub file: FileId,
    /// The size at which it is published.
    pub size: Size,
}

/// All pictures that can be shown, by their paths from the content folder.
#[derive(Debug, Default)]
pub struct Pictures {
    known: BTreeMap<String, Picture>,
}

impl Pictures {
    /// The size of a published picture, if the path is one.
    pub fn size(&self, path: &str) -> Option<Size> {
        self.known.get(path).map(|picture| picture.size)
    }

    /// A picture by its path from the content folder.
    pub fn get(&self, path: &str) -> Option<Picture> {
        self.known.get(path).copied()
    }
}

/// Whether a file is a picture by the ending of its name.
fn is_picture(path: &str) -> bool {
    ImageFormat::from_path(path).is_ok()
}

/// Looks at the header of every picture among the linked files; a picture that can't be read is told. One whose stamp
/// is that of the last survey is not looked at again.
///
/// A finding about a picture stands at the picture's own file, which is added to `files`.
pub fn survey<'a>(
    door: &dyn Door,
    linked: impl Iterator<Item = &'a str>,
    files: &mut Files,
    kept: &mut Kept,
) -> (Pictures, Vec<Finding>) {
    let paths: Vec<&str> = linked.filter(|path| is_picture(path)).collect();
    let looked: Vec<(&str, Look)> = paths.into_par_iter().map(|path| (path, kept.look(door, path))).collect();
    let mut pictures = Pictures::default();
    let mut findings = Vec::new();
    for (path, Look { result, .. }) in &looked {
        let (path, result) = (*path, result.clone());
        let file = files.add(format!("content/{path}"), "");
        match result {
            Ok(size) => {
                pictures.known.insert(path.to_owned(), Picture { file, size });
            }
            Err(fault) => findings.push(fault.finding(Place::top_of(file))),
        }
    }
    kept.looks = looked.into_iter().map(|(path, look)| (path.to_owned(), look)).collect();
    (pictures, findings)
}

/// The looks of the last survey.
#[derive(Debug, Default)]
pub struct Kept {
    looks: BTreeMap<String, Look>,
}

/// What a look at a picture gave, and the stamp of the bytes that were looked at.
#[derive(Debug, Clone)]
struct Look {
    stamp: Option<u64>,
    result: Result<Size, Fault>,
}

impl Kept {
    fn look(&self, door: &dyn Door, path: &str) -> Look {
        let stamp = door.stamp(&format!("content/{path}"));
        let known = self.looks.get(path).filter(|known| stamp.is_some() && known.stamp == stamp);
        known.cloned().unwrap_or_else(|| Look { stamp, result: look(door, path) })
    }
}

/// Why a picture can't be shown.
#[derive(Debug, Clone)]
pub(super) enum Fault {
    /// It can't be decoded, with the reason.
    Unreadable(String),
    /// It is larger than any page needs, with the size.
    TooLarge(String),
}

impl Fault {
    /// The finding at the picture's own file.
    pub(super) fn finding(self, place: Place) -> Finding {
        match self {
            Self::Unreadable(why) => {
                let message = format!("this picture can't be read: {why}");
                Finding::new(&checks::PICTURE_UNREADABLE, place, message, "save it again as JPEG, PNG or WebP")
            }
            Self::TooLarge(message) => Finding::new(
                &checks::PICTURE_TOO_LARGE,
                place,
                message,
                "save a smaller copy; 2000 pixels across are enough",
            ),
        }
    }
}

fn look(door: &dyn Door, path: &str) -> Result<Size, Fault> {
    let bytes = door.read(&format!("content/{path}"), MOST_BYTES).map_err(|error| match error.kind() {
        io::ErrorKind::FileTooLarge => {
            Fault::TooLarge(format!("this picture is larger than {} MB", MOST_BYTES / 1_000_000))
        }
        _ => Fault::Unreadable(error.to_string()),
    })?;
    let unreadable = |error: image::ImageError| Fault::Unreadable(error.to_string());
    let reader = ImageReader::new(Cursor::new(&bytes))
        .with_guessed_format()
        .map_err(|error| Fault::Unreadable(error.to_string()))?;
    let named = ImageFormat::from_path(path).ok();
    if reader.format() != named {
        return Err(Fault::Unreadable("what is in it is not what its name says".to_owned()));
    }
    let mut decoder = reader.into_decoder().map_err(unreadable)?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(Fault::TooLarge(format!("this picture has {width} × {height} pixels")));
    }
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    Ok(published_size(upright(width, height, orientation)))
}

/// Width and height once the picture stands upright.
fn upright(width: u32, height: u32, orientation: Orientation) -> (u32, u32) {
    match orientation {
        Orientation::Rotate90 | Orientation::Rotate270 | Orientation::Rotate90FlipH | Orientation::Rotate270FlipH => {
            (height, width)
        }
        _ => (width, height),
    }
}

/// The size no wider than [`WIDEST`], with the same shape.
fn published_size((width, height): (u32, u32)) -> Size {
    if width <= WIDEST {
        return Size { width, height };
    }
    let scaled = (u64::from(height) * u64::from(WIDEST) + u64::from(width) / 2) / u64::from(width);
    Size { width: WIDEST, height: u32::try_from(scaled).unwrap_or(height).max(1) }
}
