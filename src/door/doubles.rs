//! Paths that only some systems tell apart: by capitals, or by how accents are stored. On the others one would replace the
//! other, or two folders become one.

use std::collections::{BTreeMap, BTreeSet};

use super::names::folded;
use super::{Entry, Listing};

/// Refuses what only some systems tell from something else: of folders all but one, then each file that comes later.
pub(super) fn refuse(listing: &mut Listing) {
    listing.twins = twins(&listing.files);
    if !listing.twins.is_empty() {
        let twins = &listing.twins;
        listing.files.retain(|file| !folders(&file.path).any(|folder| twins.contains_key(folder)));
        listing.refused.extend(twins.iter().map(|(twin, taken)| (twin.clone(), reason("its name", taken))));
    }
    refuse_files(listing);
}

fn reason(what: &str, other: &str) -> String {
    format!("{what} differs from '{other}' only in capitals or in how its accents are stored")
}

/// The folders that a path leads through, the outermost first.
fn folders(path: &str) -> impl Iterator<Item = &str> {
    path.match_indices('/').map(|(at, _)| &path[..at])
}

/// Each folder that is left out for another of the same name but for capitals or accents, with that other. Of such folders
/// the one in small letters stays, which is most likely what was meant, or else the first.
fn twins(files: &[Entry]) -> BTreeMap<String, String> {
    let all: BTreeSet<&str> = files.iter().flat_map(|file| folders(&file.path)).collect();
    let mut from_outside: Vec<&str> = all.into_iter().collect();
    from_outside.sort_by_key(|folder| folder.matches('/').count());
    let mut taken: BTreeMap<String, &str> = BTreeMap::new();
    let mut left_out: BTreeSet<&str> = BTreeSet::new();
    for folder in from_outside {
        // What is in a folder that is left out goes with it.
        if folders(folder).any(|outer| left_out.contains(outer)) {
            continue;
        }
        let first = *taken.entry(folded(folder)).or_insert(folder);
        if first == folder {
            continue;
        }
        if is_plain(folder) {
            taken.insert(folded(folder), folder);
            left_out.insert(first);
        } else {
            left_out.insert(folder);
        }
    }
    let other = |folder: &str| taken.get(&folded(folder)).map(|taken| (*taken).to_owned()).unwrap_or_default();
    left_out.into_iter().map(|folder| (folder.to_owned(), other(folder))).collect()
}

/// Whether a folder's own name is in small letters, and its accents as most systems store them. Of twins only one is.
fn is_plain(folder: &str) -> bool {
    let name = folder.rsplit('/').next().unwrap_or(folder);
    folded(name) == name
}

/// Refuses each file whose path is that of an earlier file, or of a folder of one, on some systems.
fn refuse_files(listing: &mut Listing) {
    let mut seen: BTreeMap<String, String> = BTreeMap::new();
    let mut fine_folder = String::new();
    let refused = &mut listing.refused;
    listing.files.retain(|file| {
        let folder = file.path.rsplit_once('/').map_or("", |(folder, _)| folder);
        // The files are sorted, so most lie in the folder of the one before.
        let known = if folder == fine_folder { folder.len() } else { 0 };
        let ends = file.path.match_indices('/').map(|(at, _)| at).filter(|at| *at > known).chain([file.path.len()]);
        for part in ends.filter_map(|end| file.path.get(..end)) {
            let first = seen.entry(folded(part)).or_insert_with(|| part.to_owned());
            if first == part {
                continue;
            }
            let what = if part == file.path { "its path" } else { "its folder" };
            refused.push((file.path.clone(), reason(what, first)));
            return false;
        }
        folder.clone_into(&mut fine_folder);
        true
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    fn left(paths: &[&str]) -> (Vec<String>, Vec<(String, String)>) {
        let mut files: Vec<Entry> = paths.iter().map(|path| Entry { path: (*path).to_owned(), size: 1 }).collect();
        files.sort();
        let mut listing = Listing { files, ..Listing::default() };
        refuse(&mut listing);
        assert!(listing.twins.keys().all(|twin| listing.refused.iter().any(|(path, _)| path == twin)));
        (listing.files.into_iter().map(|file| file.path).collect(), listing.refused)
    }

    #[test]
    fn the_folder_in_small_letters_stays_whole_and_its_twin_is_told_once() {
        let (files, refused) = left(&["s/First-Figure/a.md", "s/First-Figure/b.md", "s/first-figure/a.md", "s/x/a.md"]);
        assert_eq!(files, ["s/first-figure/a.md", "s/x/a.md"]);
        let why = "its name differs from 's/first-figure' only in capitals or in how its accents are stored";
        assert_eq!(refused, [("s/First-Figure".to_owned(), why.to_owned())]);
    }

    #[test]
    fn of_three_twins_one_stays_and_the_others_name_it() {
        for (names, stays) in
            [(["AB", "Ab", "ab"], "ab"), (["AB", "Ab", "aB"], "AB"), (["E\u{301}", "e\u{301}", "\u{e9}"], "\u{e9}")]
        {
            let paths = names.map(|name| format!("{name}/a.md"));
            let (files, refused) = left(&paths.each_ref().map(String::as_str));
            assert_eq!(files, [format!("{stays}/a.md")]);
            assert_eq!(refused.len(), 2, "{refused:?}");
            assert!(
                refused.iter().all(|(path, why)| path != stays && why.contains(&format!("'{stays}'"))),
                "{refused:?}"
            );
        }
    }

    #[test]
    fn what_is_in_a_twin_goes_with_it() {
        let (files, refused) = left(&["A/X/a.md", "A/x/a.md", "a/X/a.md", "a/Y/a.md", "a/y/a.md"]);
        assert_eq!(files, ["a/X/a.md", "a/y/a.md"]);
        let paths: Vec<&str> = refused.iter().map(|(path, _)| path.as_str()).collect();
        assert_eq!(paths, ["A", "a/Y"]);
    }
}
