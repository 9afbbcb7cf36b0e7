//! What an author may write at a place: the description from which the schema for editors and the reference are made.

use serde_json::{Map, Value as Json, json};

use crate::measure::FromText;

/// The shape of a value.
#[derive(Debug, Clone)]
pub enum Shape {
    /// One scalar.
    Scalar {
        /// What to write, in words.
        expected: &'static str,
        /// An example.
        example: &'static str,
        /// The words to choose from, where it is a closed list.
        choices: &'static [&'static str],
    },
    /// A list.
    List(Box<Self>),
    /// A group of keys that the author chooses.
    Table {
        /// An example of a key.
        key: &'static str,
        /// What comes after each key.
        value: Box<Self>,
    },
    /// A group of known keys.
    Record(fn() -> &'static [Field]),
    /// A short and a long form.
    Either(Box<Self>, Box<Self>),
}

/// One known key.
#[derive(Debug, Clone)]
pub struct Field {
    /// The key as the author writes it.
    pub key: String,
    /// Whether it must be there.
    pub needed: bool,
    /// What it says, in a sentence or two.
    pub about: &'static str,
    /// An example of its value.
    pub example: String,
    /// What may be after it.
    pub shape: Shape,
}

impl Shape {
    /// The shape of what reads itself from one scalar.
    pub(crate) fn scalar<T: FromText>() -> Self {
        Self::Scalar { expected: T::EXPECTED, example: T::EXAMPLE, choices: T::CHOICES }
    }

    /// The short form, where there are a short and a long one.
    pub(crate) fn short(self) -> Self {
        match self {
            Self::Either(short, _) => *short,
            one => one,
        }
    }

    /// The known keys of one entry, if it can be a group of them.
    pub(crate) fn fields(&self) -> &'static [Field] {
        match self {
            Self::Record(fields) => fields(),
            Self::Either(one, other) => {
                [one, other].into_iter().map(|form| form.fields()).find(|fields| !fields.is_empty()).unwrap_or_default()
            }
            _ => &[],
        }
    }

    /// An example in YAML's flow style.
    pub fn example(&self) -> String {
        match self {
            Self::Scalar { example, .. } => (*example).to_owned(),
            Self::List(item) => format!("[{}]", item.example()),
            Self::Table { key, value } => format!("{{{key}: {}}}", value.example()),
            Self::Record(fields) => {
                let all_optional = fields().iter().all(|field| !field.needed);
                let needed = fields().iter().filter(|field| field.needed || all_optional);
                let pairs: Vec<String> = needed.map(|field| format!("{}: {}", field.key, field.example)).collect();
                format!("{{{}}}", pairs.join(", "))
            }
            Self::Either(short, _) => short.example(),
        }
    }

    /// As JSON Schema (draft 2020-12).
    pub fn json_schema(&self) -> Json {
        match self {
            Self::Scalar { expected, choices: [], .. } => {
                json!({ "type": ["string", "number", "boolean"], "description": expected })
            }
            Self::Scalar { expected, choices, .. } => json!({ "enum": choices, "description": expected }),
            Self::List(item) => {
                let one = item.json_schema();
                json!({ "anyOf": [{ "type": "array", "items": one.clone() }, one] })
            }
            Self::Table { value, .. } => json!({ "type": "object", "additionalProperties": value.json_schema() }),
            Self::Record(fields) => record_schema(fields()),
            Self::Either(short, long) => json!({ "anyOf": [short.json_schema(), long.json_schema()] }),
        }
    }
}

fn record_schema(fields: &[Field]) -> Json {
    let mut properties = Map::new();
    for field in fields {
        let mut schema = field.shape.json_schema();
        if let Json::Object(entries) = &mut schema {
            entries.insert("description".to_owned(), json!(field.about));
            entries.insert("examples".to_owned(), json!([field.example]));
        }
        properties.insert(field.key.clone(), schema);
    }
    let needed: Vec<&str> = fields.iter().filter(|field| field.needed).map(|field| field.key.as_str()).collect();
    json!({ "type": "object", "additionalProperties": false, "properties": properties, "required": needed })
}
