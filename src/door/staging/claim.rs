//! The claim on a folder: a lock on its manifest, so that of all runs only one changes or removes it.
//!
//! The system lets go of a lock when its run ends, however it ends. So a folder in the making whose lock can
//! be taken was left by a run that is no more. The lock goes with the folder when that gets another name.

use std::fs::{self, File, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::Path;

use super::super::failure::about;
use super::super::system;
use super::manifest::{MANIFEST, Manifest, Reading};

/// A folder that nobody else changes while this value lives.
///
/// On a file system without locks a claim on a folder that somebody just named is given all the same: there
/// publishing works as well as it can. Nothing is ever taken for a leftover there, as nobody can know.
#[derive(Debug)]
pub(super) struct Claim {
    manifest: File,
}

impl Claim {
    /// Makes the manifest of a new folder and claims it; nothing when a run that clears up was quicker.
    pub(super) fn on_new(folder: &Path) -> io::Result<Option<Self>> {
        let path = folder.join(MANIFEST);
        let manifest = match File::options().read(true).write(true).create_new(true).open(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            other => other.map_err(about(&path))?,
        };
        if let Err(TryLockError::WouldBlock) = manifest.try_lock() {
            return Ok(None);
        }
        Self { manifest }.if_still_of(folder)
    }

    /// Waits for a claim on a folder; nothing when the name leads to another folder by then.
    pub(super) fn on(folder: &Path) -> io::Result<Option<Self>> {
        let Some(manifest) = open(folder)? else {
            return Ok(None);
        };
        // A failure means that there are no locks here.
        let _ = manifest.lock();
        Self { manifest }.if_still_of(folder)
    }

    /// Claims a folder that may have been left behind; nothing when it lives, or is not ours at all.
    pub(super) fn on_leftover(folder: &Path) -> io::Result<Option<Self>> {
        let Some(manifest) = open(folder)? else {
            return Ok(None);
        };
        if manifest.try_lock().is_err() {
            return Ok(None);
        }
        Self { manifest }.if_still_of(folder)
    }

    /// A lock on a manifest that went away, or was exchanged with its folder, is a lock on nothing.
    fn if_still_of(self, folder: &Path) -> io::Result<Option<Self>> {
        match fs::symlink_metadata(folder.join(MANIFEST)) {
            Ok(found) if system::is_one_file(&found, &self.manifest.metadata()?) => Ok(Some(self)),
            Ok(_) => Ok(None),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(about(folder)(error)),
        }
    }

    /// What the manifest says.
    pub(super) fn reading(&self) -> io::Result<Reading> {
        let mut bytes = Vec::new();
        let mut file = &self.manifest;
        file.rewind()?;
        file.read_to_end(&mut bytes)?;
        Ok(std::str::from_utf8(&bytes).map_or(Reading::Unknown, Manifest::read))
    }

    /// Writes the manifest; from then on the folder counts as finished.
    ///
    /// It is written through to the disk, for it decides what a later run may delete. The other files are left to
    /// the system: after a power cut, which alone could cost one, the guide is still there to publish again.
    pub(super) fn finish(&self, manifest: &Manifest) -> io::Result<()> {
        let mut file = &self.manifest;
        file.set_len(0)?;
        file.rewind()?;
        file.write_all(manifest.text().as_bytes())?;
        file.sync_all()
    }
}

fn open(folder: &Path) -> io::Result<Option<File>> {
    let path = folder.join(MANIFEST);
    match system::open_to_lock(&path) {
        Ok(file) if file.metadata()?.is_file() => Ok(Some(file)),
        Ok(_) => Ok(None),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(about(&path)(error)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_claim_keeps_the_other_off_until_it_ends() {
        let folder = tempfile::tempdir().unwrap();
        let first = Claim::on_new(folder.path()).unwrap().unwrap();
        assert!(Claim::on_leftover(folder.path()).unwrap().is_none());
        drop(first);
        assert!(Claim::on_leftover(folder.path()).unwrap().is_some());
        assert!(Claim::on(folder.path()).unwrap().is_some());
    }

    #[test]
    fn a_folder_without_a_manifest_can_not_be_claimed() {
        let folder = tempfile::tempdir().unwrap();
        assert!(Claim::on(folder.path()).unwrap().is_none());
        assert!(Claim::on_leftover(folder.path()).unwrap().is_none());
        assert!(Claim::on_new(&folder.path().join("gone")).unwrap().is_none());
    }

    #[test]
    fn a_claim_on_what_went_away_meanwhile_is_none() {
        let folder = tempfile::tempdir().unwrap();
        let claim = Claim::on_new(folder.path()).unwrap().unwrap();
        fs::remove_file(folder.path().join(MANIFEST)).unwrap();
        assert!(claim.if_still_of(folder.path()).unwrap().is_none());
        let claim = Claim::on_new(folder.path()).unwrap().unwrap();
        fs::rename(folder.path().join(MANIFEST), folder.path().join("x")).unwrap();
        fs::write(folder.path().join(MANIFEST), "").unwrap();
        assert!(claim.if_still_of(folder.path()).unwrap().is_none());
    }

    #[test]
    fn the_manifest_can_be_written_more_than_once() {
        let folder = tempfile::tempdir().unwrap();
        let claim = Claim::on_new(folder.path()).unwrap().unwrap();
        assert_eq!(claim.reading().unwrap(), Reading::Unfinished);
        claim.finish(&Manifest::new(["a".to_owned(), "b".to_owned()])).unwrap();
        claim.finish(&Manifest::new(["a".to_owned()])).unwrap();
        assert_eq!(claim.reading().unwrap(), Reading::Finished(Manifest::new(["a".to_owned()])));
    }
}
