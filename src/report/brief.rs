//! Findings beside the output of a command that does something else: what is wrong in full, what is worth knowing in one
//! line.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::wording::counted;
use super::{Files, Finding, Findings, Level, TextStyle, text};

/// Errors, warnings and the notes that belong to the matter as [`text()`] has them, then one line for all other notes;
/// nothing at all where nothing was found. `guide` is the folder as it was typed.
pub fn brief(
    (findings, files): (&Findings, &Files),
    style: TextStyle,
    guide: &str,
    belongs: impl Fn(&Finding) -> bool,
) -> String {
    let (whole, notes) = findings.split(|finding| finding.level() != Level::Note || belongs(finding));
    let mut said = if whole.iter().next().is_some() { text(&whole, files, style) } else { String::new() };
    let rules: BTreeSet<&str> = notes.iter().map(|note| note.check.id).collect();
    if !rules.is_empty() {
        let (count, rules) = (counted(notes.counts().note, "note", "notes"), Vec::from_iter(rules).join(", "));
        let them = if count.starts_with("1 ") { "it" } else { "them" };
        let _ = writeln!(said, "{count} ({rules}): 'maulstick check {guide}' shows {them}");
    }
    said
}

#[cfg(test)]
mod tests {
    use super::super::sample::{self, BARE, TWICE};
    use super::*;

    #[test]
    fn notes_take_one_line_and_faults_are_shown_in_full() {
        let mut files = Files::default();
        let id = files.add("a.md", "title: A\nalt: B\n");
        let note = |word| Finding::new(&BARE, sample::place_of(&files, id, word), "no description", "write one");
        let fault = Finding::new(&TWICE, sample::place_of(&files, id, "title"), "twice", "keep one");
        let said = |found: Vec<Finding>, belongs: bool| {
            brief((&Findings::gather(found, &files), &files), TextStyle::Plain, "mine", |_| belongs)
        };
        assert_eq!(said(Vec::new(), false), "");
        assert_eq!(
            said(vec![note("title"), note("alt")], false),
            "2 notes (picture-bare): 'maulstick check mine' shows them\n"
        );
        let both = said(vec![note("alt"), fault], false);
        assert!(both.starts_with("error[paint-twice]: twice"), "{both}");
        assert!(both.ends_with("1 error\n1 note (picture-bare): 'maulstick check mine' shows it\n"), "{both}");
        assert!(said(vec![note("alt")], true).starts_with("note[picture-bare]: no description"));
    }
}
