//! The floor: what no program can do without that turns these sources into these files.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use pulldown_cmark::{Options, Parser, html};
use rayon::prelude::*;
use walkdir::WalkDir;

use crate::meter::Cost;

/// Reads and parses the sources of a guide and writes the bytes of its site to fresh files beside it.
pub(crate) fn run(guide: &Path, site: &Path) -> Cost {
    let pages: Vec<(PathBuf, Vec<u8>)> = files(site)
        .into_par_iter()
        .map(|path| (path.strip_prefix(site).unwrap().to_owned(), fs::read(&path).unwrap()))
        .collect();
    let target = site.with_extension("floor");
    Cost::of(|| {
        let letters: usize = files(&guide.join("content")).par_iter().map(|path| parse(path)).sum();
        assert!(letters > 0);
        let folders: BTreeSet<&Path> = pages.iter().filter_map(|(path, _)| path.parent()).collect();
        for folder in folders {
            fs::create_dir_all(target.join(folder)).unwrap();
        }
        pages.par_iter().for_each(|(path, bytes)| fs::write(target.join(path), bytes).unwrap());
    })
}

/// Parses one file as its kind asks for; how long the HTML of its Markdown is, so that none of the work is left out.
fn parse(path: &Path) -> usize {
    let text = fs::read_to_string(path).unwrap();
    let (yaml, markdown) = match text.strip_prefix("---\n").and_then(|rest| rest.split_once("\n---\n")) {
        Some((yaml, markdown)) => (yaml, markdown),
        None => (text.as_str(), ""),
    };
    let record: serde_json::Value = serde_yaml::from_str(yaml).unwrap();
    assert!(record.is_object());
    let mut out = String::new();
    html::push_html(&mut out, Parser::new_ext(markdown, Options::all()));
    out.len()
}

/// All files below a folder.
fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = WalkDir::new(folder).into_iter().map(Result::unwrap);
    entries.filter(|entry| entry.file_type().is_file()).map(walkdir::DirEntry::into_path).collect()
}

/// How many files are below a folder, and how many bytes they have.
pub(crate) fn weigh(folder: &Path) -> (usize, u64) {
    let files = files(folder);
    (files.len(), files.iter().map(|path| fs::metadata(path).unwrap().len()).sum())
}
