//! The licence texts of all that is in the program, each text once.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::io::{self, Error};
use std::path::{Path, PathBuf};

use crate::libraries::Library;

/// How the names of files with licences and notices begin.
const NAMES: [&str; 6] = ["license", "licence", "copying", "copyright", "notice", "unlicense"];

/// Where texts of the fonts and scripts lie that every published site carries.
const OF_THE_THEME: [&str; 2] = ["themes/chart/fonts", "themes/chart/script/vendor"];

/// Standard texts that lie beside the program in any case.
const BESIDE: [&str; 2] = ["Apache-2.0", "MIT"];

const RULE: &str = "\n================================================================================\n";

/// All texts, with the names of those whom they cover.
pub(crate) fn text(libraries: &[Library]) -> io::Result<String> {
    let mut texts: BTreeMap<String, (Vec<String>, String)> = BTreeMap::new();
    let mut without = Vec::new();
    for library in libraries.iter().filter(|library| library.checksum.is_some()) {
        let label = format!("{} {} ({})", library.name, library.version, library.licence);
        let files = files_in(&library.folder)?;
        if files.is_empty() {
            without.push(named_only(library)?);
        }
        for file in files {
            add(&mut texts, &label, &file)?;
        }
    }
    for folder in OF_THE_THEME.map(Path::new) {
        for file in files_in(folder)? {
            add(&mut texts, &format!("{} of the built-in theme", shown(&file)), &file)?;
        }
    }
    let mut by_label: Vec<_> = texts.into_values().collect();
    by_label.sort();
    let mut text = "The program is made of these libraries, each under its own licence.\n".to_owned();
    for (labels, words) in by_label {
        let _ = writeln!(text, "{RULE}{}\n\n{words}", labels.join("\n"));
    }
    let _ = writeln!(
        text,
        "{RULE}These packages name a licence and hold no text of it. LICENSE-APACHE beside the program is one such text; \
         LICENSE-MIT is the other, with these names in its first line.\n\n{}",
        without.join("\n")
    );
    Ok(text)
}

fn add(texts: &mut BTreeMap<String, (Vec<String>, String)>, label: &str, file: &Path) -> io::Result<()> {
    let words = String::from_utf8_lossy(&fs::read(file)?).replace("\r\n", "\n").trim_matches('\n').to_owned();
    // The same text with other breaks of lines is the same text.
    let same = words.split_whitespace().collect::<Vec<_>>().join(" ");
    let entry = texts.entry(same).or_insert_with(|| (Vec::new(), words));
    if entry.0.last().is_none_or(|last| last != label) {
        entry.0.push(label.to_owned());
    }
    Ok(())
}

/// The files with licences in a folder, by name.
fn files_in(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let name = shown(&path).to_lowercase();
        if path.is_file()
            && (name.starts_with("ofl") || name.contains("-ofl-") || NAMES.iter().any(|start| name.starts_with(start)))
        {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

/// One line for a library whose package holds no text. Its licence must be one whose text lies beside the program.
fn named_only(library: &Library) -> io::Result<String> {
    let Library { name, version, licence, authors, .. } = library;
    if !licence.split(" OR ").any(|choice| BESIDE.contains(&choice.trim_matches(['(', ')']))) {
        return Err(Error::other(format!("no text of {licence} in {name} {version}")));
    }
    let by = if authors.is_empty() { "the authors of the package".to_owned() } else { authors.join(", ") };
    Ok(format!("{name} {version} ({licence}), by {by}"))
}

fn shown(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}
