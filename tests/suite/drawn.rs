//! The model after every step as readers see it: drawn where nobody took a photograph, and told in words.

use std::path::Path;

use scraper::Html;

use crate::bench::{Bench, copy, files_below};
use crate::site::select;

#[test]
fn every_step_of_the_demo_has_its_picture_and_words_for_it() {
    let bench = Bench::demo_drawn();
    let heron = "content/schemes/heron-rider/scheme.md";
    let front = std::fs::read_to_string(bench.path(heron)).unwrap();
    let bare: String = front.split_inclusive('\n').filter(|line| !is_of_photo(line)).collect();
    bench.write(heron, bare);
    let run = bench.run(&["publish", "--single"]);
    assert_eq!(run.status, 0, "{}", run.err);
    // The script that runs all tests publishes the guide once more: it need not draw every model again.
    if let Some(kept) = std::env::var_os("MAULSTICK_DRAWN") {
        copy(&bench.path("published"), Path::new(&kept));
    }
    let site = files_below(&bench.path("published"));
    let is_step = |path: &&String| {
        let (folders, name) = path.rsplit_once('/').unwrap_or_default();
        folders.starts_with("schemes/") && !folders.ends_with("drawn") && name.starts_with(|c: char| c.is_ascii_digit())
    };
    let steps: Vec<&String> = site.keys().filter(is_step).collect();
    assert_eq!(steps.len(), 59 + 6 * 10, "the levies are drawn in three looks, each in two ways");
    for path in steps {
        let page = Html::parse_document(std::str::from_utf8(&site[path]).unwrap());
        let drawn = select(&page, ".step-side img[src*='drawn/']");
        assert_eq!(drawn.len(), 1, "{path}");
        let folder = path.rsplit_once('/').unwrap().0;
        let bytes = &site[&format!("{folder}/{}", drawn[0].attr("src").unwrap())];
        let picture = image::load_from_memory(bytes).unwrap();
        assert_eq!(drawn[0].attr("width"), Some("960"), "{path}");
        assert_eq!(drawn[0].attr("height"), Some(picture.height().to_string().as_str()), "{path}");
        assert!(bytes.len() < 150_000, "{path} has a picture of {} bytes", bytes.len());
        let small = path.replace(&format!("{folder}/"), &format!("{folder}/drawn/")).replace(".html", "-480.jpg");
        assert_eq!(image::load_from_memory(&site[&small]).unwrap().width(), 480);
    }
    strips_turns_and_slides(&site);
    finished_models_without_a_photo(&site);
    let sheet = |step: &str| image::load_from_memory(&site[&format!("schemes/fen-warden/drawn/{step}.jpg")]).unwrap();
    let (before, after) = (sheet("70-lantern-panes").to_rgb8(), sheet("75-wing-marks").to_rgb8());
    let other = before.pixels().zip(after.pixels()).filter(|(one, other)| one.0[2].abs_diff(other.0[2]) > 60).count();
    assert!(other > 400, "the marks on the shoulders are seen: {other} pixels");
    let amber = std::str::from_utf8(&site["schemes/fen-warden/50-amber-shell.html"]).unwrap();
    let changed = "Changed by this step: Beetle shell (Clear Amber).";
    assert!(amber.contains(changed), "the alternative text says what changed, and by which paint");
    // Where the word for the colour is the one of the step before, the strip has the paint in its place.
    assert!(amber.contains("\"changes: Beetle shell (Clear Amber)\""), "{amber}");
    let teal = std::str::from_utf8(&site["schemes/reed-boat/40-teal.html"]).unwrap();
    assert!(teal.contains("Painted side boards teal"), "and what it looks like");
    let taped = std::str::from_utf8(&site["schemes/reed-boat/70-cover-the-iron.html"]).unwrap();
    assert!(taped.contains("Iron fittings under tape"));
    let single = std::str::from_utf8(&site["single/heron-rider.html"]).unwrap();
    assert!(!single.contains("drawn/"), "pictures stand inside a page of one file");
    assert!(single.matches("data:image/jpeg").count() >= 15);
    let data = std::str::from_utf8(&site["schemes/heron-rider.html"]).unwrap();
    assert!(data.contains("schemes/heron-rider/drawn/40-peat-wash.jpg\""), "search engines are told of it");
}

fn is_of_photo(line: &str) -> bool {
    line.starts_with("photo:") || line.starts_with("alt:")
}

/// Where nobody took a photo, card, preview, index and scheme show the drawn model.
fn finished_models_without_a_photo(site: &std::collections::BTreeMap<String, Vec<u8>>) {
    let preview = image::load_from_memory(&site["schemes/heron-rider/preview.png"]).unwrap().into_rgb8();
    let edge = [100, 300, 500].map(|y| preview.get_pixel(1195, y).0);
    assert!(edge.iter().all(|pixel| *pixel != [0xfa, 0xf6, 0xee]), "a picture stands at the right: {edge:?}");
    let card = &site["schemes/heron-rider/card.pdf"];
    assert!(card.windows(9).any(|part| part == b"DCTDecode"), "the card has a picture");
    for path in ["index.html", "schemes/heron-rider.html"] {
        let page = std::str::from_utf8(&site[path]).unwrap();
        assert!(page.contains("heron-rider/drawn/finished.jpg"), "{path}");
        assert!(page.contains("The finished model, drawn in the predicted colours: Feathers grey"), "{path}");
    }
    let (plain, near) = (
        &site["schemes/reed-boat/drawn/25-straw-and-planks-480.jpg"],
        &site["schemes/reed-boat/drawn/28-iron-480.jpg"],
    );
    let [plain, near] = [plain, near].map(|bytes| image::load_from_memory(bytes).unwrap().into_rgb8());
    let dark = |picture: &image::RgbImage| {
        picture.enumerate_pixels().filter(|(x, y, pixel)| *x < 160 && *y < 60 && pixel.0[0] < 150).count()
    };
    assert_eq!(dark(&plain), 0);
    assert!(dark(&near) > 400, "the fittings are shown near in the free corner: {}", dark(&near));
}

/// The strip shows every step tiny, the finished model turns without a script, and a photo stands beside its prediction.
fn strips_turns_and_slides(site: &std::collections::BTreeMap<String, Vec<u8>>) {
    let page = |path: &str| Html::parse_document(std::str::from_utf8(&site[path]).unwrap());
    let picture = |folder: &str, element: &scraper::ElementRef<'_>| {
        image::load_from_memory(&site[&format!("{folder}/{}", element.attr("src").unwrap())]).unwrap()
    };
    for path in ["schemes/reed-boat.html", "schemes/reed-boat/40-teal.html"] {
        let page = page(path);
        let tiny = select(&page, ".strip img[loading=lazy]");
        assert_eq!(tiny.len(), select(&page, ".strip-step").len(), "{path}");
        assert!(tiny.iter().all(|one| picture(path.rsplit_once('/').unwrap().0, one).width() == 160), "{path}");
        let said: Vec<&str> = tiny.iter().filter_map(|one| one.attr("alt")).collect();
        assert!(said.contains(&"changes: Painted side boards teal"), "{said:?}");
        assert!(said.contains(&"changes no colour"), "{said:?}");
        let folder = path.rsplit_once('/').unwrap().0;
        let bytes: usize = tiny.iter().map(|one| site[&format!("{folder}/{}", one.attr("src").unwrap())].len()).sum();
        assert!(bytes < 7_000 * tiny.len(), "{bytes} bytes of tiny pictures");
    }
    let boat = page("schemes/reed-boat.html");
    let sides = select(&boat, ".turned input[type=radio]");
    let views = select(&boat, ".turned img");
    assert_eq!((sides.len(), views.len()), (8, 8));
    assert_eq!(sides.iter().filter(|side| side.attr("checked").is_some()).count(), 1);
    assert!(views[1..].iter().all(|view| picture("schemes", view).width() == 640));
    assert!(views[2].attr("alt").unwrap().contains("The finished model from"), "{:?}", views[2].attr("alt"));
    let beside = select(&boat, ".shown .beside img");
    assert_eq!(beside.len(), 2, "the author's photo and the prediction");
    assert!(
        beside[0].attr("src").unwrap().contains("photos/finished") && beside[1].attr("src").unwrap().contains("drawn/")
    );
    assert!(!select(&boat, ".beside label[hidden] input[type=range]").is_empty(), "the slide waits for its script");
}
