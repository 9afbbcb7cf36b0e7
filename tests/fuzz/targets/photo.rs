//! Bytes as a picture: looked at, and where it can be shown made ready in every width.

use std::collections::BTreeSet;

use maulstick::door::Memory;
use maulstick::picture::{KeptPictures, ready, survey};
use maulstick::report::Files;

use super::guide::placed;

/// Looks at the bytes and scales them.
///
/// # Panics
/// Where the program breaks a promise.
pub fn run(data: &[u8]) {
    let path = match data {
        [0x89, ..] => "pages/photo.png",
        [b'R', ..] => "pages/photo.webp",
        _ => "pages/photo.jpg",
    };
    let door = Memory::default().with(&format!("content/{path}"), data);
    let mut files = Files::default();
    let linked = BTreeSet::from([path.to_owned()]);
    let (pictures, findings) = survey(&door, &linked, &mut files, &mut KeptPictures::default());
    placed(findings.iter(), &files);
    match pictures.get(path) {
        None => assert!(!findings.is_empty(), "a picture is gone without a word"),
        Some(picture) => match ready(data, picture) {
            Ok(copies) => assert_eq!(copies.len(), picture.copies.len()),
            Err(finding) => placed(std::iter::once(&*finding), &files),
        },
    }
}
