//! The walk through a guide's folder: which files are the author's content, and what is left out and why.

use std::fs;
use std::io;
use std::path::Path;

use rayon::prelude::*;
use walkdir::{DirEntry, WalkDir};

use super::failure::{about, failure};
use super::names::{check_path, is_litter, objection, shown};
use super::{Entry, Listing, doubles};

/// What becomes of one thing that the walk meets.
enum Verdict {
    Take,
    Enter,
    Pass,
    Refuse(String),
}

/// The folder of a guide that holds its themes.
const THEMES: &str = "themes";

/// So deep lie the folders of schemes, which are most of a guide: they are walked through side by side.
const SIDE_BY_SIDE: usize = 2;

/// Why a link is not followed.
const IS_LINK: &str = "it is a link, and what it leads to may not travel with the guide";

/// Whether a path is that of the folder of themes, or leads into it.
pub(super) fn is_among_themes(path: &str) -> bool {
    path.split('/').next() == Some(THEMES)
}

/// Lists the files below `folder` of the guide; only the folder itself may be a link, which the author chose. The folder
/// of themes may not: scripts of a theme run, and by a link they come from outside without a word.
pub(super) fn list(guide: &Path, folder: &str) -> io::Result<Listing> {
    check_path(folder)?;
    if is_among_themes(folder) && guide.join(THEMES).is_symlink() {
        return Ok(Listing { refused: vec![(THEMES.to_owned(), IS_LINK.to_owned())], ..Listing::default() });
    }
    let root = guide.join(folder);
    check_root(&root, folder)?;
    let mut listing = Listing::default();
    let walked = Walked { root: &root, folder };
    let inner = walked.from(WalkDir::new(&root).max_depth(SIDE_BY_SIDE), &mut listing);
    let inner = inner.map_err(|error| about(&root)(error.into()))?;
    let below = |folder: &DirEntry| {
        let mut listing = Listing::default();
        // What takes the place of a folder meanwhile is not followed, as within a walk.
        match walked.from(WalkDir::new(folder.path()).follow_root_links(false), &mut listing) {
            Ok(_) => {}
            Err(error) => refuse_unreadable(&mut listing, walked.shown(folder.path()), &error.into()),
        }
        listing
    };
    for found in inner.par_iter().map(below).collect::<Vec<_>>() {
        listing.files.extend(found.files);
        listing.refused.extend(found.refused);
    }
    listing.files.sort();
    doubles::refuse(&mut listing);
    listing.refused.sort();
    Ok(listing)
}

fn check_root(root: &Path, folder: &str) -> io::Result<()> {
    match fs::metadata(root) {
        Ok(found) if found.is_dir() => Ok(()),
        Ok(_) => Err(failure(io::ErrorKind::NotADirectory, format!("'{folder}' is not a folder"))),
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            Err(failure(error.kind(), format!("there is no folder '{folder}'")))
        }
        Err(error) => Err(about(root)(error)),
    }
}

/// What is walked through: the folder of the guide on the disk, and its path in the guide.
struct Walked<'a> {
    root: &'a Path,
    folder: &'a str,
}

impl Walked<'_> {
    /// Lists what a walk meets. Returns the folders at its bottom, which it would have gone into.
    ///
    /// # Errors
    /// Where the folder that it begins at can't be read.
    fn from(&self, walk: WalkDir, listing: &mut Listing) -> walkdir::Result<Vec<DirEntry>> {
        let mut bottom = Vec::new();
        let mut walk = walk.min_depth(1).into_iter();
        while let Some(next) = walk.next() {
            match next {
                Ok(entry) => {
                    let entered = take(listing, &entry, &self.shown(entry.path()));
                    if entry.file_type().is_dir() && !entered {
                        walk.skip_current_dir();
                    } else if entered && entry.depth() == SIDE_BY_SIDE {
                        bottom.push(entry);
                    }
                }
                Err(error) if error.depth() == 0 => return Err(error),
                Err(error) => {
                    let path = error.path().map_or_else(|| self.folder.to_owned(), |path| self.shown(path));
                    refuse_unreadable(listing, path, &error.into());
                }
            }
        }
        Ok(bottom)
    }

    /// A path on the disk as it is shown.
    fn shown(&self, path: &Path) -> String {
        let below = path.strip_prefix(self.root).unwrap_or(path);
        let parts = below.iter().map(|part| part.to_string_lossy());
        shown(&std::iter::once(self.folder.into()).chain(parts).collect::<Vec<_>>().join("/"))
    }
}

/// Puts one thing where it belongs; whether it is a folder to go into.
fn take(listing: &mut Listing, entry: &DirEntry, path: &str) -> bool {
    match judge(entry) {
        Verdict::Enter => return true,
        Verdict::Pass => {}
        Verdict::Refuse(reason) => listing.refused.push((path.to_owned(), reason)),
        Verdict::Take => match entry.metadata() {
            Ok(found) => listing.files.push(Entry { path: path.to_owned(), size: found.len() }),
            Err(error) => refuse_unreadable(listing, path.to_owned(), &error.into()),
        },
    }
    false
}

fn judge(entry: &DirEntry) -> Verdict {
    let kind = entry.file_type();
    if is_litter(&entry.file_name().to_string_lossy()) {
        return Verdict::Pass;
    }
    let Some(name) = entry.file_name().to_str() else {
        return Verdict::Refuse("its name is not valid UTF-8".to_owned());
    };
    if let Some(reason) = objection(name) {
        Verdict::Refuse(reason)
    } else if kind.is_dir() {
        Verdict::Enter
    } else if kind.is_file() {
        Verdict::Take
    } else if kind.is_symlink() {
        Verdict::Refuse(IS_LINK.to_owned())
    } else {
        Verdict::Refuse("it is a device, a pipe or a socket".to_owned())
    }
}

/// A file may go while the walk runs, as when an editor saves; that is nobody's fault and no finding.
fn refuse_unreadable(listing: &mut Listing, path: String, error: &io::Error) {
    if error.kind() != io::ErrorKind::NotFound {
        listing.refused.push((path, format!("it can't be read: {}", error.kind())));
    }
}

#[cfg(test)]
mod tests {
    #[cfg(unix)]
    use std::ffi::OsStr;
    #[cfg(unix)]
    use std::os::unix::ffi::OsStrExt;
    #[cfg(unix)]
    use std::os::unix::fs::symlink;
    #[cfg(unix)]
    use std::os::unix::net::UnixListener;

    use super::*;

    fn guide(files: &[&str]) -> tempfile::TempDir {
        let guide = tempfile::tempdir().unwrap();
        for path in files {
            let full = guide.path().join("content").join(path);
            fs::create_dir_all(full.parent().unwrap()).unwrap();
            fs::write(full, path).unwrap();
        }
        guide
    }

    fn listed(guide: &tempfile::TempDir) -> (Vec<String>, Vec<(String, String)>) {
        let listing = list(guide.path(), "content").unwrap();
        (listing.files.into_iter().map(|file| file.path).collect(), listing.refused)
    }

    #[test]
    fn ordinary_files_are_listed_in_the_order_of_their_paths_with_their_sizes() {
        let guide = guide(&["b/z.md", "b.md", "a.yaml", "b/a/c.jpg"]);
        let listing = list(guide.path(), "content").unwrap();
        let expected = [("a.yaml", 6), ("b.md", 4), ("b/a/c.jpg", 9), ("b/z.md", 6)];
        let expected = expected.map(|(path, size)| Entry { path: format!("content/{path}"), size });
        assert_eq!(listing.files, expected);
        assert_eq!(listing.refused, []);
    }

    #[test]
    fn litter_and_what_lies_in_hidden_folders_is_passed_over_without_a_word() {
        let guide = guide(&["a.md", ".git/config", ".hidden", "a.md~", "photos/Thumbs.db", ".x/what.md"]);
        assert_eq!(listed(&guide), (vec!["content/a.md".to_owned()], Vec::new()));
    }

    #[test]
    fn what_lies_deep_is_listed_and_passed_over_as_what_lies_above() {
        let deep =
            ["s/.x/a.md", "s/one/.x/a.md", "s/one/b.md", "s/one/in/.x", "s/one/in/c.jpg", "s/two/a.md~", "s/z.md"];
        let expected = ["content/s/one/b.md", "content/s/one/in/c.jpg", "content/s/z.md"].map(str::to_owned).to_vec();
        assert_eq!(listed(&guide(&deep)), (expected, Vec::new()));
    }

    #[cfg(unix)]
    #[test]
    fn links_are_named_and_not_followed() {
        let guide = guide(&["a.md", "dir/b.md"]);
        let content = guide.path().join("content");
        symlink("a.md", content.join("link.md")).unwrap();
        symlink("..", content.join("up")).unwrap();
        symlink("/nowhere", content.join("dangling")).unwrap();
        let (files, refused) = listed(&guide);
        assert_eq!(files, ["content/a.md", "content/dir/b.md"]);
        let paths: Vec<&str> = refused.iter().map(|(path, _)| path.as_str()).collect();
        assert_eq!(paths, ["content/dangling", "content/link.md", "content/up"]);
        assert!(refused.iter().all(|(_, reason)| reason.starts_with("it is a link")), "{refused:?}");
    }

    #[cfg(unix)]
    #[test]
    fn the_folder_itself_may_be_a_link() {
        let guide = guide(&["a.md"]);
        symlink("content", guide.path().join("elsewhere")).unwrap();
        let listing = list(guide.path(), "elsewhere").unwrap();
        assert_eq!(listing.files, [Entry { path: "elsewhere/a.md".to_owned(), size: 4 }]);
    }

    #[cfg(unix)]
    #[test]
    fn what_is_no_file_is_refused() {
        let guide = guide(&["a.md"]);
        let _socket = UnixListener::bind(guide.path().join("content/socket")).unwrap();
        let (files, refused) = listed(&guide);
        assert_eq!(files, ["content/a.md"]);
        assert_eq!(refused, [("content/socket".to_owned(), "it is a device, a pipe or a socket".to_owned())]);
    }

    // Windows makes no such files.
    #[cfg(unix)]
    #[test]
    fn a_folder_with_a_bad_name_is_refused_once_and_not_entered() {
        let guide = guide(&["aux/a.md", "aux/b.md", "what?/c.md", "fine.md"]);
        let (files, refused) = listed(&guide);
        assert_eq!(files, ["content/fine.md"]);
        let paths: Vec<&str> = refused.iter().map(|(path, _)| path.as_str()).collect();
        assert_eq!(paths, ["content/aux", "content/what?"]);
    }

    #[cfg(unix)]
    #[test]
    fn names_that_are_not_text_are_shown_as_well_as_can_be() {
        let guide = guide(&["a.md", "bell\u{7}.md"]);
        fs::write(guide.path().join("content").join(OsStr::from_bytes(b"caf\xe9.md")), "").unwrap();
        let (files, refused) = listed(&guide);
        assert_eq!(files, ["content/a.md"]);
        let expected = [
            ("content/bell\u{fffd}.md".to_owned(), "its name has a control character in it".to_owned()),
            ("content/caf\u{fffd}.md".to_owned(), "its name is not valid UTF-8".to_owned()),
        ];
        assert_eq!(refused, expected);
    }

    // Windows makes no such files.
    #[cfg(unix)]
    #[test]
    fn of_two_paths_that_some_systems_take_for_one_the_later_is_refused() {
        let guide = guide(&["Gold.md", "gold.md", "x/\u{e9}.md", "x/e\u{301}.md", "golden.md"]);
        let (files, refused) = listed(&guide);
        assert_eq!(files, ["content/Gold.md", "content/golden.md", "content/x/e\u{301}.md"]);
        assert_eq!(refused.len(), 2);
        assert_eq!(refused[0].0, "content/gold.md");
        assert!(refused[0].1.contains("'content/Gold.md'"), "{refused:?}");
        assert!(refused[1].1.contains("'content/x/e\u{301}.md'"), "{refused:?}");
    }

    // Windows makes no such files.
    #[cfg(unix)]
    #[test]
    fn folders_that_some_systems_take_for_one_are_not_mixed() {
        let guide = guide(&["Photos/a.png", "photos/b.png", "x/map.pdf/a.png", "x/Map.pdf", "y/a.png", "y/b.png"]);
        let (files, refused) = listed(&guide);
        let expected = ["content/photos/b.png", "content/x/Map.pdf", "content/y/a.png", "content/y/b.png"];
        assert_eq!(files, expected);
        let paths: Vec<&str> = refused.iter().map(|(path, _)| path.as_str()).collect();
        assert_eq!(paths, ["content/Photos", "content/x/map.pdf/a.png"]);
        assert!(refused[0].1.starts_with("its name differs from 'content/photos'"), "{refused:?}");
    }

    #[test]
    fn a_folder_that_is_not_there_or_is_a_file_is_an_error() {
        let guide = guide(&["a.md"]);
        assert_eq!(list(guide.path(), "missing").unwrap_err().kind(), io::ErrorKind::NotFound);
        assert_eq!(list(guide.path(), "content/a.md").unwrap_err().kind(), io::ErrorKind::NotADirectory);
        assert_eq!(list(guide.path(), "../content").unwrap_err().kind(), io::ErrorKind::InvalidInput);
    }
}
