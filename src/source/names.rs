//! What the files of a guide name: paints, tools and sequences, by the keys that name them and by links.

use std::collections::BTreeSet;

use super::front_matter;
use super::node::{Node, NodeValue};
use super::scalar::Id;
use super::yaml;
use crate::measure::FromText;
use crate::report::FileId;

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// A paint, or a pot.
    Paint,
    /// A tool.
    Tool,
    /// A sequence.
    Sequence,
}

/// The keys whose values are such names.
const KEYS: [(&str, Kind); 7] = [
    ("use", Kind::Paint),
    ("paints", Kind::Paint),
    ("blend", Kind::Paint),
    (INSTEAD, Kind::Paint),
    ("thin-with", Kind::Paint),
    ("tools", Kind::Tool),
    ("sequence", Kind::Sequence),
];

/// The key of a group in which the values are names.
const INSTEAD: &str = "instead";

/// The key of a group in which the keys are names of paints.
const HAVE: &str = "have";

/// The key of a group of pots.
const POTS: &str = "pots";

/// The links to such things.
const LINKS: [(&str, Kind); 2] = [("paint:", Kind::Paint), ("sequence:", Kind::Sequence)];

/// What is named in files, and the pots that are mixed there.
#[derive(Debug, Default)]
pub(super) struct Names {
    named: BTreeSet<(Kind, String)>,
    pots: BTreeSet<String>,
}

impl Names {
    /// Adds what a file names. A file that can't be read names what it links to.
    pub(super) fn add(&mut self, file: FileId, text: &str, is_yaml: bool) {
        for (link, kind) in LINKS {
            for (at, _) in text.match_indices(link) {
                let begins = text[..at].chars().next_back().is_some_and(|sign| matches!(sign, '(' | '<' | ' '));
                let name = text[at + link.len()..].split(|sign| !is_of_id(sign)).next().filter(|_| begins);
                self.name(kind, name.unwrap_or_default());
            }
        }
        let keys = if is_yaml { Some(text) } else { front_matter::split(text).map(|halves| halves.yaml) };
        if let Some(Ok(node)) = keys.map(|keys| yaml::parse(keys, file, 0)) {
            self.walk(&node, "");
        }
    }

    /// The names of such things that are not among those that are known, nor are pots.
    pub(super) fn without(&self, kind: Kind, known: &BTreeSet<&str>) -> BTreeSet<&str> {
        let named = self.named.iter().filter(|(of, _)| *of == kind).map(|(_, name)| name.as_str());
        named.filter(|name| !known.contains(name) && !self.pots.contains(*name)).collect()
    }

    fn name(&mut self, kind: Kind, name: &str) {
        let name = name.trim();
        if Id::from_text(name).is_ok() && name.contains(|sign: char| sign.is_ascii_lowercase()) {
            self.named.insert((kind, name.to_owned()));
        }
    }

    /// Adds what a value names that stands behind a key.
    fn walk(&mut self, node: &Node, key: &str) {
        let kind = KEYS.iter().find(|(known, _)| *known == key).map(|(_, kind)| *kind);
        match &node.value {
            NodeValue::Empty => {}
            // A list may be written as one text, and so may a mix.
            NodeValue::Text(text) => {
                let Some(kind) = kind else { return };
                self.name(kind, text);
                if text.contains([',', ';', ':', '+']) {
                    text.split([',', ';', ' ', '+']).for_each(|name| self.name(kind, name));
                }
            }
            NodeValue::List(items) => {
                for item in items {
                    // A line of a mix such as `moss-green: 3`.
                    if let (Some(kind), NodeValue::Map(pairs)) = (kind, &item.value)
                        && let [(name, _)] = pairs.as_slice()
                        && !KEYS.iter().any(|(known, _)| *known == name.value)
                    {
                        self.name(kind, name);
                    }
                    self.walk(item, key);
                }
            }
            NodeValue::Map(pairs) => {
                for (name, value) in pairs {
                    if key == HAVE {
                        self.name(Kind::Paint, name);
                    } else if key == POTS {
                        self.pots.insert(name.value.clone());
                    }
                    self.walk(value, if key == INSTEAD { INSTEAD } else { name.value.as_str() });
                }
            }
        }
    }
}

/// Whether a letter may stand in an id.
pub(super) fn is_of_id(letter: char) -> bool {
    letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-'
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Files;

    fn names(text: &str, kind: Kind) -> Vec<String> {
        let file = Files::default().add("content/a", "");
        let mut names = Names::default();
        names.add(file, text, !text.starts_with("---"));
        names.without(kind, &BTreeSet::from(["known"])).into_iter().map(str::to_owned).collect()
    }

    #[test]
    fn what_keys_and_links_name_is_found() {
        for (text, kind, wanted) in [
            ("---\npaints: [moss, {use: reed, parts: 1}, straw: 3, known]\n---\n", Kind::Paint, "moss reed straw"),
            ("---\npaints: moss 3:1 reed\n---\n", Kind::Paint, "moss reed"),
            ("---\nblend: [moss, reed]\ntools: [cup]\n---\n", Kind::Paint, "moss reed"),
            ("---\nblend: [moss, reed]\ntools: [cup]\n---\n", Kind::Tool, "cup"),
            ("variants: {dusk: {title: Dusk, instead: {reed: moss}}}\n", Kind::Paint, "moss"),
            ("pots: {mud: {paints: [moss, mud]}}\n", Kind::Paint, "moss"),
            ("have: {moss: 12 ml}\n", Kind::Paint, "moss"),
            ("---\nsequence: hide\n---\n", Kind::Sequence, "hide"),
            ("---\ntitle: A\n---\n[It](paint:moss) and [this](sequence:hide).\n", Kind::Paint, "moss"),
        ] {
            assert_eq!(names(text, kind).join(" "), wanted, "{text}");
        }
    }

    #[test]
    fn other_words_name_nothing() {
        for text in [
            "---\ntitle: moss\nareas: [moss]\nwith: moss\n---\nMoss, moss, paint: moss.\n",
            "paints:\n  moss: {name: moss, kind: paint}\n",
            "tools:\n  moss: A cup\n",
            "---\npaints: [Moss Green, moss green, 3]\n---\n",
        ] {
            for kind in [Kind::Paint, Kind::Tool, Kind::Sequence] {
                assert_eq!(names(text, kind), Vec::<String>::new(), "{text}");
            }
        }
    }
}
