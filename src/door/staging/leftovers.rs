//! The clearing up of folders that are no longer needed: an old site after its exchange, and what a run that was
//! killed left beside its target. Nothing here is an error of the run that clears up; what stays is tried again.

use std::fs;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use rayon::prelude::*;
use walkdir::{DirEntry, WalkDir};

use super::super::system;
use super::carry;
use super::claim::Claim;
use super::manifest::{MANIFEST, Manifest, Reading};
use super::target::{State, Target};

/// How long a run that lives lets an old site stand aside at most, with much to spare.
const A_MOMENT: Duration = Duration::from_secs(1);

/// Puts an old site back that a run left aside when it was killed in the middle of an exchange in steps; whether one
/// still stands aside and nothing in its place, as while a living run is about to put its new one in.
pub(super) fn put_back(target: &Target) -> bool {
    let (place, aside) = (target.path(), target.aside());
    let stands_aside = || !is_there(&place) && is_there(&aside.join(MANIFEST));
    if !stands_aside() {
        return false;
    }
    if let Some(claim) = claim_aside(&aside)
        && matches!(claim.reading(), Ok(Reading::Finished(_)))
    {
        let _ = system::rename_to_free_name(&aside, &place);
    }
    stands_aside()
}

fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Claims a folder that stands aside; nothing when its run lives.
///
/// Where nothing can be locked, it is known by its age: a living run lets it stand there for a moment only.
fn claim_aside(aside: &Path) -> Option<Claim> {
    if let Ok(claim) = Claim::on_leftover(aside) {
        return claim;
    }
    let (begun, first) = (Instant::now(), system::identity_at(aside).ok()?);
    while begun.elapsed() < A_MOMENT {
        thread::sleep(system::PAUSE);
        if system::identity_at(aside).ok()? != first {
            return None;
        }
    }
    Claim::on(aside).ok()?
}

/// Removes what earlier runs left beside the target, unless they still live.
pub(super) fn clear(target: &Target, state: State) {
    let place = target.path();
    let heir = (state == State::Site).then_some(place.as_path());
    for folder in found(target) {
        // An empty folder was left before it had a manifest, or after it lost it; a living run makes another.
        if fs::remove_dir(&folder).is_ok() {
            continue;
        }
        let claim = if folder == target.aside() {
            // With nothing in its place, it is the site.
            heir.and_then(|_| claim_aside(&folder))
        } else {
            Claim::on_leftover(&folder).ok().flatten()
        };
        if let Some(claim) = claim {
            match claim.reading() {
                Ok(Reading::Finished(was)) => retire(&folder, &was, heir),
                // Only a finished site is ever put aside.
                Ok(Reading::Unfinished) if folder != target.aside() => discard(&folder),
                Ok(Reading::Unfinished | Reading::Newer | Reading::Unknown) | Err(_) => {}
            }
        }
    }
}

fn found(target: &Target) -> Vec<PathBuf> {
    let aside = target.aside();
    let entries = fs::read_dir(target.parent()).into_iter().flatten().flatten();
    entries
        .filter(|entry| target.is_staging(&entry.file_name()) || entry.path() == aside)
        .filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_dir()))
        .map(|entry| entry.path())
        .collect()
}

/// Removes a finished folder, but of what it was not written with only that which its heir, the living site, has too.
///
/// An author may have put something into the old site when the rest had been brought over already, so where
/// anything of the kind is seen, that is done once more before anything goes.
pub(super) fn retire(folder: &Path, was: &Manifest, heir: Option<&Path>) {
    let is_ours = |entry: &DirEntry| was.covers(entry, carry::below(folder, entry));
    let all = inside(folder, is_ours);
    // Nearly always nothing came: then that was the one look into the folder.
    if all.par_iter().all(is_ours) {
        return remove(folder, all, |_| true);
    }
    if let Some(heir) = heir {
        // What can't be brought over stays where it is.
        let _ = carry::over(folder, was, heir);
    }
    let has_heir = |entry: &DirEntry| {
        heir.is_some_and(|heir| carry::is_same(entry.path(), &heir.join(carry::below(folder, entry))))
    };
    remove(folder, inside(folder, |_| true), |entry| is_ours(entry) || has_heir(entry));
}

/// Removes a folder in the making: all that is in it was written by its run, or has another name in the old site.
pub(super) fn discard(folder: &Path) {
    remove(folder, inside(folder, |_| true), |_| true);
}

/// All that is in a folder, each folder before what is in it. It and those of them that `may_change` are made such that they
/// can be emptied. What is in one that can't be read is left to the next run.
fn inside(folder: &Path, may_change: impl Fn(&DirEntry) -> bool) -> Vec<DirEntry> {
    let loosened = |entry: DirEntry| {
        if entry.file_type().is_dir() && (entry.depth() == 0 || may_change(&entry)) {
            let _ = system::loosen(entry.path());
        }
        entry
    };
    let all = WalkDir::new(folder).into_iter().flatten().map(loosened);
    all.filter(|entry| entry.depth() > 0).collect()
}

/// Removes of all that is in a folder what may be removed, the manifest last: as long as anything else is there, a later run
/// can go on.
fn remove(folder: &Path, all: Vec<DirEntry>, may_go: impl Fn(&DirEntry) -> bool + Sync) {
    let goes = |entry: &DirEntry| carry::below(folder, entry) != Path::new(MANIFEST) && may_go(entry);
    let (folders, files): (Vec<DirEntry>, Vec<DirEntry>) =
        all.into_iter().partition(|entry| entry.file_type().is_dir());
    files.par_iter().filter(|entry| goes(entry)).for_each(|entry| drop(system::remove_file(entry.path())));
    // One after the other: a folder goes after those in it.
    folders.iter().rev().filter(|entry| goes(entry)).for_each(|entry| drop(fs::remove_dir(entry.path())));
    let only_manifest =
        fs::read_dir(folder).is_ok_and(|entries| entries.flatten().all(|entry| entry.file_name() == MANIFEST));
    if only_manifest {
        let _ = fs::remove_file(folder.join(MANIFEST));
        let _ = fs::remove_dir(folder);
    }
}

#[cfg(test)]
mod tests {
    #[cfg(unix)]
    use std::os::unix::fs::PermissionsExt;

    use super::*;

    const LEFT: &str = ".site-abc123.staging";

    /// A folder with files in it, of which the text is their path, and the target `site` in it.
    fn place(paths: &[&str]) -> (tempfile::TempDir, Target) {
        let folder = tempfile::tempdir().unwrap();
        for path in paths {
            let full = folder.path().join(path);
            fs::create_dir_all(full.parent().unwrap()).unwrap();
            fs::write(full, path).unwrap();
        }
        let target = Target::new(&folder.path().join("site")).unwrap();
        (folder, target)
    }

    fn finish(folder: &Path, paths: &[&str]) {
        let manifest = Manifest::new(paths.iter().map(|&path| (path.into(), None)));
        fs::write(folder.join(MANIFEST), manifest.text()).unwrap();
    }

    #[cfg(unix)]
    #[test]
    fn an_empty_folder_and_one_in_the_making_go() {
        let (folder, target) = place(&[".site-abc123.staging/a/b.html"]);
        fs::write(folder.path().join(LEFT).join(MANIFEST), "").unwrap();
        fs::create_dir(folder.path().join(".site-zzz999.staging")).unwrap();
        fs::set_permissions(folder.path().join(LEFT).join("a"), fs::Permissions::from_mode(0o555)).unwrap();
        clear(&target, State::Missing);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn a_living_folder_stays() {
        let (folder, target) = place(&[".site-abc123.staging/a.html"]);
        let left = folder.path().join(LEFT);
        let claim = Claim::on_new(&left).unwrap().unwrap();
        clear(&target, State::Missing);
        assert!(left.join("a.html").exists());
        drop(claim);
        clear(&target, State::Missing);
        assert!(!left.exists());
    }

    #[test]
    fn what_is_not_ours_or_not_for_this_target_stays() {
        let paths = [
            ".site-abc123.staging/no-manifest",
            ".site-2-abc123.staging/.maulstick",
            ".site-abc124.staging/.maulstick",
            ".site-abc125.staging",
            "site-abc123.staging/.maulstick",
        ];
        let (folder, target) = place(&paths);
        clear(&target, State::Missing);
        for path in paths {
            assert!(folder.path().join(path).exists(), "{path}");
        }
    }

    #[test]
    fn an_old_site_goes_with_what_the_new_one_has_too() {
        let (folder, target) =
            place(&[".site-abc123.staging/a.html", ".site-abc123.staging/mine/CNAME", "site/b.html"]);
        let (left, site) = (folder.path().join(LEFT), folder.path().join("site"));
        finish(&left, &["a.html", "gone.html"]);
        finish(&site, &["b.html"]);
        clear(&target, State::Site);
        assert!(!left.exists());
        assert!(!site.join("a.html").exists());
        assert_eq!(fs::read_to_string(site.join("mine/CNAME")).unwrap(), ".site-abc123.staging/mine/CNAME");
    }

    #[test]
    fn what_would_be_lost_with_an_old_site_stays() {
        let (folder, target) = place(&[".site-abc123.staging/a.html", ".site-abc123.staging/CNAME", "site/CNAME"]);
        let (left, site) = (folder.path().join(LEFT), folder.path().join("site"));
        finish(&left, &["a.html"]);
        finish(&site, &[]);
        clear(&target, State::Site);
        assert!(!left.join("a.html").exists());
        assert_eq!(fs::read_to_string(left.join("CNAME")).unwrap(), ".site-abc123.staging/CNAME");
        assert_eq!(fs::read_to_string(site.join("CNAME")).unwrap(), "site/CNAME");
        fs::remove_file(site.join("CNAME")).unwrap();
        clear(&target, State::Site);
        assert!(!left.exists(), "once there is room for it, it is brought over and the rest goes");
        assert_eq!(fs::read_to_string(site.join("CNAME")).unwrap(), ".site-abc123.staging/CNAME");
    }

    #[test]
    fn without_an_heir_nothing_of_the_author_s_goes() {
        let (folder, target) = place(&[".site-abc123.staging/a.html", ".site-abc123.staging/CNAME"]);
        let left = folder.path().join(LEFT);
        finish(&left, &["a.html"]);
        clear(&target, State::Missing);
        assert!(left.join("CNAME").exists() && left.join(MANIFEST).exists() && !left.join("a.html").exists());
        assert!(!target.path().exists());
    }

    #[test]
    fn a_site_that_was_set_aside_comes_back_only_if_none_stands_there() {
        let (_folder, target) = place(&[".site.aside/a.html"]);
        finish(&target.aside(), &["a.html"]);
        put_back(&target);
        assert!(target.path().join("a.html").exists() && !target.aside().exists());
        fs::create_dir(target.aside()).unwrap();
        fs::write(target.aside().join("b.html"), "").unwrap();
        finish(&target.aside(), &["b.html"]);
        put_back(&target);
        assert!(target.aside().exists());
        clear(&target, State::Site);
        assert!(!target.aside().exists() && target.path().join("a.html").exists());
    }
}
