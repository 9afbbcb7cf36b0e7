//! What painters use for a dozen everyday tasks: the likely figure must lie inside their range.

use super::*;
use crate::door::Memory;
use crate::guide::{Guide, Stock, resolve};
use crate::source;

const PAINTS: &str = r"
maker: Tarn & Daughter
range: Mere
family: water
paints:
  green: {name: Green, kind: paint}
  wash: {name: Wash, kind: wash}
  pond: {name: Pond, kind: one-coat}
  ground: {name: Ground, kind: primer}
  can: {name: Can, kind: primer, family: lacquer}
  matt-can: {name: Matt can, kind: varnish, family: lacquer}
  matt: {name: Matt, kind: varnish}
  glue: {name: Wood glue, kind: glue}
  mud: {name: Mud, kind: texture}
  resin: {name: Still water, kind: varnish, family: two-pack}
  dust: {name: Dust, kind: pigment}
  anchor: {name: Anchor, kind: medium, family: enamel}
  thin: {name: Thinner, kind: thinner}
  oil: {name: Rust oil, kind: oil}
  pale-oil: {name: Pale oil, kind: oil}
  spirit: {name: Spirit, kind: thinner, family: enamel, suits: [enamel, oil]}
";

const FOOT: &str = "{scale: 28 mm}";
const CLOTHED: &str = "{armour: 45%, cloak: 35%, rest: 20%}";
const TILE: &str = "{scale: 28 mm, kind: terrain, surface: 1350 cm2, material: foam}";

/// A task: what is painted, its areas, the steps of which the last one counts, how many models, and what painters use.
type Task = (&'static str, &'static str, &'static str, &'static [&'static str], u32, (f64, f64));

const TASKS: &[Task] = &[
    (
        "prime 10 in a row, can",
        FOOT,
        CLOTHED,
        &["stage: undercoat, areas: [all], with: spray-can, paints: [can]"],
        10,
        (33.0, 80.0),
    ),
    (
        "the same by airbrush, 2 coats",
        FOOT,
        CLOTHED,
        &["stage: undercoat, areas: [all], with: airbrush, coats: 2, paints: [ground]"],
        10,
        (3.0, 5.0),
    ),
    (
        "base colour on the armour of 10",
        FOOT,
        CLOTHED,
        &["stage: basecoat, areas: [armour], with: brush, coats: 2, paints: [green]"],
        10,
        (0.4, 0.8),
    ),
    ("wash over 30", FOOT, CLOTHED, &["stage: shade, areas: [all], with: brush, paints: [wash]"], 30, (4.0, 6.0)),
    (
        "one-coat paint on 10 cloaks",
        FOOT,
        CLOTHED,
        &["stage: basecoat, areas: [cloak], with: brush, paints: [pond]"],
        10,
        (0.4, 0.7),
    ),
    (
        "one-coat paint on 60 cloaks",
        FOOT,
        CLOTHED,
        &["stage: basecoat, areas: [cloak], with: brush, paints: [pond]"],
        60,
        (3.0, 5.0),
    ),
    (
        "varnish 60, can",
        FOOT,
        CLOTHED,
        &["stage: varnish, areas: [all], with: spray-can, paints: [matt-can]"],
        60,
        (160.0, 300.0),
    ),
    (
        "varnish 60, airbrush",
        FOOT,
        CLOTHED,
        &["stage: varnish, areas: [all], with: airbrush, paints: [matt]"],
        60,
        (9.0, 18.0),
    ),
    (
        "varnish 60, brush",
        FOOT,
        CLOTHED,
        &["stage: varnish, areas: [all], with: brush, paints: [matt]"],
        60,
        (6.0, 10.0),
    ),
    (
        "vehicle 1/48, airbrush",
        "{scale: 1/48, kind: vehicle}",
        "{hull: 100%}",
        &[
            "stage: basecoat, areas: [all], with: airbrush, coats: 2, paints: [{use: green, parts: 1}, {use: thin, parts: 1}]",
        ],
        1,
        (3.0, 6.0),
    ),
    (
        "tank 1/56, can",
        "{scale: 1/56, kind: vehicle}",
        "{hull: 100%}",
        &["stage: undercoat, areas: [all], with: spray-can, paints: [can]"],
        1,
        (27.0, 50.0),
    ),
    (
        "drybrush a tile",
        TILE,
        "{rock: 100%}",
        &["stage: layer, areas: [all], with: drybrush, paints: [green]"],
        1,
        (2.0, 5.0),
    ),
    (
        "seal a tile of foam",
        TILE,
        "{rock: 100%}",
        &["stage: undercoat, areas: [all], with: brush, paints: [ground]"],
        1,
        (13.0, 20.0),
    ),
    (
        "seal it with glue",
        TILE,
        "{rock: 100%}",
        &["stage: undercoat, areas: [all], with: brush, paints: [glue]"],
        1,
        (13.0, 20.0),
    ),
    (
        "a colour wash over it",
        TILE,
        "{rock: 100%}",
        &[
            "stage: undercoat, areas: [all], with: brush, paints: [ground]",
            "stage: shade, areas: [all], with: brush, paints: [wash]",
        ],
        1,
        (20.0, 40.0),
    ),
    (
        "seal it where paste lies on it",
        TILE,
        "{rock: 100%}",
        &[
            "stage: basing, areas: [rock], with: hand, deep: 0.5 mm, paints: [mud]",
            "stage: undercoat, areas: [all], with: brush, paints: [ground]",
        ],
        1,
        (13.0, 20.0),
    ),
    (
        "oil dots on a tank",
        "{scale: 1/35, kind: vehicle, surface: 600 cm2}",
        "{hull: 80%, rest: 20%}",
        &[
            "stage: weather, areas: [hull], where: faces, with: brush, unmixed: true, paints: [oil, pale-oil], minutes: 30",
        ],
        1,
        (0.1, 0.2),
    ),
    (
        "streaks of grime on a tank",
        "{scale: 1/35, kind: vehicle, surface: 600 cm2}",
        "{hull: 80%, rest: 20%}",
        &["stage: weather, areas: [hull], with: brush, paints: [green]"],
        1,
        (0.15, 0.5),
    ),
    (
        "streaks of a ready-made wash on a tank",
        "{scale: 1/35, kind: vehicle, surface: 600 cm2}",
        "{hull: 80%, rest: 20%}",
        &["stage: weather, areas: [hull], where: faces, with: brush, paints: [wash]"],
        1,
        (0.15, 0.6),
    ),
    (
        "masking fluid for a tenth of a hull",
        "{scale: 1/35, kind: vehicle, surface: 600 cm2}",
        "{hull: 80%, rest: 20%}",
        &["stage: mask, areas: [hull], with: brush, covers: 10%, paints: [green]"],
        1,
        (0.5, 2.5),
    ),
    (
        "freehand on 10 cloaks",
        FOOT,
        CLOTHED,
        &[
            "stage: basecoat, areas: [cloak], with: brush, paints: [green]",
            "stage: detail, areas: [cloak], where: faces, with: brush, paints: [green]",
        ],
        10,
        (0.05, 0.2),
    ),
    (
        "a cloak that a detail is the colour of, on 10",
        FOOT,
        CLOTHED,
        &["stage: detail, areas: [cloak], where: faces, with: brush, paints: [green]"],
        10,
        (0.15, 0.4),
    ),
    (
        "chips on the sides of a tank by brush",
        "{scale: 1/35, kind: vehicle, surface: 600 cm2}",
        "{hull: 80%, rest: 20%}",
        &["stage: chip, areas: [hull], where: faces, with: brush, paints: [green]"],
        1,
        (0.2, 0.7),
    ),
    (
        "powder brushed into hull and tracks from below",
        "{scale: 1/35, kind: vehicle, surface: 600 cm2}",
        "{hull: 60%, tracks: 15%, rest: 25%}",
        &["stage: pigment, areas: [hull, tracks], where: recesses, from: below, with: brush, paints: [dust]"],
        1,
        (0.7, 2.0),
    ),
    (
        "paste on 10 bases",
        "{scale: 28 mm, base: 25 mm}",
        CLOTHED,
        &["stage: basing, with: brush, deep: 1 mm, paints: [mud]"],
        10,
        (3.0, 5.0),
    ),
    (
        "paste on 60 bases",
        "{scale: 28 mm, base: 25 mm}",
        CLOTHED,
        &["stage: basing, with: brush, deep: 1 mm, paints: [mud]"],
        60,
        (25.0, 35.0),
    ),
    (
        "paste on 20 bases, and nobody says how deep",
        "{scale: 28 mm, base: 25 mm}",
        CLOTHED,
        &["stage: basing, with: hand, paints: [mud]"],
        20,
        (4.0, 10.0),
    ),
    (
        "resin, 4 mm deep",
        "{scale: 28 mm, kind: terrain, surface: 1000 cm2}",
        "{water: 30%, bank: 70%}",
        &["stage: basing, areas: [water], with: hand, deep: 4 mm, paints: [resin]"],
        1,
        (110.0, 130.0),
    ),
    (
        "powder on tracks",
        "{scale: 1/48, kind: vehicle}",
        "{hull: 82%, tracks: 18%}",
        &["stage: pigment, areas: [tracks], with: brush, paints: [dust]"],
        1,
        (1.0, 2.0),
    ),
    (
        "fixer that creeps into powder on tracks",
        "{scale: 1/35, kind: vehicle}",
        "{hull: 80%, tracks: 20%}",
        &[
            "stage: pigment, areas: [tracks], with: brush, paints: [dust]",
            "stage: pigment, areas: [tracks], with: pipette, paints: [anchor]",
        ],
        1,
        (0.6, 1.5),
    ),
    (
        "pin wash",
        "{scale: 1/48, kind: vehicle}",
        "{hull: 100%}",
        &["stage: panel-wash, areas: [all], with: brush, paints: [wash]"],
        1,
        (0.5, 2.0),
    ),
    (
        "edges on 10",
        FOOT,
        CLOTHED,
        &["stage: highlight, areas: [armour], with: brush, paints: [green]"],
        10,
        (0.1, 0.3),
    ),
];

fn guide((_, model, areas, steps, ..): &Task) -> Guide {
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: T\nauthor: A\n")
        .with("content/paints/mere.yaml", PAINTS)
        .with("content/schemes/s/scheme.md", format!("---\ntitle: S\nmodel: {model}\nareas: {areas}\n---\n"));
    for (at, step) in steps.iter().enumerate() {
        let path = format!("content/schemes/s/{}-step.md", 10 + at);
        let title = if step.contains("title:") { "" } else { "title: Step, " };
        door = door.with(&path, format!("---\n{{{title}{step}}}\n---\n"));
    }
    let (guide, findings) = resolve(&mut source::read(&door).unwrap());
    assert!(findings.is_empty(), "{findings:?}");
    guide
}

fn likely(task: &Task) -> f64 {
    let (_, _, _, steps, models, _) = task;
    let guide = guide(task);
    let conditions = Conditions::of(&guide);
    let scheme = &guide.schemes[0];
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, &conditions);
    let surface = ModelSurface::of(scheme, None, &conditions.bench).unwrap();
    let need = step_need(&Stock::of(&guide), &film, steps.len() - 1, &surface, &conditions)
        .unwrap_or_else(|| panic!("{steps:?}"));
    need.for_models(*models).lot.likely.0
}

#[test]
fn everyday_tasks_take_what_painters_use() {
    let outside: Vec<String> = TASKS
        .iter()
        .filter_map(|task| {
            let (name, .., (from, to)) = task;
            let likely = likely(task);
            (!(*from..=*to).contains(&likely)).then(|| format!("{name}: {likely:.2}, not {from} to {to}"))
        })
        .collect();
    assert!(outside.is_empty(), "{}", outside.join("\n"));
}

/// What a brush takes for one model and one coat, in minutes: the more of a figure a colour covers, the longer.
const BRUSHWORK: &[Task] = &[
    ("a belt", FOOT, "{belt: 2%, rest: 98%}", &["stage: basecoat, areas: [belt], paints: [green]"], 1, (0.5, 0.8)),
    ("a cloak", FOOT, CLOTHED, &["stage: basecoat, areas: [cloak], paints: [green]"], 1, (2.0, 3.0)),
    ("one colour all over", FOOT, CLOTHED, &["stage: basecoat, areas: [all], paints: [green]"], 1, (3.0, 5.0)),
    ("a wash all over", FOOT, CLOTHED, &["stage: shade, areas: [all], paints: [wash]"], 1, (0.5, 2.0)),
    ("a wash on the rest", FOOT, CLOTHED, &["stage: shade, areas: [rest], paints: [wash]"], 1, (0.3, 0.6)),
    ("all edges", FOOT, CLOTHED, &["stage: highlight, areas: [all], paints: [green]"], 1, (3.0, 25.0)),
    ("edges of the rest", FOOT, CLOTHED, &["stage: highlight, areas: [rest], paints: [green]"], 1, (2.0, 5.0)),
    (
        "sprayed all over",
        FOOT,
        CLOTHED,
        &["stage: undercoat, with: airbrush, areas: [all], paints: [ground]"],
        1,
        (0.5, 1.0),
    ),
];

const TANK: &str = "{scale: 1/56, kind: vehicle}";
const BUST: &str = "{scale: 1/10, kind: bust, material: resin}";
const HULL: &str = "{hull: 100%}";

/// The same on large models: a wash, a spray and a filter go over all of one at once.
const LARGE: &[Task] = &[
    ("a bust in a bath", BUST, HULL, &["title: Wash it in soapy water, stage: prepare, areas: [all]"], 1, (5.0, 10.0)),
    ("a bust scraped", BUST, HULL, &["title: Scrape the seams, stage: prepare, areas: [all]"], 1, (30.0, 90.0)),
    (
        "light from above on a tank",
        TANK,
        HULL,
        &["stage: highlight, with: airbrush, from: above, areas: [all], paints: [green]"],
        1,
        (8.0, 10.0),
    ),
    (
        "an oil filter on a tank",
        TANK,
        HULL,
        &["stage: glaze, with: brush, areas: [all], paints: [{use: oil, parts: 1}, {use: spirit, parts: 9}]"],
        1,
        (8.0, 12.0),
    ),
    ("edges of a tank", TANK, HULL, &["stage: highlight, areas: [all], paints: [green]"], 1, (40.0, 64.0)),
    ("a bust's skin", BUST, HULL, &["stage: layer, areas: [all], paints: [green]"], 1, (100.0, 200.0)),
];

/// Details by what they are and how large: an eye of a bust is painted, one of a figure is dotted; a drybrush is one under
/// any stage.
const DETAILS: &[Task] = &[
    (
        "eyes of a bust",
        BUST,
        "{face: 95%, eyes: 5%}",
        &["stage: detail, areas: [eyes], where: spots, paints: [green]"],
        1,
        (45.0, 90.0),
    ),
    (
        "eyes of a figure",
        FOOT,
        "{face: 95%, eyes: 5%}",
        &["stage: detail, areas: [eyes], where: spots, paints: [green]"],
        1,
        (1.0, 2.0),
    ),
    (
        "a drybrush told as a detail",
        TANK,
        "{hull: 85%, tracks: 15%}",
        &["stage: detail, areas: [tracks], where: edges, with: drybrush, paints: [green]"],
        1,
        (1.5, 4.0),
    ),
];

#[test]
fn details_take_as_long_as_what_they_are() {
    assert_eq!(minutes_outside(DETAILS), []);
}

/// The minutes of a brushed basecoat on a part of a house.
fn on_a_house(surface: u32, share: u32) -> f64 {
    let model: &'static str =
        format!("{{scale: 28 mm, kind: building, material: foam, surface: {surface} cm2}}").leak();
    let areas: &'static str = format!("{{part: {share}%, rest: {}%}}", 100 - share).leak();
    let task: Task =
        ("", model, areas, &["stage: basecoat, areas: [part], with: brush, paints: [green]"], 1, (0.0, 0.0));
    let tasks = [task];
    let found = minutes_outside(&tasks);
    found.first().map_or(0.0, |(_, minutes)| *minutes)
}

#[test]
fn a_part_of_a_house_takes_longer_the_larger_it_is() {
    for surface in [300, 1000, 2000] {
        let minutes: Vec<f64> = [5, 10, 30, 49, 50, 60, 95].iter().map(|share| on_a_house(surface, *share)).collect();
        assert!(minutes.is_sorted(), "{surface} cm²: {minutes:?}");
    }
    // 600 cm² are 600 cm², whatever stands beside them; a small part is painted neatly.
    let (of_small, of_large) = (on_a_house(1000, 60), on_a_house(2000, 30));
    assert!((of_small - of_large).abs() < 0.01, "{of_small} and {of_large}");
    assert!(on_a_house(2000, 10) > on_a_house(2000, 60) / 6.0 * 1.5);
    // 1200 cm² by house brush: three times a figure's two minutes.
    assert!((on_a_house(2000, 60) - 6.0).abs() < 0.01);
}

/// The tasks whose usual minutes are outside what painters take.
fn minutes_outside(tasks: &[Task]) -> Vec<(&str, f64)> {
    let minutes = |task: &Task| {
        let guide = guide(task);
        let scheme = &guide.schemes[0];
        crate::bench::usual_minutes(scheme, &scheme.steps[0], &Conditions::of(&guide).bench)
    };
    let taken = tasks.iter().map(|task| (task, minutes(task)));
    let outside = taken.filter(|(task, minutes)| !((task.5.0)..=(task.5.1)).contains(minutes));
    outside.map(|(task, minutes)| (task.0, minutes)).collect()
}

#[test]
fn what_goes_over_all_at_once_grows_far_slower_than_brushwork() {
    assert_eq!(minutes_outside(LARGE), []);
}

#[test]
fn brushwork_takes_longer_on_more_of_a_figure() {
    assert_eq!(minutes_outside(BRUSHWORK), []);
}
