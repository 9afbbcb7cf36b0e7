//! What no file can make the program do: run for minutes, or take a machine's memory. The bounds are those of
//! src/source/BOUNDS.md, wide enough for an unoptimised program on a busy machine and far from what a square would need.

use std::fs::{self, File};
use std::process::Child;
use std::time::{Duration, Instant};

use crate::bench::{Bench, copy};

/// The longest that a run may take.
const LONGEST: Duration = Duration::from_mins(2);

/// The most memory that a run may have resident, in MB.
const MOST_MEMORY: u64 = 600;

const PAGE: &str = "mine/content/pages/about.md";
const SCHEME: &str = "mine/content/schemes/first-figure";

fn first() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench
}

fn page(body: &str) -> Bench {
    let bench = first();
    bench.write(PAGE, format!("---\ntitle: About\n---\n\n{body}\n"));
    bench
}

/// The most memory that a running process has had resident, in MB; nothing once it has ended.
fn peak(child: &Child) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{}/status", child.id())).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().trim_end_matches(" kB").trim().parse::<u64>().ok().map(|kilobytes| kilobytes / 1024)
}

/// Runs the program within the bounds: its exit status, and all that it said.
fn bounded(bench: &Bench, arguments: &[&str]) -> (i32, String) {
    let said = bench.path("said");
    let file = File::create(&said).unwrap();
    let mut child = bench.command(arguments).stdout(file.try_clone().unwrap()).stderr(file).spawn().unwrap();
    let begun = Instant::now();
    let mut most = 0;
    let status = loop {
        most = most.max(peak(&child).unwrap_or_default());
        if let Some(status) = child.try_wait().unwrap() {
            break status;
        }
        if begun.elapsed() > LONGEST || most > MOST_MEMORY {
            child.kill().unwrap();
            child.wait().unwrap();
            panic!("{arguments:?} had taken {:?} and {most} MB when it was stopped", begun.elapsed());
        }
        std::thread::sleep(Duration::from_millis(3));
    };
    (status.code().unwrap_or(-1), fs::read_to_string(said).unwrap())
}

/// How often a rule was told in JSON, and where first.
fn told(said: &str, rule: &str) -> (usize, String) {
    let told: serde_json::Value = serde_json::from_str(said).unwrap();
    let of_rule: Vec<_> = told["findings"].as_array().unwrap().iter().filter(|one| one["rule"] == rule).collect();
    let place = of_rule
        .first()
        .map_or_else(String::new, |one| format!("{}:{}:{}", one["file"].as_str().unwrap(), one["line"], one["column"]));
    (of_rule.len(), place)
}

#[test]
fn more_than_its_text_has_room_for_is_told() {
    let bench = first();
    for at in 0..1300 {
        let folder = format!("mine/content/schemes/s{at}");
        bench.write(&format!("{folder}/scheme.md"), "---\ntitle: S\nareas: {a: 100%}\n---\n");
        bench.write(&format!("{folder}/10-a.md"), "---\ntitle: A\nstage: prepare\nwith: hand\n---\n");
    }
    let (status, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
    assert_eq!((status, told(&said, "guide-too-large").0), (1, 1));

    let bench = first();
    let paints: String =
        (0..6001).map(|at| format!("  p{at}: {{name: P{at}, kind: paint, colour: \"#5b6b3a\"}}\n")).collect();
    bench.write("mine/content/paints/big.yaml", format!("maker: Tarn\nrange: Big\nfamily: water\npaints:\n{paints}"));
    let (status, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
    assert_eq!((status, told(&said, "guide-too-large").0), (1, 1));
}

/// Of a scheme with more areas than a scheme may have no area is told as missing, and nothing of what rests on them.
#[test]
fn areas_beyond_the_bound_are_told_and_no_more() {
    let bench = first();
    let areas: String = (0..=200).map(|at| format!("  area-{at}: {}%\n", if at == 200 { 100 } else { 0 })).collect();
    bench.write("mine/content/schemes/cloak/scheme.md", format!("---\ntitle: Cloak\nareas:\n{areas}---\n"));
    bench.write(
        "mine/content/schemes/cloak/10-cloth.md",
        "---\ntitle: Cloth\nstage: basecoat\nareas: [area-200]\nwith: brush\n---\nTwo thin coats.\n",
    );
    let run = bench.run(&["check", "mine"]);
    assert!(run.out.contains("error[scheme-too-large]") && run.out.contains("cloak/scheme.md:204:3"), "{}", run.out);
    assert_eq!(run.out.matches("error[").count(), 1, "{}", run.out);
}

#[test]
fn findings_cost_what_their_number_says() {
    for between in [" ", "\n"] {
        let bench = page(&format!("[a](b){between}").repeat(30_000));
        for format in ["text", "sarif"] {
            let (status, said) = bounded(&bench, &["check", "mine", "--format", format]);
            assert_eq!(status, 1);
            assert!(said.contains("dead-link") && said.len() > 30_000 * 100);
        }
        let (_, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
        let place = "content/pages/about.md:5:1".to_owned();
        assert_eq!(told(&said, "dead-link"), (30_000, place));
    }
}

#[test]
fn names_that_nothing_is_like_are_not_compared_for_ever() {
    let bench = first();
    let paints: String = (0..10_000).map(|at| format!("  paint-{at}: {{name: Paint, kind: paint}}\n")).collect();
    bench.write("mine/content/paints/big.yaml", format!("maker: Tarn\nrange: Big\nfamily: water\npaints:\n{paints}"));
    let links: String = (0..20_000).map(|at| format!("[a](paint:pant-{at}) [b](#none-{at})\n\n")).collect();
    let headings: String = (0..10_000).map(|at| format!("# Heading {at}\n\n")).collect();
    fs::write(bench.path(PAGE), format!("---\ntitle: About\n---\n\n{links}")).unwrap();
    bench.write("mine/content/pages/more.md", format!("---\ntitle: More\n---\n\n{headings}"));
    let (status, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
    assert_eq!(status, 1);
    assert_eq!(told(&said, "dead-link"), (20_000, "content/pages/about.md:5:1".to_owned()));
    assert_eq!(told(&said, "dead-anchor").0, 20_000);
    assert!(said.contains("did you mean 'paint-"), "the first ones still name the nearest");
}

#[test]
fn names_of_half_a_million_letters_are_not_compared() {
    let bench = page(&format!("# {}\n\n[a](#{})\n", "h".repeat(400_000), "k".repeat(400_000)));
    let (_, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
    assert_eq!(told(&said, "dead-anchor"), (1, "content/pages/about.md:7:1".to_owned()));
}

#[test]
fn lists_end_at_a_thousand_entries() {
    let bench = first();
    let step = format!("{SCHEME}/30-green-coat.md");
    let text = fs::read_to_string(bench.path(&step)).unwrap();
    // All on one line: what looked for its end at each entry would take minutes.
    for (open, sign, behind, close) in
        [('[', "", "", ']'), ('[', "!own ", "", ']'), ('{', "", "", '}'), ('{', "", ":", '}')]
    {
        let tools: String = (0..60_000).map(|at| format!("{sign}t-{at}{behind}, ")).collect();
        bench.write(&step, text.replace("tools: [round-brush]", &format!("tools: {open}{tools}{close}")));
        let (_, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
        assert_eq!(told(&said, "tool-not-listed").0, if open == '[' { 1000 } else { 0 }, "{said}");
        let (count, place) = told(&said, "value-shape");
        assert!(count == 1 && place.starts_with("content/schemes/first-figure/30-green-coat.md:"), "{place}");
    }
}

#[test]
fn html_and_quotes_nested_beyond_measure_are_told() {
    for (body, place) in [
        ("<div>".repeat(190_000), "content/pages/about.md:5:1"),
        ("<div>\n\n".repeat(100_000), "content/pages/about.md:5:1"),
        (format!("<p{}>", (0..120_000).map(|at| format!(" a{at}")).collect::<String>()), "content/pages/about.md:5:1"),
        ("> ".repeat(400_000), "content/pages/about.md:5:201"),
    ] {
        let bench = page(&body);
        bench.replace("mine/content/guide.yaml", "language: en", "language: en\nraw-html: true");
        let (status, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
        assert_eq!((status, told(&said, "text-beyond-measure")), (1, (1, place.to_owned())));
        assert_eq!(bounded(&bench, &["publish", "mine"]).0, 1);
    }
}

#[test]
fn notes_by_the_thousands_are_numbered_in_time() {
    let marks: String = (0..20_000).map(|at| format!("a[^n{at}]\n")).collect();
    let notes: String = (0..20_000).map(|at| format!("[^n{at}]: b\n\n")).collect();
    let bench = page(&format!("{marks}\n{notes}"));
    assert_eq!(bounded(&bench, &["publish", "mine"]).0, 0);
    let html = fs::read_to_string(bench.path("mine/published/pages/about.html")).unwrap();
    assert!(html.contains("href=\"#note_20000\">20000<") && html.contains("id=\"note_20000\""));
}

#[test]
fn html_just_within_the_bounds_is_published_in_time() {
    let open: String = (0..900).map(|at| format!("<b id=a{at}>")).collect();
    for body in ["<div>".repeat(1400), format!("<p>{open}</p>\n\n{}", "a\n\n".repeat(1000))] {
        let bench = page(&body);
        bench.replace("mine/content/guide.yaml", "language: en", "language: en\nraw-html: true");
        assert_eq!(bounded(&bench, &["publish", "mine"]).0, 0);
    }
}

#[test]
fn every_page_leads_to_a_dozen_free_pages_and_to_the_list_of_all() {
    let bench = first();
    for at in 0..60 {
        bench.write(&format!("mine/content/pages/p{at:02}.md"), format!("---\ntitle: Notes {at:02}\n---\n"));
    }
    assert_eq!(bounded(&bench, &["publish", "mine"]).0, 0);
    let read = |path: &str| fs::read_to_string(bench.path(&format!("mine/published/{path}"))).unwrap();
    let page = read("pages/p30.html");
    assert_eq!(page.matches("<li><a href=\"p").count(), 11, "{page}");
    assert!(page.contains("href=\"../pages.html\""), "{page}");
    let list = read("pages.html");
    assert!((0..60).all(|at| list.contains(&format!(">Notes {at:02}</a>"))), "{list}");
}

#[test]
fn a_style_without_ends_is_read_once() {
    let bench = first();
    bench.write("mine/themes/chart/style/own.css", ".caution{color:red".repeat(50_000));
    assert_eq!(bounded(&bench, &["check", "mine"]).0, 0);
}

/// Lays out so many steps more.
fn with_steps(count: usize) -> Bench {
    let bench = first();
    let step = fs::read(bench.path(&format!("{SCHEME}/30-green-coat.md"))).unwrap();
    for at in 0..count {
        fs::write(bench.path(&format!("{SCHEME}/{}-coat.md", 100_000 + at)), &step).unwrap();
    }
    bench
}

#[test]
fn a_scheme_has_at_most_two_hundred_steps_and_areas() {
    let bench = with_steps(2000);
    let areas: String = (0..20_000).map(|at| format!("  area-{at}: 0%\n")).collect();
    bench.replace(&format!("{SCHEME}/scheme.md"), "areas:\n", &format!("areas:\n{areas}"));
    let (_, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
    // Seven steps stand before the hundred thousandth.
    let place = format!("content/schemes/first-figure/{}-coat.md:1:1", 100_193);
    assert_eq!(told(&said, "scheme-too-large"), (2, place));
}

#[test]
#[ignore = "lays out a hundred thousand files, which takes a minute"]
fn a_hundred_thousand_steps_are_told_once() {
    let bench = with_steps(100_000);
    let (status, said) = bounded(&bench, &["check", "mine", "--format", "json"]);
    assert_eq!((status, told(&said, "scheme-too-large").0), (1, 1));
}

#[test]
fn many_large_pictures_are_never_open_together() {
    let bench = first();
    let picture = image::RgbImage::from_pixel(6000, 4000, image::Rgb([90, 110, 60]));
    picture.save(bench.path(&format!("{SCHEME}/photo.jpg"))).unwrap();
    let scheme = fs::read_to_string(bench.path(&format!("{SCHEME}/scheme.md"))).unwrap();
    let shown = "photo: photo.jpg\nalt: A green field.\ntags:";
    bench.write(&format!("{SCHEME}/scheme.md"), scheme.replace("tags:", shown));
    for at in 0..4 {
        copy(&bench.path(SCHEME), &bench.path(&format!("mine/content/schemes/field-{at}")));
    }
    assert_eq!(bounded(&bench, &["publish", "mine", "--single"]).0, 0);
    assert!(bench.path("mine/published/single/field-3.html").is_file());
}
