//! What the headings of an author's texts are called on the pages that show them.
//!
//! The anchor of a heading is its words ([`super::markdown::slug`]) and has no `_`; names that begin with a letter and have one
//! are the program's, whatever an author writes. A page has a few names without one too: a heading of such a name gets one of
//! the program's, and links to the heading lead there.

/// Where the content of every page begins.
const OF_PAGE: &str = "content";

/// The parts of the front page.
const OF_FRONT: &[&str] = &["armies", "brush-only", "sequences"];

/// The parts of a scheme's page.
const OF_SCHEME: &[&str] = &["news", "pots", "steps", "versions"];

/// What the choice of a side from which the model is seen begins with, on a scheme's page.
const OF_SIDE: &str = "turned-";

/// A heading on a page that has no parts of its own.
pub fn on_page(anchor: &str) -> String {
    named(anchor, anchor == OF_PAGE)
}

/// A heading on the front page.
pub fn on_front(anchor: &str) -> String {
    named(anchor, anchor == OF_PAGE || OF_FRONT.contains(&anchor))
}

/// A heading of a scheme's own text; `is_step` is whether a step of the scheme has that name.
pub fn of_scheme(anchor: &str, is_step: impl Fn(&str) -> bool) -> String {
    let is_part = anchor == OF_PAGE || OF_SCHEME.contains(&anchor) || anchor.starts_with(OF_SIDE);
    named(anchor, is_part || is_of_step(anchor, 0, is_step))
}

/// A heading of a step, by its name and number, on the page of its whole scheme.
pub fn of_step((stem, number): (&str, usize), anchor: &str, is_step: impl Fn(&str) -> bool) -> String {
    let name = format!("{stem}-{anchor}");
    if is_of_step(&name, stem.len(), is_step) { format!("step_{number}_{anchor}") } else { name }
}

fn named(anchor: &str, is_taken: bool) -> String {
    if is_taken { format!("text_{anchor}") } else { anchor.to_owned() }
}

/// Whether a name is that of a step, or of a heading of one, whose own name is longer than this.
fn is_of_step(name: &str, longer_than: usize, is_step: impl Fn(&str) -> bool) -> bool {
    let ends = name.match_indices('-').map(|(at, _)| at).chain([name.len()]);
    ends.filter(|end| *end > longer_than).any(|end| is_step(&name[..end]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_heading_keeps_its_name_where_nothing_else_has_it() {
        let is_step = |name: &str| ["10-wash", "10-wash-dry"].contains(&name);
        for anchor in ["armies", "wash", "10-wax", "10", "do-gloves", "note-1"] {
            assert_eq!(of_scheme(anchor, is_step), anchor);
        }
        for anchor in ["content", "steps", "turned-left", "10-wash", "10-wash-dry", "10-wash-wet"] {
            assert_eq!(of_scheme(anchor, is_step), format!("text_{anchor}"));
        }
        assert_eq!([on_page("content"), on_page("steps")], ["text_content", "steps"]);
        assert_eq!([on_front("content"), on_front("armies")], ["text_content", "text_armies"]);
        for (stem, anchor, name) in [
            ("10-wash", "wet", "10-wash-wet"),
            ("10-wash", "dry", "step_3_dry"),
            ("10-wash", "dry-it", "step_3_dry-it"),
            ("10-wash", "drying", "10-wash-drying"),
            ("10-wash-dry", "it", "10-wash-dry-it"),
        ] {
            assert_eq!(of_step((stem, 3), anchor, is_step), name);
        }
    }
}
