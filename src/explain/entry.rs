//! One word with its explanation.

use std::borrow::Cow;

use crate::trade::choice;

choice! {
    /// What sort of word it is.
    Topic, "a topic" {
        /// The files of a guide, and where each is put.
        File = "files",
        /// Keys that an author writes at the top of a file.
        Key = "keys",
        /// What `check` looks for.
        Check = "checks",
        /// What a step does to the model.
        Stage = "stages",
        /// What puts the paint on.
        Technique = "techniques",
        /// Where on an area a step puts paint.
        Where = "where",
        /// From where a coat comes.
        From = "from",
        /// What a product is for.
        Kind = "kinds",
        /// What carries a paint.
        Family = "families",
        /// How well a coat covers, and how it shines.
        Finish = "finishes",
        /// What a model is, as far as its surface follows from it.
        Model = "models",
        /// What models are made of, as the words of an author are understood.
        Material = "materials",
        /// What a thing on the desk is there for.
        Tool = "tools",
        /// How much a scheme asks of the painter.
        Level = "levels",
        /// What can hurt somebody at a step.
        Caution = "cautions",
        /// The figures that a guide can replace under `bench`.
        Bench = "bench",
        /// The fields of the commands' JSON.
        Field = "json",
    }
}

impl Topic {
    /// What one word of it is, as in "a stage".
    pub const fn one(self) -> &'static str {
        match self {
            Self::File => "a file",
            Self::Key => "a key",
            Self::Check => "a check",
            Self::Stage => "a stage",
            Self::Technique => "a technique",
            Self::Where => "a place on the area",
            Self::From => "a side that a coat comes from",
            Self::Kind => "a kind of product",
            Self::Family => "a family of paint",
            Self::Finish => "a finish",
            Self::Model => "a kind of model",
            Self::Material => "a material",
            Self::Tool => "a kind of tool",
            Self::Level => "a level",
            Self::Bench => "a bench figure",
            Self::Caution => "a caution",
            Self::Field => "a JSON field",
        }
    }
}

/// One word with its explanation.
#[derive(Debug, Clone)]
pub struct Entry {
    /// The word as it is written.
    pub word: String,
    /// What sort of word it is.
    pub topic: Topic,
    /// What it belongs to, where the same word means several things: a file, a command.
    pub of: Option<&'static str>,
    /// What it means, in a sentence or two.
    pub about: Cow<'static, str>,
    /// What else is known of it, each with its name: an example, a default, why it matters.
    pub more: Vec<(&'static str, String)>,
}

impl Entry {
    /// A word without anything more.
    pub(super) fn new(topic: Topic, word: impl Into<String>, about: impl Into<Cow<'static, str>>) -> Self {
        Self { word: word.into(), topic, of: None, about: about.into(), more: Vec::new() }
    }

    /// The word without the way to it: `recoat` of `paints.<id>.recoat`.
    pub(super) fn last(&self) -> &str {
        self.word.rsplit('.').next().unwrap_or(&self.word).trim_end_matches("[]")
    }
}
