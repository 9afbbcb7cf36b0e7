//! The built-in theme, part of the program.

use include_dir::{Dir, include_dir};

/// The name of the built-in theme.
pub(super) const NAME: &str = "chart";

static FILES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/themes/chart");

/// All files of the built-in theme: path from the theme's folder, and bytes.
pub(super) fn files() -> Vec<(String, &'static [u8])> {
    let mut files = Vec::new();
    gather(&FILES, &mut files);
    files.sort();
    files
}

fn gather(folder: &Dir<'static>, files: &mut Vec<(String, &'static [u8])>) {
    for file in folder.files() {
        let parts: Vec<String> = file.path().iter().map(|part| part.to_string_lossy().into_owned()).collect();
        files.push((parts.join("/"), file.contents()));
    }
    for inner in folder.dirs() {
        gather(inner, files);
    }
}
