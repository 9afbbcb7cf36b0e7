//! The anchors of a text, which are looked for when a link first asks for one: most texts are never asked.

use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};

use super::markdown;

/// The anchors of the headings in a text that begins at a byte of its file.
#[derive(Debug)]
pub(crate) struct Anchors {
    text: Arc<str>,
    start: usize,
    all: OnceLock<BTreeSet<String>>,
}

impl Anchors {
    /// The anchors of a text.
    pub(crate) fn of(text: Arc<str>, start: usize) -> Self {
        Self { text, start, all: OnceLock::new() }
    }

    /// Whether these are the anchors of that very text.
    pub(crate) fn are_of(&self, text: &Arc<str>, start: usize) -> bool {
        Arc::ptr_eq(&self.text, text) && self.start == start
    }

    /// All of them.
    pub(crate) fn all(&self) -> &BTreeSet<String> {
        self.all.get_or_init(|| {
            let body = self.text.get(self.start..).unwrap_or_default();
            markdown::headings(body).into_iter().map(|heading| heading.anchor).collect()
        })
    }
}

/// Two texts are alike to whoever asks for anchors when they have the same ones.
impl PartialEq for Anchors {
    fn eq(&self, other: &Self) -> bool {
        self.are_of(&other.text, other.start) || self.all() == other.all()
    }
}
