//! A finding: something that a guide's author should know, with everything needed to mend it.

use super::{Check, Level, Place, wording};

/// Something that is wrong or worth knowing, at one place of the guide's files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule that was broken; it brings the id, the level and the why.
    pub check: &'static Check,
    /// How much it matters here; mostly as much as the rule says.
    pub level: Level,
    /// Where the mend is to be made.
    pub place: Place,
    /// What is wrong, in the author's own names: lower case, no full stop.
    pub message: String,
    /// How to mend it: lower case, no full stop.
    pub mend: String,
    /// Other places that explain it.
    pub related: Vec<Related>,
}

/// A second place that explains a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Related {
    /// Where.
    pub place: Place,
    /// What is there.
    pub message: String,
    /// For which version of a scheme that holds, where it may hold for several.
    pub version: Option<OfVersion>,
}

/// That something holds for a version of a scheme.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfVersion {
    /// The slug of the scheme that it is a version of.
    pub scheme: String,
    /// What the version is called.
    pub name: String,
    /// What the place is to it.
    pub role: Role,
}

/// What a place is to a version of a scheme.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// The version uses a sequence there.
    Use,
    /// The version is told of there.
    Version,
}

impl Finding {
    /// A finding with all that it must say.
    pub fn new(check: &'static Check, place: Place, message: impl Into<String>, mend: impl Into<String>) -> Self {
        Self { check, level: check.level, place, message: message.into(), mend: mend.into(), related: Vec::new() }
    }

    /// The same finding with one more place that explains it.
    #[must_use]
    pub fn see(mut self, place: Place, message: impl Into<String>) -> Self {
        self.related.push(Related { place, message: message.into(), version: None });
        self
    }

    /// The same finding with the place that explains for which version of a scheme it holds.
    #[must_use]
    pub fn see_version(mut self, place: Place, version: OfVersion) -> Self {
        let name = wording::quoted(&version.name);
        let message = match version.role {
            Role::Use => format!("used here by {name}"),
            Role::Version => format!("in the version {name}"),
        };
        self.related.push(Related { place, message, version: Some(version) });
        self
    }

    /// The same finding where it matters more or less than the rule usually does.
    #[must_use]
    pub fn at(mut self, level: Level) -> Self {
        self.level = level;
        self
    }

    /// Whether another says the same of the same place, whatever explains it.
    pub fn is_same(&self, other: &Self) -> bool {
        std::ptr::eq(self.check, other.check)
            && (self.level, self.place) == (other.level, other.place)
            && self.message == other.message
            && self.mend == other.mend
    }

    /// How much it matters.
    pub fn level(&self) -> Level {
        self.level
    }
}
