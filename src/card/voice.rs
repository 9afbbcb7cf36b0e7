//! What a piece of text on a card is.

/// What a piece of text is, and so which font it asks for first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Voice {
    /// Titles.
    Heading,
    /// Running text.
    Text,
    /// Running text that stands out.
    Bold,
    /// Labels and figures.
    Label,
}

impl Voice {
    /// The name of its font in a theme, without the ending.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Heading => "heading",
            Self::Text => "text",
            Self::Bold => "text-bold",
            Self::Label => "label",
        }
    }
}
