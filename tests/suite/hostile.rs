//! What a hostile or careless file must not do to the guide's readers.

use std::fmt::Write as _;
use std::fs;

use crate::bench::Bench;

/// A first guide in `mine`.
fn first() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench
}

fn page(bench: &Bench, body: &str) {
    bench.write("mine/content/pages/about.md", format!("---\ntitle: About\n---\n\n{body}\n"));
}

#[test]
fn files_that_could_run_are_not_handed_on() {
    for name in ["evil.html", "evil.svg", "evil.js", "evil.XHTML"] {
        let bench = first();
        bench.write(&format!("mine/content/pages/{name}"), "<script>alert(1)</script>");
        page(&bench, &format!("[pattern]({name})"));
        let run = bench.run(&["publish", "mine"]);
        assert_eq!(run.status, 1, "{name}");
        assert!(run.err.contains("[unsafe-link]"), "{}", run.err);
    }
    let bench = first();
    bench.write("mine/content/pages/pattern.pdf", "%PDF-1.4");
    page(&bench, "[pattern](pattern.pdf)");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    assert!(bench.path("mine/published/pages/pattern.pdf").is_file());
}

#[test]
fn mail_addresses_are_links() {
    let bench = first();
    page(&bench, "Write to <quill@fen.example>.");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let html = fs::read_to_string(bench.path("mine/published/pages/about.html")).unwrap();
    assert!(html.contains("href=\"mailto:quill@fen.example\""), "{html}");
}

#[test]
fn characters_that_cannot_be_seen_are_told_and_never_published() {
    let bench = first();
    bench.replace("mine/content/guide.yaml", "title: My painting guide", "title: \"My \\x07 \\u202e guide\"");
    let run = bench.run(&["check", "mine", "--format", "json"]);
    assert!(run.out.contains("value-unreadable"), "{}", run.out);
    assert!(!run.out.contains(['\u{7}', '\u{202e}', '\u{9b}']), "{}", run.out);
    let bench = first();
    page(&bench, "A turn &#x202e; and a bell &#7; here.");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let html = fs::read_to_string(bench.path("mine/published/pages/about.html")).unwrap();
    assert!(!html.contains(['\u{7}', '\u{202e}']), "{html}");
}

#[test]
fn thousands_of_equal_headings_are_no_trouble() {
    let bench = first();
    let mut body = String::new();
    for _ in 0..20_000 {
        writeln!(body, "# a\n").unwrap();
    }
    page(&bench, &body);
    assert_eq!(bench.run(&["check", "mine"]).out, "no findings\n");
}

#[test]
fn a_theme_cannot_lose_a_caution() {
    let built_in = fs::read_to_string(crate::bench::demo_folder().join("themes/chart/templates/step.html")).unwrap();
    let caution = "{{ step.cautions | safe }}";
    assert!(built_in.contains(caution));
    for instead in [
        "",
        "<!-- {{ step.cautions | safe }} -->",
        "<template>{{ step.cautions | safe }}</template>",
        "{{ step.cautions }}",
    ] {
        let bench = first();
        bench.write("mine/themes/plain/templates/step.html", built_in.replacen(caution, instead, 1));
        bench.replace("mine/content/guide.yaml", "language: en", "language: en\ntheme: plain");
        let run = bench.run(&["publish", "mine"]);
        assert_eq!(run.status, 1, "{instead}: {}", run.err);
        assert!(run.err.contains("[caution-lost]"), "{}", run.err);
        assert!(!bench.path("mine/published").exists());
    }
}

#[test]
fn names_of_the_programs_own_pages_are_not_taken() {
    let bench = first();
    bench.replace("mine/content/schemes/first-figure/scheme.md", "tags: [brush, first]", "tags: [index, first]");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    bench.replace("mine/content/paints/my-paints.yaml", "paints:\n", "paints:\n  index: {name: Index, kind: paint}\n");
    let run = bench.run(&["check", "mine"]);
    assert!(run.out.contains("[duplicate-id]"), "{}", run.out);
}
