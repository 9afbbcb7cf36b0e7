//! A record of known keys, defined once: the type, its reader, the nearest-key hint and the schema come from one list.

use super::key_words::key_called;
use super::node::{Node, NodeValue};
use super::quote::shortened;
use super::reading::{Reading, Value, duplicate_key};
use super::shape::{Field, Shape};
use super::{checks, comma};
use crate::measure::FromText;
use crate::report::{Finding, Placed, wording};

/// Defines a record. Each field is `needed` or `optional`, may be followed by an example, and reads into
/// `Option<Placed<…>>`, because reading always returns something.
macro_rules! record {
    (
        $(#[doc = $record_doc:literal])+
        $vis:vis $name:ident, $what:literal {
            $($(#[doc = $about:literal])+ $necessity:ident $field:ident: $type:ty $(= $example:literal)?,)+
        }
    ) => {
        $(#[doc = $record_doc])+
        #[derive(Debug, Clone, Default)]
        $vis struct $name {
            $($(#[doc = $about])+ $vis $field: Option<$crate::report::Placed<$type>>,)+
        }

        impl $crate::source::record::Record for $name {
            const WHAT: &'static str = $what;

            fn fields() -> &'static [$crate::source::shape::Field] {
                static FIELDS: std::sync::OnceLock<Vec<$crate::source::shape::Field>> = std::sync::OnceLock::new();
                FIELDS.get_or_init(|| vec![$({
                    let shape = <$type as $crate::source::reading::Value>::shape();
                    let examples: &[&str] = &[$($example)?];
                    $crate::source::shape::Field {
                        key: $crate::source::record::key_of(stringify!($field)),
                        needed: $crate::source::record::is_needed(stringify!($necessity)),
                        about: concat!($($about),+).trim_ascii(),
                        example: examples.first().map_or_else(|| shape.example(), |text| (*text).to_owned()),
                        shape,
                    }
                },)+])
            }

            fn from_entries(
                mut entries: $crate::source::record::Entries<'_>,
                reading: &mut $crate::source::reading::Reading,
            ) -> Self {
                Self { $($field: entries.next(reading),)+ }
            }
        }

        impl $crate::source::reading::Value for $name {
            fn read(
                node: &$crate::source::node::Node,
                reading: &mut $crate::source::reading::Reading,
            ) -> Option<Self> {
                $crate::source::record::read(node, reading)
            }

            fn shape() -> $crate::source::shape::Shape {
                $crate::source::shape::Shape::Record(<Self as $crate::source::record::Record>::fields)
            }
        }
    };
}
pub(crate) use record;

/// What the macro defines for each record.
pub(crate) trait Record: Sized {
    /// What the record is, with its article, as in `a step`.
    const WHAT: &'static str;

    /// Its known keys.
    fn fields() -> &'static [Field];

    /// Takes the values of the known keys, in the order of [`Self::fields`].
    fn from_entries(entries: Entries<'_>, reading: &mut Reading) -> Self;
}

/// What stands behind a known key, or behind one that is most likely meant for it, which is reported.
#[derive(Clone, Copy)]
pub(crate) struct Slot<'a> {
    key: &'a Placed<String>,
    node: &'a Node,
    meant: Meant,
}

/// How sure it is that a key is meant.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Meant {
    /// It stands there.
    Written,
    /// It is one slip of the pen away: what is behind it is read.
    Nearly,
    /// It may be: it is not missed, and what is behind it is anybody's guess.
    Perhaps,
}

/// The nodes behind the known keys, one slot a field.
pub(crate) struct Entries<'a> {
    slots: std::vec::IntoIter<Option<Slot<'a>>>,
    fields: std::slice::Iter<'static, Field>,
}

impl Entries<'_> {
    /// The value of the next field, if it is there and can be read.
    pub(crate) fn next<T: Value>(&mut self, reading: &mut Reading) -> Option<Placed<T>> {
        let field = self.fields.next()?;
        let Slot { node, meant, .. } = self.slots.next()??;
        // Of what is only guessed to be meant, nothing is held against the author.
        match meant {
            Meant::Written => reading.of_key(node, field),
            Meant::Nearly => reading.in_silence(|reading| reading.of_key(node, field)),
            Meant::Perhaps => T::unknown().map(|value| Placed::new(value, node.place)),
        }
    }
}

/// The key as an author writes it, from the name of the field in Rust.
pub(crate) fn key_of(field: &str) -> String {
    field.trim_start_matches("r#").replace('_', "-")
}

/// Whether the macro's word says that the key must be there.
pub(crate) fn is_needed(necessity: &str) -> bool {
    necessity == "needed"
}

/// Keys whose text is a name: it is shown in lists, in running heads and on chips.
const NAMES: [&str; 5] = ["title", "name", "maker", "range", "author"];

/// The most letters of a name.
const LONGEST_NAME: usize = 200;

/// Reads a record: unknown, doubled and missing keys are reported, the rest is read.
pub(crate) fn read<T: Record>(node: &Node, reading: &mut Reading) -> Option<T> {
    let fields = T::fields();
    let pairs: &[(Placed<String>, Node)] = match &node.value {
        NodeValue::Map(pairs) => pairs,
        NodeValue::Empty => &[],
        _ => {
            reading.tell_shape(node, T::WHAT, &Shape::Record(T::fields).example());
            return None;
        }
    };
    let pairs = comma::with_points(pairs, |finding| reading.tell(finding));
    let is_text = |key: &str| {
        let field = fields.iter().find(|field| field.key == key);
        field.is_some_and(|field| matches!(field.shape, Shape::Scalar { expected: String::EXPECTED, .. }))
    };
    let is_key = |key: &str| {
        let names = || fields.iter().map(|field| field.key.as_str());
        let is_plain = !key.contains(|sign: char| sign == ' ' || sign.is_uppercase());
        // A colon may have been forgotten, as in `kind paint`.
        let first = key.split(' ').next().unwrap_or_default().to_lowercase();
        names().any(|name| name == first) || is_plain && wording::nearest(key, names()).is_some()
    };
    let pairs = comma::with_texts(pairs, is_text, is_key, |finding| reading.tell(finding));
    let slots = sorted_into_slots(&pairs, fields, T::WHAT, reading);
    for (field, slot) in fields.iter().zip(&slots) {
        match slot {
            None if field.needed => reading.tell(missing_key(node, field, T::WHAT)),
            Some(Slot { node, meant: Meant::Written, .. }) if field.needed && is_empty_list(node, field) => {
                let message = format!("{} needs '{}', and there is nothing in this list", T::WHAT, field.key);
                let mend = format!("write what belongs into it, as in '{}: {}'", field.key, field.example);
                reading.tell(Finding::new(&checks::MISSING_KEY, node.place, message, mend));
            }
            _ => {}
        }
    }
    let slots: Vec<Option<Slot<'_>>> = slots
        .into_iter()
        .zip(fields)
        .map(|(slot, field)| slot.filter(|slot| is_short_enough(slot.node, field, reading)))
        .collect();
    Some(T::from_entries(Entries { slots: slots.into_iter(), fields: fields.iter() }, reading))
}

fn is_empty_list(node: &Node, field: &Field) -> bool {
    matches!(field.shape, Shape::List(_)) && matches!(&node.value, NodeValue::List(items) if items.is_empty())
}

/// Whether a name can be shown where names are shown; one that is too long is reported and left out.
fn is_short_enough(node: &Node, field: &Field, reading: &mut Reading) -> bool {
    let NodeValue::Text(text) = &node.value else { return true };
    if !NAMES.contains(&field.key.as_str()) || text.chars().nth(LONGEST_NAME).is_none() {
        return true;
    }
    let message = format!("'{}' is longer than {LONGEST_NAME} letters", field.key);
    let mend =
        format!("shorten it, as in '{}: {}', and write the rest in the text of the file", field.key, field.example);
    reading.tell(Finding::new(&checks::VALUE_UNREADABLE, node.place, message, mend));
    false
}

/// The known keys with what stands behind each. A key that is not known is reported, and where it is most likely meant for one
/// that is not here, it is no second mistake that this one is missing; at one slip of the pen, what is behind it is read.
fn sorted_into_slots<'a>(
    pairs: &'a [(Placed<String>, Node)],
    fields: &[Field],
    what: &str,
    reading: &mut Reading,
) -> Vec<Option<Slot<'a>>> {
    let mut slots: Vec<Option<Slot<'a>>> = vec![None; fields.len()];
    let mut unknown = Vec::new();
    for (key, node) in pairs {
        match fields.iter().position(|field| field.key == key.value) {
            None => unknown.push((key, node)),
            Some(at) => match slots[at] {
                Some(first) => reading.tell(duplicate_key(key, first.key.place)),
                None => slots[at] = Some(Slot { key, node, meant: Meant::Written }),
            },
        }
    }
    let alone = unknown.len() == 1;
    for (key, node) in unknown {
        let names = fields.iter().map(|field| field.key.as_str());
        let place_of = |near: &str| fields.iter().position(|field| field.key == near);
        let near = key_called(key).and_then(place_of).or_else(|| wording::nearest(key, names).and_then(place_of));
        let instead =
            near.or_else(|| only_missing(node, fields, &slots).filter(|_| alone && !BESIDE.contains(&key.as_str())));
        reading.tell(unknown_key(key, fields, what, instead.map(|at| (fields[at].key.as_str(), near.is_some()))));
        if let Some((slot, field)) = instead.and_then(|at| slots.get_mut(at).zip(fields.get(at))) {
            let meant = if near.is_some() && is_nearly(key, field) { Meant::Nearly } else { Meant::Perhaps };
            slot.get_or_insert(Slot { key, node, meant });
        }
    }
    slots
}

/// Keys that need not be there, of which much would be told if what is behind a misspelt one were left out.
const MISSED: [&str; 5] = ["areas", "paints", "parts", "safety", "share"];

/// Whether a key that is not known is one slip of the pen away from one that is missed.
fn is_nearly(key: &str, field: &Field) -> bool {
    let is_missed = field.needed || MISSED.contains(&field.key.as_str());
    is_missed && strsim::osa_distance(&key.to_lowercase().replace(['_', ' '], "-"), &field.key) <= 1
}

/// Keys under which authors write something beside what is asked for.
const BESIDE: [&str; 2] = ["note", "title"];

/// The most keys of a group in which the one that is missing is meant by whatever stands there in its place.
const FEW_KEYS: usize = 6;

/// The one needed key of a small group that is not there, where an id stands in its place.
fn only_missing(node: &Node, fields: &[Field], slots: &[Option<Slot<'_>>]) -> Option<usize> {
    let mut missing = fields.iter().zip(slots).enumerate().filter(|(_, (field, slot))| field.needed && slot.is_none());
    let (at, _) = missing.next()?;
    let is_id =
        |text: &String| text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
    (missing.next().is_none() && node.text().is_some_and(is_id) && fields.len() <= FEW_KEYS).then_some(at)
}

/// The finding for a key that is not known; with it goes the one that is most likely meant, and whether that is spelt much alike.
fn unknown_key(key: &Placed<String>, fields: &[Field], what: &str, meant: Option<(&str, bool)>) -> Finding {
    let names: Vec<&str> = fields.iter().map(|field| field.key.as_str()).collect();
    let mend = match meant {
        _ if key.value == "<<" => "write its keys out here: no group takes over those of another".to_owned(),
        Some((near, true)) => format!("did you mean '{near}'?"),
        Some((missing, false)) => format!("write '{missing}' in its place"),
        None => format!("{what} knows {}", wording::listed(&names)),
    };
    let message = format!("{} is not a key of {what}", wording::quoted(&shortened(key)));
    Finding::new(&checks::UNKNOWN_KEY, key.place, message, mend)
}

fn missing_key(node: &Node, field: &Field, what: &str) -> Finding {
    Finding::new(
        &checks::MISSING_KEY,
        node.place,
        format!("{what} needs '{}', and it is not here", field.key),
        format!("add a line such as '{}: {}'", field.key, field.example),
    )
}
