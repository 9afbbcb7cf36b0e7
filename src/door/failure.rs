//! Errors of the disk that say which path they are about and what an author can do.

use std::io;
use std::path::Path;

/// An error of our own making.
pub(super) fn failure(kind: io::ErrorKind, message: impl Into<String>) -> io::Error {
    io::Error::new(kind, message.into())
}

/// Adds the path to an error of the system, which tells only what went wrong; the kind stays.
pub(super) fn about(path: &Path) -> impl FnOnce(io::Error) -> io::Error {
    move |error| failure(error.kind(), format!("'{}': {error}", plain(path)))
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
