//! Drying timers: several at once, on every page, through a reload and a nap, silent unless asked.

use thirtyfour::prelude::*;

use crate::driver::{Browser, with_reader};

const SCHEME: &str = "schemes/fen-warden.html";
const STEP: &str = "schemes/fen-warden/50-amber-shell.html";

/// Counts what would make a noise.
const LISTEN: &str = "self.noises = 0;
self.AudioContext = class {
  state = 'suspended'; currentTime = 0; destination = {};
  constructor() { self.noises += 100; }
  resume() { this.state = 'running'; }
  createOscillator() { return { frequency: {}, connect: loud => loud, start() { self.noises += 1; }, stop() {} }; }
  createGain() { return { gain: { setValueAtTime() {}, exponentialRampToValueAtTime() {} }, connect() {} }; }
};";

/// Lets all timers be as good as over, as after a nap of the device.
const NAP: &str = "for (const key of Object.keys(localStorage).filter(key => key.endsWith(' timers'))) {
  localStorage.setItem(key, JSON.stringify(JSON.parse(localStorage[key]).map(timer => ({ ...timer, ends: Date.now() - 60000 }))));
}";

async fn shown(browser: &Browser) -> WebDriverResult<String> {
    browser
        .text("[...document.querySelectorAll('.timer')].map(e => e.innerText.replace(/\\s+/g, ' ')).join(' | ')")
        .await
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn several_timers_run_at_once_and_outlive_a_reload() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}{SCHEME}")).await?;
            let count = browser.text("document.querySelectorAll('.timer').length").await?;
            assert_eq!(count, "0", "{way}: nothing runs unasked");
            browser.click("#\\31 5-black-ground .coat input").await?;
            browser.click("#\\35 0-amber-shell .coat input").await?;
            browser.click("#\\33 0-pale-gold [data-for='dry'] .timer-start").await?;
            let running = shown(browser).await?;
            let pieces: Vec<&str> = running.split(" | ").collect();
            assert_eq!(pieces.len(), 3, "{running}");
            // Sorted by their ends: twenty minutes, thirty minutes, two hours.
            assert!(pieces[0].contains("Amber in five thin coats next coat until "), "{running}");
            assert!(pieces[1].contains("A thin black ground from the can next coat until "), "{running}");
            // What takes hours is told by the clock.
            assert!(
                pieces[2].starts_with("until ") && pieces[2].contains("Pale lamp gold, three light coats dry"),
                "{running}"
            );
            // Twenty minutes, less what a slow machine takes to get here.
            assert!(
                pieces[0].starts_with("19:") || pieces[0].starts_with("18:") || pieces[0].starts_with("20:00"),
                "{running}"
            );
            browser.driver.refresh().await?;
            browser.wait("document.querySelectorAll('.timer').length === 3").await?;
            browser.goto(&format!("{way}paints/index.html")).await?;
            browser.wait("document.querySelectorAll('.timer').length === 3").await?;
            browser.click(".timer:nth-child(2) button").await?;
            browser.wait("document.querySelectorAll('.timer').length === 2").await?;
            let focus = browser.text("document.activeElement.closest('.timer') !== null").await?;
            assert_eq!(focus, "true", "the focus is lost with the timer");
            browser.click(".timer a").await?;
            browser.wait("location.pathname.endsWith('50-amber-shell.html')").await?;
            // What dries has no coat to wait for: the one takes the place of the other.
            browser.click("[data-for='dry'] .timer-start").await?;
            let running = shown(browser).await?;
            assert!(
                running.contains("Amber in five thin coats dry") && !running.contains("Amber in five thin coats next"),
                "{running}"
            );
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_timer_that_runs_is_told_where_it_was_started_and_not_started_twice() {
    with_reader(async |browser, published| {
        const START: &str = "[data-for='dry'] .timer-start";
        let said = format!("document.querySelector(\"{START}\").innerText");
        for way in published.ways() {
            browser.goto(&format!("{way}{STEP}")).await?;
            browser.wait(&format!("{said}.startsWith('Start timer')")).await?;
            browser.click(START).await?;
            browser.wait(&format!("{said}.startsWith('until ')")).await?;
            browser.click(START).await?;
            assert!(shown(browser).await?.contains("Fen warden in amber shell"), "the scheme is not named");
            assert!(!shown(browser).await?.contains(" | "), "{way}: a second timer runs");
            browser.goto(&format!("{way}{SCHEME}")).await?;
            browser
                .wait("document.querySelector(\"#\\\\35 0-amber-shell .timer-start\").innerText.startsWith('until ')")
                .await?;
            browser.click(".timer button").await?;
            browser.wait("document.querySelector(\"#\\\\35 0-amber-shell .timer-start\").innerText.startsWith('Start timer')").await?;
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn on_a_telephone_the_timers_are_one_line() {
    with_reader(async |browser, published| {
        browser.open(&published.site(), SCHEME, 390, false).await?;
        browser.click("#\\31 5-black-ground .coat input").await?;
        browser.click("#\\35 0-amber-shell .coat input").await?;
        let height = "document.querySelector('.timers').offsetHeight";
        browser.wait(&format!("{height} > 0 && {height} <= 48")).await?;
        let line = browser.text("document.querySelector('.timers-fold').innerText.replace(/\\s+/g, ' ')").await?;
        assert!(
            line.contains("Amber in five thin coats · Fen warden in amber shell") && line.ends_with("+1"),
            "{line}"
        );
        browser.click(".timers-fold").await?;
        browser.wait("[...document.querySelectorAll('.timer')].every(e => e.checkVisibility())").await?;
        browser.click(".timers-fold").await?;
        browser.wait(&format!("{height} <= 48")).await?;
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_timer_names_its_model_where_there_are_several() {
    with_reader(async |browser, published| {
        let way = &published.ways()[0];
        browser.goto(&format!("{way}schemes/heron-rider.html")).await?;
        browser.write(".progress input", "4").await?;
        browser.click("[data-for='dry'] .timer-start").await?;
        browser.click(".timer-model select").await?;
        browser.press("Model 3").await?;
        browser.press("\n").await?;
        browser.wait("document.querySelector('.timer-model select').value === '3'").await?;
        browser.driver.refresh().await?;
        browser.wait("document.querySelector('.timer-model select').selectedOptions[0].text === 'Model 3'").await?;
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_timer_that_ended_during_a_nap_says_since_when_and_stays_silent_unless_asked() {
    with_reader(async |browser, published| {
        browser.before_pages(LISTEN).await?;
        for way in published.ways() {
            browser.goto(&format!("{way}{STEP}")).await?;
            browser.click(".coat input").await?;
            browser.ask(&format!("addEventListener('pagehide', () => {{ {NAP} }})")).await?;
            browser.driver.refresh().await?;
            browser.wait("document.querySelector('.timer-over')").await?;
            assert!(shown(browser).await?.contains("next coat since "), "{}", shown(browser).await?);
            browser.wait("[...document.querySelectorAll('[role=status]')].some(e => e.textContent === 'Dry: Amber in five thin coats')").await?;
            assert_eq!(browser.text("noises").await?, "0", "it makes a noise unasked");
            browser.click(".timer button").await?;
            browser.wait("document.querySelector('.timers').hidden").await?;

            browser.click(".coat:nth-of-type(2) input").await?;
            browser.click(".timers-ask button").await?;
            browser.wait("noises === 101").await?;
            browser.ask(NAP).await?;
            browser.wait("noises === 104").await?;
            browser.driver.refresh().await?;
            browser
                .wait("document.querySelector('.timers-ask button').getAttribute('aria-pressed') === 'true'")
                .await?;
            assert_eq!(browser.text("noises").await?, "0", "it rings twice");
            browser.click(".timers-ask button").await?;
            browser
                .wait("document.querySelector('.timers-ask button').getAttribute('aria-pressed') === 'false'")
                .await?;
            browser.click(".timer button").await?;
        }
        Ok(())
    });
}
