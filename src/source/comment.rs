//! Values that YAML takes for comments: what comes after a `#` without quotes, a colour above all.

use super::cut::BREAKS;

/// What is in the place of a value, from its `#` on: a colour alone, anything else up to a comment of its own.
pub(crate) fn of(behind: &str) -> Option<String> {
    let line = behind.strip_prefix('#').and_then(|_| behind.split(BREAKS).next())?;
    let comment = line.split(" #").next().unwrap_or(line).trim_end();
    Some(colour_at_start(comment).unwrap_or(comment).to_owned())
}

/// The mend for a text that became a comment, or a mark of a value.
pub(crate) fn quotes_for(comment: &str) -> String {
    let text = comment.replace('"', "'");
    format!("write \"{text}\" with its quotes: {}", why_quotes(comment.chars().next().unwrap_or('#')))
}

/// Why a text with such a sign needs quotes.
pub(crate) fn why_quotes(sign: char) -> &'static str {
    match sign {
        '&' => "a word that begins with '&' only names what follows, unless it is in quotes",
        '!' => "a word that begins with '!' only says of what kind a value is, unless it is in quotes",
        _ => "what follows a '#' without them is a comment",
    }
}

/// The last colour without quotes before a fault, and the byte where it begins, on a line whose group is still open:
/// the end of that group was taken for a comment.
pub(crate) fn colour_in_open_group(yaml: &str, fault: usize) -> Option<(usize, &str)> {
    let mut start = 0;
    let mut found = None;
    for line in yaml.split_inclusive('\n') {
        if start > fault {
            break;
        }
        found = in_open_group(line).map(|(at, colour)| (start + at, colour)).or(found);
        start += line.len();
    }
    found
}

fn in_open_group(line: &str) -> Option<(usize, &str)> {
    let mut signs = line.match_indices(" #").map(|(at, _)| at + 1);
    let (at, colour) = signs.find_map(|at| Some((at, colour_at_start(line.get(at..)?)?)))?;
    let count = |signs: [char; 2]| line.get(..at).map_or(0, |before| before.matches(signs).count());
    (count(['{', '[']) > count(['}', ']'])).then_some((at, colour))
}

/// `#3f4a34` at the start of a text.
fn colour_at_start(text: &str) -> Option<&str> {
    let digits = |colour: &str| colour.bytes().skip(1).all(|byte| byte.is_ascii_hexdigit());
    text.get(..7).filter(|colour| colour.starts_with('#') && digits(colour))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comment_is_what_was_meant_as_a_value() {
        assert_eq!(of("#3f4a34, hiding: opaque").as_deref(), Some("#3f4a34"));
        assert_eq!(of("#1 of its kind # a note").as_deref(), Some("#1 of its kind"));
        assert_eq!(of("x # 3f4a34"), None);
    }

    #[test]
    fn a_group_is_open_where_a_colour_took_its_end() {
        let fault = |yaml: &str| colour_in_open_group(yaml, yaml.len()).map(|(_, colour)| colour.to_owned());
        assert_eq!(fault("a: {b: #102030}\nc: {d: #405060}\n").as_deref(), Some("#405060"));
        for closed in ["a: {b: 1} #102030\n", "a: #102030\n", "a: {b: \"#102030\"}\n", "a: {b: #1é2030}\n"] {
            assert_eq!(fault(closed), None, "{closed}");
        }
        assert_eq!(colour_in_open_group("a: 1\nb: {c: #102030}\n", 2), None, "it stands behind the fault");
    }
}
