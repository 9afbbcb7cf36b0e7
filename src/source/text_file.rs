//! A text file as the door gave it, or why its text can't be used.

use std::io;
use std::sync::Arc;

use super::checks;
use super::layout::Part;
use crate::door::Door;
use crate::report::{FileId, Finding, Place, wording};

/// The largest text file, in bytes.
pub const LARGEST_TEXT: u64 = 1_000_000;

/// A file as the door gave it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct TextFile {
    /// Its text; empty where it can't be used.
    pub(super) text: Arc<str>,
    /// Why it can't be used, if so.
    pub(super) problem: Option<Problem>,
}

/// Why a file's text can't be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Problem {
    Unreadable(String),
    TooLarge,
    NotUtf8,
    ControlCharacter(usize),
}

impl Problem {
    /// The finding at the file.
    pub(super) fn finding(&self, file: FileId) -> Finding {
        let top = Place::top_of(file);
        match self {
            Self::Unreadable(why) => locked(file, why),
            Self::TooLarge => {
                let most = LARGEST_TEXT / 1_000_000;
                let message = format!("this file is larger than {most} MB and is not read");
                Finding::new(&checks::TOO_LARGE, top, message, "split it, or move it out of the content folder")
            }
            Self::NotUtf8 => {
                let mend = "save it again as UTF-8; every editor has that choice where it saves";
                Finding::new(&checks::ENCODING, top, "this file is not UTF-8 text", mend)
            }
            Self::ControlCharacter(at) => Finding::new(
                &checks::ENCODING,
                Place::new(file, *at, at + 1),
                "there is a control character here",
                "delete it",
            ),
        }
    }
}

/// The finding for a file or a folder that the system does not let be read.
pub(super) fn locked(file: FileId, why: &str) -> Finding {
    let mend = "allow reading it, or copy it there again";
    Finding::new(&checks::LOCKED, Place::top_of(file), format!("it can't be read: {why}"), mend)
}

/// The finding for a file that is left out.
pub(super) fn refused(file: FileId, why: &str) -> Finding {
    let mend = "put an ordinary file in its place, with a plain name";
    Finding::new(&checks::OUTSIDE, Place::top_of(file), format!("this file is not read: {why}"), mend)
}

/// The finding for a folder that is left out for another one, whose name only some systems tell from its own.
pub(super) fn twin(file: FileId, path: &str, taken: &str) -> Finding {
    let name = wording::quoted(path.rsplit('/').next().unwrap_or(path));
    let taken = wording::quoted(taken);
    let message = format!(
        "this folder is not read: its name, {name}, differs from {taken} only in capitals or in how its accents are stored"
    );
    let mend = format!("give the folder another name, or move what is in it to {taken}");
    Finding::new(&checks::NAME, Place::top_of(file), message, mend)
}

impl TextFile {
    /// Reads a file that is such a part of a guide; a part that nobody reads is left alone.
    pub(super) fn load(door: &dyn Door, path: &str, part: &Part) -> Self {
        let nothing = |problem| Self { text: Arc::from(""), problem };
        if !part.is_opened() {
            return nothing(None);
        }
        match door.read(path, LARGEST_TEXT) {
            Err(error) if error.kind() == io::ErrorKind::FileTooLarge => nothing(Some(Problem::TooLarge)),
            Err(error) => nothing(Some(Problem::Unreadable(error.to_string()))),
            Ok(bytes) => Self::of(&bytes),
        }
    }

    /// The text of some bytes.
    pub(super) fn of(bytes: &[u8]) -> Self {
        match std::str::from_utf8(bytes) {
            Err(_) => Self { text: Arc::from(""), problem: Some(Problem::NotUtf8) },
            Ok(text) => {
                // A place is one in the text as it is shown.
                let text = text.strip_prefix('\u{feff}').unwrap_or(text);
                Self { text: Arc::from(text), problem: control_character(text).map(Problem::ControlCharacter) }
            }
        }
    }
}

fn control_character(text: &str) -> Option<usize> {
    text.bytes().position(|byte| byte < 0x20 && !matches!(byte, b'\t' | b'\n' | b'\r'))
}
