//! What the terminal tells of a plan and of a mix is in the language of the guide, all of it.

use crate::bench::{Bench, Run};

/// Words that every English plan or mix has some of, and that none of the other languages has.
const ENGLISH: [&str; 34] = [
    "the", "of", "and", "to", "from", "model", "models", "evening", "evenings", "drop", "drops", "step", "cup", "cups",
    "for", "together", "with", "until", "is", "are", "more", "mix", "use", "stop", "dries", "coat", "coats", "by",
    "before", "work", "mark", "marks", "left", "set",
];

/// A guide whose author writes names that are the same everywhere: a step by airbrush, one from a pot, one that is not mixed.
fn guide(language: &str) -> Bench {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", format!("title: Fen\nauthor: Quill Hollis\nlanguage: {language}\n"));
    bench.write(
        "content/paints/mere.yaml",
        "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n\
         \x20 start: {name: Start, kind: primer, thin-with: []}\n\
         \x20 moss: {name: Moss, kind: paint, hiding: opaque}\n\x20 rusk: {name: Rusk, kind: paint, hiding: opaque}\n",
    );
    let scheme = "content/schemes/fen";
    bench.write(
        &format!("{scheme}/scheme.md"),
        "---\ntitle: Fen\nareas: {cloak: 60%, belt: 40%}\nmodel: {surface: 20.5 cm2}\n\
         pots: {olm: {title: Olm, paints: [{use: moss, parts: 3}, {use: rusk, parts: 1.5}]}}\n---\n",
    );
    for (file, head) in [
        (
            "10-one",
            "title: One\nstage: undercoat\nareas: [all]\nwith: airbrush\npaints: [start]\ndry: 24 h\nminutes: 4",
        ),
        ("20-two", "title: Two\nstage: basecoat\nareas: [cloak]\nwith: brush\npaints: [olm]\ncoats: 2\nminutes: 3"),
        (
            "30-tri",
            "title: Tri\nstage: detail\nareas: [belt]\nwith: brush\nunmixed: true\npaints: [moss, rusk]\nminutes: 3",
        ),
        (
            "40-duo",
            "title: Duo\nstage: layer\nareas: [belt]\nwith: airbrush\n\
             paints: [{use: moss, parts: 1}, {use: rusk, parts: 1.5}]\nminutes: 3",
        ),
    ] {
        bench.write(&format!("{scheme}/{file}.md"), format!("---\n{head}\n---\nFen.\n"));
    }
    bench.write(
        "content/armies/fen.yaml",
        "title: Fen\nunits: [{scheme: fen, models: 12}]\n\
         evenings: {days: [tue, thu], from: \"19:00\", length: 1 h, first: 2027-03-02, by: 2027-04-01}\n",
    );
    bench
}

/// The plan of the army, the mix of each step for one model and for several, and the pot; without what was found, which is
/// told in English of every guide.
fn told(language: &str) -> String {
    let bench = guide(language);
    let mut all = bench.run(&["plan", ".", "fen"]).out;
    for step in ["10-one", "20-two", "30-tri", "40-duo"] {
        for models in ["1", "12"] {
            all += &sound(bench.run(&["mix", ".", "schemes/fen", step, "--models", models, "--cup", "0.5ml"]));
        }
    }
    all += &sound(bench.run(&["mix", ".", "schemes/fen", "olm", "--models", "12"]));
    let found = |line: &&str| line.starts_with("note[") || line.starts_with("  mend: ");
    all.lines().filter(|line| !found(line)).map(|line| format!("{line}\n")).collect()
}

fn sound(run: Run) -> String {
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    run.out
}

#[test]
fn a_plan_and_a_mix_are_told_in_the_language_of_the_guide() {
    let english = told("en");
    let words = |text: &str| {
        let words = text.split(|letter: char| !letter.is_alphabetic() && letter != '-').map(ToOwned::to_owned);
        words.collect::<std::collections::BTreeSet<String>>()
    };
    let heard = words(&english);
    let met = ENGLISH.iter().filter(|word| heard.contains(**word)).count();
    assert!(met > 25, "only {met} of the words are met in English: {english}");
    for (language, lines) in [
        (
            "de",
            [
                "12 Modelle, ",
                "Di 2. März 2027, 19:00 bis ",
                "  mischen   ",
                "3 Moss",
                "1,5 Rusk",
                "× 60 % für die Bereiche × 100 % davon berührt",
                "20,5 cm² Oberfläche, wie in der Bemalung angegeben",
                "nicht gemischt: nebeneinander oder nacheinander",
                "mit der Airbrush, Figuren in einer Reihe",
                "Fen, Topf „Olm“",
            ],
        ),
        (
            "fr",
            [
                "12 figurines, ",
                "mar. 2 mars 2027, 19:00 à ",
                "  mélange  ",
                "3 Moss",
                "1,5 part ",
                "× 60 % pour les zones × 100 % touchés",
                "20,5 cm² de surface, comme l’indique la recette",
                "sans mélanger : l’un à côté de l’autre",
                "à l’aérographe, des figurines en rang",
                "Fen, pot « Olm »",
            ],
        ),
        (
            "es",
            [
                "12 miniaturas, ",
                "mar 2 mar 2027, de 19:00 a ",
                "  mezcla  ",
                "3 Moss",
                "1,5 partes",
                "× 60 % por las zonas × 100 % de ellas tocado",
                "20,5 cm² de superficie, como dice el esquema",
                "sin mezclar: uno junto a otro",
                "con aerógrafo, figuras en fila",
                "Fen, bote «Olm»",
            ],
        ),
    ] {
        let said = told(language);
        for line in lines {
            assert!(said.contains(line), "{language}: {line}\n{said}");
        }
        let left = ENGLISH.iter().filter(|word| words(&said).contains(**word)).collect::<Vec<_>>();
        assert!(left.is_empty(), "{language}: {left:?}\n{said}");
        let letters: Vec<char> = said.chars().collect();
        let pointed = letters
            .windows(3)
            .any(|three| matches!(three, [before, '.', after] if before.is_ascii_digit() && after.is_ascii_digit()));
        assert!(!pointed, "{language} has a decimal point:\n{said}");
        assert_eq!(said.lines().count(), english.lines().count(), "{language}: {said}");
    }
}

#[test]
fn data_is_the_same_in_every_language() {
    let [english, german] = ["en", "de"].map(|language| {
        let run = guide(language).run(&["mix", ".", "schemes/fen", "10-one", "--models", "12", "--format", "json"]);
        let sheet: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        sheet["amounts"].clone()
    });
    assert_eq!(english["sum"]["laid"], "by airbrush, figures in a row");
    assert_eq!(english, german);
}
