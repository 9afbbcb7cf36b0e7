//! Words of a text that YAML takes for something else, and without a fault: for a comment after ` #`, for the name of a
//! value after `&`, for its kind after `!`.

/// The words that a text lost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Cut {
    /// The byte at which they begin.
    pub(crate) start: usize,
    /// The byte after them.
    pub(crate) end: usize,
    /// They themselves, with the sign that they begin with: `#`, `&` or `!`.
    pub(crate) words: String,
    /// The whole text as its author wrote it.
    pub(crate) whole: String,
}

impl Cut {
    /// The same, where the YAML begins at a byte of its file.
    pub(crate) fn moved_by(self, offset: usize) -> Self {
        Self { start: self.start + offset, end: self.end + offset, ..self }
    }
}

/// What ends a line of YAML.
pub(crate) const BREAKS: [char; 2] = ['\n', '\r'];

/// Whether a sign is blank, and ends no line.
pub(crate) fn is_space(sign: char) -> bool {
    sign.is_whitespace() && !BREAKS.contains(&sign)
}

/// What the text from one byte to another lost, if it has no quotes of its own.
pub(crate) fn of(yaml: &str, (start, end): (usize, usize)) -> Option<Cut> {
    let written = yaml.get(start..end)?.trim_end();
    if written.starts_with(['"', '\'']) {
        return None;
    }
    let end = start + written.len();
    let after = comment_after(yaml.get(end..)?);
    let mark = mark_before(yaml, start);
    let from = mark.map_or(start, |(at, _)| at);
    let (to, lost) = match (mark, after) {
        (Some((at, mark)), after) => (after.map_or(end, |(_, to)| end + to), (at, at + mark.len())),
        (None, Some((at, to))) => (end + to, (end + at, end + to)),
        (None, None) => return None,
    };
    let lines = yaml.get(from..to)?.split(BREAKS).map(str::trim).filter(|line| !line.is_empty());
    let whole = lines.collect::<Vec<_>>().join(" ");
    Some(Cut { start: lost.0, end: lost.1, words: yaml.get(lost.0..lost.1)?.to_owned(), whole })
}

/// The comment after a value, from one byte of what follows it to another, where it is hardly meant for one: a letter or a digit
/// follows its `#` at once. No further than that is looked at where there is none, as a line may hold thousands of values.
fn comment_after(rest: &str) -> Option<(usize, usize)> {
    let behind = rest.trim_start_matches(is_space);
    let at = rest.len() - behind.len();
    let comment = behind.strip_prefix('#').filter(|_| at > 0)?;
    if !comment.starts_with(char::is_alphanumeric) {
        return None;
    }
    let comment = comment.split(BREAKS).next()?;
    // A comment of its own may follow.
    let signs = comment.match_indices(" #");
    let own = signs.filter(|(at, _)| !comment[at + 2..].starts_with(char::is_alphanumeric)).map(|(at, _)| at).next();
    let text = comment.get(..own.unwrap_or(comment.len()))?.trim_end().trim_end_matches(',');
    Some((at, at + 1 + text.len()))
}

/// What stands before a value that begins at a byte and is no part of it, and the byte where it begins: a name (`&…`) that
/// nothing repeats, or a kind (`!…`) of the author's own.
pub(crate) fn mark_before(yaml: &str, at: usize) -> Option<(usize, &str)> {
    let front = yaml.get(..at)?.trim_end();
    let ends = |sign: char| sign.is_whitespace() || matches!(sign, '[' | '{' | ',');
    let begins = front.char_indices().rev().find(|(_, sign)| ends(*sign)).map_or(0, |(at, sign)| at + sign.len_utf8());
    let mark = front.get(begins..).filter(|mark| mark.starts_with(['&', '!']))?;
    // Of a comment nothing is lost. It ends with its line: a mark with its value, or a comma, behind it on that line is in none.
    let behind = yaml.get(front.len()..)?.trim_start_matches(is_space);
    if behind.is_empty() || behind.starts_with(BREAKS) {
        let before = front.get(..begins)?.rsplit(BREAKS).next().unwrap_or_default();
        if before.split([' ', '\t']).any(|word| word.starts_with('#')) {
            return None;
        }
    }
    let is_lost = match mark.strip_prefix('&') {
        Some(name) => !is_repeated(yaml, name),
        None => mark.starts_with('!') && !mark.starts_with("!!"),
    };
    is_lost.then_some((begins, mark))
}

/// The mark at the start of what is behind a key, where it has one of the author's own in place of a value.
pub(crate) fn mark_at(behind: &str) -> Option<&str> {
    let mark = behind.split(|sign: char| sign.is_whitespace() || matches!(sign, ',' | ']' | '}')).next()?;
    (mark.starts_with(['&', '!']) && !mark.starts_with("!!")).then_some(mark)
}

/// Whether a text that names a value `&name` repeats it somewhere as `*name`.
pub(crate) fn is_repeated(yaml: &str, name: &str) -> bool {
    let goes_on = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_');
    let alias = format!("*{name}");
    yaml.match_indices(&alias).any(|(at, _)| !yaml[at + alias.len()..].starts_with(goes_on))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The lost words and the whole text, where the text is given as it was read.
    fn lost(yaml: &str, read: &str) -> Option<(String, String)> {
        let start = yaml.find(read).unwrap();
        let cut = of(yaml, (start, start + read.len()))?;
        assert_eq!(yaml[cut.start..cut.end], cut.words);
        Some((cut.words, cut.whole))
    }

    #[test]
    fn words_that_became_a_comment_or_a_mark_are_found() {
        for (yaml, read, words, whole) in [
            ("card: Use pot #2 first\ncoats: 2\n", "Use pot", "#2 first", "Use pot #2 first"),
            ("a: Green #2 coat # thin\n", "Green", "#2 coat", "Green #2 coat"),
            ("a:\n  - One\n    more #5\n", "One\n    more", "#5", "One more #5"),
            ("a: Use pot #2 first\rb: 2\r", "Use pot", "#2 first", "Use pot #2 first"),
            ("a: &Green coat\n", "coat", "&Green", "&Green coat"),
            ("a: ! Green coat\n", "Green coat", "!", "! Green coat"),
            ("a: [x, !new coat]\n", "coat", "!new", "!new coat"),
        ] {
            assert_eq!(lost(yaml, read), Some((words.to_owned(), whole.to_owned())), "{yaml}");
        }
    }

    #[test]
    fn comments_quotes_and_marks_that_are_used_are_left_alone() {
        for (yaml, read) in [
            ("a: Green # thin\n", "Green"),
            ("a: Green\n#thin\n", "Green"),
            ("a: \"Green\" #2\n", "\"Green\""),
            ("a: |\n  Green #2\n", "Green #2"),
            ("a: Green#2\n", "Green#2"),
            ("a: &w 30 min\nb: *w\n", "30 min"),
            ("a: !!str 30\n", "30"),
            ("a: R&D coat &more\n", "R&D coat &more"),
            ("card:\n  # attention !\n  Thin it well.\n", "Thin it well."),
            ("safety: [ # attention !\n  Gloves]\n", "Gloves"),
            ("a:\n  - # see !x\n    Gloves\n", "Gloves"),
            ("a: Green\r#2\r", "Green"),
        ] {
            assert_eq!(lost(yaml, read), None, "{yaml}");
        }
    }
    #[test]
    fn a_mark_in_a_comment_is_none_of_the_value_that_is_missing_there() {
        for yaml in ["a:\n  - # see !x", "a:\n  - # see !x \n", "a: # see !x\nb: 1\n", "# see !x\r"] {
            for at in yaml.find("!x").unwrap() + 2..=yaml.len() {
                assert_eq!(mark_before(yaml, at), None, "{yaml:?} at {at}");
            }
        }
        for yaml in ["a: [# see\n  !x , y]", "a:\n  - !x\n", "a: !x", "a: [# see\n  !x]"] {
            let at = yaml.find("!x").unwrap();
            assert_eq!(mark_before(yaml, at + 2), Some((at, "!x")), "{yaml:?}");
        }
    }
}
