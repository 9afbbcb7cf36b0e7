//! The walk through the content folder: each file is read once, in parallel, and put where it belongs.

use std::collections::BTreeMap;
use std::io;

use rayon::prelude::*;

use super::file::{ArmyFile, GuideFile, PageFile, PaintsFile, SchemeFile, StepFile, ToolsFile};
use super::layout::Part;
use super::node::{Node, NodeValue};
use super::reading::{Reading, Table, Value};
use super::{Document, Have, Id, Named, SchemeSource, Source, StepSource, checks, front_matter, yaml};
use crate::door::Door;
use crate::measure::FromText;
use crate::report::{FileId, Files, Finding, Place, wording};

/// The folder of a guide that holds its files.
pub(crate) const CONTENT: &str = "content";

/// The largest text file, in bytes.
pub const LARGEST_TEXT: u64 = 1_000_000;

/// Reads a guide through the door.
///
/// # Errors
/// When the content folder itself can't be listed; everything else is a finding.
pub fn read(door: &dyn Door) -> io::Result<Source> {
    let listing = door.list(CONTENT)?;
    let mut source = Source::default();
    for (path, why) in listing.refused {
        let file = source.files.add(path, "");
        source.findings.push(refused(file, &why));
    }
    let mut parts = Vec::new();
    for entry in listing.files {
        let path = entry.path.strip_prefix("content/").unwrap_or(&entry.path).to_owned();
        let part = Part::of(&path);
        if matches!(part, Part::Other) {
            source.others.insert(path);
        } else {
            parts.push((entry.path, part));
        }
    }
    let texts: Vec<TextFile> = parts.into_par_iter().map(|(path, part)| load(door, path, part)).collect();
    let mut loaded = Vec::with_capacity(texts.len());
    for text in texts {
        let file = source.files.add(text.path, text.text);
        let part = if text.problem.is_some() { Part::Other } else { text.part };
        source.findings.extend(text.problem.map(|problem| problem.finding(file)));
        loaded.push((file, part));
    }
    let parsed: Vec<Parsed> =
        loaded.into_par_iter().map(|(file, part)| Parsed::of(&source.files, file, part)).collect();
    gather(&mut source, parsed);
    Ok(source)
}

/// Reads what is in a cupboard from the bytes of a file: of the shape of `have` in an army's file, with or without that
/// key above it. Of the findings, the places lie in the file, which is added under `path`.
pub fn read_cupboard(path: &str, bytes: Vec<u8>, files: &mut Files) -> (Table<Id, Have>, Vec<Finding>) {
    let loaded =
        taken(TextFile { path: path.to_owned(), part: Part::Other, text: String::new(), problem: None }, bytes);
    let file = files.add(loaded.path, loaded.text);
    if let Some(problem) = loaded.problem {
        return (Table::default(), vec![problem.finding(file)]);
    }
    let mut reading = Reading::default();
    let node = match yaml::parse(files.text(file), file, 0) {
        Ok(Node { value: NodeValue::Map(entries), place }) => match <[_; 1]>::try_from(entries) {
            Ok([(key, inner)]) if key.value == "have" && matches!(inner.value, NodeValue::Map(_)) => inner,
            Ok(only) => Node { place, value: NodeValue::Map(only.into()) },
            Err(entries) => Node { place, value: NodeValue::Map(entries) },
        },
        Ok(node) => node,
        Err(finding) => return (Table::default(), vec![*finding]),
    };
    let cupboard = Table::read(&node, &mut reading).unwrap_or_default();
    (cupboard, reading.into_findings())
}

/// A file as the door gave it.
struct TextFile {
    path: String,
    part: Part,
    text: String,
    problem: Option<Problem>,
}

/// Why a file's text can't be used.
enum Problem {
    Unreadable(String),
    TooLarge,
    NotUtf8,
    ControlCharacter(usize),
}

impl Problem {
    fn finding(&self, file: FileId) -> Finding {
        let top = Place::top_of(file);
        match self {
            Self::Unreadable(why) => refused(file, why),
            Self::TooLarge => {
                let most = LARGEST_TEXT / 1_000_000;
                let message = format!("this file is larger than {most} MB and is not read");
                Finding::new(&checks::TOO_LARGE, top, message, "split it, or move it out of the content folder")
            }
            Self::NotUtf8 => {
                let mend = "save it again as UTF-8; every editor has that choice where it saves";
                Finding::new(&checks::ENCODING, top, "this file is not UTF-8 text", mend)
            }
            Self::ControlCharacter(at) => Finding::new(
                &checks::ENCODING,
                Place::new(file, *at, at + 1),
                "a control character stands here",
                "delete it",
            ),
        }
    }
}

fn refused(file: FileId, why: &str) -> Finding {
    let mend = "put an ordinary file in its place, with a plain name";
    Finding::new(&checks::OUTSIDE, Place::top_of(file), format!("this file is not read: {why}"), mend)
}

fn load(door: &dyn Door, path: String, part: Part) -> TextFile {
    let mut file = TextFile { path, part, text: String::new(), problem: None };
    if !file.part.is_read() {
        return file;
    }
    match door.read(&file.path, LARGEST_TEXT) {
        Err(error) if error.kind() == io::ErrorKind::FileTooLarge => file.problem = Some(Problem::TooLarge),
        Err(error) => file.problem = Some(Problem::Unreadable(error.to_string())),
        Ok(bytes) => return taken(file, bytes),
    }
    file
}

/// A file with its bytes as text.
fn taken(mut file: TextFile, bytes: Vec<u8>) -> TextFile {
    match String::from_utf8(bytes) {
        Err(_) => file.problem = Some(Problem::NotUtf8),
        Ok(text) => {
            file.problem = control_character(&text).map(Problem::ControlCharacter);
            file.text = without_byte_order_mark(text);
        }
    }
    file
}

fn without_byte_order_mark(text: String) -> String {
    text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text)
}

fn control_character(text: &str) -> Option<usize> {
    text.bytes().position(|byte| byte < 0x20 && !matches!(byte, b'\t' | b'\n' | b'\r'))
}

/// What one file turned out to be.
struct Parsed {
    file: FileId,
    content: Content,
    findings: Vec<Finding>,
}

enum Content {
    Guide(GuideFile),
    Tools(ToolsFile),
    Paints(PaintsFile),
    Scheme(String, Document<SchemeFile>),
    Step(String, String, Document<StepFile>),
    Army(String, ArmyFile),
    Page(String, Document<PageFile>),
    Nothing,
}

impl Parsed {
    fn of(files: &Files, file: FileId, part: Part) -> Self {
        let mut reading = Reading::default();
        let content = Self::content(files.text(file), file, part, &mut reading).unwrap_or(Content::Nothing);
        Self { file, content, findings: reading.into_findings() }
    }

    fn content(text: &str, file: FileId, part: Part, reading: &mut Reading) -> Option<Content> {
        match part {
            Part::Stray(hint) => {
                let message = "nothing looks for a file in this place";
                reading.tell(Finding::new(&checks::NOT_READ, Place::top_of(file), message, hint));
                None
            }
            _ if text.is_empty() && !matches!(part, Part::Guide) => {
                let mend = "write it, or delete the file";
                reading.tell(Finding::new(&checks::FOLDER, Place::top_of(file), "this file is empty", mend));
                None
            }
            Part::Guide => record(text, file, reading).map(Content::Guide),
            Part::Tools => record(text, file, reading).map(Content::Tools),
            Part::Paints => record(text, file, reading).map(Content::Paints),
            Part::Army(slug) => record(text, file, reading).map(|army| Content::Army(slug, army)),
            Part::Scheme(slug) => document(text, file, reading).map(|scheme| Content::Scheme(slug, scheme)),
            Part::Step(slug, stem) => document(text, file, reading).map(|step| Content::Step(slug, stem, step)),
            Part::Page(slug) => document(text, file, reading).map(|page| Content::Page(slug, page)),
            Part::Other => None,
        }
    }
}

/// A whole file of YAML.
fn record<T: Value>(text: &str, file: FileId, reading: &mut Reading) -> Option<T> {
    read_yaml(text, file, 0, reading)
}

/// A Markdown file. Where its front matter can't be read, the rest of the guide goes on without it.
fn document<T: Value>(text: &str, file: FileId, reading: &mut Reading) -> Option<Document<T>> {
    let Some(halves) = front_matter::split(text) else {
        let message =
            if text.starts_with("---") { "the front matter has no end" } else { "this file has no front matter" };
        let mend = "put the keys at the very top, between two lines that hold nothing but '---'";
        reading.tell(Finding::new(&checks::FRONT_MATTER, Place::top_of(file), message, mend));
        return None;
    };
    let front = read_yaml(halves.yaml, file, halves.yaml_start, reading)?;
    Some(Document { file, front, body_start: halves.body_start })
}

fn read_yaml<T: Value>(text: &str, file: FileId, offset: usize, reading: &mut Reading) -> Option<T> {
    match yaml::parse(text, file, offset) {
        Ok(Node { value: NodeValue::Empty, .. }) => {
            let empty = Node { place: Place::new(file, offset, offset), value: NodeValue::Map(Vec::new()) };
            T::read(&empty, reading)
        }
        Ok(node) => T::read(&node, reading),
        Err(finding) => {
            reading.tell(*finding);
            None
        }
    }
}

/// A scheme while its files arrive.
#[derive(Default)]
struct SchemeParts {
    scheme: Option<Document<SchemeFile>>,
    broken: bool,
    steps: Vec<StepSource>,
    first_file: Option<FileId>,
}

fn gather(source: &mut Source, parsed: Vec<Parsed>) {
    let mut schemes: BTreeMap<String, SchemeParts> = BTreeMap::new();
    let mut guide_seen = false;
    for Parsed { file, content, findings } in parsed {
        source.findings.extend(findings);
        let part = Part::of(source.files.path(file).trim_start_matches("content/"));
        guide_seen |= part == Part::Guide;
        if matches!(content, Content::Nothing) {
            source.unread.insert(source.files.path(file).trim_start_matches("content/").to_owned());
        }
        note_scheme(&mut schemes, &part, file, matches!(content, Content::Nothing));
        match content {
            Content::Guide(guide) => {
                source.guide = Some(guide);
                source.guide_file = file;
            }
            Content::Tools(tools) => source.tools = Some(tools),
            Content::Paints(paints) => source.paints.push(paints),
            Content::Army(slug, record) => source.armies.push(Named { slug, file, record }),
            Content::Page(slug, record) => source.pages.push(Named { slug, file, record }),
            Content::Scheme(slug, document) => schemes.entry(slug).or_default().scheme = Some(document),
            Content::Step(slug, stem, document) => {
                schemes.entry(slug).or_default().steps.push(StepSource { stem, document });
            }
            Content::Nothing => {}
        }
    }
    if !guide_seen {
        source.guide_file = source.files.add("content/guide.yaml", "");
        source.findings.push(no_file(
            source.guide_file,
            "this guide has no guide.yaml",
            "add the file; it needs 'title: …' and 'author: …'",
        ));
    }
    for (slug, parts) in schemes {
        finish_scheme(source, slug, parts);
    }
    check_names(source);
}

fn note_scheme(schemes: &mut BTreeMap<String, SchemeParts>, part: &Part, file: FileId, unread: bool) {
    if let Part::Scheme(slug) | Part::Step(slug, _) = part {
        let parts = schemes.entry(slug.clone()).or_default();
        parts.first_file.get_or_insert(file);
        parts.broken |= unread && matches!(part, Part::Scheme(_));
    }
}

fn no_file(file: FileId, message: &str, mend: &str) -> Finding {
    Finding::new(&checks::FOLDER, Place::top_of(file), message, mend)
}

fn finish_scheme(source: &mut Source, slug: String, parts: SchemeParts) {
    let SchemeParts { scheme, broken, mut steps, first_file } = parts;
    steps.sort_by(|a, b| (step_number(&a.stem), &a.stem).cmp(&(step_number(&b.stem), &b.stem)));
    check_step_names(&steps, &mut source.findings);
    match scheme {
        Some(scheme) => {
            source.schemes.push(SchemeSource { slug, scheme, steps });
            return;
        }
        None if broken => {}
        None => {
            let file = first_file.unwrap_or(source.guide_file);
            let message = format!("the scheme {} has steps and no scheme.md", wording::quoted(&slug));
            source.findings.push(no_file(
                file,
                &message,
                "add scheme.md to its folder; it needs 'title: …' and 'areas: …'",
            ));
        }
    }
    source.unread.insert(format!("schemes/{slug}/scheme.md"));
    source.unread.extend(steps.iter().map(|step| format!("schemes/{slug}/{}.md", step.stem)));
}

/// The number in front of a step's name.
fn step_number(stem: &str) -> Option<u64> {
    stem.split_once('-').and_then(|(number, _)| number.parse().ok())
}

fn check_step_names(steps: &[StepSource], findings: &mut Vec<Finding>) {
    let mut before: Option<&StepSource> = None;
    for step in steps {
        let top = Place::top_of(step.document.file);
        let number = step_number(&step.stem);
        if number.is_none() {
            let message = format!("{} does not begin with a number", wording::quoted(&step.stem));
            findings.push(Finding::new(&checks::STEP_NAME, top, message, "name it like '30-pale-gold.md'"));
        } else if let Some(earlier) = before.filter(|earlier| step_number(&earlier.stem) == number) {
            let message = format!("'{}' has the same number as '{}'", step.stem, earlier.stem);
            let mend = "give each step its own number; the numbers are the order of work";
            findings.push(
                Finding::new(&checks::STEP_NAME, top, message, mend)
                    .see(Place::top_of(earlier.document.file), "the other one"),
            );
        }
        before = Some(step);
    }
}

/// Names that become addresses must be plain.
fn check_names(source: &mut Source) {
    let schemes = source.schemes.iter().map(|scheme| (scheme.slug.as_str(), scheme.scheme.file));
    let steps =
        source.schemes.iter().flat_map(|scheme| &scheme.steps).map(|step| (step.stem.as_str(), step.document.file));
    let armies = source.armies.iter().map(|army| (army.slug.as_str(), army.file));
    let pages = source.pages.iter().map(|page| (page.slug.as_str(), page.file));
    let found: Vec<Finding> = schemes
        .chain(steps)
        .chain(armies)
        .chain(pages)
        .filter_map(|(name, file)| Id::from_text(name).err().map(|why| (name, file, why)))
        .map(|(name, file, why)| {
            let message = format!("{} can't become an address: {why}", wording::quoted(name));
            let plain = crate::measure::hyphenated(name);
            let plain = if plain.is_empty() { "fen-warden".to_owned() } else { plain };
            Finding::new(
                &checks::NAME,
                Place::top_of(file),
                message,
                format!("rename it to {}", wording::quoted(&plain)),
            )
        })
        .collect();
    source.findings.extend(found);
}
