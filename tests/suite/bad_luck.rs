//! What becomes of the old site when a publish is killed, when the disk is full, or when two run at once.

use std::fs;
use std::path::{Path, PathBuf};

use crate::bench::{self, Bench};
use crate::site::published_demo;

/// What stands beside a site, hidden or not.
fn beside(bench: &Bench) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = fs::read_dir(bench.path("")).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

#[test]
fn a_door_that_runs_full_leaves_nothing() {
    let files = bench::files_below(&bench::demo_folder().join("src/cli/first_guide"));
    let mut door = maulstick::door::Memory::default();
    for (path, bytes) in &files {
        door = door.with(path, bytes);
    }
    let target = Path::new("site");
    let published = maulstick::story::publish(&door, target, maulstick::story::Wanted::default(), &()).unwrap();
    assert!(published.written.is_some());
    let whole = door.written(target).unwrap();
    let size: usize = whole.iter().filter(|(path, _)| *path != ".maulstick").map(|(_, bytes)| bytes.len()).sum();
    for room in [0, 1000, size / 2, size - 1] {
        let small = files.iter().fold(maulstick::door::Memory::default(), |door, (path, bytes)| door.with(path, bytes));
        let small = small.with_room(room);
        assert!(
            maulstick::story::publish(&small, target, maulstick::story::Wanted::default(), &()).is_err(),
            "it fits {room} bytes"
        );
        assert!(small.written(target).is_none());
    }
}

#[test]
fn two_publishes_at_once_end_in_one_whole_site() {
    let bench = published_demo();
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
    let bench = published_demo();
    bench.write("published/CNAME", "guides.example").write("published/.well-known/contact.txt", "quill");
    bench.replace("content/guide.yaml", "Painting Book", "Painting Tome");
    assert_eq!(bench.run(&["publish"]).status, 0);
    assert_eq!(fs::read(bench.path("published/CNAME")).unwrap(), b"guides.example");
    assert_eq!(fs::read(bench.path("published/.well-known/contact.txt")).unwrap(), b"quill");
    assert!(fs::read_to_string(bench.path("published/index.html")).unwrap().contains("Painting Tome"));
}

#[test]
fn a_list_with_the_line_ends_of_another_system_is_a_list() {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let list = fs::read_to_string(bench.path("mine/published/.maulstick")).unwrap();
    bench.write("mine/published/.maulstick", list.replace('\n', "\r\n")).write("mine/published/CNAME", "fen.example");
    let run = bench.run(&["publish", "mine"]);
    assert_eq!(run.status, 0, "{}", run.err);
    assert_eq!(fs::read_to_string(bench.path("mine/published/.maulstick")).unwrap(), list);
    assert_eq!(fs::read(bench.path("mine/published/CNAME")).unwrap(), b"fen.example");
}

#[cfg(target_os = "linux")]
#[test]
fn a_program_that_gets_no_thread_does_all_the_work_itself() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    use std::os::unix::process::CommandExt;
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    fs::set_permissions(bench.path(""), fs::Permissions::from_mode(0o777)).unwrap();
    // The limit counts nobody's threads but those of a user, and root has none.
    let mut command = std::process::Command::new("prlimit");
    command.args(["--nproc=1", env!("CARGO_BIN_EXE_maulstick"), "publish", "mine", "--out", "site"]);
    if fs::metadata("/proc/self").unwrap().uid() == 0 {
        command.uid(65533).gid(65533);
    }
    let run = command.current_dir(bench.path("")).output().unwrap();
    let said = String::from_utf8_lossy(&run.stderr);
    assert!(run.status.success() && bench.path("site/index.html").is_file(), "{said}");
}

#[test]
fn a_page_that_is_gone_from_the_guide_is_gone_from_the_site() {
    let bench = published_demo();
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
    let bench = published_demo();
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
        changed.contains(&"schemes/fen-warden.html") && changed.contains(&"schemes/fen-warden/65-straps-10-brown.html"),
        "{changed:?}"
    );
    assert!(
        changed.iter().all(|path| !path.starts_with("schemes/reed-boat") && !path.starts_with("theme/")),
        "{changed:?}"
    );
}
