//! Disks that are full, read-only, borrowed or locked away: what stood there stands, and the author is told why.

use std::fs::{self, Permissions};
use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::Command;

use crate::bench::{self, Bench};

/// What is said where the system lets nobody mount a disk.
const NOT_TRIED: &str = "no disk can be mounted here: not tried; a door that runs full is tried everywhere";

/// A first guide in `mine`.
fn guide() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench
}

/// Runs a script with a small disk at `disk`, which only the script sees; `None` where none can be mounted.
///
/// `$M` is the program, `try NAME arguments…` runs it and notes what it said under `said/NAME`.
fn with_disk(bench: &Bench, options: &str, script: &str) -> Option<()> {
    for folder in ["disk", "said"] {
        fs::create_dir(bench.path(folder)).unwrap();
    }
    let unshared = |script: &str| {
        Command::new("unshare")
            .args(["--map-root-user", "--mount", "bash", "-c", script])
            .current_dir(bench.path(""))
            .env("M", env!("CARGO_BIN_EXE_maulstick"))
            .env("NO_COLOR", "1")
            .output()
    };
    let mount = format!("mount -t tmpfs -o {options} tmpfs disk");
    if !unshared(&mount).is_ok_and(|run| run.status.success()) {
        return None;
    }
    let tools = r#"try() { name=$1; shift; "$M" "$@" >said/$name 2>&1 && code=0 || code=$?; echo "status $code" >>said/$name; }
        same() { diff -r "$1" "$2" && ls -A disk >>said/names; }"#;
    let run = unshared(&format!("{mount} && {tools}\n set -e\n{script}")).unwrap();
    assert!(run.status.success(), "{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
    Some(())
}

fn said(bench: &Bench, name: &str) -> String {
    fs::read_to_string(bench.path("said").join(name)).unwrap()
}

#[test]
fn a_disk_that_runs_full_at_any_moment_leaves_the_old_site() {
    let bench = guide();
    let script = r"
        $M publish mine --out disk/site >/dev/null
        cp -a disk/site old
        sed -i 's/^title: .*/title: A painting tome/' mine/content/guide.yaml
        for room in 0 4 8 40 120 240 400 600; do
            all=$(df --output=avail -k disk | tail -n 1)
            fallocate -l $((all - room))K disk/filler
            try $room publish mine --out disk/site
            rm disk/filler
            if grep -q 'status 2' said/$room; then same disk/site old; fi
        done
        try after publish mine --out disk/site
        $M publish mine --out new >/dev/null
        same disk/site new
    ";
    if with_disk(&bench, "size=12m", script).is_none() {
        println!("{NOT_TRIED}");
        return;
    }
    for room in ["0", "4", "8", "40", "120"] {
        let said = said(&bench, room);
        assert!(said.contains("status 2") && said.contains("No space left"), "{room}: {said}");
        assert!(said.contains("make room on the disk; nothing was changed"), "{room}: {said}");
    }
    assert!(said(&bench, "after").contains("status 0"));
    let names = said(&bench, "names");
    assert!(names.lines().count() >= 6 && names.lines().all(|name| name == "site"), "something is left: {names}");
}

#[test]
fn a_disk_without_room_for_one_more_file_leaves_the_old_site() {
    let bench = guide();
    let script = r"
        $M publish mine --out disk/site >/dev/null
        cp -a disk/site old
        sed -i 's/^title: .*/title: A painting tome/' mine/content/guide.yaml
        try full publish mine --out disk/site
        same disk/site old
        try start start disk/second
        same disk/site old
    ";
    if with_disk(&bench, "size=12m,nr_inodes=125", script).is_none() {
        println!("{NOT_TRIED}");
        return;
    }
    assert!(said(&bench, "full").contains("make room on the disk") && said(&bench, "full").contains("status 2"));
    assert_eq!(said(&bench, "names").lines().next(), Some("site"));
}

#[test]
fn a_start_or_a_card_on_a_full_disk_leaves_nothing() {
    let bench = guide();
    let script = r"
        $M card mine first-figure --out disk/card.pdf >/dev/null
        cp -a disk old
        sed -i 's/^title: .*/title: Another figure/' mine/content/schemes/first-figure/scheme.md
        all=$(df --output=avail -k disk | tail -n 1)
        fallocate -l $((all - 8))K disk/.filler
        try start start disk/second
        try card card mine first-figure --out disk/card.pdf
        try new-card card mine first-figure --out disk/other.pdf
        rm disk/.filler
        same disk old
    ";
    if with_disk(&bench, "size=1m", script).is_none() {
        println!("{NOT_TRIED}");
        return;
    }
    for name in ["start", "card", "new-card"] {
        let said = said(&bench, name);
        assert!(said.contains("status 2") && said.contains("make room on the disk"), "{name}: {said}");
    }
    assert_eq!(said(&bench, "names"), "card.pdf\n");
}

#[test]
fn a_disk_that_may_only_be_read_is_told_and_left_alone() {
    let bench = guide();
    let script = r"
        $M publish mine --out disk/site >/dev/null
        $M card mine first-figure --out disk/card.pdf >/dev/null
        cp -a mine disk/mine
        mv disk/mine/content/schemes/first-figure/{70,15}-matt-varnish.md
        mv disk/mine/content/schemes/first-figure/{20,65}-grey-undercoat.md
        cp -a disk old
        mount -o remount,ro disk
        try publish publish mine --out disk/site
        try new publish mine --out disk/other
        try inside publish disk/mine
        try start start disk/second
        try card card mine first-figure --out disk/card.pdf
        try mend check disk/mine --mend --yes
        try check check disk/mine
        try shop shop disk/mine first-figure
        try elsewhere publish mine --out here
        same disk old
    ";
    if with_disk(&bench, "size=12m", script).is_none() {
        println!("{NOT_TRIED}");
        return;
    }
    for name in ["publish", "new", "start", "card", "mend"] {
        let said = said(&bench, name);
        assert!(said.contains("status 2") && said.contains("Read-only file system"), "{name}: {said}");
        assert!(said.contains("mend: ") && !said.contains("panicked"), "{name}: {said}");
    }
    for name in ["check", "inside", "shop"] {
        assert!(!said(&bench, name).contains("panicked"), "{name}");
    }
    assert!(said(&bench, "elsewhere").contains("status 0"), "a guide on such a disk can still be published elsewhere");
}

#[test]
fn a_disk_of_its_own_is_not_replaced_but_a_folder_in_it_is() {
    let bench = guide();
    let script = r"
        try itself publish mine --out disk
        try inside publish mine --out disk/site
        try again publish mine --out disk/site
        $M publish mine --out here >/dev/null
        same disk/site here
        ls -A . >said/beside
    ";
    if with_disk(&bench, "size=12m", script).is_none() {
        println!("{NOT_TRIED}");
        return;
    }
    let itself = said(&bench, "itself");
    assert!(itself.contains("status 2") && itself.contains("name a folder in it"), "{itself}");
    for name in ["inside", "again"] {
        assert!(said(&bench, name).contains("status 0"), "{}", said(&bench, name));
    }
    assert_eq!(said(&bench, "beside"), "disk\nhere\nmine\nsaid\n");
}

/// What a command says when run as somebody who is not root, and its exit status.
fn as_somebody(bench: &Bench, arguments: &[&str]) -> (i32, String) {
    let mut command = bench.command(arguments);
    if fs::metadata("/proc/self").unwrap().uid() == 0 {
        command.uid(SOMEBODY).gid(SOMEBODY);
    }
    let run = command.output().unwrap();
    let text = [run.stdout, run.stderr].concat();
    (run.status.code().unwrap_or(-1), String::from_utf8(text).unwrap())
}

/// The user and the group that own nothing.
const SOMEBODY: u32 = 65534;

/// Gives a folder and all in it to somebody.
fn hand_over(folder: &Path) {
    let root = fs::metadata("/proc/self").unwrap().uid() == 0;
    if root {
        chown(folder, Some(SOMEBODY), Some(SOMEBODY)).unwrap();
        for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
            if entry.file_type().unwrap().is_dir() {
                hand_over(&entry.path());
            } else {
                chown(entry.path(), Some(SOMEBODY), Some(SOMEBODY)).unwrap();
            }
        }
    }
}

fn allow(path: &Path, mode: u32) {
    fs::set_permissions(path, Permissions::from_mode(mode)).unwrap();
}

/// A folder or a file that is locked, the command that needs it, its exit status, and a part of what is said.
type Locked = (&'static str, u32, &'static [&'static str], i32, &'static str);

const LOCKED: &[Locked] = &[
    // What can't be read.
    ("mine", 0o000, &["publish", "mine"], 2, "content can't be read: Permission denied"),
    ("mine/content", 0o000, &["publish", "mine"], 2, "Permission denied"),
    ("mine/content/guide.yaml", 0o000, &["publish", "mine"], 1, "content/guide.yaml:1:1"),
    ("mine/content/schemes/first-figure", 0o000, &["publish", "mine"], 1, "it can't be read: permission denied"),
    ("mine/content/schemes/first-figure/30-green-coat.md", 0o000, &["publish", "mine"], 1, "30-green-coat.md:1:1"),
    ("mine/content/paints", 0o000, &["publish", "mine"], 1, "\n1 error"),
    ("mine/content/pages/map.pdf", 0o000, &["publish", "mine"], 2, "map.pdf"),
    ("have.yaml", 0o000, &["shop", "mine", "first-figure", "--have", "have.yaml"], 2, "have.yaml can't be read"),
    ("mine/published/.maulstick", 0o000, &["publish", "mine"], 2, "can't be read: Permission denied"),
    // What can't be written.
    ("mine", 0o555, &["publish", "mine"], 2, "see that you may read and write there"),
    ("mine/published", 0o555, &["publish", "mine"], 2, "may only be read"),
    (".", 0o555, &["start", "second"], 2, "see that you may read and write there"),
    (".", 0o555, &["card", "mine", "first-figure", "--out", "card.pdf"], 2, "see that you may read and write there"),
    (
        "mine/content/schemes/first-figure",
        0o555,
        &["check", "mine", "--mend", "--yes"],
        2,
        "not all steps were renamed",
    ),
    ("mine/content", 0o000, &["easel", "mine", "--port", "0"], 2, "can't"),
    // What is locked and not needed.
    (".", 0o555, &["check", "mine"], 1, "varnish"),
];

#[test]
fn what_may_not_be_read_or_written_is_told_and_nothing_changes() {
    let bench = guide();
    bench.write("mine/content/pages/about.md", "---\ntitle: About\n---\n\n[map](map.pdf)\n");
    bench.write("mine/content/pages/map.pdf", "%PDF-1.4").write("have.yaml", "moss-green: 12 ml\n");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    assert_eq!(bench.run(&["card", "mine", "first-figure", "--out", "card.pdf"]).status, 0);
    let steps = bench.path("mine/content/schemes/first-figure");
    bench.replace("mine/content/guide.yaml", "title: My", "title: Our");
    hand_over(&bench.path(""));
    let before = bench::files_below(&bench.path(""));
    for (locked, mode, arguments, status, says) in LOCKED {
        // Only a scheme with faults has something to mend.
        let faulty = arguments[0] == "check";
        if faulty {
            fs::rename(steps.join("70-matt-varnish.md"), steps.join("15-matt-varnish.md")).unwrap();
        }
        let path = bench.path(locked);
        let usual = fs::metadata(&path).unwrap().permissions().mode();
        allow(&path, *mode);
        let (found, said) = as_somebody(&bench, arguments);
        allow(&path, usual);
        if faulty {
            fs::rename(steps.join("15-matt-varnish.md"), steps.join("70-matt-varnish.md")).unwrap();
        }
        assert_eq!(found, *status, "{locked} {arguments:?}: {said}");
        assert!(said.contains(says) && !said.contains("panicked"), "{locked} {arguments:?}: {said}");
        assert!(before == bench::files_below(&bench.path("")), "{locked} {arguments:?}: something was changed");
    }
    let (status, said) = as_somebody(&bench, &["publish", "mine"]);
    assert_eq!(status, 0, "and once it is unlocked all goes well: {said}");
}
