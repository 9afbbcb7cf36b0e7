//! From YAML text to a tree of placed nodes.

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_yaml::options::{DuplicateKeyPolicy, MergeKeyPolicy, NonFiniteFloatPolicy};
use serde_yaml::{Location, Options, Spanned};

use super::node::{Node, NodeValue};
use super::{checks, comment, cut, slips};
use crate::report::{FileId, Finding, Place, Placed};

/// The most nodes that one file may hold; a range of three hundred paints has some five thousand.
const MOST_NODES: usize = 200_000;

/// The deepest nesting that a file may have; the format needs four.
const DEEPEST: usize = 32;

/// Reads YAML that begins at byte `offset` of `file`.
///
/// # Errors
/// A finding where the text is not YAML or goes past the budget.
pub(crate) fn parse(yaml: &str, file: FileId, offset: usize) -> Result<Node, Box<Finding>> {
    let read = serde_yaml::from_str_with_options::<Spanned<Raw>>(yaml, options());
    let origin = Origin { yaml, file, offset };
    match read {
        Ok(raw) => Ok(origin.node(raw)),
        Err(error) => Err(Box::new(origin.syntax_finding(&error))),
    }
}

/// The line of the first fault of a text, from 0; none where it is YAML.
pub(super) fn fault_line(yaml: &str) -> Option<usize> {
    let error = serde_yaml::from_str_with_options::<Spanned<Raw>>(yaml, options()).err()?;
    let line = error.location().map_or(1, |location| location.line());
    Some(usize::try_from(line).unwrap_or(usize::MAX).saturating_sub(1))
}

/// Plain YAML 1.2, every key passed on even if it stands twice, and bounds on size and depth.
fn options() -> Options {
    serde_yaml::options! {
        budget: serde_yaml::budget! {
            max_nodes: MOST_NODES,
            max_events: MOST_NODES * 3,
            max_depth: DEEPEST,
            max_aliases: 1000,
            max_anchors: 1000,
        },
        alias_limits: serde_yaml::alias_limits! { max_total_replayed_events: MOST_NODES },
        duplicate_keys: DuplicateKeyPolicy::PassThrough,
        merge_keys: MergeKeyPolicy::AsOrdinary,
        non_finite_float_policy: NonFiniteFloatPolicy::AsString,
        strict_booleans: true,
        with_snippet: false,
    }
}

/// A value as the YAML library hands it over. Numbers and truth values are kept as what the author wrote, so
/// that `0.50` or `19:00` is read by the field that it belongs to.
enum Raw {
    Empty,
    Plain,
    Text(String),
    List(Vec<Spanned<Raw>>),
    Map(Vec<(Spanned<Raw>, Spanned<Raw>)>),
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

struct RawVisitor;

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a YAML value")
    }

    fn visit_bool<E>(self, _: bool) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }

    fn visit_i64<E>(self, _: i64) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }

    fn visit_u64<E>(self, _: u64) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }

    fn visit_i128<E>(self, _: i128) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }

    fn visit_u128<E>(self, _: u128) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Raw, E> {
        Ok(Raw::Plain)
    }

    fn visit_str<E>(self, text: &str) -> Result<Raw, E> {
        Ok(Raw::Text(text.to_owned()))
    }

    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Empty)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Raw, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Raw::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Raw, A::Error> {
        let mut map = Vec::new();
        while let Some(entry) = entries.next_entry()? {
            map.push(entry);
        }
        Ok(Raw::Map(map))
    }
}

/// The text that a tree came from.
struct Origin<'a> {
    yaml: &'a str,
    file: FileId,
    offset: usize,
}

impl Origin<'_> {
    fn node(&self, raw: Spanned<Raw>) -> Node {
        let place = self.place(raw.referenced);
        let nothing = matches!(raw.value, Raw::Empty) && self.written(raw.defined).is_empty();
        let is_text = matches!(raw.value, Raw::Plain | Raw::Text(_)) && self.place(raw.defined) == place;
        let range = byte_range(raw.defined);
        let value = match raw.value {
            Raw::Empty => NodeValue::Empty,
            Raw::Plain => NodeValue::Text(self.written(raw.defined).to_owned()),
            Raw::Text(text) => NodeValue::Text(self.as_written(text, raw.defined)),
            Raw::List(items) => NodeValue::List(items.into_iter().map(|item| self.node(item)).collect()),
            Raw::Map(entries) => {
                NodeValue::Map(entries.into_iter().map(|(key, value)| self.pair(key, value)).collect())
            }
        };
        let mut node = Node::new(place, value);
        if is_text {
            node.cut = cut::of(self.yaml, range).map(|cut| Box::new(cut.moved_by(self.offset)));
        } else if nothing && let Some((at, mark)) = cut::mark_before(self.yaml, range.0) {
            node.place = Place::new(self.file, self.offset + at, self.offset + at + mark.len());
            node.comment = Some(mark.to_owned());
        }
        node
    }

    /// A key and its value. One that is not there has the place of its key: the library finds it where the next one begins.
    fn pair(&self, key: Spanned<Raw>, value: Spanned<Raw>) -> (Placed<String>, Node) {
        let nothing = matches!(value.value, Raw::Empty) && self.written(value.defined).is_empty();
        let (_, end) = byte_range(key.referenced);
        let (key, mut node) = (self.key(key), self.node(value));
        if nothing {
            node.place = key.place;
            // A line may hold thousands of keys: what is behind one is never looked through for the end of the line.
            let behind = self.yaml.get(end..).unwrap_or_default().trim_start_matches(['"', '\'']);
            let behind = behind.trim_start_matches(cut::is_space);
            node.bare = behind.starts_with([',', '}']);
            let behind = behind.strip_prefix(':').unwrap_or_default().trim_start_matches(cut::is_space);
            node.comment = comment::of(behind).or_else(|| cut::mark_at(behind).map(str::to_owned)).or(node.comment);
        }
        (key, node)
    }

    /// A key as text; whatever else stands there is shown as it was written.
    fn key(&self, raw: Spanned<Raw>) -> Placed<String> {
        let place = self.place(raw.referenced);
        let text = match raw.value {
            Raw::Text(text) => self.as_written(text, raw.defined),
            _ => self.written(raw.defined).to_owned(),
        };
        Placed::new(text, place)
    }

    /// A text of the author, where the library hands over its own word for a number beyond all bounds.
    fn as_written(&self, text: String, location: Location) -> String {
        if ![".inf", "-.inf", ".nan"].contains(&text.as_str()) {
            return text;
        }
        let written = self.written(location);
        let is_plain = written.starts_with(|sign: char| sign.is_ascii_digit() || matches!(sign, '+' | '-' | '.'));
        if is_plain { written.to_owned() } else { text }
    }

    fn written(&self, location: Location) -> &str {
        let (start, end) = byte_range(location);
        self.yaml.get(start..end).unwrap_or_default()
    }

    fn place(&self, location: Location) -> Place {
        let (start, end) = byte_range(location);
        Place::new(self.file, self.offset + start, self.offset + end)
    }

    fn syntax_finding(&self, error: &serde_yaml::Error) -> Finding {
        let location = error.location().unwrap_or(Location::UNKNOWN);
        let start = line_and_column_byte(self.yaml, location);
        if let Some((at, colour)) = comment::colour_in_open_group(self.yaml, start) {
            let place = Place::new(self.file, self.offset + at, self.offset + at + colour.len());
            let message = "this is not YAML: the end of a group comes after a '#', and that begins a comment";
            return Finding::new(&checks::YAML, place, message, comment::quotes_for(colour));
        }
        let place = Place::new(self.file, self.offset + start, self.offset + start + 1);
        let said = error.without_snippet().to_string();
        let said = said.split(" at line ").next().unwrap_or(&said).to_owned();
        if said.contains("multiple YAML documents") {
            return self.second_part(start);
        }
        if let Some((message, mend)) = too_much(&said) {
            return Finding::new(&checks::YAML, place, format!("this is not YAML: {message}"), mend);
        }
        if let Some(slip) = slips::find(self.yaml, &fault_line) {
            let place = Place::new(self.file, self.offset + slip.start, self.offset + slip.end);
            return Finding::new(&checks::YAML, place, format!("this is not YAML: {}", slip.message), slip.mend);
        }
        let line = self.yaml.get(..start).map_or("", |before| before.rsplit('\n').next().unwrap_or_default());
        let rest = self.yaml.get(start..).and_then(|rest| rest.lines().next()).unwrap_or_default();
        let (message, mend) = plain(&said);
        let mend = mend.unwrap_or_else(|| mend_of(&format!("{line}{rest}")));
        Finding::new(&checks::YAML, place, format!("this is not YAML: {message}"), mend)
    }

    /// The finding for a line `---` in the middle of a file, after which another one would begin.
    fn second_part(&self, fault: usize) -> Finding {
        let mut at = 0;
        let mut begins = None;
        for line in self.yaml.split_inclusive('\n') {
            // One at the very top begins the file itself.
            if line.starts_with("---") && at > 0 && (begins.is_none() || at <= fault) {
                begins = Some(at);
            }
            at += line.len();
        }
        let start = self.offset + begins.unwrap_or(fault);
        let place = Place::new(self.file, start, start + 3);
        let message = "this is not YAML: a line '---' ends the file here, and more follows";
        Finding::new(&checks::YAML, place, message, "take the line '---' out")
    }
}

/// What the library says of a fault, in plain words, and what mends it where that follows from it.
fn plain(said: &str) -> (&'static str, Option<&'static str>) {
    let says = |part: &str| said.contains(part);
    if says("unknown anchor") {
        let mend = "write out what is meant; only what is named with '&…' before can be repeated with '*…'";
        return ("this repeats something ('*…') that is named nowhere", Some(mend));
    }
    if says("comment intercepting") {
        let mend = "put quotes around the whole text";
        return ("the text goes on in the next line after a '#', and that begins a comment", Some(mend));
    }
    let message = if says("mapping values are not allowed") {
        "there is a ': ' where no key can be"
    } else if says("simple key") {
        "there is a key without a ': '"
    } else if says("block mapping") {
        "a key was expected here"
    } else if says("block collection") || says("block sequence") {
        "an entry of a list was expected here"
    } else if says("flow mapping") {
        "a group in braces is not written as one here"
    } else if says("flow sequence") {
        "a list in brackets is not written as one here"
    } else {
        "this line can't be read"
    };
    (message, None)
}

/// What is beyond the bounds of a file, in plain words, and what mends it; the library tells of its counters.
fn too_much(said: &str) -> Option<(&'static str, &'static str)> {
    let of_bound = |part: &str| said.contains("budget") && said.contains(part);
    Some(if said.starts_with("recursive reference") {
        ("an alias ('*…') repeats the very thing that it stands in", "write out what is meant in place of the alias")
    } else if said.starts_with("alias ") && said.contains("exceeded") || of_bound("Alias") || of_bound("Anchor") {
        ("too much of it is repeated by aliases ('*…')", "write out what is meant in place of the aliases")
    } else if said.starts_with("recursion limit") || of_bound("Depth") {
        ("it is nested too deeply", "take out lists in lists and groups in groups; a few levels are enough")
    } else if of_bound("") {
        ("there is too much in one file", "spread it over several files")
    } else {
        return None;
    })
}

/// What most likely helps on a line that is not YAML.
fn mend_of(line: &str) -> &'static str {
    if line.contains('\t') {
        return "there is a tab in this line: use spaces";
    }
    let key_without_space = line.split_once(':').is_some_and(|(key, value)| {
        !key.contains([' ', '"', '{', '[']) && value.chars().next().is_some_and(|c| !c.is_whitespace())
    });
    if key_without_space {
        return "put a space after the colon";
    }
    "look at the indentation here and one line above, at quotes that are not closed, and put quotes around a text that \
     holds ': ', ', ' or '#'"
}

fn byte_range(location: Location) -> (usize, usize) {
    let span = location.span();
    let narrow = |value: Option<u64>| usize::try_from(value.unwrap_or(0)).unwrap_or(usize::MAX);
    let start = narrow(span.byte_offset());
    (start, start.saturating_add(narrow(span.byte_len())))
}

/// The byte at a line and a column that count from 1.
fn line_and_column_byte(text: &str, location: Location) -> usize {
    let line = usize::try_from(location.line()).unwrap_or(1).max(1);
    let column = usize::try_from(location.column()).unwrap_or(1).max(1);
    let line_start: usize = text.split_inclusive('\n').take(line - 1).map(str::len).sum();
    let rest = text.get(line_start..).unwrap_or_default();
    let in_line: usize = rest.chars().take_while(|c| *c != '\n').take(column - 1).map(char::len_utf8).sum();
    line_start + in_line
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Files;

    fn told(yaml: &str) -> (String, String) {
        let file = Files::default().add("content/paints/mere.yaml", yaml);
        let finding = parse(yaml, file, 0).err().unwrap();
        (finding.message, finding.mend)
    }

    #[test]
    fn a_fault_is_told_without_the_library_s_words() {
        for (yaml, says, mend) in [
            ("a: 1\n<<: *base\n", "named nowhere", "write out what is meant"),
            ("a: 1\n---\nb: 2\n", "a line '---' ends the file here", "take the line '---' out"),
            ("a: Use pot #2\n  first\nb: 1\n", "goes on in the next line after a '#'", "put quotes around"),
        ] {
            let (message, found) = told(yaml);
            assert!(message.contains(says) && found.contains(mend), "{message}; {found}");
        }
        for said in ["simple key expected ':'", "while parsing a block mapping, did not find expected key", "tab?"] {
            assert!(!plain(said).0.contains("expected '") && !plain(said).0.contains("mapping"), "{said}");
        }
    }

    #[test]
    fn a_number_beyond_all_bounds_is_what_its_author_wrote() {
        let digits = "9".repeat(400);
        for (written, text) in [
            (digits.as_str(), digits.as_str()),
            ("-1e999", "-1e999"),
            (".Inf", ".Inf"),
            ("+.inf", "+.inf"),
            (".NaN", ".NaN"),
            ("\".inf\"", ".inf"),
            ("'.nan'", ".nan"),
            ("!!str .inf", ".inf"),
        ] {
            let yaml = format!("a: {written}\n");
            let file = Files::default().add("content/paints/mere.yaml", yaml.as_str());
            let node = parse(&yaml, file, 0).unwrap();
            let NodeValue::Map(pairs) = &node.value else { panic!("{yaml}") };
            assert!(matches!(&pairs[0].1.value, NodeValue::Text(read) if read == text), "{yaml}");
        }
    }

    #[test]
    fn what_is_beyond_the_bounds_is_told_in_plain_words() {
        let doubled = |c: char| format!("{c}: &{c} [{}]\n", format!("*{}, ", char::from(c as u8 - 1)).repeat(9));
        let bomb = format!("a: &a [y, y, y, y, y, y, y, y, y]\n{}", ('b'..='i').map(doubled).collect::<String>());
        let nested =
            |open: &str, close: &str, times: usize| format!("a: {}{}\n", open.repeat(times), close.repeat(times));
        let aliases = format!("a: &a y\nb: [{}]\n", "*a, ".repeat(1500));
        for (yaml, says, mend) in [
            (bomb, "repeated by aliases", "in place of the aliases"),
            (aliases, "repeated by aliases", "in place of the aliases"),
            ("a: &a [*a]\n".to_owned(), "that it stands in", "in place of the alias"),
            (nested("[", "]", 5000), "nested too deeply", "lists in lists"),
            (nested("[", "]", 40), "nested too deeply", "lists in lists"),
            (nested("{a: ", "}", 40), "nested too deeply", "lists in lists"),
            (format!("a: [{}]\n", "y, ".repeat(MOST_NODES)), "too much in one file", "several files"),
        ] {
            let (message, found) = told(&yaml);
            assert!(message.contains(says) && found.contains(mend), "{message}; {found}");
        }
    }
}
