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

#[cfg(test)]
mod tests {
    use super::*;

    /// The blocks that the sheet has had from the beginning. A guide may have its own `sheet.html` with these alone, and a
    /// template that fills another could not be used with it.
    const BLOCKS: [&str; 9] =
        ["title", "description", "head", "scripts", "body_class", "top", "main_class", "main", "after_main"];

    #[test]
    fn every_template_fits_a_sheet_of_an_older_theme() {
        let sheets = files().into_iter().filter(|(path, _)| path.starts_with("sheets/"));
        let mut filled = 0;
        for (path, bytes) in sheets {
            let text = std::str::from_utf8(bytes).unwrap();
            for block in text.split("{% block ").skip(1).filter_map(|rest| rest.split_whitespace().next()) {
                assert!(BLOCKS.contains(&block), "{path} fills {block}");
                filled += 1;
            }
        }
        assert!(filled > 60, "{filled}");
    }
}
