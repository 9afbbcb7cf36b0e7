//! What predicted colours cost: a scheme of ten steps and four areas, and the demo guide as a whole.
//!
//! `cargo bench --bench colour`. All figures are of one run. `one_scheme_walked` is the film alone, `one_scheme_predicted`
//! the same with the colours of every zone after every step. `demo_worked_and_paged` is everything between reading
//! and writing; `demo_colours` is what of that is spent on colours: pigments, predictions, brush-outs.
#![expect(clippy::unwrap_used, reason = "a bench that can't go on has nothing to measure")]

use std::collections::BTreeSet;
use std::path::Path;

use maulstick::card::{Fonts, Kit};
use maulstick::colour::{Ground, Mixture, Stack};
use maulstick::door::{Disk, Memory};
use maulstick::film::{Conditions, Film};
use maulstick::guide::{Guide, resolve};
use maulstick::mesh::Meshes;
use maulstick::page::{self, Desk, Ledger};
use maulstick::picture::{self, survey};
use maulstick::report::Files;
use maulstick::work::{brush_outs, work};
use maulstick::{source, story, theme};

const SHELF: &str = include_str!("../tests/cases/shelves/fen.yaml");

/// Four areas from the ground to the varnish.
const STEPS: &[&str] = &[
    "stage: undercoat\nareas: [all]\npaints: [grey-ground]\ncoats: 2",
    "stage: preshade\nareas: [cloth]\nwhere: raised\nwith: airbrush\npaints: [white-ink]",
    "stage: basecoat\nareas: [shell]\nwith: airbrush\npaints: [gold]\ncoats: 3",
    "stage: glaze\nareas: [shell]\nwith: airbrush\npaints: [amber]\ncoats: 5",
    "stage: basecoat\nareas: [cloth]\npaints: [{use: night, parts: 3}, {use: medium, parts: 2}]\ncoats: 2",
    "stage: basecoat\nareas: [straps]\npaints: [red]\ncoats: 2",
    "stage: basecoat\nareas: [lamp]\npaints: [straw]\ncoats: 3",
    "stage: shade\nareas: [cloth, straps]\nwhere: all\npaints: [peat]",
    "stage: highlight\nareas: [straps]\npaints: [{use: red, parts: 1}, {use: straw, parts: 1}]",
    "stage: varnish\nareas: [all]\npaints: [satin]",
];

fn guide() -> Guide {
    let areas = "---\ntitle: S\nareas: {shell: 40%, cloth: 30%, straps: 20%, lamp: 10%}\n---\n";
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: T\nauthor: A\n")
        .with("content/paints/shelf.yaml", SHELF)
        .with("content/schemes/s/scheme.md", areas);
    for (at, step) in STEPS.iter().enumerate() {
        let with = if step.contains("with:") { "" } else { "\nwith: brush" };
        door = door.with(
            &format!("content/schemes/s/{:02}-step.md", at + 10),
            format!("---\ntitle: {at}\n{step}{with}\n---\n"),
        );
    }
    resolve(&mut source::read(&door).unwrap()).0
}

fn demo() -> Disk {
    Disk::new(Path::new(env!("CARGO_MANIFEST_DIR")))
}

fn demo_guide() -> Guide {
    resolve(&mut source::read(&demo()).unwrap()).0
}

/// The film of a scheme alone.
#[divan::bench]
fn one_scheme_walked(bencher: divan::Bencher) {
    let guide = guide();
    let conditions = Conditions::of(&guide);
    let order: Vec<usize> = (0..STEPS.len()).collect();
    bencher.bench(|| Film::walk(&guide.schemes[0], &order, &conditions).coats().len());
}

/// The same with the colours of all zones after every step; the pigments are known.
#[divan::bench]
fn one_scheme_predicted(bencher: divan::Bencher) {
    let guide = guide();
    let conditions = Conditions::of(&guide);
    let order: Vec<usize> = (0..STEPS.len()).collect();
    bencher.bench(|| {
        let film = Film::walk(&guide.schemes[0], &order, &conditions);
        film.appearance(&conditions).changes(0, maulstick::trade::Zone::Faces).count()
    });
}

/// Everything that is worked out about the demo guide, and all its pages.
#[divan::bench(sample_count = 20)]
fn demo_worked_and_paged(bencher: divan::Bencher) {
    bencher.with_inputs(demo_guide).bench_values(|guide| {
        let mut files = Files::default();
        let (pictures, _) = survey(&demo(), &guide.linked_files, &mut files, &mut picture::KeptPictures::default());
        let (theme, _) =
            theme::load(&demo(), &guide, &BTreeSet::new(), &mut files, &mut theme::KeptTheme::default()).unwrap();
        let (worked, _) = work(guide, &Meshes::default(), maulstick::story::REGISTRY);
        let (fonts, _) = Fonts::read(&theme, &worked.guide);
        let (brush_outs, ledger) = (brush_outs(&worked), Ledger::of(&worked));
        let studio = maulstick::render::Studio::default();
        let desk = Desk {
            worked: &worked,
            pictures: &pictures,
            words: &theme.words,
            brush_outs: &brush_outs,
            ledger: &ledger,
            kit: Kit { fonts: &fonts, words: &theme.words },
            studio: &studio,
        };
        page::outline(desk).into_iter().map(|leaf| page::make(desk, leaf, None).path.len()).sum::<usize>()
    });
}

/// What of it is spent on colours, one after the other on one core.
#[divan::bench(sample_count = 20)]
fn demo_colours(bencher: divan::Bencher) {
    bencher.with_inputs(demo_guide).bench_values(|guide| {
        let conditions = Conditions::of(&guide);
        let shelf = &conditions.shelf;
        let white = Stack::on(&Ground::grey(0.85), shelf.surface());
        let pigments = guide.paints.iter().filter_map(|paint| shelf.pigment(&paint.id));
        let mixed = pigments.filter_map(|pigment| Mixture::of(&[(pigment, 1.0)]));
        let brushed: f64 = mixed.map(|mixture| white.lay(&mixture, 2.0).lab().l).sum();
        let changes = guide.schemes.iter().map(|scheme| {
            let order: Vec<usize> = (0..scheme.steps.len()).collect();
            let film = Film::walk(scheme, &order, &conditions);
            film.appearance(&conditions).changes(0, maulstick::trade::Zone::Faces).count()
        });
        (brushed, changes.sum::<usize>())
    });
}

/// Reading and checking the demo guide, for comparison.
#[divan::bench(sample_count = 20)]
fn demo_checked(bencher: divan::Bencher) {
    bencher.bench(|| story::check(&demo()).unwrap().findings.iter().count());
}

fn main() {
    divan::main();
}
