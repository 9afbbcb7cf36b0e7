//! Lists that are written as something else: as one text with commas, or as a group of keys. Each is reported with the list that
//! is meant, and read on as that.

use std::borrow::Cow;

use super::checks;
use super::node::{Node, NodeValue};
use super::quote::{as_entry, in_quotes};
use super::shape::Shape;
use crate::measure::FromText;
use crate::report::{Finding, Level, Placed, wording};

/// The key whose entries are words of the author's, and never hold a comma.
const TAGS: &str = "tags";

/// The longest list that is written out in a mend, in characters.
const SHOWN: usize = 90;

/// A text with commas where a list is expected: `tools: round-brush, old-brush`; its entries, and what is said of it. Where the
/// whole text is a value, as a sentence is, its commas are its own. `read` reads one entry, if that can be read. Where words of
/// tags were cut off, it says too what is to be written with them.
pub(super) fn at_commas<T>(
    node: &Node,
    key: Option<&str>,
    read: impl Fn(&Node) -> Option<T>,
) -> Option<(Vec<T>, Finding, Option<String>)> {
    let text = node.text()?;
    let pieces = pieces(text);
    let read = |piece: &str| read(&Node::new(node.place, NodeValue::Text(piece.to_owned())));
    let are_tags = key == Some(TAGS);
    if pieces.len() < 2 || (!are_tags && read(text).is_some()) {
        return None;
    }
    let items: Vec<T> = pieces.iter().map(|piece| read(piece)).collect::<Option<_>>()?;
    let message = "expected a list, found one text with commas in it";
    let cut = node.cut.as_ref().filter(|_| are_tags);
    let entries = cut.map_or(pieces, |cut| self::pieces(&cut.whole)).into_iter().map(as_entry);
    let written = format!("write [{}]", entries.collect::<Vec<_>>().join(", "));
    let finding = Finding::new(&checks::VALUE_SHAPE, node.place, message, written.as_str());
    // The words of a tag can be used as they are.
    Some((items, if are_tags { finding.at(Level::Warning) } else { finding }, cut.map(|_| written)))
}

/// A text at its commas and semicolons, without those between two digits.
fn pieces(text: &str) -> Vec<&str> {
    let is_digit = |sign: Option<char>| sign.is_some_and(|sign| sign.is_ascii_digit());
    let is_decimal = |at: usize| is_digit(text[..at].chars().next_back()) && is_digit(text[at + 1..].chars().next());
    let mut start = 0;
    let mut pieces = Vec::new();
    for (at, sign) in text.match_indices([',', ';']).filter(|(at, sign)| *sign == ";" || !is_decimal(*at)) {
        pieces.push(&text[start..at]);
        start = at + sign.len();
    }
    pieces.push(&text[start..]);
    pieces.into_iter().map(str::trim).filter(|piece| !piece.is_empty()).collect()
}

/// A group of keys where a list of groups is expected: `units: {first-figure: 5}`, in which each key is the first value of an
/// entry; its entries, and what is to be written.
pub(super) fn of_entries<T>(node: &Node, shape: &Shape, read: impl Fn(&Node) -> Option<T>) -> Option<(Vec<T>, String)> {
    let NodeValue::Map(pairs) = &node.value else { return None };
    let fields = shape.fields();
    // A key that is merely misspelt is told as one.
    let names = || fields.iter().map(|field| field.key.as_str());
    let is_known = |key: &str| names().any(|name| name == key) || wording::nearest(key, names()).is_some();
    // One pair of an entry that has a short form is told by that itself.
    let is_entry = matches!(shape, Shape::Either(..)) && pairs.len() == 1;
    let are_texts = pairs.iter().all(|(key, value)| !is_known(key) && matches!(value.value, NodeValue::Text(_)));
    if pairs.is_empty() || is_entry || !are_texts {
        return None;
    }
    let first = fields.iter().position(|field| field.needed)?;
    let rest = fields.get(first + 1..)?;
    let second = rest.iter().find(|field| field.needed).or_else(|| rest.first())?;
    let first = fields.get(first)?;
    let entry = |(key, value): &(Placed<String>, Node)| {
        let name = Node::new(key.place, NodeValue::Text(key.value.clone()));
        let keyed = |field: &str, node: Node| (Placed::new(field.to_owned(), node.place), node);
        let group = NodeValue::Map(vec![keyed(&first.key, name), keyed(&second.key, value.clone())]);
        read(&Node::new(key.place, group))
    };
    let items: Vec<T> = pairs.iter().map(entry).collect::<Option<_>>()?;
    let written = |(key, value): &(Placed<String>, Node)| {
        format!("{{{}: {}, {}: {}}}", first.key, key.value, second.key, value.text().map_or("", String::as_str))
    };
    let entries: Vec<String> = pairs.iter().map(written).collect();
    let whole = format!("[{}]", entries.join(", "));
    if whole.chars().count() <= SHOWN {
        return Some((items, whole));
    }
    let one = entries.first().map_or("", String::as_str);
    Some((items, format!("an entry for each, such as '- {one}'")))
}

/// The keys of a group as a list, where each could be an entry of it.
pub(super) fn of_keys<T: FromText>(node: &Node) -> Option<String> {
    let NodeValue::Map(pairs) = &node.value else { return None };
    let are_entries = !pairs.is_empty() && pairs.iter().all(|(key, _)| T::from_text(key).is_ok()) && !T::IS_WORDS;
    let keys: Vec<&str> = pairs.iter().map(|(key, _)| key.value.as_str()).collect();
    are_entries.then(|| format!("[{}]", keys.join(", ")))
}

/// The mend for a list or a group where one value is expected, by what stands in it: each of those could be the value.
pub(super) fn as_value<T: FromText>(node: &Node) -> Option<String> {
    let mut texts = Vec::new();
    gather::<T>(node, &mut texts)?;
    let texts: Vec<&str> = texts.iter().map(AsRef::as_ref).collect();
    if !texts.iter().all(|text| T::from_text(text).is_ok()) {
        return None;
    }
    match texts.as_slice() {
        [] => None,
        [one] => Some(format!("write {}", as_entry(one))),
        several if T::IS_WORDS => Some(format!("write {}", in_quotes(&several.join(", ")))),
        several if several.len() <= MOST_TO_CHOOSE => Some(format!("write one of them: {}", wording::either(several))),
        _ => None,
    }
}

/// The most values that an author is asked to choose from.
const MOST_TO_CHOOSE: usize = 6;

/// The languages by which an author may mean to tell texts apart, as in `title: {en: Green coat}`: those of the interface.
const LANGUAGES: [&str; 4] = ["de", "en", "es", "fr"];

/// The texts of a list and of lists in it. Where any words will do, a group of one key is a text with a colon in it, of which no
/// word may be lost, and a mark of YAML cuts nothing off. None where something else is among them.
fn gather<'a, T: FromText>(node: &'a Node, texts: &mut Vec<Cow<'a, str>>) -> Option<()> {
    match &node.value {
        NodeValue::Text(text) => {
            let whole = node.cut.as_ref().filter(|_| T::IS_WORDS).map_or(text.as_str(), |cut| &cut.whole);
            texts.push(Cow::Borrowed(whole));
        }
        NodeValue::List(items) => {
            for item in items {
                gather::<T>(item, texts)?;
            }
        }
        NodeValue::Map(pairs) => match pairs.as_slice() {
            [(key, only)] if T::IS_WORDS && LANGUAGES.contains(&key.value.as_str()) => gather::<T>(only, texts)?,
            [(key, only)] if T::IS_WORDS && !matches!(only.value, NodeValue::List(_)) => {
                let mut behind = Vec::new();
                gather::<T>(only, &mut behind)?;
                texts.push(Cow::Owned(format!("{}: {}", key.value, behind.concat())));
            }
            _ => return None,
        },
        NodeValue::Empty => return None,
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Files;

    /// The mend for a value of words that is written so.
    fn mend_of_words(yaml: &str) -> Option<String> {
        let node = super::super::yaml::parse(yaml, Files::default().add("content/a", yaml), 0).unwrap();
        as_value::<String>(&node)
    }

    #[test]
    fn no_word_before_a_colon_is_lost() {
        for (yaml, mend) in [
            (
                "Never without a mask: the vapour is heavy\n",
                Some("write \"Never without a mask: the vapour is heavy\""),
            ),
            ("gloves: 5\n", Some("write \"gloves: 5\"")),
            ("no: open flame\n", Some("write \"no: open flame\"")),
            ("Keep: \"the \\\"fan\\\" on\"\n", Some("write 'Keep: the \"fan\" on'")),
            ("{en: Green coat}\n", Some("write Green coat")),
            ("[a, b]\n", Some("write \"a, b\"")),
            ("Gloves: [a, b]\n", None),
            ("a: b\nc: d\n", None),
            ("Gloves:\n", None),
        ] {
            assert_eq!(mend_of_words(yaml).as_deref(), mend, "{yaml}");
        }
    }

    #[test]
    fn a_decimal_comma_divides_nothing() {
        assert_eq!(pieces("1,5 mm, brush;old,new"), ["1,5 mm", "brush", "old", "new"]);
    }
}
