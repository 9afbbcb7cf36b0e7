//! The register of checks: every check of every layer in one list, for all who ask what there is.

use super::Check;

/// Every check that there is, layer by layer. The story holds the one list; whoever asks gets it handed down.
#[derive(Debug, Clone, Copy)]
pub struct Registry(&'static [&'static [&'static Check]]);

impl Registry {
    /// The register of the lists of all layers.
    pub const fn of(lists: &'static [&'static [&'static Check]]) -> Self {
        Self(lists)
    }

    /// All checks, in the order of the lists.
    pub fn iter(self) -> impl Iterator<Item = &'static Check> {
        self.0.iter().copied().flatten().copied()
    }

    /// The check of an id.
    pub fn find(self, id: &str) -> Option<&'static Check> {
        self.iter().find(|check| check.id == id)
    }

    /// The ids of the checks that keep people safe; none of them can be waived.
    pub fn safety(self) -> impl Iterator<Item = &'static str> {
        self.iter().filter(|check| check.safety).map(|check| check.id)
    }
}
