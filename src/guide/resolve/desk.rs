//! What is gathered while names are looked up, and small things that every part of it needs.

use std::collections::BTreeSet;

use crate::guide::asked::Lookups;
use crate::report::{Finding, Placed, wording};

/// What is gathered while names are looked up.
#[derive(Debug, Default)]
pub(crate) struct ResolveDesk {
    /// The findings.
    pub(crate) findings: Vec<Finding>,
    /// The files that something links to or shows.
    pub(crate) linked_files: BTreeSet<String>,
    /// The paints and tools that were asked for.
    pub(crate) asked: Lookups,
    /// Whether something was left out without a word, because it may be in a file that can't be read.
    pub(crate) lost: bool,
    /// How many names were compared with misspelt ones.
    compared: usize,
}

/// With so many names misspelt ones are compared: two hundred of them in a guide of five thousand. More in one scheme are
/// no slips of the pen, and their nearest names would take time with the square of the guide.
const MOST_COMPARED: usize = 1_000_000;

impl ResolveDesk {
    /// Notes a finding.
    pub(crate) fn tell(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// The known name nearest to a misspelt one, of `count`.
    pub(crate) fn nearest<'a>(
        &mut self,
        name: &str,
        count: usize,
        known: impl IntoIterator<Item = &'a str>,
    ) -> Option<&'a str> {
        let patient = self.compared < MOST_COMPARED;
        self.compared = self.compared.saturating_add(count);
        if patient { wording::nearest(name, known) } else { None }
    }

    /// The mend for a misspelt name ([`wording::did_you_mean`]), of `count`.
    pub(crate) fn did_you_mean<'a>(
        &mut self,
        name: &str,
        what: &str,
        count: usize,
        known: impl IntoIterator<Item = &'a str>,
    ) -> String {
        if self.compared >= MOST_COMPARED {
            return wording::look_up(what, count);
        }
        self.compared = self.compared.saturating_add(count);
        wording::did_you_mean(name, what, &known.into_iter().collect::<Vec<_>>())
    }
}

/// The value of a field that may be left out.
pub(crate) fn value<T: Clone>(placed: Option<&Placed<T>>) -> Option<T> {
    placed.map(|placed| placed.value.clone())
}

/// An id as words, for what has no name of its own: `fine-airbrush` becomes `Fine airbrush`.
pub(crate) fn words_of(id: &str) -> String {
    let words = id.replace('-', " ");
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
