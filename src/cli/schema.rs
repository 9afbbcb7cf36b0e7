//! `maulstick schema`: JSON Schema of the guide's files.

use serde_json::json;

use super::FINE;
use super::arguments::FileKind;
use super::terminal::Stream;
use crate::bench::Bench;
use crate::source::{SchemaOf, schema};

/// Prints the schema of one kind of file.
pub(super) fn run(kind: FileKind) -> u8 {
    let of = match kind {
        FileKind::Guide => SchemaOf::Guide,
        FileKind::Paints => SchemaOf::Paints,
        FileKind::Tools => SchemaOf::Tools,
        FileKind::Scheme => SchemaOf::Scheme,
        FileKind::Step => SchemaOf::Step,
        FileKind::Sequence => SchemaOf::Sequence,
        FileKind::Army => SchemaOf::Army,
        FileKind::Page => SchemaOf::Page,
    };
    let mut schema = schema(of);
    if kind == FileKind::Guide {
        schema["properties"]["bench"]["propertyNames"] = json!({ "enum": Bench::keys().collect::<Vec<_>>() });
    }
    if kind == FileKind::Step {
        // Among the steps of a scheme both may stand.
        schema =
            json!({ "if": { "required": ["sequence"] }, "then": crate::source::schema(SchemaOf::Use), "else": schema });
    }
    Stream::Out.write(&format!("{schema:#}\n"));
    FINE
}
