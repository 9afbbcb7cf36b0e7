//! What the picture of a step costs: a view baked once, or the light of a photo of the bare model read once, then shaded and
//! packed in all sizes for every step.

use booth::{AreaLook, Baked, Bare, Mesh, Photo, Tone, View};

fn main() {
    divan::main();
}

/// A knotted tube of so many triangles, in two areas.
fn knot(triangles: usize) -> Mesh {
    let around = 40;
    let along = triangles / (2 * around);
    let middle = |at: f32| {
        let turn = at * std::f32::consts::TAU;
        let wide = 2.0 + (3.0 * turn).cos();
        [wide * (2.0 * turn).cos(), (3.0 * turn).sin() + 1.8, wide * (2.0 * turn).sin()]
    };
    let mut mesh = Mesh::default();
    for step in 0..along {
        let at = step as f32 / along as f32;
        let [x, y, z] = middle(at);
        for side in 0..around {
            let turn = side as f32 / around as f32 * std::f32::consts::TAU;
            let out = 0.42 + 0.03 * (turn * 7.0).sin();
            let aslant = (2.0 * at * std::f32::consts::TAU).sin_cos();
            mesh.corners.push([x + out * turn.cos() * aslant.1, y + out * turn.sin(), z + out * turn.cos() * aslant.0]);
        }
    }
    let corner = |step: usize, side: usize| u32::try_from(step % along * around + side % around).unwrap_or_default();
    for step in 0..along {
        for side in 0..around {
            let (a, b) = (corner(step, side), corner(step + 1, side));
            let (c, d) = (corner(step + 1, side + 1), corner(step, side + 1));
            mesh.faces.extend([[a, b, c], [a, c, d]]);
            mesh.areas.extend([u16::from(step * 2 > along); 2]);
        }
    }
    mesh
}

const VIEW: View = View { turn: 330.0, height: 14.0, near: None, width: 960 };

/// All that mesh and view decide.
#[divan::bench(args = [15_000, 100_000], sample_count = 10)]
fn bake(bencher: divan::Bencher, triangles: usize) {
    let mesh = knot(triangles);
    bencher.bench(|| Baked::of(&mesh, &VIEW).map(|baked| baked.weight()));
}

/// One step, shaded and packed at 960 and 480 pixels.
#[divan::bench(sample_count = 20)]
fn step(bencher: divan::Bencher) {
    let baked = Baked::of(&knot(100_000), &VIEW);
    let tone = |light: f32| Tone { colour: [0.4 * light, 0.2 * light, 0.1 * light], ..Tone::default() };
    let look = AreaLook { zones: [tone(0.4), tone(1.0), tone(1.6)], ..AreaLook::default() };
    bencher.bench(|| {
        let baked = baked.as_ref()?;
        let sizes = baked.develop(&baked.shade(&[look.clone(), look.clone()], &AreaLook::default()));
        sizes.iter().map(|pixels| Some(pixels.jpeg()?.len())).sum::<Option<usize>>()
    });
}

/// Surface, shares and zones.
#[divan::bench(args = [15_000, 100_000], sample_count = 10)]
fn measure(bencher: divan::Bencher, triangles: usize) {
    let mesh = knot(triangles);
    bencher.bench(|| booth::measure(&mesh, 2).areas.len());
}

/// All that a photo of the bare model decides.
#[divan::bench(sample_count = 10)]
fn photo(bencher: divan::Bencher) {
    let (width, height) = (960_u16, 1200_u16);
    let pixels = (0..height)
        .flat_map(|y| (0..width).map(move |x| [u8::try_from((x / 7 + y / 5) % 180 + 40).unwrap_or_default(); 3]))
        .collect();
    let areas = (0..u32::from(width) * u32::from(height) * 4).map(|at| u16::from(at % 1920 > 900)).collect();
    let photo = Photo { width: width.into(), height: height.into(), pixels, areas };
    let bare = Bare { coat: [0.3; 3], zones: [0.2, 0.2] };
    bencher.bench(|| photo.bake(&bare).map(|baked| baked.weight()));
}
