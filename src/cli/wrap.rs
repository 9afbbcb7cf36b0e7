//! Lines for a terminal that are no longer than it is wide: what is longer goes on below its beginning.

use unicode_width::UnicodeWidthStr;

/// A terminal with fewer columns breaks lines as it likes.
const FEWEST: usize = 40;

/// In so many columns from the first letter of a line, what stands in a column of its own is looked for: a time, a word.
const LABEL: usize = 10;

/// The text with every line that is too long broken between words. Source lines of a finding, which are marks under letters, stay.
pub(super) fn wrapped(text: &str, columns: usize) -> String {
    if columns < FEWEST {
        return text.to_owned();
    }
    let lines: Vec<String> = text.split('\n').map(|line| wrapped_line(line, columns)).collect();
    lines.join("\n")
}

fn wrapped_line(line: &str, columns: usize) -> String {
    let plain = without_marks(line);
    if plain.width() <= columns || is_source(&plain) {
        return line.to_owned();
    }
    let hang = hang(&plain);
    let mut out = String::new();
    let mut used = 0;
    for piece in line.split_inclusive(' ') {
        let wide = without_marks(piece).trim_end().width();
        let is_begun = used > hang.chars().count();
        if is_begun && used + wide > columns {
            let kept = out.trim_end().len();
            out.truncate(kept);
            out.push('\n');
            out.push_str(&hang);
            used = hang.width();
        }
        out.push_str(piece);
        used += without_marks(piece).width();
    }
    out
}

/// What stands at the beginning of the lines that go on: as wide as what comes before the words of the first.
fn hang(plain: &str) -> String {
    let indent = plain.chars().take_while(|sign| *sign == ' ').count();
    let rest = plain.get(indent..).unwrap_or_default();
    // The frame of a finding goes on beside what it frames.
    for (corner, beside) in [("├ ", '│'), ("╰ ", ' ')] {
        if let Some(label) = rest.strip_prefix(corner).and_then(|said| said.split_once(": ")).map(|(label, _)| label) {
            return format!("{}{beside}{}", " ".repeat(indent), " ".repeat(label.width() + 3));
        }
    }
    let sign = ["! ", "- ", "[ ] ", "[x] "].into_iter().find(|sign| rest.starts_with(sign)).map_or(0, str::len);
    " ".repeat(indent + if sign > 0 { sign } else { label(rest).unwrap_or(2) })
}

/// How wide a label and its gap are, where a line begins with one.
fn label(rest: &str) -> Option<usize> {
    let gap = rest.find("  ").filter(|gap| *gap <= LABEL)?;
    let label = rest.get(..gap)?;
    let spaces = rest.get(gap..)?.chars().take_while(|sign| *sign == ' ').count();
    Some(label.width() + spaces)
}

/// Whether it is a source line, or the marks under one.
fn is_source(plain: &str) -> bool {
    plain.trim_start_matches([' ', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9']).starts_with('│')
}

/// The text without the marks for colours.
fn without_marks(text: &str) -> String {
    let mut plain = String::new();
    let mut signs = text.chars();
    while let Some(sign) = signs.next() {
        if sign == '\u{1b}' {
            signs.by_ref().find(char::is_ascii_alphabetic);
        } else {
            plain.push(sign);
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str, columns: usize) -> Vec<String> {
        wrapped(text, columns).split('\n').map(str::to_owned).collect()
    }

    #[test]
    fn a_long_line_goes_on_below_its_words() {
        let told = lines("  ! Dust. Sand and file wet, wear a mask and wipe up with a damp cloth.", 40);
        assert_eq!(told, ["  ! Dust. Sand and file wet, wear a mask", "    and wipe up with a damp cloth."]);
        let told = lines("  19:15  Fen warden · Clean the plates and wash the resin", 40);
        assert_eq!(told, ["  19:15  Fen warden · Clean the plates", "         and wash the resin"]);
        let told = lines(" ├ why: the version comes out in the old colour", 40);
        assert_eq!(told, [" ├ why: the version comes out in the old", " │      colour"]);
        let told = lines(" ╰ mend: \u{1b}[1mlet the coat harden\u{1b}[0m and give it a day more", 40);
        assert_eq!(told[1], "         a day more");
    }

    #[test]
    fn what_fits_and_what_is_source_stays() {
        let source = "12 │ a line of a file that is longer than the terminal is wide";
        for (text, columns) in [("short\n\nlines", 40), (source, 40), ("far too narrow a terminal", 12)] {
            assert_eq!(wrapped(text, columns), text);
        }
        assert_eq!(wrapped(&"x".repeat(60), 40), "x".repeat(60), "one word");
    }
}
