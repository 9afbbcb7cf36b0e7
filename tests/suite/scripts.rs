//! Guides in every script: letters on cards, pictures for links and pages, and which way they are read.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::bench::{self, Bench, Run};

const GUIDE: &str = "mine/content/guide.yaml";
const SCHEME: &str = "mine/content/schemes/first-figure/scheme.md";

/// A small guide with a title of its scheme and a language.
fn guide(title: &str, language: &str) -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench.replace(SCHEME, "title: My first figure", &format!("title: {title}"));
    bench.replace(GUIDE, "language: en", &format!("language: {language}\naddress: https://guides.example/fen/"));
    bench
}

fn published(bench: &Bench) -> Run {
    let run = bench.run(&["publish", "mine"]);
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    run
}

fn style(bench: &Bench) -> String {
    fs::read_to_string(bench.path("mine/published/theme/style/chart.css")).unwrap()
}

fn fonts(bench: &Bench) -> Vec<String> {
    bench::files_below(&bench.path("mine/published/theme/fonts")).into_keys().collect()
}

#[test]
fn greek_and_cyrillic_are_printed_and_shown_in_letters_that_fit() {
    let latin = guide("Ein Łódźer Über-Maß, ΔE", "en");
    let run = published(&latin);
    assert!(!run.err.contains("glyph-missing"), "{}", run.err);
    for title in ["Πρώτη φιγούρα", "Первая фигура"] {
        let bench = guide(title, "en");
        let run = published(&bench);
        assert!(!run.err.contains("glyph-missing"), "{}", run.err);
        assert!(style(&bench).contains("greek-cyrillic-heading.woff2"));
        assert!(fonts(&bench).contains(&"greek-cyrillic-text.woff2".to_owned()));
        let preview = |bench: &Bench| fs::read(bench.path("mine/published/schemes/first-figure/preview.png")).ok();
        assert_ne!(preview(&bench), preview(&latin));
    }
    assert!(!style(&latin).contains("greek-cyrillic"), "a guide in Latin letters carries no more than before");
    assert!(!fonts(&latin).iter().any(|font| font.contains("greek")), "{:?}", fonts(&latin));
}

#[test]
fn letters_without_a_font_are_told_once_by_the_name_of_their_script() {
    let bench = guide("青緑の水", "en");
    for step in ["20-grey-undercoat.md", "30-green-coat.md"] {
        let path = format!("mine/content/schemes/first-figure/{step}");
        let text = fs::read_to_string(bench.path(&path)).unwrap();
        bench.write(&path, text.replacen("title: ", "title: 水", 1));
    }
    let run = bench.run(&["check", "mine"]);
    assert_eq!(run.out.matches("[glyph-missing]").count(), 1, "{}", run.out);
    let named = "'青' ([U+9752]), '緑' ([U+7DD1]), 'の' ([U+306E]), '水' ([U+6C34]) of the script Han and kana";
    assert!(run.out.contains(named), "{}", run.out);
    assert!(run.out.contains("and at 2 more places") && run.out.contains("themes/chart/print"), "{}", run.out);
}

#[test]
fn a_font_that_a_guide_brings_is_used_by_cards_pictures_and_pages() {
    let bare = guide("青緑水", "en");
    let font = fs::read(bench::demo_folder().join("tests/data/fonts/few-letters.otf")).unwrap();
    published(&bare);
    let preview = |bench: &Bench| fs::read(bench.path("mine/published/schemes/first-figure/preview.png")).unwrap();
    // In the theme, or anywhere in the guide and named by it.
    let [themed, bench] = [("themes/chart/print/few.otf", "few.otf"), ("content/fonts/few.otf", "fonts/few.otf")].map(
        |(place, shown)| {
            let bench = guide("青緑水", "en");
            bench.write(&format!("mine/{place}"), &font);
            if place.starts_with("content") {
                bench.replace(GUIDE, "language: en", &format!("language: en\nfonts: [{shown}, ./{shown}]"));
            }
            let run = published(&bench);
            assert!(!run.err.contains("glyph-missing"), "{}", run.err);
            assert!(style(&bench).contains(&format!("src:url(\"../print/{shown}\");unicode-range:U+6C34-9752")));
            assert_eq!(fs::read(bench.path(&format!("mine/published/theme/print/{shown}"))).unwrap(), font);
            assert_ne!(preview(&bench), preview(&bare));
            bench
        },
    );
    assert_eq!(preview(&bench), preview(&themed));
    assert_eq!(bench.run(&["publish", "mine", "--single"]).status, 0);
    let single = fs::read_to_string(bench.path("mine/published/single/first-figure.html")).unwrap();
    assert!(single.contains("data:font/otf;base64,"));
}

/// The text of a card.
fn card(bench: &Bench) -> String {
    let run = bench.run(&["card", "mine", "first-figure", "--out", "card.pdf"]);
    assert_eq!(run.status, 0, "{}", run.err);
    text_of(&bench.path("card.pdf"))
}

fn text_of(pdf: &Path) -> String {
    // As it stands in the file, which is the order in which it is read out.
    let output = Command::new("pdftotext").arg("-raw").arg(pdf).arg("-").output().unwrap();
    String::from_utf8(output.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn a_card_has_the_words_of_other_scripts_as_text() {
    for title in ["Πρώτη φιγούρα", "Первая фигура"] {
        let text = card(&guide(title, "en"));
        assert!(text.contains(title) && !text.contains("[U+"), "{text:.200}");
    }
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn a_card_of_a_language_from_the_right_is_laid_out_from_the_right() {
    // The letters are Latin: the place alone is looked at. Of the first step's number and title, the number is at the right.
    let at = |bench: &Bench, word: &str| {
        let run = bench.run(&["card", "mine", "first-figure", "--out", "card.pdf"]);
        assert_eq!(run.status, 0, "{}", run.err);
        let output = Command::new("pdftotext").args(["-bbox"]).arg(bench.path("card.pdf")).arg("-").output().unwrap();
        let boxes = String::from_utf8(output.stdout).unwrap();
        let found = boxes.lines().find(|line| line.contains(&format!(">{word}</word>"))).unwrap().to_owned();
        let least = found.split("xMin=\"").nth(1).unwrap().split('"').next().unwrap();
        least.parse::<f64>().unwrap()
    };
    let [english, arabic] = ["en", "ar"].map(|language| {
        let bench = guide("Figure", language);
        bench.write("mine/themes/chart/words/ar.yaml", "nav: {schemes: \"المخططات\"}\n");
        (at(&bench, "Figure"), at(&bench, "Coat"), at(&bench, "Leather"))
    });
    assert!(english.1 < english.2 && arabic.1 > arabic.2, "{english:?} {arabic:?}");
    assert!(english.0 < 50.0, "{english:?}");
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn words_from_the_right_are_in_the_order_in_which_they_are_read() {
    let bench = guide("Figure", "he");
    bench.write("mine/themes/chart/words/he.yaml", "nav: {schemes: \"שריון\"}\n");
    let font = fs::read(bench::demo_folder().join("tests/data/fonts/few-hebrew.ttf")).unwrap();
    bench.write("mine/content/fonts/hebrew.ttf", font);
    bench.replace(GUIDE, "language: he", "language: he\nfonts: [fonts/hebrew.ttf]");
    let step = "mine/content/schemes/first-figure/30-green-coat.md";
    let text = fs::read_to_string(bench.path(step)).unwrap();
    let (_, rest) = text.split_once("title: ").unwrap();
    bench.write(step, format!("---\ntitle: שריון אדום 12\n{}", rest.split_once('\n').unwrap().1));
    // The marks that say which way to read are the reader's own.
    let heard: String = card(&bench).chars().filter(|letter| !('\u{202a}'..='\u{202e}').contains(letter)).collect();
    assert!(heard.contains("3 שריון אדום 12 Brush"), "{heard}");
}

#[test]
fn a_language_from_the_right_turns_the_page_and_its_english_cautions_stay_whole() {
    let bench = guide("Figure", "ar");
    let run = bench.run(&["check", "mine"]);
    assert!(run.status == 1 && run.out.contains("themes/chart/words/ar.yaml"), "{}", run.out);
    bench.write("mine/themes/chart/words/ar.yaml", "nav: {schemes: \"المخططات\"}\n");
    let run = published(&bench);
    assert_eq!(run.err.matches("[words-english]").count(), 1, "{}", run.err);
    assert!(run.err.contains("words are missing and stay English"), "{}", run.err);
    let page = fs::read_to_string(bench.path("mine/published/schemes/first-figure.html")).unwrap();
    assert!(page.contains("<html lang=\"ar\" dir=\"rtl\">") && page.contains("المخططات"));
    let cautions = page.matches("class=\"caution").count();
    assert!(cautions > 0 && page.contains("lang=\"en\" dir=\"ltr\""), "{cautions}");
    // A whole file of words, here with the English ones, leaves nothing to tell.
    let words = fs::read(bench::demo_folder().join("themes/chart/words/en.yaml")).unwrap();
    bench.write("mine/themes/chart/words/ar.yaml", words);
    assert_eq!(bench.run(&["check", "mine"]).out, "no findings\n");
    let english = guide("Figure", "en");
    published(&english);
    let page = fs::read_to_string(english.path("mine/published/schemes/first-figure.html")).unwrap();
    assert!(page.contains("<html lang=\"en\">") && !page.contains(" dir="));
}

#[test]
fn a_country_takes_the_words_of_its_language() {
    let bench = guide("Figur", "de-at");
    let run = published(&bench);
    assert!(!run.err.contains("words-"), "{}", run.err);
    let page = fs::read_to_string(bench.path("mine/published/index.html")).unwrap();
    assert!(page.contains("lang=\"de-at\"") && page.contains("Farben"));
}
