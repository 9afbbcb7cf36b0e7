//! What is checked: one entry for every rule, from which the findings, the page "What is checked" and
//! `check`'s explanations take their words.

use serde::Serialize;

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Level {
    /// Nothing is published until it is mended.
    Error,
    /// Usually wrong, but the author may know better.
    Warning,
    /// Worth knowing.
    Note,
}

impl Level {
    /// The word used in the terminal, in JSON and on pages.
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// One thing that is checked.
#[derive(Debug, PartialEq, Eq)]
pub struct Check {
    /// The id in plain words with hyphens, as authors write it after `waive`.
    pub id: &'static str,
    /// How much a finding of this kind matters.
    pub level: Level,
    /// What is looked for, as one sentence without a full stop.
    pub about: &'static str,
    /// What a painter or a reader loses without it, as one sentence without a full stop.
    pub why: &'static str,
    /// The group under which the page "What is checked" lists it.
    pub group: Group,
    /// A rule that keeps people safe: it can't be waived.
    pub safety: bool,
}

/// The groups of the page "What is checked".
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Group {
    /// Whether a file can be read and says what it must.
    Files,
    /// Whether what a file names exists.
    Names,
    /// Links and pictures.
    Links,
    /// Bare surfaces and grounds.
    Surface,
    /// The order of work.
    Order,
    /// Metal, and clear colour over metal.
    Metal,
    /// Decals.
    Decals,
    /// Washes and weathering.
    Washes,
    /// Varnish.
    Varnish,
    /// Solvents, and what they do to what lies beneath.
    Chemistry,
    /// Masks.
    Masks,
    /// Chipping.
    Chipping,
    /// Drying times.
    Drying,
    /// How thick the paint gets.
    Thickness,
    /// The evenings of an army.
    Evenings,
    /// What is listed and never used, or used and never listed.
    Bookkeeping,
    /// People's safety.
    Safety,
    /// The theme of the guide.
    Theme,
}

impl Group {
    /// All groups, in the order of the page.
    pub const ALL: &[Self] = &[
        Self::Safety,
        Self::Surface,
        Self::Order,
        Self::Metal,
        Self::Decals,
        Self::Washes,
        Self::Varnish,
        Self::Chemistry,
        Self::Masks,
        Self::Chipping,
        Self::Drying,
        Self::Thickness,
        Self::Evenings,
        Self::Bookkeeping,
        Self::Files,
        Self::Names,
        Self::Links,
        Self::Theme,
    ];
}
