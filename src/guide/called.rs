//! What somebody who types a name means by it: the name of a folder or file, or a title, however it is capitalised.

use crate::measure::hyphenated;
use crate::report::{visible_line, wording};

/// The longest name that a message repeats, in characters.
const LONGEST: usize = 80;

/// Why what somebody typed can't be answered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unclear {
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// What helps.
    pub mend: String,
}

/// The position of the one thing that a typed name means. Of each thing's names the first is the one to write, and
/// the others are what readers call it; `what` is the kind of thing with its article, as in `a scheme`.
///
/// # Errors
/// Where no thing is called so, or several are.
pub fn find<const N: usize>(name: &str, what: &str, known: &[[&str; N]]) -> Result<usize, Unclear> {
    if let Some(at) = known.iter().position(|names| names.first() == Some(&name)) {
        return Ok(at);
    }
    let typed = folded(name);
    let called = |names: &[&str; N]| names.iter().skip(1).any(|own| folded(own) == typed);
    let found: Vec<usize> = known.iter().enumerate().filter(|(_, names)| called(names)).map(|(at, _)| at).collect();
    let (_, kind) = what.split_once(' ').unwrap_or(("", what));
    let shown = wording::quoted(&visible_line(name, LONGEST));
    match found.as_slice() {
        [at] => Ok(*at),
        [] => Err(Unclear { message: format!("there is no {kind} {shown}"), mend: nearest(name, what, known) }),
        several => {
            let names = several.iter().filter_map(|at| known.get(*at)?.first());
            let mend = format!("write {}", wording::either(names));
            Err(Unclear { message: format!("{} things are called {shown}", several.len()), mend })
        }
    }
}

/// A name as somebody may type it: small letters, one kind of dash and of quote.
fn folded(name: &str) -> String {
    name.trim().to_lowercase().replace(['–', '—', '−', '‑'], "-").replace(['’', '‘'], "'")
}

/// The name to write that a misspelt one comes nearest to: by itself, by another name of the thing, or because it
/// holds what was typed.
fn nearest<const N: usize>(name: &str, what: &str, known: &[[&str; N]]) -> String {
    let first: Vec<&str> = known.iter().filter_map(|names| names.first()).copied().collect();
    let others: Vec<(String, &str)> = known
        .iter()
        .flat_map(|names| names.iter().skip(1).filter_map(|other| Some((hyphenated(other), *names.first()?))))
        .collect();
    let by_other = || {
        let near = wording::nearest(name, others.iter().map(|(other, _)| other.as_str()))?;
        others.iter().find(|(other, _)| other == near).map(|(_, first)| *first)
    };
    let holding = || first.iter().find(|first| !name.is_empty() && first.contains(name)).copied();
    let near = wording::nearest(name, first.iter().copied()).or_else(by_other).or_else(holding);
    match near {
        Some(near) => format!("did you mean {}?", wording::quoted(&visible_line(near, LONGEST))),
        None => wording::did_you_mean(name, what, &first),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const KNOWN: [[&str; 2]; 4] = [
        ["fen-watch", "The Fen Watch"],
        ["levy", "Salt Runners of the Dike"],
        ["old-rose", "Rose"],
        ["new-rose", "rose"],
    ];

    #[test]
    fn a_thing_is_found_by_its_file_or_its_title() {
        let dashed = [["north", "North Guard – the 2nd’s"]];
        assert_eq!(find("north guard - the 2nd's", "an army", &dashed), Ok(0));
        for (name, at) in [("fen-watch", 0), ("the fen watch", 0), (" The Fen Watch ", 0), ("old-rose", 2)] {
            assert_eq!(find(name, "an army", &KNOWN), Ok(at), "{name}");
        }
    }

    #[test]
    fn a_misspelt_name_gets_the_nearest() {
        for (name, mend) in [
            ("fen-wach", "did you mean 'fen-watch'?"),
            ("Salt Runers of the Dike", "did you mean 'levy'?"),
            ("ros", "did you mean 'old-rose'?"),
            ("Fen-Watch", "did you mean 'fen-watch'?"),
            ("herons", "write 'fen-watch', 'levy', 'old-rose' or 'new-rose'"),
        ] {
            let unclear = find(name, "an army", &KNOWN).unwrap_err();
            assert_eq!((unclear.message, unclear.mend), (format!("there is no army '{name}'"), mend.to_owned()));
        }
    }

    #[test]
    fn what_several_things_are_called_is_not_guessed() {
        let unclear = find("ROSE", "a paint", &KNOWN).unwrap_err();
        assert_eq!(unclear.message, "2 things are called 'ROSE'");
        assert_eq!(unclear.mend, "write 'old-rose' or 'new-rose'");
    }
}
