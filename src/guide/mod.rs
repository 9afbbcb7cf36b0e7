//! **Resolve**: ids become references, defaults are filled in, links get their targets.
//!
//! What is left is a [`Guide`] that can't name a paint which does not exist. No input or output, no HTML.

mod anchors;
mod army;
mod asked;
mod bounds;
mod called;
mod checks;
mod cupboard;
mod first_sentence;
pub mod headings;
mod kept;
mod library;
pub mod markdown;
mod mix;
mod page;
mod paint;
mod photo;
mod prose;
pub mod raw_html;
mod resolve;
mod scheme;
mod schemes;
mod sequence;
mod step;
mod stock;
mod tool;
mod version;

use std::collections::BTreeSet;
use std::sync::Arc;

pub use army::{Army, EveningDay, Evenings, Unit};
pub use called::{Unclear, find};
pub use checks::CHECKS;
pub use cupboard::cupboard;
pub use first_sentence::first_sentence;
pub use kept::KeptGuide;
pub use mix::{Measured, Mix, MixPart, MixRow, Pot, Poured};
pub use page::Page;
pub use paint::{Bottle, Paint, Suits, Swatch};
pub use photo::Photo;
pub use prose::{Prose, Target, Thing};
pub(crate) use resolve::SPOT_PERCENT;
pub use resolve::{resolve, resolve_again};
pub use scheme::{Area, AreaShape, BarePhoto, Mesh, MeshFile, Model, Scheme, Space, Tag, Viewpoint, Zones, alike};
pub use schemes::Schemes;
pub use sequence::{Sequence, step_anchor};
pub use step::{Step, StepPlaces, Via, Waiver};
pub use stock::{Seen, Stock};
pub use tool::Tool;
pub use version::Version;

use crate::measure::{Celsius, Fraction, Humidity, Millilitres};
use crate::report::{Place, Placed};
use crate::source::WebAddress;
use crate::trade::{Paper, Stage};

/// A whole guide, every name in it known.
#[derive(Debug)]
pub struct Guide {
    /// What it is called.
    pub title: String,
    /// Who wrote it.
    pub author: String,
    /// One sentence on what it holds.
    pub summary: Option<String>,
    /// Where it will be published.
    pub address: Option<WebAddress>,
    /// The language of its texts.
    pub language: String,
    /// Where the language stands, or else the top of its file.
    pub language_place: Place,
    /// Where the theme stands, or else the top of its file.
    pub theme_place: Place,
    /// The currency of its prices, if it has prices.
    pub currency: Option<String>,
    /// The paper its printed recipes are laid out for.
    pub paper: Paper,
    /// The licence of its texts and pictures.
    pub licence: Option<String>,
    /// The theme it is shown in.
    pub theme: String,
    /// The fonts that it brings, by their paths from the content folder, each once.
    pub fonts: Vec<Placed<String>>,
    /// How much a drop is, where a paint does not say; `None`: what is usual for its kind.
    pub drop: Option<Millilitres>,
    /// The air where it is painted.
    pub room: Room,
    /// The author's own figures in place of the program's constants.
    pub bench: Vec<BenchFigure>,
    /// Whether HTML inside Markdown passes, cleaned.
    pub raw_html: bool,
    /// What the index says above the schemes.
    pub welcome: Option<Prose>,
    /// The groups of schemes, in their order on the index.
    pub groups: Vec<String>,
    /// The author's own ordering rules.
    pub house_order: Vec<HouseOrder>,
    /// All paints, in the order of their files.
    pub paints: Vec<Arc<Paint>>,
    /// All tools: the listed ones in their order, then those that only a step names.
    pub tools: Vec<Arc<Tool>>,
    /// All schemes, in the order of their slugs.
    pub schemes: Schemes,
    /// All sequences, in the order of their slugs.
    pub sequences: Vec<Sequence>,
    /// All armies.
    pub armies: Vec<Army>,
    /// All free pages.
    pub pages: Vec<Page>,
    /// The files of the content folder that something links to or shows, by their paths from that folder.
    pub linked_files: BTreeSet<String>,
}

/// The air of the room.
#[derive(Debug, Clone, Copy, PartialEq, Hash, Default)]
pub struct Room {
    /// How warm it is, if the author says.
    pub temperature: Option<Celsius>,
    /// How damp it is, if the author says.
    pub humidity: Option<Humidity>,
}

/// One of the author's own figures in place of a constant of the program.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct BenchFigure {
    /// The constant's key.
    pub key: String,
    /// The figure.
    pub value: Fraction,
    /// Where the key is in its file.
    pub place: Place,
}

/// One of the author's own ordering rules.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct HouseOrder {
    /// The stage that comes first.
    pub first: Stage,
    /// The stage that comes later.
    pub then: Stage,
    /// The reason.
    pub why: String,
}
