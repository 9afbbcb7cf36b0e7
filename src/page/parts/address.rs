//! Where everything stands in the published folder, and how one page links to another.

use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

use crate::guide::Thing;
use crate::trade::Stage;

/// The path of a page or a file in the published folder.
#[derive(Debug, Clone, Copy)]
pub struct Address;

impl Address {
    /// The page of a thing.
    pub fn of(thing: &Thing) -> String {
        match thing {
            Thing::Scheme(slug) => format!("schemes/{slug}.html"),
            Thing::Step(slug, stem) => format!("schemes/{slug}/{stem}.html"),
            Thing::Paint(id) => format!("paints/{id}.html"),
            Thing::Sequence(slug) => format!("sequences/{slug}.html"),
            Thing::Page(slug) => format!("pages/{slug}.html"),
            Thing::Army(slug) => format!("armies/{slug}.html"),
            Thing::Stage(stage) => Self::stage(*stage),
            Thing::Tag(slug) => format!("tags/{slug}.html"),
        }
    }

    /// The page of a stage.
    pub fn stage(stage: Stage) -> String {
        format!("stages/{stage}.html")
    }

    /// A scheme's shopping list, as a file of this ending.
    pub fn shopping(slug: &str, ending: &str) -> String {
        format!("schemes/{slug}/shopping.{ending}")
    }

    /// An army's shopping list, as a file of this ending.
    pub fn army_shopping(slug: &str, ending: &str) -> String {
        format!("armies/{slug}/shopping.{ending}")
    }

    /// The evenings of an army, as a calendar file.
    pub fn calendar(slug: &str) -> String {
        format!("armies/{slug}.ics")
    }

    /// An army's grid to tick off on paper.
    pub fn tick_grid(slug: &str) -> String {
        format!("armies/{slug}/tick-grid.html")
    }

    /// A scheme's recipe, to print.
    pub fn card(slug: &str) -> String {
        format!("schemes/{slug}/card.pdf")
    }

    /// The picture for links to a scheme.
    pub fn preview(slug: &str) -> String {
        format!("schemes/{slug}/preview.png")
    }

    /// A picture of a model, drawn by the program: of a step, or from a side, with what tells its size.
    pub fn drawn(slug: &str, of: &str, size: &str) -> String {
        format!("schemes/{slug}/drawn/{of}{size}.jpg")
    }

    /// The chapters of a scheme's video, for players.
    pub fn chapters(slug: &str) -> String {
        format!("schemes/{slug}/chapters.vtt")
    }

    /// The chapters of a scheme's video, to paste.
    pub fn chapter_list(slug: &str) -> String {
        format!("schemes/{slug}/chapters.txt")
    }

    /// A scheme's recipe as plain text, to paste.
    pub fn recipe(slug: &str) -> String {
        format!("schemes/{slug}/recipe.txt")
    }

    /// A scheme's own Markdown.
    pub fn source(slug: &str) -> String {
        format!("schemes/{slug}/source.html")
    }
}

/// Letters that an address takes as they are; all else is written with per cent signs.
const PLAIN: &AsciiSet = &NON_ALPHANUMERIC.remove(b'/').remove(b'-').remove(b'.').remove(b'_').remove(b'~');

/// The link from the page at `from` to the file at `to`, both paths in the published folder.
pub fn relative(from: &str, to: &str) -> String {
    let from_parts: Vec<&str> = from.split('/').collect();
    let to_parts: Vec<&str> = to.split('/').collect();
    let folders = from_parts.len() - 1;
    let most = folders.min(to_parts.len() - 1);
    let common = (0..most).take_while(|at| from_parts[*at] == to_parts[*at]).count();
    let up = "../".repeat(folders - common);
    let down = to_parts[common..].join("/");
    format!("{up}{}", utf8_percent_encode(&down, PLAIN))
}

/// A link with an anchor behind it.
pub(in crate::page) fn with_anchor(link: &str, anchor: Option<&str>) -> String {
    match anchor {
        Some(anchor) => format!("{link}#{}", utf8_percent_encode(anchor, PLAIN)),
        None => link.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_relative_and_plain() {
        assert_eq!(relative("index.html", "paints/bog-iron.html"), "paints/bog-iron.html");
        assert_eq!(relative("schemes/warden/10-wash.html", "schemes/warden.html"), "../warden.html");
        assert_eq!(relative("schemes/warden.html", "schemes/warden/10-wash.html"), "warden/10-wash.html");
        assert_eq!(relative("schemes/a.html", "schemes/a.html"), "a.html");
        assert_eq!(relative("tags/x.html", "schemes/a/photos/ein bild.jpg"), "../schemes/a/photos/ein%20bild.jpg");
    }
}
