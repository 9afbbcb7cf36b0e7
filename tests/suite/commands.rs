//! The commands as somebody types them: what they say, what they leave behind, and their exit status.

use crate::bench::{self, Bench};

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
fn check_writes_nothing() {
    let bench = Bench::demo();
    let before = bench::files_below(&bench.path(""));
    let run = bench.run(&["check"]);
    assert_eq!(run.status, 0, "{}", run.out);
    assert!(before == bench::files_below(&bench.path("")));
}

#[test]
fn an_error_keeps_the_old_site() {
    let bench = Bench::demo();
    assert_eq!(bench.run(&["publish"]).status, 0);
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
