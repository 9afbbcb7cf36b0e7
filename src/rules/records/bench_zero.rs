//! Own figures of 0 where nothing can be worked out with 0.

use crate::bench::Bench;
use crate::guide::Guide;
use crate::report::{Check, Finding, Group, Level, wording};

/// Figures that are divided by are above 0.
pub(in crate::rules) static BENCH_ZERO: Check = Check {
    id: "bench-zero",
    level: Level::Error,
    about: "a figure of the author's own bench is above 0 where the program divides by it",
    why: "every amount or colour that rests on it would be without end",
    group: Group::Names,
    safety: false,
};

/// The author's own figures that can't be 0 and are.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    let nothing = guide.bench.iter().filter(|figure| figure.value.is_zero() && Bench::is_divided_by(&figure.key));
    nothing
        .map(|figure| {
            let message = format!("the figure {} can't be 0", wording::quoted(&figure.key));
            let mend = "write what you measured, or take the line out for the program's own figure";
            Finding::new(&BENCH_ZERO, figure.place, message, mend)
        })
        .collect()
}
