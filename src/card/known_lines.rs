//! Lines that were set before: words of the interface, cautions and names of paints stand on many cards, and to set type
//! takes long.

use std::collections::HashMap;
use std::mem::Discriminant;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use parley::Alignment;

use super::set_line::SetLine;
use super::voice::Voice;
use crate::measure::Colour;

/// So many paragraphs are known at most. What all cards have is among the first.
const MOST: usize = 3000;

/// All that decides how a paragraph comes out in the fonts of one theme.
#[derive(Debug, PartialEq, Eq, Hash)]
pub(super) struct Asked {
    /// The text of each piece and its look: voice, size and leading, colour.
    pub(super) spans: Vec<(String, Voice, [u32; 2], Colour)>,
    /// How wide it may be.
    pub(super) width: u32,
    /// Whether its marks will be put the other way round.
    pub(super) mirrored: bool,
    /// Against which edge it stands.
    pub(super) alignment: Discriminant<Alignment>,
}

/// The lines of paragraphs that were set.
#[derive(Debug, Default)]
pub(super) struct KnownLines(Mutex<HashMap<Asked, Arc<[SetLine]>>>);

impl KnownLines {
    /// The lines of a paragraph, if it was set before.
    pub(super) fn get(&self, asked: &Asked) -> Option<Arc<[SetLine]>> {
        self.all().get(asked).cloned()
    }

    /// Remembers the lines of a paragraph while there is room.
    pub(super) fn put(&self, asked: Asked, lines: &[SetLine]) {
        let mut all = self.all();
        if all.len() < MOST {
            all.insert(asked, lines.into());
        }
    }

    fn all(&self) -> MutexGuard<'_, HashMap<Asked, Arc<[SetLine]>>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
