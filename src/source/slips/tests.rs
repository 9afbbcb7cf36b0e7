//! Torn texts: what is said of each, or that nothing is.

use super::*;
use crate::report::FileId;
use crate::source::yaml;

/// The words that are marked, what is said and what mends it; none where the library's words stand.
fn told(text: &str) -> Option<(String, String, String)> {
    let finding = yaml::parse(text, FileId::new(0), 0).expect_err(text);
    let said = finding.message.strip_prefix("this is not YAML: ").unwrap_or_default().to_owned();
    let slip = find(text, &yaml::fault_line)?;
    assert_eq!(slip.message, said);
    Some((text[slip.start..slip.end.min(text.len())].to_owned(), said, finding.mend.clone()))
}

const CASES: &str = include_str!("cases.txt");

#[test]
fn each_slip_is_told_where_it_is_with_its_edit() {
    let mut wrong = String::new();
    let cases = CASES.split("\n=== ").skip(1);
    for case in cases {
        let (head, rest) = case.split_once('\n').unwrap();
        let (text, wanted) = rest.split_once("\n--- ").unwrap();
        let text = text.replace('→', "\t");
        let wanted: Vec<&str> = wanted.trim_end().split('\n').collect();
        let got = match told(&format!("{text}\n")) {
            None => vec!["(library)".to_owned()],
            Some((marked, said, mend)) => {
                vec![marked.lines().next().unwrap_or_default().trim_end().to_owned(), said, mend]
            }
        };
        let holds = got.len() == wanted.len() && got.iter().zip(&wanted).all(|(got, wanted)| got == wanted.trim());
        if !holds {
            wrong.extend(["=== ", head, "\n", &text, "\n--- ", &got.join("\n"), "\n\n"]);
        }
    }
    assert!(wrong.is_empty(), "told otherwise:\n{wrong}");
}

#[test]
fn long_files_are_left_to_the_library() {
    let text = format!("title: \"Robe\n{}", "a: b\n".repeat(LONGEST / 5));
    assert_eq!(told(&text), None);
}
