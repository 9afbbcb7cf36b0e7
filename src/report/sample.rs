//! A few findings in a small guide, for the tests of the printers.

use super::{Check, FileId, Files, Finding, Findings, Group, Level, Place};

const fn check(id: &'static str, level: Level, about: &'static str, why: &'static str) -> Check {
    Check { id, level, about, why, group: Group::Names, safety: false }
}

pub(super) static TWICE: Check =
    check("paint-twice", Level::Error, "a paint stands in one range", "a step that names it could mean either");

pub(super) static STRAY: Check =
    check("file-stray", Level::Warning, "a file stands where it is read", "it is silently missing from the guide");

pub(super) static BARE: Check =
    check("picture-bare", Level::Note, "a picture has a description", "who can't see it learns nothing from it");

/// The last place in a file where these words stand.
pub(super) fn place_of(files: &Files, file: FileId, words: &str) -> Place {
    let start = files.text(file).rfind(words).expect("the words stand in the file");
    Place::new(file, start, start + words.len())
}

/// One finding with a related place in a file whose name no URI may hold as it is.
pub(super) fn paint_in_two_ranges() -> (Findings, Files) {
    let mut files = Files::default();
    let first = files.add("content/paints/größe 2.yaml", "maker: Größe\r\npaints:\r\n  - id: marsh-gold\r\n");
    let filler = "  - id: reed\n".repeat(9);
    let second = files.add("content/paints/mere.yaml", format!("maker: Mere\npaints:\n{filler}  - id: marsh-gold\n"));
    let message = "'marsh-gold' is in two ranges";
    let finding = Finding::new(&TWICE, place_of(&files, second, "marsh-gold"), message, "give one of them another id")
        .see(place_of(&files, first, "marsh-gold"), "first used here");
    (Findings::gather(vec![finding], &files), files)
}
