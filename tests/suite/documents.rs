//! README and reference say what the program does.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;

use maulstick::explain::{JSON_FIELDS, Topic, entries, keys};
use maulstick::source::SchemaOf;
use maulstick::trade::{Reach, Stage};
use serde_json::Value;

use crate::bench::{self, Bench};

const WRITING: &str = "how-we-write-our-schemes";
const PRINTED: &str = "what-the-commands-print";
const FIGURES: &str = "figures-and-limits";

#[test]
fn the_reference_lists_every_key() {
    held(WRITING, "Where a step reaches", &reaches());
    held(WRITING, "The words to choose from", &words());
    for file in keys().iter().map(|key| key.file).collect::<BTreeSet<_>>() {
        held(WRITING, &format!("Keys of {file}"), &keys_of(file));
    }
    for command in JSON_FIELDS.iter().map(|field| field.command).collect::<BTreeSet<_>>() {
        held(PRINTED, &format!("JSON of {command}"), &fields_of(command));
    }
    held(FIGURES, "Figures", &figures());
}

/// Holds what stands below a heading of a page of the reference to what it should be, or writes it there.
fn held(page: &str, heading: &str, wanted: &str) {
    let path = bench::demo_folder().join(format!("content/pages/{page}.md"));
    let text = fs::read_to_string(&path).unwrap();
    let heading = format!("\n## {heading}\n");
    let from = text.find(&heading).unwrap_or_else(|| panic!("{page} lacks {heading}")) + heading.len();
    let to = text[from..].find("\n## ").map_or(text.len(), |length| from + length);
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, format!("{}{wanted}{}", &text[..from], &text[to..])).unwrap();
        return;
    }
    assert!(&text[from..to] == wanted, "{page}{heading}: run 'UPDATE=1 cargo test the_reference_lists_every_key'");
}

/// The stages that do not reach everything unless they say so.
fn reaches() -> String {
    let mut text =
        "\nA step that leaves `where` out reaches what is usual for its stage. `raised` is faces and edges.\n\n\
        | stage | `where` by default |\n| --- | --- |\n"
            .to_owned();
    for reach in Reach::ALL.iter().filter(|reach| **reach != Reach::All) {
        let stages = Stage::ALL.iter().filter(|stage| stage.reach() == *reach);
        let stages: Vec<String> = stages.map(|stage| format!("`{stage}`")).collect();
        if !stages.is_empty() {
            let _ = writeln!(text, "| {} | `{reach}` |", stages.join(", "));
        }
    }
    text + "| all others | `all` |\n"
}

/// The closed lists of words, each with its meaning.
fn words() -> String {
    let mut text = String::new();
    let topics = [
        Topic::Stage,
        Topic::Technique,
        Topic::Where,
        Topic::From,
        Topic::Kind,
        Topic::Family,
        Topic::Finish,
        Topic::Model,
        Topic::Material,
        Topic::Tool,
        Topic::Level,
    ];
    for topic in topics {
        let _ = writeln!(text, "\n**{}**\n\n| word | what it means |\n| --- | --- |", topic.about());
        for entry in entries().iter().filter(|entry| entry.topic == topic) {
            let _ = writeln!(text, "| `{}` | {} |", entry.word, entry.about);
        }
    }
    text
}

fn keys_of(file: &str) -> String {
    let mut text = "\n| key | what it says | example |\n| --- | --- | --- |\n".to_owned();
    for key in keys().iter().filter(|key| key.file == file) {
        let needed = if key.needed { " *(needed)*" } else { "" };
        let about = if key.choices.is_empty() {
            key.about.to_owned()
        } else {
            format!("{} One of: {}.", key.about, key.choices.join(", "))
        };
        let _ = writeln!(text, "| `{}`{needed} | {} | `{}` |", key.path, cell(&about), cell(&key.example));
    }
    text
}

fn fields_of(command: &str) -> String {
    let mut text = "\n| field | what it holds |\n| --- | --- |\n".to_owned();
    for field in JSON_FIELDS.iter().filter(|field| field.command == command) {
        let _ = writeln!(text, "| `{}` | {} |", field.path, cell(field.about));
    }
    text
}

fn figures() -> String {
    let mut text = "\n| key | default | what it is | trust |\n| --- | --- | --- | --- |\n".to_owned();
    for figure in maulstick::bench::Bench::entries() {
        let trust = figure.trust.words().split(':').next().unwrap_or_default();
        let value = format!("{} {}", figure.value, figure.unit.words());
        let _ = writeln!(text, "| `{}` | {value} | {} | {trust} |", figure.key, cell(&figure.about));
    }
    text
}

/// A text as it stands in a cell of a table.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

/// Every key in the JSON of a command, at any depth.
fn keys_in(json: &Value, all: &mut BTreeSet<String>) {
    match json {
        Value::Object(pairs) => {
            for (key, value) in pairs {
                all.insert(key.clone());
                keys_in(value, all);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| keys_in(item, all)),
        _ => {}
    }
}

#[test]
fn every_field_of_json_is_explained() {
    let bench = Bench::demo();
    bench.replace("content/schemes/heron-rider/20-grey-feathers.md", "stage: basecoat", "stage: basecoot");
    let check = bench.run(&["check", "--format", "json"]).out;
    let bench = Bench::demo();
    let said = |arguments: &[&str]| bench.run(&[arguments, &["--format", "json"]].concat()).out;
    let all = [
        ("check", check),
        ("mix", said(&["mix", ".", "fen-warden", "amber-shell"])),
        ("mix", said(&["mix", ".", "heron-rider", "70-eye-and-beak"])),
        ("match", said(&["match", ".", "bog-iron", "--two"])),
        ("shop", said(&["shop", ".", "fen-watch"])),
        ("plan", said(&["plan", ".", "fen-watch"])),
    ];
    for (command, text) in all {
        let mut used = BTreeSet::new();
        keys_in(&serde_json::from_str(&text).unwrap(), &mut used);
        let known = |key: &str| {
            let mut fields = JSON_FIELDS.iter().filter(|field| field.command == command);
            fields.any(|field| field.path.split('.').any(|part| part.trim_end_matches("[]") == key))
        };
        // What stands inside cautions and mixed lines is named in their own sentences.
        let missing: Vec<&String> = used.iter().filter(|key| !known(key) && !in_a_sentence(command, key)).collect();
        assert!(missing.is_empty(), "{command} prints {missing:?}, which src/explain/fields.rs does not explain");
    }
}

/// Whether a field is named in the sentence of the one that it stands in.
fn in_a_sentence(command: &str, key: &str) -> bool {
    let mut fields = JSON_FIELDS.iter().filter(|field| field.command == command);
    fields.any(|field| field.about.split([' ', ',', '.', ':']).any(|word| word == key))
}

#[test]
fn a_word_is_explained_in_the_terminal() {
    let bench = Bench::empty();
    assert!(bench.run(&["explain", "wet-brush"]).out.contains("default: 30 µm"));
    assert!(bench.run(&["explain"]).out.contains("\nbench: "));
    let run = bench.run(&["explain", "basecaot"]);
    assert_eq!((run.status, run.out.as_str()), (2, ""));
    assert!(run.err.contains("did you mean 'basecoat'?"), "{}", run.err);
}

#[test]
fn every_example_of_a_key_reads_without_a_finding() {
    let bench = Bench::empty();
    bench.run(&["start", "mine"]);
    let font = fs::read(bench::demo_folder().join("tests/data/fonts/few-letters.otf")).unwrap();
    bench.write("mine/content/fonts/reed-kana.otf", font);
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
    let shown: Vec<&str> = readme.lines().map(|line| line.strip_prefix("    ").unwrap_or(line)).collect();
    for line in said.lines().filter(|line| !line.trim().is_empty()) {
        assert!(shown.iter().any(|shown| shown.trim_end() == line.trim_end()), "the README does not show: {line}");
    }
}

#[test]
fn what_the_readme_shows_of_lists_and_plans_is_what_the_program_prints() {
    let readme = fs::read_to_string(bench::demo_folder().join("README.md")).unwrap();
    let (_, shown) = readme.split_once("What has to be bought").unwrap();
    let (shown, _) = shown.split_once("\nIt runs on ").unwrap();
    let bench = Bench::demo();
    let said = ["shop", "plan"].map(|command| bench.run(&[command, ".", "fen-watch"]).out).concat();
    let lines: Vec<&str> = shown.lines().filter_map(|line| line.strip_prefix("    ")).collect();
    assert!(lines.len() >= 10);
    // What is left out is marked.
    for line in lines.into_iter().filter(|line| line.trim() != "…") {
        assert!(said.lines().any(|known| known == line), "the program does not print: {line}");
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

/// The examples of the reference that are whole steps: a name in a comment, then the keys.
fn example_steps(text: &str) -> Vec<(&str, &str)> {
    let blocks = text.split("```yaml\n# ").skip(1).filter_map(|rest| rest.split("```").next());
    blocks.filter_map(|block| block.split_once(".md\n")).collect()
}

#[test]
fn the_steps_that_the_reference_shows_are_sound() {
    let bench = Bench::demo();
    let text = fs::read_to_string(bench.path(&format!("content/pages/{WRITING}.md"))).unwrap();
    let steps = example_steps(&text);
    assert!(steps.len() >= 3, "{steps:?}");
    let folder = "content/schemes/reference";
    bench.write(
        &format!("{folder}/scheme.md"),
        "---\ntitle: Reference\nmodel: {scale: 28 mm, kind: vehicle, material: plastic}\n\
         areas: {cloth: 20%, cloak: 20%, hull: 40%, cockpit: 20%}\n---\n",
    );
    let ground = "stage: undercoat\nareas: [all]\nwith: brush\npaints: [grey-start]\ndry: 24 h\n";
    for (name, keys) in std::iter::once(&("10-ground", ground)).chain(&steps) {
        bench.write(
            &format!("{folder}/{name}.md"),
            format!("---\ntitle: {name}\n{keys}---\n\nAs the reference shows it.\n"),
        );
    }
    let run = bench.run(&["check", "--format", "json"]);
    let said: Value = serde_json::from_str(&run.out).unwrap();
    let errors: Vec<&Value> =
        said["findings"].as_array().unwrap().iter().filter(|finding| finding["level"] == "error").collect();
    assert!(errors.is_empty(), "{errors:#?}");
}
