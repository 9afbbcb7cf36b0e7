//! The piece of a source line that is shown with a finding: one line, cut around its mark, so that neither the
//! time nor the output grows with the length of an author's lines.

use std::ops::Range;

use super::visible::visible;

/// How many characters of a line are kept on each side of a mark. The printer cuts to the width of the page, in
/// columns; this is only as much as it could need.
const BESIDE: usize = 160;

/// How many characters are marked at most.
const MARKED: usize = 80;

/// How many bytes of a line are looked at on each side of a mark's beginning: as much as can be shown, and one more
/// character that says that there is more.
const FAR: usize = 4 * (BESIDE + MARKED + 1);

/// What is shown of a text, made visible, and the bytes of it that are to be marked.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Excerpt {
    /// The line, or two lines where a blank one alone would not say where it is.
    pub(super) text: String,
    /// The bytes to mark, on character boundaries of `text`.
    pub(super) mark: Range<usize>,
    /// How many lines of `text` stand before the one with the mark.
    pub(super) lines_before: usize,
}

impl Excerpt {
    /// The line of `text` in which `place` begins. A place over several lines is marked in its first one, an
    /// empty place by one character.
    pub(super) fn of(text: &str, place: Range<usize>) -> Self {
        let line = line_around(text, place.start);
        let start = place.start.min(line.end);
        let one_more = text[start..line.end].chars().next().map_or(0, char::len_utf8);
        let end = place.end.clamp(start + one_more, line.end);
        let (cut_before, before) = last(&text[line.start..start], BESIDE);
        let (marked, cut_mark) = first(&text[start..end], MARKED);
        let (after, cut_after) = first(&text[start + marked.len()..line.end], BESIDE);
        let context = line_before_blank(text, &line);
        let lines_before = usize::from(context.is_some());
        let head = context.unwrap_or_default() + ellipsis(cut_before) + &visible(before);
        // The drawing library takes an empty last line for no line at all; a blank gives the mark its place.
        let mark = if lines_before > 0 && line.is_empty() { " ".to_owned() } else { visible(marked) };
        let tail = visible(after) + ellipsis(cut_mark || cut_after);
        Self { mark: head.len()..head.len() + mark.len(), text: head + &mark + &tail, lines_before }
    }
}

/// The line before a blank one, with its line break, if it says anything.
fn line_before_blank(text: &str, line: &Range<usize>) -> Option<String> {
    if !text[..line.start].ends_with('\n') || !text[line.clone()].trim().is_empty() {
        return None;
    }
    let (shown, cut) = first(&text[line_around(text, line.start - 1)], BESIDE);
    let says_something = !shown.trim().is_empty();
    says_something.then(|| visible(shown) + ellipsis(cut) + "\n")
}

/// The bytes of the line that holds `at`, without its line break; of a very long one the part around `at`.
fn line_around(text: &str, at: usize) -> Range<usize> {
    let (from, to) = (text.floor_char_boundary(at.saturating_sub(FAR)), text.ceil_char_boundary(at + FAR));
    let start = text[from..at].rfind('\n').map_or(from, |found| from + found + 1);
    let end = text[at..to].find('\n').map_or(to, |found| at + found);
    let end = if end > start && text[..end].ends_with('\r') { end - 1 } else { end };
    start..end
}

/// The first `most` characters, and whether there are more.
fn first(text: &str, most: usize) -> (&str, bool) {
    match text.char_indices().nth(most) {
        Some((at, _)) => (&text[..at], true),
        None => (text, false),
    }
}

/// Whether there are more, and the last `most` characters.
fn last(text: &str, most: usize) -> (bool, &str) {
    match text.char_indices().nth_back(most) {
        Some((at, skipped)) => (true, &text[at + skipped.len_utf8()..]),
        None => (false, text),
    }
}

fn ellipsis(cut: bool) -> &'static str {
    if cut { "…" } else { "" }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The excerpt with its mark between brackets.
    fn shown(text: &str, place: Range<usize>) -> String {
        let Excerpt { mut text, mark, .. } = Excerpt::of(text, place);
        text.insert(mark.end, ']');
        text.insert(mark.start, '[');
        text
    }

    #[test]
    fn the_line_is_shown_with_the_place_in_it() {
        assert_eq!(shown("one\ntwo three\nfour\n", 8..13), "two [three]");
        assert_eq!(shown("één drei", 6..10), "één [drei]");
    }

    #[test]
    fn an_empty_place_marks_one_character_but_no_line_break() {
        assert_eq!(shown("ab\ncd", 3..3), "[c]d");
        assert_eq!(shown("金縁", 0..0), "[金]縁");
        assert_eq!(shown("ab\r\ncd", 2..2), "ab[]");
        assert_eq!(shown("ab\r\ncd", 3..4), "ab[]");
        assert_eq!(shown("", 0..0), "[]");
    }

    #[test]
    fn a_place_over_several_lines_is_marked_in_its_first() {
        assert_eq!(shown("---\ntitle: A\n---\n", 4..17), "[title: A]");
    }

    #[test]
    fn a_blank_line_comes_with_the_line_before_it() {
        assert_eq!(shown("last words\n", 11..11), "last words\n[ ]");
        assert_eq!(Excerpt::of("last words\n", 11..11).lines_before, 1);
        assert_eq!(shown("a\n\n\nb", 3..3), "[]");
        assert_eq!(shown("\nb", 0..0), "[]");
    }

    #[test]
    fn a_long_line_is_cut_on_both_sides_and_in_the_mark() {
        let text = format!("{}{}{}", "a".repeat(500_000), "ß".repeat(1000), "z".repeat(500_000));
        let middle = shown(&text, 500_000..502_000);
        assert_eq!(middle, format!("…{}[{}]{}…", "a".repeat(BESIDE), "ß".repeat(MARKED), "ß".repeat(BESIDE)));
        let start = shown(&text, 0..1);
        assert_eq!(start, format!("[a]{}…", "a".repeat(BESIDE)));
        let end = shown(&text, 1_001_999..1_002_000);
        assert_eq!(end, format!("…{}[z]", "z".repeat(BESIDE)));
    }

    #[test]
    fn the_mark_stays_on_its_characters_behind_stand_ins() {
        assert_eq!(shown("\u{1b}\u{202e}key: x", 4..7), "␛�[key]: x");
    }
}
