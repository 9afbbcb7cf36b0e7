//! What sets a version of a scheme apart from the scheme as it is.

use crate::report::{OfVersion, Place, Role};

/// A version: a variant, other ways, steps left out.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Version {
    /// The slug of the scheme that it is a version of.
    pub of: String,
    /// The title of that scheme.
    pub of_title: String,
    /// The id of the variant, if it is one.
    pub variant: Option<String>,
    /// The other ways that are taken, by the names of their steps.
    pub ways: Vec<String>,
    /// The optional steps that are left out, by their names.
    pub skip: Vec<String>,
    /// Whether nothing is sprayed in it, while the scheme itself sprays.
    pub brush_only: bool,
    /// What it is called beside the scheme's title.
    pub label: String,
    /// Whether that only says what is left out.
    pub is_without: bool,
    /// Where it is told of.
    pub place: Place,
}

impl Version {
    /// What it is called by itself: `Salt guard: Ember guard`, `Salt guard, without Edges`.
    pub fn title(&self) -> String {
        let sign = if self.is_without { "," } else { ":" };
        format!("{}{sign} {}", self.of_title, self.label)
    }
    /// How a finding says that it holds for this version.
    pub fn as_told(&self) -> OfVersion {
        OfVersion { scheme: self.of.clone(), name: self.label.clone(), role: Role::Version }
    }
}
