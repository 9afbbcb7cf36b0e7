//! The system's part of the door on Windows.
//!
//! Here a folder can't get another name while a file in it is open, and a lock keeps others from reading. So a folder is
//! held by a file beside it, which goes when its process ends. Virus scanners and search services open fresh files for
//! a moment: what fails for that is tried again for a while.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, Write};
use std::os::windows::fs::{MetadataExt, OpenOptionsExt};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use super::super::failure::{mendable, plain};
use super::{Holding, PAUSE, held_too_long, list_of, rename_if_free};

/// Opens folders too (`FILE_FLAG_BACKUP_SEMANTICS`).
const FOLDERS_TOO: u32 = 0x0200_0000;

/// Opens a link and not what it leads to (`FILE_FLAG_OPEN_REPARSE_POINT`).
const THE_LINK_ITSELF: u32 = 0x0020_0000;

/// The file goes when the last handle of it is closed (`FILE_FLAG_DELETE_ON_CLOSE`).
const GOES_WHEN_CLOSED: u32 = 0x0400_0000;

/// Marks what is a link, or a file whose bytes lie elsewhere (`FILE_ATTRIBUTE_REPARSE_POINT`).
const ELSEWHERE: u32 = 0x0000_0400;

/// `ERROR_ACCESS_DENIED`, which a name that is about to go answers with too.
const DENIED: i32 = 5;

/// `ERROR_SHARING_VIOLATION` and `ERROR_LOCK_VIOLATION`.
const IN_USE: [i32; 2] = [32, 33];

/// `ERROR_PRIVILEGE_NOT_HELD`.
const NO_RIGHT: i32 = 1314;

/// How long what another program holds is waited for. Scanners let go within a fraction of a second.
const PATIENCE: Duration = Duration::from_secs(2);

/// Whether [`open_beneath`] refuses links on the way by itself.
pub(in crate::door) const SEES_LINKS: bool = false;

/// Opens a file by its path below a folder, not through a link at its end; on the way to it, they must be looked for.
pub(in crate::door) fn open_beneath(folder: &Path, below: &Path) -> io::Result<File> {
    open(&folder.join(below))
}

/// Opens a file to read, not through a link.
pub(in crate::door) fn open(path: &Path) -> io::Result<File> {
    let with = |flags: u32| OpenOptions::new().read(true).custom_flags(FOLDERS_TOO | flags).open(path);
    let file = with(THE_LINK_ITSELF)?;
    let found = file.metadata()?;
    if found.is_symlink() {
        return Err(io::Error::new(io::ErrorKind::InvalidInput, "it is a link"));
    }
    // A file of a store in the network is brought here by opening it in the ordinary way.
    if found.file_attributes() & ELSEWHERE == 0 { Ok(file) } else { with(0) }
}

/// What the system notes about a file. A write changes its times, a file that takes its place has another number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::door) struct Trace {
    /// How many bytes it has.
    pub(in crate::door) size: u64,
    file: (u64, u64),
    modified: u64,
    created: u64,
}

/// What the system notes about a file, not through a link.
pub(in crate::door) fn trace(path: &Path) -> io::Result<Trace> {
    let file = open(path)?;
    let found = file.metadata()?;
    Ok(Trace {
        size: found.len(),
        file: identity(&file)?,
        modified: found.last_write_time(),
        created: found.creation_time(),
    })
}

/// The number that no other file has at the same time: of the disk, and of the file on it.
fn identity(file: &File) -> io::Result<(u64, u64)> {
    let found = winapi_util::file::information(file)?;
    Ok((found.volume_serial_number(), found.file_index()))
}

/// The same of what a name leads to without a link.
pub(in crate::door) fn identity_at(path: &Path) -> io::Result<(u64, u64)> {
    open(path).and_then(|file| identity(&file))
}

/// Whether a name leads, not through a link, to an opened file. What is known of that beside has no number of its own here.
pub(in crate::door) fn leads_to(path: &Path, opened: &File, _known: &Metadata) -> io::Result<bool> {
    Ok(identity(&open(path)?)? == identity(opened)?)
}

/// A folder held against other runs by a file beside it.
///
/// Nobody else can open that file while it is held, and it goes when its process ends, however it ends.
#[derive(Debug)]
pub(in crate::door) struct Hold {
    list: PathBuf,
    _held: File,
}

impl Hold {
    /// Holds a folder; none when another run holds it, or when the folder or its list is gone.
    pub(in crate::door) fn of(folder: &Path, list: &str, holding: Holding) -> io::Result<Option<Self>> {
        let list = folder.join(list);
        let Some(held) = hold(&beside(folder), holding)? else { return Ok(None) };
        let is_there = match holding {
            Holding::New => File::create_new(&list).map(|_| true),
            Holding::Wait(_) | Holding::IfFree => fs::symlink_metadata(&list).map(|found| found.is_file()),
        };
        match is_there {
            Ok(true) => Ok(Some(Self { list, _held: held })),
            Ok(false) => Ok(None),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// What the list says.
    pub(in crate::door) fn read(&self) -> io::Result<Vec<u8>> {
        list_of(File::open(&self.list)?)
    }

    /// Writes the list anew, given in pieces, through to the disk.
    pub(in crate::door) fn write(&self, pieces: impl IntoIterator<Item = String>) -> io::Result<()> {
        let mut list = OpenOptions::new().write(true).truncate(true).open(&self.list)?;
        pieces.into_iter().try_for_each(|piece| list.write_all(piece.as_bytes()))?;
        list.sync_all()
    }
}

/// The file that holds a folder: `.site.held` beside `site`, and the same while that stands aside for a moment.
fn beside(folder: &Path) -> PathBuf {
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    let name = name.trim_start_matches('.');
    folder.with_file_name(format!(".{}.held", name.strip_suffix(".aside").unwrap_or(name)))
}

/// Opens the file that holds a folder; none when another run has it open.
///
/// That it may not be opened at all is answered as if it were about to go, so this is borne with for a while only.
fn hold(path: &Path, holding: Holding) -> io::Result<Option<File>> {
    let begun = Instant::now();
    let mut denied = None;
    loop {
        let opened = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .share_mode(0)
            .custom_flags(GOES_WHEN_CLOSED)
            .open(path);
        match opened {
            Ok(file) => return Ok(Some(file)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) if !is_held_open(&error) => return Err(error),
            Err(_) if holding == Holding::IfFree => return Ok(None),
            Err(error) if error.raw_os_error() == Some(DENIED) => {
                if denied.get_or_insert_with(Instant::now).elapsed() >= PATIENCE {
                    return Err(can_not_hold(path, &error));
                }
            }
            Err(_) => match holding {
                Holding::Wait(longest) if begun.elapsed() >= longest => return Err(held_too_long(longest)),
                Holding::Wait(_) => denied = None,
                Holding::New | Holding::IfFree => return Ok(None),
            },
        }
        thread::sleep(PAUSE);
    }
}

/// The error for a file that would keep other runs off and can't be opened.
fn can_not_hold(path: &Path, error: &io::Error) -> io::Error {
    let message = format!("the file '{}', which keeps other runs off, can't be opened: {error}", plain(path));
    mendable(error.kind(), message, "remove what has that name, or see that you may write there; nothing was changed")
}

/// Makes a link that leads where another leads.
pub(in crate::door) fn copy_link(from: &Path, to: &Path) -> io::Result<()> {
    use std::os::windows::fs::{FileTypeExt, symlink_dir, symlink_file};
    let leads = fs::read_link(from)?;
    let made = if fs::symlink_metadata(from)?.file_type().is_symlink_dir() {
        symlink_dir(leads, to)
    } else {
        symlink_file(leads, to)
    };
    made.map_err(|error| {
        if error.raw_os_error() != Some(NO_RIGHT) {
            return error;
        }
        let message = "it is a link, and the system lets you make none";
        let mend =
            "turn on the developer mode of the system, or put what it leads to in its place; nothing was changed";
        mendable(io::ErrorKind::PermissionDenied, message, mend)
    })
}

/// Removes what is no folder; a link to a folder is one only for this call.
pub(in crate::door) fn remove_file(path: &Path) -> io::Result<()> {
    use std::os::windows::fs::FileTypeExt;
    let leads_to_folder = fs::symlink_metadata(path)?.file_type().is_symlink_dir();
    if leads_to_folder { fs::remove_dir(path) } else { fs::remove_file(path) }
}

/// A new folder is for those whom its own folder lets in.
pub(in crate::door) fn permit_folder(_maker: &mut tempfile::Builder<'_, '_>) {}

/// A new file is for those whom its folder lets in.
pub(in crate::door) fn permit_file(_maker: &mut tempfile::Builder<'_, '_>) {}

/// Whether a folder's own permissions let somebody write in it. The mark *read-only* of a folder says something else here.
pub(in crate::door) fn may_be_written(_folder: &Metadata) -> bool {
    true
}

/// Lets a folder be emptied; one that was brought over may have been marked.
pub(in crate::door) fn loosen(folder: &Path) -> io::Result<()> {
    let mut permissions = fs::symlink_metadata(folder)?.permissions();
    if permissions.readonly() {
        #[expect(clippy::permissions_set_readonly_false, reason = "on this system that takes a mark away and no more")]
        permissions.set_readonly(false);
        fs::set_permissions(folder, permissions)?;
    }
    Ok(())
}

/// Exchanges two folders as one change, which this system has no call for.
///
/// # Errors
/// Always, of kind `Unsupported`.
pub(in crate::door) fn exchange(_left: &Path, _right: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Renames a file to a name that must be free.
pub(in crate::door) fn rename_to_free_name(old: &Path, new: &Path) -> io::Result<()> {
    patiently(|| rename_if_free(old, new))
}

/// Renames a file or a folder.
pub(in crate::door) fn rename(old: &Path, new: &Path) -> io::Result<()> {
    patiently(|| fs::rename(old, new))
}

/// Moves a folder to a name that is free or that an empty folder has.
pub(in crate::door) fn move_in(new: &Path, place: &Path) -> io::Result<()> {
    match fs::remove_dir(place) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
        _ => {}
    }
    // A taken name and one in use are answered alike, so that is looked at first.
    patiently(|| if is_there(place) { Err(io::ErrorKind::AlreadyExists.into()) } else { fs::rename(new, place) })
}

fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Whether something can't be done because a program holds the file open.
pub(in crate::door) fn is_held_open(error: &io::Error) -> bool {
    error.raw_os_error().is_some_and(|number| number == DENIED || IN_USE.contains(&number))
}

/// Whether this program has as many files open as may be (`ERROR_TOO_MANY_OPEN_FILES`).
pub(in crate::door) fn has_too_many_open(error: &io::Error) -> bool {
    error.raw_os_error() == Some(4)
}

/// Does what may fail because another program holds a file open, again and again for a while.
pub(in crate::door) fn patiently<T>(mut attempt: impl FnMut() -> io::Result<T>) -> io::Result<T> {
    let begun = Instant::now();
    loop {
        match attempt() {
            Err(error) if is_held_open(&error) && begun.elapsed() < PATIENCE => thread::sleep(PAUSE),
            done => return done,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_another_program_lets_go_of_is_renamed() {
        let folder = tempfile::tempdir().unwrap();
        let (old, new) = (folder.path().join("old"), folder.path().join("new"));
        fs::create_dir(&old).unwrap();
        fs::write(old.join("page"), "x").unwrap();
        let shown = OpenOptions::new().read(true).share_mode(0).open(old.join("page")).unwrap();
        let lets_go = thread::spawn(move || {
            thread::sleep(Duration::from_millis(200));
            drop(shown);
        });
        rename(&old, &new).unwrap();
        lets_go.join().unwrap();
        assert!(new.join("page").exists());
    }

    #[test]
    fn a_hold_leaves_nothing_behind() {
        let folder = tempfile::tempdir().unwrap();
        let site = folder.path().join("site");
        fs::create_dir(&site).unwrap();
        let hold = Hold::of(&site, "list", Holding::New).unwrap().unwrap();
        assert!(Hold::of(&site, "list", Holding::IfFree).unwrap().is_none());
        hold.write(["a".to_owned()]).unwrap();
        drop(hold);
        let hold = Hold::of(&site, "list", Holding::Wait(PATIENCE)).unwrap().unwrap();
        assert_eq!(hold.read().unwrap(), b"a");
        let waited = Hold::of(&site, "list", Holding::Wait(PAUSE)).unwrap_err();
        assert_eq!(waited.kind(), io::ErrorKind::ResourceBusy);
        drop(hold);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn what_can_not_be_opened_is_named_and_not_waited_for_without_end() {
        let folder = tempfile::tempdir().unwrap();
        let site = folder.path().join("site");
        fs::create_dir_all(&site).unwrap();
        fs::write(site.join("list"), "").unwrap();
        fs::create_dir(folder.path().join(".site.held")).unwrap();
        let refused = Hold::of(&site, "list", Holding::Wait(Duration::from_mins(10))).unwrap_err();
        assert!(refused.to_string().contains(".site.held"), "{refused}");
    }
}
