//! What an author put into a published site, such as the file with its domain or a `.git`: it comes over into the new one.

use std::fs::{self, File, Permissions};
use std::io::{self, BufRead, BufReader};
use std::path::{Path, PathBuf};

use walkdir::{DirEntry, WalkDir};

use super::super::failure::{failure, in_words};
use super::super::system;
use super::manifest::{Manifest, listed};

/// Brings over everything in `old` that its manifest does not cover, and leaves `old` as it is.
///
/// # Errors
/// When something can't be brought over, or something else stands in its place in `new`.
pub(super) fn over(old: &Path, was: &Manifest, new: &Path) -> io::Result<()> {
    let all = WalkDir::new(old).min_depth(1).into_iter();
    let is_foreign = |entry: &DirEntry| !was.covers(entry, below(old, entry));
    let mut foreign = all.filter(|entry| entry.as_ref().map_or(true, is_foreign)).collect::<Result<Vec<_>, _>>()?;
    // A folder before what is in it, and always in the same order.
    foreign.sort_unstable_by(|one, other| one.path().cmp(other.path()));
    let mut made: Vec<(PathBuf, Permissions)> = Vec::new();
    for entry in foreign {
        let below = below(old, &entry);
        let done = if entry.file_type().is_dir() {
            make_folders(new, below).and_then(|fresh| {
                if fresh {
                    made.push((new.join(below), entry.metadata()?.permissions()));
                }
                Ok(())
            })
        } else {
            make_folders(new, below.parent().unwrap_or(Path::new(""))).and_then(|_| bring(&entry, &new.join(below)))
        };
        done.map_err(|error| {
            let shown = listed(below).unwrap_or_else(|| below.to_string_lossy());
            in_words(&error, format!("your own '{shown}' can't be kept in the new site: {error}"))
        })?;
    }
    // Last, for a folder that may only be read takes no files.
    made.into_iter().rev().try_for_each(|(folder, permissions)| permit(&folder, permissions))
}

/// Gives something new the permissions of the old, unless it has them: some file systems refuse to be asked.
fn permit(new: &Path, permissions: Permissions) -> io::Result<()> {
    if fs::symlink_metadata(new)?.permissions() == permissions { Ok(()) } else { fs::set_permissions(new, permissions) }
}

/// The path of something below the folder that a walk began in.
pub(super) fn below<'a>(folder: &Path, entry: &'a DirEntry) -> &'a Path {
    entry.path().strip_prefix(folder).unwrap_or(entry.path())
}

/// Makes a folder below another, step by step so that no link on the way leads elsewhere; whether the last one is new.
fn make_folders(root: &Path, below: &Path) -> io::Result<bool> {
    let mut folder = root.to_owned();
    let mut fresh = false;
    for part in below {
        folder.push(part);
        fresh = match fs::create_dir(&folder) {
            Ok(()) => true,
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => false,
            Err(error) => return Err(error),
        };
        if !fs::symlink_metadata(&folder)?.is_dir() {
            return Err(in_the_way());
        }
    }
    Ok(fresh)
}

fn in_the_way() -> io::Error {
    failure(io::ErrorKind::AlreadyExists, "something else of that name is published; rename one of the two")
}

/// Brings over one thing that is no folder: as a second name of the same file where that can be, else as a copy.
fn bring(entry: &DirEntry, to: &Path) -> io::Result<()> {
    let from = entry.path();
    if fs::symlink_metadata(to).is_ok() {
        return if is_same(from, to) { Ok(()) } else { Err(in_the_way()) };
    }
    if fs::hard_link(from, to).is_ok() {
        return Ok(());
    }
    let kind = entry.file_type();
    if kind.is_symlink() {
        system::copy_link(from, to)
    } else if kind.is_file() {
        copy(from, to)
    } else {
        Err(failure(io::ErrorKind::Unsupported, "it is a device, a pipe or a socket"))
    }
}

/// Copies a file with its permissions, but never over another.
fn copy(from: &Path, to: &Path) -> io::Result<()> {
    let mut source = system::open(from)?;
    io::copy(&mut source, &mut File::create_new(to)?)?;
    permit(to, source.metadata()?.permissions())
}

/// Whether the same stands in two places: one file, two files with the same bytes, two links to one place, or two folders.
pub(super) fn is_same(left: &Path, right: &Path) -> bool {
    let (Ok(one), Ok(other)) = (fs::symlink_metadata(left), fs::symlink_metadata(right)) else {
        return false;
    };
    if one.file_type() != other.file_type() {
        return false;
    }
    if one.is_dir() || system::is_one_file(left, right) {
        return true;
    }
    if one.is_symlink() {
        return fs::read_link(left).ok().is_some_and(|leads| fs::read_link(right).ok() == Some(leads));
    }
    one.is_file() && one.len() == other.len() && has_same_bytes(left, right).unwrap_or(false)
}

fn has_same_bytes(left: &Path, right: &Path) -> io::Result<bool> {
    let mut left = BufReader::new(system::open(left)?);
    let mut right = BufReader::new(system::open(right)?);
    loop {
        let (one, other) = (left.fill_buf()?, right.fill_buf()?);
        let length = one.len().min(other.len());
        if length == 0 {
            return Ok(one.is_empty() && other.is_empty());
        }
        if one[..length] != other[..length] {
            return Ok(false);
        }
        left.consume(length);
        right.consume(length);
    }
}

#[cfg(test)]
mod tests {
    #[cfg(unix)]
    use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};

    use super::*;

    /// A folder with an old site that has `paths` in it, and an empty new one.
    fn sites(paths: &[&str]) -> (tempfile::TempDir, PathBuf, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let (old, new) = (folder.path().join("old"), folder.path().join("new"));
        fs::create_dir(&new).unwrap();
        for path in paths {
            let full = old.join(path);
            fs::create_dir_all(full.parent().unwrap()).unwrap();
            fs::write(full, path).unwrap();
        }
        (folder, old, new)
    }

    #[cfg(unix)]
    fn wrote(paths: &[&str]) -> Manifest {
        Manifest::new(paths.iter().map(|&path| (path.into(), None)))
    }

    #[cfg(unix)]
    #[test]
    fn foreign_files_folders_and_links_come_over_and_written_ones_do_not() {
        let (_folder, old, new) = sites(&["index.html", "notes/mine.txt", "notes/page.html", ".git/HEAD", "CNAME"]);
        fs::create_dir_all(old.join("spare/deep")).unwrap();
        symlink("/nowhere", old.join("link")).unwrap();
        // What watches a folder of versions leaves such a thing there.
        let _socket = std::os::unix::net::UnixListener::bind(old.join(".git/watch.ipc")).unwrap();
        over(&old, &wrote(&["index.html", "notes/page.html"]), &new).unwrap();
        let paths = WalkDir::new(&new).min_depth(1).sort_by_file_name().into_iter().map(Result::unwrap);
        let paths: Vec<String> = paths.map(|entry| below(&new, &entry).to_str().unwrap().to_owned()).collect();
        let expected =
            [".git", ".git/HEAD", ".git/watch.ipc", "CNAME", "link", "notes", "notes/mine.txt", "spare", "spare/deep"];
        assert_eq!(paths, expected);
        assert_eq!(fs::read_link(new.join("link")).unwrap(), Path::new("/nowhere"));
        let inode = |path: PathBuf| fs::metadata(path).unwrap().ino();
        assert_eq!(inode(old.join("CNAME")), inode(new.join("CNAME")), "a second name, not a copy");
        assert!(is_same(&old.join(".git/watch.ipc"), &new.join(".git/watch.ipc")), "the old folder may go");
    }

    #[cfg(unix)]
    #[test]
    fn the_permissions_of_a_foreign_folder_come_over_even_if_it_may_only_be_read() {
        let (_folder, old, new) = sites(&["kept/a", "kept/b"]);
        fs::set_permissions(old.join("kept"), Permissions::from_mode(0o555)).unwrap();
        over(&old, &Manifest::default(), &new).unwrap();
        assert_eq!(fs::metadata(new.join("kept")).unwrap().permissions().mode() & 0o777, 0o555);
        assert_eq!(fs::read(new.join("kept/b")).unwrap(), b"kept/b");
    }

    #[test]
    fn a_foreign_file_in_the_way_of_a_new_one_is_named() {
        let (_folder, old, new) = sites(&["shop/map.html", "a"]);
        fs::create_dir(new.join("shop")).unwrap();
        fs::write(new.join("shop/map.html"), "another").unwrap();
        let error = over(&old, &Manifest::default(), &new).unwrap_err();
        assert_eq!(error.kind(), io::ErrorKind::AlreadyExists);
        assert!(error.to_string().contains("'shop/map.html'"), "{error}");
        assert_eq!(fs::read(new.join("shop/map.html")).unwrap(), b"another");
    }

    #[test]
    fn a_file_and_a_folder_of_one_name_are_in_each_other_s_way() {
        let (_folder, old, new) = sites(&["shop/map.html"]);
        fs::write(new.join("shop"), "a file").unwrap();
        assert_eq!(over(&old, &Manifest::default(), &new).unwrap_err().kind(), io::ErrorKind::AlreadyExists);
        let (_folder, old, new) = sites(&["shop"]);
        fs::create_dir(new.join("shop")).unwrap();
        assert_eq!(over(&old, &Manifest::default(), &new).unwrap_err().kind(), io::ErrorKind::AlreadyExists);
    }

    #[cfg(unix)]
    #[test]
    fn no_link_on_the_way_leads_out() {
        let (folder, old, new) = sites(&["shop/map.html"]);
        fs::create_dir(folder.path().join("elsewhere")).unwrap();
        symlink("../elsewhere", new.join("shop")).unwrap();
        assert_eq!(over(&old, &Manifest::default(), &new).unwrap_err().kind(), io::ErrorKind::AlreadyExists);
        assert_eq!(fs::read_dir(folder.path().join("elsewhere")).unwrap().count(), 0);
    }

    #[test]
    fn the_same_bytes_are_not_in_the_way() {
        let (_folder, old, new) = sites(&["CNAME"]);
        fs::write(new.join("CNAME"), "CNAME").unwrap();
        over(&old, &Manifest::default(), &new).unwrap();
    }

    #[cfg(unix)]
    #[test]
    fn a_copy_keeps_bytes_and_permissions_and_replaces_nothing() {
        let (_folder, old, new) = sites(&["hook"]);
        fs::set_permissions(old.join("hook"), Permissions::from_mode(0o750)).unwrap();
        copy(&old.join("hook"), &new.join("hook")).unwrap();
        assert_eq!(fs::read(new.join("hook")).unwrap(), b"hook");
        assert_eq!(fs::metadata(new.join("hook")).unwrap().permissions().mode() & 0o777, 0o750);
        assert!(copy(&old.join("hook"), &new.join("hook")).is_err());
    }

    #[cfg(unix)]
    #[test]
    fn sameness_looks_at_kind_and_content() {
        let (_folder, old, new) = sites(&["a", "b"]);
        let long = vec![7; 20_000];
        let mut other = long.clone();
        other[19_999] = 8;
        for (path, bytes) in [("one", &long), ("two", &long), ("three", &other)] {
            fs::write(new.join(path), bytes).unwrap();
        }
        symlink("a", old.join("link")).unwrap();
        symlink("a", new.join("link")).unwrap();
        symlink("b", new.join("other-link")).unwrap();
        assert!(is_same(&new.join("one"), &new.join("two")));
        assert!(!is_same(&new.join("one"), &new.join("three")));
        assert!(!is_same(&old.join("a"), &old.join("b")));
        assert!(is_same(&old.join("link"), &new.join("link")));
        assert!(!is_same(&old.join("link"), &new.join("other-link")));
        assert!(!is_same(&old.join("link"), &old.join("a")));
        assert!(!is_same(&old.join("a"), &old.join("missing")));
    }
}
