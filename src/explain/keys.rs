//! The keys of all files, with those inside their values.

use crate::source::{Field, SchemaOf, Shape};

/// The files that have keys, each with the name by which the reference calls it.
const FILES: &[(&str, SchemaOf)] = &[
    ("guide.yaml", SchemaOf::Guide),
    ("paints/*.yaml", SchemaOf::Paints),
    ("tools.yaml", SchemaOf::Tools),
    ("scheme.md", SchemaOf::Scheme),
    ("a step", SchemaOf::Step),
    ("sequence.md", SchemaOf::Sequence),
    ("a step that is a sequence", SchemaOf::Use),
    ("armies/*.yaml", SchemaOf::Army),
    ("a free page", SchemaOf::Page),
];

/// One key of one file.
#[derive(Debug, Clone)]
pub struct KeyOf {
    /// The file it is in.
    pub file: &'static str,
    /// The way to it, as in `paints.<id>.recoat` or `house-order[].first`.
    pub path: String,
    /// Whether it must be there.
    pub needed: bool,
    /// What it says.
    pub about: &'static str,
    /// The words to choose from, where it is a closed list.
    pub choices: &'static [&'static str],
    /// An example of its value.
    pub example: String,
}

/// Every key of every file, in the order of the files.
pub fn keys() -> Vec<KeyOf> {
    let mut all = Vec::new();
    for (file, of) in FILES {
        gather(&mut all, file, "", of.keys());
    }
    all
}

fn gather(all: &mut Vec<KeyOf>, file: &'static str, before: &str, fields: &[Field]) {
    for field in fields {
        let path = format!("{before}{}", field.key);
        let choices = match choices(&field.shape) {
            ["true", "false"] => &[],
            words => words,
        };
        all.push(KeyOf {
            file,
            path: path.clone(),
            needed: field.needed,
            about: field.about,
            choices,
            example: field.example.clone(),
        });
        if let Some((below, inner)) = inner(&field.shape) {
            gather(all, file, &format!("{path}{below}."), inner);
        }
    }
}

fn choices(shape: &Shape) -> &'static [&'static str] {
    match shape {
        Shape::Scalar { choices, .. } => choices,
        Shape::List(item) => choices(item),
        _ => &[],
    }
}

/// The keys inside a value, and how the way to them is written.
fn inner(shape: &Shape) -> Option<(&'static str, &'static [Field])> {
    match shape {
        Shape::Record(fields) => Some(("", fields())),
        Shape::List(item) => inner(item).map(|(_, fields)| ("[]", fields)),
        Shape::Table { value, .. } => inner(value).map(|(_, fields)| (".<id>", fields)),
        Shape::Either(short, long) => inner(long).or_else(|| inner(short)),
        Shape::Scalar { .. } => None,
    }
}
