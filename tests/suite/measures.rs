//! The recipe comes first: how much of a page is cautions, and how soon the mix and the instruction come.

use std::collections::BTreeSet;
use std::path::Path;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use scraper::{ElementRef, Html};
use serde_json::json;

use crate::bench::files_below;
use crate::driver::in_browser;
use crate::site::{pages, select, site};

/// At most such a share of a scheme's page is cautions, by words, in per cent.
const MOST_CAUTIONS: usize = 15;

/// The words of an element as a reader sees them: no script, no drawing.
fn words(element: ElementRef<'_>) -> usize {
    let drawn = |at: ElementRef<'_>| {
        at.ancestors().filter_map(ElementRef::wrap).chain([at]).any(|e| matches!(e.value().name(), "svg" | "script"))
    };
    let texts =
        element.descendants().filter_map(|node| Some((node.value().as_text()?, ElementRef::wrap(node.parent()?)?)));
    texts.filter(|(_, at)| !drawn(*at)).map(|(text, _)| text.split_whitespace().count()).sum()
}

/// The words of all cautions of a page, and all its words.
fn cautions(page: &Html) -> (usize, usize) {
    let cautions = select(page, "main .caution, main .caution-line").into_iter().map(words).sum();
    (cautions, words(select(page, "main")[0]))
}

#[test]
fn a_schemes_page_is_a_recipe_and_not_a_leaflet() {
    let mut schemes = 0;
    for (path, page) in pages(site()) {
        if path.strip_prefix("schemes/").is_some_and(|name| !name.contains('/')) {
            let (cautions, all) = cautions(&page);
            assert!(cautions * 100 <= all * MOST_CAUTIONS, "{cautions} of {all} words of {path} are cautions");
            schemes += 1;
        }
    }
    assert_eq!(schemes, 10, "five schemes, two variants, and another way for each look of the levies");
}

/// What stands on the first screen of a step's page: where its parts end, and where two lines of the instruction do.
const FIRST_SCREEN: &str = "const end = of => document.querySelector(of)?.getBoundingClientRect().bottom ?? 0;
    const telling = document.querySelector('.telling');
    const lines = telling ? telling.getBoundingClientRect().top + 2 * parseFloat(getComputedStyle(telling).lineHeight) : 0;
    return [Math.max(end('.caution-line'), end('.mix'), end('.row'), lines),
        document.querySelector('.bar').getBoundingClientRect().top, document.documentElement.scrollWidth];";

/// What is read first on the page of a step, and what pictures it has.
fn first_words(page: &Path) -> Vec<String> {
    let page = Html::parse_document(&std::fs::read_to_string(page).unwrap());
    let first = select(&page, "h1, .caution-line, .mix, .row, .telling, .step-side img, .step-side figcaption");
    first.into_iter().map(|element| element.text().chain(element.attr("width")).collect()).collect()
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn everything_that_one_needs_first_is_on_one_screen_of_the_desk() {
    in_browser(async |browser, site| {
        let steps: Vec<String> = files_below(&site.join("schemes"))
            .into_keys()
            .filter(|path| path.matches('/').count() == 1 && path.split('.').next_back() == Some("html"))
            .filter(|path| path.split('/').nth(1).is_some_and(|name| name.starts_with(|c: char| c.is_ascii_digit())))
            .collect();
        assert!(steps.len() > 60, "the steps of the demo guide: {steps:?}");
        // Versions share most of their steps: what reads the same is measured once.
        let mut read = BTreeSet::new();
        let differs = |step: &&String| read.insert(first_words(&site.join("schemes").join(step)));
        let steps: Vec<&String> = steps.iter().filter(differs).collect();
        assert!(steps.len() > 60, "{steps:?}");
        for step in steps {
            browser.open(site, &format!("schemes/{step}"), 390, false).await?;
            for (width, height) in [(390, 844), (1024, 768)] {
                let metrics = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
                browser.command("Emulation.setDeviceMetricsOverride", metrics).await?;
                let places = browser.ask(FIRST_SCREEN).await?;
                let [needed, bar, wide] = [0, 1, 2].map(|at| places[at].as_f64().unwrap());
                assert!(
                    needed <= bar,
                    "{step} at {width} × {height}: {needed} is under the bar, which begins at {bar}"
                );
                assert!(wide <= f64::from(width), "{step} is {wide} wide at {width}");
            }
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn the_mix_of_every_step_comes_soon() {
    in_browser(async |browser, site| {
        browser.open(site, "schemes/fen-warden.html", 1280, false).await?;
        let late = "return [...document.querySelectorAll('.step:has(.mix)')].map(step => [step.id,
            step.querySelector('.mix').getBoundingClientRect().top - step.getBoundingClientRect().top]).filter(([, top]) => top > 640)";
        assert_eq!(browser.ask(late).await?, json!([]), "the mix comes late on the scheme's page");
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn waits_stand_in_line_and_the_instruction_ends_above_the_bar() {
    const WAITS: &str = "const places = [...document.querySelectorAll('.row-wait')].map(wait => {\
        const place = wait.getBoundingClientRect();\
        return [place.top, place.bottom, (place.top + place.bottom) / 2]; });\
        return [places, document.querySelector('.telling').getBoundingClientRect().top];";
    const END: &str = "return [document.querySelector('.telling > h2').previousElementSibling\
        .getBoundingClientRect().bottom, document.querySelector('.bar').getBoundingClientRect().top];";
    in_browser(async |browser, site| {
        browser.open(site, "schemes/heron-rider/15-grey-start.html", 390, false).await?;
        let places = browser.ask(WAITS).await?;
        let of = |wait: usize, at: usize| places[0][wait][at].as_f64().unwrap();
        assert!(of(0, 1) > of(1, 0), "both stand in one line: {places}");
        assert!((of(0, 2) - of(1, 2)).abs() < 2.0, "one wait is lower than the other: {places}");
        assert!(of(0, 1) < places[1].as_f64().unwrap(), "a wait touches the instruction: {places}");
        browser.open(site, "schemes/fen-warden/50-amber-shell.html", 1440, false).await?;
        let places = browser.ask(END).await?;
        let [end, bar] = [0, 1].map(|at| places[at].as_f64().unwrap());
        assert!(end < bar, "the instruction ends at {end} under the bar at {bar}");
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn no_printed_page_ends_with_a_torn_off_sheet() {
    const PAPER: [(&str, usize); 4] = [
        ("schemes/fen-warden.html", 16),
        ("schemes/heron-rider.html", 13),
        ("paints/clear-amber.html", 1),
        ("armies/fen-watch.html", 16),
    ];
    in_browser(async |browser, site| {
        for (page, most) in PAPER {
            browser.open(site, page, 1000, false).await?;
            let paper = json!({ "paperWidth": 8.27, "paperHeight": 11.69, "preferCSSPageSize": true });
            let printed = browser.command("Page.printToPDF", paper).await?;
            let pdf = STANDARD.decode(printed["data"].as_str().unwrap()).unwrap();
            let sheets = pdf.windows(12).filter(|part| part.starts_with(b"/Type /Page") && part[11] != b's').count();
            assert!(sheets > 0 && sheets <= most, "{page} takes {sheets} sheets");
        }
        Ok(())
    });
}
