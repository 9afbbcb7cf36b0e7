//! The published pages in a real browser, opened as a reader opens them: by double click.

use serde_json::json;

use crate::driver::{PAGES, in_browser};

/// A wide window, a tablet, a phone, and the narrowest that pages must fit (WCAG 2.2, 1.4.10).
const WIDTHS: &[u32] = &[1280, 768, 390, 320];

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn every_page_fits_every_width_and_loads_all_it_needs() {
    in_browser(async |browser, site| {
        for page in PAGES {
            for width in WIDTHS {
                browser.open(site, page, *width, false).await?;
                let over = browser
                    .ask("return document.documentElement.scrollWidth - document.documentElement.clientWidth")
                    .await?;
                assert!(over.as_i64().is_some_and(|over| over <= 0), "{page} is too wide at {width}: {over}");
            }
            let broken = browser
                .ask("return [...document.images].filter(i => (i.loading = 'eager', i.complete) && i.naturalWidth === 0).map(i => i.src)")
                .await?;
            assert_eq!(broken, json!([]), "pictures missing on {page}");
            // A stand-in is a letter of the reader's own machine, which may have none of them.
            let fonts = browser
                .ask("return [...document.fonts].filter(f => f.status === 'error' && !f.family.includes('Stand-in')).map(f => f.family)")
                .await?;
            assert_eq!(fonts, json!([]), "fonts missing on {page}");
            let used = browser.ask("return [...document.fonts].filter(f => f.status === 'loaded').length").await?;
            assert!(used.as_u64().unwrap_or(0) >= 2, "no fonts in use on {page}: {used}");
        }
        Ok(())
    });
}

/// Letters twice as large (WCAG 2.2, 1.4.4), and every number of a maker as long as they get; then how much a page is wider
/// than its window.
const LARGER: &str = "document.documentElement.style.fontSize = '200%';
document.querySelectorAll('.whole').forEach(whole => { whole.textContent = 'AW-2027-XPL-00000000017-MATT/FREE-REV.C'; });
return document.documentElement.scrollWidth - document.documentElement.clientWidth;";

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn large_letters_and_long_numbers_fit_a_phone() {
    in_browser(async |browser, site| {
        for page in PAGES {
            browser.open(site, page, 390, false).await?;
            let over = browser.ask(LARGER).await?;
            assert!(over.as_i64().is_some_and(|over| over <= 0), "{page} is too wide: {over}");
        }
        browser.open(site, "schemes/fen-warden/50-amber-shell.html", 390, false).await?;
        browser.ask(LARGER).await?;
        let narrow = browser
            .ask("return Math.min(...[...document.querySelectorAll('.mix-name')].map(name => name.clientWidth))")
            .await?;
        assert!(narrow.as_i64().is_some_and(|narrow| narrow >= 190), "a name of the mix has {narrow} px");
        let broken = browser
            .ask("return [...document.querySelectorAll('.thumb-word')].filter(word => word.textContent.split(' ').length * 50 < word.clientHeight).map(word => word.textContent)")
            .await?;
        assert_eq!(broken, json!([]), "words of the bar are broken");
        Ok(())
    });
}

/// The words in drawings that are under 14 px, and those that run out of the window.
const DRAWN_WORDS: &str = "return [...document.querySelectorAll('svg.ladder text, svg.film text')].filter(text => {
  const box = text.getBoundingClientRect(), svg = text.ownerSVGElement;
  const size = parseFloat(getComputedStyle(text).fontSize) * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  return box.width > 0 && (size < 14 || box.right > svg.getBoundingClientRect().right + 2);
}).map(text => text.textContent);";

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn words_in_drawings_can_be_read_on_every_screen_and_stay_inside() {
    in_browser(async |browser, site| {
        for width in [1280, 768, 390] {
            browser.open(site, "schemes/fen-warden/50-amber-shell.html", width, false).await?;
            assert!(browser.ask("return document.querySelectorAll('svg.ladder').length").await?.as_u64() > Some(0));
            assert_eq!(browser.ask(DRAWN_WORDS).await?, json!([]), "at {width}");
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn the_strict_policy_stops_nothing_that_a_page_needs() {
    in_browser(async |browser, site| {
        for page in PAGES {
            browser.open(site, page, 1280, false).await?;
            let sheets = browser.ask("return [...document.styleSheets].length").await?;
            assert!(sheets.as_u64().unwrap_or(0) >= 1, "no style on {page}");
            let asked = browser
                .ask("return performance.getEntriesByType('resource').map(e => e.name).filter(n => !n.startsWith('file:') && !n.startsWith('data:'))")
                .await?;
            assert_eq!(asked, json!([]), "{page} asks another host");
        }
        let log = browser.driver.get_log("browser").await.unwrap_or_default();
        let severe: Vec<String> =
            log.iter().map(|entry| format!("{entry:?}")).filter(|entry| entry.contains("SEVERE")).collect();
        assert!(severe.is_empty(), "{}", severe.join("\n"));
        Ok(())
    });
}

/// The lowest contrast of any visible text against what lies behind it, by WCAG 2.2's formula.
const LOWEST_CONTRAST: &str = r"
const channel = v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
const parse = c => (c.match(/[\d.]+/g) || [0, 0, 0, 0]).map(Number);
const light = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
const behind = e => {
  for (let n = e; n; n = n.parentElement) {
    const c = parse(getComputedStyle(n).backgroundColor);
    if (c.length < 4 || c[3] > 0.99) return c;
  }
  return [255, 255, 255];
};
let worst = [99, ''];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const text = walker.currentNode, e = text.parentElement;
  if (!text.data.trim() || !e.getClientRects().length || e.closest('svg, .skip')) continue;
  const style = getComputedStyle(e);
  if (style.visibility === 'hidden') continue;
  const [a, b] = [light(parse(style.color)), light(behind(e))];
  const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  const large = parseFloat(style.fontSize) >= 24 || (parseFloat(style.fontSize) >= 18.66 && style.fontWeight >= 700);
  const need = large ? 3 : 4.5;
  if (ratio / need < worst[0]) worst = [ratio / need, text.data.trim().slice(0, 40) + ' ' + ratio.toFixed(2)];
}
return worst;";

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn every_text_can_be_read_in_light_and_dark() {
    in_browser(async |browser, site| {
        for page in PAGES {
            for dark in [false, true] {
                browser.open(site, page, 1280, dark).await?;
                let worst = browser.ask(LOWEST_CONTRAST).await?;
                let ratio = worst[0].as_f64().unwrap_or(0.0);
                assert!(ratio >= 1.0, "{page}, dark {dark}: {worst}");
            }
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_single_file_opens_alone_and_asks_for_nothing() {
    let elsewhere = tempfile::tempdir().unwrap();
    in_browser(async |browser, site| {
        let guide = site.parent().unwrap();
        let mut again = std::process::Command::new(env!("CARGO_BIN_EXE_maulstick"));
        assert!(again.args(["publish", "--single"]).current_dir(guide).output().unwrap().status.success());
        std::fs::copy(site.join("single/fen-warden.html"), elsewhere.path().join("sent.html")).unwrap();
        for width in WIDTHS {
            browser.open(elsewhere.path(), "sent.html", *width, false).await?;
            let over = browser
                .ask("return document.documentElement.scrollWidth - document.documentElement.clientWidth")
                .await?;
            assert!(over.as_i64().is_some_and(|over| over <= 0), "too wide at {width}: {over}");
        }
        let asked = browser
            .ask("return performance.getEntriesByType('resource').map(e => e.name).filter(n => !n.startsWith('data:'))")
            .await?;
        assert_eq!(asked, json!([]));
        // A picture that is shown again has its bytes in a rule.
        let broken = browser
            .ask("return [...document.images].filter(i => i.naturalWidth === 0 && !getComputedStyle(i).content.startsWith('url(\"data:image/')).length")
            .await?;
        assert_eq!(broken, json!(0));
        let used = browser.ask("return [...document.fonts].filter(f => f.status === 'loaded').length").await?;
        assert!(used.as_u64().unwrap_or(0) >= 2, "no fonts in use: {used}");
        let log = browser.driver.get_log("browser").await.unwrap_or_default();
        let severe: Vec<String> =
            log.iter().map(|entry| format!("{entry:?}")).filter(|entry| entry.contains("SEVERE")).collect();
        assert!(severe.is_empty(), "{}", severe.join("\n"));
        Ok(())
    });
}
