//! Orders of steps: shuffled schemes find back to a sound order, and no sequence of steps whatever upsets the film.

use std::fmt::Write as _;

use crate::reading::{Case, CaseFile, case_files, door_to, parse};
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

/// The rules about a rest that is too short.
const TOO_SHORT: [&str; 5] =
    ["dry-too-short", "varnish-before-dry", "mask-on-uncured", "over-uncured", "decal-not-cured"];

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
    resolve(&mut source::read(&door).unwrap()).0
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

#[test]
fn a_jumble_of_two_hundred_steps_ends_soon() {
    let many: Vec<&str> = SOUND.iter().copied().cycle().take(200).collect();
    let guide = guide_of(&shuffled(&many, 7));
    let began = std::time::Instant::now();
    let found = rules::check(&guide, &guide.schemes[0], &Conditions::of(&guide), story::REGISTRY);
    assert!(found.iter().any(|finding| finding.check.id == "mends-untried"));
    rules::propose_order(&guide, &guide.schemes[0], &Conditions::of(&guide), story::REGISTRY);
    println!("checked and ordered in {:.1} s", began.elapsed().as_secs_f64());
    assert!(began.elapsed().as_secs() < 120, "{:?}", began.elapsed());
}

/// The steps of a case in an order that dice threw: the files' numbers go round, their names and texts stay together.
fn throw(case: &mut Case, seed: u64) -> Vec<String> {
    let is_step = |file: &CaseFile| file.name.as_bytes().first().is_some_and(u8::is_ascii_digit);
    let names: Vec<String> = case.files.iter().filter(|file| is_step(file)).map(|file| file.name.clone()).collect();
    let bare = |name: &str| name.split_once('-').map(|(_, rest)| rest.to_owned()).unwrap();
    // Two steps of one name are told apart by a letter that their place in the author's order gives them.
    let letters: Vec<&str> = names.iter().map(String::as_str).collect();
    let order = shuffled(&letters, seed);
    for file in case.files.iter_mut().filter(|file| is_step(file)) {
        let at = order.iter().position(|name| *name == file.name).unwrap();
        let own = names.iter().position(|name| *name == file.name).unwrap();
        let rest = bare(&file.name);
        if !file.lines.iter().any(|line| line.starts_with("title:")) {
            file.lines.push(format!("title: {rest}"));
        }
        file.lines.retain(|line| !line.starts_with("after:"));
        file.name = format!("{:03}-{own:02}-{rest}", at + 1);
    }
    names
}

/// How many pairs of steps stand in the author's order, of how many.
#[derive(Default)]
struct Kept {
    right: usize,
    all: usize,
}

impl Kept {
    fn rate(&self) -> f64 {
        f64::from(u32::try_from(self.right).unwrap()) / f64::from(u32::try_from(self.all).unwrap().max(1))
    }

    fn note(&mut self, right: bool) {
        self.right += usize::from(right);
        self.all += 1;
    }
}

#[test]
fn shuffled_sound_schemes_come_back_to_the_author_s_order() {
    let sound: Vec<_> = case_files().into_iter().filter(|path| path.parent().unwrap().ends_with("sound")).collect();
    let (mut meeting, mut staged, mut same, mut before) =
        (Kept::default(), Kept::default(), Kept::default(), Kept::default());
    let (mut schemes, mut silent) = (0, 0);
    for path in sound {
        let (shelf, cases) = parse(&std::fs::read_to_string(&path).unwrap());
        for (nth, _) in cases.iter().enumerate() {
            for seed in 1..=3 {
                let mut case = parse(&std::fs::read_to_string(&path).unwrap()).1.swap_remove(nth);
                if seed == 1 {
                    let guide = resolve(&mut source::read(&door_to(&case, &shelf)).unwrap()).0;
                    let own = rules::propose_order(&guide, &guide.schemes[0], &Conditions::of(&guide), story::REGISTRY);
                    assert_eq!(own, None, "{} is sound, and stays as it is", case.name);
                }
                throw(&mut case, seed);
                let guide = resolve(&mut source::read(&door_to(&case, &shelf)).unwrap()).0;
                let Some(scheme) = guide.schemes.first() else { continue };
                let conditions = Conditions::of(&guide);
                let own: Vec<usize> = (0..scheme.steps.len()).collect();
                let order = rules::propose_order(&guide, scheme, &conditions, story::REGISTRY).unwrap_or(own);
                let place = |step: usize| order.iter().position(|one| *one == step).unwrap();
                let author = |step: usize| scheme.steps[step].stem[4..6].parse::<usize>().unwrap();
                schemes += 1;
                let mut wrong = Vec::new();
                for (one, other) in (0..order.len()).flat_map(|one| (0..one).map(move |other| (one, other))) {
                    let (a, b) = (&scheme.steps[one], &scheme.steps[other]);
                    let right = (place(one) < place(other)) == (author(one) < author(other));
                    let meet = a.areas.iter().any(|area| b.areas.contains(area));
                    if meet && a.stage != b.stage {
                        meeting.note(right);
                        before.note((one < other) == (author(one) < author(other)));
                        if !right {
                            wrong.push(format!("{} ~ {}", a.stem, b.stem));
                        }
                    }
                    if meet && a.stage == b.stage {
                        same.note(right);
                    }
                    if !meet && a.stage != b.stage {
                        staged.note(right);
                    }
                }
                silent += usize::from(wrong.is_empty());
                if std::env::var_os("SHOW").is_some() {
                    println!("{} [{seed}]: {}", case.name, wrong.join(", "));
                }
            }
        }
    }
    println!(
        "{schemes} shuffles, {silent} without a pair astray; pairs in the author's order: {:.1} % where steps of two \
         stages meet on an area (shuffled {:.1} %), {:.1} % of one stage on an area, {:.1} % of two stages that never meet",
        100.0 * meeting.rate(),
        100.0 * before.rate(),
        100.0 * same.rate(),
        100.0 * staged.rate()
    );
    assert!(meeting.rate() >= 0.95, "{:.3}", meeting.rate());
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
                prop_assert!(now.is_none_or(|now| film.turns().get(now.top.step).is_some()));
            }
            prop_assert!(film.rests(position).iter().all(|rest| rest.time.0.is_finite() && rest.time.0 >= 0.0));
            prop_assert!(film.idle(position).0.is_finite() && film.idle(position).0 >= 0.0);
        }
        if steps.iter().all(|step| !step.contains("dry:")) {
            let told = found.iter().find(|finding| TOO_SHORT.contains(&finding.check.id));
            prop_assert!(told.is_none(), "{told:?} is about a wait that nobody wrote");
        }
        for coat in film.coats() {
            prop_assert!((0.0..=1.0).contains(&coat.cover) && coat.dry.0.is_finite() && coat.laid.0.is_finite());
        }
    }
}
