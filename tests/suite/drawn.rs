//! The model after every step as readers see it: drawn where nobody took a photograph, and told in words.

use scraper::Html;

use crate::bench::{Bench, files_below};
use crate::site::select;

#[test]
fn every_step_of_the_demo_has_its_picture_and_words_for_it() {
    let bench = Bench::demo_drawn();
    let run = bench.run(&["publish", "--single"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let site = files_below(&bench.path("published"));
    let is_step = |path: &&String| {
        let (folders, name) = path.rsplit_once('/').unwrap_or_default();
        folders.starts_with("schemes/")
            && !folders.starts_with("schemes/marsh-levy")
            && !folders.ends_with("drawn")
            && name.starts_with(|c: char| c.is_ascii_digit())
    };
    let steps: Vec<&String> = site.keys().filter(is_step).collect();
    assert_eq!(steps.len(), 59);
    for path in steps {
        let page = Html::parse_document(std::str::from_utf8(&site[path]).unwrap());
        let drawn = select(&page, ".drawn img");
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
    let amber = std::str::from_utf8(&site["schemes/fen-warden/50-amber-shell.html"]).unwrap();
    assert!(amber.contains("Changed by this step: Beetle shell."), "the alternative text says what changed");
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
