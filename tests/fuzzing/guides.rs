//! Whole small guides that nobody thought of: values that fit, that nearly fit and that never could, in every place.

use std::path::Path;

use maulstick::door::Memory;
use maulstick::story::{self, Wanted};
use proptest::collection::vec;
use proptest::option::weighted;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRng, TestRunner};

use super::targets::guide::placed;

/// How many guides are tried; each is checked, and where nothing is wrong with it published.
const GUIDES: u32 = 100;

/// One of the values that fit, or now and then something that fits nowhere.
fn value(good: &'static [&'static str]) -> impl Strategy<Value = String> {
    const BAD: &[&str] = &[
        "",
        "''",
        "-1",
        "0",
        ".nan",
        ".inf",
        "1e309",
        "999999999999",
        "[]",
        "{}",
        "[[a]]",
        "{a: {b: c}}",
        "null",
        "'\u{202e}'",
        "\"\\0\"",
        "🦀",
        "*a",
        "2026-02-30",
        "../../x",
        "1/0",
        "100000",
    ];
    prop_oneof![
        150 => proptest::sample::select(good).prop_map(str::to_owned),
        1 => proptest::sample::select(BAD).prop_map(str::to_owned),
    ]
}

/// A line `key: value`, or once in so often none.
fn line(key: &'static str, share: f64, good: &'static [&'static str]) -> impl Strategy<Value = String> {
    weighted(share, value(good))
        .prop_map(move |value| value.map_or_else(String::new, |value| format!("{key}: {value}\n")))
}

fn step() -> impl Strategy<Value = String> {
    let stages = &["undercoat", "basecoat", "shade", "layer", "highlight", "glaze", "chip", "varnish", "basing"];
    let mixes = &[
        "[moss]",
        "[ground]",
        "[wash]",
        "[amber]",
        "[{use: moss, parts: 3}, {use: medium, parts: 1}]",
        "[{use: moss, drops: 100000}, {use: wash, drops: 1}]",
        "[{use: moss, parts: 1/3}]",
        "[]",
    ];
    let body =
        &["Thin.", "[warden](scheme:warden)", "# One\n\n[up](#one)", "> > > - *deep*", "<div>", "| a |\n|---|", ""];
    (
        line("stage", 0.98, stages),
        line("with", 0.98, &["brush", "airbrush", "drybrush", "sponge"]),
        line("areas", 0.98, &["[all]", "[cloth]", "[shell, cloth]", "cloth"]),
        line("paints", 0.9, mixes),
        line("coats", 0.5, &["1", "2", "7", "100000"]),
        line("wait", 0.3, &["30 min", "0 min", "700 d"]),
        line("dry", 0.3, &["4 h", "1 d"]),
        line("minutes", 0.5, &["10", "1/2", "0", "100000"]),
        line("where", 0.2, &["recesses", "edges", "spots"]),
        value(body),
    )
        .prop_map(|(a, b, c, d, e, f, g, h, i, body)| {
            format!("---\ntitle: Step\n{a}{b}{c}{d}{e}{f}{g}{h}{i}---\n{body}\n")
        })
}

fn paints() -> impl Strategy<Value = String> {
    let paint = |id: &'static str, kinds: &'static [&'static str]| {
        (
            line("    kind", 0.99, kinds),
            line("    colour", 0.8, &["'#5b6b3a'", "'#000000'", "'#ffffff'"]),
            line("    hiding", 0.5, &["opaque", "transparent"]),
            line("    recoat", 0.5, &["30 min", "0 min", "700 d"]),
            line("    price", 0.3, &["2.50", "0"]),
        )
            .prop_map(move |(a, b, c, d, e)| format!("  {id}:\n    name: Some {id}\n{a}{b}{c}{d}{e}"))
    };
    (
        line("family", 0.98, &["water", "lacquer", "enamel"]),
        line("bottle", 0.5, &["17 ml", "400 ml"]),
        paint("ground", &["primer", "paint"]),
        paint("moss", &["paint"]),
        paint("wash", &["wash", "paint"]),
        paint("amber", &["clear", "paint"]),
    )
        .prop_map(|(family, bottle, a, b, c, d)| {
            let medium = "  medium: {name: Medium, kind: thinner, suits: [water]}\n";
            format!("maker: Tarn & Daughter\nrange: Mere\n{family}{bottle}paints:\n{a}{b}{c}{d}{medium}")
        })
}

fn guide() -> impl Strategy<Value = Memory> {
    let head = (
        line("author", 0.98, &["Quill Hollis"]),
        line("language", 0.5, &["en", "de", "fr", "es"]),
        line("currency", 0.5, &["EUR", "GBP"]),
        line("address", 0.3, &["https://fen.example/book"]),
        line("raw-html", 0.3, &["true", "false"]),
        line("paper", 0.3, &["A4", "letter"]),
    );
    let scheme = (
        line("areas", 0.98, &["{cloth: 60%, shell: 40%}", "{cloth: 0%, shell: 100%}"]),
        line("model", 0.5, &["{scale: 28 mm, surface: 13 cm2}", "{surface: 0.001 cm2}", "{scale: '1:72'}"]),
        line("tags", 0.5, &["[brush]", "[a, A, á]"]),
    );
    let army = (
        line("units", 0.98, &["[{scheme: warden, models: 5}]", "[{scheme: warden, models: 100000}]"]),
        line("evenings", 0.5, &["{days: [mon], from: 20:00, length: 90 min, first: 2027-03-01}"]),
        line("have", 0.3, &["{moss: 8 ml}", "{moss: 100000 ml}"]),
    );
    (head, scheme, army, paints(), vec(step(), 0..6)).prop_map(|(head, scheme, army, paints, steps)| {
        let (author, language, currency, address, raw, paper) = head;
        let guide = format!("title: Fen\n{author}{language}{currency}{address}{raw}{paper}");
        let (areas, model, tags) = scheme;
        let (units, evenings, have) = army;
        let door = Memory::default()
            .with("content/guide.yaml", guide)
            .with("content/paints/mere.yaml", paints)
            .with("content/armies/watch.yaml", format!("title: Watch\n{units}{evenings}{have}"))
            .with("content/schemes/warden/scheme.md", format!("---\ntitle: Warden\n{areas}{model}{tags}---\n"));
        let put = |door: Memory, (at, step): (usize, String)| {
            door.with(&format!("content/schemes/warden/{}0-step.md", at + 1), step)
        };
        steps.into_iter().enumerate().fold(door, put)
    })
}

#[test]
fn any_guide_is_checked_and_published_or_told_why_not() {
    let rng = TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha);
    let guides = GUIDES * u32::try_from(super::times()).unwrap();
    let mut runner =
        TestRunner::new_with_rng(Config { cases: guides, failure_persistence: None, ..Config::default() }, rng);
    let published = std::cell::Cell::new(0);
    let outcome = runner.run(&guide(), |door| {
        let site = story::publish(&door, Path::new("published"), Wanted::default(), &()).unwrap();
        placed(site.findings.iter(), &site.files);
        prop_assert_eq!(site.written.is_some(), site.findings.pass(false), "{:?}", site.findings);
        published.set(published.get() + u32::from(site.written.is_some()));
        Ok(())
    });
    outcome.unwrap();
    let sound = published.get();
    assert!(sound * 10 > guides && sound * 10 < guides * 9, "{sound} of {guides} were sound: the dice are loaded");
}
