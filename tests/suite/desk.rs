//! The desk view in use: the screen stays awake, keys and swipes turn the pages and nothing else.

use serde_json::json;
use thirtyfour::prelude::*;

use crate::driver::{Browser, with_reader};

const STEP: &str = "schemes/fen-warden/50-amber-shell.html";

/// Notes when the screen is asked to stay awake and when it is let go.
const WATCH: &str = "Object.defineProperty(navigator, 'wakeLock', { value: { request: async () => {
  sessionStorage.held = Number(sessionStorage.held ?? 0) + 1;
  const lock = new EventTarget();
  lock.release = async () => { sessionStorage.held = Number(sessionStorage.held) - 1; lock.dispatchEvent(new Event('release')); };
  return lock;
} } });";

async fn is_at(browser: &Browser, step: &str) -> WebDriverResult<()> {
    browser.wait(&format!("location.pathname.endsWith('{step}.html') && document.readyState === 'complete'")).await
}

/// Presses an arrow key once. The driver's own way would press it again on the next page where that comes quickly: it
/// repeats what ends with the page it began on.
async fn arrow(browser: &Browser, key: &str, held: bool) -> WebDriverResult<()> {
    let code = if key == "ArrowLeft" { 37 } else { 39 };
    let event = |kind: &str| json!({ "type": kind, "key": key, "code": key, "windowsVirtualKeyCode": code, "autoRepeat": held });
    browser.command("Input.dispatchKeyEvent", event("rawKeyDown")).await?;
    browser.command("Input.dispatchKeyEvent", event("keyUp")).await?;
    Ok(())
}

async fn swipe(browser: &Browser, from: (i32, i32), to: (i32, i32)) -> WebDriverResult<()> {
    let touch = |kind: &str, points: &[(i32, i32)]| {
        let points: Vec<_> = points.iter().map(|(x, y)| json!({ "x": x, "y": y })).collect();
        json!({ "type": kind, "touchPoints": points })
    };
    browser.command("Input.dispatchTouchEvent", touch("touchStart", &[from])).await?;
    browser.command("Input.dispatchTouchEvent", touch("touchMove", &[to])).await?;
    browser.command("Input.dispatchTouchEvent", touch("touchEnd", &[])).await?;
    Ok(())
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn keys_turn_to_the_step_before_and_the_next() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}{STEP}")).await?;
            assert!(browser.text("document.querySelector('.desk-help').innerText").await?.contains("Arrow keys"));
            arrow(browser, "ArrowRight", false).await?;
            is_at(browser, "55-gloss-over-amber").await?;
            arrow(browser, "ArrowLeft", false).await?;
            is_at(browser, "50-amber-shell").await?;
            // A key that is still held on the next page turns no more.
            arrow(browser, "ArrowRight", true).await?;
            // A choice in a list is not a turn of the page, and neither is a key held with another one.
            browser.click(".coat input").await?;
            let select = "const e = document.createElement('select'); e.append(new Option('a'), new Option('b'));
                document.querySelector('main').append(e); e.focus();";
            browser.ask(select).await?;
            browser.press(Key::Right).await?;
            browser.press(Key::Left).await?;
            browser.ask("document.activeElement.blur()").await?;
            browser
                .driver
                .action_chain()
                .key_down(Key::Shift)
                .send_keys(Key::Right)
                .key_up(Key::Shift)
                .perform()
                .await?;
            tokio::time::sleep(std::time::Duration::from_millis(300)).await;
            is_at(browser, "50-amber-shell").await?;
            browser.click(".timer button").await?;
            // The first step has none before it.
            browser.goto(&format!("{way}schemes/fen-warden/10-clean-and-wash.html")).await?;
            arrow(browser, "ArrowLeft", false).await?;
            tokio::time::sleep(std::time::Duration::from_millis(300)).await;
            is_at(browser, "10-clean-and-wash").await?;
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn swipes_turn_too_unless_something_moves_sideways() {
    with_reader(async |browser, published| {
        browser.command("Emulation.setTouchEmulationEnabled", json!({ "enabled": true })).await?;
        browser.open(&published.site(), STEP, 390, false).await?;
        swipe(browser, (300, 500), (100, 510)).await?;
        is_at(browser, "55-gloss-over-amber").await?;
        swipe(browser, (100, 500), (300, 490)).await?;
        is_at(browser, "50-amber-shell").await?;
        // Too short, and from the rim of the screen; the last fifteen pixels are the scroll bar's, which would move the page.
        swipe(browser, (200, 500), (160, 500)).await?;
        swipe(browser, (370, 500), (100, 500)).await?;
        let wide = "document.querySelector('main').insertAdjacentHTML('afterbegin', '<div id=wide><p>wide</p></div>');
            const e = document.querySelector('#wide'); e.style.overflowX = 'auto'; e.firstChild.style.width = '900px';
            e.firstChild.style.height = '300px'; scrollTo({ top: 0, behavior: 'instant' }); return e.getBoundingClientRect().top";
        let top = browser.ask(wide).await?.as_f64().unwrap_or(0.0);
        #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
        let height = top as i32 + 100;
        swipe(browser, (300, height), (100, height)).await?;
        tokio::time::sleep(std::time::Duration::from_millis(300)).await;
        is_at(browser, "50-amber-shell").await?;
        // Down the page, last of all, for the page goes on moving for a while.
        swipe(browser, (200, 700), (150, 300)).await?;
        tokio::time::sleep(std::time::Duration::from_millis(300)).await;
        is_at(browser, "50-amber-shell").await?;
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn the_screen_stays_awake_while_the_desk_is_looked_at() {
    with_reader(async |browser, published| {
        browser.before_pages(WATCH).await?;
        for way in published.ways() {
            browser.goto(&format!("{way}{STEP}")).await?;
            browser.wait("sessionStorage.held === '1'").await?;
            browser.click(".thumb-next a").await?;
            is_at(browser, "55-gloss-over-amber").await?;
            browser.wait("sessionStorage.held === '1'").await?;
            browser.click("[data-awake]").await?;
            browser.wait("sessionStorage.held === '0'").await?;
            browser.driver.refresh().await?;
            tokio::time::sleep(std::time::Duration::from_millis(300)).await;
            assert_eq!(browser.text("sessionStorage.held").await?, "0", "the choice is forgotten");
            browser.click("[data-awake]").await?;
            browser.wait("sessionStorage.held === '1'").await?;
            browser.click(".head-nav a").await?;
            is_at(browser, "fen-warden").await?;
            browser.wait("sessionStorage.held === '0'").await?;
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn coats_that_are_ticked_stay_ticked() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}{STEP}")).await?;
            browser.click(".coat:nth-of-type(2) input").await?;
            browser.driver.refresh().await?;
            browser.wait("document.querySelector('.coat:nth-of-type(2) input').checked").await?;
        }
        Ok(())
    });
}
