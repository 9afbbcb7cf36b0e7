//! A mesh that can't be used.

use super::form::Form;

/// Why a mesh can't be used.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Unread {
    /// A file can't be read: which of the mesh's files, and why.
    Broken(usize, String),
    /// Its name does not tell how it is to be read: which of the mesh's files, and what it looks like.
    Misnamed(usize, Option<Form>),
    /// It has a size that no model has.
    Huge(Size),
    /// It is so small that nothing of it can be drawn.
    Tiny(Size),
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

    /// Whether it is thinner than any coat of paint, from end to end.
    pub(super) fn is_tiny(self) -> bool {
        /// A thousandth of a millimetre: a dry coat is ten times as thick. A figure whose file is in metres is thirty times
        /// as long, and is still measured; what is drawn of a shorter one is lost in rounding.
        const SHORTEST: f64 = 0.001;
        self.long < SHORTEST
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

    #[test]
    fn a_size_that_is_less_than_a_coat_of_paint_is_tiny() {
        let is_tiny = |long: f64| Size { long, surface: 1.0 }.is_tiny();
        assert!(is_tiny(0.000_9) && is_tiny(1e-12) && is_tiny(0.0));
        assert!(!is_tiny(0.028) && !is_tiny(0.001) && !is_tiny(32.0));
    }
}
