//! Why a photograph can't be read, and what helps.

/// What is wrong, why that matters, and how to mend it; all in lower case and without a full stop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// What is wrong.
    pub what: String,
    /// Why nothing can be read from it.
    pub why: &'static str,
    /// What to do.
    pub mend: String,
}

impl Refusal {
    /// A refusal.
    pub(crate) fn new(what: impl Into<String>, why: &'static str, mend: impl Into<String>) -> Self {
        Self { what: what.into(), why, mend: mend.into() }
    }
}
