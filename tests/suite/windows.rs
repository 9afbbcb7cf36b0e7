//! What is different on Windows: drive letters, long paths, line ends, files that another program holds open.

use std::fs::{self, OpenOptions};
use std::os::windows::fs::OpenOptionsExt;

use crate::bench::{self, Bench};

fn first_guide() -> Bench {
    let bench = Bench::empty();
    let start = bench.run(&["start", "mine"]);
    assert_eq!(start.status, 0, "{}", start.err);
    assert!(start.out.contains(r"mine\published\index.html"), "{}", start.out);
    bench
}

#[test]
fn a_place_with_a_drive_letter_is_written_to_and_named_as_it_was_typed() {
    let bench = first_guide();
    let place = bench.path("site");
    let typed = place.to_str().unwrap();
    assert!(typed.get(1..3) == Some(r":\"), "{typed}");
    let run = bench.run(&["publish", "mine", "--out", typed]);
    assert!(run.status == 0 && run.out.ends_with(&format!(" files in {typed}\n")), "{} {}", run.out, run.err);
    let run = bench.run(&["publish", "mine", "--out", &typed.replace('\\', "/")]);
    assert_eq!(run.status, 0, "{}", run.err);
    assert!(place.join("schemes/first-figure.html").is_file());
    fs::create_dir(bench.path("full")).unwrap();
    bench.write("full/diary.txt", "mine");
    let run = bench.run(&["publish", "mine", "--out", "full"]);
    assert!(run.status == 2 && !run.err.contains(r"\\?\"), "{}", run.err);
    let run = bench.run(&["publish", "mine", "--out", &typed[..3]]);
    assert!(run.status == 2 && run.err.contains("does not name a folder"), "{}", run.err);
}

#[test]
fn a_second_run_leaves_no_page_of_the_first_behind() {
    let bench = first_guide();
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let page = bench.path("mine/published/schemes/first-figure/30-green-coat.html");
    assert!(page.is_file());
    bench.write("mine/published/schemes/notes.txt", "my own");
    let old = bench.path("mine/content/schemes/first-figure/30-green-coat.md");
    fs::rename(&old, old.with_file_name("30-moss-coat.md")).unwrap();
    let run = bench.run(&["publish", "mine"]);
    assert_eq!(run.status, 0, "{}", run.err);
    assert!(!page.exists() && page.with_file_name("30-moss-coat.html").is_file());
    assert_eq!(fs::read_to_string(bench.path("mine/published/schemes/notes.txt")).unwrap(), "my own");
    let beside: Vec<_> = fs::read_dir(bench.path("mine")).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(beside.len(), 2, "{beside:?}");
}

#[test]
fn a_site_that_another_program_shows_is_replaced_whole_or_not_at_all() {
    let bench = first_guide();
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let site = bench.path("mine/published");
    let before = bench::files_below(&site);
    bench.replace("mine/content/guide.yaml", "title: ", "title: New ");
    let shown = OpenOptions::new().read(true).share_mode(1).open(site.join("index.html")).unwrap();
    let run = bench.run(&["publish", "mine"]);
    drop(shown);
    // Windows itself renames no folder in which a file is open; other makers of the same calls may.
    let after = bench::files_below(&site);
    if run.status == 0 {
        assert!(before.keys().eq(after.keys()) && before != after);
    } else {
        assert!(run.err.contains("close what shows it"), "{}", run.err);
        assert!(before == after);
    }
    let run = bench.run(&["publish", "mine"]);
    assert_eq!(run.status, 0, "{}", run.err);
    assert!(String::from_utf8_lossy(&bench::files_below(&site)["index.html"]).contains("New "));
}

#[test]
fn a_path_may_be_longer_than_the_system_s_old_limit() {
    let bench = Bench::empty();
    let deep = bench.path(&["a-folder-with-a-rather-long-name"; 9].join(r"\"));
    fs::create_dir_all(&deep).unwrap();
    let place = deep.join("mine");
    let typed = place.to_str().unwrap();
    assert!(typed.len() > 300);
    for arguments in [&["start", typed][..], &["check", typed, "--strict"], &["publish", typed], &["publish", typed]] {
        let run = bench.run(arguments);
        assert_eq!(run.status, 0, "{arguments:?} {}", run.err);
    }
    assert!(place.join("published").join("index.html").is_file());
}

#[test]
fn line_ends_of_the_system_s_editors_change_no_page() {
    let bench = first_guide();
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let before = bench::files_below(&bench.path("mine/published"));
    for inside in bench::files_below(&bench.path("mine/content")).keys() {
        let path = bench.path("mine/content").join(inside);
        if let Ok(text) = fs::read_to_string(&path) {
            fs::write(path, format!("\u{feff}{}", text.replace('\n', "\r\n"))).unwrap();
        }
    }
    let run = bench.run(&["publish", "mine", "--strict"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let after = bench::files_below(&bench.path("mine/published"));
    // The list notes what a page was made from, and the worker knows a site by all of its files.
    let is_note = |path: &str| matches!(path, ".maulstick" | "worker.js") || path.starts_with("data/kept/");
    let changed: Vec<_> = before.keys().filter(|path| before[*path] != after[*path] && !is_note(path)).collect();
    assert!(before.keys().eq(after.keys()) && changed.is_empty(), "{changed:?}");
}
