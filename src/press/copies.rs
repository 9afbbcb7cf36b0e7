//! The published copies of pictures by what they were made from: an unchanged picture is never scaled twice.
//!
//! A site notes in `data/pictures.json` for each picture the SHA-256 of all that its copies were made from, and theirs.
//! Where the next run finds the same picture, and copies whose bytes still have those hashes, it takes them over. So a
//! copy that was damaged or exchanged since is made again, and the new site is the same whether there was an old one or not.

use std::collections::BTreeMap;
use std::io;
use std::sync::{Mutex, PoisonError};

use serde::{Deserialize, Serialize};

use super::digest::sha256;
use crate::door::Staging;
use crate::picture::{self, Picture};
use crate::report::Finding;

/// Where the notes stand in the published folder.
const NOTES: &str = "data/pictures.json";

/// More bytes of notes, or of one copy, are not read.
const MOST_BYTES: u64 = 100_000_000;

/// What is noted of one picture.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Note {
    /// The hash of what its copies were made from.
    from: String,
    /// The hashes of the copies, by their paths.
    copies: BTreeMap<String, String>,
}

/// The copies of the pictures of a site in the making.
pub(super) struct Copies<'a> {
    staging: &'a dyn Staging,
    before: BTreeMap<String, Note>,
    now: Mutex<BTreeMap<String, Note>>,
}

impl<'a> Copies<'a> {
    /// Looks at what the site in place has noted; notes that can't be read are none.
    pub(super) fn new(staging: &'a dyn Staging) -> Self {
        let notes = staging.standing(NOTES, MOST_BYTES).ok();
        let before = notes.and_then(|notes| serde_json::from_slice(&notes).ok()).unwrap_or_default();
        Self { staging, before, now: Mutex::default() }
    }

    /// The copies of a picture with their paths, from the bytes of its file.
    ///
    /// # Errors
    /// A finding at the picture's file, when it is broken after its header.
    pub(super) fn of(
        &self,
        path: &str,
        bytes: &[u8],
        picture: &Picture,
    ) -> Result<Vec<(String, Vec<u8>)>, Box<Finding>> {
        let from = made_from(bytes, picture);
        if let Some(known) = self.before.get(path).filter(|known| known.from == from)
            && let Some(copies) = self.standing(known, picture)
        {
            self.note(path, known.clone());
            return Ok(copies);
        }
        let made = picture::ready(bytes, picture)?;
        let copies: Vec<(String, Vec<u8>)> = made.into_iter().map(|(copy, bytes)| (copy.path, bytes)).collect();
        let hashes = copies.iter().map(|(path, bytes)| (path.clone(), sha256([bytes.as_slice()]))).collect();
        self.note(path, Note { from, copies: hashes });
        Ok(copies)
    }

    /// The bytes of a picture that the program draws, known by its mark: as they stand where the last run drew the same,
    /// and otherwise made.
    ///
    /// # Errors
    /// What the making says.
    pub(super) fn drawn<E>(
        &self,
        path: &str,
        mark: String,
        make: impl FnOnce() -> Result<Vec<u8>, E>,
    ) -> Result<Vec<u8>, E> {
        if let Some(known) = self.before.get(path).filter(|known| known.from == mark)
            && let Ok(bytes) = self.staging.standing(path, MOST_BYTES)
            && known.copies.get(path) == Some(&sha256([bytes.as_slice()]))
        {
            self.note(path, known.clone());
            return Ok(bytes);
        }
        let bytes = make()?;
        let copies = [(path.to_owned(), sha256([bytes.as_slice()]))].into();
        self.note(path, Note { from: mark, copies });
        Ok(bytes)
    }

    /// The copies as they are, if all of them are what the notes say.
    fn standing(&self, known: &Note, picture: &Picture) -> Option<Vec<(String, Vec<u8>)>> {
        let one = |copy: &picture::Copy| {
            let bytes = self.staging.standing(&copy.path, MOST_BYTES).ok()?;
            let is_same = known.copies.get(&copy.path) == Some(&sha256([bytes.as_slice()]));
            is_same.then(|| (copy.path.clone(), bytes))
        };
        (known.copies.len() == picture.copies.len()).then(|| picture.copies.iter().map(one).collect()).flatten()
    }

    /// Writes a copy.
    ///
    /// # Errors
    /// When it can't be written.
    pub(super) fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        self.staging.write(path, bytes)
    }

    fn note(&self, path: &str, note: Note) {
        self.now.lock().unwrap_or_else(PoisonError::into_inner).insert(path.to_owned(), note);
    }

    /// Writes the notes for the next run; tells how many files that were.
    ///
    /// # Errors
    /// When they can't be written.
    pub(super) fn finish(self) -> io::Result<usize> {
        let now = self.now.into_inner().unwrap_or_else(PoisonError::into_inner);
        if now.is_empty() {
            return Ok(0);
        }
        self.staging.write(NOTES, &serde_json::to_vec(&now)?)?;
        Ok(1)
    }
}

/// The hash of all that the copies of a picture depend on: its bytes, their sizes, and the way they are made.
pub(super) fn made_from(bytes: &[u8], picture: &Picture) -> String {
    let sizes: Vec<String> =
        picture.copies.iter().map(|copy| format!(" {}x{}", copy.size.width, copy.size.height)).collect();
    let sizes = sizes.concat();
    let way = [picture::MAKING.as_bytes(), env!("CARGO_PKG_VERSION").as_bytes(), sizes.as_bytes(), b"\n"];
    sha256(way.into_iter().chain([bytes]))
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;
    use std::path::Path;

    use super::*;
    use crate::door::{Door, Memory, Purpose};
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
        let copies = Copies::new(&*staging);
        for (path, bytes) in copies.of(PATH, &bytes, pictures.get(PATH).unwrap()).unwrap() {
            staging.write(&path, &bytes).unwrap();
        }
        copies.finish().unwrap();
        staging.swap().unwrap();
        door.written("site").unwrap()
    }

    /// Puts another site in the place of the one in place.
    fn exchange(door: &Memory, files: &BTreeMap<String, Vec<u8>>) {
        let staging = door.stage(Path::new("site"), Purpose::Site).unwrap();
        for (path, bytes) in files {
            staging.write(path, bytes).unwrap();
        }
        staging.swap().unwrap();
    }

    #[test]
    fn the_same_picture_is_not_made_again_and_another_one_is() {
        let door = Memory::default();
        let first = publish(&door, 10);
        assert_eq!(first.len(), 3, "two copies and the notes");
        // Copies that nobody could make tell that they were taken over.
        let mut marked = first.clone();
        let mut notes = String::from_utf8(first[NOTES].clone()).unwrap();
        for (path, bytes) in marked.iter_mut().filter(|(path, _)| *path != NOTES) {
            notes = notes.replace(&sha256([bytes.as_slice()]), &sha256([path.as_bytes()]));
            *bytes = path.clone().into_bytes();
        }
        marked.insert(NOTES.to_owned(), notes.into_bytes());
        exchange(&door, &marked);
        assert_eq!(publish(&door, 10), marked);
        assert_ne!(publish(&door, 11)[PATH], marked[PATH]);
        assert_eq!(publish(&door, 10), first);
    }

    #[test]
    fn a_copy_that_is_not_what_the_notes_say_is_made_again() {
        let door = Memory::default();
        let first = publish(&door, 10);
        for (path, bytes) in [(PATH, "damaged"), (NOTES, "{"), (NOTES, "{\"pages/a.png\": 3}")] {
            let mut damaged = first.clone();
            damaged.insert(path.to_owned(), bytes.into());
            exchange(&door, &damaged);
            assert_eq!(publish(&door, 10), first, "{path}");
        }
    }
}
