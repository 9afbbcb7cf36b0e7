//! `schemes/<slug>/scheme.md`: what is painted, and its areas.

use super::super::node::Node;
use super::super::reading::{Reading, Table, Tried, Value};
use super::super::shape::Shape;
use super::step_file::PotEntry;
use crate::measure::{BaseSize, Date, Number, Scale, Share, SquareCentimetres};
use crate::report::Placed;
use crate::source::node::NodeValue;
use crate::source::record::record;
use crate::source::scalar::{Flag, Id, Mention, WebAddress};
use crate::trade::{ModelKind, Skill};

record! {
    /// One scheme.
    pub SchemeFile, "a scheme" {
        /// What the scheme is called.
        needed title: String = "Fen warden, amber shell",
        /// One sentence on how it looks.
        optional summary: String = "A lacquered beetle shell over pale gold.",
        /// What is painted.
        optional model: ModelEntry,
        /// The parts of the model that steps name; their shares add up to 100 %.
        needed areas: Table<Id, AreaEntry> = "{shell: 60%, cloth: 40%}",
        /// Mixes that are made once and used in several steps, by the ids under which steps use them.
        optional pots: Table<Id, PotEntry> = "{lantern-brown: {paints: [{use: bog-iron, parts: 2}, {use: mere-thinner, parts: 1}]}}",
        /// Other versions of the scheme, such as the same in other colours, each with what differs.
        optional variants: Table<Id, VariantEntry> = "{night-watch: {title: Night watch, instead: {reed-night: stillwater}}}",
        /// How an area splits into recesses, faces and edges, where it differs from 20, 60 and 20 %.
        optional zones: ZonesEntry,
        /// A picture of the finished model.
        optional photo: String = "photos/finished.jpg",
        /// What the picture shows, for those who can't see it; needed with a photo.
        optional alt: String = "The finished warden from the front.",
        /// A picture of the model before, shown beside the finished one.
        optional before: String = "photos/bare.jpg",
        /// What that picture shows; needed with it.
        optional before_alt: String = "The bare resin on its cork.",
        /// A video of the whole scheme.
        optional video: WebAddress = "https://video.example/watch/abc",
        /// Words to find it by.
        optional tags: Vec<String> = "[glaze, airbrush]",
        /// How much it asks of the painter.
        optional level: Skill,
        /// Whom to thank.
        optional credits: Vec<String> = "[Model by Osier Foundry]",
        /// Whether it is ready for readers: then it has a photo, a level, minutes at every step, and sentences for the card.
        optional finished: Flag,
        /// The day it was first published; the feed lists it under that day.
        optional written: Date,
    }
}

record! {
    /// The model that is painted.
    pub ModelEntry, "a model" {
        /// What it is.
        optional name: String = "Fen warden",
        /// How large it is.
        optional scale: Scale,
        /// What it is cast in, printed in or built of.
        optional material: String = "resin",
        /// How much surface there is to paint.
        optional surface: Tried<SquareCentimetres>,
        /// A mesh file (STL or OBJ) from which the surface is measured, in place of `surface`.
        optional mesh: String = "warden.stl",
        /// How many millimetres of the model one unit of the mesh file is, where it is not 1.
        optional mesh_scale: Number = "25.4",
        /// How large its base is, or `none`; without it, what is usual for the scale. It is painted with the model and
        /// is not part of `surface`.
        optional base: BaseSize,
        /// What sort of model it is; with `scale` the surface is guessed from it where nothing better is known.
        optional kind: ModelKind,
    }
}

record! {
    /// A variant of a scheme.
    pub VariantEntry, "a variant" {
        /// What the variant is called; it stands behind the title of the scheme.
        needed title: String = "Night watch",
        /// One sentence on how it looks.
        optional summary: String = "The same shell over cold blue cloth.",
        /// Other paints or pots in place of the scheme's.
        optional instead: Table<Id, Mention> = "{reed-night: stillwater}",
        /// A picture of the finished model in this variant.
        optional photo: String = "photos/night.jpg",
        /// What the picture shows; needed with a photo.
        optional alt: String = "The night warden from the front.",
    }
}

record! {
    /// How an area's relief splits.
    pub ZonesEntry, "the zones" {
        /// Deep folds, joints, panel lines.
        needed recesses: Share = "20%",
        /// The broad surfaces.
        needed faces: Share = "60%",
        /// Rims, ridges, corners.
        needed edges: Share = "20%",
    }
}

record! {
    /// The long form of an area.
    AreaRecord, "an area" {
        /// Its share of the model's surface.
        needed share: Share,
        /// What readers see in place of its id.
        optional title: String = "Shell",
    }
}

/// One area: its share alone, or with a title.
#[derive(Debug, Clone, Default)]
pub struct AreaEntry {
    /// Its share of the model's surface.
    pub share: Option<Placed<Share>>,
    /// What readers see in place of its id.
    pub title: Option<Placed<String>>,
}

impl Value for AreaEntry {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        if matches!(node.value, NodeValue::Text(_)) {
            return Some(Self { share: Placed::<Share>::read(node, reading), title: None });
        }
        let AreaRecord { share, title, .. } = AreaRecord::read(node, reading)?;
        Some(Self { share, title })
    }

    fn shape() -> Shape {
        Shape::Either(Box::new(Share::shape()), Box::new(AreaRecord::shape()))
    }
}
