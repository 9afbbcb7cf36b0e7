//! A mesh that can't be used.

/// Why a mesh can't be used.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Unread {
    /// A file can't be read: which of the mesh's files, and why.
    Broken(usize, String),
    /// It has a size that no model has.
    Huge(Size),
}

/// How large a mesh is, in units of the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Size {
    /// Its longest side, in millimetres.
    pub(super) long: f64,
    /// Its surface, in square centimetres.
    pub(super) surface: f64,
}

impl Size {
    /// Whether no model is as large. What is no number is as large as anything.
    pub(super) fn is_huge(self) -> bool {
        /// A hundred metres, in millimetres.
        const LONGEST: f64 = 100_000.0;
        /// More than a block of that size has, in square centimetres.
        const MOST_SURFACE: f64 = 1e9;
        let within = self.long <= LONGEST && self.surface <= MOST_SURFACE;
        !within
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_that_no_model_has_is_huge() {
        let is_huge = |long: f64, surface: f64| Size { long, surface }.is_huge();
        assert!(!is_huge(32.0, 20.0) && !is_huge(100_000.0, 1e8));
        assert!(is_huge(100_001.0, 20.0) && is_huge(6e38, 1e75) && is_huge(30.0, 2e9));
        assert!(is_huge(f64::INFINITY, 1.0) && is_huge(f64::NAN, 1.0) && is_huge(1.0, f64::NAN));
    }
}
