//! Errors of the disk that say which path they are about and what an author can do.

use std::io;
use std::path::Path;

/// An error of our own making.
pub(super) fn failure(kind: io::ErrorKind, message: impl Into<String>) -> io::Error {
    io::Error::new(kind, message.into())
}

/// Adds the path to an error of the system, which tells only what went wrong; the kind stays.
pub(super) fn about(path: &Path) -> impl FnOnce(io::Error) -> io::Error {
    move |error| failure(error.kind(), format!("'{}': {error}", path.display()))
}
