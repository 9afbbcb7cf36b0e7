//! How a value is read from a node: always as much as can be read, with a finding for the rest.

use std::collections::{BTreeMap, BTreeSet};

use super::checks;
use super::cut::Cut;
use super::node::{Node, NodeValue};
use super::quote::{self, in_quotes, shortened};
use super::shape::{Field, Shape};
use super::{comma, comment, lists};
use crate::measure::{FromText, Share};
use crate::report::{Finding, Level, Place, Placed, wording};

/// The findings of one file while it is read.
#[derive(Debug, Default)]
pub(crate) struct Reading {
    findings: Vec<Finding>,
    /// The key whose value is read, and where that stands.
    key: Option<(Place, &'static Field)>,
}

/// After so many findings a file is beyond mending one by one.
const MOST_FINDINGS: usize = 200;

/// The key of an author's own cautions.
const CAUTIONS: &str = "safety";

/// The most entries of a list; what is done with them may take time with their square.
const MOST_ITEMS: usize = 1000;

impl Reading {
    /// Notes a finding.
    pub(crate) fn tell(&mut self, finding: Finding) {
        if self.findings.len() < MOST_FINDINGS {
            self.findings.push(finding);
        }
    }

    /// Reads something of which nothing is told.
    pub(crate) fn in_silence<T>(&mut self, read: impl FnOnce(&mut Self) -> T) -> T {
        let told = self.findings.len();
        let value = read(self);
        self.findings.truncate(told);
        value
    }

    /// Reads the value of a known key.
    pub(crate) fn of_key<T: Value>(&mut self, node: &Node, field: &'static Field) -> Option<Placed<T>> {
        let outer = self.key.replace((node.place, field));
        let value = Placed::<T>::read(node, self);
        self.key = outer;
        value
    }

    /// Notes that something else than expected stands at a place. The example is that of the key, where there is one:
    /// whole if it is the key's own value, and its first entry if it is one of them.
    pub(crate) fn tell_shape(&mut self, node: &Node, expected: &str, example: &str) {
        let of_key = self.key.and_then(|(place, field)| {
            let whole = field.example.as_str();
            if place == node.place { Some(whole) } else { first_entry(whole).map(|(_, value)| value) }
        });
        self.tell_shape_as(node, expected, of_key.unwrap_or(example));
    }

    /// Whether a node is the whole value of a key, and not a part of it.
    pub(crate) fn is_whole_value(&self, node: &Node) -> bool {
        self.key.is_some_and(|(place, _)| place == node.place)
    }

    /// Whether a node is the value of a key that has a list.
    fn wants_list(&self, node: &Node) -> bool {
        self.key.is_some_and(|(place, field)| place == node.place && matches!(field.shape, Shape::List(_)))
    }

    /// The entries of a list that is written as something else, which is reported.
    fn several<T: Value>(&mut self, node: &Node) -> Option<Vec<T>> {
        let field = self.key;
        let read = |node: &Node| {
            let mut trial = Self { key: field, ..Self::default() };
            T::read(node, &mut trial).filter(|_| trial.findings.is_empty())
        };
        let key = field.filter(|(place, _)| *place == node.place).map(|(_, field)| field.key.as_str());
        if let Some((items, finding, whole)) = lists::at_commas(node, key, read) {
            self.tell(finding);
            if let Some((cut, written)) = node.cut.as_ref().zip(whole) {
                self.tell_cut_as(node, cut, &written);
            }
            return Some(items);
        }
        let (items, written) = lists::of_entries(node, &T::shape(), read)?;
        self.tell_shape_as(node, "a list", &written);
        Some(items)
    }

    /// An entry of a list that is a group such as `first-figure: 5`, in which the key is the entry's first value; it is reported.
    fn entry_of_keys<T: Value>(&mut self, item: &Node) -> Option<Vec<T>> {
        if !matches!(&item.value, NodeValue::Map(pairs) if pairs.len() == 1) {
            return None;
        }
        let field = self.key;
        let read = |node: &Node| {
            let mut trial = Self { key: field, ..Self::default() };
            T::read(node, &mut trial).filter(|_| trial.findings.is_empty())
        };
        let (items, written) = lists::of_entries(item, &T::shape(), read)?;
        let written = written.trim_start_matches('[').trim_end_matches(']');
        let message = "the key of this entry is one of its values";
        self.tell(Finding::new(&checks::VALUE_SHAPE, item.place, message, format!("write {written}")));
        Some(items)
    }

    /// The same with what is to be written.
    fn tell_shape_as(&mut self, node: &Node, expected: &str, written: &str) {
        let message = format!("expected {expected}, found {}", node.shape());
        let mend = match (&node.value, &node.comment) {
            (NodeValue::Empty, Some(comment)) if !comment.starts_with("# ") => comment::quotes_for(&shortened(comment)),
            (NodeValue::Empty, Some(_)) => {
                format!("write {written}; what follows a '#' needs quotes, or it is a comment")
            }
            (NodeValue::Empty, None) => match self.key.filter(|(place, field)| *place == node.place && !field.needed) {
                Some((_, field)) => {
                    let line = wording::quoted(&format!("{}: {written}", field.key));
                    format!("write something like {line}, or take the key out")
                }
                None => format!("write {written}"),
            },
            _ => format!("write {written}"),
        };
        self.tell(Finding::new(&checks::VALUE_SHAPE, node.place, message, mend));
    }

    /// The same with the whole mend.
    fn tell_shape_with(&mut self, node: &Node, expected: &str, mend: String) {
        let message = format!("expected {expected}, found {}", node.shape());
        self.tell(Finding::new(&checks::VALUE_SHAPE, node.place, message, mend));
    }

    /// Tells of words that a text lost to a sign of YAML. A caution that lost some is worse than none.
    fn tell_cut(&mut self, node: &Node, cut: &Cut) {
        let key = self.key.map(|(place, field)| (field.key.as_str(), place == node.place));
        let written = quote::write(key.filter(|(_, whole)| *whole).map(|(key, _)| key), &in_quotes(&cut.whole));
        self.tell_cut_as(node, cut, &written);
    }

    /// The same with what is to be written.
    fn tell_cut_as(&mut self, node: &Node, cut: &Cut, written: &str) {
        let sign = cut.words.chars().next().unwrap_or('#');
        let mend = match sign {
            '#' => format!("{written}; or if it is a comment, put a space after the '#'"),
            sign => format!("{written}: {}", comment::why_quotes(sign)),
        };
        let message = format!("{} is left out of this text", wording::quoted(&shortened(&cut.words)));
        let place = Place::new(node.place.file, cut.start, cut.end);
        let finding = Finding::new(&checks::TEXT_CUT, place, message, mend);
        let is_caution = self.key.is_some_and(|(_, field)| field.key == CAUTIONS);
        self.tell(if is_caution { finding.at(Level::Error) } else { finding });
    }

    /// A group with the keys that an author wrote without anything behind them, and for each what the example says.
    fn with_values<K: FromText, V: Value>(&self, node: &Node) -> Option<String> {
        let Shape::Scalar { expected, example, .. } = V::shape().short() else { return None };
        let texts: Vec<&String> = match &node.value {
            NodeValue::Text(text) => vec![text],
            NodeValue::List(items) => items.iter().map(Node::text).collect::<Option<_>>()?,
            _ => return None,
        };
        let known = !texts.is_empty() && texts.iter().all(|text| K::from_text(text).is_ok());
        let value = self.key.and_then(|(_, field)| first_entry(&field.example)).map_or(example, |(_, value)| value);
        // Shares that are all alike would not add up.
        let value = |at: usize| if expected == Share::EXPECTED && at > 0 { "…" } else { value };
        let pairs: Vec<String> = texts.iter().enumerate().map(|(at, text)| format!("{text}: {}", value(at))).collect();
        let own = if expected == String::EXPECTED { ", in your own words" } else { "" };
        known.then(|| format!("{{{}}}{own}", pairs.join(", ")))
    }

    /// All that was found.
    pub(crate) fn into_findings(self) -> Vec<Finding> {
        self.findings
    }
}

/// The first entry of an example such as `[shell]` or `{shell: 60%, cloth: 40%}`: its key, if it has one, and its value.
fn first_entry(example: &str) -> Option<(Option<&str>, &str)> {
    if let Some(list) = example.strip_prefix('[') {
        let first = list.split([',', ']']).next()?;
        return (!first.starts_with('{')).then_some((None, first));
    }
    let (key, rest) = example.strip_prefix('{')?.split_once(": ")?;
    let value = rest.split([',', '}']).next()?;
    (!value.starts_with('{')).then_some((Some(key), value))
}

/// What can be read from a node.
pub(crate) trait Value: Sized {
    /// Reads it; what can't be read is reported and left out.
    fn read(node: &Node, reading: &mut Reading) -> Option<Self>;

    /// What an author may write, for the schema and the reference.
    fn shape() -> Shape;

    /// What stands for a value that was written and is not known; nothing, where that says no more than that it is not there.
    fn unknown() -> Option<Self> {
        None
    }
}

impl<T: FromText> Value for T {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        let NodeValue::Text(text) = &node.value else {
            match lists::of_keys::<T>(node).filter(|_| reading.wants_list(node)) {
                Some(written) => reading.tell_shape_as(node, "a list", &written),
                None => match lists::as_value::<T>(node) {
                    Some(mend) => reading.tell_shape_with(node, T::EXPECTED, mend),
                    None => reading.tell_shape(node, T::EXPECTED, T::EXAMPLE),
                },
            }
            return None;
        };
        match T::from_text(text) {
            Ok(value) => {
                if let Some(cut) = node.cut.as_ref().filter(|_| T::IS_WORDS) {
                    reading.tell_cut(node, cut);
                }
                Some(value)
            }
            Err(why) => {
                reading.tell(unreadable::<T>(node.place, text, why));
                None
            }
        }
    }

    fn shape() -> Shape {
        Shape::scalar::<T>()
    }
}

fn unreadable<T: FromText>(place: Place, text: &str, why: String) -> Finding {
    let shown = wording::quoted(&shortened(text));
    if T::CHOICES.is_empty() {
        let mend = format!("write {}", T::EXPECTED);
        Finding::new(&checks::VALUE_UNREADABLE, place, format!("can't read {shown}: {why}"), mend)
    } else {
        Finding::new(&checks::UNKNOWN_WORD, place, format!("{shown} is not {}", T::EXPECTED), why)
    }
}

/// A value that was written, even where it can't be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tried<T>(pub Option<T>);

impl<T: Value> Value for Tried<T> {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        Some(Self(T::read(node, reading)))
    }

    fn unknown() -> Option<Self> {
        Some(Self(None))
    }

    fn shape() -> Shape {
        T::shape()
    }
}

impl<T: Value> Value for Placed<T> {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        T::read(node, reading).map(|value| Self::new(value, node.place))
    }

    fn shape() -> Shape {
        T::shape()
    }
}

/// A list; where it has one entry the brackets may be left out.
impl<T: Value> Value for Vec<T> {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        match &node.value {
            NodeValue::List(items) => {
                if let Some(beyond) = items.get(MOST_ITEMS) {
                    reading.tell(too_long(beyond.place));
                }
                let read = items.iter().take(MOST_ITEMS).flat_map(|item| match reading.entry_of_keys::<T>(item) {
                    Some(entries) => entries,
                    None => T::read(item, reading).into_iter().collect(),
                });
                let mut read: Vec<T> = read.collect();
                // A guide has ten thousands of such lists, and most are short: the room for a fourth item adds up.
                read.shrink_to_fit();
                Some(read)
            }
            NodeValue::Empty => {
                reading.tell_shape(node, "a list", &format!("[{}]", T::shape().example()));
                None
            }
            _ => match reading.several(node) {
                Some(several) => Some(several),
                None => T::read(node, reading).map(|only| vec![only]),
            },
        }
    }

    fn shape() -> Shape {
        Shape::List(Box::new(T::shape()))
    }
}

fn too_long(beyond: Place) -> Finding {
    let message = format!("this list has more than {MOST_ITEMS} entries; from here on they are left out");
    Finding::new(&checks::VALUE_SHAPE, beyond, message, "take out what is not needed, or spread it over several files")
}

/// A group of keys that the author chooses, in the author's order.
#[derive(Debug, Clone, PartialEq)]
pub struct Table<K, V>(pub Vec<(Placed<K>, V)>);

impl<K, V> Default for Table<K, V> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<K: FromText + Clone + Ord, V: Value> Value for Table<K, V> {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        let NodeValue::Map(entries) = &node.value else {
            match reading.with_values::<K, V>(node) {
                Some(written) => reading.tell_shape_as(node, "a group of keys", &written),
                None => reading.tell_shape(node, "a group of keys", &Self::shape().example()),
            }
            return None;
        };
        let mut table = Self::default();
        let mut seen = BTreeMap::new();
        let mut readable: Option<BTreeSet<K>> = None;
        let entries = &*comma::with_points(entries, |finding| reading.tell(finding));
        for (key, value) in entries {
            let name = match K::from_text(key) {
                Ok(name) => Placed::new(name, key.place),
                Err(why) => {
                    reading.tell(unreadable::<K>(key.place, key, why));
                    // What another key says, before or after it, is no second mistake.
                    let others = readable.get_or_insert_with(|| known_keys(entries));
                    let is_free = |meant: &K| !seen.contains_key(meant) && !others.contains(meant);
                    let Some(meant) = K::meant(key).filter(is_free) else { continue };
                    Placed::new(meant, key.place)
                }
            };
            if let Some(first) = seen.get(&name.value) {
                reading.tell(duplicate_key(key, *first));
                continue;
            }
            if let Some(value) = V::read(value, reading) {
                seen.insert(name.value.clone(), name.place);
                table.0.push((name, value));
            }
        }
        Some(table)
    }

    fn shape() -> Shape {
        Shape::Table { key: K::EXAMPLE, value: Box::new(V::shape()) }
    }
}

/// The keys of a group that can be read.
fn known_keys<K: FromText + Ord>(entries: &[(Placed<String>, Node)]) -> BTreeSet<K> {
    entries.iter().filter_map(|(key, _)| K::from_text(key).ok()).collect()
}

/// The finding for a key that stands a second time.
pub(crate) fn duplicate_key(key: &Placed<String>, first: Place) -> Finding {
    Finding::new(
        &checks::DUPLICATE_KEY,
        key.place,
        format!("{} is here a second time", wording::quoted(&shortened(key))),
        "keep one of the two",
    )
    .see(first, "the first one")
}
