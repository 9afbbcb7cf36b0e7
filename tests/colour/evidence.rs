//! The tables of `src/colour/EVIDENCE.md`, made anew from measured paint: they hold what is found here, to the last digit.

use std::fmt::Write as _;
use std::path::Path;

use super::films;
use super::measured::{self, Row, Told, figures};

const EVIDENCE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/src/colour/EVIDENCE.md");

/// What a prediction rests on, as the tests name it and as the table does.
const GROUPS: [(&str, &str); 4] = [
    ("class", "colour and class"),
    ("cards", "black and white swatch"),
    ("tint", "and a tint"),
    ("layer", "the film over black, from over white and a class"),
];

/// Neither figure of these may ever get greater: a row, and from a colour and a class, from cards, and with a tint.
const MOST: [(&str, [(f64, f64); 3]); 7] = [
    ("oils: tints with white, over black", [(7.3, 15.9), (7.9, 17.7), (99.0, 99.0)]),
    ("acrylic films: two with white, 1 : 1 : 8, over white", [(12.8, 28.7), (7.0, 19.0), (3.6, 6.0)]),
    ("oils: tints with white, over white", [(6.0, 14.3), (7.0, 17.7), (99.0, 99.0)]),
    ("oils: those without the tint that is given, over white", [(5.7, 14.5), (6.6, 17.7), (2.9, 6.0)]),
    ("oils: those without the tint that is given, over black", [(6.3, 16.3), (7.9, 17.7), (3.3, 12.8)]),
    ("acrylic films: 1 : 1 mixes, over white", [(5.7, 16.3), (6.2, 14.0), (3.6, 6.0)]),
    ("watery films: 1 : 1 mixes, over white", [(5.5, 13.0), (5.5, 13.0), (3.8, 9.0)]),
];

fn errors(rows: &[Row]) -> String {
    let pair = |(median, nine): (f64, f64)| format!("{median:.1} / {nine:.1}");
    let mut table = String::from(
        "| what | how many | averaged in sRGB | averaged in linear light | colour and class | black and white swatch | and a tint |\n\
         | --- | --- | --- | --- | --- | --- | --- |\n",
    );
    for Row { what, count, averaged: [encoded, linear], found } in rows {
        let found = found.map(|found| found.map(pair).unwrap_or_default()).join(" | ");
        writeln!(table, "| {what} | {count} | {} | {} | {found} |", pair(*encoded), pair(*linear)).unwrap();
    }
    table
}

/// In how many of a hundred what is told for half and for nine in ten holds.
fn held(set: &[&Told]) -> [f64; 2] {
    let share = |told: fn(&Told) -> bool| 100.0 * set.iter().filter(|one| told(one)).count() as f64 / set.len() as f64;
    [share(|(_, off, told)| *off <= told.median), share(|(_, off, told)| *off <= told.nine_in_ten)]
}

fn ranges(oils: &[Told], films: &[Told]) -> String {
    let mut table = String::from(
        "| from | how many | told for half holds in | told for nine in ten holds in | usually told for nine in ten |\n\
         | --- | --- | --- | --- | --- |\n",
    );
    for (sets, which) in [(oils, "oils"), (films, "calculated films")] {
        for (group, name) in GROUPS {
            let set: Vec<&Told> = sets.iter().filter(|(of, ..)| *of == group).collect();
            if set.is_empty() {
                continue;
            }
            let [half, nine] = held(&set);
            let (usual, _) = figures(set.iter().map(|(_, _, told)| told.nine_in_ten).collect());
            writeln!(table, "| {which}: {name} | {} | {half:.0} % | {nine:.0} % | {usual:.0} |", set.len()).unwrap();
        }
    }
    table
}

/// The text with what stands between the marks of a table replaced.
fn with(text: &str, mark: &str, table: &str) -> String {
    let (from, to) = (format!("<!-- {mark}: made by tests/colour/evidence.rs -->\n\n"), "\n<!-- end -->");
    let (before, rest) = text.split_once(&from).unwrap();
    let (_, after) = rest.split_once(to).unwrap();
    format!("{before}{from}{table}{to}{after}")
}

#[test]
#[ignore = "needs measured spectra in the folder MAULSTICK_MEASURED names"]
fn the_evidence_holds_what_measured_paint_shows() {
    let folder = std::env::var_os("MAULSTICK_MEASURED").expect("MAULSTICK_MEASURED names a folder");
    let drawdowns = measured::read(Path::new(&folder));
    let (mut rows, mut oils, mut calculated) = (Vec::new(), Vec::new(), Vec::new());
    measured::mix_rows(&drawdowns, &mut rows);
    measured::told_of_mixes(&drawdowns, &mut oils);
    measured::told_of_coats(&drawdowns, &mut oils);
    films::rows(Path::new(&folder), &mut rows, &mut calculated);
    let [alpha, own] = measured::layers(&drawdowns);
    println!("one film over black: alpha {alpha:.1?}, predicted {own:.1?}");
    let text = std::fs::read_to_string(EVIDENCE).unwrap();
    let fresh = with(&with(&text, "errors", &errors(&rows)), "ranges", &ranges(&oils, &calculated));
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(EVIDENCE, &fresh).unwrap();
    }
    for (what, most) in MOST {
        let row = rows.iter().find(|row| row.what == what).expect("a row of that name");
        let is_within = |(found, most): (&Option<(f64, f64)>, &(f64, f64))| {
            found.is_none_or(|found| found.0 <= most.0 && found.1 <= most.1)
        };
        assert!(row.found.iter().zip(&most).all(is_within), "{what}: {:.1?}, at most {most:?}", row.found);
    }
    for (group, _) in GROUPS {
        let set: Vec<&Told> = oils.iter().chain(&calculated).filter(|(of, ..)| *of == group).collect();
        let [half, nine] = held(&set);
        assert!(nine >= 84.0 && half >= 40.0, "{group}: {half:.0} % and {nine:.0} %");
    }
    let [half, nine] = held(&oils.iter().collect::<Vec<_>>());
    assert!((85.0..=98.0).contains(&nine) && (40.0..=67.0).contains(&half), "oils: {half:.0} % and {nine:.0} %");
    assert_eq!(text, fresh, "UPDATE=1 writes the tables anew; then see that the text beside them is still true");
}
