//! A spray of solvent in every form in which a guide tells of it: what to do stands before the instruction.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use crate::bench::{self, Bench};

/// What a solvent spray asks for before all else.
const FIRST: &str = "Respirator A2-P3";

/// The instruction of the step, as far as every form shows it.
const INSTRUCTION: &str = "Sweep across the reeds";

const CLOSING: &str = "The safety data sheets of your products";

/// A guide of one step, which sprays lacquer, and an army that is painted by it.
fn guide() -> Bench {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen\nauthor: Ada\naddress: https://fen.example/\n");
    bench.write(
        "content/paints/osk.yaml",
        "maker: Osk\nrange: Fen\nfamily: lacquer\nbottle: 20 ml\npaints:\n  mist: {name: Mist Black, kind: primer, colour: \"#202020\"}\n",
    );
    bench.write(
        "content/schemes/reeds/scheme.md",
        "---\ntitle: Reeds\nmodel: {scale: 28 mm, material: resin, surface: 20 cm2}\nareas: {reeds: 100%}\n---\n\nAll of it.\n",
    );
    bench.write(
        "content/schemes/reeds/10-mist.md",
        format!(
            "---\ntitle: Mist\nstage: undercoat\nareas: [all]\nwith: airbrush\npaints: [mist]\nminutes: 1\n\
             changed: {{2026-10-18: One coat and no more.}}\n---\n\n{INSTRUCTION} from afar.\n"
        ),
    );
    bench.write(
        "content/armies/host.yaml",
        "title: Host\nunits: [{scheme: reeds, models: 4}]\n\
         evenings: {days: [tue], from: \"19:00\", length: 2 h, first: 2027-01-19}\n",
    );
    bench
}

/// Whether every mention of the instruction comes after the line of what to do.
fn is_said_first(text: &str) -> bool {
    text.find(FIRST).is_some_and(|first| text.match_indices(INSTRUCTION).all(|(at, _)| first < at))
}

/// What stands between two marks.
fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let start = text.find(from).unwrap_or_else(|| panic!("no {from}"));
    &text[start..start + text[start..].find(to).unwrap()]
}

#[test]
fn every_form_of_a_solvent_spray_says_what_to_do_before_the_instruction() {
    let bench = guide();
    let run = bench.run(&["publish", "--single"]);
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    let files: BTreeMap<String, String> = bench::files_below(&bench.path("published"))
        .into_iter()
        .map(|(path, bytes)| (path, String::from_utf8_lossy(&bytes).into_owned()))
        .collect();
    let with_instruction =
        ["schemes/reeds.html", "schemes/reeds/10-mist.html", "schemes/reeds/source.html", "single/reeds.html"];
    for path in with_instruction {
        let body = &files[path][files[path].find("<body").unwrap()..];
        assert!(body.contains(INSTRUCTION) && is_said_first(body), "{path}");
        assert!(body.contains(CLOSING), "{path}");
    }
    let told = [
        "schemes/reeds/recipe.txt",
        "schemes/reeds/shopping.html",
        "schemes/reeds/shopping.txt",
        "schemes/reeds/shopping.csv",
        "armies/host.html",
        "armies/host/tick-grid.html",
        "armies/host.ics",
        "feed.xml",
        "data/search-1.js",
    ];
    for path in told {
        // Lines of a calendar are folded.
        let text = files[path].replace("\r\n ", "");
        assert!(text.contains(FIRST) && text.contains(CLOSING), "{path}: {text}");
    }
    let data = between(&files["schemes/reeds.html"], "\"HowToStep\"", "</script>");
    assert!(data.contains(INSTRUCTION) && is_said_first(data), "{data}");
    // The view for the desk is the same step large, on the scheme's page.
    assert!(files["schemes/reeds.html"].matches(FIRST).count() > 1, "page, desk and data each say it");
}

#[test]
fn every_answer_of_the_terminal_says_it_too() {
    let bench = guide();
    for asked in [
        &["mix", ".", "reeds", "10-mist", "--models", "4"][..],
        &["mix", ".", "reeds", "10-mist", "--models", "4", "--format", "json"],
        &["plan", ".", "host"],
        &["plan", ".", "host", "--format", "json"],
        &["plan", ".", "host", "--format", "ics"],
        &["shop", ".", "reeds"],
        &["shop", ".", "reeds", "--format", "csv"],
        &["shop", ".", "reeds", "--format", "json"],
        &["shop", ".", "reeds", "--format", "md"],
    ] {
        let run = bench.run(asked);
        let text = run.out.replace("\r\n ", "").replace('\\', "");
        let flat: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(run.status, 0, "{asked:?}: {}", run.err);
        assert!(flat.contains(FIRST) && flat.contains(CLOSING), "{asked:?}: {flat}");
    }
    let mix = bench.run(&["mix", ".", "reeds", "10-mist"]).out;
    assert!(mix.find(FIRST) < mix.find("Mist Black"), "what to do stands before the mix: {mix}");
    let plan = bench.run(&["plan", ".", "host"]).out;
    assert!(plan.find(FIRST) < plan.find("Reeds · Mist"), "and before the evening's work: {plan}");
}

/// The text of a PDF in reading order, on one line.
fn text_of(pdf: &Path, order: &[&str]) -> String {
    let output = Command::new("pdftotext").args(order).arg(pdf).arg("-").output().unwrap();
    String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn the_card_of_a_solvent_spray_says_it_first() {
    let bench = guide();
    for paper in ["A4", "A5", "letter"] {
        let run = bench.run(&["card", ".", "reeds", "--paper", paper, "--out", "card.pdf"]);
        assert_eq!(run.status, 0, "{}{}", run.out, run.err);
        let text = text_of(&bench.path("card.pdf"), &["-raw"]);
        assert!(text.contains(INSTRUCTION) && is_said_first(&text) && text.contains(CLOSING), "{paper}: {text}");
    }
}

#[test]
#[ignore = "needs chromium and poppler-utils; tests/run.sh brings them"]
fn a_printed_page_of_a_solvent_spray_says_it_first() {
    let bench = guide();
    assert_eq!(bench.run(&["publish", "--single"]).status, 0);
    for (page, instructs) in [
        ("schemes/reeds.html", true),
        ("schemes/reeds/10-mist.html", true),
        ("single/reeds.html", true),
        ("schemes/reeds/shopping.html", false),
        ("armies/host.html", false),
        ("armies/host/tick-grid.html", false),
    ] {
        let pdf = bench.path("printed.pdf");
        let output = Command::new("chromium")
            .args(["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"])
            .arg(format!("--print-to-pdf={}", pdf.display()))
            .arg(format!("file://{}", bench.path(&format!("published/{page}")).display()))
            .output();
        assert!(output.is_ok_and(|output| output.status.success()), "chromium prints {page}");
        // As the eye goes over the sheet: a browser prints what stands in a grid in an order of its own.
        let text = text_of(&pdf, &[]);
        assert!(text.contains(FIRST) && text.contains(CLOSING), "{page}: {text}");
        assert_eq!(text.contains(INSTRUCTION), instructs, "{page}: {text}");
        assert!(is_said_first(&text), "{page}: {text}");
        std::fs::remove_file(pdf).unwrap();
    }
}
