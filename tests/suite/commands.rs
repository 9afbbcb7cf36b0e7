//! The commands as somebody types them: what they say, what they leave behind, and their exit status.

use crate::bench::{self, Bench};
use crate::site::published_demo;

#[test]
fn without_a_command_a_short_help_is_shown() {
    let run = Bench::empty().run(&[]);
    assert_eq!(run.status, 2);
    for command in ["start", "check", "publish", "match", "swatch", "schema"] {
        assert!(run.err.contains(command), "{}", run.err);
    }
}

#[test]
fn a_first_guide_is_laid_out_checked_and_published() {
    let bench = Bench::empty();
    let start = bench.run(&["start", "mine"]);
    assert_eq!(start.status, 0, "{}", start.err);
    let check = bench.run(&["check", "mine", "--strict"]);
    assert_eq!((check.status, check.out.as_str()), (0, "no findings\n"));
    let publish = bench.run(&["publish", "mine"]);
    assert_eq!(publish.status, 0, "{}", publish.err);
    assert!(bench.path("mine/published/index.html").is_file());
    assert!(bench.path("mine/published/schemes/first-figure/30-green-coat.html").is_file());
}

#[test]
fn start_refuses_a_folder_with_something_in_it() {
    let bench = Bench::empty();
    bench.write("mine/letter.txt", "dear");
    let run = bench.run(&["start", "mine"]);
    assert_eq!(run.status, 2);
    assert!(run.err.contains("mine is not empty"), "{}", run.err);
    assert_eq!(bench::files_below(&bench.path("mine")).len(), 1);
}

#[test]
fn a_folder_without_a_guide_is_wrong_usage() {
    let bench = Bench::empty();
    for arguments in [["check", "nowhere"], ["publish", "."]] {
        let run = bench.run(&arguments);
        assert_eq!(run.status, 2, "{}", run.err);
        assert!(run.err.starts_with("maulstick: ") && run.err.contains("mend: "), "{}", run.err);
    }
    assert_eq!(bench.run(&["check", "--format", "xml"]).status, 2);
}

#[test]
fn a_folder_inside_a_guide_is_told_from_no_guide() {
    let bench = Bench::demo();
    for (folder, guide) in [("content", "name ., the"), ("content/schemes", "name ., the"), ("themes", "name ., the")] {
        let run = bench.run(&["check", folder]);
        let is_there = bench.path(folder).is_dir();
        assert!(!is_there || run.err.contains(guide) && !run.err.contains("maulstick start"), "{folder}: {}", run.err);
    }
}

#[test]
fn a_command_that_is_printed_can_be_typed() {
    let bench = Bench::empty();
    let run = bench.run(&["start", "a b"]);
    assert!(run.out.contains("maulstick check \"a b\"") && run.out.contains("publish \"a b\","), "{}", run.out);
}

#[test]
fn a_number_that_is_out_of_bounds_is_told_in_plain_words() {
    let bench = Bench::demo();
    for (arguments, says) in [
        (["match", ".", "bog-iron", "--most", "0"], "from 1 to 100"),
        (["shop", ".", "fen-warden", "--models", "-1"], "1 or more"),
    ] {
        let run = bench.run(&arguments);
        assert!(run.status == 2 && run.err.contains(says) && !run.err.contains("..="), "{}", run.err);
    }
}

#[test]
fn nothing_is_not_explained_as_a_word() {
    let run = Bench::empty().run(&["explain", ""]);
    assert!(run.status == 2 && !run.err.contains("did you mean"), "{}", run.err);
}

#[test]
fn a_place_without_its_folder_has_one_mend() {
    let bench = Bench::demo();
    let run = bench.run(&["publish", ".", "--out", "a/b/c"]);
    let says = run.err.contains("no folder 'a/b' to put it in") && run.err.contains("make it first");
    assert!(run.status == 2 && says, "{}", run.err);
}

#[test]
fn check_writes_nothing() {
    let bench = Bench::demo();
    let before = bench::files_below(&bench.path(""));
    let run = bench.run(&["check"]);
    assert_eq!(run.status, 0, "{}", run.out);
    assert!(before == bench::files_below(&bench.path("")));
}

#[test]
fn an_error_keeps_the_old_site() {
    let bench = published_demo();
    let before = bench::files_below(&bench.path("published"));
    bench.replace("content/guide.yaml", "title:", "titel:");
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 1);
    assert!(run.err.contains("nothing was published"), "{}", run.err);
    assert!(before == bench::files_below(&bench.path("published")));
}

#[test]
fn warnings_count_only_when_asked() {
    let bench = Bench::demo();
    bench.write("content/stray.md", "hello");
    assert_eq!(bench.run(&["check"]).status, 0);
    assert_eq!(bench.run(&["check", "--strict"]).status, 1);
    assert_eq!(bench.run(&["publish", "--strict"]).status, 1);
    assert!(!bench.path("published").exists());
}

#[test]
fn publish_refuses_a_folder_that_it_did_not_write() {
    let bench = Bench::demo();
    bench.write("out/diary.txt", "mine");
    let run = bench.run(&["publish", "--out", "out"]);
    assert_eq!(run.status, 2);
    assert!(run.err.contains("maulstick: "), "{}", run.err);
    assert_eq!(bench::files_below(&bench.path("out")).len(), 1);
}

#[test]
fn the_schema_of_a_step_knows_its_keys() {
    let run = Bench::empty().run(&["schema", "step"]);
    let schema: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(schema["then"]["required"], serde_json::json!(["sequence"]));
    let schema = &schema["else"];
    assert_eq!(schema["required"], serde_json::json!(["title", "stage", "with"]));
    assert!(schema["properties"]["touch-dry"].is_null());
    assert_eq!(schema["properties"]["stage"]["enum"][0], "prepare");
}

#[test]
fn a_faulty_scheme_is_named_and_blocks_no_sound_one() {
    let bench = Bench::demo();
    bench.write(
        "content/armies/landing.yaml",
        "title: The Landing\nunits:\n  - {scheme: heron-rider, models: 3}\n\
         evenings: {days: [tue], from: \"19:15\", length: 2 h 30 min, first: 2027-01-19}\n",
    );
    bench.replace("content/schemes/reed-boat/28-iron.md", "stage: basecoat", "stage: basecoad");
    for sound in [
        &["mix", ".", "heron-rider", "40-peat-wash"][..],
        &["mix", ".", "fen-warden", "50-amber-shell", "--models", "24"],
        &["shop", ".", "heron-rider"],
        &["shop", ".", "fen-warden", "--format", "csv"],
        &["plan", ".", "landing"],
        &["card", ".", "heron-rider"],
    ] {
        let run = bench.run(sound);
        assert!(run.status == 0 && !run.out.is_empty(), "{sound:?}: {} {}", run.status, run.err);
        // What is wrong elsewhere takes a line.
        assert!(!run.err.contains("basecoad"), "{sound:?}: {}", run.err);
        assert_eq!(run.err.contains("'maulstick check .' shows"), sound[0] != "mix", "{sound:?}: {}", run.err);
    }
    assert!(bench.path("heron-rider.pdf").is_file());

    let boat = "Old reed boat with teal boards";
    let list = bench.run(&["shop", ".", "fen-watch"]);
    assert!(
        list.status == 1 && list.err.contains(&format!("not in the list, because of the errors: '{boat}'")),
        "{}",
        list.err
    );
    assert!(list.err.contains("basecoad"), "{}", list.err);
    assert!(list.out.contains("Clear Amber") && !list.out.contains("Ferry Teal"), "{}", list.out);
    let plan = bench.run(&["plan", ".", "fen-watch"]);
    assert!(plan.err.contains("basecoad"), "{}", plan.err);
    assert!(
        plan.status == 1 && plan.err.contains(&format!("not in the plan, because of the errors: '{boat}'")),
        "{}",
        plan.err
    );
    assert!(
        plan.out.contains("Shut the amber under gloss") && !plan.out.contains(&format!("{boat} ·")),
        "{}",
        plan.out
    );
    assert!(plan.out.starts_with(&format!("Left out, because of errors: '{boat}'.")), "{}", plan.out);
    let card = bench.run(&["card", ".", "reed-boat"]);
    assert!(card.status == 1 && card.err.contains("no card was made"), "{}", card.err);
    assert!(card.err.contains("basecoad"), "{}", card.err);
    // A scheme that can't be read may be the one that is meant.
    bench.replace("content/schemes/heron-rider/scheme.md", "---\n", "");
    let list = bench.run(&["shop", ".", "heron-rider"]);
    assert!(list.status == 2 && list.err.contains("content/schemes/heron-rider/scheme.md"), "{}", list.err);
    let publish = bench.run(&["publish"]);
    assert!(publish.status == 1 && publish.err.contains("nothing was published"), "{}", publish.err);
    assert!(!bench.path("published").exists());
}
