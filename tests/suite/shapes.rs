//! Models of other shapes than the demo's: all areas are found, and they are drawn without holes, specks or seams.

use std::path::Path;
use std::process::Command;

use booth::{AreaLook, Baked, Mesh, Tone, View};
use maulstick::door::Memory;
use maulstick::story;

use crate::bench::Bench;

/// The files that the script writes, with how a scheme names their areas.
const SHAPES: [(&str, &str); 5] = [
    ("knot.obj", "first: {}, second: {}"),
    ("bust.obj", "skin: {}, coat: {}, plinth: {}"),
    ("boxes.obj", "hull: {}, turret: {}, tracks: {}"),
    ("terrain.obj", "ground: {}, hut: {}"),
    ("scan.ply", "top: {map: '#dc1e1e'}, foot: {map: '#1e1edc'}"),
];

/// A pixel stands out from those around it by more than this.
const SPECK: u8 = 36;

/// No more than this part of a model may be specks: corners that are one pixel wide are some, too.
const FEW: f64 = 0.002;

#[test]
#[ignore = "needs python3; tests/run.sh brings it"]
fn models_of_any_shape_are_drawn_without_holes_specks_or_seams() {
    let bench = Bench::empty();
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures/shapes.py");
    let run = Command::new("python3").arg(&script).arg(bench.path("shapes")).status().unwrap();
    assert!(run.success());
    for (file, areas) in SHAPES {
        let bytes = std::fs::read(bench.path(&format!("shapes/{file}"))).unwrap();
        let front = format!(
            "---\ntitle: Model\nareas: {{{areas}}}\nmodel: {{name: Model, mesh: {file}, mesh-scale: 1}}\n---\n"
        );
        let door = Memory::default()
            .with("content/guide.yaml", "title: Guide\nauthor: Ada\n")
            .with("content/schemes/model/scheme.md", front)
            .with(&format!("content/schemes/model/{file}"), bytes);
        let checked = story::check(&door).unwrap();
        let told: Vec<&str> = checked.findings.iter().map(|finding| finding.check.id).collect();
        let shape = checked.worked.called("model").unwrap().shape.clone().unwrap_or_else(|| panic!("{file}: {told:?}"));
        assert!(shape.areas.iter().all(|area| *area > 0.0), "{file}: {:?}", shape.areas);
        for turn in [20.0, 140.0, 260.0] {
            clean(file, &shape.drawn, &View { turn, height: 25.0, near: None, width: 300 });
        }
    }
}

/// Looks at a mesh from a side, white and black.
fn clean(file: &str, mesh: &Mesh, view: &View) {
    let baked = Baked::of(mesh, view).unwrap();
    let draw = |light: f32| {
        let tone = Tone { colour: [light; 3], ..Tone::default() };
        let look = AreaLook { zones: [tone; 3], ..AreaLook::default() };
        let [.., picture] = baked.develop(&baked.shade(&[], &look));
        picture
    };
    let (white, black) = (draw(0.6), draw(0.0));
    let grey = |at: usize| white.bytes[at * 3];
    // What is black all over when painted black is model; what is seen of the paper never is.
    let model: Vec<bool> = black.bytes.chunks_exact(3).map(|pixel| pixel.iter().all(|channel| *channel < 3)).collect();
    let around = |at: usize| {
        let rows = [at - white.width, at, at + white.width];
        rows.into_iter().flat_map(|row| [row - 1, row, row + 1])
    };
    let inner = white.width + 1..white.width * (white.height - 1) - 1;
    let inside: Vec<usize> = inner.filter(|at| around(*at).all(|at| model[at])).collect();
    assert!(inside.len() * 20 > model.len(), "{file} from {}: only {} pixels", view.turn, inside.len());
    let unset = inside.iter().filter(|at| grey(**at) < 3).count();
    assert_eq!(unset, 0, "{file} from {}: pixels that nothing lights", view.turn);
    let pinholes = (white.width + 1..white.width * (white.height - 1) - 1)
        .filter(|at| !model[*at] && around(*at).filter(|at| model[*at]).count() == 8);
    assert_eq!(pinholes.count(), 0, "{file} from {}: the paper shows through", view.turn);
    let is_speck = |at: &&usize| {
        let mut all: Vec<u8> = around(**at).map(grey).collect();
        all.sort_unstable();
        grey(**at).abs_diff(all[4]) > SPECK
    };
    let specks = inside.iter().filter(is_speck).count() as f64 / inside.len() as f64;
    assert!(specks <= FEW, "{file} from {}: {:.2} % of it are specks", view.turn, specks * 100.0);
}
