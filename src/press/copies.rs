//! The published copies of pictures by what they were made from: an unchanged picture is never scaled twice.
//!
//! The list of a site notes for each copy the SHA-256 of all that it was made from. Where the next run finds the same
//! picture, it takes the copies over.

use std::collections::BTreeMap;
use std::io;
use std::sync::{Mutex, PoisonError};

use super::progress::Progress;
use super::version::Noted;
use crate::door::Digest;
use crate::picture::{self, Picture};
use crate::report::Finding;

/// The copies of the pictures of a site in the making.
pub(super) struct Copies<'a> {
    noted: &'a Noted<'a>,
    made_from: Mutex<BTreeMap<String, Digest>>,
}

impl<'a> Copies<'a> {
    /// No copies yet.
    pub(super) fn new(noted: &'a Noted<'a>) -> Self {
        Self { noted, made_from: Mutex::default() }
    }

    /// Writes the copies of a picture with its path from the content folder, from the bytes of its file. Returns a
    /// finding at that file, when it is broken after its header.
    ///
    /// # Errors
    /// When a copy can't be written.
    pub(super) fn write(
        &self,
        (path, picture): (&str, &Picture),
        bytes: &[u8],
        progress: &dyn Progress,
    ) -> io::Result<Option<Finding>> {
        let from = made_from(bytes, picture);
        let mut lacking = Vec::new();
        for copy in &picture.copies {
            if self.noted.keep(&copy.path, from)? {
                progress.step();
            } else {
                lacking.push(copy.size);
            }
        }
        if !lacking.is_empty() {
            let made = match picture::ready(bytes, picture) {
                Ok(made) => made,
                Err(finding) => return Ok(Some(*finding)),
            };
            for (copy, bytes) in made.iter().filter(|(copy, _)| lacking.contains(&copy.size)) {
                self.noted.write(&copy.path, bytes, Some(from))?;
                progress.step();
            }
        }
        self.made_from.lock().unwrap_or_else(PoisonError::into_inner).insert(path.to_owned(), from);
        Ok(None)
    }

    /// What the copies of the pictures that were written are made from, by the paths of the pictures.
    pub(super) fn made_from(self) -> BTreeMap<String, Digest> {
        self.made_from.into_inner().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The hash of all that the copies of a picture depend on: its bytes, their sizes, and the way they are made.
pub(super) fn made_from(bytes: &[u8], picture: &Picture) -> Digest {
    let sizes: Vec<String> =
        picture.copies.iter().map(|copy| format!(" {}x{}", copy.size.width, copy.size.height)).collect();
    let sizes = sizes.concat();
    let way = [picture::MAKING.as_bytes(), env!("CARGO_PKG_VERSION").as_bytes(), sizes.as_bytes(), b"\n"];
    Digest::of(way.into_iter().chain([bytes]))
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;
    use std::path::Path;

    use super::*;
    use crate::door::{Door, MANIFEST, Memory, Note, Purpose};
    use crate::picture::survey;
    use crate::report::Files;

    const PATH: &str = "pages/a.png";

    fn photo(shade: u8) -> Vec<u8> {
        let mut bytes = Cursor::new(Vec::new());
        let pixels = image::RgbImage::from_pixel(500, 20, image::Rgb([shade, 90, 30]));
        image::DynamicImage::from(pixels).write_to(&mut bytes, image::ImageFormat::Png).unwrap();
        bytes.into_inner()
    }

    /// Publishes a site of that picture and nothing else.
    fn publish(door: &Memory, shade: u8) -> BTreeMap<String, Vec<u8>> {
        let bytes = photo(shade);
        let (linked, mut files) = ([PATH.to_owned()].into(), Files::default());
        let guide = Memory::default().with(&format!("content/{PATH}"), &bytes);
        let (pictures, _) = survey(&guide, &linked, &mut files, &mut picture::KeptPictures::default());
        let staging = door.stage(Path::new("site"), Purpose::Site).unwrap();
        let noted = Noted::new(&*staging);
        let written = Copies::new(&noted).write((PATH, pictures.get(PATH).unwrap()), &bytes, &()).unwrap();
        assert!(written.is_none());
        noted.list();
        staging.swap().unwrap();
        door.written("site").unwrap()
    }

    /// Puts other bytes in the place of the copies, with a list that says that they are right.
    fn exchange(door: &Memory, shade: u8) -> BTreeMap<String, Vec<u8>> {
        let list = String::from_utf8(publish(door, shade)[MANIFEST].clone()).unwrap();
        let staging = door.stage(Path::new("site"), Purpose::Site).unwrap();
        for line in list.lines().skip(1) {
            let (from, path) = line.splitn(3, ' ').nth(2).unwrap().split_once(' ').unwrap();
            staging.note(BTreeMap::from([(path.into(), Note::of(path.as_bytes(), Digest::read(from)))]));
            staging.write(path, path.as_bytes()).unwrap();
        }
        staging.swap().unwrap();
        door.written("site").unwrap()
    }

    #[test]
    fn the_same_picture_is_not_made_again_and_another_one_is() {
        let door = Memory::default();
        let first = publish(&door, 10);
        assert_eq!(first.len(), 3, "two copies and the list");
        // Copies that nobody could make tell that they were taken over.
        let marked = exchange(&door, 10);
        assert_eq!(publish(&door, 10), marked);
        assert_ne!(publish(&door, 11)[PATH], marked[PATH]);
        assert_eq!(publish(&door, 10), first);
    }

    #[test]
    fn a_copy_that_is_not_what_the_list_says_is_made_again() {
        let door = Memory::default();
        let first = publish(&door, 10);
        for (path, bytes) in [(PATH, "damaged"), (MANIFEST, "{")] {
            door.damage("site", path, bytes);
            assert_eq!(publish(&door, 10), first, "{path}");
        }
    }
}
