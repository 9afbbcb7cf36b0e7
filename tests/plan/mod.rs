//! Plans of five hundred armies: what they never break, and how near they come to what no plan can beat.

mod checker;
mod random;

use checker::Split;
use maulstick::film::Conditions;
use maulstick::guide::{Army, Guide};
use maulstick::plan::{self, Plan, Task};
use maulstick::report::Finding;

const ARMIES: u64 = 500;

/// The only army of a guide, its plan, and what was found.
fn planned(guide: &Guide) -> (&Army, Option<Plan>, Vec<Finding>) {
    let conditions = Conditions::of(guide);
    let army = guide.armies.first().unwrap();
    (army, plan::plan(army, &conditions), plan::check(guide, &conditions))
}

#[test]
fn plans_of_random_armies_break_nothing_and_come_near_the_bound() {
    let mut gaps = Vec::new();
    let mut beyond = Vec::new();
    for seed in 0..ARMIES {
        let guide = random::guide(seed);
        let (army, plan, findings) = planned(&guide);
        let Some(plan) = plan else {
            assert!(!findings.is_empty(), "seed {seed}: no plan and no reason");
            continue;
        };
        let faults = checker::faults(&plan, army, &Conditions::of(&guide), &split(army, &findings));
        let shown = faults.iter().take(8).map(String::as_str).collect::<Vec<_>>().join("\n");
        assert!(faults.is_empty(), "seed {seed}: {} faults\n{shown}", faults.len());
        assert!(plan.bound <= plan.finish, "seed {seed}");
        gaps.push(plan.gap());
        beyond.push(plan.takes_evenings - plan.least_evenings);
    }
    gaps.sort_unstable();
    beyond.sort_unstable();
    let at = |list: &[u64], part: usize| list[(list.len() - 1) * part / 100];
    println!(
        "{} plans; above the bound, in tenths of a per cent: median {}, three in four {}, nine in ten {}, largest {}",
        gaps.len(),
        at(&gaps, 50),
        at(&gaps, 75),
        at(&gaps, 90),
        at(&gaps, 100)
    );
    println!("evenings above the bound: median {}, nine in ten {}", at(&beyond, 50), at(&beyond, 90));
    assert!(gaps.len() > 480, "only {} armies have a plan", gaps.len());
    assert!(at(&gaps, 50) <= 45, "the median gap is {} tenths of a per cent", at(&gaps, 50));
    assert!(at(&gaps, 90) <= 160, "one gap in ten is beyond {} tenths of a per cent", at(&gaps, 90));
}

/// The steps of which a finding says that they can't be done together.
fn split(army: &Army, findings: &[Finding]) -> Vec<Split> {
    let mut split = Vec::new();
    for (unit, of) in army.units.iter().enumerate() {
        let of_unit = findings.iter().filter(|finding| finding.related.iter().any(|one| one.place == of.place));
        for finding in of_unit {
            let named = |title: &str| finding.message.contains(&format!("'{title}'"));
            let lots = finding.mend.contains("do it in lots");
            let steps = of.scheme.steps.iter().enumerate().filter(|(_, step)| named(&step.title));
            split.extend(steps.map(|(step, _)| Split { unit, step, lots }));
        }
    }
    split
}

#[test]
fn the_same_army_gets_the_same_plan() {
    for seed in [3, 40, 77] {
        let (one, other) = (random::guide(seed), random::guide(seed));
        assert_eq!(planned(&one).1, planned(&other).1, "seed {seed}");
    }
}

/// An army of figures with one colour and two thin layers five minutes apart, on evenings of two hours.
fn layered(models: u32) -> Guide {
    let step = |rest: &str| format!("---\ntitle: T\n{rest}\n---\nPaint.\n");
    let layers =
        "stage: layer\nareas: [cloth]\nwith: brush\npaints: [{use: moss}]\ncoats: 2\nwait: 5 min\nminutes: 4.5";
    let door = maulstick::door::Memory::default()
        .with("content/guide.yaml", "title: T\nauthor: A\n")
        .with(
            "content/paints/mere.yaml",
            "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  moss: {name: Moss, kind: paint}\n\
             \x20 rust: {name: Rust, kind: paint}\n",
        )
        .with("content/schemes/s/scheme.md", "---\ntitle: S\nareas: {cloth: 60%, metal: 40%}\n---\n")
        .with(
            "content/schemes/s/10-metal.md",
            step("stage: basecoat\nareas: [metal]\nwith: brush\npaints: [{use: rust}]\nminutes: 2.5"),
        )
        .with("content/schemes/s/20-layers.md", step(layers))
        .with(
            "content/armies/a.yaml",
            format!(
                "title: A\nunits: [{{scheme: s, models: {models}}}]\n\
                evenings: {{days: [tue], from: \"19:00\", length: 2 h, first: 2027-01-12}}\n"
            ),
        );
    let (guide, findings) = maulstick::guide::resolve(&mut maulstick::source::read(&door).unwrap());
    assert!(findings.is_empty(), "{findings:?}");
    guide
}

#[test]
fn thin_layers_are_split_by_models_and_not_by_coats() {
    for (models, evenings) in [(20, 2), (8, 1)] {
        let guide = layered(models);
        let (army, plan, findings) = planned(&guide);
        let plan = plan.unwrap();
        assert_eq!(checker::faults(&plan, army, &Conditions::of(&guide), &split(army, &findings)), [""; 0]);
        assert_eq!(plan.evenings.len(), evenings, "{models} models");
        let mut done = 0;
        for evening in &plan.evenings {
            let goes = |wanted: u32| {
                evening.blocks.iter().filter_map(move |block| match block.task {
                    Task::Paint { step: 1, coat, first, last, .. } if coat == wanted => Some((first, last)),
                    _ => None,
                })
            };
            let (first, second): (Vec<_>, Vec<_>) = (goes(1).collect(), goes(2).collect());
            assert_eq!(first, second, "{models} models, evening {}", evening.number);
            done += first.iter().map(|(first, last)| last - first + 1).sum::<u32>();
        }
        assert_eq!(done, models);
    }
}

/// The evenings on which a step of the demo army is at work.
fn evenings_of(plan: &Plan, army: &Army, stem: &str) -> Vec<usize> {
    let is_of_step = |task: &Task| match task {
        Task::Paint { unit, step, .. } => {
            army.units.get(*unit).and_then(|unit| unit.scheme.steps.get(*step)).is_some_and(|step| step.stem == stem)
        }
        _ => false,
    };
    let works = plan.evenings.iter().filter(|evening| evening.blocks.iter().any(|block| is_of_step(&block.task)));
    works.map(|evening| evening.number).collect()
}

#[test]
fn the_demo_army_is_chipped_in_time_and_masked_while_it_is_sprayed() {
    let door = maulstick::door::Disk::new(std::path::Path::new(env!("CARGO_MANIFEST_DIR")));
    let (guide, _) = maulstick::guide::resolve(&mut maulstick::source::read(&door).unwrap());
    let (army, plan, findings) = planned(&guide);
    let plan = plan.unwrap();
    assert_eq!(checker::faults(&plan, army, &Conditions::of(&guide), &split(army, &findings)), [""; 0]);
    // The teal lets go of the film under it for some hours only.
    assert_eq!(evenings_of(&plan, army, "40-teal"), evenings_of(&plan, army, "45-chip-the-boards"));
    let [on, over, off] =
        ["70-cover-the-iron", "75-matt-the-boat", "78-bare-the-iron"].map(|stem| evenings_of(&plan, army, stem));
    assert!(on.last() <= over.first() && over.last() <= off.first(), "{on:?} {over:?} {off:?}");
}
