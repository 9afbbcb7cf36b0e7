//! README and reference say what the program does.

use std::fmt::Write as _;
use std::fs;

use maulstick::measure::hyphenated;
use maulstick::source::{Field, SchemaOf, Shape};
use maulstick::trade::{Reach, Stage};

use crate::bench::{self, Bench};

const START: &str = "UPDATE=1 writes them anew -->\n";
const END: &str = "<!-- end of keys -->";

/// The files with keys, as the reference heads them.
const FILES: &[(&str, SchemaOf)] = &[
    ("guide.yaml", SchemaOf::Guide),
    ("paints/*.yaml", SchemaOf::Paints),
    ("tools.yaml", SchemaOf::Tools),
    ("scheme.md", SchemaOf::Scheme),
    ("a step", SchemaOf::Step),
    ("armies/*.yaml", SchemaOf::Army),
    ("a free page", SchemaOf::Page),
];

#[test]
fn the_readme_lists_every_key() {
    held("<!-- where, by stage; UPDATE=1 writes it anew -->\n", "<!-- end of where -->", &reaches());
    held(START, END, &reference());
}

/// Holds what stands between two marks of the README to what it should be, or writes it there.
fn held(start: &str, end: &str, wanted: &str) {
    let path = bench::demo_folder().join("README.md");
    let readme = fs::read_to_string(&path).unwrap();
    let from = readme.find(start).unwrap() + start.len();
    let to = readme.find(end).unwrap();
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, format!("{}{wanted}{}", &readme[..from], &readme[to..])).unwrap();
        return;
    }
    assert!(&readme[from..to] == wanted, "run 'UPDATE=1 cargo test the_readme_lists_every_key'");
}

/// The stages that do not reach everything unless they say so.
fn reaches() -> String {
    let mut text = "\n| stage | `where` by default |\n| --- | --- |\n".to_owned();
    for reach in Reach::ALL.iter().filter(|reach| **reach != Reach::All) {
        let stages = Stage::ALL.iter().filter(|stage| stage.reach() == *reach);
        let stages: Vec<String> = stages.map(|stage| format!("`{stage}`")).collect();
        if !stages.is_empty() {
            let _ = writeln!(text, "| {} | `{reach}` |", stages.join(", "));
        }
    }
    text + "| all others | `all` |\n\n"
}

fn reference() -> String {
    let mut text = String::new();
    for (name, of) in FILES {
        let _ = writeln!(text, "\n**{name}**\n\n| key | what it says | example |\n| --- | --- | --- |");
        rows(&mut text, "", of.keys());
    }
    text + "\n"
}

fn rows(text: &mut String, before: &str, fields: &[Field]) {
    for field in fields {
        let needed = if field.needed { " *(needed)*" } else { "" };
        let example = field.example.replace('|', "\\|");
        let _ = writeln!(text, "| `{before}{}`{needed} | {} | `{example}` |", field.key, about(field));
        if let Some((below, inner)) = inner(&field.shape) {
            rows(text, &format!("{before}{}{below}.", field.key), inner);
        }
    }
}

/// What a key says, and the words to choose from where it is a closed list.
fn about(field: &Field) -> String {
    let about = field.about.replace('|', "\\|");
    match choices(&field.shape) {
        [] | ["true", "false"] => about,
        words => format!("{about} One of: {}.", words.join(", ")),
    }
}

fn choices(shape: &Shape) -> &'static [&'static str] {
    match shape {
        Shape::Scalar { choices, .. } => choices,
        Shape::List(item) => choices(item),
        _ => &[],
    }
}

/// The keys inside a value, and how the way to them is shown.
fn inner(shape: &Shape) -> Option<(&'static str, &'static [Field])> {
    match shape {
        Shape::Record(fields) => Some(("", fields())),
        Shape::List(item) => inner(item).map(|(_, fields)| ("[]", fields)),
        Shape::Table { value, .. } => inner(value).map(|(_, fields)| (".<id>", fields)),
        Shape::Either(short, long) => inner(long).or_else(|| inner(short)),
        Shape::Scalar { .. } => None,
    }
}

#[test]
fn every_example_of_a_key_reads_without_a_finding() {
    let bench = Bench::empty();
    bench.run(&["start", "mine"]);
    for (key, example) in SchemaOf::Guide.keys().iter().map(|field| (&field.key, &field.example)) {
        let rest = if key == "title" { "" } else { "title: T\n" }.to_owned()
            + if key == "author" { "" } else { "author: A\n" };
        bench.write("mine/content/guide.yaml", format!("{rest}{key}: {example}\n"));
        let run = bench.run(&["check", "mine"]);
        assert_eq!(run.out, "no findings\n", "{key}: {example}");
    }
}

#[test]
fn the_finding_in_the_readme_is_what_the_program_says() {
    let bench = Bench::empty();
    bench.run(&["start", "mine"]);
    bench.replace("mine/content/schemes/first-figure/30-green-coat.md", "use: moss-green", "use: mos-green");
    let said = bench.run(&["check", "mine"]).out;
    let readme = fs::read_to_string(bench::demo_folder().join("README.md")).unwrap();
    let shown: Vec<&str> = readme.lines().map(|line| line.strip_prefix("       ").unwrap_or(line)).collect();
    for line in said.lines().filter(|line| !line.trim().is_empty()) {
        assert!(shown.iter().any(|shown| shown.trim_end() == line.trim_end()), "the README does not show: {line}");
    }
}

#[test]
fn the_first_step_of_the_readme_is_the_one_that_is_laid_out() {
    let bench = Bench::empty();
    bench.run(&["start", "mine"]);
    let step = fs::read_to_string(bench.path("mine/content/schemes/first-figure/30-green-coat.md")).unwrap();
    let readme = fs::read_to_string(bench::demo_folder().join("README.md")).unwrap();
    for line in readme.lines().skip_while(|line| line.trim() != "title: Green coat").take(11) {
        assert!(step.contains(line.trim()), "the first guide does not hold: {line}");
    }
}

#[test]
fn the_heading_that_the_readme_links_to_is_one_of_the_demo() {
    let readme = fs::read_to_string(bench::demo_folder().join("README.md")).unwrap();
    let (_, rest) = readme.split_once("[the boat](../").unwrap();
    let (path, anchor) = rest.split(')').next().unwrap().split_once('#').unwrap();
    let text = fs::read_to_string(bench::demo_folder().join("content/schemes").join(path)).unwrap();
    let headings = text.lines().filter_map(|line| line.strip_prefix("## "));
    assert!(headings.map(hyphenated).any(|known| known == anchor), "{path} has no heading {anchor}");
}
