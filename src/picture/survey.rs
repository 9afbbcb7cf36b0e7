//! The sizes of all pictures that the guide shows, from their headers alone.

use std::collections::{BTreeMap, BTreeSet};
use std::io;

use image::metadata::Orientation;
use image::{ImageDecoder, ImageFormat};

use super::copy::copies;
use super::fault::Fault;
use super::opened::{Opened, open};
use super::whole::is_whole;
use super::{Copy, Size};
use crate::door::{Door, Looks};
use crate::report::{FileId, Files, Finding, Place};

/// The most bytes that a picture file may have.
pub const MOST_BYTES: u64 = 60_000_000;

/// A picture that can be shown.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Picture {
    /// Its own file, where findings about it stand.
    pub file: FileId,
    /// The size in which it came, upright.
    pub size: Size,
    /// The bytes that its pixels take when they are decoded.
    pub weight: u64,
    /// The copies in which it is published, the narrowest first; at least one.
    pub copies: Vec<Copy>,
}

/// All pictures that can be shown, by their paths from the content folder.
#[derive(Debug, Default, Hash)]
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
            Ok((size, weight)) => {
                let copies = copies(path, *size, |other| linked.contains(other));
                let picture = Picture { file, size: *size, weight: *weight, copies };
                pictures.known.insert(path.to_owned(), picture);
            }
            Err(fault) => findings.push(fault.clone().finding(Place::top_of(file))),
        }
    }
    (pictures, findings)
}

/// The sizes that the last survey found, upright, with what the pixels weigh in bytes, or why there are none.
pub type KeptPictures = Looks<Result<(Size, u64), Fault>>;

fn look(door: &dyn Door, path: &str) -> Result<(Size, u64), Fault> {
    let bytes = door.read(&format!("content/{path}"), MOST_BYTES).map_err(|error| match error.kind() {
        io::ErrorKind::FileTooLarge => {
            Fault::TooLarge(format!("this picture is larger than {} MB", MOST_BYTES / 1_000_000))
        }
        _ => Fault::Unreadable(error.to_string()),
    })?;
    let Opened { mut decoder, format, weight } = open(&bytes)?;
    if ImageFormat::from_path(path).ok() != Some(format) {
        return Err(Fault::Unreadable("what is in it is not what its name says".to_owned()));
    }
    let (width, height) = decoder.dimensions();
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let (width, height) = upright(width, height, orientation);
    if is_whole(&bytes, format) {
        Ok((Size { width, height }, weight))
    } else {
        Err(Fault::Unreadable("its end is missing".to_owned()))
    }
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
