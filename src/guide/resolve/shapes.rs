//! Meshes: their files, what of them each area is, and from where they are drawn.

use super::context::Context;
use super::{ResolveDesk, photos, value};
use crate::guide::{Area, AreaShape, BarePhoto, Mesh, MeshFile, Model, Space, Viewpoint, checks};
use crate::measure::{Coordinate, Fraction};
use crate::report::{Finding, Place, Placed, wording};
use crate::source::file::{AreaEntry, ModelEntry, SpaceEntry, ViewEntry};

/// The endings of meshes that can be read.
const MESHES: &[&str] = &["stl", "obj", "ply"];

/// The mesh of a model: the files that it names, or else those that its areas name.
pub(super) fn mesh(context: &Context<'_>, entry: &ModelEntry, areas: &[Area], desk: &mut ResolveDesk) -> Option<Mesh> {
    let named = entry.mesh.as_ref().map(|list| list.value.as_slice()).unwrap_or_default();
    let mut files: Vec<MeshFile> = Vec::new();
    for found in named.iter().filter_map(|path| file(context, path, desk)).collect::<Vec<_>>() {
        if let Some(first) = files.iter().find(|known| known.path == found.path) {
            let message = "this mesh is named twice, and counts once";
            let finding = Finding::new(&checks::MESH_TWICE, found.place, message, "name it once");
            desk.tell(finding.see(first.place, "the first"));
        } else {
            files.push(found);
        }
    }
    for area in areas {
        for path in &area.shape.files {
            if !files.iter().any(|file| file.path == *path) {
                files.push(MeshFile { path: path.clone(), place: area.place });
            }
        }
    }
    let place = named.first().map(|path| path.place).or_else(|| files.first().map(|file| file.place))?;
    let scale = entry.mesh_scale.as_ref().map_or(Fraction::ONE, |scale| scale.value.0);
    (!files.is_empty()).then(|| Mesh { files, scale, up: value(entry.mesh_up.as_ref()), place })
}

/// A model of which nothing is said but what its areas name as their meshes.
pub(super) fn model_of_areas(context: &Context<'_>, areas: &[Area], desk: &mut ResolveDesk) -> Model {
    Model { mesh: mesh(context, &ModelEntry::default(), areas, desk), ..Model::default() }
}

/// The photograph of the bare model and its map. Where there is a mesh, that is drawn.
pub(super) fn bare(
    context: &Context<'_>,
    entry: &ModelEntry,
    has_mesh: bool,
    desk: &mut ResolveDesk,
) -> Option<BarePhoto> {
    let (photo, map) = match (&entry.bare, &entry.map) {
        (Some(photo), Some(map)) => (photo, map),
        (None, None) => return None,
        (Some(photo), None) => {
            let message = "nothing says which part of this photo is which area";
            let mend = "paint each area over it in a flat colour, save that beside it, and write 'map: photos/map.png'";
            desk.tell(Finding::new(&checks::BARE_HALF, photo.place, message, mend));
            return None;
        }
        (None, Some(map)) => {
            let message = "this map has no photo of the bare model under it";
            let mend = "add the photo over which it was painted, as in 'bare: photos/primed.jpg'";
            desk.tell(Finding::new(&checks::BARE_HALF, map.place, message, mend));
            return None;
        }
    };
    if has_mesh {
        let message = "the steps are drawn on the mesh, and not on this photo";
        let mend = "take 'bare' and 'map' out; or take 'mesh' out, if the photo is to be drawn on";
        desk.tell(Finding::new(&checks::BARE_UNUSED, photo.place, message, mend));
        return None;
    }
    let [photo, map] = [photo, map].map(|named| {
        let path = photos::locate(context, &named.value, named.place, desk)?;
        Some(Placed { value: path, place: named.place })
    });
    Some(BarePhoto { photo: photo?, map: map? })
}

/// A mesh file, if it is there.
fn file(context: &Context<'_>, path: &Placed<String>, desk: &mut ResolveDesk) -> Option<MeshFile> {
    let others = &context.library.names.others;
    let found = context.path_of(&path.value).filter(|found| others.contains(found));
    if found.is_none() {
        let message = format!("there is no mesh {}", wording::quoted(&path.value));
        let near = others.iter().filter(|other| is_mesh(other)).map(|other| context.written_here(other));
        let near: Vec<String> = near.collect();
        let near: Vec<&str> = near.iter().map(String::as_str).collect();
        let mend = wording::did_you_mean(&path.value, "a mesh", &near);
        desk.tell(Finding::new(&checks::MESH_MISSING, path.place, message, mend));
    }
    Some(MeshFile { path: found?, place: path.place })
}

fn is_mesh(path: &str) -> bool {
    let ending = path.rsplit_once('.').map(|(_, ending)| ending.to_lowercase());
    ending.is_some_and(|ending| MESHES.contains(&ending.as_str()))
}

/// What of the mesh an area is.
pub(super) fn of_area(context: &Context<'_>, entry: &AreaEntry, desk: &mut ResolveDesk) -> AreaShape {
    let mut shape = AreaShape { map: value(entry.map.as_ref()), ..AreaShape::default() };
    for name in entry.mesh.iter().flat_map(|names| &names.value) {
        if is_mesh(&name.value) {
            shape.files.extend(file(context, name, desk).map(|file| file.path));
        } else {
            shape.groups.push(name.clone());
        }
    }
    for entry in entry.within.iter().flat_map(|spaces| spaces.value.iter().map(|space| (space, spaces.place))) {
        shape.within.extend(space(entry, desk));
    }
    shape
}

fn space((entry, place): (&SpaceEntry, Place), desk: &mut ResolveDesk) -> Option<Space> {
    let numbers = |list: &Option<Placed<Vec<Placed<Coordinate>>>>| {
        list.as_ref().map(|list| list.value.iter().map(|number| number.value).collect::<Vec<Coordinate>>())
    };
    let (corners, sphere) = (numbers(&entry.r#box), numbers(&entry.sphere));
    let found = match (corners.as_deref(), sphere.as_deref()) {
        (Some([ax, ay, az, bx, by, bz]), None) => {
            let (a, b) = ([*ax, *ay, *az], [*bx, *by, *bz]);
            Some(Space::Box([0, 1, 2].map(|at: usize| a[at].min(b[at])), [0, 1, 2].map(|at: usize| a[at].max(b[at]))))
        }
        (None, Some([x, y, z, radius])) if radius.0 > 0 => Some(Space::Sphere([*x, *y, *z], *radius)),
        _ => None,
    };
    if found.is_none() {
        let message = "a part of space is a box of six numbers or a sphere of four";
        let mend = "write '{box: [-5, 0, 0, 5, 4, 12]}' or '{sphere: [0, 0, 22, 4]}', in millimetres of the model";
        desk.tell(Finding::new(&checks::MESH_SPACE, place, message, mend));
    }
    found
}

/// From where the model is drawn.
pub(super) fn view(entry: Option<&Placed<ViewEntry>>, areas: &[Area], desk: &mut ResolveDesk) -> Viewpoint {
    let Some(Placed { value: entry, .. }) = entry else { return Viewpoint::default() };
    let near = entry.near.as_ref().and_then(|near| {
        let found = areas.iter().position(|area| area.id == near.value.0);
        if found.is_none() {
            let known: Vec<&str> = areas.iter().map(|area| area.id.as_str()).collect();
            let message = format!("there is no area {}", wording::quoted(&near.value.0));
            let mend = wording::did_you_mean(&near.value.0, "an area", &known);
            desk.tell(Finding::new(&checks::UNKNOWN_AREA, near.place, message, mend));
        }
        found
    });
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 0 and 85")]
    let height = entry.height.as_ref().map(|height| height.value.0.as_f64().clamp(0.0, 85.0) as u8);
    Viewpoint { side: value(entry.from.as_ref()), height, near }
}
