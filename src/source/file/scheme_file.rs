//! `schemes/<slug>/scheme.md`: what is painted, and its areas.

use super::super::node::Node;
use super::super::reading::{Reading, Table, Tried, Value};
use super::super::shape::Shape;
use super::step_file::PotEntry;
use crate::measure::{BaseSize, Colour, Coordinate, Count, Date, Factor, Number, Scale, Share, SquareCentimetres};
use crate::report::Placed;
use crate::source::node::NodeValue;
use crate::source::record::record;
use crate::source::scalar::{Flag, Id, Mention, WebAddress};
use crate::trade::{ModelKind, Side, Skill, Up};

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
        optional alt: Tried<String> = "The finished warden from the front.",
        /// A picture of the model before, shown beside the finished one.
        optional before: String = "photos/bare.jpg",
        /// What that picture shows; needed with it.
        optional before_alt: Tried<String> = "The bare resin on its cork.",
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
        /// The group that it is in on the index.
        optional group: String = "Wardens",
        /// Its place on the index among those of its group; schemes without one come last, by their folders.
        optional order: Count = "3",
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
        /// The mesh that it was printed or sculpted from (STL, OBJ or PLY), or several that stand together. What the author
        /// does not give is measured from it: surface, shares, zones. Every step is drawn on it, where its groups,
        /// materials or files are named like the areas, or the areas say what is theirs.
        optional mesh: Vec<Placed<String>> = "warden.obj",
        /// How many millimetres of the model one unit of the mesh file is, where it is not 1.
        optional mesh_scale: Factor = "25.4",
        /// Which axis of the mesh points up; without it, `z` in STL and PLY, `y` in OBJ.
        optional mesh_up: Up,
        /// A photo of the bare, primed model, on which the steps are drawn where there is no mesh; with `map`.
        optional bare: Placed<String> = "photos/primed.jpg",
        /// The map of the areas on that photo: painted over it, each area in one flat colour, which `areas` name.
        optional map: Placed<String> = "photos/map.png",
        /// From where the model is drawn.
        optional view: ViewEntry = "{from: front-left, height: 20}",
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
        /// What the variant is called; it comes after the title of the scheme.
        needed title: String = "Night watch",
        /// One sentence on how it looks.
        optional summary: String = "The same shell over cold blue cloth.",
        /// Other paints or pots in place of the scheme's.
        optional instead: Table<Id, Placed<Mention>> = "{reed-night: stillwater}",
        /// A picture of the finished model in this variant.
        optional photo: String = "photos/night.jpg",
        /// What the picture shows; needed with a photo.
        optional alt: Tried<String> = "The night warden from the front.",
    }
}

record! {
    /// From where a model is drawn.
    pub ViewEntry, "a view" {
        /// From which side; without it, from the front and a little to the left.
        optional from: Side,
        /// How high the camera stands, in degrees above the table.
        optional height: Number = "20",
        /// The area that fills the picture, where not the whole model does.
        optional near: Mention = "shell",
    }
}

record! {
    /// A part of space.
    pub SpaceEntry, "a part of space" {
        /// Two opposite corners of a box, in millimetres of the model along the axes of the file: x, y, z and x, y, z.
        optional r#box: Vec<Placed<Coordinate>> = "[-5, 0, 0, 5, 4, 12]",
        /// The middle of a sphere and its radius, in the same way: x, y, z and the radius.
        optional sphere: Vec<Placed<Coordinate>> = "[0, 0, 22, 4]",
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
        /// Its share of the model's surface; where the model has a mesh that tells its areas apart, it is measured.
        optional share: Share = "40%",
        /// What readers see in place of its id.
        optional title: String = "Shell",
        /// The colour of its faces, measured on the finished model; it counts in place of the predicted one.
        optional shows: Colour = "\"#c8781e\"",
        /// The groups or materials of the mesh that it is, where they are not named like it, or mesh files of its own.
        optional mesh: Vec<Placed<String>> = "[shell, spikes]",
        /// The part of the mesh that it is, where that has no groups: all that lies in one of these.
        optional within: Vec<SpaceEntry> = "[{sphere: [0, 0, 22, 4]}]",
        /// Its colour on `model.map`, or on a mesh whose corners are coloured area by area.
        optional map: Colour = "\"#ff0000\"",
    }
}

/// One area: its share alone, or with more.
#[derive(Debug, Clone, Default)]
pub struct AreaEntry {
    /// Its share of the model's surface.
    pub share: Option<Placed<Share>>,
    /// Whether a share was written, if perhaps one that can't be read.
    pub share_written: bool,
    /// What readers see in place of its id.
    pub title: Option<Placed<String>>,
    /// The colour of its faces, measured on the finished model.
    pub shows: Option<Placed<Colour>>,
    /// The groups, materials or files that it is.
    pub mesh: Option<Placed<Vec<Placed<String>>>>,
    /// The parts of space that it is.
    pub within: Option<Placed<Vec<SpaceEntry>>>,
    /// Its colour on a map or a coloured mesh.
    pub map: Option<Placed<Colour>>,
}

impl Value for AreaEntry {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        if matches!(node.value, NodeValue::Text(_)) {
            let share = Placed::<Share>::read(node, reading);
            return Some(Self { share, share_written: true, ..Self::default() });
        }
        let share_written = match &node.value {
            NodeValue::Map(pairs) => pairs.iter().any(|(key, _)| key.value == "share"),
            _ => false,
        };
        let AreaRecord { share, title, shows, mesh, within, map } = AreaRecord::read(node, reading)?;
        Some(Self { share, share_written, title, shows, mesh, within, map })
    }

    fn shape() -> Shape {
        Shape::Either(Box::new(Share::shape()), Box::new(AreaRecord::shape()))
    }
}
