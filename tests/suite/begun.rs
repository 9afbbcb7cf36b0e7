//! What a plan goes on with once it was begun: coats, masks, and hulls that are closed when all in them is painted.

use serde_json::Value;

use crate::bench::Bench;

/// A guide with schemes of these steps, each after an undercoat, and an army of one model of each on evenings of a length.
fn guide(schemes: &[(&str, &[(&str, &str)])], length: &str) -> Bench {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\n");
    bench.write("content/tools.yaml", "tools:\n  tape: {name: Masking tape}\n  knife: {name: Knife}\n");
    bench.write(
        "content/paints/mere.yaml",
        "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  start: {name: Start, kind: primer, thin-with: []}\n\
         \x20 moss: {name: Moss, kind: paint, hiding: opaque}\n  rust: {name: Rust, kind: paint, hiding: opaque}\n\
         \x20 clay: {name: Clay, kind: paint, hiding: opaque}\n",
    );
    let ground = "stage: undercoat\nareas: [all]\nwith: brush\npaints: [{use: start}]\nminutes: 5\ndry: 12 h";
    for (scheme, steps) in schemes {
        let head = format!("title: {scheme}\nareas: {{hull: 60%, seat: 40%}}\nmodel: {{surface: 20 cm2}}");
        bench.write(&format!("content/schemes/{scheme}/scheme.md"), format!("---\n{head}\n---\n"));
        for (at, (stem, step)) in [("ground", ground)].iter().chain(*steps).enumerate() {
            let file = format!("content/schemes/{scheme}/{}-{stem}.md", 10 + 10 * at);
            bench.write(&file, format!("---\ntitle: {stem}\n{step}\n---\nWork.\n"));
        }
    }
    let units: Vec<String> = schemes.iter().map(|(scheme, _)| format!("{{scheme: {scheme}, models: 1}}")).collect();
    let evenings = format!("evenings: {{days: [tue, thu], from: \"19:00\", length: {length}, first: 2027-01-12}}");
    bench.write("content/armies/watch.yaml", format!("title: The Watch\nunits: [{}]\n{evenings}\n", units.join(", ")));
    bench
}

/// A stretch of a plan: its evening, what is done, and when it begins and ends.
#[derive(Debug)]
struct Done {
    evening: usize,
    /// `20-hull 1`, or what is done with a tool.
    what: String,
    start: u64,
    end: u64,
}

fn planned(bench: &Bench) -> Vec<Done> {
    let run = bench.run(&["plan", ".", "watch", "--format", "json"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let plan: Value = serde_json::from_str(&run.out).unwrap();
    let mut all = Vec::new();
    for (evening, told) in plan["evenings"].as_array().unwrap().iter().enumerate() {
        for block in told["blocks"].as_array().unwrap() {
            let step = block["step"].as_str().map(|step| format!("{step} {}", block["coat"]));
            let what = step.unwrap_or_else(|| block["do"].as_str().unwrap().to_owned());
            all.push(Done {
                evening,
                what,
                start: block["start"].as_u64().unwrap(),
                end: block["end"].as_u64().unwrap(),
            });
        }
    }
    all
}

fn of<'d>(all: &'d [Done], what: &str) -> &'d Done {
    all.iter().find(|done| done.what == what).unwrap_or_else(|| panic!("no {what}: {all:?}"))
}

#[test]
fn a_hull_is_closed_when_all_that_it_hides_is_painted_and_dry() {
    let bench = guide(
        &[(
            "boat",
            &[
                ("seat", "stage: basecoat\nareas: [seat]\nwith: brush\npaints: [{use: moss}]\nminutes: 5\ndry: 24 h"),
                (
                    "close",
                    "stage: assemble\nareas: [hull]\nhides: [seat]\nwith: hand\ntools: [knife]\nminutes: 20\ndry: 12 h",
                ),
                ("hull", "stage: basecoat\nareas: [hull]\nwith: brush\npaints: [{use: rust}]\nminutes: 30\ndry: 24 h"),
                (
                    "light",
                    "stage: highlight\nareas: [hull]\nwith: brush\npaints: [{use: clay}]\nminutes: 30\ndry: 24 h",
                ),
            ],
        )],
        "1 h",
    );
    let all = planned(&bench);
    // The seat dries for a day before it is shut in.
    assert!(of(&all, "20-seat 1").evening < of(&all, "30-close 1").evening, "{all:?}");
}

#[test]
fn between_sprayed_coats_that_are_minutes_apart_no_long_work_is_taken_up() {
    let sprayed = "stage: basecoat\nareas: [hull, seat]\nwith: airbrush\npaints: [{use: rust}]\ncoats: 2\nwait: 3 min\nminutes: 10\ndry: 24 h";
    let light = "stage: highlight\nareas: [hull]\nwith: brush\npaints: [{use: clay}]\nminutes: 30\ndry: 24 h";
    let cloth = "stage: basecoat\nareas: [hull, seat]\nwith: brush\npaints: [{use: moss}]\nminutes: 50\ndry: 24 h";
    let bench = guide(&[("boat", &[("hull", sprayed), ("light", light)]), ("guard", &[("cloth", cloth)])], "2 h");
    let all = planned(&bench);
    assert_eq!(of(&all, "20-hull 2").start, of(&all, "20-hull 1").end + 180, "{all:?}");
}

#[test]
fn a_step_that_was_begun_is_ended_before_another_is_opened() {
    let layer = |area: &str, paint: &str, coats: u32| {
        format!(
            "stage: layer\nareas: [{area}]\nwith: brush\npaints: [{{use: {paint}}}]\ncoats: {coats}\nminutes: 50\ndry: 1 h"
        )
    };
    let (glaze, steel, gold) = (layer("seat", "moss", 4), layer("hull", "rust", 3), layer("hull", "clay", 3));
    let bench = guide(&[("bust", &[("glaze", &glaze), ("steel", &steel), ("gold", &gold)])], "1 h");
    let all = planned(&bench);
    // One coat fills an evening: ten of them, after the undercoat.
    assert_eq!(all.last().unwrap().evening, 10, "{all:?}");
    for (step, coats) in [("20-glaze", 4), ("30-steel", 3), ("40-gold", 3)] {
        let evenings: Vec<usize> = (1..=coats).map(|coat| of(&all, &format!("{step} {coat}")).evening).collect();
        assert_eq!(evenings[coats - 1] - evenings[0], coats - 1, "{step}: {all:?}");
    }
}

const MASKED: [(&str, &str); 4] = [
    ("base", "stage: basecoat\nareas: [hull, seat]\nwith: brush\npaints: [{use: moss}]\nminutes: 10\ndry: 12 h"),
    ("mask", "stage: mask\nareas: [seat]\nwith: hand\ntools: [tape]\nminutes: 20"),
    ("hull", "stage: basecoat\nareas: [hull]\nwith: airbrush\npaints: [{use: rust}]\nminutes: 10\ndry: 30 min"),
    ("bare", "stage: unmask\nareas: [seat]\nwith: hand\nminutes: 5"),
];

/// What the check says of a mask that lies over night.
fn over_night(bench: &Bench) -> Vec<[String; 3]> {
    let said = bench.run(&["check", "--strict", "--format", "json"]).out;
    let findings: Value = serde_json::from_str(&said).unwrap();
    let found = findings["findings"].as_array().unwrap().iter();
    let text = |finding: &Value, key: &str| finding[key].as_str().unwrap_or_default().to_owned();
    let of_masks = found.filter(|finding| finding["rule"] == "too-long-for-an-evening");
    of_masks.map(|finding| ["level", "message", "mend"].map(|key| text(finding, key))).collect()
}

#[test]
fn a_mask_goes_on_and_comes_off_on_one_evening_or_it_is_told() {
    let bust = |minutes: u32| {
        format!(
            "stage: layer\nareas: [hull, seat]\nwith: brush\npaints: [{{use: clay}}]\ncoats: 4\nminutes: {minutes}\ndry: 1 h"
        )
    };
    let bench = guide(&[("boat", &MASKED), ("bust", &[("glaze", &bust(65))])], "2 h");
    let all = planned(&bench);
    assert_eq!(of(&all, "30-mask 1").evening, of(&all, "50-bare 1").evening, "{all:?}");
    assert_eq!(over_night(&bench), [[""; 3]; 0]);
    // Mask 20, airbrush 8, paint 10, drying 30, mask off 5: 73 min.
    let bench = guide(&[("boat", &MASKED), ("bust", &[("glaze", &bust(50))])], "1 h");
    let all = planned(&bench);
    assert_eq!(of(&all, "30-mask 1").evening + 1, of(&all, "50-bare 1").evening, "{all:?}");
    let told = over_night(&bench);
    let [[level, message, mend]] = told.as_slice() else { panic!("{told:?}") };
    assert_eq!(level, "note");
    assert_eq!(
        message,
        "the mask of 'mask' lies on the paint over night, longer than 12 h: until 'bare' it takes 1 h 13 min; an evening has 1 h"
    );
    assert!(mend.starts_with("make the evenings at least 1 h 15 min long"), "{mend}");
}

#[test]
fn an_airbrush_that_is_put_away_earlier_leaves_no_wait_in_which_nothing_dries() {
    let trim = "stage: layer\nareas: [seat]\nwith: brush\npaints: [{use: clay}]\nminutes: 20\ndry: 12 h";
    let steps: Vec<(&str, &str)> = MASKED.into_iter().chain([("trim", trim)]).collect();
    let bench = guide(&[("boat", &steps)], "3 h");
    let all = planned(&bench);
    // A minute and a half to take up the brush.
    assert_eq!(of(&all, "60-trim 1").start, of(&all, "50-bare 1").end + 90, "{all:?}");
}
