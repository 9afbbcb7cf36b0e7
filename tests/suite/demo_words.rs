//! Numbers in the texts of the demo guide agree with what the program works out.

use std::collections::BTreeSet;
use std::fs;

use maulstick::door::Disk;
use maulstick::story;
use maulstick::work::{Worked, WorkedScheme};

use crate::bench::demo_folder;

const TABLE: &str = include_str!("../data/demo_words.tsv");

const WORDS: [&str; 21] = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
];

/// A row: the file, the phrase, the figure that is asked.
fn rows() -> impl Iterator<Item = [&'static str; 3]> {
    let rows = TABLE.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    rows.map(|line| line.split('\t').collect::<Vec<_>>().try_into().unwrap())
}

/// A text with single spaces, so that a phrase is found across the end of a line.
fn text(file: &str) -> String {
    let text = fs::read_to_string(demo_folder().join("content/schemes").join(file)).unwrap();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The numbers of a phrase, in digits or in words.
fn numbers(phrase: &str) -> Vec<u64> {
    let words = phrase.split(|letter: char| !letter.is_alphanumeric());
    words
        .filter_map(|word| {
            let in_words = || WORDS.iter().position(|known| *known == word.to_lowercase()).map(|at| at as u64);
            word.parse().ok().or_else(in_words)
        })
        .collect()
}

fn figure(worked: &Worked, asked: &str) -> u64 {
    let parts: Vec<&str> = asked.split(' ').collect();
    let scheme = worked.schemes.iter().find(|one| one.scheme.slug == parts[1]).unwrap();
    match parts[0] {
        "evenings" => scheme.sittings.evenings as u64,
        "days" => u64::from(scheme.sittings.ready_after),
        "brushes" => brushes(scheme),
        what => of_step(scheme, what, parts[2], parts.get(3).map_or(1, |models| models.parse().unwrap())),
    }
}

fn of_step(scheme: &WorkedScheme, what: &str, stem: &str, models: u32) -> u64 {
    let at = scheme.scheme.steps.iter().position(|step| step.stem == stem).unwrap();
    let (step, times) = (&scheme.scheme.steps[at], &scheme.times[at]);
    let (kind, unit) = what.split_once('-').unwrap_or(("work", what));
    let seconds = match unit {
        "minutes" => 60,
        "hours" => 3600,
        _ => 24 * 3600,
    };
    let whole = |time: u64| {
        assert_eq!(time % seconds, 0, "{stem}: {time} s is no whole number of {unit}");
        time / seconds
    };
    let need = || scheme.needs[at].as_ref().unwrap().for_models(models);
    match (kind, unit) {
        (_, "coats") => u64::from(step.coats),
        (_, "lots") => u64::from(need().out.times),
        ("lot", "drops") => need().out.parts.iter().map(|drops| u64::from(*drops)).sum(),
        ("between", _) => whole(u64::from(times.between.unwrap().as_seconds())),
        ("dry", _) => whole(u64::from(times.rests[0].time.as_seconds())),
        _ => whole(u64::from(times.hands_on.as_seconds()) * u64::from(models)),
    }
}

fn brushes(scheme: &WorkedScheme) -> u64 {
    let tools = scheme.scheme.steps.iter().flat_map(|step| &step.tools);
    let brushes = tools.filter(|tool| tool.id.contains("brush") && !tool.id.contains("toothbrush"));
    brushes.map(|tool| tool.id.as_str()).collect::<BTreeSet<_>>().len() as u64
}

#[test]
fn every_number_in_the_table_is_the_program_s_own() {
    let checked = story::check(&Disk::new(demo_folder())).unwrap();
    for [file, phrase, asked] in rows() {
        assert!(text(file).contains(phrase), "{file} does not say '{phrase}'");
        let figure = figure(&checked.worked, asked);
        assert!(numbers(phrase).contains(&figure), "{file} says '{phrase}', and the program: {asked} is {figure}");
    }
}

#[test]
fn no_evening_of_the_demo_is_counted_without_the_program() {
    for scheme in fs::read_dir(demo_folder().join("content/schemes")).unwrap() {
        let folder = scheme.unwrap().file_name().into_string().unwrap();
        let said = text(&format!("{folder}/scheme.md"));
        let words: Vec<&str> = said.split(' ').collect();
        for (at, _) in words.iter().enumerate().filter(|(_, word)| word.starts_with("evenings")) {
            let before = words[at.saturating_sub(2)..at].join(" ");
            let counted = !numbers(&before).is_empty();
            let known = rows().any(|[file, phrase, _]| file.starts_with(&folder) && phrase.contains("evenings"));
            assert!(!counted || known, "{folder}: '{before} evenings' is not in the table");
        }
    }
}
