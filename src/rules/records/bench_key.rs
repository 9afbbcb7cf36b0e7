//! The author's own figures: each replaces one that the program has.

use crate::bench::Bench;
use crate::guide::Guide;
use crate::report::{Check, Finding, Group, Level, wording};

/// Own figures have known keys.
pub(in crate::rules) static UNKNOWN_BENCH_KEY: Check = Check {
    id: "unknown-bench-key",
    level: Level::Error,
    about: "every figure of the author's own bench replaces one that the program has",
    why: "it would change nothing, and the program's own figure would be used without a word",
    group: Group::Names,
    safety: false,
};

/// What is wrong with the author's own figures.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    if guide.bench.is_empty() {
        return Vec::new();
    }
    let known: Vec<String> = Bench::keys().collect();
    let unknown = guide.bench.iter().filter(|figure| !known.contains(&figure.key));
    unknown
        .map(|figure| {
            let message = format!("there is no figure {}", wording::quoted(&figure.key));
            let names: Vec<&str> = known.iter().map(String::as_str).collect();
            Finding::new(
                &UNKNOWN_BENCH_KEY,
                figure.place,
                message,
                wording::did_you_mean(&figure.key, "a figure", &names),
            )
        })
        .collect()
}
