//! What is kept of a resolving, so that the next one resolves only schemes whose files or names changed.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::anchors::Anchors;
use super::asked::Lookups;
use super::library::{Library, Names};
use super::{Paint, Pot, Scheme, Tool};
use crate::report::{FileId, Files, Finding};
use crate::source::SchemeSource;

/// The guide as it was resolved the last time.
#[derive(Debug, Default)]
pub struct KeptGuide {
    pub(super) names: Arc<Names>,
    pub(super) paints: BTreeMap<String, Arc<Paint>>,
    pub(super) tools: BTreeMap<String, Arc<Tool>>,
    pub(super) pots: BTreeMap<String, Arc<Pot>>,
    pub(super) schemes: BTreeMap<String, Arc<KeptScheme>>,
    anchors: BTreeMap<FileId, Arc<Anchors>>,
    for_one_look: bool,
}

/// A scheme that was resolved, and everything that it was resolved from.
#[derive(Debug)]
pub(super) struct KeptScheme {
    /// Its files; none where nobody looks again.
    pub(super) source: Option<SchemeSource>,
    /// Whether all of them could be read without an error.
    pub(super) read_whole: bool,
    /// The names that it was resolved among.
    pub(super) names: Arc<Names>,
    /// The paints and tools that it asked for.
    pub(super) asked: Lookups,
    /// What came of it.
    pub(super) scheme: Arc<Scheme>,
    /// What was found.
    pub(super) findings: Vec<Finding>,
}

impl KeptScheme {
    /// Whether resolving it again could only give the same.
    pub(super) fn holds(&self, source: &SchemeSource, read_whole: bool, library: &Library) -> bool {
        self.source.as_ref().is_some_and(|own| own.is_same(source))
            && self.read_whole == read_whole
            && Arc::ptr_eq(&self.names, &library.names)
            && library.still_answers(&self.asked)
    }
}

impl KeptGuide {
    /// For a guide that is resolved once and never again: nothing is kept of its files.
    pub fn for_one_look() -> Self {
        Self { for_one_look: true, ..Self::default() }
    }

    /// Whether nobody will look again.
    pub(super) fn is_for_one_look(&self) -> bool {
        self.for_one_look
    }

    /// The anchors of the headings in a text that begins at a byte of its file.
    pub(super) fn anchors(&mut self, files: &Files, file: FileId, start: usize) -> Arc<Anchors> {
        let text = files.shared_text(file);
        if let Some(known) = self.anchors.get(&file).filter(|known| known.are_of(&text, start)) {
            return Arc::clone(known);
        }
        let anchors = Arc::new(Anchors::of(text, start));
        self.anchors.insert(file, Arc::clone(&anchors));
        anchors
    }

    /// These names, or the same ones of the last time where nothing changed.
    pub(super) fn names(&mut self, names: Names) -> Arc<Names> {
        if *self.names != names {
            self.names = Arc::new(names);
        }
        Arc::clone(&self.names)
    }
}

/// Of each thing the same one as the last time, where it did not change; so a change can be told by looking at it.
pub(super) fn unchanged<T: PartialEq>(things: &mut [Arc<T>], known: &BTreeMap<String, Arc<T>>, id: fn(&T) -> &str) {
    for thing in things {
        if let Some(same) = known.get(id(thing)).filter(|known| **known == *thing) {
            *thing = Arc::clone(same);
        }
    }
}
