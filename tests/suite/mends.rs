//! `check --mend`: a better order is shown, and the step files renamed to it.

use std::fs;

use crate::bench::{self, Bench};

/// The first guide, with its varnish before everything that it should protect.
fn varnished_too_early() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    let steps = bench.path("mine/content/schemes/first-figure");
    fs::rename(steps.join("70-matt-varnish.md"), steps.join("15-matt-varnish.md")).unwrap();
    fs::rename(steps.join("20-grey-undercoat.md"), steps.join("65-grey-undercoat.md")).unwrap();
    bench
}

#[test]
fn the_files_are_renamed_to_a_sound_order_and_no_text_changes() {
    let bench = varnished_too_early();
    let folder = bench.path("mine/content/schemes/first-figure");
    let mut before: Vec<Vec<u8>> = bench::files_below(&folder).into_values().collect();
    assert_eq!(bench.run(&["check", "mine"]).status, 1);
    let names = || bench::files_below(&folder).into_keys().collect::<Vec<_>>();
    let old = names();
    let asked = bench.run(&["check", "mine", "--mend"]);
    assert!(asked.out.contains("65-grey-undercoat.md → ") && asked.out.contains("again with --yes"), "{}", asked.out);
    assert!(asked.status == 1 && names() == old, "nobody was asked, and files were renamed");
    let run = bench.run(&["check", "mine", "--mend", "--yes"]);
    assert!(run.out.contains("65-grey-undercoat.md → "), "{}", run.out);
    assert!(run.out.ends_with("no findings\n"), "{}", run.out);
    assert_eq!(run.status, 0);
    let mut after: Vec<Vec<u8>> = bench::files_below(&folder).into_values().collect();
    before.sort();
    after.sort();
    assert!(before == after);
    assert_eq!(bench.run(&["check", "mine", "--strict"]).status, 0);
}

#[test]
fn what_names_a_step_by_its_number_is_not_broken() {
    let bench = varnished_too_early();
    let steps = bench.path("mine/content/schemes/first-figure");
    let varnish = fs::read_to_string(steps.join("15-matt-varnish.md")).unwrap();
    let optional = varnish.replacen("---\n", "---\noptional: where it is played with\n", 1);
    fs::write(steps.join("15-matt-varnish.md"), optional).unwrap();
    fs::create_dir_all(bench.path("mine/content/armies")).unwrap();
    let army = "title: A\nunits: [{scheme: first-figure, models: 3, skip: [15-matt-varnish]}]\n";
    fs::write(bench.path("mine/content/armies/a.yaml"), army).unwrap();
    let before = bench::files_below(&bench.path("mine"));
    let run = bench.run(&["check", "mine", "--mend", "--yes"]);
    assert!(run.out.contains("content/armies/a.yaml") && run.out.contains("no file was renamed"), "{}", run.out);
    assert!(before == bench::files_below(&bench.path("mine")), "{}", run.out);
}

#[test]
fn what_a_mend_would_break_is_told_of_the_file_as_its_author_knows_it() {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    let steps = bench.path("mine/content/schemes/first-figure");
    for (from, to) in [
        ("30-green-coat", "02-coat"),
        ("20-grey-undercoat", "03-coat"),
        ("40-brown-leather", "04-leather"),
        ("50-dark-in-the-folds", "05-dark"),
        ("60-light-on-the-ridges", "06-light"),
        ("10-clean-and-wash", "01-wash"),
    ] {
        fs::rename(steps.join(format!("{from}.md")), steps.join(format!("{to}.md"))).unwrap();
    }
    bench.replace("mine/content/schemes/first-figure/02-coat.md", "40-brown-leather.md", "04-leather.md");
    let light = fs::read_to_string(steps.join("06-light.md")).unwrap();
    fs::write(steps.join("06-light.md"), light + "\nSee [the coat](02-coat.md) and [the ground](03-coat.md).\n")
        .unwrap();
    let names = || bench::files_below(&steps).into_keys().collect::<Vec<_>>();
    let before = names();
    let run = bench.run(&["check", "mine", "--mend", "--yes"]);
    assert!(run.out.contains("\n  content/schemes/first-figure/06-light.md: "), "{}", run.out);
    assert!(run.out.contains("no file was renamed") && names() == before, "{}", run.out);
}

#[test]
fn a_sound_guide_keeps_its_names() {
    let bench = Bench::demo();
    let before = bench::files_below(&bench.path("content"));
    let run = bench.run(&["check", "--mend"]);
    assert!(run.out.starts_with("no better order was found"), "{}", run.out);
    assert!(before == bench::files_below(&bench.path("content")));
}

#[test]
fn a_sequence_stays_together_when_its_scheme_gets_a_better_order() {
    let bench = Bench::demo();
    let steps = bench.path("content/schemes/heron-rider");
    fs::rename(steps.join("15-grey-start.md"), steps.join("35-grey-start.md")).unwrap();
    let run = bench.run(&["check", "--mend", "--yes"]);
    assert!(run.out.contains("35-grey-start.md → "), "{}", run.out);
    assert!(run.out.ends_with("no findings\n"), "{}", run.out);
    let names: Vec<String> = bench::files_below(&steps).into_keys().collect();
    assert!(names.iter().any(|path| path.ends_with("90-fen-base.md")), "{names:?}");
}

/// The first guide with a version that has a step of its own.
fn with_a_version(bench: Bench, name: &str, step: &str) -> Bench {
    let scheme = "mine/content/schemes/first-figure/scheme.md";
    bench.replace(scheme, "level: easy\n", "level: easy\nvariants:\n  night: {title: Night watch}\n");
    let step = format!("---\ntitle: Night coat\nonly-for: [night]\nwith: brush\n{step}---\nOver all of it.\n");
    bench.write(&format!("mine/content/schemes/first-figure/{name}.md"), step);
    bench
}

#[test]
fn a_step_that_only_a_version_has_goes_with_the_others() {
    let glaze = "stage: glaze\nareas: [coat]\npaints: [{use: pale-moss, parts: 1}, {use: water-medium, parts: 3}]\n";
    let ground = "stage: undercoat\nareas: [all]\npaints: [{use: grey-primer}]\ndry: 2 h\n";
    let sound = Bench::empty();
    assert_eq!(sound.run(&["start", "mine"]).status, 0);
    // The steps that all share are wrong; then only the version is.
    for (bench, earlier, later) in [
        (with_a_version(varnished_too_early(), "62-night-coat", glaze), "green-coat", "night-coat"),
        (with_a_version(sound, "65-night-coat", ground), "night-coat", "green-coat"),
    ] {
        let run = bench.run(&["check", "mine", "--mend", "--yes"]);
        assert!(run.out.contains("Night coat (Night watch)"), "{}", run.out);
        assert!(run.out.ends_with("no findings\n"), "{}", run.out);
        let names: Vec<String> =
            bench::files_below(&bench.path("mine/content/schemes/first-figure")).into_keys().collect();
        let place = |what: &str| names.iter().position(|name| name.contains(what)).unwrap();
        assert!(place(earlier) < place(later) && place(later) < place("varnish"), "{names:?}");
    }
}

#[test]
fn an_error_of_the_guide_that_no_order_rests_on_is_no_hindrance() {
    for (line, is_hindrance) in [
        ("theme: nosuch\n", false),
        ("bench: {no-such-figure: 3}\n", true),
        ("house-order: [{first: glase, then: wash, why: It runs.}]\n", true),
    ] {
        let bench = varnished_too_early();
        bench.replace("mine/content/guide.yaml", "language: en\n", &format!("language: en\n{line}"));
        let run = bench.run(&["check", "mine", "--mend"]);
        assert_eq!(run.out.contains("no order was sought"), is_hindrance, "{line}: {}", run.out);
        assert_eq!(run.out.contains("65-grey-undercoat.md → "), !is_hindrance, "{line}: {}", run.out);
    }
}

#[test]
fn nothing_is_renamed_where_a_step_could_not_be_read() {
    for (old, new) in [
        ("title: Light on the ridges", "title: x: Light on the ridges"),
        ("stage: highlight", "stage: highlite"),
        ("areas: [coat]", "areas: [cot]"),
    ] {
        let bench = varnished_too_early();
        let step = "mine/content/schemes/first-figure/60-light-on-the-ridges.md";
        bench.replace(step, old, new);
        let before = bench::files_below(&bench.path("mine"));
        let run = bench.run(&["check", "mine", "--mend", "--yes"]);
        assert!(run.out.starts_with("no order was sought for 'My first figure', because"), "{}", run.out);
        assert!(run.out.contains("\nno file was renamed\n") && run.status == 1, "{}", run.out);
        assert!(before == bench::files_below(&bench.path("mine")), "{new}: {}", run.out);
    }
}
