//! What is kept between looks at a guide is never stale: after any edit a session gives, byte for byte and finding for
//! finding, what a fresh look gives.
#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod edits;
mod guide;

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use edits::{Dice, Folder};
use maulstick::door::{Disk, Door, Memory, News, Snapshot};
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

/// What a fresh run makes of the files: published, or where errors forbid that, proofed.
fn fresh(files: &Folder) -> (String, BTreeMap<String, Vec<u8>>) {
    let door = memory(files);
    let proof = Proof::of(story::check(&door).unwrap(), None);
    let target = Path::new("site");
    let published = story::publish(&door, target, Wanted::default(), &()).unwrap();
    let mut site = if published.written.is_some() { door.written(target).unwrap() } else { site(&proof, &door) };
    // What keeps a published site at hand without network, and the notes for the next run, are made of the whole of it; the
    // live view has no use for them.
    site.retain(|path, _| path != "worker.js" && path != "data/pictures.json" && !path.starts_with("data/kept/"));
    (findings(&proof), site)
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
        let (found, expected) = fresh(&files);
        let edit = format!("edit {turn} of seed {seed}: {}", history.last().unwrap());
        assert_eq!(findings(&proof), found, "after {edit}");
        assert_same(&site(&proof, &door), &expected, &edit);
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
        let (found, expected) = fresh(&files);
        let edit = format!("edit {turn} of seed {seed} on the disk: {edit}");
        assert_eq!(findings(&proof), found, "after {edit}");
        assert_same(&site(&proof, &snapshot), &expected, &edit);
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
            &["boat", "heron", "warden", "warden-night", "warden-without-folds"],
        ),
        ("content/paints/mere.yaml", "maker:", "# All of them were bought in spring.\nmaker:", &[]),
        ("content/tools.yaml", "tools:", "# On the left of the desk.\ntools:", &[]),
        ("content/guide.yaml", "title: Fen", "title: Mere", &[]),
        (
            "content/guide.yaml",
            "humidity: 50%",
            "humidity: 80%",
            &["boat", "heron", "warden", "warden-night", "warden-without-folds"],
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
