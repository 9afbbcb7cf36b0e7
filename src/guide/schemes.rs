//! All schemes of a guide, and whether they are all that its author wrote.

use std::ops::{Deref, DerefMut};
use std::sync::Arc;

use super::Scheme;

/// The schemes, in the order of their slugs.
#[derive(Debug, Default)]
pub struct Schemes {
    all: Vec<Arc<Scheme>>,
    complete: bool,
}

impl Schemes {
    /// These schemes; `complete` says that no file of a scheme or a sequence could not be read.
    pub(super) fn new(all: Vec<Arc<Scheme>>, complete: bool) -> Self {
        Self { all, complete }
    }

    /// Whether all that schemes say is known: what none of them names is named nowhere then.
    pub fn are_whole(&self) -> bool {
        self.complete && self.all.iter().all(|scheme| scheme.whole)
    }
}

impl Deref for Schemes {
    type Target = [Arc<Scheme>];

    fn deref(&self) -> &Self::Target {
        &self.all
    }
}

impl DerefMut for Schemes {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.all
    }
}

impl<'a> IntoIterator for &'a Schemes {
    type Item = &'a Arc<Scheme>;
    type IntoIter = std::slice::Iter<'a, Arc<Scheme>>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<'a> IntoIterator for &'a mut Schemes {
    type Item = &'a mut Arc<Scheme>;
    type IntoIter = std::slice::IterMut<'a, Arc<Scheme>>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}
