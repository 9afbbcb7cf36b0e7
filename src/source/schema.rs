//! JSON Schema of the guide's files, for editors that help while one writes.

use serde_json::{Value as Json, json};

use super::file::{
    ArmyFile, GuideFile, PageFile, PaintsFile, SchemeFile, SequenceFile, SequenceUse, StepFile, ToolsFile,
};
use super::record::Record;
use super::shape::{Field, Shape};

/// The files that have a schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SchemaOf {
    /// `guide.yaml`.
    Guide,
    /// `paints/*.yaml`.
    Paints,
    /// `tools.yaml`.
    Tools,
    /// The front matter of `scheme.md`.
    Scheme,
    /// The front matter of a step.
    Step,
    /// The front matter of `sequence.md`.
    Sequence,
    /// The front matter of a file that stands for a sequence among the steps of a scheme.
    Use,
    /// `armies/*.yaml`.
    Army,
    /// The front matter of a free page.
    Page,
}

impl SchemaOf {
    fn fields(self) -> fn() -> &'static [Field] {
        match self {
            Self::Guide => GuideFile::fields,
            Self::Paints => PaintsFile::fields,
            Self::Tools => ToolsFile::fields,
            Self::Scheme => SchemeFile::fields,
            Self::Step => StepFile::fields,
            Self::Sequence => SequenceFile::fields,
            Self::Use => SequenceUse::fields,
            Self::Army => ArmyFile::fields,
            Self::Page => PageFile::fields,
        }
    }

    /// The known keys of the file.
    pub fn keys(self) -> &'static [Field] {
        self.fields()()
    }
}

/// The schema of one kind of file (JSON Schema, draft 2020-12).
pub fn schema(of: SchemaOf) -> Json {
    let mut schema = Shape::Record(of.fields()).json_schema();
    if let Json::Object(entries) = &mut schema {
        entries.insert("$schema".to_owned(), json!("https://json-schema.org/draft/2020-12/schema"));
    }
    schema
}
