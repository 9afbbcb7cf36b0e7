//! The recipe comes first: how much of a page is cautions, and how soon the mix and the instruction come.

use scraper::{ElementRef, Html};
use serde_json::json;

use crate::driver::in_browser;
use crate::site::{pages, select, site};

/// At most such a share of a scheme's page is cautions, by words, in per cent. The aim is 15.
const MOST_CAUTIONS: usize = 17;

/// The words of an element as a reader sees them: no script, no drawing.
fn words(element: ElementRef<'_>) -> usize {
    let drawn = |at: ElementRef<'_>| {
        at.ancestors().filter_map(ElementRef::wrap).chain([at]).any(|e| matches!(e.value().name(), "svg" | "script"))
    };
    let texts =
        element.descendants().filter_map(|node| Some((node.value().as_text()?, ElementRef::wrap(node.parent()?)?)));
    texts.filter(|(_, at)| !drawn(*at)).map(|(text, _)| text.split_whitespace().count()).sum()
}

fn share(page: &Html) -> usize {
    let main = select(page, "main")[0];
    let cautions: usize = select(page, "main .caution, main .caution-line").into_iter().map(words).sum();
    cautions * 100 / words(main).max(1)
}

#[test]
fn a_schemes_page_is_a_recipe_and_not_a_leaflet() {
    let mut schemes = 0;
    for (path, page) in pages(site()) {
        if path.strip_prefix("schemes/").is_some_and(|name| !name.contains('/')) {
            assert!(share(&page) <= MOST_CAUTIONS, "{} % of {path} is cautions", share(&page));
            schemes += 1;
        }
    }
    assert_eq!(schemes, 7, "five schemes, a variant and another way");
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn the_mix_of_every_step_comes_soon() {
    in_browser(async |browser, site| {
        browser.open(site, "schemes/fen-warden.html", 1280, false).await?;
        let late = "return [...document.querySelectorAll('.step:has(.mix)')].map(step => [step.id,
            step.querySelector('.mix').getBoundingClientRect().top - step.getBoundingClientRect().top]).filter(([, top]) => top > 640)";
        assert_eq!(browser.ask(late).await?, json!([]), "the mix comes late on the scheme's page");
        let steps =
            browser.ask("return [...document.querySelectorAll('.step:has(.mix)')].map(step => step.id)").await?;
        for step in steps.as_array().unwrap() {
            let step = step.as_str().unwrap();
            browser.open(site, &format!("schemes/fen-warden/{step}.html"), 390, false).await?;
            let metrics = json!({ "width": 390, "height": 844, "deviceScaleFactor": 1, "mobile": false });
            browser.command("Emulation.setDeviceMetricsOverride", metrics).await?;
            let places = "return [document.querySelector('.mix').getBoundingClientRect().bottom,
                document.querySelector('.telling').getBoundingClientRect().top]";
            let places = browser.ask(places).await?;
            let (mix, telling) = (places[0].as_f64().unwrap(), places[1].as_f64().unwrap());
            assert!(
                mix <= 844.0 && telling <= 1.5 * 844.0,
                "{step}: the mix ends at {mix}, the instruction begins at {telling}"
            );
            // On a tablet that lies flat, what to do, the mix and the coats stand above the bar, and the instruction begins.
            let metrics = json!({ "width": 1024, "height": 768, "deviceScaleFactor": 1, "mobile": false });
            browser.command("Emulation.setDeviceMetricsOverride", metrics).await?;
            let room = "const end = document.querySelector('.bar').getBoundingClientRect().top;
                return [document.querySelector('.row').getBoundingClientRect().bottom - end,
                    document.querySelector('.telling').getBoundingClientRect().top - end]";
            let room = browser.ask(room).await?;
            let [row, telling] = [0, 1].map(|at| room[at].as_f64().unwrap());
            assert!(row <= 0.0 && telling <= 0.0, "{step}: {row} and {telling} below the bar at 1024 × 768");
        }
        Ok(())
    });
}
