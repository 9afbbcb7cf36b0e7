//! Reading an ordinary file whole: no link, no device, no pipe, and no more of it than is wanted.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use super::failure::{about, failure};
use super::system;

/// No more room than this is made before anything was read, in bytes: a file may say of itself what it likes.
const MOST_ROOM: u64 = 1 << 20;

/// The bytes of a file, at most `limit` of them; `name` is what its author calls it.
///
/// # Errors
/// When it can't be read, is no ordinary file, or is larger (of kind [`io::ErrorKind::FileTooLarge`]).
pub(super) fn read(full: &Path, name: &str, limit: u64) -> io::Result<Vec<u8>> {
    read_opened(system::open(full).map_err(about(full))?, name, limit)
}

/// The bytes of a file that is open, at most `limit` of them.
///
/// # Errors
/// As of [`read`].
pub(super) fn read_opened(file: File, name: &str, limit: u64) -> io::Result<Vec<u8>> {
    let found = file.metadata()?;
    if !found.is_file() {
        return Err(failure(io::ErrorKind::InvalidInput, format!("'{name}' is not an ordinary file")));
    }
    // One byte more than is allowed tells a file that is too large, even one that grows meanwhile.
    // Room for all of it at once, so that reading need not ask again and again.
    let room = found.len().min(limit).min(MOST_ROOM).saturating_add(1);
    let mut bytes = Vec::with_capacity(usize::try_from(room).unwrap_or_default());
    file.take(limit.saturating_add(1)).read_to_end(&mut bytes).map_err(about(Path::new(name)))?;
    if bytes.len() as u64 > limit {
        return Err(failure(io::ErrorKind::FileTooLarge, format!("'{name}' is larger than {limit} bytes")));
    }
    Ok(bytes)
}
