//! The claim on a folder: a lock on its manifest, so that of all runs only one changes or removes it.
//!
//! The system lets go of a lock when its run ends, however it ends. So a folder in the making whose lock can
//! be taken was left by a run that is no more. The lock holds whatever name the folder gets meanwhile.

use std::io;
use std::path::Path;
use std::time::Duration;

use super::super::failure::about;
use super::super::system::{Hold, Holding};
use super::manifest::{MANIFEST, Manifest, Reading};

/// How long another run is waited for that puts its site in the place: minutes would be a large site on a slow disk.
const LONGEST: Duration = Duration::from_mins(1);

/// A folder that nobody else changes while this value lives.
///
/// On a file system without locks a claim on a folder that somebody just named is given all the same: there
/// publishing works as well as it can. Nothing is taken for a leftover there, as nobody can know, but for a site that
/// stands aside for longer than any exchange takes.
#[derive(Debug)]
pub(super) struct Claim(Hold);

impl Claim {
    /// Makes the manifest of a new folder and claims it; nothing when a run that clears up was quicker.
    pub(super) fn on_new(folder: &Path) -> io::Result<Option<Self>> {
        Self::hold(folder, Holding::New)
    }

    /// Waits for a claim on a folder, but not without end; nothing when the name leads to another folder by then.
    pub(super) fn on(folder: &Path) -> io::Result<Option<Self>> {
        Self::hold(folder, Holding::Wait(LONGEST))
    }

    /// Claims a folder that may have been left behind; nothing when it lives, or is not ours at all. Where nothing can be
    /// locked, that is an error.
    pub(super) fn on_leftover(folder: &Path) -> io::Result<Option<Self>> {
        Self::hold(folder, Holding::IfFree)
    }

    fn hold(folder: &Path, holding: Holding) -> io::Result<Option<Self>> {
        let held = Hold::of(folder, MANIFEST, holding).map_err(about(&folder.join(MANIFEST)))?;
        Ok(held.map(Self))
    }

    /// What the manifest says.
    pub(super) fn reading(&self) -> io::Result<Reading> {
        Ok(Manifest::read_bytes(&self.text()?))
    }

    /// The text of the manifest.
    pub(super) fn text(&self) -> io::Result<Vec<u8>> {
        self.0.read()
    }

    /// Writes the text of the manifest, given in pieces; from then on the folder counts as finished.
    ///
    /// It is written through to the disk, for it decides what a later run may delete. The other files are left to
    /// the system: after a power cut, which alone could cost one, the guide is still there to publish again.
    pub(super) fn finish(&self, manifest: impl IntoIterator<Item = String>) -> io::Result<()> {
        self.0.write(manifest)
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
    fn the_manifest_can_be_written_more_than_once() {
        let folder = tempfile::tempdir().unwrap();
        let claim = Claim::on_new(folder.path()).unwrap().unwrap();
        assert_eq!(claim.reading().unwrap(), Reading::Unfinished);
        let list = |paths: &[&str]| Manifest::new(paths.iter().map(|&path| (path.into(), None)));
        claim.finish([list(&["a", "b"]).text()]).unwrap();
        claim.finish([list(&["a"]).text()]).unwrap();
        assert_eq!(claim.reading().unwrap(), Reading::Finished(list(&["a"])));
    }
}
