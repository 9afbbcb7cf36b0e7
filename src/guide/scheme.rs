//! A scheme: what is painted, its areas, and the steps.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::{Photo, Pot, Prose, Step, Version};
use crate::measure::{BaseSize, Colour, Coordinate, Date, Fraction, Scale, Share, SquareCentimetres};
use crate::report::{FileId, Finding, OfVersion, Place, Placed, Role};
use crate::source::WebAddress;
use crate::trade::{Materials, ModelKind, Side, Skill, Up};

/// One scheme.
#[derive(Debug, Clone, PartialEq, Hash)]
pub struct Scheme {
    /// The name of its folder, and of its page.
    pub slug: String,
    /// What sets it apart, where it is a version of another scheme.
    pub version: Option<Version>,
    /// The names of the steps in its folder that it does without: other ways, steps of a variant.
    pub left_out: Vec<String>,
    /// Whether it is ready for readers.
    pub finished: bool,
    /// What it is called.
    pub title: String,
    /// One sentence on how it looks.
    pub summary: Option<String>,
    /// What is painted.
    pub model: Model,
    /// The parts of the model that steps name.
    pub areas: Vec<Area>,
    /// The pots that its steps use, in the order in which they do.
    pub pots: Vec<Arc<Pot>>,
    /// How each area's relief splits.
    pub zones: Zones,
    /// Where the author says how it splits; `None` where that is left to the mesh or to what is usual.
    pub zones_place: Option<Place>,
    /// A picture of the finished model.
    pub photo: Option<Photo>,
    /// A picture of the model before.
    pub before: Option<Photo>,
    /// A video of the whole scheme.
    pub video: Option<WebAddress>,
    /// Words to find it by.
    pub tags: Vec<Tag>,
    /// How much it asks of the painter.
    pub level: Option<Skill>,
    /// Whom to thank.
    pub credits: Vec<String>,
    /// The day it was first published.
    pub written: Option<Date>,
    /// The group that it is in on the index.
    pub group: Option<String>,
    /// Its place among those of its group, if the author says.
    pub order: Option<u32>,
    /// The introduction.
    pub intro: Prose,
    /// The steps, in the order of work.
    pub steps: Vec<Step>,
    /// The files of the content folder that it links to or shows, by their paths from there.
    pub linked_files: BTreeSet<String>,
    /// Whether all of it could be read: where a step, an area or a paint is missing, its film can't be followed.
    pub whole: bool,
    /// Its `scheme.md`.
    pub file: FileId,
    /// Where its title is in its file.
    pub place: Place,
    /// The whole text of its `scheme.md`, for the page that shows the source.
    pub source: Arc<str>,
}

/// What some schemes ask for, and which ones.
type Alike<'a, T> = (T, Vec<&'a Arc<Scheme>>);

/// Schemes in groups of those that are versions of one and ask for the same, so that it is made once for all of a group.
pub fn alike<'a, T: PartialEq>(asking: impl Iterator<Item = (&'a Arc<Scheme>, T)>) -> Vec<Alike<'a, T>> {
    let mut by_base: BTreeMap<&str, Vec<Alike<'a, T>>> = BTreeMap::new();
    for (scheme, asked) in asking {
        let groups = by_base.entry(scheme.base()).or_default();
        match groups.iter_mut().find(|(known, _)| *known == asked) {
            Some((_, schemes)) => schemes.push(scheme),
            None => groups.push((asked, vec![scheme])),
        }
    }
    by_base.into_values().flatten().collect()
}

impl Scheme {
    /// The slug of the scheme that it is a version of, or its own.
    pub fn base(&self) -> &str {
        self.version.as_ref().map_or(&self.slug, |version| &version.of)
    }

    /// What it may be called on the command line: its slug, its title, and of a version what sets that apart.
    pub fn names(&self) -> [&str; 3] {
        let label = self.version.as_ref().map_or(&self.title, |version| &version.label);
        [&self.slug, &self.title, label]
    }

    /// Whether it is one of the colours that the author offers: the scheme as it is, or a variant of it.
    pub fn is_look(&self) -> bool {
        self.version.as_ref().is_none_or(|version| version.ways.is_empty() && version.skip.is_empty())
    }

    /// The variant that it is, or is a way through.
    pub fn variant(&self) -> Option<&str> {
        self.version.as_ref()?.variant.as_deref()
    }

    /// Whether it has steps and nothing is sprayed in any of them.
    pub fn is_brush_only(&self) -> bool {
        !self.steps.is_empty() && self.steps.iter().all(|step| !step.technique.sprays())
    }

    /// Whether it is the way through a scheme that does without the spraying in it.
    pub fn is_by_brush(&self) -> bool {
        self.version.as_ref().is_some_and(|version| version.brush_only)
    }

    /// A finding about a step of a sequence, with where the scheme uses that.
    pub fn with_use(&self, finding: Finding) -> Finding {
        let file = finding.place.file;
        let via = self.steps.iter().filter(|step| step.file == file).find_map(|step| step.via.as_ref());
        match via {
            Some(via) => {
                let (scheme, name) = (self.base().to_owned(), self.title.clone());
                finding.see_version(via.place, OfVersion { scheme, name, role: Role::Use })
            }
            None => finding,
        }
    }
}

/// What is painted.
#[derive(Debug, Clone, PartialEq, Hash, Default)]
pub struct Model {
    /// What it is.
    pub name: Option<String>,
    /// How large it is.
    pub scale: Option<Scale>,
    /// What it is made of.
    pub material: Option<String>,
    /// Where that is in its file; without a material, where the model is.
    pub material_place: Place,
    /// How much surface there is to paint.
    pub surface: Option<SquareCentimetres>,
    /// Whether a surface was written that can't be read.
    pub surface_unread: bool,
    /// The mesh from which it is measured and drawn.
    pub mesh: Option<Mesh>,
    /// The photograph that it is drawn on where there is no mesh.
    pub bare: Option<BarePhoto>,
    /// From where it is drawn.
    pub view: Viewpoint,
    /// How large its base is, if the author says.
    pub base: Option<BaseSize>,
    /// What sort of model it is, if the author says.
    pub kind: Option<ModelKind>,
    /// Where it is in its file.
    pub place: Place,
}

impl Model {
    /// Whether it is ground or a building: by its kind, or where that is left out by what it is built of.
    pub fn is_ground(&self) -> bool {
        let built = || self.material.as_deref().is_some_and(|material| Materials::of(material).are_built());
        self.kind.map_or_else(built, ModelKind::is_ground)
    }
}

/// The mesh of a model: one file, or several that stand together.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Mesh {
    /// Its files; at least one.
    pub files: Vec<MeshFile>,
    /// How many millimetres of the model one unit of it is.
    pub scale: Fraction,
    /// Which axis points up, where the author says.
    pub up: Option<Up>,
    /// Where it is named.
    pub place: Place,
}

/// One file of a mesh.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct MeshFile {
    /// Its path from the content folder.
    pub path: String,
    /// Where it is named.
    pub place: Place,
}

/// A photograph of the bare, primed model, and a map of its areas; both by their paths from the content folder.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct BarePhoto {
    /// The photograph.
    pub photo: Placed<String>,
    /// The map: each area in a colour of its own.
    pub map: Placed<String>,
}

/// From where a model is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Viewpoint {
    /// From which side.
    pub side: Option<Side>,
    /// How many degrees above the table.
    pub height: Option<u8>,
    /// The area that fills the picture, by its position in the scheme's list.
    pub near: Option<usize>,
}

/// What of a mesh an area is.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct AreaShape {
    /// Groups or materials, as the author names them.
    pub groups: Vec<Placed<String>>,
    /// Whole files, by their paths from the content folder.
    pub files: Vec<String>,
    /// Parts of space.
    pub within: Vec<Space>,
    /// Its colour on a map, or on the corners of a mesh.
    pub map: Option<Colour>,
}

/// A part of space, along the axes of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Space {
    /// From the lowest to the highest corner.
    Box([Coordinate; 3], [Coordinate; 3]),
    /// Around a middle, with a radius.
    Sphere([Coordinate; 3], Coordinate),
}

/// One part of the model.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Area {
    /// The id by which steps name it.
    pub id: String,
    /// What readers see.
    pub title: String,
    /// Its share of the surface, as written or else measured; `None` where neither can be had.
    pub share: Option<Share>,
    /// The colour of its faces, measured on the finished model.
    pub shows: Option<Colour>,
    /// Whether the author leaves the share to the mesh.
    pub share_left: bool,
    /// What of the mesh it is, where the author says.
    pub shape: AreaShape,
    /// Where it is in its file.
    pub place: Place,
}

/// Words by which authors call the base of a model, in the languages of the interface.
const BASES: &[&str] = &["base", "bases", "plinth", "ground", "sockel", "boden", "socle", "socles", "peana", "peanas"];

impl Area {
    /// Whether it is the base of the model, by its id or its title.
    pub fn is_base(&self) -> bool {
        let names = |text: &str| {
            let text = text.to_lowercase();
            text.split(|c: char| !c.is_alphabetic()).any(|word| BASES.contains(&word))
        };
        names(&self.id) || names(&self.title)
    }
}

/// How an area's relief splits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Zones {
    /// Deep folds, joints, panel lines.
    pub recesses: Share,
    /// The broad surfaces.
    pub faces: Share,
    /// Rims, ridges, corners.
    pub edges: Share,
}

impl Default for Zones {
    fn default() -> Self {
        Self { recesses: Share::percent(20), faces: Share::percent(60), edges: Share::percent(20) }
    }
}

/// A word to find a scheme by.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tag {
    /// The name of its page.
    pub slug: String,
    /// The word as the author wrote it.
    pub name: String,
}
