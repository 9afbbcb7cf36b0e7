//! Errors of the disk that say which path they are about and what an author can do.

use std::error::Error;
use std::fmt;
use std::io;
use std::path::Path;

/// An error of our own making.
pub(super) fn failure(kind: io::ErrorKind, message: impl Into<String>) -> io::Error {
    io::Error::new(kind, message.into())
}

/// An error with what helps, where its kind alone would tell something else.
#[derive(Debug)]
struct Mended {
    message: String,
    mend: String,
}

impl fmt::Display for Mended {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.message)
    }
}

impl Error for Mended {}

/// An error of our own making that says what helps.
pub fn mendable(kind: io::ErrorKind, message: impl Into<String>, mend: impl Into<String>) -> io::Error {
    io::Error::new(kind, Mended { message: message.into(), mend: mend.into() })
}

/// What helps against an error, where it says so itself.
pub fn mend_of(error: &io::Error) -> Option<&str> {
    Some(&error.get_ref()?.downcast_ref::<Mended>()?.mend)
}

/// Adds the path to an error of the system, which tells only what went wrong; the kind and what helps stay.
pub(super) fn about(path: &Path) -> impl FnOnce(io::Error) -> io::Error {
    move |error| in_words(&error, format!("'{}': {error}", plain(path)))
}

/// An error in other words; the kind and what helps stay.
pub(super) fn in_words(error: &io::Error, message: String) -> io::Error {
    match mend_of(error) {
        Some(mend) => mendable(error.kind(), message, mend),
        None => failure(error.kind(), message),
    }
}

/// A path as an author writes it: Windows answers with a mark in front that lifts the limit on its length.
pub(super) fn plain(path: &Path) -> String {
    let shown = path.display().to_string();
    if cfg!(windows) { unmarked(&shown) } else { shown }
}

fn unmarked(shown: &str) -> String {
    match shown.strip_prefix(r"\\?\") {
        Some(rest) => rest.strip_prefix(r"UNC\").map_or_else(|| rest.to_owned(), |host| format!(r"\\{host}")),
        None => shown.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_helps_stays_with_an_error_that_gets_its_path() {
        let error = about(Path::new("site"))(mendable(io::ErrorKind::ResourceBusy, "it is held", "let go of it"));
        assert_eq!((error.to_string().as_str(), mend_of(&error)), ("'site': it is held", Some("let go of it")));
        assert_eq!(mend_of(&about(Path::new("site"))(io::ErrorKind::NotFound.into())), None);
    }

    #[test]
    fn a_path_is_shown_without_the_mark_of_the_system() {
        for (said, shown) in [
            (r"\\?\C:\fen\site", r"C:\fen\site"),
            (r"\\?\UNC\host\fen", r"\\host\fen"),
            (r"\\host\fen", r"\\host\fen"),
            ("/home/fen", "/home/fen"),
        ] {
            assert_eq!(unmarked(said), shown);
        }
    }
}
