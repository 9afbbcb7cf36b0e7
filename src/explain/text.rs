//! What is said when somebody asks for a word, and what can be asked for.

use std::fmt::Write as _;

use super::entry::{Entry, Topic};
use super::files;
use super::gather::entries;
use crate::report::wording;
use crate::trade::meanings;

/// Lines end before this column.
const WIDTH: usize = 92;

/// What there is to say about a word.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// All that the word means.
    Known(String),
    /// Nothing; what helps.
    Unknown(String),
}

/// What a word means. A topic, such as `bench`, gives all of its words.
pub fn ask(word: &str) -> Answer {
    let all = entries();
    let asked = meant(word.trim());
    if let Some(topic) = Topic::ALL.iter().find(|topic| topic.name() == asked) {
        let of_topic: Vec<&Entry> = all.iter().filter(|entry| entry.topic == *topic).collect();
        let named: Vec<&Entry> = matching(&all, &asked).into_iter().filter(|entry| entry.topic != *topic).collect();
        let tree = (*topic == Topic::File).then(files::tree);
        let told = named.into_iter().chain(of_topic).map(told);
        return Answer::Known(tree.into_iter().chain(told).collect::<Vec<_>>().join("\n"));
    }
    let found = matching(&all, &asked);
    let said = painters(&asked);
    if found.is_empty() && said.is_none() {
        let known: Vec<&str> = all.iter().flat_map(|entry| [entry.word.as_str(), entry.last()]).collect();
        // Nothing at all is near to every short word.
        let near = if asked.is_empty() { None } else { wording::nearest(&asked, known) };
        let mend = match near {
            Some(near) => format!("did you mean {}?", wording::quoted(near)),
            None => "'maulstick explain' lists what can be asked, 'maulstick explain files' says where each file goes"
                .to_owned(),
        };
        return Answer::Unknown(mend);
    }
    Answer::Known(found.into_iter().map(told).chain(said).collect::<Vec<_>>().join("\n"))
}

/// A word as it is asked for here: in small letters, and other words for the files of a guide as `files`.
fn meant(word: &str) -> String {
    let asked = word.to_lowercase();
    match asked.as_str() {
        "folder" | "folders" | "layout" | "tree" | "structure" => Topic::File.name().to_owned(),
        _ => asked,
    }
}

/// The entries with a word: by its whole path, else by the path's end.
fn matching<'a>(all: &'a [Entry], asked: &str) -> Vec<&'a Entry> {
    let whole: Vec<&Entry> = all.iter().filter(|entry| entry.word.to_lowercase() == asked).collect();
    let ends = |entry: &&Entry| {
        let word = entry.word.to_lowercase();
        word != asked && (entry.last().to_lowercase() == asked || word.ends_with(&format!(".{asked}")))
    };
    whole.into_iter().chain(all.iter().filter(ends)).collect()
}

/// A word of painters that is no word of a list, with what is written for it in each list.
fn painters(word: &str) -> Option<String> {
    let mut text = format!("{word}: a word of painters\n");
    let mut lists = meanings(word).peekable();
    lists.peek()?;
    for (list, says) in lists {
        wrapped(&mut text, &format!("  where {list} is wanted: "), says);
    }
    Some(text)
}

/// One entry as text.
fn told(entry: &Entry) -> String {
    let of = entry.of.map(|of| format!(" of {of}")).unwrap_or_default();
    let mut text = format!("{}: {}{of}\n", entry.word, entry.topic.one());
    wrapped(&mut text, "  ", &entry.about);
    for (name, value) in &entry.more {
        wrapped(&mut text, &format!("  {name}: "), value);
    }
    text
}

/// Some words after a head, in lines that end before [`WIDTH`]; later lines are indented by four.
fn wrapped(text: &mut String, head: &str, words: &str) {
    let mut line = head.to_owned();
    let mut empty = true;
    for word in words.split_whitespace() {
        let room = line.chars().count() + word.chars().count() < WIDTH;
        if !empty && !room {
            let _ = writeln!(text, "{}", line.trim_end());
            "    ".clone_into(&mut line);
        }
        line.push_str(word);
        line.push(' ');
        empty = false;
    }
    let _ = writeln!(text, "{}", line.trim_end());
}

/// What can be asked for: each topic with its words.
pub fn overview() -> String {
    let all = entries();
    let mut text = "maulstick explain WORD tells what a word means. These can be asked:\n".to_owned();
    for topic in Topic::ALL {
        let mut words: Vec<&str> = all.iter().filter(|entry| entry.topic == *topic).map(short).collect();
        words.sort_unstable();
        words.dedup();
        let _ = writeln!(text, "\n{}: {}", topic.name(), topic.about());
        let listed = match topic {
            Topic::Bench | Topic::Field => format!("'maulstick explain {}' lists all {}", topic.name(), words.len()),
            _ => words.join(", "),
        };
        wrapped(&mut text, "  ", &listed);
    }
    text
}

/// A word as it is in the overview: keys and fields without the way to them.
fn short(entry: &Entry) -> &str {
    if matches!(entry.topic, Topic::Key | Topic::Field) { entry.last() } else { &entry.word }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(word: &str) -> String {
        match ask(word) {
            Answer::Known(text) | Answer::Unknown(text) => text,
        }
    }

    #[test]
    fn a_word_is_explained_in_all_its_meanings() {
        let varnish = said("varnish");
        for meaning in ["varnish: a stage", "varnish: a kind of product", "varnish: a caution"] {
            assert!(varnish.contains(meaning), "{varnish}");
        }
        for (word, meaning) in [
            ("acrylic", "where a kind of paint is wanted: "),
            ("hard", "where a level is wanted: "),
            ("terrain", "terrain: a kind of model"),
            ("foot", "foot: a kind of model"),
            ("easy", "easy: a level"),
            ("foam", "foam: a material"),
            ("consumable", "consumable: a kind of tool"),
        ] {
            assert!(said(word).contains(meaning), "{}", said(word));
        }
        assert!(said("dry").starts_with("dry: a key of a step\n"), "{}", said("dry"));
        assert!(said("paints.<id>.recoat").starts_with("paints.<id>.recoat: a key of paints/*.yaml"));
    }

    #[test]
    fn the_files_of_a_guide_are_drawn_and_explained() {
        for word in ["files", "layout", "folders"] {
            let text = said(word);
            assert!(text.contains("sequences/NAME/sequence.md") && text.contains("armies: a file"), "{text}");
        }
        let sequences = said("sequences").split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(sequences.contains("'sequence: NAME'"), "{sequences}");
        assert!(said("armies").contains("armies/NAME.yaml"), "{}", said("armies"));
    }

    #[test]
    fn a_misspelt_word_gets_the_nearest() {
        assert_eq!(
            ask("zenihtal-lgiht"),
            Answer::Unknown(
                "'maulstick explain' lists what can be asked, 'maulstick explain files' says where each file goes"
                    .to_owned()
            )
        );
        assert_eq!(ask("basecaot"), Answer::Unknown("did you mean 'basecoat'?".to_owned()));
    }

    #[test]
    fn every_word_is_found_by_itself_and_no_line_runs_over() {
        for entry in entries() {
            let text = said(&entry.word);
            assert!(text.contains(&format!("{}: {}", entry.word, entry.topic.one())), "{}", entry.word);
            for line in text.lines() {
                let long = line.split_whitespace().any(|word| word.chars().count() > WIDTH - 10);
                assert!(line.chars().count() <= WIDTH || long, "{line}");
            }
        }
    }

    #[test]
    fn the_overview_names_every_topic() {
        let text = overview();
        assert!(Topic::ALL.iter().all(|topic| text.contains(&format!("\n{}: ", topic.name()))), "{text}");
    }
}
