//! The shapes of all models that have a mesh, each read and measured once.

use std::collections::BTreeMap;
use std::io;
use std::sync::Arc;

use rayon::prelude::*;

use super::form::Form;
use super::soup::{MOST_TRIANGLES, Soup};
use super::unread::{Size, Unread};
use super::{Shape, findings};
use crate::bench::Bench;
use crate::door::Door;
use crate::guide::{self, Area, AreaShape, Guide, Mesh, Scheme};
use crate::report::Finding;

/// The shapes of all models whose meshes could be read, by the slugs of their schemes.
#[derive(Debug, Clone, Default)]
pub struct Meshes {
    shapes: BTreeMap<String, Arc<Shape>>,
    /// Schemes with what their authors leave to the mesh.
    filled: BTreeMap<String, Arc<Scheme>>,
}

impl Meshes {
    /// The shape of a scheme's model.
    pub fn shape(&self, slug: &str) -> Option<&Arc<Shape>> {
        self.shapes.get(slug)
    }

    /// Writes what authors leave to their meshes into the schemes of the guide that was surveyed.
    pub fn fill(&self, guide: &mut Guide) {
        for scheme in &mut guide.schemes {
            if let Some(filled) = self.filled.get(&scheme.slug) {
                *scheme = Arc::clone(filled);
            }
        }
    }
}

/// The shapes of the last survey.
#[derive(Debug, Default)]
pub struct KeptMeshes {
    looks: BTreeMap<String, MeshLook>,
}

/// What a reading gave, and all that it was read from.
#[derive(Debug, Clone)]
struct MeshLook {
    stamps: Vec<Option<u64>>,
    mesh: Mesh,
    areas: Vec<Sought>,
    read: Result<Arc<Shape>, Unread>,
    /// The scheme as it came, and as it is with what was measured.
    filled: Option<(Arc<Scheme>, Arc<Scheme>)>,
}

/// What of an area decides where it is found on a mesh: its id and title, and its shape without the places of names.
type Sought = (String, String, Vec<String>, AreaShape);

fn sought(scheme: &Scheme) -> Vec<Sought> {
    let one = |area: &Area| {
        let groups = area.shape.groups.iter().map(|group| group.value.clone()).collect();
        let shape = AreaShape { groups: Vec::new(), ..area.shape.clone() };
        (area.id.clone(), area.title.clone(), groups, shape)
    };
    scheme.areas.iter().map(one).collect()
}

/// What decides what is read for a scheme.
type Asked<'a> = (&'a Mesh, Vec<Sought>);

impl MeshLook {
    /// Whether the shape is the very one of another look.
    fn is_shaped_as(&self, other: &Self) -> bool {
        matches!((&self.read, &other.read), (Ok(one), Ok(other)) if Arc::ptr_eq(one, other))
    }

    fn of(door: &dyn Door, scheme: &Arc<Scheme>, (mesh, areas): Asked<'_>, known: Option<&Self>) -> Self {
        let stamps: Vec<Option<u64>> =
            mesh.files.iter().map(|file| door.stamp(&format!("content/{}", file.path))).collect();
        let same = |known: &&Self| {
            let stamped = stamps.iter().all(Option::is_some) && known.stamps == stamps;
            stamped && known.mesh == *mesh && known.areas == areas
        };
        if let Some(known) = known.filter(same) {
            return known.clone();
        }
        let read = read(door, scheme, mesh).map(Arc::new);
        Self { stamps, mesh: mesh.clone(), areas, read, filled: None }
    }
}

/// Reads the meshes of every scheme that has any; what can't be read, and where an author's figures differ from what was
/// measured, is reported. A mesh whose stamps are those of the last survey is not read again.
pub fn survey(door: &dyn Door, guide: &Guide, kept: &mut KeptMeshes) -> (Meshes, Vec<Finding>) {
    let named = guide.schemes.iter().filter_map(|scheme| Some((scheme, (scheme.model.mesh.as_ref()?, sought(scheme)))));
    let look = |((mesh, areas), schemes): (Asked<'_>, Vec<&Arc<Scheme>>)| {
        let known = schemes.iter().find_map(|scheme| kept.looks.get(&scheme.slug));
        let look = MeshLook::of(door, schemes.first()?, (mesh, areas), known);
        Some(schemes.into_iter().map(|scheme| (scheme.slug.clone(), look.clone())).collect::<Vec<_>>())
    };
    let looks: Vec<_> = guide::alike(named).into_par_iter().filter_map(look).collect();
    let mut looks: BTreeMap<String, MeshLook> = looks.into_iter().flatten().collect();
    for (slug, look) in &mut looks {
        let known = kept.looks.remove(slug).filter(|known| known.is_shaped_as(look));
        look.filled = known.and_then(|known| known.filled);
    }
    let bench = Bench::of(&guide.bench);
    let mut findings = Vec::new();
    let mut meshes = Meshes::default();
    for scheme in &guide.schemes {
        let Some(look) = looks.get_mut(&scheme.slug) else { continue };
        match &look.read {
            Ok(shape) => {
                findings.extend(findings::of_shape(scheme, &look.mesh, shape, &bench));
                meshes.shapes.insert(scheme.slug.clone(), Arc::clone(shape));
                let known = look.filled.take().filter(|(from, _)| Arc::ptr_eq(from, scheme));
                let known = known.or_else(|| Some((Arc::clone(scheme), Arc::new(super::fill::filled(scheme, shape)?))));
                if let Some((_, filled)) = &known {
                    meshes.filled.insert(scheme.slug.clone(), Arc::clone(filled));
                }
                look.filled = known;
            }
            Err(unread) => findings.push(findings::unread(&look.mesh, unread)),
        }
    }
    kept.looks = looks;
    (meshes, findings)
}

/// The shape of a scheme's model from the bytes of its files.
fn read(door: &dyn Door, scheme: &Scheme, mesh: &Mesh) -> Result<Shape, Unread> {
    let mut soups: Vec<Soup> = Vec::with_capacity(mesh.files.len());
    for (at, file) in mesh.files.iter().enumerate() {
        let soup = triangles(door, at, &file.path)?;
        if soups.iter().map(|soup| soup.triangles.len()).sum::<usize>() + soup.triangles.len() > MOST_TRIANGLES {
            return Err(Unread::Broken(
                at,
                format!("with the files before it, it is more than {MOST_TRIANGLES} triangles"),
            ));
        }
        soups.push(soup);
    }
    let size = size(mesh, &soups);
    if size.is_huge() {
        return Err(Unread::Huge(size));
    }
    if size.is_tiny() {
        return Err(Unread::Tiny(size));
    }
    let soups: Vec<&Soup> = soups.iter().collect();
    Ok(Shape::of(scheme, mesh, &soups))
}

/// The size of all files together, as their model has it.
fn size(mesh: &Mesh, soups: &[Soup]) -> Size {
    let scale = mesh.scale.as_f64();
    let all = soups.iter().map(Soup::ends).reduce(|one, other| {
        [0, 1, 2].map(|axis: usize| (one[axis].0.min(other[axis].0), one[axis].1.max(other[axis].1)))
    });
    let long = all.into_iter().flatten().map(|(low, high)| high - low).fold(0.0, f64::max) * scale;
    let surface: f64 = soups.iter().map(Soup::area).sum();
    Size { long, surface: surface * scale.powi(2) / 100.0 }
}

/// The triangles of one file of a mesh. One that can't be read as its name says may be of another sort.
fn triangles(door: &dyn Door, at: usize, path: &str) -> Result<Soup, Unread> {
    let form = Form::of_name(path);
    let most = form.unwrap_or(Form::Stl).most_bytes();
    let bytes = match door.read(&format!("content/{path}"), most) {
        Ok(bytes) => bytes,
        Err(_) if form.is_none() => return Err(Unread::Misnamed(at, None)),
        Err(error) if error.kind() == io::ErrorKind::FileTooLarge => {
            return Err(Unread::Broken(at, format!("it is larger than {} MB", most / 1_000_000)));
        }
        Err(error) => return Err(Unread::Broken(at, error.to_string())),
    };
    let seen = Form::of_bytes(&bytes);
    let Some(form) = form else { return Err(Unread::Misnamed(at, seen)) };
    form.read(bytes).map_err(|why| match seen {
        Some(other) if other != form => Unread::Misnamed(at, seen),
        _ => Unread::Broken(at, why),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::door::Memory;
    use crate::guide::resolve;
    use crate::report::Level;

    /// What is found about a model that is one triangle with a corner so far out, and whether it has a shape.
    fn surveyed(model: &str, far: &str) -> (Vec<(&'static str, Level, String)>, bool) {
        let stl = format!(
            "solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex {far} 0 0\nvertex 0 {far} 0\nendloop\n\
             endfacet\nendsolid x\n"
        );
        let door = Memory::default()
            .with("content/guide.yaml", "title: T\nauthor: A\n")
            .with("content/schemes/s/m.stl", stl)
            .with("content/schemes/s/scheme.md", format!("---\ntitle: S\nmodel: {model}\nareas: {{a: 100%}}\n---\n"));
        let (guide, _) = resolve(&mut crate::source::read(&door).unwrap());
        let (meshes, findings) = survey(&door, &guide, &mut KeptMeshes::default());
        let told = findings.into_iter().map(|finding| (finding.check.id, finding.level, finding.message));
        (told.collect(), meshes.shape("s").is_some())
    }

    #[test]
    fn a_size_that_no_model_has_is_an_error_and_nothing_is_reckoned_from_it() {
        let (found, has_shape) = surveyed("{mesh: m.stl}", "3e38");
        let [(id, level, message)] = found.as_slice() else { panic!("{found:?}") };
        assert_eq!((*id, *level, has_shape), ("mesh-size-unlikely", Level::Error, false));
        assert!(message.contains("3.000e35 m from end to end"), "{message}");
        for model in ["{mesh: m.stl, surface: 30 cm2}", "{mesh: m.stl, mesh-scale: 100}"] {
            assert_eq!(surveyed(model, "200000").0[0].1, Level::Error, "{model}");
        }
    }

    #[test]
    fn a_size_that_some_model_may_have_is_a_warning_at_most() {
        assert_eq!(surveyed("{mesh: m.stl}", "40"), (Vec::new(), true));
        let (found, has_shape) = surveyed("{mesh: m.stl}", "30000");
        assert_eq!((found[0].0, found[0].1, has_shape), ("mesh-size-unlikely", Level::Warning, true));
    }

    #[test]
    fn a_size_that_no_model_of_its_scale_and_kind_has_is_a_warning() {
        for (model, far) in [("{scale: 28 mm, mesh: m.stl}", "400"), ("{scale: 28 mm, kind: foot, mesh: m.stl}", "12")]
        {
            let (found, has_shape) = surveyed(model, far);
            let [(id, level, message)] = found.as_slice() else { panic!("{model} {found:?}") };
            assert_eq!((*id, *level, has_shape), ("mesh-size-unlikely", Level::Warning, true), "{model}");
            assert!(message.contains("a model of 28 mm and kind 'foot' has about 13 cm²"), "{message}");
        }
        for model in ["scale: 28 mm", "scale: 28 mm, kind: foot", "scale: 1/35, kind: bust", "kind: foot"] {
            assert_eq!(surveyed(&format!("{{{model}, mesh: m.stl}}"), "40"), (Vec::new(), true), "{model}");
        }
        for model in ["kind: foot", "scale: 28 mm, material: foam", "scale: 28 mm, kind: vehicle"] {
            assert_eq!(surveyed(&format!("{{{model}, mesh: m.stl}}"), "400"), (Vec::new(), true), "{model}");
        }
    }

    #[test]
    fn what_a_part_is_made_of_tells_whose_it_is_where_its_name_does_not() {
        let part = |name: &str, material: &str, first: u32| {
            format!(
                "o {name}\nusemtl {material}\nv 0 0 {first}\nv 9 0 {first}\nv 0 9 {first}\nf {first} {} {}\n",
                first + 1,
                first + 2
            )
        };
        let shares = |first: (&str, &str), second: (&str, &str)| {
            let door = Memory::default()
                .with("content/guide.yaml", "title: T\nauthor: A\n")
                .with("content/schemes/s/m.obj", part(first.0, first.1, 1) + &part(second.0, second.1, 4))
                .with(
                    "content/schemes/s/scheme.md",
                    "---\ntitle: S\nmodel: {mesh: m.obj}\nareas: {shell: {mesh: shell}, cloth: {mesh: cloth}}\n---\n",
                );
            let (guide, _) = resolve(&mut crate::source::read(&door).unwrap());
            let (meshes, findings) = survey(&door, &guide, &mut KeptMeshes::default());
            assert_eq!(findings.iter().filter(|finding| finding.check.id == "mesh-area").count(), 0);
            meshes.shape("s").map(|shape| shape.areas.clone())
        };
        assert_eq!(shares(("Body", "shell"), ("Hand", "cloth")), Some(vec![40.5, 40.5]));
        assert_eq!(shares(("shell", "Steel"), ("cloth", "Wool")), Some(vec![40.5, 40.5]));
        assert_eq!(shares(("shell", "cloth"), ("cloth", "cloth")), Some(vec![40.5, 40.5]), "the name counts first");
    }
}
