//! Runs that are killed at any moment: what stands is the old or the new, whole, and the next run goes through.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Stdio;
use std::thread;
use std::time::{Duration, Instant};

use crate::bench::{self, Bench, pixel};

/// How often a publish is killed.
const KILLS: usize = 200;

/// So many times more than usual, for a long run (`tests/longer.sh`).
fn times() -> usize {
    std::env::var("MAULSTICK_TIMES").ok().and_then(|times| times.parse().ok()).unwrap_or(1)
}

/// A first guide in `mine`.
fn guide() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench
}

/// Numbers from 0 to 1 that look random and are the same in every run (xorshift, seed fixed).
fn dice() -> impl Iterator<Item = f64> {
    let mut state = 0x2545_F491_4F6C_DD1D_u64;
    std::iter::repeat_with(move || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        f64::from(u32::try_from(state >> 32).unwrap()) / f64::from(u32::MAX)
    })
}

/// Runs the program and kills it after a while; whether it was still at work.
fn kill(bench: &Bench, arguments: &[&str], after: Duration) -> bool {
    let mut child = bench.command(arguments).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    thread::sleep(after);
    let _ = child.kill();
    child.wait().unwrap().code().is_none()
}

/// How a run goes that is left alone.
struct Pace {
    /// From the start until something new stands in the folder.
    before: Duration,
    /// From then to the end.
    then: Duration,
}

impl Pace {
    /// A moment of the time in which things change: its beginning at 0, its end at 1.
    fn at(&self, part: f64) -> Duration {
        self.before + self.then.mul_f64(part)
    }

    /// A moment of the whole run.
    fn anywhere(&self, part: f64) -> Duration {
        (self.before + self.then).mul_f64(part)
    }
}

/// Looks on while a run writes into a folder.
fn watch(bench: &Bench, arguments: &[&str], folder: &Path) -> Pace {
    let known = names(folder);
    let begun = Instant::now();
    let mut child = bench.command(arguments).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let mut seen = None;
    while child.try_wait().unwrap().is_none() {
        if seen.is_none() && names(folder) != known {
            seen = Some(begun.elapsed());
        }
        thread::sleep(Duration::from_micros(200));
    }
    assert!(child.wait().unwrap().success());
    let (whole, before) = (begun.elapsed(), seen.unwrap_or_default());
    Pace { before, then: whole.saturating_sub(before) }
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned());
    let mut names: Vec<String> = entries.collect();
    names.sort();
    names
}

/// A guide in two versions, and the site of each, with what the author keeps in it.
struct Versions {
    bench: Bench,
    sites: [BTreeMap<String, Vec<u8>>; 2],
    /// Which of them is written in the guide.
    written: usize,
}

const TITLES: [&str; 2] = ["My painting guide", "My painting tome"];

impl Versions {
    fn new() -> Self {
        let bench = guide();
        bench.write("mine/content/pages/dot.png", pixel());
        bench.write("mine/content/pages/dots.md", "---\ntitle: Dots\n---\n\n![A dot](dot.png)\n");
        assert_eq!(bench.run(&["publish", "mine"]).status, 0);
        bench.write("mine/published/CNAME", "fen.example").write("mine/published/.git/refs/head", "1");
        let mut versions = Self { bench, sites: [BTreeMap::new(), BTreeMap::new()], written: 0 };
        for at in [1, 0] {
            versions.write(at);
            assert_eq!(versions.bench.run(&["publish", "mine"]).status, 0);
            versions.sites[at] = versions.stands();
            assert!(versions.sites[at].contains_key(".git/refs/head"));
        }
        assert!(versions.sites[0] != versions.sites[1]);
        versions
    }

    fn write(&mut self, version: usize) {
        if self.written != version {
            self.bench.replace("mine/content/guide.yaml", TITLES[self.written], TITLES[version]);
            self.written = version;
        }
    }

    fn stands(&self) -> BTreeMap<String, Vec<u8>> {
        bench::files_below(&self.bench.path("mine/published"))
    }

    /// Which version stands there, whole and with nothing else.
    fn whole(&self) -> Option<usize> {
        let stands = self.stands();
        self.sites.iter().position(|site| *site == stands)
    }
}

#[test]
fn a_publish_killed_at_200_moments_leaves_the_old_site_or_the_new_one() {
    let mut versions = Versions::new();
    let mine = versions.bench.path("mine");
    versions.write(1);
    let mut pace = watch(&versions.bench, &["publish", "mine"], &mine);
    let (mut at_work, mut changed, mut left) = (0, 0, 0);
    let mut stands = 1;
    let kills = KILLS * times();
    for (turn, part) in dice().take(kills).enumerate() {
        versions.write(1 - stands);
        // Three in four lie in the time in which files are written and the folders exchanged.
        let after = if turn % 4 == 0 { pace.anywhere(part) } else { pace.at(part) };
        at_work += usize::from(kill(&versions.bench, &["publish", "mine"], after));
        let now = versions.whole().unwrap_or_else(|| panic!("a mix of two sites after {after:?}"));
        changed += usize::from(now != stands);
        left += usize::from(names(&mine) != ["content", "published"]);
        stands = now;
        if turn % 20 == 19 {
            versions.write(1 - stands);
            // The next run that is left alone goes through, and tells anew how long one takes.
            pace = watch(&versions.bench, &["publish", "mine"], &mine);
            assert_eq!(versions.whole(), Some(1 - stands));
            assert_eq!(names(&mine), ["content", "published"], "the next run leaves nothing lying");
            stands = 1 - stands;
        }
    }
    println!("{at_work} of {kills} were killed at work; {changed} left the new site, {left} a folder in the making");
    assert!(at_work > kills / 4 && left > 0, "{at_work} killed at work, {left} while files were written");
}

#[test]
fn a_first_publish_that_is_killed_leaves_nothing_or_the_site() {
    let bench = guide();
    let mine = bench.path("mine");
    let pace = watch(&bench, &["publish", "mine"], &mine);
    let site = bench::files_below(&mine.join("published"));
    for part in dice().skip(KILLS).take(30) {
        fs::remove_dir_all(mine.join("published")).unwrap_or_default();
        kill(&bench, &["publish", "mine"], pace.at(part));
        assert!(!mine.join("published").exists() || bench::files_below(&mine.join("published")) == site);
    }
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    assert_eq!(names(&mine), ["content", "published"]);
}

#[test]
fn a_start_that_is_killed_leaves_nothing_or_the_whole_guide() {
    let bench = Bench::empty();
    let pace = watch(&bench, &["start", "mine"], &bench.path(""));
    let guide = bench::files_below(&bench.path("mine"));
    for part in dice().take(40) {
        fs::remove_dir_all(bench.path("mine")).unwrap_or_default();
        kill(&bench, &["start", "mine"], pace.at(part));
        assert!(!bench.path("mine").exists() || bench::files_below(&bench.path("mine")) == guide);
    }
    fs::remove_dir_all(bench.path("mine")).unwrap_or_default();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    assert_eq!(names(&bench.path("")), ["mine"], "and clears up after those that were killed");
}

#[test]
fn a_mend_that_is_killed_loses_no_step_and_the_next_one_ends_it() {
    let folder = |bench: &Bench| bench.path("mine/content/schemes/first-figure");
    let fresh = || {
        let bench = guide();
        for (from, to) in [("70-matt-varnish", "15-matt-varnish"), ("20-grey-undercoat", "65-grey-undercoat")] {
            fs::rename(folder(&bench).join(from).with_extension("md"), folder(&bench).join(to).with_extension("md"))
                .unwrap();
        }
        bench
    };
    let texts = |bench: &Bench| {
        let mut texts: Vec<Vec<u8>> = bench::files_below(&folder(bench)).into_values().collect();
        texts.sort();
        texts
    };
    let first = fresh();
    let before = texts(&first);
    let pace = watch(&first, &["check", "mine", "--mend", "--yes"], &folder(&first));
    for part in dice().take(20) {
        let bench = fresh();
        // The renames are done in a moment, so the kills lie close to it.
        kill(&bench, &["check", "mine", "--mend", "--yes"], pace.before.mul_f64(0.9 + part * 0.2));
        assert!(texts(&bench) == before, "a step is lost");
        let next = bench.run(&["check", "mine", "--mend", "--yes"]);
        assert!(next.status == 0 && next.out.ends_with("no findings\n"), "{}{}", next.out, next.err);
        assert!(texts(&bench) == before);
    }
}

#[test]
fn a_card_that_is_killed_is_the_old_one_or_the_new_one() {
    let bench = guide();
    let arguments = ["card", "mine", "first-figure"];
    let card = bench.path("first-figure.pdf");
    let pace = watch(&bench, &arguments, &bench.path(""));
    let mut cards = [fs::read(&card).unwrap(), Vec::new()];
    bench.replace("mine/content/schemes/first-figure/scheme.md", "title: ", "title: New ");
    assert_eq!(bench.run(&arguments).status, 0);
    cards[1] = fs::read(&card).unwrap();
    assert!(cards[0] != cards[1]);
    for part in dice().take(20) {
        fs::write(&card, &cards[0]).unwrap();
        kill(&bench, &arguments, pace.anywhere(0.7 + part * 0.35));
        assert!(cards.contains(&fs::read(&card).unwrap()), "half a card");
    }
    assert_eq!(bench.run(&arguments).status, 0);
    assert!(fs::read(&card).unwrap() == cards[1]);
}

/// On a file system with neither locks nor an exchange of folders; `strace` makes this one such, where it is there.
#[cfg(target_os = "linux")]
#[test]
fn an_exchange_in_steps_that_is_killed_without_locks_loses_nothing_and_the_next_run_ends_it() {
    for step in ["1", "2", "3"] {
        let bench = guide();
        assert_eq!(bench.run(&["publish", "mine"]).status, 0);
        bench.write("mine/published/CNAME", "fen.example");
        let publish = |kill: Option<&str>| {
            let mut command = std::process::Command::new("strace");
            command.args(["-f", "-o", "/dev/null", "-e", "inject=renameat2:error=EINVAL"]);
            command.args(["-e", "inject=flock:error=ENOLCK"]);
            if let Some(step) = kill {
                command.args(["-e", &format!("inject=rename:signal=KILL:when={step}")]);
            }
            command.args([env!("CARGO_BIN_EXE_maulstick"), "publish", "mine"]).current_dir(bench.path(""));
            command.stdout(Stdio::null()).output()
        };
        for (turn, kill) in [Some(step), None, None].into_iter().enumerate() {
            bench.write(&format!("mine/content/pages/page-{turn}.md"), "---\ntitle: A page\n---\n\nText.\n");
            let Ok(run) = publish(kill) else {
                println!("there is no strace: not tried");
                return;
            };
            let said = String::from_utf8_lossy(&run.stderr);
            assert!(run.status.success() == kill.is_none(), "step {step}, run {turn}: {said}");
            if kill.is_none() {
                assert!(bench.path(&format!("mine/published/pages/page-{turn}.html")).is_file(), "{step}");
                assert_eq!(fs::read(bench.path("mine/published/CNAME")).unwrap(), b"fen.example", "{step}");
                assert!(!bench.path("mine/.published.aside").exists(), "{step}");
            }
        }
    }
}

/// The one with a killed easel: it writes nothing, so nothing is left.
#[test]
fn an_easel_that_is_killed_leaves_the_guide_as_it_was() {
    let bench = guide();
    let before = bench::files_below(&bench.path(""));
    for part in dice().take(5) {
        assert!(kill(&bench, &["easel", "mine", "--port", "0"], Duration::from_millis(400).mul_f64(part)));
    }
    assert!(before == bench::files_below(&bench.path("")));
}
