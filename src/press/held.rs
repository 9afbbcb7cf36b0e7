//! The published copies of pictures that were made for somebody who looks: a page asks for one, soon for another.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::copies::made_from;
use crate::door::Digest;
use crate::picture::{self, Picture};
use crate::report::Finding;

/// No more bytes of copies are held; beyond that all are let go, and made again when they are asked for.
const MOST_BYTES: usize = 100_000_000;

/// The copies of one picture: their paths and bytes.
type Made = Arc<Vec<(picture::Copy, Vec<u8>)>>;

/// Copies by the hash of what they were made from.
#[derive(Debug, Default)]
pub struct Held {
    made: Mutex<BTreeMap<Digest, Made>>,
}

impl Held {
    /// The copies of a picture, from the bytes of its file.
    ///
    /// # Errors
    /// A finding at the picture's file, when it is broken after its header.
    pub(super) fn of(&self, bytes: &[u8], picture: &Picture) -> Result<Made, Box<Finding>> {
        let from = made_from(bytes, picture);
        if let Some(made) = self.made().get(&from) {
            return Ok(Arc::clone(made));
        }
        let made = Arc::new(picture::ready(bytes, picture)?);
        let weight = |made: &Made| made.iter().map(|(_, bytes)| bytes.len()).sum::<usize>();
        let mut held = self.made();
        if held.values().map(weight).sum::<usize>() + weight(&made) > MOST_BYTES {
            held.clear();
        }
        held.insert(from, Arc::clone(&made));
        Ok(made)
    }

    fn made(&self) -> MutexGuard<'_, BTreeMap<Digest, Made>> {
        self.made.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
