//! Bytes as the mesh of a model: STL, OBJ or PLY.

use std::sync::OnceLock;

use maulstick::guide::{Guide, resolve};
use maulstick::mesh::{KeptMeshes, survey};
use maulstick::source;

use super::guide::{placed, small};

const SCHEME: &str = "---\ntitle: Heron\nareas: {wings: 100%}\nmodel: {mesh: heron.ENDING}\n---\n";

const ENDINGS: [&str; 3] = ["stl", "obj", "ply"];

/// Measures the bytes; the first byte says as what.
///
/// # Panics
/// Where the program breaks a promise.
pub fn run(data: &[u8]) {
    static GUIDES: OnceLock<[(Guide, maulstick::report::Files); 3]> = OnceLock::new();
    let guides = GUIDES.get_or_init(|| ENDINGS.map(guide_with_mesh));
    let Some((first, mesh)) = data.split_first() else { return };
    let at = usize::from(first % 3);
    let (guide, files) = &guides[at];
    let door = small().with(&format!("content/schemes/heron/heron.{}", ENDINGS[at]), mesh);
    let (_, findings) = survey(&door, guide, &mut KeptMeshes::default());
    placed(findings.iter(), files);
}

fn guide_with_mesh(ending: &str) -> (Guide, maulstick::report::Files) {
    let door = small()
        .with("content/schemes/heron/scheme.md", SCHEME.replace("ENDING", ending))
        .with(&format!("content/schemes/heron/heron.{ending}"), "");
    let mut source = source::read(&door).expect("a guide in memory can be read");
    let (guide, _) = resolve(&mut source);
    assert!(guide.schemes.iter().any(|scheme| scheme.model.mesh.is_some()), "a scheme has a mesh");
    (guide, source.files)
}
