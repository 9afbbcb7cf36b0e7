//! What film and rules cost: a guide of a thousand sound schemes of ten steps, as a whole and beside its reading.
//!
//! `cargo bench --bench film`. The two figures are of one run; the time for one scheme is that of `film_and_rules`
//! divided by a thousand.
#![expect(clippy::unwrap_used, reason = "a bench that can't go on has nothing to measure")]

use maulstick::door::Memory;
use maulstick::film::Conditions;
use maulstick::guide::{Guide, resolve};
use maulstick::{rules, source, story};

/// How many schemes the guide has.
const SCHEMES: usize = 1000;

const PAINTS: &str = r##"
maker: Tarn & Daughter
range: Mere
family: water
paints:
  ground: {name: Ground, kind: primer, colour: "#808080", recoat: 1 h, cure: 24 h}
  green: {name: Green, kind: paint, colour: "#5b6b3a", recoat: 20 min}
  pale: {name: Pale, kind: paint, colour: "#a9b27a", recoat: 20 min}
  brown: {name: Brown, kind: paint, colour: "#6b4528", recoat: 20 min}
  iron: {name: Iron, kind: metal, colour: "#6d6f72", recoat: 20 min}
  wash: {name: Wash, kind: wash, colour: "#2b221a", recoat: 1 h}
  gloss: {name: Gloss, kind: varnish, sheen: gloss, recoat: 1 h, cure: 24 h}
  matt: {name: Matt, kind: varnish, sheen: matt, recoat: 1 h, cure: 24 h}
  thinner: {name: Thinner, kind: thinner, suits: [water]}
"##;

/// Name, stage, areas, paint and drying time of each step.
const STEPS: &[(&str, &str, &str, &str, &str)] = &[
    ("10-wash", "prepare", "all", "", "2 h"),
    ("20-ground", "undercoat", "all", "ground", "4 h"),
    ("30-cloth", "basecoat", "cloth", "green", "1 h"),
    ("40-straps", "basecoat", "straps", "brown", "1 h"),
    ("50-fittings", "basecoat", "fittings", "iron", "1 h"),
    ("60-folds", "shade", "all", "wash", "4 h"),
    ("70-ridges", "highlight", "cloth", "pale", "24 h"),
    ("80-seal", "varnish", "all", "gloss", "24 h"),
    ("90-matt", "varnish", "cloth", "matt", "24 h"),
    ("95-strap-matt", "varnish", "straps", "matt", "24 h"),
];

fn guide(schemes: usize) -> Memory {
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: Bench\nauthor: Bench\n")
        .with("content/paints/mere.yaml", PAINTS);
    for scheme in 0..schemes {
        let folder = format!("content/schemes/scheme-{scheme}");
        let areas = "---\ntitle: Warden\nareas: {cloth: 60%, straps: 30%, fittings: 10%}\n---\n";
        door = door.with(&format!("{folder}/scheme.md"), areas);
        for (name, stage, areas, paint, dry) in STEPS {
            let paints = if paint.is_empty() { String::new() } else { format!("paints: [{paint}]\n") };
            let text = format!(
                "---\ntitle: {name}\nstage: {stage}\nareas: [{areas}]\nwith: brush\n{paints}dry: {dry}\nminutes: 3\n---\nPaint it.\n"
            );
            door = door.with(&format!("{folder}/{name}.md"), text);
        }
    }
    door
}

fn resolved() -> Guide {
    let mut source = source::read(&guide(SCHEMES)).unwrap();
    resolve(&mut source).0
}

/// Walking the film of every scheme and putting all rules to it, on one core.
#[divan::bench(sample_count = 20)]
fn film_and_rules(bencher: divan::Bencher) {
    let guide = resolved();
    let conditions = Conditions::of(&guide);
    let found: usize =
        guide.schemes.iter().map(|scheme| rules::check(&guide, scheme, &conditions, story::REGISTRY).len()).sum();
    assert_eq!(found, 0, "the schemes of the bench are sound");
    bencher.bench(|| {
        guide
            .schemes
            .iter()
            .map(|scheme| rules::check(&guide, scheme, &conditions, story::REGISTRY).len())
            .sum::<usize>()
    });
}

/// Reading and resolving the same guide, for comparison.
#[divan::bench(sample_count = 10)]
fn reading_and_resolving(bencher: divan::Bencher) {
    let door = guide(SCHEMES);
    bencher.bench(|| resolve(&mut source::read(&door).unwrap()).1.len());
}

fn main() {
    divan::main();
}
