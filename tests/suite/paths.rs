//! Paths and names that lead out, clash or do not travel: each is told at its place, and nothing outside is read or
//! written.

use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs;
use std::os::unix::ffi::OsStrExt;
use std::os::unix::fs::symlink;
use std::os::unix::net::UnixListener;
use std::path::Path;

use crate::bench::{Bench, pixel};

/// What a case does to a first guide in `mine/`, all paths from `mine/content/`.
enum Trick {
    /// A page with this text in it, called `about`.
    Page(&'static str),
    /// A file.
    File(&'static str, &'static str),
    /// A picture, and a page that shows it.
    Picture(&'static str),
    /// A file of the guide that a page links to.
    Linked(&'static str),
    /// A link in the file system, and what it leads to.
    Link(&'static str, &'static str),
    /// One text in a file, replaced by another.
    Replace(&'static str, &'static str, &'static str),
    /// What no line of text can say.
    Special(fn(&Path)),
}
use Trick::{File, Link, Linked, Page, Picture, Replace, Special};

const SCHEME: &str = "schemes/first-figure/scheme.md";
const PAINTS: &str = "paints/my-paints.yaml";
const TEXT: &str = "---\ntitle: A page\n---\n\nText.\n";
const LONG: &str = "pages/aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\
                    aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa.md";
const SHORTER: &str =
    "pages/aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa.md";

/// What is done, and what is told about it: the rule, the place from `content/`, and a part of what is said.
const TRICKS: &[(Trick, &str, &str, &str)] = &[
    // Out of the guide, in a text.
    (Page("[x](../../../secret.pdf)"), "dead-link", "pages/about.md:5:1", "leads out of the content folder"),
    (Page("![x](../../../secret.png)"), "picture-missing", "pages/about.md:5:1", "leads out of the content folder"),
    (Page("[x](%2e%2e/%2e%2e/%2e%2e/secret.pdf)"), "dead-link", "pages/about.md:5:1", "content folder"),
    (Page("[x](/etc/hostname.txt)"), "dead-link", "pages/about.md:5:1", "content folder"),
    (Page("![x](/etc/logo.png)"), "picture-missing", "pages/about.md:5:1", ""),
    (Page("[x](file:///etc/passwd)"), "unsafe-link", "pages/about.md:5:1", "file:///etc/passwd"),
    (Page("[x](..\\\\..\\\\secret.pdf)"), "dead-link", "pages/about.md:5:1", ""),
    // Out of the guide, in a key.
    (
        Replace(SCHEME, "title:", "photo: ../../../../secret.png\ntitle:"),
        "picture-missing",
        "schemes/first-figure/scheme.md:2:",
        "leads out",
    ),
    (
        Replace(SCHEME, "title:", "photo: /etc/logo.png\ntitle:"),
        "picture-missing",
        "schemes/first-figure/scheme.md:2:",
        "",
    ),
    (
        Replace("guide.yaml", "language: en", "language: en\ntheme: ../../theirs"),
        "value-unreadable",
        "guide.yaml:5:8",
        "an id has",
    ),
    (
        Replace("guide.yaml", "language: en", "language: en\ntheme: /etc"),
        "value-unreadable",
        "guide.yaml:5:8",
        "an id has",
    ),
    // Links in the file system.
    (Link("pages/leak.md", "../../../secret.pdf"), "file-refused", "pages/leak.md:1:1", "it is a link"),
    (Link("pages/same.md", "about.md"), "file-refused", "pages/same.md:1:1", "it is a link"),
    (Link("pages/absolute.md", "/etc/passwd"), "file-refused", "pages/absolute.md:1:1", "it is a link"),
    (Link("pages/nowhere.md", "nowhere"), "file-refused", "pages/nowhere.md:1:1", "it is a link"),
    (Link("schemes/theirs", "../../../theirs"), "file-refused", "schemes/theirs:1:1", "it is a link"),
    (Link("loop", "."), "file-refused", "loop:1:1", "it is a link"),
    (Link("pages/itself.md", "itself.md"), "file-refused", "pages/itself.md:1:1", "it is a link"),
    (
        Special(|content| {
            fs::remove_file(content.join("guide.yaml")).unwrap();
            symlink("/etc/hostname", content.join("guide.yaml")).unwrap();
        }),
        "file-refused",
        "guide.yaml:1:1",
        "it is a link",
    ),
    // What is no file.
    (Special(|content| pipe(&content.join("pages/pipe.md"))), "file-refused", "pages/pipe.md:1:1", "a pipe"),
    (
        Special(|content| drop(UnixListener::bind(content.join("s.md")).unwrap())),
        "file-refused",
        "s.md:1:1",
        "a socket",
    ),
    (Special(|content| fs::create_dir(content.join("pages/folder.md")).unwrap()), "", "", ""),
    // Names that only some systems can tell apart, or write.
    (File("pages/About.md", TEXT), "file-refused", "pages/about.md:1:1", "differs from 'content/pages/About.md'"),
    (
        Special(|content| both(content, "pages/caf\u{e9}.pdf", "pages/cafe\u{301}.pdf")),
        "file-refused",
        "pages/caf\u{e9}.pdf:1:1",
        "how its accents are stored",
    ),
    (
        Special(|content| {
            fs::write(content.join("pages/gro\u{308}ße.pdf"), path_text()).unwrap();
            fs::write(content.join("pages/about.md"), "---\ntitle: About\n---\n\n[x](gr\u{f6}ße.pdf)\n").unwrap();
        }),
        "dead-link",
        "pages/about.md:5:1",
        "its accents are stored otherwise",
    ),
    (
        Special(|content| both(content, "Maps/a.pdf", "maps/b.pdf")),
        "file-name",
        "Maps:1:1",
        "differs from 'content/maps'",
    ),
    (
        File("schemes/First-figure/15-more.md", TEXT),
        "file-name",
        "schemes/First-figure:1:1",
        "differs from 'content/schemes/first-figure'",
    ),
    (File("pages/con.md", TEXT), "file-refused", "pages/con.md:1:1", "a device"),
    (File("pages/Nul.md", TEXT), "file-refused", "pages/Nul.md:1:1", "a device"),
    (File("pages/aux.tar.md", TEXT), "file-refused", "pages/aux.tar.md:1:1", "a device"),
    (File("schemes/com1/scheme.md", TEXT), "file-refused", "schemes/com1:1:1", "a device"),
    (
        Replace(PAINTS, "paints:\n", "paints:\n  lpt1: {name: Printer, kind: paint}\n"),
        "value-unreadable",
        "paints/my-paints.yaml:8:3",
        "a device",
    ),
    (File("pages/end.", TEXT), "file-refused", "pages/end.:1:1", "a dot or a space"),
    (File("pages/end.md ", TEXT), "file-refused", "pages/end.md :1:1", "a dot or a space"),
    (File("pages/a:b.md", TEXT), "file-refused", "pages/a:b.md:1:1", "do not allow"),
    (File("pages/a\\b.md", TEXT), "file-refused", "pages/a\\b.md:1:1", "do not allow"),
    (File(LONG, TEXT), "file-refused", LONG, "longer than 200 bytes"),
    (File(SHORTER, TEXT), "file-name", SHORTER, "give it a short name"),
    (File("pages/line\nbreak.md", TEXT), "file-refused", "pages/line\u{fffd}break.md:1:1", "a control character"),
    (File("pages/\u{1b}[31mred.md", TEXT), "file-refused", "pages/\u{fffd}[31mred.md:1:1", "a control character"),
    (File("pages/\u{202e}dm.exe.md", TEXT), "file-name", "pages/\u{fffd}dm.exe.md:1:1", "rename it to 'dm-exe.md'"),
    (File("pages/a\u{200b}b.md", TEXT), "file-name", "pages/a\u{fffd}b.md:1:1", "rename it to 'a-b.md'"),
    (
        Special(|content| fs::write(content.join("pages").join(OsStr::from_bytes(b"caf\xe9.md")), TEXT).unwrap()),
        "file-refused",
        "pages/caf\u{fffd}.md:1:1",
        "not valid UTF-8",
    ),
    // Names that the site has for itself.
    (Linked("schemes/first-figure/card.pdf"), "name-taken", "schemes/first-figure/card.pdf:1:1", "has of its own"),
    (Linked("schemes/first-figure/Recipe.txt"), "name-taken", "schemes/first-figure/Recipe.txt:1:1", "has of its own"),
    (Linked("schemes/first-figure/shopping.csv"), "name-taken", "schemes/first-figure/shopping.csv:1:1", ""),
    (Picture("theme/icon-192.png"), "name-taken", "theme/icon-192.png:1:1", "has of its own"),
    (Linked("worker.js"), "unsafe-link", "pages/about.md:5:1", "'worker.js' is not published"),
    (Linked("index.html"), "unsafe-link", "pages/about.md:5:1", "'index.html' is not published"),
    (Linked("theme/style/chart.css"), "unsafe-link", "pages/about.md:5:1", "is not published"),
    (Linked(".maulstick"), "dead-link", "pages/about.md:5:1", "there is no '.maulstick'"),
    (
        Replace(PAINTS, "paints:\n", "paints:\n  index: {name: Index, kind: paint}\n"),
        "duplicate-id",
        "paints/my-paints.yaml:8:3",
        "",
    ),
    (
        File("schemes/first-figure/source.md", TEXT),
        "step-name",
        "schemes/first-figure/source.md:1:1",
        "begin with a number",
    ),
    // Names that are a thing of the site elsewhere and clash with nothing.
    (File("pages/index.md", TEXT), "", "", ""),
    (File("pages/404.md", TEXT), "", "", ""),
    (Linked("robots.txt"), "", "", ""),
    (Picture("preview.png"), "", "", ""),
    (
        Replace(SCHEME, "tags: [brush, first]", "tags: [con, CON, index, 'a/b', '../x', 'caf\u{e9}', 'cafe\u{301}']"),
        "",
        "",
        "",
    ),
];

fn pipe(path: &Path) {
    let made = std::process::Command::new("mkfifo").arg(path).status().unwrap();
    assert!(made.success());
}

/// Two files, where the file system can hold both.
fn both(content: &Path, one: &str, other: &str) {
    for path in [one, other] {
        let path = content.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, path_text()).unwrap();
    }
}

const fn path_text() -> &'static str {
    "%PDF-1.4"
}

impl Trick {
    fn play(&self, bench: &Bench) {
        let at = |path: &str| format!("mine/content/{path}");
        let page = |body: &str| {
            bench.write("mine/content/pages/about.md", format!("---\ntitle: About\n---\n\n{body}\n"));
        };
        match self {
            Page(body) => page(body),
            File(path, text) => drop(bench.write(&at(path), text)),
            Picture(path) => {
                bench.write(&at(path), pixel());
                page(&format!("![A dot](../{path})"));
            }
            Linked(path) => {
                bench.write(&at(path), path_text());
                page(&format!("[x](../{path})"));
            }
            Link(path, leads) => symlink(leads, bench.path(&at(path))).unwrap(),
            Replace(file, old, new) => drop(bench.replace(&at(file), old, new)),
            Special(lay) => lay(&bench.path("mine/content")),
        }
    }
}

/// A first guide in `mine`, and beside it what is none of the guide's business.
fn guide() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench.write("secret.pdf", "%PDF the secret").write("secret.png", "the secret");
    bench.write("theirs/scheme.md", "---\ntitle: the secret\n---\n").write("theirs/diary.txt", "the secret");
    bench
}

/// Everything below a folder, links as links: what it is, and what it holds.
fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).unwrap().map(Result::unwrap) {
            let (path, kind) = (entry.path(), entry.file_type().unwrap());
            let held = if kind.is_symlink() {
                fs::read_link(&path).unwrap().into_os_string().into_encoded_bytes()
            } else if kind.is_file() {
                fs::read(&path).unwrap()
            } else {
                format!("{kind:?}").into_bytes()
            };
            if kind.is_dir() {
                folders.push(path.clone());
            }
            found.insert(path.strip_prefix(folder).unwrap().to_string_lossy().into_owned(), held);
        }
    }
    found
}

#[test]
fn every_trick_with_a_path_is_told_at_its_place() {
    let mut faults = Vec::new();
    for (trick, rule, place, says) in TRICKS {
        let bench = guide();
        trick.play(&bench);
        let before = tree(&bench.path(""));
        let run = bench.run(&["publish", "mine"]);
        let mut after = tree(&bench.path(""));
        let site: Vec<(String, Vec<u8>)> = after.extract_if(.., |path, _| path.starts_with("mine/published")).collect();
        let leak = |bytes: &[u8]| String::from_utf8_lossy(bytes).contains("the secret");
        let told = run.err.split("\n\n").any(|told| {
            told.contains(&format!("[{rule}]")) && told.contains(&format!("content/{place}")) && told.contains(says)
        });
        let held = [
            ("what lies beside the site is as it was", before == after),
            ("nothing unseen is printed", !run.err.contains(['\u{202e}', '\u{200b}', '\u{1b}'])),
            ("nothing of the secret is told", !leak(run.err.as_bytes()) && !site.iter().any(|(_, bytes)| leak(bytes))),
            ("it is told", told || rule.is_empty()),
            ("the exit status says so", run.status == i32::from(!rule.is_empty())),
            ("there is a site only if nothing is told", site.is_empty() != rule.is_empty()),
        ];
        let broken = held.iter().filter(|(_, holds)| !holds);
        faults.extend(broken.map(|(what, _)| format!("{rule} at {place}, {says:?}: not so: {what}\n{}", run.err)));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What is done to a guide's own theme, a part of the place, and a part of what is said.
type ThemeTrick = (fn(&Path), &'static str, &'static str);

const THEME_TRICKS: &[ThemeTrick] = &[
    (|theme| symlink("/etc/hostname", theme.join("style/chart.css")).unwrap(), "style/chart.css:1:1", "it is a link"),
    (|theme| pipe(&theme.join("style/chart.css")), "style/chart.css:1:1", "a pipe"),
    (|theme| fs::write(theme.join("style/con.css"), "p {}").unwrap(), "style/con.css:1:1", "a device"),
    (|theme| fs::write(theme.join("Mark.svg"), "<svg/>").unwrap(), "Mark.svg:1:1", "'mark.svg', and capitals count"),
    (|theme| fs::write(theme.join("large.txt"), vec![b'a'; 8_000_001]).unwrap(), "large.txt:1:1", "larger than"),
    (
        |theme| {
            fs::rename(theme, theme.with_file_name("real")).unwrap();
            fs::write(theme.with_file_name("real/style/own.css"), "p {}").unwrap();
            symlink("real", theme).unwrap();
        },
        "style/own.css:1:1",
        "is a link",
    ),
];

#[test]
fn a_theme_s_files_that_lead_out_or_do_not_travel_are_told() {
    for (trick, place, says) in THEME_TRICKS {
        let bench = guide();
        fs::create_dir_all(bench.path("mine/themes/plain/style")).unwrap();
        trick(&bench.path("mine/themes/plain"));
        bench.replace("mine/content/guide.yaml", "language: en", "language: en\ntheme: plain");
        let run = bench.run(&["publish", "mine"]);
        assert_eq!(run.status, 1, "{place}: {}", run.err);
        assert!(run.err.contains(&format!("themes/plain/{place}")) && run.err.contains(says), "{place}: {}", run.err);
        assert!(run.err.contains("[theme-file]") && !bench.path("mine/published").exists(), "{}", run.err);
    }
}

/// Where a site may not go, and a part of what is said.
const TARGETS: &[(&str, &str)] = &[
    ("mine", "holds the guide itself"),
    ("mine/content", "holds the guide itself"),
    ("mine/content/site", "inside the guide's content"),
    ("mine/content/schemes", "inside the guide's content"),
    ("mine/themes/../content", "holds the guide itself"),
    (".", "does not name a folder"),
    ("..", "does not name a folder"),
    ("mine/..", "does not name a folder"),
    ("/", "does not name a folder"),
    ("secret.pdf", "is not a folder"),
    ("secret.pdf/site", "is not a folder"),
    ("to-theirs", "is a link"),
    ("to-content", "holds the guide itself"),
    ("to-nowhere", "is a link"),
    ("pipe", "is not a folder"),
    ("theirs", "has files in it that were not published"),
    ("mine/themes", "lies among the guide's themes"),
    ("false-list", "is no list of published files"),
    ("missing/site", "there is no folder 'missing'"),
    ("/dev/null", "is not a folder"),
];

#[test]
fn a_site_goes_nowhere_but_into_a_folder_of_its_own() {
    let bench = guide();
    bench.write("mine/themes/plain/style.css", "p {}").write("false-list/.maulstick", "../secret.pdf\n");
    for (link, leads) in [("to-theirs", "theirs"), ("to-content", "mine/content"), ("to-nowhere", "nowhere")] {
        symlink(leads, bench.path(link)).unwrap();
    }
    pipe(&bench.path("pipe"));
    let before = tree(&bench.path(""));
    let long = "n".repeat(256);
    for (target, says) in TARGETS.iter().copied().chain([(long.as_str(), "File name too long")]) {
        let run = bench.run(&["publish", "mine", "--out", target]);
        assert_eq!(run.status, 2, "{target}: {}{}", run.out, run.err);
        let plain = run.err.starts_with("maulstick: ") && run.err.ends_with("nothing was changed\n");
        assert!(plain && run.err.contains(says), "{target}: {}", run.err);
        assert!(before == tree(&bench.path("")), "{target}: something was changed");
    }
    fs::create_dir(bench.path("real")).unwrap();
    symlink("real", bench.path("way")).unwrap();
    assert_eq!(bench.run(&["publish", "mine", "--out", "way/site"]).status, 0, "the way there may be a link");
    assert!(bench.path("real/site/index.html").is_file());
}

#[test]
fn a_list_of_published_files_cannot_name_files_elsewhere() {
    let bench = guide();
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let list = fs::read_to_string(bench.path("mine/published/.maulstick")).unwrap();
    for path in ["../../secret.pdf", "/etc/hostname", "a/../../../secret.pdf"] {
        bench.write("mine/published/.maulstick", format!("{list}{path}\n"));
        let before = tree(&bench.path(""));
        let run = bench.run(&["publish", "mine"]);
        assert_eq!(run.status, 2, "{path}: {}", run.err);
        assert!(run.err.contains("is no list of published files"), "{}", run.err);
        assert!(before == tree(&bench.path("")), "{path}");
    }
}

/// Commands that read or write one file, and a part of what is said.
const FILES: &[(&[&str], &str)] = &[
    (&["start", "secret.pdf"], "is not a folder"),
    (&["start", "to-theirs"], "is a link"),
    (&["start", "to-nowhere"], "is a link"),
    (&["start", "theirs"], "theirs is not empty"),
    (&["start", "mine/content/pages/more"], "lies inside the content of another guide"),
    (&["start", "missing/mine"], "there is no folder 'missing'"),
    (&["start", "."], "does not name a folder"),
    (&["card", "mine", "first-figure", "--out", "secret.pdf"], "none of ours"),
    (&["card", "mine", "first-figure", "--out", "theirs"], "none of ours"),
    (&["card", "mine", "first-figure", "--out", "to-nowhere"], "none of ours"),
    (&["card", "mine", "first-figure", "--out", "pipe"], "none of ours"),
    (&["card", "mine", "first-figure", "--out", "/dev/null"], "none of ours"),
    (&["card", "mine", "first-figure", "--out", "mine/content/guide.yaml"], "none of ours"),
    (&["card", "mine", "first-figure", "--out", "missing/card.pdf"], "the card was not written"),
    (&["card", "mine", "../../theirs"], "there is no scheme"),
    (&["shop", "mine", "first-figure", "--have", "pipe"], "is not an ordinary file"),
    (&["shop", "mine", "first-figure", "--have", "theirs"], "is no file"),
    (&["shop", "mine", "first-figure", "--have", "/dev/zero"], "is not an ordinary file"),
    (&["shop", "mine", "first-figure", "--have", "to-nowhere"], "is a link"),
    (&["match", "mine", "moss-green", "--from", "pipe"], "is not an ordinary file"),
    (&["match", "mine", "moss-green", "--from", "/dev/zero"], "is not an ordinary file"),
    (&["swatch", "pipe", "--white", "1,1", "--black", "2,2"], "is not an ordinary file"),
    (&["swatch", "/dev/zero", "--white", "1,1", "--black", "2,2"], "is not an ordinary file"),
    (&["check", "pipe"], "there is no folder pipe"),
    (&["publish", "secret.pdf"], "there is no folder"),
    (&["easel", "theirs"], "is no guide"),
    (&["check", "round"], "round can't be read"),
];

#[test]
fn no_command_takes_a_device_for_a_file_or_writes_over_what_is_not_ours() {
    let bench = guide();
    symlink("theirs", bench.path("to-theirs")).unwrap();
    symlink("nowhere", bench.path("to-nowhere")).unwrap();
    symlink("round", bench.path("round")).unwrap();
    pipe(&bench.path("pipe"));
    let before = tree(&bench.path(""));
    for (arguments, says) in FILES {
        let run = bench.run(arguments);
        assert_eq!(run.status, 2, "{arguments:?}: {}{}", run.out, run.err);
        assert!(run.err.contains("maulstick: ") && run.err.contains(says), "{arguments:?}: {}", run.err);
        assert!(before == tree(&bench.path("")), "{arguments:?}: something was changed");
    }
}

#[test]
fn a_folder_that_is_gone_under_one_s_feet_is_told() {
    let bench = guide();
    fs::create_dir(bench.path("gone")).unwrap();
    let script = "cd gone && rmdir ../gone && exec \"$M\" publish ../mine";
    let mut command = std::process::Command::new("bash");
    command.args(["-c", script]).current_dir(bench.path("")).env("M", env!("CARGO_BIN_EXE_maulstick"));
    let run = command.output().unwrap();
    let said = String::from_utf8_lossy(&run.stderr);
    assert!(run.status.code() == Some(2) && said.contains("the folder that you are in was removed"), "{said}");
}

#[test]
fn a_folder_deeper_than_any_path_may_be_is_told() {
    let bench = guide();
    // Deeper than the 4096 bytes that the system takes in one path: made step by step, as a careless script would.
    let script = "cd mine/content && for i in $(seq 45); do mkdir deeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeep && cd -P deee* || exit 1; done; echo x > x.txt";
    let made = std::process::Command::new("bash").args(["-c", script]).current_dir(bench.path("")).status().unwrap();
    assert!(made.success());
    let run = bench.run(&["check", "mine"]);
    assert_eq!(run.status, 1, "{}", run.out);
    assert!(run.out.contains("[file-refused]") && run.out.contains("it can't be read"), "{}", run.out);
    let gone = std::process::Command::new("rm").args(["-rf", "mine"]).current_dir(bench.path("")).status().unwrap();
    assert!(gone.success());
}
