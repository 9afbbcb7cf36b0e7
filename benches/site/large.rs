//! Large guides, the same for the same size: schemes of ten steps with texts, mixes, links and tags as authors have them.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// Names, kinds and colours of paints; the paints of a guide are these with a number behind.
const PAINTS: &[(&str, &str, &str)] = &[
    ("green", "kind: paint, hiding: opaque", "#5b6b3a"),
    ("pale", "kind: paint, hiding: semi-opaque", "#a9b27a"),
    ("brown", "kind: paint, hiding: opaque", "#6b4528"),
    ("iron", "kind: metal", "#6d6f72"),
    ("wash", "kind: wash", "#2b221a"),
];

/// How many sets of those a guide has; real shelves hold a few hundred paints, however many schemes there are.
const SETS: usize = 40;

/// Name, stage, areas, paint and drying time of each step.
const STEPS: &[(&str, &str, &str, &str, &str)] = &[
    ("10-wash", "prepare", "all", "", "2 h"),
    ("20-ground", "undercoat", "all", "ground", "4 h"),
    ("30-cloth", "basecoat", "cloth", "green-N", "1 h"),
    ("40-straps", "basecoat", "straps", "brown-N", "1 h"),
    ("50-fittings", "basecoat", "fittings", "iron-N", "1 h"),
    ("60-folds", "shade", "all", "wash-N", "4 h"),
    ("70-ridges", "highlight", "cloth", "pale-N", "24 h"),
    ("80-seal", "varnish", "all", "gloss", "24 h"),
    ("90-matt", "varnish", "cloth", "matt", "24 h"),
    ("95-strap-matt", "varnish", "straps", "matt", "24 h"),
];

/// Words for the texts, chosen in turn.
const WORDS: &[&str] = &[
    "thin", "coat", "of", "the", "brush", "fold", "along", "edge", "until", "dry", "wet", "reed", "a", "little",
    "more", "water", "and", "wait", "light", "from", "above", "shade", "below", "then", "wipe", "back", "slowly",
];

/// Writes a guide of so many schemes to a folder.
pub(crate) fn write(folder: &Path, schemes: usize) -> std::io::Result<()> {
    let content = folder.join("content");
    fs::create_dir_all(content.join("paints"))?;
    let guide = "title: Large\nauthor: Quill Hollis\naddress: https://fen.example/large\ncurrency: EUR\n";
    fs::write(content.join("guide.yaml"), guide)?;
    fs::write(content.join("tools.yaml"), "tools:\n  round-brush: Round brush\n  airbrush: Airbrush\n")?;
    fs::write(content.join("paints/mere.yaml"), paints())?;
    for scheme in 0..schemes {
        write_scheme(&content.join(format!("schemes/scheme-{scheme:05}")), scheme, schemes)?;
    }
    Ok(())
}

fn paints() -> String {
    let mut text = String::from(
        "maker: Tarn & Daughter\nrange: Mere\nfamily: water\nbottle: 17 ml\nprice: 2.50\npaints:\n\
         \x20 ground: {name: Ground, kind: primer, colour: \"#808080\", recoat: 1 h, cure: 24 h}\n\
         \x20 gloss: {name: Gloss, kind: varnish, sheen: gloss, recoat: 1 h, cure: 24 h}\n\
         \x20 matt: {name: Matt, kind: varnish, sheen: matt, recoat: 1 h, cure: 24 h}\n\
         \x20 thinner: {name: Thinner, kind: thinner, suits: [water]}\n",
    );
    for set in 0..SETS {
        for (name, kind, colour) in PAINTS {
            let _ =
                writeln!(text, "  {name}-{set}: {{name: {name} {set}, {kind}, colour: \"{colour}\", recoat: 20 min}}");
        }
    }
    text
}

fn write_scheme(folder: &Path, scheme: usize, schemes: usize) -> std::io::Result<()> {
    fs::create_dir_all(folder)?;
    let neighbour = (scheme + 1) % schemes;
    let intro = prose(scheme, 60);
    let text = format!(
        "---\ntitle: Scheme {scheme}\nsummary: {}\nmodel: {{material: plastic, surface: 20 cm2}}\n\
         areas: {{cloth: 60%, straps: 20%, fittings: 20%}}\ntags: [tag-{}, tag-{}]\nlevel: easy\nwritten: 2027-01-{:02}\n---\n\
         {intro}\n\n## Before you begin\n\nSee [the neighbour](scheme:scheme-{neighbour:05}).\n",
        prose(scheme, 8),
        scheme % 30,
        scheme % 7 + 30,
        scheme % 28 + 1,
    );
    fs::write(folder.join("scheme.md"), text)?;
    for (at, (stem, stage, areas, paint, dry)) in STEPS.iter().enumerate() {
        let paint = paint.replace('N', &(scheme % SETS).to_string());
        let mix = match (paint.as_str(), *stage) {
            ("", _) => String::new(),
            (paint, "basecoat") => format!("paints:\n  - {{use: {paint}, parts: 3}}\n  - {{use: thinner, parts: 1}}\n"),
            (paint, _) => format!("paints: [{{use: {paint}}}]\n"),
        };
        let before = if at == 0 { "20-ground" } else { STEPS[at - 1].0 };
        let text = format!(
            "---\ntitle: {stem} of {scheme}\nstage: {stage}\nareas: [{areas}]\nwith: brush\n{mix}tools: [round-brush]\ncoats: 1\nminutes: 10\n\
             dry: {dry}\n---\n{}\n\n- {}\n- {}\n\nSee [this step]({before}.md) and **[green](paint:green-0)**.\n",
            prose(scheme + at, 70),
            prose(scheme + 2 * at, 9),
            prose(scheme + 3 * at, 9),
        );
        fs::write(folder.join(format!("{stem}.md")), text)?;
    }
    Ok(())
}

/// So many words, from another one for each seed.
fn prose(seed: usize, words: usize) -> String {
    let chosen: Vec<&str> = (0..words).map(|at| WORDS[(seed * 7 + at * (at + 3)) % WORDS.len()]).collect();
    chosen.join(" ")
}
