//! One line, and what is open at its end.

/// One line of a text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line<'a> {
    /// The byte where it begins.
    pub(super) start: usize,
    /// The line without its break.
    pub(super) text: &'a str,
}

/// What a line leaves open, seen for itself.
#[derive(Debug, Default)]
pub(super) struct Open {
    /// A quote that is not closed: its byte and the sign.
    pub(super) quote: Option<(usize, char)>,
    /// The brackets that are not closed, from the outside in.
    pub(super) brackets: Vec<(usize, char)>,
    /// The byte after the last sign that is no comment and no space.
    pub(super) end: usize,
    /// The byte of a closing bracket that nothing opened, and the bracket of the other sort that was open there.
    pub(super) stray: Option<(usize, Option<char>)>,
}

/// A line that gives a key a value: `  - title: Robe`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pair<'a> {
    /// The key.
    pub(super) key: &'a str,
    /// The byte where the value begins.
    pub(super) at: usize,
    /// The value, without a comment after it; may be empty.
    pub(super) value: &'a str,
}

/// The lines of a text.
pub(super) fn lines(text: &str) -> Vec<Line<'_>> {
    let mut start = 0;
    let line = |whole: &'_ str| {
        let at = start;
        start += whole.len();
        (at, whole.len())
    };
    let places: Vec<(usize, usize)> = text.split_inclusive('\n').map(line).collect();
    let cut = |(start, length): (usize, usize)| {
        let text = text.get(start..start + length).unwrap_or_default();
        Line { start, text: text.trim_end_matches(['\n', '\r']) }
    };
    places.into_iter().map(cut).collect()
}

impl<'a> Line<'a> {
    /// How many bytes of white space it begins with.
    pub(super) fn indent(&self) -> usize {
        self.text.len() - self.text.trim_start().len()
    }

    /// Whether nothing is in it but a comment.
    pub(super) fn is_bare(&self) -> bool {
        let text = self.text.trim();
        text.is_empty() || text.starts_with('#')
    }

    /// How far in its content begins: behind the hyphens of a list.
    pub(super) fn content(&self) -> usize {
        let mut at = self.indent();
        while let Some(rest) = self.text.get(at..).and_then(|rest| rest.strip_prefix("- ")) {
            at += 2 + rest.len() - rest.trim_start().len();
        }
        at
    }

    /// The key and the value of a line that has them.
    pub(super) fn pair(&self) -> Option<Pair<'a>> {
        let content = self.content();
        let rest = self.text.get(content..)?;
        let colon = rest.find(':')?;
        let (key, value) = (rest.get(..colon)?, rest.get(colon + 1..)?);
        let plain = !key.is_empty() && key.chars().all(|c| c.is_alphanumeric() || "-_ ".contains(c));
        if !plain || key.ends_with(' ') || !(value.is_empty() || value.starts_with(' ')) {
            return None;
        }
        let at = content + colon + 1 + value.len() - value.trim_start().len();
        let value = self.text.get(at..).unwrap_or_default();
        let quoted = value.starts_with(['"', '\'']);
        let end = value.find(" #").filter(|_| !quoted).unwrap_or(value.len());
        Some(Pair { key, at, value: value.get(..end).unwrap_or_default().trim_end() })
    }

    /// What the line leaves open, if it begins with nothing open.
    pub(super) fn open(&self) -> Open {
        let mut open = Open::default();
        let mut fresh = true;
        let mut before = ' ';
        let mut letters = self.text.char_indices().peekable();
        while let Some((at, sign)) = letters.next() {
            let after = letters.peek().map_or(' ', |(_, next)| *next);
            if let Some((_, quote)) = open.quote {
                match sign {
                    '\\' if quote == '"' => drop(letters.next()),
                    _ if sign != quote => {}
                    '\'' if after == '\'' => drop(letters.next()),
                    _ => open.quote = None,
                }
                open.end = at + sign.len_utf8();
            } else if sign == '#' && before.is_whitespace() {
                break;
            } else {
                open.take(at, sign, fresh);
                fresh = match sign {
                    ':' | '-' | '?' => after.is_whitespace() && (sign == ':' || fresh),
                    ',' | '[' | '{' => !open.brackets.is_empty(),
                    _ => fresh && sign.is_whitespace(),
                };
                if !sign.is_whitespace() {
                    open.end = at + sign.len_utf8();
                }
            }
            before = sign;
        }
        open
    }
}

impl Open {
    /// Takes in a sign outside quotes; `fresh` says that a value may begin here.
    fn take(&mut self, at: usize, sign: char, fresh: bool) {
        match sign {
            '"' | '\'' if fresh => self.quote = Some((at, sign)),
            '[' | '{' if fresh => self.brackets.push((at, sign)),
            ']' | '}' if self.brackets.last().is_some_and(|(_, opened)| closing(*opened) == sign) => {
                self.brackets.pop();
            }
            ']' | '}' if self.stray.is_none() && self.end <= at => {
                self.stray = Some((at, self.brackets.last().map(|(_, opened)| *opened)));
            }
            _ => {}
        }
    }
}

/// The sign that closes a bracket.
pub(super) const fn closing(opened: char) -> char {
    if opened == '[' { ']' } else { '}' }
}
