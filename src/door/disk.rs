//! The door onto the disk: the guide as it lies in its folder, and the folders that are written beside it.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::failure::{about, failure};
use super::names::check_path;
use super::{Door, Listing, Purpose, Staging, ordinary, single, staging, system, walk};

/// A guide's folder on the disk.
#[derive(Debug, Clone)]
pub struct Disk {
    guide: PathBuf,
}

impl Disk {
    /// The door onto the guide in this folder; nothing is read yet.
    pub fn new(guide_folder: impl Into<PathBuf>) -> Self {
        let guide: PathBuf = guide_folder.into();
        // The empty path is the folder that one is in, but only by its other name can it be looked at.
        Self { guide: if guide.as_os_str().is_empty() { PathBuf::from(".") } else { guide } }
    }

    /// The guide's folder.
    pub(super) fn folder(&self) -> &Path {
        &self.guide
    }

    /// Refuses a path that passes through a link below the guide's own folders, as a listing does.
    fn refuse_links(&self, path: &str) -> io::Result<()> {
        let may_be_links = usize::from(!walk::is_among_themes(path));
        let inner = path.match_indices('/').skip(may_be_links).map(|(at, _)| &path[..at]);
        for part in inner.chain([path]) {
            let full = self.guide.join(part);
            let found = fs::symlink_metadata(&full).map_err(about(&full))?;
            if found.is_symlink() {
                return Err(failure(io::ErrorKind::InvalidInput, format!("'{part}' is a link")));
            }
        }
        Ok(())
    }
}

impl Door for Disk {
    fn list(&self, folder: &str) -> io::Result<Listing> {
        walk::list(&self.guide, folder)
    }

    fn read(&self, path: &str, limit: u64) -> io::Result<Vec<u8>> {
        check_path(path)?;
        // Only the guide's own folders may be links, and not the one of its themes; what takes a folder's place meanwhile is
        // not followed either.
        let parts = path.split_once('/').filter(|_| !walk::is_among_themes(path));
        let (folder, below) = parts.unwrap_or(("", path));
        if !system::SEES_LINKS {
            self.refuse_links(path)?;
        }
        let file = system::open_beneath(&self.guide.join(folder), Path::new(below));
        if file.is_err() {
            self.refuse_links(path)?;
        }
        ordinary::read_opened(file.map_err(about(&self.guide.join(path)))?, path, limit)
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        check_path(from)?;
        check_path(to)?;
        self.refuse_links(from)?;
        let (old, new) = (self.guide.join(from), self.guide.join(to));
        system::rename_to_free_name(&old, &new).map_err(about(&new))
    }

    fn save(&self, target: &Path, bytes: &[u8], ours: fn(&[u8]) -> bool) -> io::Result<()> {
        single::save(target, bytes, ours)
    }

    fn stage(&self, target: &Path, purpose: Purpose) -> io::Result<Box<dyn Staging>> {
        staging::open(&self.guide, target, purpose)
    }
}

#[cfg(test)]
mod tests {
    #[cfg(unix)]
    use std::os::unix::fs::symlink;

    use super::*;

    fn guide() -> (tempfile::TempDir, Disk) {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir_all(folder.path().join("content/paints")).unwrap();
        fs::write(folder.path().join("content/guide.yaml"), "12345").unwrap();
        fs::write(folder.path().join("content/paints/mere.yaml"), "paints").unwrap();
        let disk = Disk::new(folder.path());
        (folder, disk)
    }

    fn kind(disk: &Disk, path: &str) -> io::ErrorKind {
        disk.read(path, 100).unwrap_err().kind()
    }

    #[test]
    fn a_file_is_read_up_to_the_limit() {
        let (_folder, disk) = guide();
        assert_eq!(disk.read("content/guide.yaml", 5).unwrap(), b"12345");
        assert_eq!(disk.read("content/guide.yaml", u64::MAX).unwrap(), b"12345");
        assert_eq!(disk.read("content/guide.yaml", 4).unwrap_err().kind(), io::ErrorKind::FileTooLarge);
    }

    #[test]
    fn a_path_that_leads_elsewhere_is_refused() {
        let (folder, disk) = guide();
        let absolute = folder.path().join("content/guide.yaml");
        for path in [absolute.to_str().unwrap(), "content/../content/guide.yaml", "./content/guide.yaml", ""] {
            assert_eq!(kind(&disk, path), io::ErrorKind::InvalidInput, "{path}");
        }
        assert_eq!(kind(&disk, "content/missing.yaml"), io::ErrorKind::NotFound);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_not_followed_but_the_guide_s_own_folder_may_be_one() {
        let (folder, disk) = guide();
        symlink("guide.yaml", folder.path().join("content/link.yaml")).unwrap();
        symlink("paints", folder.path().join("content/linked")).unwrap();
        symlink("content", folder.path().join("elsewhere")).unwrap();
        assert_eq!(kind(&disk, "content/link.yaml"), io::ErrorKind::InvalidInput);
        assert_eq!(kind(&disk, "content/linked/mere.yaml"), io::ErrorKind::InvalidInput);
        assert_eq!(disk.read("elsewhere/paints/mere.yaml", 100).unwrap(), b"paints");
    }

    #[cfg(unix)]
    #[test]
    fn the_folder_of_themes_may_not_be_a_link() {
        let (folder, disk) = guide();
        let outside = tempfile::tempdir().unwrap();
        fs::create_dir(outside.path().join("plain")).unwrap();
        fs::write(outside.path().join("plain/mark.svg"), "secret").unwrap();
        symlink(outside.path(), folder.path().join("themes")).unwrap();
        assert_eq!(kind(&disk, "themes/plain/mark.svg"), io::ErrorKind::InvalidInput);
        for listed in ["themes", "themes/plain", "themes/missing"] {
            let listing = disk.list(listed).unwrap();
            let [(path, why)] = listing.refused.as_slice() else { panic!("{:?}", listing.refused) };
            assert!(listing.files.is_empty() && path == "themes" && why.starts_with("it is a link"), "{listed}: {why}");
        }
        fs::remove_file(folder.path().join("themes")).unwrap();
        fs::create_dir_all(folder.path().join("themes/plain")).unwrap();
        fs::write(folder.path().join("themes/plain/mark.svg"), "own").unwrap();
        assert_eq!(disk.read("themes/plain/mark.svg", 10).unwrap(), b"own");
        assert_eq!(disk.list("themes/plain").unwrap().files.len(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn only_an_ordinary_file_is_read() {
        let (folder, disk) = guide();
        assert_eq!(kind(&disk, "content/paints"), io::ErrorKind::InvalidInput);
        let pipe = folder.path().join("content/pipe");
        rustix::fs::mknodat(
            rustix::fs::CWD,
            &pipe,
            rustix::fs::FileType::Fifo,
            rustix::fs::Mode::from_raw_mode(0o600),
            0,
        )
        .unwrap();
        assert_eq!(kind(&disk, "content/pipe"), io::ErrorKind::InvalidInput, "and without waiting for a writer");
    }

    #[test]
    fn the_empty_path_is_the_folder_one_is_in() {
        assert_eq!(Disk::new("").guide, Path::new("."));
    }
}
