//! SHA-256: what tells whether bytes are the same.

use std::fmt;

use serde::{Serialize, Serializer};
use sha2::{Digest as _, Sha256};

/// A SHA-256; shown and read as hexadecimal digits. A site has two of them for each of its files, so it is held as bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    /// That of parts that follow each other.
    pub fn of<'a>(parts: impl IntoIterator<Item = &'a [u8]>) -> Self {
        let mut all = Sha256::new();
        for part in parts {
            all.update(part);
        }
        all.into()
    }

    /// Its 32 bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.0
    }

    /// The one that a text shows; none where it is not 64 hexadecimal digits, small as they are shown.
    pub fn read(text: &str) -> Option<Self> {
        let (pairs, rest) = text.as_bytes().as_chunks::<2>();
        let digit = |digit: u8| match digit {
            b'0'..=b'9' => Some(digit - b'0'),
            b'a'..=b'f' => Some(digit - b'a' + 10),
            _ => None,
        };
        let mut bytes = [0; 32];
        if !rest.is_empty() || pairs.len() != bytes.len() {
            return None;
        }
        for (byte, [high, low]) in bytes.iter_mut().zip(pairs) {
            *byte = digit(*high)? << 4 | digit(*low)?;
        }
        Some(Self(bytes))
    }
}

impl From<Sha256> for Digest {
    fn from(all: Sha256) -> Self {
        Self(all.finalize().into())
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        const DIGITS: [char; 16] = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f'];
        let digit = |half: u8| DIGITS[usize::from(half)];
        let digits: String = self.0.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect();
        out.write_str(&digits)
    }
}

impl Serialize for Digest {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_shown_as_digits_and_read_from_them_alone() {
        // By `printf 'a{}' | sha256sum`.
        let shown = "5f546eb4606b5c2b7d2a449a5cc2bbb477ed5a246c7051ce871b12f2dbfc8419";
        let digest = Digest::of([&b"a"[..], b"{}"]);
        assert_eq!(digest.to_string(), shown);
        assert_eq!(Digest::read(shown), Some(digest));
        for other in [&shown[1..], &shown.to_uppercase(), &shown.replace('5', "g"), &format!("{shown}00"), "-"] {
            assert_eq!(Digest::read(other), None, "{other}");
        }
    }
}
