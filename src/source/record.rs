//! A record of known keys, defined once: the type, its reader, the nearest-key hint and the schema come from one list.

use super::node::{Node, NodeValue};
use super::quote::shortened;
use super::reading::{Reading, Value, duplicate_key};
use super::shape::{Field, Shape};
use super::{checks, comma};
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

/// The nodes behind the known keys, one slot a field.
pub(crate) struct Entries<'a> {
    slots: std::vec::IntoIter<Option<&'a Node>>,
    fields: std::slice::Iter<'static, Field>,
}

impl Entries<'_> {
    /// The value of the next field, if it is there and can be read.
    pub(crate) fn next<T: Value>(&mut self, reading: &mut Reading) -> Option<Placed<T>> {
        let field = self.fields.next()?;
        reading.of_key(self.slots.next()??, field)
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
    let slots = sorted_into_slots(&pairs, fields, T::WHAT, reading);
    for (field, slot) in fields.iter().zip(&slots) {
        if field.needed && slot.is_none() {
            reading.tell(missing_key(node, field, T::WHAT));
        }
    }
    let nodes = slots.into_iter().map(|slot| slot.map(|(_, node)| node));
    let nodes: Vec<Option<&Node>> =
        nodes.zip(fields).map(|(node, field)| node.filter(|node| is_short_enough(node, field, reading))).collect();
    Some(T::from_entries(Entries { slots: nodes.into_iter(), fields: fields.iter() }, reading))
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

/// A key and what comes after it.
type Pair<'a> = (&'a Placed<String>, &'a Node);

fn sorted_into_slots<'a>(
    pairs: &'a [(Placed<String>, Node)],
    fields: &[Field],
    what: &str,
    reading: &mut Reading,
) -> Vec<Option<Pair<'a>>> {
    let mut slots: Vec<Option<Pair<'a>>> = vec![None; fields.len()];
    for (key, node) in pairs {
        match fields.iter().position(|field| field.key == key.value) {
            None => reading.tell(unknown_key(key, fields, what)),
            Some(at) => match slots[at] {
                Some((first, _)) => reading.tell(duplicate_key(key, first.place)),
                None => slots[at] = Some((key, node)),
            },
        }
    }
    slots
}

fn unknown_key(key: &Placed<String>, fields: &[Field], what: &str) -> Finding {
    let names: Vec<&str> = fields.iter().map(|field| field.key.as_str()).collect();
    let mend = match wording::nearest(key, names.iter().copied()) {
        _ if key.value == "<<" => "write its keys out here: no group takes over those of another".to_owned(),
        Some(near) => format!("did you mean '{near}'?"),
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
