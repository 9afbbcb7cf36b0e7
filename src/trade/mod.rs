//! The trade's own words: stages, techniques, kinds of paint. Each is a closed list that an author chooses from.

mod direction;
mod family;
mod finish;
mod kind;
mod level;
mod model_kind;
mod paper;
mod pigments;
mod reach;
mod stage;
mod technique;
mod tool_kind;
mod viewpoint;
mod words;

pub use direction::Direction;
pub use family::Family;
pub use finish::{Hiding, Sheen};
pub use kind::Kind;
pub use level::Skill;
pub use model_kind::ModelKind;
pub use paper::Paper;
pub use pigments::PIGMENTS;
pub use reach::{Reach, Zone};
pub use stage::Stage;
pub use technique::Technique;
pub use tool_kind::ToolKind;
pub use viewpoint::{Side, Up};
pub use words::{
    Material, Materials, Planting, Preparing, ToolWord, Working, glue_sort, grass_in, is_instant_glue, may_scrape,
    meanings, meant, names_clear_part, names_mirror, names_mist, names_overbrush, names_powder, only_bends,
    only_washes, plantings, preparing, speaks_of_grass, sprays_from_a_can, tool_words, tools_in_sentences,
    tools_used_in_sentences, working, working_beside_paint,
};

/// A closed list of words: defines the type, its names, and how it is read and shown.
macro_rules! choice {
    ($(#[$doc:meta])* $name:ident, $what:literal { $($(#[doc = $about:literal])+ $item:ident = $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[doc = $about])+ $item,)+ }

        impl $name {
            /// All of them, in the order of the trade.
            pub const ALL: &[Self] = &[$(Self::$item,)+];

            /// The names of all of them.
            pub const NAMES: &[&str] = &[$($word,)+];

            /// The word that an author writes.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$item => $word,)+ }
            }

            /// What the word means, in a sentence.
            pub const fn about(self) -> &'static str {
                match self { $(Self::$item => concat!($($about),+).trim_ascii(),)+ }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.name())
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.name())
            }
        }

        impl $crate::measure::FromText for $name {
            const EXPECTED: &'static str = $what;
            const EXAMPLE: &'static str = Self::NAMES[0];
            const CHOICES: &'static [&'static str] = Self::NAMES;

            fn from_text(text: &str) -> Result<Self, String> {
                Self::NAMES
                    .iter()
                    .position(|name| *name == text.trim())
                    .map(|at| Self::ALL[at])
                    .ok_or_else(|| {
                        let meant = $crate::trade::meant($what, text).map(ToOwned::to_owned);
                        meant.unwrap_or_else(|| $crate::report::wording::did_you_mean(text.trim(), $what, Self::NAMES))
                    })
            }
        }
    };
}
pub(crate) use choice;
