//! What is kept between looks at a guide is never stale: after any edit a session gives, byte for byte and finding for
//! finding, what a fresh look gives.

mod edits;
mod guide;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use edits::{Dice, Folder};
use maulstick::door::{Checksum, Digest, Disk, Door, Memory, News, Snapshot};
use maulstick::press::Hitch;
use maulstick::report;
use maulstick::story::{self, Proof, Session, Wanted};

/// How many edits each seed stands for.
const EDITS: usize = 100;

/// So many times more than usual, for a long run (`tests/longer.sh`).
fn times() -> usize {
    std::env::var("MAULSTICK_TIMES").ok().and_then(|times| times.parse().ok()).unwrap_or(1)
}

/// Every file of a proof; one that can't be shown by its finding.
fn site(proof: &Proof, door: &dyn Door) -> BTreeMap<String, Vec<u8>> {
    let made = proof.paths().into_iter().map(|path| {
        let bytes = match proof.file(door, &path) {
            Ok(bytes) => bytes.unwrap().into_owned(),
            Err(Hitch::Told(finding)) => finding.message.into_bytes(),
            Err(Hitch::Disk(error)) => error.to_string().into_bytes(),
        };
        (path, bytes)
    });
    made.collect()
}

fn findings(proof: &Proof) -> String {
    report::json(proof.findings(), proof.files())
}

/// A guide in memory with these files.
fn memory(files: &Folder) -> Memory {
    files.iter().fold(Memory::default(), |door, (path, bytes)| door.with(path, bytes))
}

/// Where the guide is published.
const TARGET: &str = "site";

/// The list of what is published.
const LIST: &str = ".maulstick";

/// What a fresh run makes of the files.
struct Fresh {
    findings: String,
    /// What is published, where errors don't forbid that.
    published: Option<BTreeMap<String, Vec<u8>>>,
    /// What the live view has of it.
    shown: BTreeMap<String, Vec<u8>>,
}

fn publish(door: &Memory) -> Option<BTreeMap<String, Vec<u8>>> {
    let wanted = Wanted { single: true, ..Wanted::default() };
    story::publish(door, Path::new(TARGET), wanted, &()).unwrap().written.map(|_| door.written(TARGET).unwrap())
}

fn fresh(files: &Folder) -> Fresh {
    let door = memory(files);
    let proof = Proof::of(story::check(&door).unwrap(), None);
    let published = publish(&door);
    let mut shown = published.clone().unwrap_or_else(|| site(&proof, &door));
    // What keeps a published site at hand without network, the list for the next run, and what lies beside the site: the
    // live view has no use for them.
    let beside = ["data/kept/", "single/"];
    shown
        .retain(|path, _| path != "worker.js" && path != LIST && !beside.iter().any(|folder| path.starts_with(folder)));
    Fresh { findings: findings(&proof), published, shown }
}

/// What may happen to a published folder before the next run.
fn mistreat(door: &Memory, turn: usize, dice: &mut Dice) {
    let Some(site) = door.written(TARGET) else { return };
    let list = String::from_utf8_lossy(&site[LIST]).into_owned();
    let paths: Vec<&String> = site.keys().filter(|path| *path != LIST).collect();
    match turn % 8 {
        1 => door.damage(TARGET, paths[dice.roll(paths.len())], "damaged"),
        // Two files change places in the list.
        3 => door.damage(TARGET, LIST, list.replacen(paths[3], "x", 1).replacen(paths[4], paths[3], 1)),
        5 => door.damage(TARGET, LIST, &list[..dice.roll(list.len())]),
        7 => {
            let lines: String = paths.iter().map(|path| format!("{path}\n")).collect();
            door.damage(TARGET, LIST, format!("maulstick published this, format 1, files: {}\n{lines}", paths.len()));
        }
        _ => {}
    }
}

/// Compares with words that help: which file, and where it begins to differ.
fn assert_same(live: &BTreeMap<String, Vec<u8>>, fresh: &BTreeMap<String, Vec<u8>>, edit: &str) {
    let paths = |site: &BTreeMap<String, Vec<u8>>| site.keys().cloned().collect::<Vec<_>>();
    assert_eq!(paths(live), paths(fresh), "after {edit}");
    for (path, bytes) in live {
        let other = &fresh[path];
        if bytes != other {
            let at =
                bytes.iter().zip(other).position(|(one, other)| one != other).unwrap_or(bytes.len().min(other.len()));
            let near = |bytes: &[u8]| {
                String::from_utf8_lossy(&bytes[at.saturating_sub(80)..(at + 80).min(bytes.len())]).into_owned()
            };
            assert_eq!(near(bytes), near(other), "{path} is stale after {edit}");
        }
    }
}

/// A session that follows a guide through many edits, on a door without stamps.
fn follow_in_memory(seed: u64) {
    let mut dice = Dice::new(seed);
    let mut files = guide::small();
    let original = files.clone();
    let door = memory(&files);
    let mut session = Session::default();
    let mut last: Option<Proof> = None;
    let mut fate = Dice::new(!seed);
    let (mut published, mut history) = (0, Vec::new());
    for turn in 0..EDITS * times() {
        let before = files.clone();
        history.push(edits::edit(&mut files, &original, &mut dice));
        for path in before.keys().filter(|path| !files.contains_key(*path)) {
            door.remove(path);
        }
        for (path, bytes) in files.iter().filter(|(path, bytes)| before.get(*path) != Some(*bytes)) {
            let _ = door.clone().with(path, bytes);
        }
        let proof = Proof::of(session.check(&door).unwrap(), last.as_ref());
        let expected = fresh(&files);
        let edit = format!("edit {turn} of seed {seed}: {}", history.last().unwrap());
        assert_eq!(findings(&proof), expected.findings, "after {edit}");
        assert_same(&site(&proof, &door), &expected.shown, &edit);
        mistreat(&door, turn, &mut fate);
        let again = publish(&door);
        assert_eq!(again.is_some(), expected.published.is_some(), "after {edit}");
        if let Some((again, fresh)) = again.zip(expected.published) {
            assert_same(&again, &fresh, &format!("{edit}, published again"));
        }
        published += usize::from(proof.findings().pass(false));
        last = Some(proof);
    }
    assert!(published > EDITS * times() / 10, "the guide was broken nearly all the time");
}

/// The same on the disk, with a snapshot that hears which files changed.
fn follow_on_disk(seed: u64) {
    let mut dice = Dice::new(seed);
    let folder = tempfile::tempdir().unwrap();
    let mut files = guide::small();
    let original = files.clone();
    edits::lay_out(folder.path(), &Folder::new(), &files);
    let mut snapshot = Snapshot::of(Disk::new(folder.path())).unwrap();
    let mut session = Session::default();
    let mut last: Option<Proof> = None;
    for turn in 0..EDITS * times() {
        let before = files.clone();
        let edit = edits::edit(&mut files, &original, &mut dice);
        let changed = edits::lay_out(folder.path(), &before, &files);
        // At times the watch only knows that something changed.
        let news = News { files: changed, anything: dice.roll(4) == 0 };
        snapshot.refresh(&news).unwrap();
        let proof = Proof::of(session.check(&snapshot).unwrap(), last.as_ref());
        let expected = fresh(&files);
        let edit = format!("edit {turn} of seed {seed} on the disk: {edit}");
        assert_eq!(findings(&proof), expected.findings, "after {edit}");
        assert_same(&site(&proof, &snapshot), &expected.shown, &edit);
        last = Some(proof);
    }
}

#[test]
fn a_hundred_edits_leave_nothing_stale() {
    follow_in_memory(1);
}

#[test]
fn a_hundred_others_leave_nothing_stale() {
    follow_in_memory(2);
}

#[test]
fn a_hundred_edits_on_the_disk_leave_nothing_stale() {
    follow_on_disk(3);
}

/// The works of the schemes by their slugs.
fn works(session: &mut Session, door: &Memory) -> BTreeMap<String, Arc<maulstick::work::WorkedScheme>> {
    let checked = session.check(door).unwrap();
    checked.worked.schemes.iter().map(|worked| (worked.scheme.slug.clone(), Arc::clone(worked))).collect()
}

/// Which schemes are worked again after a file gets another text.
fn worked_again(path: &str, old: &str, new: &str) -> Vec<String> {
    let files = guide::small();
    let text = std::str::from_utf8(&files[path]).unwrap();
    assert!(text.contains(old), "{path} does not hold {old}");
    let door = memory(&files);
    let mut session = Session::default();
    let before = works(&mut session, &door);
    let _ = door.clone().with(path, text.replacen(old, new, 1));
    let after = works(&mut session, &door);
    after
        .iter()
        .filter(|(slug, work)| !before.get(*slug).is_some_and(|old| Arc::ptr_eq(old, work)))
        .map(|(slug, _)| slug.clone())
        .collect()
}

#[test]
fn the_small_guide_can_be_published() {
    let door = memory(&guide::small());
    let proof = Proof::of(story::check(&door).unwrap(), None);
    let errors: Vec<String> =
        proof.findings().iter().filter(|f| f.level() == report::Level::Error).map(|f| f.message.clone()).collect();
    assert_eq!(errors, [""; 0]);
}

/// Gives every file of a published folder other bytes, with a list that says that they are right: whatever has them after
/// the next run was taken over.
fn forge(door: &Memory) {
    let list = String::from_utf8(door.written(TARGET).unwrap().remove(LIST).unwrap()).unwrap();
    let (first, files) = list.split_once('\n').unwrap();
    let forged: String = files
        .lines()
        .map(|line| {
            let (from, path) = line.splitn(3, ' ').nth(2).unwrap().split_once(' ').unwrap();
            door.damage(TARGET, path, path);
            format!("{} {} {from} {path}\n", Digest::of([path]), Checksum::of(path.as_bytes()))
        })
        .collect();
    let (first, _) = first.rsplit_once(' ').unwrap();
    door.damage(TARGET, LIST, format!("{first} {}\n{forged}", Digest::of([&forged])));
}

/// The files of the site that are made again when a file of the guide gets another text.
fn made_again(path: &str, old: &str, new: &str) -> Vec<String> {
    let files = guide::small();
    let door = memory(&files);
    publish(&door).unwrap();
    forge(&door);
    let text = files.get(path).map_or("", |bytes| std::str::from_utf8(bytes).unwrap());
    assert!(text.contains(old), "{path} does not hold {old}");
    let _ = door.clone().with(path, text.replacen(old, new, 1));
    let site = publish(&door).unwrap();
    site.into_iter().filter(|(path, bytes)| *bytes != path.as_bytes()).map(|(path, _)| path).collect()
}

/// What of one kind some files are of, by the folders of that kind.
fn of_kind<'p>(paths: &'p [String], folders: &[&str]) -> Vec<&'p str> {
    let inside = |path: &'p String| folders.iter().find_map(|folder| path.strip_prefix(folder));
    let names: BTreeSet<&str> =
        paths.iter().filter_map(inside).filter_map(|path| path.split(['/', '.']).next()).collect();
    names.into_iter().collect()
}

#[test]
fn only_what_changed_is_made_again() {
    let all = ["boat", "heron", "warden", "warden-night", "warden-night-without-folds", "warden-without-folds"];
    let cases: &[(&str, &str, &str, &[&str], bool)] = &[
        ("content/schemes/boat/20-hull.md", "Two thin coats", "Three thin coats", &["boat"], true),
        ("content/paints/mere.yaml", "maker:", "# All of them were bought in spring.\nmaker:", &[], false),
        ("content/paints/mere.yaml", "#5b6b3a", "#5b6b3b", &all, true),
        ("content/guide.yaml", "title: Fen", "title: Mere", &all, true),
        ("content/armies/watch.yaml", "models: 5", "models: 6", &["boat"], true),
        ("content/pages/about.md", "Hello", "Good day", &[], true),
        ("content/pages/new.md", "", "---\ntitle: New\n---\nA page.\n", &all, true),
        ("themes/own/style/chart.css", "p", "h1", &all, true),
        ("themes/own/sheets/page.html", "{{ title }}", "{{ title }}!", &all, true),
    ];
    for (path, old, new, schemes, index) in cases {
        let again = made_again(path, old, new);
        let made = (of_kind(&again, &["schemes/", "single/"]), again.iter().any(|path| path == "index.html"));
        assert_eq!(made, (schemes.to_vec(), *index), "{path}: {old} → {new}");
    }
}

#[test]
fn a_page_that_shows_some_schemes_is_made_again_for_those_alone() {
    let of_boat = made_again("content/schemes/boat/20-hull.md", "Two thin coats", "Three thin coats");
    // The page of all paints is one of the whole guide.
    assert_eq!(of_kind(&of_boat, &["paints/"]), ["ground", "index", "medium", "moss", "mud", "spirit", "white"]);
    let of_tools = made_again("content/tools.yaml", "\n", "\n# Tools.\n");
    assert_eq!(of_kind(&of_tools, &["paints/", "data/search-"]), [""; 0]);
    let of_all = made_again("content/guide.yaml", "author: ", "author: Old ");
    assert!(of_kind(&of_all, &["paints/"]).len() > 10);
}

/// The parts of the search begin where the texts before them end: a longer text moves all that are behind it.
#[test]
fn texts_that_move_from_one_part_of_the_search_to_the_next_are_found_once() {
    let step = "content/schemes/boat/20-hull.md";
    let mut files = guide::small();
    for (path, bytes) in &mut files {
        if path.starts_with("content/schemes/") && !path.ends_with("scheme.md") {
            bytes.extend("\nThin it well. ".repeat(6_000).bytes());
        }
    }
    let door = memory(&files);
    let before = publish(&door).unwrap();
    let parts = |site: &BTreeMap<String, Vec<u8>>| site.keys().filter(|path| path.starts_with("data/search-")).count();
    assert!(parts(&before) > 1);
    for more in [2_000, 5_000, 9_000, 0] {
        let mut text = files[step].clone();
        text.extend("Wait long. ".repeat(more).bytes());
        let _ = door.clone().with(step, &text);
        let mut now = files.clone();
        now.insert(step.to_owned(), text);
        assert_same(&publish(&door).unwrap(), &publish(&memory(&now)).unwrap(), &format!("{more} sentences more"));
    }
}

#[test]
fn only_what_changed_is_worked_again() {
    let cases: &[(&str, &str, &str, &[&str])] = &[
        ("content/schemes/boat/20-hull.md", "Two thin coats", "Three thin coats", &["boat"]),
        ("content/schemes/boat/20-hull.md", "coats: 2", "coats: 3", &["boat"]),
        ("content/paints/mere.yaml", "#5b6b3a", "#5b6b3b", &["boat", "warden", "warden-without-folds"]),
        ("content/paints/mere.yaml", "Reed Gold", "Old Reed Gold", &["heron"]),
        (
            "content/paints/mere.yaml",
            "#f4f2ec",
            "#e4e0d0",
            &["boat", "heron", "warden", "warden-night", "warden-night-without-folds", "warden-without-folds"],
        ),
        ("content/paints/mere.yaml", "maker:", "# All of them were bought in spring.\nmaker:", &[]),
        ("content/tools.yaml", "tools:", "# On the left of the desk.\ntools:", &[]),
        ("content/guide.yaml", "title: Fen", "title: Mere", &[]),
        (
            "content/guide.yaml",
            "humidity: 50%",
            "humidity: 80%",
            &["boat", "heron", "warden", "warden-night", "warden-night-without-folds", "warden-without-folds"],
        ),
        ("content/armies/watch.yaml", "models: 5", "models: 6", &["boat"]),
        ("content/pages/about.md", "Hello", "Good day", &[]),
        ("themes/own/style/chart.css", "p", "h1", &[]),
        ("themes/own/sheets/page.html", "{{ title }}", "{{ title }}!", &[]),
        ("content/schemes/heron/scheme.md", "## Feathers", "## Plumes", &["boat", "heron"]),
    ];
    for (path, old, new, expected) in cases {
        assert_eq!(worked_again(path, old, new), *expected, "{path}: {old} → {new}");
    }
}
