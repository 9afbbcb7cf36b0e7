//! For every reader: axe-core on every kind of page, keys alone, large letters, forced colours, no motion.

use std::fs;

use serde_json::{Value, json};
use thirtyfour::prelude::*;

use crate::driver::{Browser, PAGES, with_reader};

/// Runs axe-core; what can't be decided by a program is not counted, what is broken is.
const AXE: &str = "return axe.run(document, { preload: false, resultTypes: ['violations'],
  runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
  .then(found => found.violations.map(one => one.id + ': ' + one.nodes.map(node => node.target.join(' ')).slice(0, 5).join(', ')));";

fn axe() -> String {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/tools/node_modules/axe-core/axe.min.js");
    fs::read_to_string(file).expect("axe-core is not installed; tests/run.sh brings it")
}

async fn violations(browser: &Browser, axe: &str) -> WebDriverResult<Value> {
    // Everything that opens is open, so that it is looked at too.
    browser.ask("document.querySelectorAll('details').forEach(e => { e.open = true; })").await?;
    browser.ask(axe).await?;
    browser.ask(AXE).await
}

#[test]
#[ignore = "needs chromium, chromedriver and axe-core; tests/run.sh brings them"]
fn axe_finds_nothing_on_any_kind_of_page() {
    let axe = axe();
    with_reader(async |browser, published| {
        let mut faults = Vec::new();
        for page in PAGES {
            for (width, dark) in [(1280, false), (1280, true), (320, false), (320, true)] {
                browser.open(&published.site(), page, width, dark).await?;
                let found = violations(browser, &axe).await?;
                for fault in found.as_array().unwrap() {
                    faults.push(format!("{page} at {width}, dark {dark}: {fault}"));
                }
            }
        }
        // A host shows this page; its links begin at the guide's own address.
        browser.goto(&format!("{}404.html", published.host.address())).await?;
        faults.extend(violations(browser, &axe).await?.as_array().unwrap().iter().map(Value::to_string));
        assert!(faults.is_empty(), "{}", faults.join("\n"));
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium, chromedriver and axe-core; tests/run.sh brings them"]
fn axe_finds_nothing_on_pages_in_use() {
    let axe = axe();
    with_reader(async |browser, published| {
        for dark in [false, true] {
            browser.open(&published.site(), "schemes/heron-rider.html", 390, dark).await?;
            browser.write(".progress input", "3").await?;
            browser.click(".ticks-model input").await?;
            browser.click("[data-for='dry'] .timer-start").await?;
            assert_eq!(violations(browser, &axe).await?, json!([]), "scheme, dark {dark}");
            browser.open(&published.site(), "schemes/heron-rider/40-peat-wash.html", 390, dark).await?;
            assert_eq!(violations(browser, &axe).await?, json!([]), "desk, dark {dark}");
            browser.open(&published.site(), "search.html#amber", 390, dark).await?;
            browser.wait("document.querySelector('.found a')").await?;
            assert_eq!(violations(browser, &axe).await?, json!([]), "search, dark {dark}");
            browser.open(&published.site(), "search.html", 390, dark).await?;
            browser.click(".timers-fold").await?;
            assert_eq!(violations(browser, &axe).await?, json!([]), "timers, dark {dark}");
            browser.click(".timer button").await?;
        }
        Ok(())
    });
}

/// Presses Tab until an element that fits a selector has the focus; it must be seen there.
async fn tab_to(browser: &Browser, selector: &str) -> WebDriverResult<()> {
    for _ in 0..200 {
        browser.press(Key::Tab).await?;
        if browser.text(&format!("document.activeElement.matches(\"{selector}\")")).await? == "true" {
            let seen = "(() => { const e = document.activeElement, box = e.getBoundingClientRect(), style = getComputedStyle(e);
                const at = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
                return style.outlineStyle !== 'none' && at && (e.contains(at) || at.contains(e) || at.closest('label')?.contains(e)); })()";
            browser.wait(seen).await?;
            return Ok(());
        }
    }
    panic!("no key leads to {selector}");
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn keys_alone_lead_from_the_index_to_a_ticked_step() {
    with_reader(async |browser, published| {
        browser.open(&published.site(), "index.html", 1280, false).await?;
        tab_to(browser, ".skip").await?;
        tab_to(browser, ".head-more summary").await?;
        browser.press(Key::Enter).await?;
        tab_to(browser, ".head-more a[href='pages/about-the-club.html']").await?;
        // What lies over the page closes by its key and gives the focus back; and it closes when one goes on.
        browser.press(Key::Escape).await?;
        browser
            .wait("!document.querySelector('.head-more[open]') && document.activeElement.closest('.head-more summary')")
            .await?;
        browser.press(Key::Enter).await?;
        browser.wait("document.querySelector('.head-more[open]')").await?;
        tab_to(browser, ".card-title a[href='schemes/heron-rider.html']").await?;
        browser.wait("!document.querySelector('.head-more[open]')").await?;
        browser.press(Key::Enter).await?;
        browser.wait("location.pathname.endsWith('heron-rider.html')").await?;
        tab_to(browser, "input[data-models]").await?;
        browser.press(Key::Up).await?;
        browser.wait("document.querySelector('.ticks-model')").await?;
        tab_to(browser, "[data-timer] button").await?;
        browser.press(Key::Enter).await?;
        browser.wait("document.querySelectorAll('.timer').length === 1").await?;
        tab_to(browser, ".step-desk a").await?;
        browser.press(Key::Enter).await?;
        browser.wait("document.body.classList.contains('desk')").await?;
        tab_to(browser, ".ticks-all input").await?;
        browser.press(" ").await?;
        browser.wait("document.querySelector('.strip-tick')").await?;
        tab_to(browser, ".timer button").await?;
        browser.press(Key::Enter).await?;
        browser.wait("document.querySelector('.timers').hidden").await?;
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn pages_in_use_fit_at_two_hundred_per_cent() {
    with_reader(async |browser, published| {
        browser.open(&published.site(), "schemes/heron-rider.html", 1280, false).await?;
        browser.click("[data-for='dry'] .timer-start").await?;
        for page in PAGES {
            // A window of 1280 at 200 % has 640 pixels of CSS, two dots each; 320 is the same at 400 %.
            for (width, dots) in [(640, 2), (320, 4)] {
                browser.open(&published.site(), page, width, false).await?;
                let metrics = json!({ "width": width, "height": 450, "deviceScaleFactor": dots, "mobile": false });
                browser.command("Emulation.setDeviceMetricsOverride", metrics).await?;
                let over = browser
                    .ask("return document.documentElement.scrollWidth - document.documentElement.clientWidth")
                    .await?;
                assert!(over.as_i64().is_some_and(|over| over <= 0), "{page} is too wide at {width}: {over}");
                let bar = browser.text("document.querySelector('.timers').offsetHeight / innerHeight < 0.5").await?;
                assert_eq!(bar, "true", "the timers hide {page} at {width}");
            }
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn forced_colours_show_what_is_ticked_and_nothing_moves_for_those_who_ask() {
    with_reader(async |browser, published| {
        let way = &published.ways()[0];
        browser.goto(&format!("{way}schemes/heron-rider.html")).await?;
        let wanted = json!({ "features": [{ "name": "forced-colors", "value": "active" }, { "name": "prefers-reduced-motion", "value": "reduce" }] });
        browser.command("Emulation.setEmulatedMedia", wanted).await?;
        browser.wait("matchMedia('(forced-colors: active)').matches").await?;
        let look = "getComputedStyle(document.querySelector('.ticks-all input'), '::before').backgroundColor";
        let before = browser.text(look).await?;
        browser.click(".ticks-all input").await?;
        assert_ne!(browser.text(look).await?, before);
        let moving = "return document.getAnimations().length + [...document.querySelectorAll('*')].filter(e => getComputedStyle(e).transitionDuration !== '0s').length";
        assert_eq!(browser.ask(moving).await?, 0);
        assert_eq!(browser.text("getComputedStyle(document.documentElement).scrollBehavior").await?, "auto");
        Ok(())
    });
}
