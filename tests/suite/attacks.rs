//! The attack corpus, and a small guide with an attack in every place where an author may write a text.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

use maulstick::door::Memory;
use maulstick::report::Level;
use maulstick::source::{self, SchemaOf, schema};
use maulstick::story::Session;
use serde_json::Value;

use crate::bench::{self, Bench};

/// What stands in the bodies of the guide, where the attack goes in.
const BODY: &str = "ATTACKED BODY";

/// All attacks of `tests/data/attacks.txt`.
pub(crate) fn corpus() -> Vec<String> {
    let text = fs::read_to_string(data().join("attacks.txt")).unwrap();
    text.lines().filter(|line| !line.starts_with("# ") && *line != "#").map(unescaped).collect()
}

fn data() -> PathBuf {
    bench::demo_folder().join("tests/data")
}

fn unescaped(line: &str) -> String {
    let mut text = String::new();
    let mut letters = line.chars();
    while let Some(letter) = letters.next() {
        if letter != '\\' {
            text.push(letter);
            continue;
        }
        match letters.next().expect("a letter behind the backslash") {
            't' => text.push('\t'),
            'r' => text.push('\r'),
            'n' => text.push('\n'),
            'e' => text.push('\u{1b}'),
            'u' if letters.as_str().starts_with('{') => {
                let code: String = letters.by_ref().skip(1).take_while(|c| *c != '}').collect();
                text.push(char::from_u32(u32::from_str_radix(&code, 16).unwrap()).unwrap());
            }
            'u' => text.push_str("\\u"),
            plain => text.push(plain),
        }
    }
    text
}

/// One file of the guide: its front matter or the whole of it as values, and its body.
struct Source {
    kind: SchemaOf,
    values: Value,
    body: Option<String>,
}

/// A guide that has every key of every kind of file, whose texts can be replaced.
pub(crate) struct Guide {
    files: BTreeMap<String, Source>,
    /// The places where any text is taken, by file and by the way to them.
    free: BTreeSet<(String, String)>,
}

impl Guide {
    /// The guide of `tests/data/every_field`, with the places where a text is taken: found out once for all tests.
    pub(crate) fn read() -> &'static Self {
        static GUIDE: LazyLock<Guide> = LazyLock::new(Guide::found_out);
        &GUIDE
    }

    fn found_out() -> Self {
        let folder = data().join("every_field");
        let files = bench::files_below(&folder).into_iter().map(|(path, bytes)| {
            let text = String::from_utf8(bytes).unwrap();
            let kind = kind_of(&path, &text);
            let (values, body) = match text.strip_prefix("---\n").and_then(|rest| rest.split_once("---\n")) {
                Some((front, body)) => (front, Some(body.to_owned())),
                None => (text.as_str(), None),
            };
            let values = serde_yaml::from_str(values).unwrap_or_else(|why| panic!("{path}: {why}"));
            (path, Source { kind, values, body })
        });
        let mut guide = Self { files: files.collect(), free: BTreeSet::new() };
        guide.free = guide.places_for_text();
        guide
    }

    fn places_for_text(&self) -> BTreeSet<(String, String)> {
        let mut session = Session::default();
        let mut free = BTreeSet::new();
        for place in self.places() {
            let only = BTreeSet::from([place.clone()]);
            if self.accepts(&mut session, &only, "Plain words") {
                free.insert(place);
            }
        }
        free
    }

    /// Every place of a value.
    pub(crate) fn places(&self) -> Vec<(String, String)> {
        let mut places = Vec::new();
        for (file, source) in &self.files {
            leaves(&source.values, "", &mut |way, _| places.push((file.clone(), way.to_owned())));
        }
        places
    }

    /// The places where any text is taken.
    pub(crate) fn free(&self) -> &BTreeSet<(String, String)> {
        &self.free
    }

    /// Whether the guide could be published with a text at some places.
    pub(crate) fn accepts(&self, session: &mut Session, places: &BTreeSet<(String, String)>, text: &str) -> bool {
        passes(session, self.laid_out(places, text, "Words."))
    }

    /// Whether the guide could be published with such bodies.
    pub(crate) fn accepts_body(&self, session: &mut Session, body: &str) -> bool {
        passes(session, self.laid_out(&BTreeSet::new(), "", body))
    }

    /// The files with a text at some places, and a number behind it so that things can be told apart.
    fn laid_out(&self, places: &BTreeSet<(String, String)>, text: &str, body: &str) -> BTreeMap<String, Vec<u8>> {
        let mut files = pictures_and_mesh();
        let mut number = 0;
        for (path, source) in &self.files {
            let mut values = source.values.clone();
            change(&mut values, "", &mut |way, value| {
                if places.contains(&(path.clone(), way.to_owned())) {
                    *value = Value::String(match way {
                        "/welcome" => format!("{} k{number}", as_markdown(text)),
                        _ => format!("{text} k{number}"),
                    });
                }
                number += 1;
            });
            let written = match &source.body {
                Some(own) => format!("---\n{}\n---\n{}", flow(&values), own.replace(BODY, body)),
                None => format!("{}\n", flow(&values)),
            };
            files.insert(path.clone(), written.into_bytes());
        }
        files
    }

    /// Lays the guide out with a text in every place where one is taken, and in the bodies.
    pub(crate) fn attacked(&self, text: &str, body: &str) -> Bench {
        self.attacked_at(&self.free, text, body)
    }

    /// Lays the guide out with a text at some places.
    pub(crate) fn attacked_at(&self, places: &BTreeSet<(String, String)>, text: &str, body: &str) -> Bench {
        let bench = Bench::empty();
        for (path, bytes) in self.laid_out(places, text, body) {
            bench.write(&path, bytes);
        }
        bench
    }

    /// The keys of the schema that no file of the guide has.
    pub(crate) fn forgotten(&self) -> Vec<String> {
        let kinds: [(&str, SchemaOf); 9] = [
            ("guide", SchemaOf::Guide),
            ("paints", SchemaOf::Paints),
            ("tools", SchemaOf::Tools),
            ("scheme", SchemaOf::Scheme),
            ("step", SchemaOf::Step),
            ("sequence", SchemaOf::Sequence),
            ("use", SchemaOf::Use),
            ("army", SchemaOf::Army),
            ("page", SchemaOf::Page),
        ];
        let mut missing = Vec::new();
        for (name, kind) in kinds {
            let mut known = BTreeSet::new();
            keys_of_schema(&schema(kind), "", &mut known);
            for source in self.files.values().filter(|source| source.kind == kind) {
                known.retain(|key| !has(&source.values, key));
            }
            missing.extend(known.iter().map(|key| format!("{name}{key}")));
        }
        missing
    }
}

/// A text as Markdown that shows it letter by letter: the only key that holds Markdown takes it so.
pub(crate) fn as_markdown(text: &str) -> String {
    let mut plain = String::new();
    for letter in text.trim().chars() {
        match letter {
            '\r' | '\n' | '\t' => plain.push(' '),
            _ if letter.is_ascii_punctuation() => plain.extend(['\\', letter]),
            _ => plain.push(letter),
        }
    }
    plain
}

fn passes(session: &mut Session, files: BTreeMap<String, Vec<u8>>) -> bool {
    let door = files.into_iter().fold(Memory::default(), |door, (path, bytes)| door.with(&path, bytes));
    // What can't even be read need not be worked out to be refused.
    let unread = source::read(&door).unwrap().findings.iter().any(|finding| finding.level == Level::Error);
    !unread && session.check(&door).unwrap().findings.pass(false)
}

fn kind_of(path: &str, text: &str) -> SchemaOf {
    let parts: Vec<&str> = path.split('/').collect();
    match parts[..] {
        ["content", "guide.yaml"] => SchemaOf::Guide,
        ["content", "tools.yaml"] => SchemaOf::Tools,
        ["content", "paints", _] => SchemaOf::Paints,
        ["content", "armies", _] => SchemaOf::Army,
        ["content", "pages", _] => SchemaOf::Page,
        ["content", "schemes", _, "scheme.md"] => SchemaOf::Scheme,
        ["content", "schemes", _, _] if text.contains("\nsequence:") => SchemaOf::Use,
        ["content", "sequences", _, "sequence.md"] => SchemaOf::Sequence,
        ["content", "schemes" | "sequences", _, _] => SchemaOf::Step,
        _ => panic!("{path} is no file of a guide"),
    }
}

/// The ways to all keys of a schema: `/paints/*/name`.
fn keys_of_schema(schema: &Value, way: &str, found: &mut BTreeSet<String>) {
    for either in schema["anyOf"].as_array().into_iter().flatten() {
        keys_of_schema(either, way, found);
    }
    if schema["items"].is_object() {
        keys_of_schema(&schema["items"], way, found);
    }
    if schema["additionalProperties"].is_object() {
        let below = format!("{way}/*");
        keys_of_schema(&schema["additionalProperties"], &below, found);
        found.insert(below);
    }
    for (key, inner) in schema["properties"].as_object().into_iter().flatten() {
        let below = format!("{way}/{key}");
        keys_of_schema(inner, &below, found);
        found.insert(below);
    }
}

/// Whether something stands at the end of a way.
fn has(value: &Value, way: &str) -> bool {
    if let Value::Array(items) = value {
        return items.iter().any(|item| has(item, way));
    }
    let Some(rest) = way.strip_prefix('/') else { return true };
    let (key, below) = rest.find('/').map_or((rest, ""), |at| rest.split_at(at));
    match (key, value) {
        ("*", Value::Object(entries)) => entries.values().any(|entry| has(entry, below)),
        (_, Value::Object(entries)) => entries.get(key).is_some_and(|entry| has(entry, below)),
        _ => false,
    }
}

fn leaves(value: &Value, way: &str, found: &mut impl FnMut(&str, &Value)) {
    let mut copy = value.clone();
    change(&mut copy, way, &mut |way, value| found(way, value));
}

fn change(value: &mut Value, way: &str, with: &mut impl FnMut(&str, &mut Value)) {
    match value {
        Value::Array(items) => {
            for (at, item) in items.iter_mut().enumerate() {
                change(item, &format!("{way}/{at}"), with);
            }
        }
        Value::Object(entries) => {
            for (key, entry) in entries {
                change(entry, &format!("{way}/{key}"), with);
            }
        }
        _ => with(way, value),
    }
}

/// Values in YAML's flow style; every letter that is not plain is written by its number.
fn flow(value: &Value) -> String {
    match value {
        Value::Array(items) => format!("[{}]", items.iter().map(flow).collect::<Vec<_>>().join(", ")),
        Value::Object(entries) => {
            let pairs: Vec<String> = entries.iter().map(|(key, value)| format!("{key}: {}", flow(value))).collect();
            format!("{{{}}}", pairs.join(", "))
        }
        Value::String(text) => quoted(text),
        other => other.to_string(),
    }
}

fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' | '\\' => quoted.extend(['\\', letter]),
            ' '..='~' => quoted.push(letter),
            _ => write!(quoted, "\\U{:08X}", u32::from(letter)).unwrap(),
        }
    }
    quoted + "\""
}

fn pictures_and_mesh() -> BTreeMap<String, Vec<u8>> {
    let mut png = Vec::new();
    image::RgbImage::from_pixel(40, 30, image::Rgb([128, 96, 64]))
        .write_to(&mut std::io::Cursor::new(&mut png), image::ImageFormat::Png)
        .unwrap();
    let corners = [[0, 0, 0], [40, 0, 0], [0, 40, 0], [0, 0, 40]];
    let mut mesh = String::from("solid pier\n");
    for face in [[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]] {
        mesh += "facet normal 0 0 0\nouter loop\n";
        for corner in face {
            let [x, y, z] = corners[corner];
            writeln!(mesh, "vertex {x} {y} {z}").unwrap();
        }
        mesh += "endloop\nendfacet\n";
    }
    mesh += "endsolid pier\n";
    BTreeMap::from([
        ("content/fonts/few-letters.otf".to_owned(), std::fs::read(data().join("fonts/few-letters.otf")).unwrap()),
        ("content/schemes/warden/photo.png".to_owned(), png.clone()),
        ("content/schemes/warden/bare.png".to_owned(), png.clone()),
        ("content/pages/photo.png".to_owned(), png),
        ("content/schemes/pier/pier.stl".to_owned(), mesh.into_bytes()),
    ])
}
