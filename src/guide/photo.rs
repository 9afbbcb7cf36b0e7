//! A picture that the front matter names.

/// A picture and what it shows.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Photo {
    /// The path from the content folder.
    pub path: String,
    /// What it shows, for those who can't see it.
    pub alt: String,
    /// What is below it, where that is more than what it shows.
    pub caption: Option<String>,
}
