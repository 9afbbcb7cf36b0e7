//! What becomes of the old site when a publish is killed, when the disk is full, or when two run at once.

use std::fs;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use crate::bench::{self, Bench};

/// The demo guide published once, and how long that takes.
fn published() -> (Bench, Duration) {
    let bench = Bench::demo();
    let start = Instant::now();
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 0, "{}", run.err);
    (bench, start.elapsed())
}

/// What stands beside a site, hidden or not.
fn beside(bench: &Bench) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = fs::read_dir(bench.path("")).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

#[test]
fn a_killed_publish_leaves_the_old_site_or_the_new_one() {
    let (bench, whole) = published();
    let old = bench::files_below(&bench.path("published"));
    bench.replace("content/guide.yaml", "Painting Book", "Painting Tome");
    let fresh = Bench::empty();
    bench::copy(&bench.path("content"), &fresh.path("content"));
    assert_eq!(fresh.run(&["publish"]).status, 0);
    let new = bench::files_below(&fresh.path("published"));
    assert!(old != new);
    // Moments spread over the whole run by the golden ratio, so that no two fall together.
    let mut kept = 0;
    for turn in 1..=25_u32 {
        let part = (f64::from(turn) * 0.618_033_988_75).fract() * 1.1;
        let mut child = bench.command(&["publish"]).stdout(std::process::Stdio::null()).spawn().unwrap();
        thread::sleep(whole.mul_f64(part));
        let _ = child.kill();
        child.wait().unwrap();
        let now = bench::files_below(&bench.path("published"));
        assert!(now == old || now == new, "a mix of two sites after {part} of a run");
        kept += u32::from(now == old);
        if now == new {
            // Begin anew from the old site.
            bench.replace("content/guide.yaml", "Painting Tome", "Painting Book");
            assert_eq!(bench.run(&["publish"]).status, 0);
            bench.replace("content/guide.yaml", "Painting Book", "Painting Tome");
        }
    }
    assert!(kept > 0, "no run was killed before its end");
    assert_eq!(bench.run(&["publish"]).status, 0);
    assert!(bench::files_below(&bench.path("published")) == new);
    let names: Vec<_> = beside(&bench).iter().map(|path| path.file_name().unwrap().to_owned()).collect();
    assert_eq!(names, ["content", "published"], "something is left over");
}

#[test]
#[ignore = "needs a small disk named by MAULSTICK_SMALL_DISK; tests/run.sh mounts one"]
fn a_full_disk_leaves_the_old_site() {
    let Some(disk) = std::env::var_os("MAULSTICK_SMALL_DISK").map(PathBuf::from) else {
        println!("no small disk could be mounted here; the same is tried with a door that runs full");
        return;
    };
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "small"]).status, 0);
    let target = disk.join("site");
    let out = target.to_str().unwrap();
    let first = bench.run(&["publish", "small", "--out", out]);
    assert_eq!(first.status, 0, "{}", first.err);
    let before = bench::files_below(&target);
    let filler = disk.join("filler");
    let _ = fs::write(&filler, vec![0_u8; 64_000_000]);
    let second = bench.run(&["publish", "small", "--out", out]);
    assert_eq!(second.status, 2, "{}", second.out);
    assert!(second.err.contains("nothing was changed"), "{}", second.err);
    assert!(before == bench::files_below(&target));
    fs::remove_file(filler).unwrap();
    assert_eq!(names_in(&disk), ["site"]);
    assert_eq!(bench.run(&["publish", "small", "--out", out]).status, 0);
}

fn names_in(folder: &Path) -> Vec<String> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect()
}

/// Nothing is shown.
struct Silent;

impl maulstick::press::Progress for Silent {
    fn begin(&self, _: usize) {}
    fn step(&self) {}
    fn finish(&self) {}
}

#[test]
fn a_door_that_runs_full_leaves_nothing() {
    let files = bench::files_below(&bench::demo_folder().join("src/cli/first_guide"));
    let mut door = maulstick::door::Memory::default();
    for (path, bytes) in &files {
        door = door.with(path, bytes);
    }
    let target = Path::new("site");
    let published = maulstick::story::publish(&door, target, maulstick::story::Asked::default(), &Silent).unwrap();
    assert!(published.written.is_some());
    let whole = door.written(target).unwrap();
    let size: usize = whole.values().map(Vec::len).sum();
    for room in [0, 1000, size / 2, size - 1] {
        let small = files.iter().fold(maulstick::door::Memory::default(), |door, (path, bytes)| door.with(path, bytes));
        let small = small.with_room(room);
        assert!(
            maulstick::story::publish(&small, target, maulstick::story::Asked::default(), &Silent).is_err(),
            "it fits {room} bytes"
        );
        assert!(small.written(target).is_none());
    }
}

#[test]
fn two_publishes_at_once_end_in_one_whole_site() {
    let (bench, _) = published();
    let site = bench::files_below(&bench.path("published"));
    let running: Vec<_> =
        (0..3).map(|_| bench.command(&["publish"]).stdout(std::process::Stdio::null()).spawn().unwrap()).collect();
    for mut child in running {
        assert!(child.wait().unwrap().success());
    }
    assert!(site == bench::files_below(&bench.path("published")));
    assert_eq!(beside(&bench).len(), 2);
}

#[test]
fn the_authors_own_files_in_the_published_folder_are_kept() {
    let (bench, _) = published();
    bench.write("published/CNAME", "guides.example").write("published/.well-known/contact.txt", "quill");
    bench.replace("content/guide.yaml", "Painting Book", "Painting Tome");
    assert_eq!(bench.run(&["publish"]).status, 0);
    assert_eq!(fs::read(bench.path("published/CNAME")).unwrap(), b"guides.example");
    assert_eq!(fs::read(bench.path("published/.well-known/contact.txt")).unwrap(), b"quill");
    assert!(fs::read_to_string(bench.path("published/index.html")).unwrap().contains("Painting Tome"));
}

#[test]
fn a_page_that_is_gone_from_the_guide_is_gone_from_the_site() {
    let (bench, _) = published();
    assert!(bench.path("published/schemes/lantern-pier.html").exists());
    fs::remove_dir_all(bench.path("content/schemes/lantern-pier")).unwrap();
    let run = bench.run(&["publish"]);
    let gone = !bench.path("published/schemes/lantern-pier.html").exists();
    assert!(gone || run.status == 1, "a page of a scheme that is gone still stands");
    if run.status == 1 {
        assert!(run.err.contains("dead-link"), "{}", run.err);
    }
}

#[test]
fn only_files_with_other_bytes_are_written_again() {
    let (bench, _) = published();
    let times = || -> Vec<(String, std::time::SystemTime)> {
        let files = bench::files_below(&bench.path("published")).into_keys().filter(|path| path != ".maulstick");
        files
            .map(|path| (path.clone(), fs::metadata(bench.path("published").join(path)).unwrap().modified().unwrap()))
            .collect()
    };
    let first = times();
    assert_eq!(bench.run(&["publish"]).status, 0);
    assert_eq!(times(), first, "nothing had changed");
    let step = fs::read_to_string(bench.path("content/schemes/fen-warden/65-straps.md")).unwrap();
    bench.write("content/schemes/fen-warden/65-straps.md", step + "\nOne more line.\n");
    assert_eq!(bench.run(&["publish"]).status, 0);
    let second = times();
    let changed: Vec<&str> =
        first.iter().zip(&second).filter(|(one, other)| one != other).map(|(one, _)| one.0.as_str()).collect();
    assert!(
        changed.contains(&"schemes/fen-warden.html") && changed.contains(&"schemes/fen-warden/65-straps.html"),
        "{changed:?}"
    );
    assert!(
        changed.iter().all(|path| !path.starts_with("schemes/reed-boat") && !path.starts_with("theme/")),
        "{changed:?}"
    );
}
