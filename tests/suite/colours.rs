//! Predicted colours on the published pages: every picture has its facts in words beside it, and every reader finds out
//! what they rest on.

use crate::bench;
use crate::site::{pages, published_demo, select, site};
use maulstick::colour::difference;
use maulstick::measure::{Colour, FromText as _};
use regex::Regex;
use scraper::{ElementRef, Html};

/// The colours that a picture is filled with.
fn fills(picture: ElementRef<'_>, inside: &str) -> Vec<String> {
    let html = Html::parse_fragment(&picture.html());
    select(&html, inside)
        .iter()
        .filter_map(|shape| shape.attr("fill").or_else(|| shape.attr("stroke")))
        .filter(|fill| fill.starts_with('#'))
        .map(str::to_owned)
        .collect()
}

fn colour(text: &str) -> Colour {
    Colour::from_text(text).unwrap()
}

/// The colours that a text names, in its order.
fn named(text: &str) -> Vec<String> {
    Regex::new("#[0-9a-f]{6}").unwrap().find_iter(text).map(|found| found.as_str().to_owned()).collect()
}

fn label<'a>(page: &'a Html, picture: &str) -> Vec<(ElementRef<'a>, String)> {
    let found = select(page, &format!("[role='img']:has({picture})"));
    found.into_iter().map(|element| (element, element.attr("aria-label").unwrap_or_default().to_owned())).collect()
}

#[test]
fn a_ladder_says_coats_colours_and_differences_in_words() {
    let mut ladders = 0;
    for (path, page) in pages(site()) {
        for (picture, label) in label(&page, "svg.ladder") {
            assert_eq!(fills(picture, "path"), named(&label), "{path}");
            let shown: Vec<String> = picture.text().collect::<String>().split_whitespace().map(str::to_owned).collect();
            assert!(!shown.is_empty() && label.contains("1: #"), "{path}: {label}");
            ladders += 1;
        }
    }
    assert!(ladders >= 6, "only {ladders} ladders");
}

#[test]
fn tones_and_films_say_their_colours_in_words() {
    let (mut tones, mut films) = (0, 0);
    for (path, page) in pages(site()) {
        for (picture, label) in label(&page, "svg.tones") {
            assert_eq!(fills(picture, "polygon"), named(&label), "{path}");
            tones += 1;
        }
        for cut in select(&page, "figure.cut") {
            let drawn: Vec<Colour> = fills(cut, "svg.film path").iter().map(|fill| colour(fill)).collect();
            let told: Vec<Colour> = named(&cut.text().collect::<String>()).iter().map(|told| colour(told)).collect();
            // What lies under a varnish is drawn as it was laid; the varnish moves it a little.
            let near = |told: &Colour| drawn.iter().any(|drawn| difference(*drawn, *told) < 4.0);
            let lost: Vec<&Colour> = told.iter().filter(|told| !near(told)).collect();
            let chipped = path.contains("reed-boat");
            assert!(lost.is_empty() || chipped, "{path} tells {lost:?}, and nothing of that is drawn");
            films += 1;
        }
    }
    assert!(tones >= 20 && films >= 30, "{tones} and {films}");
}

#[test]
fn a_value_ladder_says_every_lightness_in_words() {
    let mut ladders = 0;
    let told = Regex::new(r"(recess|face|edge) (\d+)").unwrap();
    for (path, page) in pages(site()) {
        for (picture, label) in label(&page, "svg.values-picture") {
            let marks = fills(picture, "path").len();
            assert_eq!(told.captures_iter(&label).count(), marks, "{path}: {label}");
            assert!(told.captures_iter(&label).all(|found| found[2].parse::<u32>().unwrap() <= 100), "{label}");
            ladders += 1;
        }
    }
    assert!(ladders >= 8, "only {ladders} value ladders");
}

#[test]
fn the_page_on_predictions_is_led_to_from_every_predicted_picture() {
    let site = site();
    let page = std::str::from_utf8(&site["colours.html"]).unwrap();
    for word in ["Kubelka", "Nine in ten", "nobody has measured", "warm-white", "Rowanberry"] {
        assert!(page.contains(word), "{word}");
    }
    for (path, page) in pages(site) {
        let predicted =
            !select(&page, "svg.film, svg.ladder, svg.values-picture, .tin svg.chip:not(:has(.chip-drop))").is_empty();
        let leads = select(&page, "a[href$='colours.html']").is_empty();
        assert!(!(predicted && leads), "{path} has predicted colours and does not say how");
    }
}

#[test]
fn a_paint_says_how_it_comes_out_on_card_and_what_that_rests_on() {
    let site = site();
    let text = |id: &str| {
        let page = Html::parse_document(std::str::from_utf8(&site[&format!("paints/{id}.html")]).unwrap());
        select(&page, "main")[0].text().collect::<String>()
    };
    let amber = text("clear-amber");
    assert!(amber.contains("over white #") && amber.contains("brush-outs of several coats over white"), "{amber}");
    assert!(amber.contains("What lies under it shows through even after 12 coats."), "{amber}");
    assert!(text("bog-iron").contains("over black as over white"));
    assert!(text("bog-iron").contains("a tint with white"));
    assert!(!text("osk-thinner").contains("Predicted"));
}

#[test]
fn a_paint_without_a_colour_makes_a_step_unknown_and_not_a_guess() {
    let bench = published_demo();
    bench.replace("content/paints/mere.yaml", "    colour: \"#5e3d28\"\n", "");
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    let files = bench::files_below(&bench.path("published"));
    let step = std::str::from_utf8(&files["schemes/fen-warden/65-straps-10-brown.html"]).unwrap();
    let step = select(&Html::parse_document(step), "dl.notes")[0].text().collect::<String>();
    assert!(step.contains("It can't be predicted: a paint here has no colour on file."), "{step}");
    let scheme = std::str::from_utf8(&files["schemes/fen-warden.html"]).unwrap();
    assert!(scheme.contains("recess not known, face not known, edge not known"));
    let colours = std::str::from_utf8(&files["colours.html"]).unwrap();
    assert!(colours.contains("<dt>not known</dt><dd><a href=\"paints/otter-strap.html\">"));
}
