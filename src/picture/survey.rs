//! The sizes of all pictures that the guide shows, from their headers alone.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Cursor};

use image::metadata::Orientation;
use image::{ImageDecoder, ImageFormat, ImageReader};

use super::copy::copies;
use super::whole::is_whole;
use super::{Copy, Size, checks};
use crate::door::{Door, Looks};
use crate::report::{FileId, Files, Finding, Place};

/// The most bytes that a picture file may have.
pub const MOST_BYTES: u64 = 60_000_000;

/// The most pixels that a picture may have.
pub(super) const MOST_PIXELS: u64 = 50_000_000;

/// A picture that can be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Its own file, where findings about it stand.
    pub file: FileId,
    /// The size in which it came, upright.
    pub size: Size,
    /// The copies in which it is published, the narrowest first; at least one.
    pub copies: Vec<Copy>,
}

/// All pictures that can be shown, by their paths from the content folder.
#[derive(Debug, Default)]
pub struct Pictures {
    known: BTreeMap<String, Picture>,
}

impl Pictures {
    /// A picture by its path from the content folder.
    pub fn get(&self, path: &str) -> Option<&Picture> {
        self.known.get(path)
    }

    /// The published copies of a picture, if the path is one.
    pub fn copies(&self, path: &str) -> &[Copy] {
        self.known.get(path).map(|picture| picture.copies.as_slice()).unwrap_or_default()
    }
}

/// Whether a file is a picture by the ending of its name.
fn is_picture(path: &str) -> bool {
    ImageFormat::from_path(path).is_ok()
}

/// Looks at the header of every picture among the linked files; a picture that can't be read is reported. One whose stamp
/// is that of the last survey is not looked at again.
///
/// A finding about a picture is at the picture's own file, which is added to `files`.
pub fn survey(
    door: &dyn Door,
    linked: &BTreeSet<String>,
    files: &mut Files,
    kept: &mut KeptPictures,
) -> (Pictures, Vec<Finding>) {
    kept.look_at(door, linked.iter().map(String::as_str).filter(|path| is_picture(path)), |path| look(door, path));
    let mut pictures = Pictures::default();
    let mut findings = Vec::new();
    for (path, result) in kept.iter() {
        let file = files.add(format!("content/{path}"), "");
        match result {
            Ok(size) => {
                let copies = copies(path, *size, |other| linked.contains(other));
                pictures.known.insert(path.to_owned(), Picture { file, size: *size, copies });
            }
            Err(fault) => findings.push(fault.clone().finding(Place::top_of(file))),
        }
    }
    (pictures, findings)
}

/// The sizes that the last survey found, or why there are none.
pub type KeptPictures = Looks<Result<Size, Fault>>;

/// Why a picture can't be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
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
    let whole = named.is_some_and(|format| is_whole(&bytes, format));
    let (width, height) = upright(width, height, orientation);
    if whole { Ok(Size { width, height }) } else { Err(Fault::Unreadable("its end is missing".to_owned())) }
}

/// Width and height once the picture is upright.
fn upright(width: u32, height: u32, orientation: Orientation) -> (u32, u32) {
    match orientation {
        Orientation::Rotate90 | Orientation::Rotate270 | Orientation::Rotate90FlipH | Orientation::Rotate270FlipH => {
            (height, width)
        }
        _ => (width, height),
    }
}
