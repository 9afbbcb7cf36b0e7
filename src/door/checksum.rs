//! XXH3 in 128 bits: whether a file that the program wrote itself still has its bytes.

use std::fmt;

use twox_hash::XxHash3_128;

/// A checksum of bytes, shown and read as 32 hexadecimal digits. It is taken several times as fast as a
/// [`Digest`](super::Digest) and finds whatever happens to a file, but keeps nobody from making two files with the same one:
/// it is for files that are compared with themselves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Checksum([u8; 16]);

impl Checksum {
    /// That of some bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(XxHash3_128::oneshot(bytes).to_be_bytes())
    }

    /// The one that a text shows; none where it is not 32 hexadecimal digits.
    pub(super) fn read(text: &str) -> Option<Self> {
        let sum = Self(u128::from_str_radix(text, 16).ok()?.to_be_bytes());
        // As it is shown, and not with a sign, in capitals or shorter.
        (sum.to_string() == text).then_some(sum)
    }
}

impl fmt::Display for Checksum {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:032x}", u128::from_be_bytes(self.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_shown_as_digits_and_read_from_them_alone() {
        // Of nothing: the first vector that the authors of XXH3 give.
        let shown = "99aa06d3014798d86001c324468d497f";
        let sum = Checksum::of(b"");
        assert_eq!(sum.to_string(), shown);
        assert_eq!(Checksum::read(shown), Some(sum));
        for other in [&shown[1..], &shown.replace('9', "g"), &format!("{shown}0"), &shown.to_uppercase(), "-", ""] {
            assert_eq!(Checksum::read(other), None, "{other}");
        }
    }

    #[test]
    fn one_changed_byte_is_another() {
        let mut bytes = vec![7; 1_000];
        let before = Checksum::of(&bytes);
        for at in [0, 16, 240, 241, 999] {
            bytes[at] ^= 1;
            assert_ne!(Checksum::of(&bytes), before, "{at}");
            bytes[at] ^= 1;
        }
        assert_eq!(Checksum::of(&bytes), before);
    }
}
