//! SHA-256 as text.

use std::fmt::Write as _;

use sha2::{Digest, Sha256};

/// The SHA-256 of parts that follow each other, in hexadecimal digits.
pub fn sha256<'a>(parts: impl IntoIterator<Item = &'a [u8]>) -> String {
    let mut all = Sha256::new();
    for part in parts {
        all.update(part);
    }
    all.finalize().iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}
