//! Which sort of file a mesh is in: by the ending of its name, and by how it begins.

use super::soup::{MARK, Soup};
use super::{obj, ply, stl};

/// A sort of file that can be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Stl,
    Obj,
    Ply,
}

impl Form {
    const ALL: [Self; 3] = [Self::Stl, Self::Obj, Self::Ply];

    /// That which the name of a file ends in.
    pub(super) fn of_name(path: &str) -> Option<Self> {
        let (_, ending) = path.rsplit('/').next()?.rsplit_once('.')?;
        Self::ALL.into_iter().find(|form| form.ending().eq_ignore_ascii_case(ending))
    }

    /// That which a file looks like, whatever its name is.
    pub(super) fn of_bytes(bytes: &[u8]) -> Option<Self> {
        /// So many lines are looked at: programs write a few of their own before the first corner.
        const LINES: usize = 200;
        if stl::has_its_length(bytes) {
            return Some(Self::Stl);
        }
        let text = bytes.strip_prefix(MARK).unwrap_or(bytes);
        let lines = || text.split(|byte| *byte == b'\n').take(LINES).map(<[u8]>::trim_ascii);
        let begins = |start: &[u8]| lines().any(|line| line.starts_with(start));
        if lines().next() == Some(b"ply") {
            Some(Self::Ply)
        } else if text.starts_with(b"solid") && begins(b"facet ") {
            Some(Self::Stl)
        } else if begins(b"v ") || begins(b"v\t") {
            Some(Self::Obj)
        } else {
            None
        }
    }

    /// What names of such files end in.
    pub(super) fn ending(self) -> &'static str {
        match self {
            Self::Stl => "stl",
            Self::Obj => "obj",
            Self::Ply => "ply",
        }
    }

    /// What such files are called.
    pub(super) fn called(self) -> &'static str {
        match self {
            Self::Stl => "STL",
            Self::Obj => "OBJ",
            Self::Ply => "PLY",
        }
    }

    /// The most bytes that such a file may have.
    pub(super) fn most_bytes(self) -> u64 {
        match self {
            Self::Stl => stl::MOST_BYTES,
            Self::Obj => obj::MOST_BYTES,
            Self::Ply => ply::MOST_BYTES,
        }
    }

    /// The triangles of such a file.
    ///
    /// # Errors
    /// Why it can't be read.
    pub(super) fn read(self, bytes: Vec<u8>) -> Result<Soup, String> {
        match self {
            Self::Stl => stl::stl(bytes),
            Self::Obj => obj::obj(&bytes),
            Self::Ply => ply::ply(&bytes),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_form_is_told_by_the_name_and_by_the_bytes() {
        assert_eq!(Form::of_name("schemes/a.b/m.STL"), Some(Form::Stl));
        assert_eq!(Form::of_name("m.obj"), Some(Form::Obj));
        for other in ["m.fbx", "m", "schemes/obj.ply/m", "m.obj.zip", ""] {
            assert_eq!(Form::of_name(other), None, "{other}");
        }
        let mut binary = vec![0_u8; 134];
        binary[80] = 1;
        assert_eq!(Form::of_bytes(&binary), Some(Form::Stl));
        assert_eq!(Form::of_bytes(b"solid x\n  facet normal 0 0 1\n"), Some(Form::Stl));
        assert_eq!(Form::of_bytes(b"\xef\xbb\xbf# made by hand\r\nmtllib a.mtl\r\nv 0 0 0\r\n"), Some(Form::Obj));
        assert_eq!(Form::of_bytes(b"ply\r\nformat ascii 1.0\r\n"), Some(Form::Ply));
        for other in [&b"PK\x03\x04 and so on"[..], b"", b"solid ground\n", b"plywood\n", &[0; 300]] {
            assert_eq!(Form::of_bytes(other), None);
        }
    }
}
