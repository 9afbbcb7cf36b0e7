//! Orders of steps: shuffled schemes find back to a sound order, and no sequence of steps whatever upsets the film.
#![expect(clippy::unwrap_used, reason = "a test says what is wrong by stopping")]

use std::fmt::Write as _;

use maulstick::door::Memory;
use maulstick::film::{Conditions, Film, surface_now};
use maulstick::guide::{Guide, resolve};
use maulstick::report::Level;
use maulstick::trade::Zone;
use maulstick::trade::{Reach, Stage, Technique};
use maulstick::{rules, source, story};
use proptest::prelude::*;

/// The faces speak for an area where anything lies on them.
const ZONES: [Zone; 3] = [Zone::Faces, Zone::Edges, Zone::Recesses];

const SHELF: &str = include_str!("cases/shelves/fen.yaml");

/// A scheme of ten steps that is sound as it stands: decals, a candy shell, cloth, weathering, varnish.
const SOUND: &[&str] = &[
    "title: Ground\nstage: undercoat\nareas: [all]\npaints: [grey-ground]\ndry: 24 h",
    "title: Gold\nstage: basecoat\nareas: [shell]\nwith: airbrush\npaints: [gold]\ncoats: 3\ndry: 24 h",
    "title: Bright edges\nstage: highlight\nareas: [shell]\npaints: [gold]\ndry: 24 h",
    "title: Amber\nstage: glaze\nareas: [shell]\nwith: airbrush\npaints: [amber]\ncoats: 4\ndry: 24 h",
    "title: Red\nstage: basecoat\nareas: [cloth]\npaints: [red]\ncoats: 2\ndry: 24 h",
    "title: Peat\nstage: shade\nareas: [cloth]\npaints: [peat]\ndry: 24 h",
    "title: Gloss\nstage: varnish\nareas: [all]\npaints: [gloss]\ndry: 24 h",
    "title: Marks\nstage: decal\nareas: [cloth]\nwhere: spots\npaints: [settle]\ndry: 24 h",
    "title: Seal\nstage: varnish\nareas: [cloth]\npaints: [satin]\ndry: 24 h",
    "title: Grime\nstage: panel-wash\nareas: [shell]\npaints: [grime]\ndry: 3 d",
];

fn guide_of(steps: &[String]) -> Guide {
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: T\nauthor: A\n")
        .with("content/paints/shelf.yaml", SHELF)
        .with("content/schemes/s/scheme.md", "---\ntitle: S\nareas: {shell: 60%, cloth: 40%}\n---\n");
    for (at, step) in steps.iter().enumerate() {
        let with = if step.contains("with:") { "" } else { "with: brush\n" };
        door = door.with(&format!("content/schemes/s/{:03}-step.md", at + 1), format!("---\n{step}\n{with}---\n"));
    }
    resolve(&source::read(&door).unwrap()).0
}

/// A small generator of its own, so that the shuffles are the same everywhere (Marsaglia's xorshift).
fn shuffled(steps: &[&str], seed: u64) -> Vec<String> {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    let mut next = |below: usize| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        usize::try_from(state % below as u64).unwrap()
    };
    let mut steps: Vec<String> = steps.iter().map(|step| (*step).to_owned()).collect();
    for at in (1..steps.len()).rev() {
        steps.swap(at, next(at + 1));
    }
    steps
}

fn ordering_faults(guide: &Guide) -> usize {
    let ordering = |id: &str| rules::RULES.iter().any(|rule| rule.ordering && rule.check.id == id);
    let found = rules::check(guide, &guide.schemes[0], &Conditions::of(guide), story::REGISTRY);
    found.iter().filter(|finding| finding.level() != Level::Note && ordering(finding.check.id)).count()
}

#[test]
fn nine_of_ten_shuffled_schemes_find_back_to_a_sound_order() {
    let sound: Vec<String> = SOUND.iter().map(|step| (*step).to_owned()).collect();
    let guide = guide_of(&sound);
    assert_eq!(rules::check(&guide, &guide.schemes[0], &Conditions::of(&guide), story::REGISTRY), []);
    let rounds = 100;
    let mut mended = 0;
    let mut broken = 0;
    for seed in 1..=rounds {
        let steps = shuffled(SOUND, seed);
        let guide = guide_of(&steps);
        broken += usize::from(ordering_faults(&guide) > 0);
        let order = rules::propose_order(&guide, &guide.schemes[0], &Conditions::of(&guide), story::REGISTRY);
        let order = order.unwrap_or_else(|| (0..steps.len()).collect());
        let again: Vec<String> = order.iter().map(|at| steps[*at].clone()).collect();
        mended += usize::from(ordering_faults(&guide_of(&again)) == 0);
    }
    println!(
        "{broken} of {rounds} shuffles were out of order; {mended} of {rounds} are in order after the proposed moves"
    );
    assert!(broken >= 90 && mended >= 90, "{broken} broken, {mended} mended");
}

fn any_step() -> impl Strategy<Value = String> {
    let paint = prop::sample::select(vec![
        "grey-ground",
        "black-can",
        "red",
        "night",
        "peat",
        "iron",
        "gold",
        "amber",
        "gloss",
        "matt",
        "hot-gloss",
        "tar",
        "grime",
        "rust",
        "dust",
        "fixer",
        "let-go",
        "settle",
        "mud",
        "medium",
        "water",
        "spirit",
    ]);
    let areas = prop::sample::select(vec!["[all]", "[shell]", "[cloth]", "[shell, cloth]", "[nowhere]", "[]"]);
    let time = prop::sample::select(vec!["", "0 min", "20 min", "24 h", "700 d"]);
    (
        prop::sample::select(Stage::NAMES),
        prop::sample::select(Technique::NAMES),
        prop::sample::select(Reach::NAMES),
        prop::collection::vec((paint, 1..9_u32), 0..4),
        areas,
        (time.clone(), time),
        1..100_000_u32,
    )
        .prop_map(|(stage, with, reach, paints, areas, (wait, dry), coats)| {
            let mut step =
                format!("title: X\nstage: {stage}\nwith: {with}\nwhere: {reach}\nareas: {areas}\ncoats: {coats}");
            let lines: Vec<String> =
                paints.iter().map(|(id, parts)| format!("{{use: {id}, parts: {parts}}}")).collect();
            for (key, value) in [("wait", wait), ("dry", dry)] {
                if !value.is_empty() {
                    write!(step, "\n{key}: {value}").unwrap();
                }
            }
            if !lines.is_empty() {
                write!(step, "\npaints: [{}]", lines.join(", ")).unwrap();
            }
            step
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_sequence_of_steps_upsets_the_film(steps in prop::collection::vec(any_step(), 0..12)) {
        let guide = guide_of(&steps);
        let (scheme, conditions) = (&guide.schemes[0], Conditions::of(&guide));
        let found = rules::check(&guide, scheme, &conditions, story::REGISTRY);
        prop_assert_eq!(&found, &rules::check(&guide, scheme, &conditions, story::REGISTRY));
        prop_assert!(found.iter().all(|finding| !finding.mend.is_empty() && !finding.message.ends_with('.')));
        let order: Vec<usize> = (0..scheme.steps.len()).chain([99]).collect();
        let film = Film::walk(scheme, &order, &conditions);
        prop_assert_eq!(film.turns().len(), scheme.steps.len());
        for position in 0..=film.turns().len() {
            for area in 0..3 {
                let now = surface_now(film.after(position), area, ZONES, &conditions.bench);
                prop_assert!(now.is_none_or(|now| now.dry_after <= now.cured_after));
            }
        }
        for coat in film.coats() {
            prop_assert!((0.0..=1.0).contains(&coat.cover) && coat.dry.0.is_finite() && coat.laid.0.is_finite());
        }
    }
}
