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
    /// The file of a theme that is made for it.
    pub(super) fn path(self) -> &'static str {
        match self {
            Self::Heading => "print/heading.ttf",
            Self::Text => "print/text.ttf",
            Self::Bold => "print/text-bold.ttf",
            Self::Label => "print/label.ttf",
        }
    }
}
