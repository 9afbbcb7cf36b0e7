//! Findings beside the output of a command that does something else: what matters there in full, all else in one line.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::text::tally;
use super::{Files, Finding, Findings, TextStyle, text};

/// What matters as [`text()`] has it, then one line for all the rest; nothing at all where nothing was found. `guide` is the
/// folder as it was typed.
pub fn brief(
    (findings, files): (&Findings, &Files),
    style: TextStyle,
    guide: &str,
    matters: impl Fn(&Finding) -> bool,
) -> String {
    let (whole, rest) = findings.split(matters);
    let mut said = if whole.iter().next().is_some() { text(&whole, files, style) } else { String::new() };
    let rules: BTreeSet<&str> = rest.iter().map(|one| one.check.id).collect();
    if !rules.is_empty() {
        let them = if rest.iter().count() == 1 { "it" } else { "them" };
        let (count, rules) = (tally(rest.counts(), style), Vec::from_iter(rules).join(", "));
        let _ = writeln!(said, "{count} ({rules}): 'maulstick check {guide}' shows {them}");
    }
    said
}

#[cfg(test)]
mod tests {
    use super::super::Level;
    use super::super::sample::{self, BARE, TWICE};
    use super::*;

    #[test]
    fn what_matters_is_shown_in_full_and_the_rest_takes_one_line() {
        let mut files = Files::default();
        let id = files.add("a.md", "title: A\nalt: B\n");
        let note = |word| Finding::new(&BARE, sample::place_of(&files, id, word), "no description", "write one");
        let fault = || Finding::new(&TWICE, sample::place_of(&files, id, "title"), "twice", "keep one");
        let said = |found: Vec<Finding>, matters: fn(&Finding) -> bool| {
            brief((&Findings::gather(found, &files), &files), TextStyle::Plain, "mine", matters)
        };
        assert_eq!(said(Vec::new(), |_| false), "");
        assert_eq!(
            said(vec![note("title"), note("alt")], |_| false),
            "2 notes (picture-bare): 'maulstick check mine' shows them\n"
        );
        assert_eq!(
            said(vec![note("alt"), fault()], |_| false),
            "1 error, 1 note (paint-twice, picture-bare): 'maulstick check mine' shows them\n"
        );
        let both = said(vec![note("alt"), fault()], |finding| finding.level() != Level::Note);
        assert!(both.starts_with("error[paint-twice]: twice"), "{both}");
        assert!(both.ends_with("1 error\n1 note (picture-bare): 'maulstick check mine' shows it\n"), "{both}");
        assert!(said(vec![note("alt")], |_| true).starts_with("note[picture-bare]: no description"));
    }
}
