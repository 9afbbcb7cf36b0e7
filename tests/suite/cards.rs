//! What goes from hand to hand beside the site: printed cards, recipes and chapters to paste, pictures for links, one
//! file with everything inside.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::{Arc, Mutex, OnceLock};

use maulstick::caution::CautionTexts;
use maulstick::door::Disk;
use maulstick::story;

use crate::bench::{self, Bench};
use crate::site::published_demo;

const SCHEMES: &[&str] = &["fen-warden", "heron-rider", "lantern-pier", "reed-boat"];

/// Everything that a tool of the system says, and whether it was content.
fn tool(name: &str, arguments: &[&str], file: &Path) -> (bool, String) {
    let output = Command::new(name).args(arguments).arg(file).output();
    let output = output.unwrap_or_else(|error| panic!("{name}: {error}; tests/run.sh brings it"));
    (output.status.success(), String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The text of a PDF in reading order, on one line; and how many pages it has.
fn text_of(pdf: &Path) -> (String, usize) {
    let output = Command::new("pdftotext").args(["-raw"]).arg(pdf).arg("-").output().unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    (on_one_line(&text), text.matches('\u{c}').count())
}

fn on_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A card of a scheme, made by the program.
fn card(bench: &Bench, scheme: &str, more: &[&str]) -> std::path::PathBuf {
    let run = bench.run(&[&["card", ".", scheme, "--out", "card.pdf"], more].concat());
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    bench.path("card.pdf")
}

/// A card of a scheme of the demo guide as it is, in a bench; each is made once for all tests.
fn demo_card(bench: &Bench, scheme: &str, more: &[&str]) -> std::path::PathBuf {
    static CARDS: Mutex<BTreeMap<String, Arc<OnceLock<Vec<u8>>>>> = Mutex::new(BTreeMap::new());
    let made = Arc::clone(CARDS.lock().unwrap().entry([&[scheme], more].concat().join(" ")).or_default());
    let bytes = made.get_or_init(|| fs::read(card(&Bench::demo(), scheme, more)).unwrap());
    bench.write("card.pdf", bytes);
    bench.path("card.pdf")
}

#[test]
#[ignore = "needs poppler-utils and qpdf; tests/run.sh brings them"]
fn a_demo_card_fits_both_sides_of_a_sheet_and_reads_from_the_title_to_the_list() {
    let bench = Bench::demo();
    for scheme in SCHEMES {
        let pdf = demo_card(&bench, scheme, &[]);
        assert!(tool("qpdf", &["--check"], &pdf).0, "{scheme} is broken");
        let (text, pages) = text_of(&pdf);
        assert!(pages <= 2, "{scheme} has {pages} pages");
        let checked = story::check(&Disk::new(bench.path(""))).unwrap();
        let worked = checked.worked.schemes.iter().find(|worked| worked.scheme.slug == *scheme).unwrap();
        assert!(text.starts_with(&worked.scheme.title), "{text:.80}");
        let mut at = text.find("Steps").unwrap();
        for step in &worked.scheme.steps {
            let found = text[at..].find(&step.title).unwrap_or_else(|| panic!("{scheme} lacks {}", step.title));
            at += found;
        }
        assert!(text[at..].contains("Shopping list"));
    }
}

/// The sizes of the letters in a PDF, in points.
fn sizes_of(pdf: &Path) -> Vec<f32> {
    let output = Command::new("qpdf").args(["--qdf", "--object-streams=disable"]).arg(pdf).arg("-").output().unwrap();
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let words: Vec<&str> = text.split_ascii_whitespace().collect();
    words.windows(2).filter(|two| two[1] == "Tf").map(|two| two[0].parse().unwrap()).collect()
}

#[test]
#[ignore = "needs poppler-utils and qpdf; tests/run.sh brings them"]
fn a_card_is_read_at_arm_s_length_and_nothing_complains_about_it() {
    let bench = Bench::demo();
    for (scheme, text_from) in [("fen-warden", 10.0), ("heron-rider", 10.5)] {
        for (paper, sides) in [("A4", 2), ("A5", 4)] {
            let pdf = demo_card(&bench, scheme, &["--paper", paper]);
            assert_eq!(text_of(&pdf).1, sides, "{scheme} on {paper}");
            let mut sizes = sizes_of(&pdf);
            sizes.sort_by(f32::total_cmp);
            assert!(sizes[0] >= 9.0, "{scheme} on {paper}: {}", sizes[0]);
            let large = sizes.iter().filter(|size| **size >= text_from - 1e-3).count();
            assert!(paper != "A4" || large * 5 > sizes.len() * 2, "{scheme}: {large} of {}", sizes.len());
            let complaints = Command::new("pdfinfo").arg(&pdf).output().unwrap().stderr;
            assert_eq!(String::from_utf8_lossy(&complaints), "");
        }
    }
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn a_card_has_one_sentence_a_step_the_chain_of_an_area_and_room_to_write() {
    let bench = published_demo();
    let step = "content/schemes/heron-rider/20-grey-feathers.md";
    bench.replace(step, "stage: basecoat", "stage: basecoat\ncard: Two thin coats, from the neck to the tail.");
    let (text, _) = text_of(&card(&bench, "heron-rider", &[]));
    assert!(text.contains("Two thin coats, from the neck to the tail."), "the author's own sentence");
    assert!(text.contains("Shake the bottle for a minute."), "the first of the instruction");
    assert!(
        text.contains("Peat Water, 2 × Rowanberry + Kingcup + Egret Down on faces and edges, Thinned Mist Matt"),
        "{text:.900}"
    );
    assert!(text.contains("Notes"));
    assert!(text.find("Do first") < text.find("Clean it and put it on a handle"));
    assert_eq!(bench.run(&["publish"]).status, 0);
    let recipe = fs::read_to_string(bench.path("published/schemes/heron-rider/recipe.txt")).unwrap();
    assert!(recipe.contains("Two thin coats, from the neck to the tail.\n"));
    let recipe = fs::read_to_string(bench.path("published/schemes/fen-warden/recipe.txt")).unwrap();
    assert!(
        recipe.contains("Mix: 6 drops Lantern Honey + 5 drops Stillwater Medium + 1 drop Mere Thinner"),
        "{recipe}"
    );
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn a_card_says_every_caution_in_full_on_every_paper() {
    let bench = Bench::demo();
    let texts = CautionTexts::of("en");
    let checked = story::check(&Disk::new(bench.path(""))).unwrap();
    for worked in &checked.worked.schemes {
        for paper in ["A4", "A5", "letter"] {
            let (text, _) = text_of(&demo_card(&bench, &worked.scheme.slug, &["--paper", paper]));
            for held in &worked.cautions.kinds {
                let caution = texts.caution(held.what);
                // A line that ends in a hyphen of its own is read as one word.
                let bare = |text: &str| on_one_line(text).replace(['-', ' '], "");
                assert!(bare(&text).contains(&bare(&caution.text)), "{paper}: {}", caution.title);
            }
            for statement in &worked.cautions.statements {
                assert!(text.contains(&statement.code), "{}", statement.code);
            }
            assert!(text.contains("safety data sheets of your products"));
        }
    }
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn no_heading_stands_alone_at_the_end_of_a_sheet() {
    let bench = Bench::demo();
    let checked = story::check(&Disk::new(bench.path(""))).unwrap();
    for worked in &checked.worked.schemes {
        for paper in ["A4", "A5", "letter"] {
            let pdf = demo_card(&bench, &worked.scheme.slug, &["--paper", paper]);
            let text = tool("pdftotext", &["-raw"], &pdf);
            assert!(text.0, "{}", text.1);
            let text = fs::read_to_string(pdf.with_extension("txt")).unwrap();
            for heading in ["Steps", "Cautions"] {
                let sheet = text.split('\u{c}').find(|sheet| sheet.lines().any(|line| line == heading)).unwrap();
                // The margins of a sheet, which are read last, have three lines at most.
                let below = sheet.lines().skip_while(|line| *line != heading).count() - 1;
                assert!(below > 3, "{heading} on {paper} of {}: {below} lines", worked.scheme.slug);
            }
        }
    }
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn a_card_is_tagged_and_says_its_title_its_language_and_its_paper() {
    let bench = Bench::demo();
    for (paper, size) in [("A4", "595.28 x 841.89"), ("A5", "419.53 x 595.28"), ("letter", "612 x 792")] {
        let pdf = demo_card(&bench, "heron-rider", &["--paper", paper]);
        let about = on_one_line(&tool("pdfinfo", &[], &pdf).1);
        assert!(about.contains("Title: Heron rider, brushes only"), "{about}");
        assert!(about.contains("Tagged: yes") && about.contains(&format!("Page size: {size}")), "{about}");
        let bytes = fs::read(&pdf).unwrap();
        let has = |wanted: &str| bytes.windows(wanted.len()).any(|part| part == wanted.as_bytes());
        assert!(has("/Lang(en)") || has("/Lang (en)"), "no language");
        assert!(has("pdfuaid:part"), "not marked as PDF/UA");
    }
}

#[test]
fn a_card_is_the_same_each_time() {
    let bench = Bench::demo();
    let first = fs::read(card(&bench, "lantern-pier", &[])).unwrap();
    assert!(first == fs::read(card(&bench, "lantern-pier", &[])).unwrap());
}

/// With little else in the head, the code is what is highest in it. A program that is built for tests stops where a card is drawn
/// to another place than it was measured to.
#[test]
fn a_card_with_a_low_head_is_drawn_as_it_was_measured() {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\naddress: https://guides.example/\n");
    bench.write("content/schemes/post/scheme.md", "---\ntitle: Post\nareas: {wood: 100%}\n---\n");
    // So many steps that the type stays small.
    for number in 10..70 {
        let step =
            format!("---\ntitle: Rinse {number}\nstage: prepare\nareas: [all]\nwith: hand\n---\nIn warm water.\n");
        bench.write(&format!("content/schemes/post/{number}-rinse.md"), step);
    }
    for paper in ["A4", "A5", "letter"] {
        card(&bench, "post", &["--paper", paper]);
    }
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn a_card_shows_the_photo_of_the_model_and_is_the_one_of_the_site() {
    let bench = published_demo();
    let pictures = |pdf: &Path| tool("pdfimages", &["-list"], pdf).1.lines().skip(2).count();
    for (scheme, count) in [("fen-warden", 1), ("marsh-levy", 0)] {
        for paper in ["A4", "A5"] {
            assert_eq!(pictures(&demo_card(&bench, scheme, &["--paper", paper])), count, "{scheme} on {paper}");
        }
    }
    let published = fs::read(bench.path("published/schemes/fen-warden/card.pdf")).unwrap();
    assert!(published == fs::read(demo_card(&bench, "fen-warden", &[])).unwrap());
}

#[test]
fn a_card_takes_the_place_of_a_card_and_of_nothing_else() {
    let bench = Bench::demo();
    let run = bench.run(&["card", ".", "Heron rider, brushes only"]);
    assert_eq!((run.status, run.out.as_str()), (0, "heron-rider.pdf\n"), "{}", run.err);
    assert_eq!(bench.run(&["card", ".", "heron-rider"]).status, 0);
    bench.write("heron-rider.pdf", "diary");
    let run = bench.run(&["card", ".", "heron-rider"]);
    assert_eq!(run.status, 2);
    assert!(run.err.contains("mend: name another file with --out"), "{}", run.err);
    assert_eq!(fs::read_to_string(bench.path("heron-rider.pdf")).unwrap(), "diary");
}

#[test]
fn a_folder_that_is_not_there_is_named_with_what_helps() {
    let bench = Bench::demo();
    let run = bench.run(&["card", ".", "heron-rider", "--out", "nodir/x.pdf"]);
    assert_eq!((run.status, run.out.as_str()), (2, ""));
    assert!(run.err.contains("the card was not written: the folder 'nodir' is not there\n"), "{}", run.err);
    assert!(run.err.contains("mend: make the folder first, or name another file with --out"), "{}", run.err);
    assert!(!run.err.contains("path"), "{}", run.err);
}

#[test]
fn an_unknown_scheme_or_paper_is_wrong_usage() {
    let bench = Bench::demo();
    let run = bench.run(&["card", ".", "fen-wardn"]);
    assert_eq!(run.status, 2);
    assert!(run.err.contains("did you mean 'fen-warden'?"), "{}", run.err);
    let run = bench.run(&["card", ".", "fen-warden", "--paper", "A3"]);
    assert_eq!(run.status, 2);
    assert!(run.err.contains("there is no paper 'A3'"), "{}", run.err);
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings it"]
fn a_letter_that_no_font_has_is_told_and_printed_as_its_number() {
    let bench = Bench::demo();
    bench.replace("content/schemes/heron-rider/scheme.md", "title: Heron rider, brushes only", "title: 鷺 rider");
    let run = bench.run(&["check"]);
    assert!(run.out.contains("[glyph-missing]") && run.out.contains("'鷺' ([U+9DFA])"), "{}", run.out);
    assert!(run.out.contains("content/schemes/heron-rider/scheme.md:2:8"), "{}", run.out);
    let (text, _) = text_of(&card(&bench, "heron-rider", &[]));
    assert!(text.starts_with("[U+9DFA] rider"), "{text:.80}");
}

#[test]
fn the_sign_of_a_currency_that_no_font_has_is_told_where_a_card_prices_pieces() {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench.replace("mine/content/guide.yaml", "currency: EUR", "currency: KRW");
    let told = || bench.run(&["check", "mine"]).out.contains("no font for printing has '₩' ([U+20A9]), in a price");
    assert!(!told(), "nothing is counted yet");
    let paper = "{name: Wet abrasive paper, kind: consumable";
    bench.replace("mine/content/tools.yaml", paper, &format!("{paper}, per-model: 1/4, price: 450"));
    assert!(told());
}

#[test]
fn a_pdf_that_only_names_the_program_is_not_written_over() {
    let bench = Bench::demo();
    let review = b"%PDF-1.7\n<</Title(A review of Maulstick)/Creator(Somebody)>>";
    bench.write("card.pdf", review);
    let run = bench.run(&["card", ".", "fen-warden", "--out", "card.pdf"]);
    assert!(run.status == 2 && run.err.contains("none of ours"), "{}", run.err);
    assert_eq!(fs::read(bench.path("card.pdf")).unwrap(), review);
    fs::remove_file(bench.path("card.pdf")).unwrap();
    for _ in 0..2 {
        card(&bench, "fen-warden", &[]);
    }
}

#[test]
fn a_caution_that_can_t_be_read_on_paper_is_an_error() {
    let bench = Bench::demo();
    let step = "content/schemes/fen-warden/50-amber-shell.md";
    bench.replace(step, "Five coats on two dozen", "危険: five coats on two dozen");
    let run = bench.run(&["card", ".", "fen-warden"]);
    assert_eq!(run.status, 1);
    assert!(run.err.contains("error[caution-glyph-missing]") && run.err.contains("no card was made"), "{}", run.err);
}

#[test]
#[ignore = "needs poppler-utils and qpdf; tests/run.sh brings them"]
fn odd_texts_are_printed_and_break_nothing() {
    // As long as a name may be.
    let long_word = "amber".repeat(40);
    let many_words = "a very long title ".repeat(11);
    let texts = ["\"مرحبا shell אב\"", "\"e\\u0301 gnp \\u00adx\\u200b 👩\\u200d🎨 \\u0301\"", &long_word, &many_words];
    for text in texts {
        let bench = Bench::demo();
        bench.replace(
            "content/schemes/fen-warden/scheme.md",
            "title: Fen warden in amber shell",
            &format!("title: {text}"),
        );
        let step = "content/schemes/fen-warden/60-reed-cloth.md";
        let source = fs::read_to_string(bench.path(step)).unwrap();
        let title = source.lines().find(|line| line.starts_with("title: ")).unwrap().to_owned();
        bench.replace(step, &title, &format!("title: {text}"));
        for paper in ["A4", "A5"] {
            let pdf = card(&bench, "fen-warden", &["--paper", paper]);
            assert!(tool("qpdf", &["--check"], &pdf).0, "{text:.40}");
            let (text, _) = text_of(&pdf);
            assert!(text.contains("Shopping list"), "{text:.80}");
        }
    }
}

#[test]
fn chapters_and_the_recipe_lie_beside_the_scheme() {
    let bench = published_demo();
    let read = |path: &str| fs::read_to_string(bench.path(&format!("published/schemes/{path}"))).unwrap();
    let chapters = "0:00 Fen warden in amber shell\n0:35 Clean the plates and wash the resin\n\
        2:10 A thin black ground from the can\n4:10 Light from above on the cloth\n5:45 Pale lamp gold, three light coats\n\
        8:20 Draw the plate edges in brighter gold\n11:05 Amber in five thin coats\n15:30 Wing marks on the shoulders\n";
    assert_eq!(read("fen-warden/chapters.txt"), chapters);
    let track = read("fen-warden/chapters.vtt");
    let head =
        "WEBVTT\nKind: chapters\nLanguage: en\n\n1\n00:00:00.000 --> 00:00:35.000\nFen warden in amber shell\n\n";
    assert!(track.starts_with(head), "{track}");
    assert!(!bench.path("published/schemes/heron-rider/chapters.txt").exists(), "it has no video");
    for file in ["card.pdf", "recipe.txt", "chapters.vtt", "chapters.txt"] {
        assert!(read("fen-warden.html").contains(&format!("href=\"fen-warden/{file}\"")), "no link to {file}");
    }
    let (recipe, texts) = (read("fen-warden/recipe.txt"), CautionTexts::of("en"));
    let checked = story::check(&Disk::new(bench.path(""))).unwrap();
    for held in &checked.worked.schemes[0].cautions.kinds {
        assert!(recipe.contains(&texts.caution(held.what).text), "{:?}", held.what);
    }
    assert!(
        recipe.contains(texts.closing())
            && recipe.contains("Mix: 3 Thistle White (27 drops) + 1 Mere Thinner (6 drops), for 1.1 ml")
    );
}

#[test]
fn links_have_a_picture_where_the_guide_has_an_address() {
    let bench = published_demo();
    for (file, photo) in
        [("preview.png", false), ("schemes/fen-warden/preview.png", true), ("schemes/marsh-levy/preview.png", false)]
    {
        let picture = image::load_from_memory(&fs::read(bench.path(&format!("published/{file}"))).unwrap()).unwrap();
        assert_eq!((picture.width(), picture.height()), (1200, 630));
        // The photo stands at the right edge, halfway down; where there is none, paper shows.
        let paper = [0xfa, 0xf6, 0xee];
        let picture = picture.into_rgb8();
        assert_eq!(picture.get_pixel(1195, 315).0 != paper, photo, "{file}");
        assert_eq!(picture.get_pixel(20, 315).0, paper, "{file}");
    }
    let step = fs::read_to_string(bench.path("published/schemes/fen-warden/50-amber-shell.html")).unwrap();
    let wanted = "property=\"og:image\" content=\"https://guides.example/fen/schemes/fen-warden/preview.png\"";
    assert!(step.contains(wanted), "{step:.2000}");
    bench.replace("content/guide.yaml", "address: https://guides.example/fen/\n", "");
    assert_eq!(bench.run(&["publish"]).status, 0);
    let files = bench::files_below(&bench.path("published"));
    assert!(!files.keys().any(|path| path.ends_with("preview.png")));
    assert!(!String::from_utf8_lossy(&files["index.html"]).contains("og:"));
}

#[test]
fn a_single_file_has_everything_inside_cautions_too() {
    let bench = published_demo();
    assert_eq!(bench.run(&["publish", "--single"]).status, 0);
    let files = bench::files_below(&bench.path("published"));
    for scheme in SCHEMES {
        let page = String::from_utf8_lossy(&files[&format!("single/{scheme}.html")]).into_owned();
        let parsed = scraper::Html::parse_document(&page);
        let all = |wanted: &str| parsed.select(&scraper::Selector::parse(wanted).unwrap()).collect::<Vec<_>>();
        assert_eq!(all("script, link[rel=stylesheet], source, iframe").len(), 0, "{scheme}");
        let pictures = all("img");
        // What is shown again has its bytes in a rule at the page's end.
        let is_inside = |image: &scraper::ElementRef<'_>| match (image.attr("src"), image.attr("data-again")) {
            (Some(src), None) => src.starts_with("data:image/"),
            (None, Some(number)) => page.contains(&format!("[data-again=\"{number}\"]{{content:url(\"data:image/")),
            _ => false,
        };
        assert!(pictures.len() > 1 && pictures.iter().all(is_inside), "{scheme}");
        let leads = |link: &scraper::ElementRef<'_>| link.attr("href").unwrap_or("#").to_owned();
        let stray = all("a").iter().map(leads).find(|href| !href.starts_with('#') && !href.starts_with("https://"));
        assert_eq!(stray, None, "{scheme}");
        let site = scraper::Html::parse_document(&String::from_utf8_lossy(&files[&format!("schemes/{scheme}.html")]));
        let boxes = scraper::Selector::parse(".caution, .caution-line").unwrap();
        let said: Vec<String> = site.select(&boxes).map(|one| one.text().collect()).collect();
        let here: Vec<String> = all(".caution, .caution-line").iter().map(|one| one.text().collect()).collect();
        assert!(said.len() > 3 && said == here, "{scheme}");
        assert!(page.len() < 1_500_000, "{scheme}: {} bytes", page.len());
    }
}
