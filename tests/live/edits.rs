//! Edits as authors make them, chosen by dice that always fall alike: lines changed, doubled, lost and swapped, words
//! replaced, files added, renamed, emptied, deleted and put back.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use super::guide;

/// The files of a guide by their paths.
pub(crate) type Folder = BTreeMap<String, Vec<u8>>;

/// Dice with a fixed seed (the generator `SplitMix64` of Steele, Lea and Flood, 2014).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number below `sides`.
    pub(crate) fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((mixed ^ (mixed >> 31)) % sides as u64).unwrap()
    }

    fn of<T: Clone>(&mut self, all: &[T]) -> T {
        all[self.roll(all.len())].clone()
    }
}

/// Words that authors change for each other; each edit replaces the first with the second somewhere.
const WORDS: &[(&str, &str)] = &[
    ("moss", "reed-gold"),
    ("Moss", "Deep Moss"),
    ("#5b6b3a", "#6a7b4a"),
    ("opaque", "transparent"),
    ("30 min", "3 h"),
    ("brush", "airbrush"),
    ("undercoat", "basecoat"),
    ("shade", "glaze"),
    ("basecoat", "varnish"),
    ("fen", "mere"),
    ("Seams", "Joints"),
    ("Feathers", "Plumes"),
    ("80%", "70%"),
    ("models: 5", "models: 9"),
    ("language: en", "language: de"),
    ("humidity: 50%", "humidity: 85%"),
    ("wet-brush: 20", "wet-brush: 30"),
    ("theme: own", "theme: chart"),
    ("address: https://fen.example/book\n", ""),
    ("currency: EUR", "currency: GBP"),
    ("color: black", "color: navy"),
    ("{{ title }}", "{{ title | upper }}"),
    ("{{ title }}", "{{ title"),
    ("discontinued: true", "discontinued: false"),
    ("kind: thinner", "kind: medium"),
    ("#f4f2ec", "#e8e0d0"),
    ("#8fb5b3", "#9fc5c3"),
    ("round-brush", "flat-brush"),
    ("Reed Gold", "Reed Bronze"),
    ("tags: [fen]", "tags: [Fen, marsh]"),
    ("title: ", "title: The "),
    ("2027-01-12", "2027-04-01"),
];

/// Makes one edit and says what it was.
pub(crate) fn edit(files: &mut Folder, original: &Folder, dice: &mut Dice) -> String {
    let paths: Vec<String> = files.keys().cloned().collect();
    let path = dice.of(&paths);
    match dice.roll(12) {
        0..=3 => replace_words(files, dice),
        4 | 5 => change_line(files, &path, dice),
        6 => add_file(files, dice),
        7 => rename(files, &path, dice),
        8 if path != "content/guide.yaml" => {
            files.remove(&path);
            format!("{path} deleted")
        }
        _ => put_back(files, original, dice),
    }
}

fn replace_words(files: &mut Folder, dice: &mut Dice) -> String {
    for _ in 0..200 {
        let (one, other) = dice.of(WORDS);
        let (old, new) = if dice.roll(3) == 0 { (other, one) } else { (one, other) };
        let holding: Vec<String> = files
            .iter()
            .filter(|(_, bytes)| !old.is_empty() && String::from_utf8_lossy(bytes).contains(old))
            .map(|(path, _)| path.clone())
            .collect();
        if !holding.is_empty() {
            let path = dice.of(&holding);
            let text = String::from_utf8(files[&path].clone()).unwrap_or_default();
            files.insert(path.clone(), text.replacen(old, new, 1).into_bytes());
            return format!("{path}: '{old}' became '{new}'");
        }
    }
    "nothing".to_owned()
}

fn change_line(files: &mut Folder, path: &str, dice: &mut Dice) -> String {
    let Ok(text) = String::from_utf8(files[path].clone()) else { return format!("{path}: left alone") };
    let mut lines: Vec<&str> = text.lines().collect();
    if lines.is_empty() {
        lines.push("");
    }
    let at = dice.roll(lines.len());
    let what = match dice.roll(4) {
        0 => {
            lines.remove(at);
            "lost"
        }
        1 => {
            lines.insert(at, lines[at]);
            "doubled"
        }
        2 => {
            let other = dice.roll(lines.len());
            lines.swap(at, other);
            "swapped"
        }
        _ => {
            lines.insert(at, "# a comment, or a heading");
            "commented"
        }
    };
    let changed = lines.join("\n") + "\n";
    files.insert(path.to_owned(), changed.into_bytes());
    format!("{path}: line {} {what}", at + 1)
}

fn add_file(files: &mut Folder, dice: &mut Dice) -> String {
    let number = dice.roll(90) + 5;
    let scheme = dice.of(&["boat", "warden", "heron", "newt"]);
    let step = "---\ntitle: New\nstage: highlight\nareas: [all]\nwith: brush\npaints: [{use: moss}]\n---\nLight.\n";
    let (path, bytes) = match dice.roll(6) {
        0 => ("content/schemes/newt/scheme.md".to_owned(), b"---\ntitle: Newt\nareas: {skin: 100%}\n---\n".to_vec()),
        1 => {
            let photo = "content/schemes/boat/photos/boat.png".to_owned();
            (photo, guide::picture(u32::try_from(number).unwrap(), 200))
        }
        2 => ("content/pages/more.md".to_owned(), b"---\ntitle: More\n---\n# More\n[boat](scheme:boat)\n".to_vec()),
        3 => ("content/stray.yml".to_owned(), b"a: 1\n".to_vec()),
        _ => (format!("content/schemes/{scheme}/{number}-new.md"), step.as_bytes().to_vec()),
    };
    files.insert(path.clone(), bytes);
    format!("{path} added")
}

fn rename(files: &mut Folder, path: &str, dice: &mut Dice) -> String {
    let (folder, name) = path.rsplit_once('/').unwrap();
    let new = match name.split_once('-') {
        Some((number, rest)) if number.parse::<u32>().is_ok() => format!("{folder}/{}-{rest}", dice.roll(90) + 5),
        _ => format!("{folder}/other-{name}"),
    };
    if path == "content/guide.yaml" || files.contains_key(&new) {
        return format!("{path}: not renamed");
    }
    let bytes = files.remove(path).unwrap();
    files.insert(new.clone(), bytes);
    format!("{path} became {new}")
}

fn put_back(files: &mut Folder, original: &Folder, dice: &mut Dice) -> String {
    let touched: Vec<String> = original
        .iter()
        .filter(|(path, bytes)| files.get(*path) != Some(*bytes))
        .map(|(path, _)| path.clone())
        .collect();
    if touched.is_empty() || dice.roll(4) == 0 {
        files.retain(|path, _| original.contains_key(path));
        return "files that were added taken away".to_owned();
    }
    if dice.roll(2) == 0 {
        files.clone_from(original);
        return "everything put back".to_owned();
    }
    let path = dice.of(&touched);
    files.insert(path.clone(), original[&path].clone());
    format!("{path} put back")
}

/// Writes to a folder what differs between two states, and names the files.
pub(crate) fn lay_out(folder: &Path, before: &Folder, now: &Folder) -> BTreeSet<String> {
    let mut changed = BTreeSet::new();
    for path in before.keys().filter(|path| !now.contains_key(*path)) {
        fs::remove_file(folder.join(path)).unwrap();
        changed.insert(path.clone());
    }
    for (path, bytes) in now.iter().filter(|(path, bytes)| before.get(*path) != Some(*bytes)) {
        let full = folder.join(path);
        fs::create_dir_all(full.parent().unwrap()).unwrap();
        fs::write(full, bytes).unwrap();
        changed.insert(path.clone());
    }
    changed
}
