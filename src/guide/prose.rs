//! A text in Markdown whose links have found their targets.

use std::sync::Arc;

use crate::report::FileId;
use crate::trade::Stage;

/// The body of a file.
#[derive(Debug, Clone, PartialEq, Hash)]
pub struct Prose {
    /// The file it is in.
    pub file: FileId,
    /// The whole text of the file; the body is its end.
    pub text: Arc<str>,
    /// The byte at which the body begins.
    pub start: usize,
    /// Where its links and pictures lead, in the order in which they stand.
    pub targets: Vec<Target>,
}

/// Where a link or a picture leads.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Target {
    /// To the web, or to a mail address.
    Outside(String),
    /// To a heading of the same text, by its anchor.
    Here(String),
    /// To something of the guide, and perhaps a heading there.
    Thing(Thing, Option<String>),
    /// To a file of the content folder, by its path from there.
    File(String),
    /// Nowhere: a finding says so, and the link is shown as plain text.
    Nowhere,
}

/// Something that has a page of its own.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Thing {
    /// A scheme, by its slug.
    Scheme(String),
    /// A step, by its scheme's slug and its own stem.
    Step(String, String),
    /// A paint, by its id.
    Paint(String),
    /// A sequence, by its slug.
    Sequence(String),
    /// A free page, by its slug.
    Page(String),
    /// An army, by its slug.
    Army(String),
    /// All steps of a stage.
    Stage(Stage),
    /// All schemes with a tag, by the tag's slug.
    Tag(String),
}

impl Prose {
    /// The Markdown of the body.
    pub fn markdown(&self) -> &str {
        self.text.get(self.start..).unwrap_or_default()
    }

    /// Whether nothing but space stands in it.
    pub fn is_empty(&self) -> bool {
        self.markdown().trim().is_empty()
    }
}
