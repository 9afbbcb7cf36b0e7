//! A step that uses something on a list.

use crate::guide::{Scheme, Step};

/// A step that uses something.
#[derive(Debug, Clone, Copy)]
pub struct Use<'a> {
    /// Its scheme.
    pub scheme: &'a Scheme,
    /// The step.
    pub step: &'a Step,
}

impl PartialEq for Use<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.key() == other.key()
    }
}

impl Use<'_> {
    fn key(&self) -> (&str, usize) {
        (&self.scheme.slug, self.step.number)
    }
}
