//! SHA-256: what tells whether bytes are the same.

use std::fmt;

use serde::{Serialize, Serializer};
use sha2::{Digest as _, Sha256};

/// A SHA-256; shown and read as hexadecimal digits. A site has two of them for each of its files, so it is held as bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    /// That of parts that follow each other.
    pub fn of(parts: impl IntoIterator<Item: AsRef<[u8]>>) -> Self {
        let mut all = Sha256::new();
        for part in parts {
            all.update(part.as_ref());
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
        const DIGITS: [u8; 16] = *b"0123456789abcdef";
        let digit = |half: u8| DIGITS[usize::from(half)];
        let mut digits = [0; 64];
        for ([high, low], byte) in digits.as_chunks_mut::<2>().0.iter_mut().zip(self.0) {
            (*high, *low) = (digit(byte >> 4), digit(byte & 15));
        }
        out.write_str(std::str::from_utf8(&digits).unwrap_or_default())
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
