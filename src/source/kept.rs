//! What is kept of a reading, so that the next one parses only files that changed.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::layout::Part;
use super::parsed::Parsed;
use super::text_file::TextFile;
use crate::door::Door;
use crate::report::{FileId, Files};

/// The last letter of the Latin blocks that stand first in Unicode.
const LAST_LATIN: char = '\u{24f}';

/// The files of the last reading.
#[derive(Debug, Default)]
pub struct KeptSource {
    /// All text files with their lasting ids.
    pub files: Files,
    known: BTreeMap<String, KeptFile>,
}

/// One file of the last reading.
#[derive(Debug, Clone)]
pub(super) struct KeptFile {
    /// The stamp of its bytes, where the door gives stamps.
    pub(super) stamp: Option<u64>,
    /// Its lasting id.
    pub(super) file: FileId,
    /// Its text.
    pub(super) text: TextFile,
    /// What is in it: read from that text, that id and the part that the path is, and from nothing else.
    pub(super) parsed: Arc<Parsed>,
}

/// What a look at one file gave.
pub(super) enum Load {
    /// The file as it was the last time.
    Same(KeptFile),
    /// Another text, and the stamp that it is under.
    New(TextFile, Option<u64>),
}

impl KeptSource {
    /// Looks at a file: by its stamp, or by its bytes where the door knows no stamps.
    pub(super) fn load(&self, door: &dyn Door, path: &str, part: &Part) -> Load {
        let stamp = door.stamp(path);
        let known = self.known.get(path);
        if let Some(same) = known.filter(|known| stamp.is_some() && known.stamp == stamp) {
            return Load::Same(same.clone());
        }
        let text = TextFile::load(door, path, part);
        match known.filter(|known| known.text == text) {
            Some(same) => Load::Same(KeptFile { stamp, ..same.clone() }),
            None => Load::New(text, stamp),
        }
    }

    /// Keeps the files of a reading, and none besides.
    pub(super) fn keep(&mut self, files: impl Iterator<Item = (String, KeptFile)>) {
        self.known = files.collect();
    }

    /// The letters of all files beyond Latin ones.
    pub(super) fn letters(&self) -> BTreeSet<char> {
        let texts = self.known.values().map(|known| &*known.text.text).filter(|text| !text.is_ascii());
        texts.flat_map(|text| text.chars().filter(|letter| *letter > LAST_LATIN)).collect()
    }
}
