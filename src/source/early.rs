//! A line `---` too early among the keys at the top of a file: what comes after it would be text, and no key of it be heard.

use std::collections::BTreeSet;

use super::front_matter::{self, Halves};
use super::node::{Node, NodeValue};
use super::shape::Field;
use super::{checks, yaml};
use crate::report::{FileId, Finding, Place};

/// The keys as they are meant, and what is said of the line among them.
pub(super) struct Meant {
    /// All keys, with spaces in place of the line: every byte is where it is in the file.
    pub(super) yaml: String,
    /// The byte at which the body begins.
    pub(super) body_start: usize,
    /// What is said.
    pub(super) finding: Finding,
}

/// What is meant where keys of such a file come at once after the line that ends them, and then such a line again.
pub(super) fn find(text: &str, halves: &Halves<'_>, fields: &[Field], file: FileId) -> Option<Meant> {
    let body = text.get(halves.body_start..)?;
    let first = body.lines().find(|line| !line.trim().is_empty())?;
    let (key, behind) = first.split_once(':')?;
    let is_spaced = behind.is_empty() || behind.starts_with(char::is_whitespace);
    if !is_spaced || !fields.iter().any(|field| field.key == key) {
        return None;
    }
    let line_start = halves.yaml_start + halves.yaml.len();
    // The text from the first line to the second one is split like a file.
    let further = front_matter::split(text.get(line_start..)?)?;
    let all_keys = match yaml::parse(further.yaml, file, 0) {
        Ok(Node { value: NodeValue::Map(pairs), .. }) => pairs.iter().all(|(key, _)| is_word(&key.value)),
        Ok(_) => false,
        Err(_) => further.yaml.lines().all(|line| is_of_keys(line.trim_end())),
    };
    if !all_keys || is_prose(further.yaml) {
        return None;
    }
    // Nobody writes a key twice: the second one is a word of the text.
    let before: BTreeSet<&str> = keys(halves.yaml).collect();
    if keys(further.yaml).any(|key| before.contains(key)) {
        return None;
    }
    let yaml = format!("{}{}\n{}", halves.yaml, " ".repeat(further.yaml_start - 1), further.yaml);
    let place = Place::new(file, line_start, line_start + 3);
    let message = "the keys at the top end at this line, and more of them come after it";
    let finding = Finding::new(&checks::FRONT_MATTER, place, message, "take this line out");
    Some(Meant { yaml, body_start: line_start + further.body_start, finding })
}

/// The key of an author's own cautions: a list right below it is never taken for a part of the text.
const CAUTIONS: &str = "safety:";

/// The keys that lines begin with.
fn keys(yaml: &str) -> impl Iterator<Item = &str> {
    yaml.lines().filter_map(|line| line.split_once(':')).map(|(key, _)| key).filter(|key| is_word(key))
}

/// Whether lines that could be keys are rather the text of the file: by an empty line before a line that begins with no key, as
/// before the line `---` itself. What holds a value in brackets is no text.
fn is_prose(yaml: &str) -> bool {
    let lines: Vec<&str> = yaml.lines().map(str::trim_end).collect();
    // A link begins with one, too.
    let is_bracket = |value: &str| value.trim_start().starts_with(['[', '{']) && !value.contains("](");
    let has_bracket = |line: &&str| line.split_once(':').is_some_and(|(key, value)| is_word(key) && is_bracket(value));
    let has_caution = |two: &[&str]| two[0] == CAUTIONS && two[1].trim_start().starts_with("- ");
    if lines.iter().any(has_bracket) || lines.windows(2).any(has_caution) {
        return false;
    }
    let has_key = |line: &str| line.split_once(':').is_some_and(|(key, _)| is_word(key));
    let is_gap = |two: &[&str]| two[0].is_empty() && !two[1].is_empty() && !has_key(two[1]);
    lines.windows(2).any(is_gap) || lines.last().is_some_and(|last| last.is_empty())
}

/// Whether a text is a word such as keys are.
fn is_word(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-')
}

/// Whether a line may stand among keys: one with a key, or one that goes on with what is behind a key.
pub(super) fn is_of_keys(line: &str) -> bool {
    let goes_on = |sign: char| sign.is_whitespace() || matches!(sign, '#' | ']' | '}');
    let has_key = line.contains(": ") || line.ends_with(':');
    line.is_empty() || has_key || line.starts_with("- ") || line.starts_with(goes_on)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Files;
    use crate::source::file::StepFile;
    use crate::source::reading::Value;

    fn meant(text: &str) -> Option<Meant> {
        let file = Files::default().add("content/schemes/a/10-b.md", text);
        find(text, &front_matter::split(text).unwrap(), StepFile::shape().fields(), file)
    }

    #[test]
    fn keys_after_an_early_line_are_still_keys() {
        for text in [
            "---\ntitle: A\n---\nsafety: [Wear gloves]\ncoats: 2\n---\nText.\n",
            "---\r\ntitle: A\r\n---\r\n\r\nsafety: [Wear gloves]\r\n---\r\nText.\r\n",
            "---\ntitle: A\n---  \ncoats: 2\ncaots: 3\n---\nText.\n",
            "---\ntitle: A\n---\npaints:\n  - {use: a\n---\nText.\n",
            "---\ntitle: A\n---\nsafety: [Wear gloves]\n\n---\nText.\n",
            "---\ntitle: A\n---\nsafety:\n- Wear gloves\n\n---\nText.\n",
            "---\ntitle: A\n---\nstage: glaze\n\ncoats: 2\n---\nText.\n",
        ] {
            let found = meant(text).unwrap();
            assert!(text[found.body_start..].starts_with("Text."), "{text}");
            assert!(text[found.finding.place.start as usize..].starts_with("---"), "{text}");
            let key = found.yaml.find("coats").or(found.yaml.find("safety")).or(found.yaml.find("paints")).unwrap();
            let start = front_matter::split(text).unwrap().yaml_start;
            assert_eq!(text[start + key..].chars().next(), found.yaml[key..].chars().next(), "{text}");
        }
    }

    #[test]
    fn a_text_is_left_alone() {
        for text in [
            "---\ntitle: A\n---\nText.\n\n---\n\nMore.\n",
            "---\ntitle: A\n---\ncoats: 2\n",
            "---\ntitle: A\n---\nsafety: first of all.\n\nThen we paint.\n\n---\n\nMore.\n",
            "---\ntitle: A\n---\n\ntitle: in short, nothing.\n---\nText.\n",
            "---\ntitle: A\n---\ntools:\n\n- a brush\n\n- a cup\n\n---\nText.\n",
            "---\ntitle: A\n---\ntools:\n- a brush\n- a cup\n\n---\nText.\n",
            "---\ntitle: A\n---\npaints:\n\n- moss-green\n\ndry:\n\n- one hour\n---\nText.\n",
            "---\ntitle: A\n---\ntools: [these](tools.md)\n\n---\nText.\n",
            "---\ntitle: A\n---\nsafety: wear a mask.\n\n---\nText.\n",
            "---\ntitle: A\n---\nNote: it is wet.\n---\n",
            "---\ntitle: A\n---\n```yaml\ncoats: 2\n---\n```\n",
            "---\ntitle: A\n---\n",
        ] {
            assert!(meant(text).is_none(), "{text}");
        }
    }
}
