//! Cautions as a reader sees them: on every page of the theme that ships each has size, contrast and a place of its own.

use serde_json::{Value, json};

use crate::driver::{PAGES, with_reader};

/// What is wrong with the cautions of the page, in the words of the page: too small, too pale, hidden, or under something.
const UNSEEN: &str = r"
const faults = [];
let seen = 0;
const parts = text => (text.match(/[\d.]+/g) || []).map(Number);
const light = ([r, g, b]) => [r, g, b].map(c => c / 255)
  .map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)
  .reduce((sum, c, at) => sum + c * [0.2126, 0.7152, 0.0722][at], 0);
const ground = element => {
  for (let at = element; at; at = at.parentElement) {
    const colour = parts(getComputedStyle(at).backgroundColor);
    if (colour.length === 3 || colour[3] === 1) return colour;
  }
  return [255, 255, 255];
};
for (const box of document.querySelectorAll('.caution, .caution-line')) {
  for (let at = box.parentElement; at; at = at.parentElement) if (at.tagName === 'DETAILS') at.open = true;
  const walker = document.createTreeWalker(box, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const words = node.data.trim();
    if (words.length < 3) continue;
    const element = node.parentElement;
    const style = getComputedStyle(element);
    const range = document.createRange();
    range.selectNodeContents(node);
    const widest = () => [...range.getClientRects()].sort((a, b) => b.width - a.width)[0];
    const place = widest();
    const told = why => faults.push(why + ': ' + words.slice(0, 40));
    if (!place || place.width < 4 || place.height < 8 || parseFloat(style.fontSize) < 12) { told('too small'); continue; }
    let opacity = 1;
    for (let at = element; at; at = at.parentElement) opacity *= Number(getComputedStyle(at).opacity);
    if (style.visibility !== 'visible' || opacity < 1) told('hidden');
    const [one, other] = [light(parts(style.color)), light(ground(element))].sort((a, b) => b - a);
    const [, , , ink = 1] = parts(style.color);
    if (ink < 1 || (one + 0.05) / (other + 0.05) < 4.5) told('pale');
    element.scrollIntoView({ block: 'center', behavior: 'instant' });
    const now = widest();
    const hit = document.elementFromPoint(now.left + Math.min(now.width / 2, 20), now.top + now.height / 2);
    if (!hit || !(box.contains(hit) || hit.contains(element))) told('covered');
    seen += 1;
  }
}
return { seen, faults };
";

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn every_caution_has_size_contrast_and_a_place_on_every_page() {
    with_reader(async |browser, published| {
        let mut with_cautions = 0;
        for page in PAGES {
            for (width, dark) in [(1280, false), (390, true)] {
                browser.open(&published.site(), page, width, dark).await?;
                let found: Value = browser.ask(UNSEEN).await?;
                assert_eq!(found["faults"], json!([]), "{page} at {width}, dark {dark}");
                with_cautions += usize::from(found["seen"].as_u64().unwrap() > 0);
            }
        }
        assert!(with_cautions >= 10, "{with_cautions}");
        // The same look finds what a style hides.
        browser.open(&published.site(), "schemes/fen-warden.html", 1280, false).await?;
        for style in ["opacity = 0", "color = 'rgba(0, 0, 0, 0)'", "font = '1px serif'", "display = 'none'"] {
            browser
                .ask(&format!("document.querySelectorAll('[role=note] *').forEach(e => {{ e.style.{style}; }})"))
                .await?;
            let found: Value = browser.ask(UNSEEN).await?;
            assert_ne!(found["faults"], json!([]), "{style}");
            browser
                .ask("document.querySelectorAll('[role=note] *').forEach(e => { e.removeAttribute('style'); })")
                .await?;
        }
        Ok(())
    });
}
