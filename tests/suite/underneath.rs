//! Files that change, come and go while they are read, and runs that get in each other's way.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Stdio;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use crate::bench::{self, Bench, pixel};

/// How often a restless guide is published.
const RUNS: usize = 30;

/// What lies beside the guide and is nobody's business.
const SECRET: &[u8] = b"%PDF-1.4 the secret";

/// A first guide in `mine`, with a picture and a file that a page links to.
fn guide() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench.write("mine/content/pages/dot.png", pixel()).write("mine/content/pages/map.pdf", "%PDF-1.4 a");
    bench.write("secret", SECRET);
    bench.write("mine/content/pages/more.md", "---\ntitle: More\n---\n\n![A dot](dot.png) [map](map.pdf)\n");
    bench
}

/// What an editor, a synchronising program or an author in a hurry does to a guide, over and over until told to stop.
fn restless(content: &Path, stop: &AtomicBool) {
    let at = |path: &str| content.join(path);
    let green = at("schemes/first-figure/30-green-coat.md");
    let text = fs::read_to_string(&green).unwrap();
    let moved = |from: &str, to: &str| {
        fs::rename(at(from), at(to)).unwrap();
        thread::sleep(Duration::from_millis(2));
        fs::rename(at(to), at(from)).unwrap();
    };
    let rewritten = |path: &str, texts: &[&[u8]]| {
        for text in texts {
            fs::write(at(path), text).unwrap();
            thread::sleep(Duration::from_millis(1));
        }
    };
    let dot = fs::read(at("pages/dot.png")).unwrap();
    let tricks: [&dyn Fn(); 7] = [
        &|| {
            rewritten(
                "schemes/first-figure/30-green-coat.md",
                &[b"---\ntitle: Ha", b"", (text.clone() + "\nMore.\n").as_bytes(), text.as_bytes()],
            );
        },
        &|| moved("schemes/first-figure/40-brown-leather.md", "schemes/first-figure/45-brown-leather.md"),
        &|| moved("schemes/first-figure", "schemes/second-figure"),
        &|| moved("pages", "leaves"),
        &|| rewritten("pages/map.pdf", &[b"%PDF-1.4 b", b"", b"%PDF-1.4 a"]),
        &|| rewritten("pages/dot.png", &[&dot[..dot.len() / 2], b"no picture", &dot]),
        &|| {
            fs::rename(at("pages/map.pdf"), at("pages/map.tmp")).unwrap();
            std::os::unix::fs::symlink("../../../secret", at("pages/map.pdf")).unwrap();
            thread::sleep(Duration::from_millis(2));
            fs::rename(at("pages/map.tmp"), at("pages/map.pdf")).unwrap();
        },
    ];
    for trick in tricks.iter().cycle() {
        if stop.load(Ordering::Relaxed) {
            return;
        }
        trick();
        thread::sleep(Duration::from_millis(3));
    }
}

/// Asserts that a site has every file of its list, and every file that its pages lead to.
fn assert_whole(site: &BTreeMap<String, Vec<u8>>) {
    let text = |path: &str| String::from_utf8_lossy(&site[path]).into_owned();
    for path in text(".maulstick").lines().skip(1).filter_map(|line| line.splitn(4, ' ').nth(3)) {
        assert!(site.contains_key(path), "the list names {path}, which is not there");
    }
    let links = regex::Regex::new(r#"(?:href|src)="([^":#?]+)"#).unwrap();
    for (path, _) in site.iter().filter(|(path, _)| Path::new(path).extension().is_some_and(|end| end == "html")) {
        let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
        for link in links.captures_iter(&text(path)) {
            let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
            for part in link[1].split('/') {
                match part {
                    ".." => drop(parts.pop()),
                    "." => {}
                    part => parts.push(part),
                }
            }
            let leads = parts.join("/");
            assert!(site.contains_key(&leads), "{path} leads to {leads}, which is not there");
        }
    }
}

#[test]
fn files_that_change_while_they_are_read_give_a_whole_site_or_none() {
    let bench = guide();
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let site = || bench::files_below(&bench.path("mine/published"));
    let quiet = site();
    assert_whole(&quiet);
    let stop = AtomicBool::new(false);
    let mut ends = BTreeMap::new();
    thread::scope(|scope| {
        scope.spawn(|| restless(&bench.path("mine/content"), &stop));
        for _ in 0..RUNS {
            let before = site();
            let run = bench.run(&["publish", "mine"]);
            *ends.entry(run.status).or_insert(0) += 1;
            let after = site();
            let calm = (0..=2).contains(&run.status) && !run.err.contains("panicked");
            if !calm || (run.status != 0 && after != before) {
                stop.store(true, Ordering::Relaxed);
                panic!("status {}: {}", run.status, run.err);
            }
            let leaked = after.get("pages/map.pdf").is_some_and(|bytes| bytes == SECRET);
            stop.fetch_or(leaked, Ordering::Relaxed);
            assert!(!leaked, "what a link led to was published");
        }
        stop.store(true, Ordering::Relaxed);
    });
    println!("{RUNS} runs by exit status: {ends:?}");
    assert_whole(&site());
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    assert!(site() == quiet, "once the guide rests, its site is what it was");
    let mut names: Vec<_> = fs::read_dir(bench.path("mine")).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["content", "published"]);
}

#[test]
fn many_publishes_of_different_guides_into_one_folder_end_in_one_whole_site() {
    let bench = guide();
    let guides = ["mine", "yours", "theirs"];
    for (guide, title) in guides.iter().zip(["My", "Your", "Their"]).skip(1) {
        bench::copy(&bench.path("mine"), &bench.path(guide));
        bench.replace(&format!("{guide}/content/guide.yaml"), "title: My", &format!("title: {title}"));
    }
    let mut sites = Vec::new();
    for guide in guides {
        assert_eq!(bench.run(&["publish", guide, "--out", "own"]).status, 0);
        sites.push(bench::files_below(&bench.path("own")));
    }
    for _ in 0..4 {
        let running: Vec<_> = guides
            .iter()
            .chain(&guides)
            .map(|guide| {
                let mut command = bench.command(&["publish", guide, "--out", "site"]);
                command.stdout(Stdio::null()).spawn().unwrap()
            })
            .collect();
        for mut child in running {
            assert!(child.wait().unwrap().success());
        }
        let site = bench::files_below(&bench.path("site"));
        assert!(sites.contains(&site), "a mix of two guides");
    }
    let mut names: Vec<_> = fs::read_dir(bench.path("")).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["mine", "own", "secret", "site", "theirs", "yours"]);
}

#[test]
fn two_starts_at_once_make_one_guide() {
    for _ in 0..5 {
        let bench = Bench::empty();
        let running: Vec<_> = (0..4)
            .map(|_| {
                let mut command = bench.command(&["start", "mine"]);
                command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap()
            })
            .collect();
        let mut made = 0;
        for child in running {
            let done = child.wait_with_output().unwrap();
            let said = String::from_utf8(done.stderr).unwrap();
            assert!(done.status.success() || said.contains("mine is not empty"), "{said}");
            made += usize::from(done.status.success());
        }
        assert_eq!(made, 1, "one of them makes it");
        assert_eq!(bench.run(&["check", "mine", "--strict"]).status, 0);
        assert_eq!(fs::read_dir(bench.path("")).unwrap().count(), 1);
    }
}

#[test]
fn a_mend_whose_files_move_underneath_loses_none() {
    let bench = guide();
    let folder = bench.path("mine/content/schemes/first-figure");
    fs::rename(folder.join("70-matt-varnish.md"), folder.join("15-matt-varnish.md")).unwrap();
    fs::rename(folder.join("20-grey-undercoat.md"), folder.join("65-grey-undercoat.md")).unwrap();
    let texts = || {
        let mut texts: Vec<Vec<u8>> = bench::files_below(&folder).into_values().collect();
        texts.sort();
        texts
    };
    let before = texts();
    let running: Vec<_> = (0..4)
        .map(|_| {
            let mut command = bench.command(&["check", "mine", "--mend", "--yes"]);
            command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap()
        })
        .collect();
    for child in running {
        let done = child.wait_with_output().unwrap();
        let said = String::from_utf8(done.stderr).unwrap();
        assert!(!said.contains("panicked") && !said.contains("nothing was changed"), "{said}");
        assert!(done.status.success() || said.contains("run it again"), "{said}");
    }
    assert!(texts() == before, "a step is lost");
    let next = bench.run(&["check", "mine", "--mend", "--yes"]);
    assert!(next.status == 0 && next.out.ends_with("no findings\n"), "{}{}", next.out, next.err);
}
