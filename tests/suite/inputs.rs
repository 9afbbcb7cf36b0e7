//! Files that no author would write by hand: each costs its author a finding at its place, in bounded time.

use std::fs;
use std::process::Stdio;

use crate::bench::Bench;

const STEP: &str = "mine/content/schemes/first-figure/30-green-coat.md";

/// A first guide in `mine`.
fn first() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench
}

/// The places of all findings of a rule, as in `30-green-coat.md:3:8`.
fn places(bench: &Bench, rule: &str) -> Vec<String> {
    let run = bench.run(&["check", "mine", "--format", "json"]);
    assert!(run.status < 2, "status {}: {}", run.status, run.err);
    let told: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let all = told["findings"].as_array().unwrap();
    let of_rule = all.iter().filter(|finding| finding["rule"] == rule);
    let place = |finding: &serde_json::Value| {
        let path = finding["file"].as_str().unwrap().rsplit('/').next().unwrap().to_owned();
        format!("{path}:{}:{}", finding["line"], finding["column"])
    };
    of_rule.map(place).collect()
}

/// A step with one key more in front of the others.
fn with_key(line: &str) -> Vec<u8> {
    format!("---\n{line}\ntitle: Green\nstage: basecoat\nareas: [cloak]\nwith: brush\npaints: []\n---\n").into_bytes()
}

#[test]
fn nasty_steps_are_told_at_their_place() {
    let nested = |open: &str, close: &str, times: usize| format!("{}{}", open.repeat(times), close.repeat(times));
    let doubled = |c: char| format!("{c}: &{c} [{}]\n", format!("*{}, ", char::from(c as u8 - 1)).repeat(9));
    let bomb = format!("a: &a [y, y, y, y, y, y, y, y, y]\n{}", ('b'..='i').map(doubled).collect::<String>());
    let cases: Vec<(&str, Vec<u8>, &str, &str)> = vec![
        ("deep lists", with_key(&format!("tools: {}", nested("[", "]", 5000))), "yaml", ":2:263"),
        ("deep groups", with_key(&format!("tools: {}", nested("{a: ", "}", 5000))), "yaml", ":2:132"),
        ("an alias bomb", with_key(&bomb), "yaml", ":7:12"),
        ("a key twice", with_key("title: One"), "duplicate-key", ":3:1"),
        ("a tab", with_key("tools:\n\t- brush"), "yaml", ":3:"),
        ("NUL", with_key("coats: \0"), "not-utf-8", ":2:8"),
        ("bytes that are no UTF-8", with_key("coats: 1").into_iter().chain([0xff]).collect(), "not-utf-8", ":1:1"),
        ("Latin-1", b"---\ntitle: Gr\xfcn\n---\n".to_vec(), "not-utf-8", ":1:1"),
        ("UTF-16", "---\ntitle: A".encode_utf16().flat_map(u16::to_le_bytes).collect(), "not-utf-8", ":1:2"),
        (
            "a million letters in one line",
            [b"---\n# ".to_vec(), vec![b'a'; 1_000_000]].concat(),
            "file-too-large",
            ":1:1",
        ),
        ("no number at all", with_key("coats: NaN"), "value-unreadable", ":2:8"),
        ("beyond every number", with_key("coats: 1e309"), "value-unreadable", ":2:8"),
        ("less than nothing", with_key("coats: -1"), "value-unreadable", ":2:8"),
        ("no coat", with_key("coats: 0"), "value-unreadable", ":2:8"),
        ("minutes beyond every number", with_key("minutes: 1e309"), "value-unreadable", ":2:10"),
        ("a wait without a number", with_key("wait: NaN h"), "value-unreadable", ":2:7"),
    ];
    let mut faults = Vec::new();
    for (name, bytes, rule, place) in cases {
        let bench = first();
        bench.write(STEP, bytes);
        let found = places(&bench, rule);
        let column = |one: &String| one.starts_with("30-green-coat.md:") && one.contains(place);
        if !found.iter().any(column) {
            let run = bench.run(&["check", "mine"]);
            faults.push(format!(
                "{name}: {rule} stands at {found:?}, not at {place}\n{}",
                &run.out[..run.out.len().min(600)]
            ));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn figures_that_paint_nothing_or_everything_are_told_at_their_place() {
    let rule_of_parts = |parts: &str| if parts == "0" { "mix-amount" } else { "value-unreadable" };
    for parts in ["0", "-1", "1e309", ".nan", "1000000000", "1/0"] {
        let bench = first();
        bench.replace(STEP, "parts: 3", &format!("parts: {parts}"));
        assert_eq!(places(&bench, rule_of_parts(parts)), ["30-green-coat.md:7:30"], "{parts}");
    }
    for models in ["0", "-1", "1e309", ".nan", "1000000000", "99999999999999999999"] {
        let bench = first();
        let army = format!("title: Watch\nunits:\n  - {{scheme: first-figure, models: {models}}}\n");
        bench.write("mine/content/armies/watch.yaml", army);
        assert_eq!(places(&bench, "value-unreadable"), ["watch.yaml:3:36"], "{models}");
    }
}

#[test]
fn line_ends_and_a_byte_order_mark_change_nothing() {
    let bench = first();
    let text = fs::read_to_string(bench.path(STEP)).unwrap();
    bench.write(STEP, format!("\u{feff}{}", text.replace('\n', "\r\n")));
    assert_eq!(bench.run(&["check", "mine"]).out, "no findings\n");
}

#[test]
fn a_file_of_a_hundred_megabytes_is_told_and_not_read() {
    let bench = first();
    fs::File::create(bench.path(STEP)).unwrap().set_len(100_000_000).unwrap();
    assert_eq!(places(&bench, "file-too-large"), ["30-green-coat.md:1:1"]);
}

#[test]
fn markdown_nested_beyond_measure_ends() {
    for body in
        ["> ".repeat(20_000), "- ".repeat(20_000), "*".repeat(50_000), "[".repeat(50_000), "<div>".repeat(20_000)]
    {
        let bench = first();
        bench.write("mine/content/pages/about.md", format!("---\ntitle: About\n---\n\n{body}x\n"));
        assert!(bench.run(&["check", "mine"]).status < 2);
    }
}

#[test]
fn a_tag_without_letters_is_told() {
    let bench = first();
    bench.replace("mine/content/schemes/first-figure/scheme.md", "tags: [brush, first]", "tags: [brush, '!?']");
    assert_eq!(places(&bench, "tag-empty").len(), 1);
}

#[test]
fn two_tags_that_become_one_page_are_told() {
    let bench = first();
    let scheme = "mine/content/schemes/first-figure/scheme.md";
    bench.replace(scheme, "tags: [brush, first]", "tags: [wet blend, wet/blend, Wet Blend, C, C++]");
    assert_eq!(places(&bench, "tags-meet").len(), 1);
}

#[test]
fn a_title_without_ink_is_told() {
    let bench = first();
    let scheme = "mine/content/schemes/first-figure/scheme.md";
    bench.replace(scheme, "title: My first figure", "title: \"\u{3164}\u{200b}\"");
    assert_eq!(places(&bench, "value-unreadable").len(), 1);
}

#[test]
fn output_that_cannot_be_written_is_an_error() {
    let bench = first();
    for asked in [&["check", "mine"][..], &["--help"], &["--version"], &["check", "--help"]] {
        let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let output = bench.command(asked).stdout(Stdio::from(full)).stderr(Stdio::piped()).output().unwrap();
        assert_eq!(output.status.code(), Some(2), "{asked:?}");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(said.contains("the output can't be written"), "{asked:?}: {said}");
    }
}
