//! A scheme in the club room without network: kept once opened, renewed whole, never a mix of two versions.

use std::fs;
use std::time::Duration;

use serde_json::json;
use thirtyfour::prelude::*;

use crate::driver::{Browser, Published, with_reader};

const SCHEME: &str = "schemes/fen-warden.html";
const STEP: &str = "schemes/fen-warden/50-amber-shell.html";
const IS_KEPT: &str = "document.querySelector('[data-offline]').textContent.startsWith('Kept')";

/// Every file in every cache of the guide that is not, byte for byte, the one of its list; and how many there are.
const MIXED: &str = "return (async () => {
  const names = await caches.keys(), wrong = [];
  let count = 0;
  for (const name of names) {
    const cache = await caches.open(name);
    for (const { url } of await cache.keys()) {
      if (!url.includes('/data/kept/')) continue;
      const { version, files } = await (await cache.match(url)).json();
      if (!name.endsWith(' ' + version)) wrong.push(url);
      const root = url.split('data/kept/')[0];
      for (const [path, hash] of Object.entries(files)) {
        const bytes = await (await cache.match(root + path.split('/').map(encodeURIComponent).join('/'))).arrayBuffer();
        const own = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))].map(b => b.toString(16).padStart(2, '0')).join('');
        if (own !== hash) wrong.push(path);
        count += 1;
      }
    }
  }
  return { caches: names.length, wrong, count };
})()";

async fn keep(browser: &Browser, published: &Published) -> WebDriverResult<String> {
    let way = published.host.address();
    browser.goto(&format!("{way}{SCHEME}")).await?;
    browser.wait(IS_KEPT).await?;
    let state = browser.ask(MIXED).await?;
    assert_eq!(state["wrong"], json!([]));
    assert_eq!(state["caches"], 1);
    assert!(state["count"].as_u64().unwrap() > 30, "{state}");
    Ok(way)
}

async fn rest() {
    tokio::time::sleep(Duration::from_millis(700)).await;
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_scheme_that_was_opened_opens_without_network() {
    with_reader(async |browser, published| {
        let way = keep(browser, published).await?;
        published.host.set_down(true);
        for page in [SCHEME, STEP, "schemes/fen-warden/shopping.html"] {
            browser.goto(&format!("{way}{page}")).await?;
            let broken = "return Promise.all([...document.images].map(i => { i.loading = 'eager'; return i.decode().then(() => 0, () => i.src); })).then(all => all.filter(Boolean))";
            assert_eq!(browser.ask(broken).await?, json!([]), "pictures missing on {page}");
            assert_eq!(browser.text("getComputedStyle(document.body).fontFamily.includes('Atkinson')").await?, "true");
            assert_eq!(browser.text("[...document.fonts].some(f => f.status === 'loaded')").await?, "true");
        }
        browser.goto(&format!("{way}{STEP}")).await?;
        browser.click(".ticks-all input").await?;
        browser.wait("document.querySelector('.strip-tick')").await?;
        // What is not kept leads to the page that says what is.
        browser.goto(&format!("{way}paints/bog-iron.html")).await?;
        browser.wait("location.pathname === '/fen/device.html'").await?;
        browser.wait("document.querySelector('[data-kept] a')").await?;
        browser.click("[data-kept] a").await?;
        browser.wait("document.title.startsWith('Fen warden')").await?;
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_scheme_that_was_let_go_is_not_kept_again_unasked() {
    with_reader(async |browser, published| {
        let way = keep(browser, published).await?;
        browser.click("[data-drop]").await?;
        browser.wait("document.querySelector('[data-offline]').textContent === 'Not kept on this device.'").await?;
        browser.driver.refresh().await?;
        rest().await;
        let count = browser.ask("return caches.keys().then(names => Promise.all(names.map(async name => (await (await caches.open(name)).keys()).length)))").await?;
        assert_eq!(count, json!([0]));
        browser.wait("document.querySelector('[data-offline]').textContent === 'Not kept on this device.'").await?;
        browser.click("[data-keep]").await?;
        browser.wait(IS_KEPT).await?;
        published.host.set_down(true);
        browser.goto(&format!("{way}{STEP}")).await?;
        assert!(browser.driver.title().await?.contains("Amber"));
        Ok(())
    });
}

/// Changes a text, a picture's words and the style, so that a mix of the two versions would show.
fn change(published: &Published) {
    published.bench.replace(
        "content/schemes/fen-warden/50-amber-shell.md",
        "title: Amber in five thin coats",
        "title: Amber, newly told",
    );
    let style = concat!(env!("CARGO_MANIFEST_DIR"), "/themes/chart/style/chart.css");
    let style = fs::read_to_string(style).unwrap() + ":root { --version: two; }";
    published.bench.write("themes/chart/style/chart.css", style);
    published.publish();
}

/// The title and the style of the page that is open.
async fn versions(browser: &Browser) -> WebDriverResult<(bool, bool)> {
    let title = browser.text("document.querySelector('h1').lastChild.textContent").await?;
    let style = browser.text("getComputedStyle(document.documentElement).getPropertyValue('--version')").await?;
    Ok((title == "Amber, newly told", style.trim() == "two"))
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_new_version_comes_whole_when_the_reader_says_so() {
    with_reader(async |browser, published| {
        let way = keep(browser, published).await?;
        browser.goto(&format!("{way}{STEP}")).await?;
        assert_eq!(versions(browser).await?, (false, false));
        change(published);
        browser.goto(&format!("{way}{STEP}")).await?;
        assert_eq!(versions(browser).await?, (false, false), "a page of two versions");
        browser.wait("document.querySelector('.newer button')").await?;
        assert_eq!(browser.ask(MIXED).await?["wrong"], json!([]));
        // Until then every page is of the old version, with network and without.
        published.host.set_down(true);
        browser.goto(&format!("{way}{STEP}")).await?;
        assert_eq!(versions(browser).await?, (false, false));
        browser.wait("document.querySelector('.newer button')").await?;
        browser.click(".newer button").await?;
        browser.wait("document.querySelector('h1').lastChild.textContent === 'Amber, newly told'").await?;
        assert_eq!(versions(browser).await?, (true, true));
        browser.wait("document.querySelector('.newer') === null").await?;
        let state = browser.ask(MIXED).await?;
        assert_eq!((&state["wrong"], &state["caches"]), (&json!([]), &json!(1)), "the old version is still there");
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_host_that_is_half_way_through_gives_nothing_of_the_new_version() {
    with_reader(async |browser, published| {
        let way = keep(browser, published).await?;
        // The browser asks for a new version by itself whenever it likes: the old page stands in the way from the start.
        let old = fs::read(published.site().join("schemes/fen-warden/60-reed-cloth.html")).unwrap();
        published.host.set_instead("schemes/fen-warden/60-reed-cloth.html", Some(old));
        published.bench.replace("content/schemes/fen-warden/60-reed-cloth.md", "title: ", "title: New ");
        change(published);
        browser.goto(&format!("{way}{STEP}")).await?;
        for _ in 0..3 {
            rest().await;
            assert_eq!(versions(browser).await?, (false, false));
            browser.driver.refresh().await?;
        }
        assert_eq!(
            browser.text("document.querySelector('.newer') === null").await?,
            "true",
            "half a version is offered"
        );
        let state = browser.ask(MIXED).await?;
        assert_eq!(state["wrong"], json!([]));
        published.host.set_instead("schemes/fen-warden/60-reed-cloth.html", None);
        browser.driver.refresh().await?;
        browser.wait("document.querySelector('.newer button')").await?;
        browser.click(".newer button").await?;
        browser.wait("document.querySelector('h1').lastChild.textContent === 'Amber, newly told'").await?;
        assert_eq!(versions(browser).await?, (true, true));
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn nothing_is_kept_by_double_click_and_the_guide_can_be_put_on_a_home_screen() {
    with_reader(async |browser, published| {
        browser.goto(&format!("file://{}/{SCHEME}", published.site().display())).await?;
        rest().await;
        assert_eq!(browser.text("document.querySelector('.offline').hidden").await?, "true");
        browser.goto(&format!("{}{SCHEME}", published.host.address())).await?;
        browser.wait("document.querySelector('link[rel=manifest]')").await?;
        let manifest = browser.command("Page.getAppManifest", json!({})).await?;
        assert_eq!(manifest["errors"], json!([]));
        let data: serde_json::Value = serde_json::from_str(manifest["data"].as_str().unwrap()).unwrap();
        assert_eq!(data["name"], "The Lantern Fen Painting Book");
        for icon in data["icons"].as_array().unwrap() {
            assert!(published.site().join(icon["src"].as_str().unwrap()).exists(), "{icon}");
        }
        let start = manifest["manifest"]["startUrl"].as_str().unwrap_or_default();
        assert!(start.is_empty() || start.ends_with("/fen/index.html"), "{start}");
        Ok(())
    });
}
