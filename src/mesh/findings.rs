//! What is reported of meshes: what can't be read, what is not found, and where an author's figures differ.

use super::fill::whole;
use super::form::Form;
use super::unread::{Size, Unread};
use super::{Shape, checks, usual};
use crate::bench::Bench;
use crate::guide::{Area, Mesh, Scheme};
use crate::measure::{Share, guessed};
use crate::report::{Finding, Level, Place, wording};

/// Less than this, in cm², is no model, and more is no table.
const LIKELY: std::ops::RangeInclusive<f64> = 0.1..=100_000.0;

/// Shares and zones that differ by more points than this, and by more than the factor, are reported.
const DIFFER: (u64, f64) = (12, 1.5);

/// What mends a size.
const SCALE: &str = "write how many millimetres one unit of the file is, as in 'mesh-scale: 10' for centimetres";

/// The finding for a mesh that can't be used.
pub(super) fn unread(mesh: &Mesh, unread: &Unread) -> Finding {
    let named = |file: usize| mesh.files.get(file).map_or(("", mesh.place), |file| (&*file.path, file.place));
    match unread {
        Unread::Broken(file, why) => {
            let (path, place) = named(*file);
            let message = format!("the mesh {} can't be measured: {why}", wording::quoted(path));
            let mend =
                "save it again as STL, OBJ or PLY, with triangles, or write the surface itself: 'surface: 32 cm2'";
            Finding::new(&checks::MESH_UNREADABLE, place, message, mend)
        }
        Unread::Misnamed(file, seen) => {
            let (path, place) = named(*file);
            misnamed(path, place, *seen)
        }
        Unread::Huge(size) => huge(mesh, *size),
        Unread::Tiny(size) => tiny(mesh, *size),
    }
}

/// The finding for a file whose name does not say what it is.
fn misnamed(path: &str, place: Place, seen: Option<Form>) -> Finding {
    let why = match (Form::of_name(path), seen) {
        (Some(form), Some(seen)) => {
            format!("its name ends in .{}, and it looks like {} inside", form.ending(), seen.called())
        }
        (_, Some(seen)) => {
            format!("its name does not end in .stl, .obj or .ply, and it looks like {} inside", seen.called())
        }
        (_, None) => "its name does not end in .stl, .obj or .ply".to_owned(),
    };
    let mend = seen.map_or_else(
        || {
            "open it in the program that it came from and save it as STL, OBJ or PLY, or write the surface itself: \
             'surface: 32 cm2'"
                .to_owned()
        },
        |seen| format!("rename it so that its name ends in .{}, here too", seen.ending()),
    );
    let message = format!("the mesh {} can't be measured: {why}", wording::quoted(path));
    Finding::new(&checks::MESH_UNREADABLE, place, message, mend)
}

/// The finding for a mesh of a size that no model has. Amounts and pictures of it would be nonsense: that is an error.
fn huge(mesh: &Mesh, size: Size) -> Finding {
    let path = mesh.files.first().map_or("", |file| file.path.as_str());
    let message = format!(
        "{} is {:.3e} m from end to end, with {:.3e} cm² of surface, and no model is so large",
        wording::quoted(path),
        size.long / 1000.0,
        size.surface
    );
    Finding::new(&checks::MESH_SIZE, mesh.place, message, SCALE).at(Level::Error)
}

/// The finding for a mesh of which nothing can be drawn.
fn tiny(mesh: &Mesh, size: Size) -> Finding {
    let path = mesh.files.first().map_or("", |file| file.path.as_str());
    let message = format!(
        "{} is {:.3e} mm from end to end, less than a coat of paint is thick",
        wording::quoted(path),
        size.long
    );
    Finding::new(&checks::MESH_SIZE, mesh.place, message, SCALE).at(Level::Error)
}

/// What is told of a shape.
pub(super) fn of_shape(scheme: &Scheme, mesh: &Mesh, shape: &Shape, bench: &Bench) -> Vec<Finding> {
    let mut findings: Vec<Finding> = size(scheme, mesh, shape, bench).into_iter().collect();
    findings.extend(lost_groups(scheme, shape));
    if shape.has_areas() {
        findings.extend(lost_areas(scheme, shape));
        findings
            .extend(scheme.areas.iter().zip(&shape.areas).filter_map(|(area, own)| share(area, own / shape.surface)));
        findings.extend(zones(scheme, shape));
    } else if let Some(area) = scheme.areas.iter().find(|area| area.share_left) {
        let message = format!("nothing on the mesh says which part of it is {}", wording::quoted(&area.id));
        findings.push(Finding::new(&checks::MESH_AREA, area.place, message, how_to_tell(area, shape)));
    }
    findings
}

fn size(scheme: &Scheme, mesh: &Mesh, shape: &Shape, bench: &Bench) -> Option<Finding> {
    let model = &scheme.model;
    let square_centimetres = shape.surface * mesh.scale.as_f64().powi(2) / 100.0;
    if model.surface.is_some() {
        return None;
    }
    let path = wording::quoted(mesh.files.first().map_or("", |file| file.path.as_str()));
    if !LIKELY.contains(&square_centimetres) {
        let message = format!("the surface of {path} comes to {square_centimetres:.3e} cm²");
        return Some(Finding::new(&checks::MESH_SIZE, mesh.place, message, SCALE));
    }
    let (usual, kind) = usual::missed(model, square_centimetres, bench)?;
    let (own, usual) = (guessed(square_centimetres), guessed(usual));
    let scale = model.scale?;
    let message = format!(
        "the surface of {path} comes to {own} cm², and a model of {scale} and kind '{kind}' has about {usual} cm²"
    );
    let mend = format!("{SCALE}; or mend 'scale' or 'kind', if the mesh is right");
    Some(Finding::new(&checks::MESH_SIZE, mesh.place, message, mend))
}

/// Groups that an area names and the mesh does not have.
fn lost_groups(scheme: &Scheme, shape: &Shape) -> Vec<Finding> {
    let known: Vec<&str> = shape.names.iter().map(String::as_str).collect();
    let groups = scheme.areas.iter().flat_map(|area| &area.shape.groups);
    let lost = groups.filter(|group| !known.iter().any(|name| name.eq_ignore_ascii_case(&group.value)));
    lost.map(|group| {
        let message = format!("no group and no material of the mesh is called {}", wording::quoted(&group.value));
        Finding::new(&checks::MESH_AREA, group.place, message, wording::did_you_mean(&group.value, "a group", &known))
    })
    .collect()
}

/// Areas of which no part was found, though others were.
fn lost_areas(scheme: &Scheme, shape: &Shape) -> Vec<Finding> {
    let lost = scheme.areas.iter().zip(&shape.areas).filter(|(_, own)| **own <= 0.0);
    lost.map(|(area, _)| {
        let message = format!("no part of the mesh is {}", wording::quoted(&area.id));
        Finding::new(&checks::MESH_AREA, area.place, message, how_to_tell(area, shape))
    })
    .collect()
}

/// How an area is found on a mesh.
fn how_to_tell(area: &Area, shape: &Shape) -> String {
    let names: Vec<String> = shape.names.iter().take(12).map(|name| wording::quoted(name)).collect();
    if names.is_empty() {
        let id = &area.id;
        return format!(
            "save the mesh with a group called '{id}', or write where it is: 'within: [{{sphere: [0, 0, 22, 4]}}]'"
        );
    }
    format!("write which of its groups it is, as in 'mesh: […]'; there are {}", names.join(", "))
}

fn share(area: &Area, measured: f64) -> Option<Finding> {
    let given = area.share.filter(|_| !area.share_left)?.as_percent();
    if measured <= 0.0 || !differs(given, measured * 100.0) {
        return None;
    }
    let message =
        format!("the mesh gives {} a share of {} %, not {given:.0} %", wording::quoted(&area.id), whole(measured));
    let mend = "leave the share out, and it is measured; or leave it as it is, if the mesh is not what is painted";
    Some(Finding::new(&checks::MESH_DIFFERS, area.place, message, mend))
}

fn zones(scheme: &Scheme, shape: &Shape) -> Option<Finding> {
    let place = scheme.zones_place?;
    let given = [scheme.zones.recesses, scheme.zones.faces, scheme.zones.edges].map(Share::as_percent);
    let measured = shape.all_zones();
    let apart = given.iter().zip(measured).any(|(given, measured)| differs(*given, measured * 100.0));
    let [recesses, faces, edges] = measured.map(whole);
    let message = format!("on the mesh recesses, faces and edges come to about {recesses}, {faces} and {edges} %");
    let mend = "leave the zones out, and they are measured; or leave them as they are, if you know better";
    apart.then(|| Finding::new(&checks::MESH_DIFFERS, place, message, mend))
}

fn differs(one: f64, other: f64) -> bool {
    let (points, factor) = DIFFER;
    (one - other).abs() > points as f64 && one.max(other) > factor * one.min(other)
}
