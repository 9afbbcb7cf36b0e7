//! What a reader ticks and marks: clicked for real, with and without script, from disk and from a web host.

use std::fs;
use std::time::Duration;

use serde_json::{Value, json};
use thirtyfour::prelude::*;

use crate::driver::{Browser, with_reader};

const SCHEME: &str = "schemes/heron-rider.html";
const STEP: &str = "schemes/heron-rider/25-red-cloak.html";

/// The tick box of a step on its scheme's page or on its own.
const TICK: &str = ".ticks[data-step='25-red-cloak'] .ticks-all input";

async fn is_checked(browser: &Browser, selector: &str) -> WebDriverResult<bool> {
    Ok(browser.ask(&format!("return document.querySelector(\"{selector}\").checked")).await? == true)
}

async fn set_models(browser: &Browser, models: u32) -> WebDriverResult<()> {
    browser.write(".progress input", &models.to_string()).await
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn ticks_are_there_after_a_reload_and_on_the_other_page() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}{SCHEME}")).await?;
            assert!(!is_checked(browser, TICK).await?);
            browser.click(TICK).await?;
            browser.driver.refresh().await?;
            assert!(is_checked(browser, TICK).await?, "{way}: a reload lost a tick");
            assert_eq!(
                browser.text("document.querySelector('[data-progress]').textContent").await?,
                "1 of 15 steps done"
            );
            browser.goto(&format!("{way}{STEP}")).await?;
            assert!(is_checked(browser, TICK).await?, "{way}: the desk does not know the tick");
            assert_eq!(browser.text("document.querySelectorAll('.strip-tick').length").await?, "1");
            browser.goto(&format!("{way}schemes/fen-warden.html")).await?;
            assert_eq!(browser.text("document.querySelectorAll('.ticks input:checked').length").await?, "0");
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn models_are_ticked_one_by_one() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}{SCHEME}")).await?;
            set_models(browser, 3).await?;
            browser.click(".ticks[data-step='25-red-cloak'] .ticks-model:nth-child(2) input").await?;
            assert_eq!(browser.text(&format!("document.querySelector(\"{TICK}\").indeterminate")).await?, "true");
            let said = "document.querySelector(\".ticks[data-step='25-red-cloak'] .ticks-all span\").textContent";
            assert_eq!(browser.text(said).await?, "1 of 3 done");
            browser.click(".ticks[data-step='25-red-cloak'] .ticks-model:nth-child(1) input").await?;
            browser.click(".ticks[data-step='25-red-cloak'] .ticks-model:nth-child(3) input").await?;
            assert!(is_checked(browser, TICK).await?);
            browser.driver.refresh().await?;
            assert!(is_checked(browser, TICK).await?);
            let together = "document.querySelectorAll(\".ticks[data-together] .ticks-model\").length";
            assert_eq!(browser.text(together).await?, "0", "what is done in one go is ticked once");
            set_models(browser, 4).await?;
            browser.wait(&format!("{said} === '3 of 4 done'")).await?;
            // What is ticked as a whole stays done whatever their number is.
            browser.click(TICK).await?;
            set_models(browser, 5).await?;
            browser.wait("document.querySelectorAll(\".ticks[data-step='25-red-cloak'] .ticks-model input:checked\").length === 5").await?;
            browser.click(".ticks[data-step='25-red-cloak'] .ticks-model:nth-child(5) input").await?;
            browser.wait(&format!("{said} === '4 of 5 done'")).await?;
            // So many models get a number to count by.
            set_models(browser, 60).await?;
            browser.wait("document.querySelector('.ticks-each .models input')").await?;
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn the_number_that_nobody_chose_counts_like_a_chosen_one() {
    with_reader(async |browser, published| {
        let boxes = "document.querySelectorAll(\".ticks[data-step='25-red-cloak'] .ticks-model\").length";
        for way in published.ways() {
            // So many has the army that the scheme is painted for, at a step without a mix too.
            browser.goto(&format!("{way}schemes/heron-rider/80-matt-all.html")).await?;
            browser.wait("Maulstick.state().models === 6").await?;
            browser.goto(&format!("{way}schemes/heron-rider/10-get-ready.html")).await?;
            browser.wait("Maulstick.state().models === 6").await?;
            browser.goto(&format!("{way}{STEP}")).await?;
            assert_eq!(browser.text(boxes).await?, "6");
            browser.click(TICK).await?;
            browser.goto(&format!("{way}{SCHEME}")).await?;
            for models in [18, 5, 18] {
                set_models(browser, models).await?;
                browser.wait(&format!("{boxes} === {models}")).await?;
                assert!(is_checked(browser, TICK).await?, "{way}: done is lost at {models} models");
            }
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn two_tabs_agree() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}{SCHEME}")).await?;
            let first = browser.driver.window().await?;
            let second = browser.driver.new_tab().await?;
            browser.driver.switch_to_window(second).await?;
            browser.goto(&format!("{way}{STEP}")).await?;
            browser.click(TICK).await?;
            browser.driver.switch_to_window(first.clone()).await?;
            browser.wait(&format!("document.querySelector(\"{TICK}\").checked")).await?;
            browser.click(".ticks[data-step='10-get-ready'] .ticks-all input").await?;
            let handles = browser.driver.windows().await?;
            browser.driver.switch_to_window(handles.last().unwrap().clone()).await?;
            browser.wait("document.querySelectorAll('.strip-tick').length === 2").await?;
            browser.driver.close_window().await?;
            browser.driver.switch_to_window(first).await?;
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_paint_that_is_there_is_there_on_every_page() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}paints/index.html")).await?;
            browser.click("[data-have='clear-amber']").await?;
            browser.goto(&format!("{way}paints/clear-amber.html")).await?;
            assert!(is_checked(browser, "[data-have='clear-amber']").await?);
            browser.goto(&format!("{way}schemes/fen-warden/shopping.html")).await?;
            assert!(is_checked(browser, "[data-have='clear-amber']").await?);
            browser.click("[data-have='clear-amber']").await?;
            browser.goto(&format!("{way}paints/index.html")).await?;
            assert!(!is_checked(browser, "[data-have='clear-amber']").await?);
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_reader_of_an_older_version_is_told_what_changed() {
    with_reader(async |browser, published| {
        let told =
            "[...document.querySelectorAll('.news:not([hidden]) li:not([hidden])')].map(one => one.textContent).join()";
        for way in published.ways() {
            browser.goto(&format!("{way}{SCHEME}")).await?;
            assert_eq!(browser.text(told).await?, "", "{way}: news for somebody who comes for the first time");
            // As a browser that was here before the cloak changed.
            browser.ask("Maulstick.change('seen', all => { all['heron-rider'] = '2026-10-17'; })").await?;
            browser.driver.refresh().await?;
            assert!(browser.text(told).await?.contains("Rowanberry cloak: The cloak gets a third coat"));
            browser.driver.refresh().await?;
            assert!(browser.text(told).await?.contains("third coat"), "{way}: it stands until it is read");
            browser.click(".news button").await?;
            browser.driver.refresh().await?;
            assert_eq!(browser.text(told).await?, "");
        }
        Ok(())
    });
}

/// Saves the marks to a file on the page about this device, and gives its text.
async fn save(browser: &Browser, folder: &std::path::Path) -> WebDriverResult<String> {
    let wanted = json!({ "behavior": "allow", "downloadPath": folder });
    browser.command("Browser.setDownloadBehavior", wanted).await?;
    browser.click("[data-save]").await?;
    let file = folder.join("the-lantern-fen-painting-book-marks.json");
    for _ in 0..100 {
        if let Ok(text) = fs::read_to_string(&file)
            && !text.is_empty()
        {
            return Ok(text);
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("{} was not saved", file.display());
}

async fn read(browser: &Browser, file: &std::path::Path, text: &str) -> WebDriverResult<String> {
    fs::write(file, text).unwrap();
    browser.ask("document.querySelector('[data-said]').textContent = ''").await?;
    browser.driver.find(By::Css("[data-read]")).await?.send_keys(file.display().to_string()).await?;
    browser.wait("document.querySelector('[data-said]').textContent").await?;
    browser.text("document.querySelector('[data-said]').textContent").await
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn marks_travel_in_a_file() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            let folder = tempfile::tempdir().unwrap();
            browser.goto(&format!("{way}{SCHEME}")).await?;
            set_models(browser, 2).await?;
            browser.click(TICK).await?;
            browser.goto(&format!("{way}paints/bog-iron.html")).await?;
            browser.click("[data-have='bog-iron']").await?;
            browser.goto(&format!("{way}device.html")).await?;
            let text = save(browser, folder.path()).await?;
            let saved: Value = serde_json::from_str(&text).unwrap();
            assert_eq!(saved["have"], json!(["bog-iron"]));
            assert_eq!(saved["schemes"]["heron-rider"]["models"], 2);
            assert_eq!(saved["schemes"]["heron-rider"]["done"], json!({ "25-red-cloak": [0, 1, 2] }));
            browser.click("[data-forget]").await?;
            browser.driver.accept_alert().await?;
            browser.goto(&format!("{way}{SCHEME}")).await?;
            assert!(!is_checked(browser, TICK).await?);
            browser.goto(&format!("{way}device.html")).await?;
            let file = folder.path().join("marks.json");
            let said = read(browser, &file, &text).await?;
            assert_eq!(said, "Read. Steps with ticks: 1. Paints that you have: 1.");
            browser.goto(&format!("{way}{SCHEME}")).await?;
            assert!(is_checked(browser, TICK).await?);
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_wrong_file_changes_nothing_and_is_told_plainly() {
    with_reader(async |browser, published| {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("marks.json");
        let way = &published.ways()[0];
        browser.goto(&format!("{way}{SCHEME}")).await?;
        browser.click(TICK).await?;
        browser.goto(&format!("{way}device.html")).await?;
        let guide = "The Lantern Fen Painting Book";
        let cases = [
            ("no JSON at all".to_owned(), "This is not a file of marks. Nothing was changed."),
            ("[1, 2]".to_owned(), "This is not a file of marks. Nothing was changed."),
            ("null".to_owned(), "This is not a file of marks. Nothing was changed."),
            (
                json!({ "format": "maulstick-marks", "version": 99, "guide": guide, "have": [], "schemes": {} }).to_string(),
                "This file comes from a newer version of the guide. Reload the page and try again. Nothing was changed.",
            ),
            (
                json!({ "format": "maulstick-marks", "version": 1, "guide": "<b>Elsewhere</b>", "have": [], "schemes": {} })
                    .to_string(),
                "This file belongs to another guide: <b>Elsewhere</b>. Nothing was changed.",
            ),
        ];
        for (text, wanted) in cases {
            assert_eq!(read(browser, &file, &text).await?, wanted, "{text}");
        }
        // What is wrong inside a file of marks is left out.
        let odd = json!({ "format": "maulstick-marks", "version": 1, "guide": guide, "have": ["bog-iron", 7, null],
            "schemes": { "heron-rider": { "models": -4, "done": { "25-red-cloak": [1, "x", 1, 0.5], "b": 3 }, "boxes": 5 } } });
        let said = read(browser, &file, &odd.to_string()).await?;
        assert_eq!(said, "Read. Steps with ticks: 1. Paints that you have: 1.");
        browser.goto(&format!("{way}{SCHEME}")).await?;
        assert!(is_checked(browser, TICK).await?);
        // So many has the army that the scheme is painted for.
        assert_eq!(browser.text("document.querySelector('.progress input').value").await?, "6");
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn without_script_nothing_is_shown_that_needs_it() {
    with_reader(async |browser, published| {
        browser.block_scripts(true).await?;
        for way in published.ways() {
            for page in crate::driver::PAGES {
                browser.driver.goto(format!("{way}{page}")).await?;
                let shown = "return [...document.querySelectorAll('.ticks, .have, .progress, .models, .timers, .timer-start, \
                    .sieve, .search, .device, .offline, .desk-help, button')].filter(e => e.checkVisibility()).map(e => e.className)";
                assert_eq!(browser.ask(shown).await?, json!([]), "{page}");
                assert!(browser.text("document.querySelector('main').innerText").await?.len() > 40, "{page} is empty");
            }
        }
        Ok(())
    });
}
