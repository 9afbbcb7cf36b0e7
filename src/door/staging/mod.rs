//! The folder in the making: written beside its target and put in its place as one change.
//!
//! A run that fails or is killed at any moment leaves the target as it was, and at most a folder
//! `.<target>-xxxxxx.staging` beside it, which the next run removes. The files by what they guard:
//!
//! - [`target`]: what may be replaced at all,
//! - [`manifest`]: which files of a published folder are ours,
//! - [`claim`]: which run may change a folder,
//! - [`carry`]: that what is not ours comes over into the new site,
//! - [`unchanged`]: that a file which is the same keeps its times,
//! - [`exchange`]: the one change,
//! - [`leftovers`]: that nothing is left lying, and nothing deleted that is not ours.

mod carry;
mod claim;
mod exchange;
mod leftovers;
mod manifest;
mod target;
mod unchanged;

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::io::{self, Write};
use std::mem;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use self::claim::Claim;
use self::manifest::LastRead;
pub use self::manifest::MANIFEST;
pub(super) use self::manifest::{Manifest, Reading};
use self::target::{MARK, STAGING, State, Target};
use self::unchanged::{Old, Standing};
use super::digest::Digest;
use super::failure::{about, failure, mendable, plain};
use super::names::{check_path, folded};
use super::{Note, Purpose, Staging, ordinary, system};

/// How often a run starts over because another one was quicker; each time that other one got its work done.
const ATTEMPTS: usize = 100;

/// The folder of a new guide in the folder in the making.
const GUIDE: &str = "guide";

/// Few files of a site have more bytes than this; room for those that have is given back.
const USUAL: usize = 1_000_000;

/// How long a run waits for another that exchanges the folders in steps, which takes a moment, before it says so instead.
const PATIENCE: Duration = Duration::from_secs(2);

/// A folder in the making on the disk.
struct DiskStaging {
    target: Target,
    purpose: Purpose,
    /// What was made beside the target, with the list in it that is claimed.
    made: PathBuf,
    /// What is put into the place: that folder itself, or one in it where the list is to stay behind.
    folder: PathBuf,
    claim: Claim,
    /// The site that is in the place now; files that are the same there are not written again.
    old: Option<PathBuf>,
    /// What the list of that site says, as it was read last.
    listed: LastRead,
    written: Mutex<Written>,
    /// Room for the bytes of old files while they are looked at, used again and again.
    rooms: Mutex<Vec<Vec<u8>>>,
    /// Whether `folder` is in its place.
    swapped: bool,
}

/// What is in the folder already.
#[derive(Debug, Default)]
struct Written {
    /// The paths that were written, as they are where case does not count.
    paths: BTreeSet<Box<str>>,
    /// The paths themselves of those that are written otherwise: there are few, and a large site has very many files.
    otherwise: BTreeMap<Box<str>, Box<str>>,
    /// What the list is to say of them, by their paths.
    notes: BTreeMap<Box<str>, Note>,
    /// The folders that were made, by their paths in this one.
    folders: BTreeSet<Box<str>>,
}

impl Written {
    /// The paths of the files, in their order.
    fn paths(&self) -> Vec<&str> {
        let itself = |path| self.otherwise.get(path).map_or(path, AsRef::as_ref);
        let mut paths: Vec<&str> = self.paths.iter().map(|path| itself(path.as_ref())).collect();
        paths.sort_unstable();
        paths
    }

    /// Files by their paths, each with what the list is to say of it.
    fn noted<'a>(&'a self, paths: &'a [&'a str]) -> impl Iterator<Item = (&'a str, Option<Note>)> {
        paths.iter().map(|path| (*path, self.notes.get(*path).copied()))
    }
}

/// Opens a folder in the making for `target`, and clears up after runs that were killed.
pub(super) fn open(guide: &Path, target: &Path, purpose: Purpose) -> io::Result<Box<dyn Staging>> {
    let target = Target::new(target)?;
    match purpose {
        Purpose::Site => {
            target.keep_clear_of(guide)?;
            let _ = leftovers::put_back(&target);
        }
        Purpose::Guide => target.keep_out_of_guides()?,
    }
    let mut listed = LastRead::default();
    let state = target.admit(purpose, &mut listed)?;
    leftovers::clear(&target, state);
    let (made, claim) = make_folder(&target)?;
    let folder = if purpose == Purpose::Guide { made.join(GUIDE) } else { made.clone() };
    let old = (state == State::Site).then(|| target.path());
    let (written, rooms) = (Mutex::default(), Mutex::default());
    Ok(Box::new(DiskStaging { target, purpose, made, folder, claim, old, listed, written, rooms, swapped: false }))
}

fn make_folder(target: &Target) -> io::Result<(PathBuf, Claim)> {
    let prefix = target.prefix();
    let mut maker = tempfile::Builder::new();
    maker.prefix(&prefix).suffix(STAGING).rand_bytes(MARK);
    system::permit_folder(&mut maker);
    for _ in 0..ATTEMPTS {
        let made = maker.tempdir_in(target.parent()).map_err(|error| {
            // The system names the folder in the making, which nobody asked for.
            let parent = plain(target.parent());
            let said = error.to_string();
            let said = said.split(" at path ").next().unwrap_or_default();
            match error.kind() {
                // The parent is there, and takes no folder.
                io::ErrorKind::NotFound => {
                    failure(io::ErrorKind::PermissionDenied, format!("no folder can be made in '{parent}'"))
                }
                kind => failure(kind, format!("no folder can be made in '{parent}': {said}")),
            }
        })?;
        if let Some(claim) = Claim::on_new(made.path())? {
            return Ok((made.keep(), claim));
        }
    }
    Err(too_busy(target))
}

fn too_busy(target: &Target) -> io::Error {
    let message = format!("other runs keep changing '{}'", plain(&target.path()));
    mendable(io::ErrorKind::ResourceBusy, message, "try again when they are done; nothing was changed")
}

/// The error for an old site that stands aside and can't be put back.
fn stands_aside(target: &Target) -> io::Error {
    let (aside, place) = (plain(&target.aside()), plain(&target.path()));
    let message = format!("the old site stands in '{aside}', where another run put it");
    let mend = format!("if no other run is at work, rename that folder to '{place}'; nothing was changed");
    mendable(io::ErrorKind::ResourceBusy, message, mend)
}

impl DiskStaging {
    fn known(&self) -> MutexGuard<'_, Written> {
        self.written.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Where a file is to be written: its path is noted, and its folder is made.
    fn place(&self, path: &str) -> io::Result<PathBuf> {
        check_path(path)?;
        self.take(path)?;
        // Asked for each of many files: texts are compared several times as fast as paths are, part by part.
        let parent = path.rsplit_once('/').map_or("", |(parent, _)| parent);
        if !self.known().folders.contains(parent) {
            let full = self.folder.join(parent);
            fs::create_dir_all(&full).map_err(self.about(parent))?;
            self.known().folders.insert(parent.into());
        }
        Ok(self.folder.join(path))
    }

    /// Adds the path to an error, as it will be when the folder is in its place: nobody asked for the one in the making.
    fn about(&self, path: &str) -> impl FnOnce(io::Error) -> io::Error + use<> {
        let path = self.target.path().join(path);
        move |error| about(&path)(error)
    }

    fn rooms(&self) -> MutexGuard<'_, Vec<Vec<u8>>> {
        self.rooms.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Takes over the file that stands at `place`, if its bytes, which are read into `room`, are wanted.
    fn keep_from(
        &self,
        place: &Path,
        path: &str,
        room: &mut Vec<u8>,
        wanted: &mut dyn FnMut(&[u8]) -> bool,
    ) -> io::Result<bool> {
        let Ok((bytes, standing)) = Standing::read(place, room) else { return Ok(false) };
        if !wanted(bytes) {
            return Ok(false);
        }
        let full = self.place(path)?;
        settle(&standing.named(place, &full), bytes, &full).map_err(self.about(path))?;
        Ok(true)
    }

    /// Notes a path before it is written, so that what gets there of a failed write is known as ours.
    fn take(&self, path: &str) -> io::Result<()> {
        let key = folded(path);
        if key == MANIFEST {
            return Err(failure(io::ErrorKind::InvalidInput, format!("'{path}' is the name of the list of files")));
        }
        let mut written = self.known();
        if written.paths.contains(key.as_str()) {
            let earlier = written.otherwise.get(key.as_str()).map_or(key.as_str(), AsRef::as_ref);
            let message = if earlier == path {
                format!("'{path}' was written twice")
            } else {
                format!("'{path}' and '{earlier}' are one file where capitals do not count")
            };
            return Err(failure(io::ErrorKind::AlreadyExists, message));
        }
        if key != path {
            written.otherwise.insert(key.as_str().into(), path.into());
        }
        written.paths.insert(key.into());
        Ok(())
    }

    /// Moves the folder in, or exchanges it with an older site, whichever the place asks for when it is done.
    fn publish(&mut self) -> io::Result<()> {
        let begun = Instant::now();
        let mut attempts = 0;
        while attempts < ATTEMPTS {
            let done = match self.target.admit(Purpose::Site, &mut self.listed)? {
                State::Site => self.replace()?,
                // A site that stands aside has what its author put into it, so none is moved in instead of it.
                State::Missing if leftovers::put_back(&self.target) => {
                    if begun.elapsed() > PATIENCE {
                        return Err(stands_aside(&self.target));
                    }
                    // That is waited for by the clock, and is no attempt.
                    thread::sleep(system::PAUSE);
                    continue;
                }
                state => {
                    self.finish(state, self.first_line())?;
                    self.move_in()?
                }
            };
            if done {
                return Ok(());
            }
            attempts += 1;
        }
        Err(too_busy(&self.target))
    }

    /// Takes the place of an older site; false when another run replaced that meanwhile.
    ///
    /// The old site stays claimed until it is removed, so that two runs never bring over each other's pages.
    fn replace(&mut self) -> io::Result<bool> {
        let place = self.target.path();
        let Some(old) = Claim::on(&place)? else {
            return Ok(false);
        };
        let mut listed = mem::take(&mut self.listed);
        let Some(was) = listed.read(&old.text()?) else {
            return Ok(false);
        };
        let (carried, first_line) = rayon::join(|| carry::over(&place, was, &self.folder), || self.first_line());
        carried?;
        self.finish(State::Site, first_line)?;
        exchange::exchange(&self.folder, &self.target)?;
        self.settled();
        leftovers::retire(&self.folder, was, Some(&place));
        Ok(true)
    }

    fn move_in(&mut self) -> io::Result<bool> {
        let done = exchange::move_in(&self.folder, &self.target)?;
        if done {
            self.settled();
        }
        Ok(done)
    }

    /// The first line of the list of all that was written, with the hash of the others.
    fn first_line(&self) -> String {
        let written = self.known();
        let paths = written.paths();
        manifest::first_line(paths.len(), Digest::of(manifest::lines(written.noted(&paths))))
    }

    /// Gives the folder its list, of which that is the first line, and the permissions of the one that it replaces.
    fn finish(&self, state: State, first_line: String) -> io::Result<()> {
        {
            let written = self.known();
            let paths = written.paths();
            let list = std::iter::once(first_line).chain(manifest::lines(written.noted(&paths)));
            self.claim.finish(list).map_err(self.about(MANIFEST))?;
        }
        self.adopt_permissions(state);
        Ok(())
    }

    /// As well as it can be done: a file system may have no permissions to set, and another run may have taken the old folder
    /// aside for a moment; what comes of that is seen when this one moves in.
    fn adopt_permissions(&self, state: State) {
        if state != State::Missing
            && let Ok(found) = system::patiently(|| fs::metadata(self.target.path()))
        {
            let _ = fs::set_permissions(&self.folder, found.permissions());
        }
    }

    /// Puts a new guide in its place, without the list: from now on all of it is its author's. What the list stays in is
    /// cleared up by this run, or if that is killed by the next.
    fn hand_over(&mut self) -> io::Result<()> {
        let state = self.target.admit(Purpose::Guide, &mut self.listed)?;
        fs::create_dir_all(&self.folder).map_err(about(&self.target.path()))?;
        self.adopt_permissions(state);
        if self.move_in()? {
            leftovers::discard(&self.made);
            return Ok(());
        }
        self.target.admit(Purpose::Guide, &mut self.listed)?;
        Err(too_busy(&self.target))
    }

    /// Remembers that the folder in the making is none any more, and writes the change of names through to the
    /// disk where that can be done; if not, the system does it a little later.
    fn settled(&mut self) {
        self.swapped = true;
        let _ = File::open(self.target.parent()).and_then(|parent| parent.sync_all());
    }
}

/// Writes a file that could not be taken over as it is.
fn settle(old: &Old, bytes: &[u8], full: &Path) -> io::Result<()> {
    match old {
        Old::Linked => Ok(()),
        Old::Same(changed) => write_new(full, bytes).and_then(|file| file.set_modified(*changed)),
        Old::Other => write_new(full, bytes).map(drop),
    }
}

fn write_new(path: &Path, bytes: &[u8]) -> io::Result<File> {
    let mut file = File::create_new(path)?;
    file.write_all(bytes)?;
    Ok(file)
}

impl Staging for DiskStaging {
    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        let full = self.place(path)?;
        let old = match &self.old {
            Some(old) => unchanged::take_over(&old.join(path), bytes, &full),
            None => Old::Other,
        };
        settle(&old, bytes, &full).map_err(self.about(path))
    }

    fn written(&self, path: &str) -> io::Result<Vec<u8>> {
        check_path(path)?;
        ordinary::read(&self.folder.join(path), path, u64::MAX)
    }

    fn standing(&self, path: &str, limit: u64) -> io::Result<Vec<u8>> {
        check_path(path)?;
        let old = self.old.as_ref().ok_or(io::ErrorKind::NotFound)?;
        ordinary::read(&old.join(path), path, limit)
    }

    fn note(&self, mut notes: BTreeMap<Box<str>, Note>) {
        // Where none were noted before, they are taken as they are: those of a large site would cost tens of megabytes twice.
        self.known().notes.append(&mut notes);
    }

    fn noted(&self, path: &str) -> Option<Note> {
        self.listed.list.note(path)
    }

    fn keep(&self, path: &str, wanted: &mut dyn FnMut(&[u8]) -> bool) -> io::Result<bool> {
        check_path(path)?;
        let Some(place) = self.old.as_ref().map(|old| old.join(path)) else { return Ok(false) };
        let mut room = self.rooms().pop().unwrap_or_default();
        let kept = self.keep_from(&place, path, &mut room, wanted);
        if room.len() <= USUAL {
            self.rooms().push(room);
        }
        kept
    }

    fn swap(mut self: Box<Self>) -> io::Result<()> {
        match self.purpose {
            Purpose::Site => self.publish(),
            Purpose::Guide => self.hand_over(),
        }
    }
}

impl Drop for DiskStaging {
    fn drop(&mut self) {
        if !self.swapped {
            leftovers::discard(&self.made);
        }
    }
}

#[cfg(test)]
mod tests;
