//! The folder that is to be written: where it lies, what may be there before, and what the folders beside it are called.

use std::ffi::{OsStr, OsString};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::super::Purpose;
use super::super::failure::{about, failure, mendable, plain};
use super::super::names::{folded, objection};
use super::super::system;
use super::manifest::{LastRead, MANIFEST, Manifest, Reading};

/// The folder of the guide that holds what its author wrote.
const CONTENT: &str = "content";

/// The folder of the guide that holds its themes.
const THEMES: &str = "themes";

/// How the name of a folder in the making ends.
pub(super) const STAGING: &str = ".staging";

/// How many letters and digits tell one folder in the making from another.
pub(super) const MARK: usize = 6;

/// A place for a folder: a name in a folder that exists.
#[derive(Debug, Clone)]
pub(super) struct Target {
    parent: PathBuf,
    name: OsString,
}

/// What is in the place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
    /// Nothing.
    Missing,
    /// A folder with nothing in it.
    Empty,
    /// A site that was published before.
    Site,
    /// A folder with something of the author's.
    Full,
}

impl Target {
    /// The place that a path names.
    pub(super) fn new(path: &Path) -> io::Result<Self> {
        let Some(name) = path.file_name() else {
            let message =
                format!("'{}' does not name a folder; write its name, not where it is from here", plain(path));
            return Err(failure(io::ErrorKind::InvalidInput, message));
        };
        let parent = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        if cfg!(windows)
            && let Some(reason) = objection(&name.to_string_lossy())
        {
            // Its own programs could neither open nor remove such a folder.
            let message = format!("'{}' can't be made: {reason}", plain(path));
            let mend = "name a folder that is called otherwise; nothing was changed";
            return Err(mendable(io::ErrorKind::InvalidInput, message, mend));
        }
        match system::whole(parent) {
            Ok(parent) if parent.is_dir() => Ok(Self { parent, name: name.to_owned() }),
            Ok(_) => {
                let message = format!("'{}' is not a folder, so no folder can be made in it", plain(parent));
                Err(failure(io::ErrorKind::NotADirectory, message))
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound && parent.is_dir() => {
                let message = "the folder that you are in was removed";
                Err(mendable(error.kind(), message, "go to one that is there, and run it again; nothing was changed"))
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                let message = format!("there is no folder '{}' to put it in", plain(parent));
                Err(failure(error.kind(), message))
            }
            Err(error) => Err(about(parent)(error)),
        }
    }

    /// The whole path.
    pub(super) fn path(&self) -> PathBuf {
        self.parent.join(&self.name)
    }

    /// The folder that it lies in.
    pub(super) fn parent(&self) -> &Path {
        &self.parent
    }

    /// Where the old folder stands for a moment on a file system that can't exchange two folders as one change.
    pub(super) fn aside(&self) -> PathBuf {
        self.parent.join(joined(&[OsStr::new("."), &self.name, OsStr::new(".aside")]))
    }

    /// How the names of the folders in the making for this place begin.
    pub(super) fn prefix(&self) -> OsString {
        joined(&[OsStr::new("."), &self.name, OsStr::new("-")])
    }

    /// Whether a folder beside the place is one in the making for it, by its name.
    ///
    /// The mark has no hyphen in it, so the folders for `site` and for `site-2` are never mixed up.
    pub(super) fn is_staging(&self, name: &OsStr) -> bool {
        name.as_encoded_bytes()
            .strip_prefix(self.prefix().as_encoded_bytes())
            .and_then(|rest| rest.strip_suffix(STAGING.as_bytes()))
            .is_some_and(|mark| mark.len() == MARK && mark.iter().all(u8::is_ascii_alphanumeric))
    }

    /// Refuses a place where a site would replace the guide that it is made from, or would be taken for a part of it.
    pub(super) fn keep_clear_of(&self, guide: &Path) -> io::Result<()> {
        let target = canonical(self.path());
        let guide = canonical(guide.to_owned());
        let content = canonical(guide.join(CONTENT));
        let themes = canonical(guide.join(THEMES));
        let reason = if guide.starts_with(&target) || content.starts_with(&target) {
            "holds the guide itself"
        } else if target.starts_with(&content) || is_called(&guide, &target, CONTENT) {
            "lies inside the guide's content"
        } else if target.starts_with(&themes) || is_called(&guide, &target, THEMES) {
            "lies among the guide's themes"
        } else {
            return Ok(());
        };
        let message = format!("'{}' {reason}; publish into a folder of its own", plain(&self.path()));
        Err(failure(io::ErrorKind::InvalidInput, message))
    }

    /// Refuses a place in the content of a guide, where a new guide's files would be taken for that one's.
    pub(super) fn keep_out_of_guides(&self) -> io::Result<()> {
        let holds = |folder: &&Path| folder.ends_with(CONTENT) && folder.join("guide.yaml").is_file();
        let Some(content) = self.parent.ancestors().find(holds) else { return Ok(()) };
        let message = format!("'{}' lies inside the content of another guide", plain(&self.path()));
        let mend = format!("name a folder outside '{}'; nothing was changed", plain(content));
        Err(mendable(io::ErrorKind::InvalidInput, message, mend))
    }

    /// What is in the place now, if it may for this purpose; the list of a site is in `read` then.
    pub(super) fn admit(&self, purpose: Purpose, read: &mut LastRead) -> io::Result<State> {
        let state = self.state(read)?;
        let refused = match (purpose, state) {
            (_, State::Missing | State::Empty) | (Purpose::Site, State::Site) => return Ok(state),
            (Purpose::Site, State::Full) => "has files in it that were not published; name a new or an empty folder",
            (Purpose::Guide, State::Site | State::Full) => "is not empty; name a new or an empty folder",
        };
        Err(failure(io::ErrorKind::AlreadyExists, format!("the folder '{}' {refused}", plain(&self.path()))))
    }

    fn state(&self, read: &mut LastRead) -> io::Result<State> {
        let path = self.path();
        let found = match system::patiently(|| fs::symlink_metadata(&path)) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(State::Missing),
            other => other.map_err(about(&path))?,
        };
        let refused = if found.is_symlink() {
            (io::ErrorKind::NotADirectory, "is a link; name the folder that it leads to")
        } else if !found.is_dir() {
            (io::ErrorKind::NotADirectory, "is not a folder; name another place or move it away")
        } else if !system::may_be_written(&found) {
            (io::ErrorKind::PermissionDenied, "is a folder that may only be read; name another or allow writing")
        } else {
            return self.state_of_folder(read);
        };
        Err(failure(refused.0, format!("'{}' {}", plain(&path), refused.1)))
    }

    /// Looks for files before it looks for the manifest: with another run's swap in between, a folder that was
    /// empty is called so, which the renaming then finds out, rather than being called an author's. What goes away
    /// meanwhile is missing: another run may have taken it aside for a moment.
    fn state_of_folder(&self, read: &mut LastRead) -> io::Result<State> {
        let path = self.path();
        let manifest = path.join(MANIFEST);
        let mut entries = match system::patiently(|| fs::read_dir(&path)) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(State::Missing),
            other => other.map_err(about(&path))?,
        };
        if entries.next().is_none() {
            return Ok(State::Empty);
        }
        match system::patiently(|| fs::symlink_metadata(&manifest)) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                return Ok(if fs::symlink_metadata(&path).is_ok() { State::Full } else { State::Missing });
            }
            Ok(found) if !found.is_file() => return Err(no_list(&manifest)),
            other => other.map_err(about(&manifest))?,
        };
        let found = system::patiently(|| system::open(&manifest).and_then(system::list_of));
        let text = found.as_deref().unwrap_or_default();
        match found.as_ref().map(|text| read.read(text)) {
            Ok(Some(_)) => Ok(State::Site),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(State::Missing),
            Err(error) => {
                let message = format!("the list of published files, '{}', can't be read: {error}", plain(&manifest));
                Err(failure(error.kind(), message))
            }
            Ok(None) if Manifest::read_bytes(text) == Reading::Newer => {
                let message = format!("'{}' was written by a newer version of this program", plain(&manifest));
                let mend = "publish with that version, or name another folder; nothing was changed";
                Err(mendable(io::ErrorKind::AlreadyExists, message, mend))
            }
            Ok(None) => Err(no_list(&manifest)),
        }
    }
}

fn no_list(manifest: &Path) -> io::Error {
    let message = format!(
        "'{}' is no list of published files, so nobody can tell which files in its folder are yours",
        plain(manifest)
    );
    let mend = "move those away and remove the folder, or name another; nothing was changed";
    mendable(io::ErrorKind::AlreadyExists, message, mend)
}

/// Whether a place is in a folder of the guide that has this name where capitals do not count, or is that folder.
fn is_called(guide: &Path, place: &Path, name: &str) -> bool {
    let fold = |path: &Path| PathBuf::from(folded(&path.to_string_lossy()));
    fold(place).starts_with(fold(guide).join(name))
}

fn joined(parts: &[&OsStr]) -> OsString {
    parts.iter().copied().collect()
}

/// The path without links and detours, as far as it exists.
fn canonical(path: PathBuf) -> PathBuf {
    system::whole(&path).unwrap_or(path)
}

#[cfg(test)]
mod tests {
    #[cfg(unix)]
    use std::os::unix::fs::{PermissionsExt, symlink};

    use super::*;

    fn kind<T: std::fmt::Debug>(result: io::Result<T>) -> io::ErrorKind {
        result.unwrap_err().kind()
    }

    fn target(folder: &tempfile::TempDir, name: &str) -> Target {
        Target::new(&folder.path().join(name)).unwrap()
    }

    #[test]
    fn a_place_needs_a_name_and_a_folder_to_be_in() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("file"), "").unwrap();
        assert_eq!(kind(Target::new(Path::new("."))), io::ErrorKind::InvalidInput);
        assert_eq!(kind(Target::new(Path::new("/"))), io::ErrorKind::InvalidInput);
        assert_eq!(kind(Target::new(&folder.path().join("x/.."))), io::ErrorKind::InvalidInput);
        assert_eq!(kind(Target::new(&folder.path().join("missing/site"))), io::ErrorKind::NotFound);
        assert_eq!(kind(Target::new(&folder.path().join("file/site"))), io::ErrorKind::NotADirectory);
        assert!(Target::new(Path::new("site")).unwrap().path().is_absolute());
    }

    #[test]
    fn folders_in_the_making_are_known_by_their_names() {
        let folder = tempfile::tempdir().unwrap();
        let site = target(&folder, "site");
        assert!(site.is_staging(OsStr::new(".site-aB3xY9.staging")));
        for name in ["site-aB3xY9.staging", ".site-aB3xY.staging", ".site-2-aB3xY9.staging", ".site-aB3xY9", ".site"] {
            assert!(!site.is_staging(OsStr::new(name)), "{name}");
        }
        assert!(target(&folder, "site-2").is_staging(OsStr::new(".site-2-aB3xY9.staging")));
        assert!(!target(&folder, "site-2").is_staging(OsStr::new(".site-aB3xY9.staging")));
    }

    #[cfg(unix)]
    #[test]
    fn the_guide_and_its_content_are_no_place_for_a_site() {
        let folder = tempfile::tempdir().unwrap();
        let guide = folder.path().join("fen/guide");
        for inner in ["content/paints", "themes"] {
            fs::create_dir_all(guide.join(inner)).unwrap();
        }
        symlink(guide.join("content"), folder.path().join("door")).unwrap();
        for name in [
            "fen",
            "fen/guide",
            "fen/guide/content",
            "fen/guide/content/out",
            "fen/guide/themes/own",
            "fen/guide/Themes",
        ] {
            let place = target(&folder, name);
            assert_eq!(kind(place.keep_clear_of(&guide)), io::ErrorKind::InvalidInput, "{name}");
        }
        assert_eq!(kind(target(&folder, "door/out").keep_clear_of(&guide)), io::ErrorKind::InvalidInput);
        for name in ["fen/guide/published", "fen/guide/contents", "fen/published", "out"] {
            target(&folder, name).keep_clear_of(&guide).unwrap();
        }
    }

    #[cfg(unix)]
    #[test]
    fn content_that_is_a_link_is_kept_clear_of_where_it_leads() {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir_all(folder.path().join("guide")).unwrap();
        fs::create_dir_all(folder.path().join("words/text")).unwrap();
        symlink("../words/text", folder.path().join("guide/content")).unwrap();
        for name in ["words", "words/text", "words/text/out"] {
            let place = target(&folder, name);
            assert_eq!(kind(place.keep_clear_of(&folder.path().join("guide"))), io::ErrorKind::InvalidInput, "{name}");
        }
    }

    #[test]
    fn the_content_of_a_guide_is_no_place_for_another() {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir_all(folder.path().join("fen/content/pages")).unwrap();
        target(&folder, "fen/content/pages/new").keep_out_of_guides().unwrap();
        fs::write(folder.path().join("fen/content/guide.yaml"), "title: Fen\n").unwrap();
        for name in ["fen/content/new", "fen/content/pages/new"] {
            assert_eq!(kind(target(&folder, name).keep_out_of_guides()), io::ErrorKind::InvalidInput, "{name}");
        }
        target(&folder, "fen/new").keep_out_of_guides().unwrap();
    }

    #[cfg(windows)]
    #[test]
    fn a_name_that_the_system_s_own_programs_can_not_open_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["con", "nul", "site.", "site "] {
            assert_eq!(kind(Target::new(&folder.path().join(name))), io::ErrorKind::InvalidInput, "{name}");
        }
    }

    #[test]
    fn what_stands_in_the_place_decides_who_may_come() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["empty", "site", "full", "strange"] {
            fs::create_dir(folder.path().join(name)).unwrap();
        }
        fs::write(folder.path().join("site/.maulstick"), Manifest::default().text()).unwrap();
        fs::write(folder.path().join("full/notes.txt"), "mine").unwrap();
        fs::write(folder.path().join("strange/.maulstick"), "").unwrap();
        let admitted = |name: &str, purpose| {
            target(&folder, name).admit(purpose, &mut LastRead::default()).map_err(|error| error.kind())
        };
        let refused = Err(io::ErrorKind::AlreadyExists);
        for purpose in [Purpose::Site, Purpose::Guide] {
            assert_eq!(admitted("missing", purpose), Ok(State::Missing));
            assert_eq!(admitted("empty", purpose), Ok(State::Empty));
            assert_eq!(admitted("full", purpose), refused);
            assert_eq!(admitted("strange", purpose), refused);
        }
        assert_eq!(admitted("site", Purpose::Site), Ok(State::Site));
        assert_eq!(admitted("site", Purpose::Guide), refused);
    }

    #[test]
    fn the_list_of_a_newer_program_is_told_from_no_list() {
        let folder = tempfile::tempdir().unwrap();
        let said = |text: &str| {
            fs::write(folder.path().join("site/.maulstick"), text).unwrap();
            target(&folder, "site").admit(Purpose::Site, &mut LastRead::default()).unwrap_err().to_string()
        };
        fs::create_dir(folder.path().join("site")).unwrap();
        assert!(said("maulstick published this, format 4, files: 0\n").contains("newer version"));
        assert!(said("a letter\n").contains("is no list of published files"));
    }

    #[cfg(unix)]
    #[test]
    fn files_links_and_folders_to_read_only_are_refused_with_advice() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("file"), "mine").unwrap();
        fs::create_dir(folder.path().join("locked")).unwrap();
        symlink("locked", folder.path().join("link")).unwrap();
        fs::set_permissions(folder.path().join("locked"), fs::Permissions::from_mode(0o555)).unwrap();
        let cases = [
            ("file", io::ErrorKind::NotADirectory, "move it away"),
            ("link", io::ErrorKind::NotADirectory, "name the folder that it leads to"),
            ("locked", io::ErrorKind::PermissionDenied, "allow writing"),
        ];
        for (name, kind, advice) in cases {
            let error = target(&folder, name).admit(Purpose::Site, &mut LastRead::default()).unwrap_err();
            assert_eq!(error.kind(), kind, "{name}");
            assert!(error.to_string().contains(advice), "{error}");
        }
    }
}
