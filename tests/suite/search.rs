//! Finding things: the search, and the filters on the index.

use maulstick::door::Memory;
use maulstick::story::{self, Proof};
use serde_json::json;
use thirtyfour::prelude::*;

use crate::driver::{Browser, with_reader};
use crate::site::{select, site};

async fn look_for(browser: &Browser, wanted: &str) -> WebDriverResult<Vec<String>> {
    browser.ask("document.querySelector('[data-said]').textContent = ''").await?;
    browser.write("#wanted", wanted).await?;
    let asked = format!("decodeURIComponent(location.hash.slice(1)) === '{wanted}'");
    browser
        .wait(&format!("{asked} && /^(Found|Nothing)/.test(document.querySelector('[data-said]').textContent)"))
        .await?;
    let found = browser.ask("return [...document.querySelectorAll('.found a')].map(a => a.textContent)").await?;
    Ok(found.as_array().unwrap().iter().map(|title| title.as_str().unwrap_or_default().to_owned()).collect())
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn schemes_steps_paints_and_stages_are_found() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}search.html")).await?;
            for (wanted, title) in [
                ("heron rider", "Heron rider, brushes only"),
                ("five coats", "Amber in five thin coats"),
                ("bog iron", "Bog Iron"),
                ("BÔG ÎRON", "Bog Iron"),
                ("glazing", "Glazing"),
                ("L-301", "Clear Amber"),
                ("lantrn pier", "The lantern pier"),
            ] {
                let found = look_for(browser, wanted).await?;
                assert!(found.iter().take(5).any(|found| found == title), "{way}: {wanted} finds {found:?}");
            }
            // Near spellings are for what nothing matches exactly.
            let found = look_for(browser, "amber").await?;
            assert!(
                found.len() > 5 && !found.iter().any(|found| found == "Smoke Umber"),
                "{way}: amber finds {found:?}"
            );
            assert_eq!(look_for(browser, "airbrsh").await?[0], "airbrush", "{way}: the nearest title comes first");
            assert_eq!(look_for(browser, "fen watch").await?[0], "The Fen Watch", "{way}");
            assert!(look_for(browser, "umberr").await?.iter().any(|found| found == "Smoke Umber"), "{way}");
            assert!(look_for(browser, "zzyzx").await?.is_empty());
            let said = browser.text("document.querySelector('[data-said]').textContent").await?;
            assert_eq!(said, "Nothing found for zzyzx.");
        }
        Ok(())
    });
}

#[test]
fn armies_are_found_and_every_product_is_called_what_it_is() {
    let page = scraper::Html::parse_document(std::str::from_utf8(&site()["search.html"]).unwrap());
    let lines: Vec<String> = select(&page, ".letter li").iter().map(|line| line.text().collect()).collect();
    let data = std::str::from_utf8(&site()["data/search-1.js"]).unwrap();
    for (title, kind) in [
        ("The Fen Watch", "army"),
        ("Rush Glue", "glue"),
        ("Osk Levelling Thinner", "thinner"),
        ("Osk Cup Cleaner", "cleaner"),
        ("Clear Amber", "tinted clear"),
    ] {
        assert!(lines.contains(&format!("{title} {kind}")), "{title} {kind}: {lines:?}");
        let found = data.lines().find(|line| line.contains(&format!("\"title\": \"{title}\"")));
        assert!(found.unwrap().contains(&format!("\"kind\": \"{kind}\"")), "{found:?}");
    }
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn what_to_do_first_stands_with_every_step_that_is_found_and_its_last_sentence_once_before_all() {
    with_reader(async |browser, published| {
        const CLOSING: &str = "follow them, not this guide.";
        for way in published.ways() {
            browser.goto(&format!("{way}search.html")).await?;
            look_for(browser, "thin coats").await?;
            // All that is to be done, as the texts have it, and none of it cut.
            let lost = "return maulstickTexts.filter(({ id, first }) => {
                const link = first && [...document.querySelectorAll('.found a')].find(a => a.href.endsWith(id));
                const line = link?.parentElement.querySelector('.caution-first');
                return link && !(line?.checkVisibility() && first === line.textContent && line.scrollWidth <= line.clientWidth
                    && (!link.parentElement.querySelector('.found-text') || line.nextElementSibling.matches('.found-text')));
            }).map(({ id }) => id)";
            assert_eq!(browser.ask(lost).await?, json!([]), "{way}");
            assert!(browser.text("document.querySelectorAll('.found .caution-first').length").await? != "0");
            let said = browser.text("document.querySelector('.search').innerText").await?;
            assert_eq!(said.matches(CLOSING).count(), 1, "{said}");
            let first = said.find("Do first: ").unwrap();
            assert!(said.find(CLOSING).is_some_and(|closing| closing < first), "{said}");
            look_for(browser, "zzyzx").await?;
            assert!(!browser.text("document.querySelector('.search').innerText").await?.contains(CLOSING));
        }
        Ok(())
    });
}

/// A part of the texts with so many steps; the last one is called by a word that all others only hold.
fn part(number: usize, steps: usize) -> String {
    let step = |at: usize| {
        let title = if at + 1 == steps { format!("Quillwort {number}") } else { format!("Step {number}.{at}") };
        let id = format!("schemes/quill/{number}-{at}.html");
        let text = format!("Brush the quillwort {}", "and let it dry ".repeat(at % 9));
        json!({ "id": id, "is": "step", "kind": "Step", "title": title, "place": "Quill", "text": text })
    };
    let texts: Vec<_> = (0..steps).map(step).collect();
    format!("(self.maulstickTexts ??= []).push(...{});", json!(texts))
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn a_large_guide_is_asked_part_by_part_and_the_best_of_all_come_first() {
    with_reader(async |browser, published| {
        let parts: Vec<String> = (2..6).map(|number| format!("data/search-{number}.js")).collect();
        for (number, path) in (2..).zip(&parts) {
            std::fs::write(published.site().join(path), part(number, 150)).unwrap();
        }
        for way in published.ways() {
            browser.goto(&format!("{way}search.html")).await?;
            let more = format!("document.querySelector('.search').dataset.parts += ' {}'", parts.join(" "));
            browser.ask(&more).await?;
            let found = look_for(browser, "quillwort").await?;
            assert_eq!(found.len(), 60);
            let best: Vec<&str> = found.iter().take(4).map(String::as_str).collect();
            assert_eq!(best, ["Quillwort 2", "Quillwort 3", "Quillwort 4", "Quillwort 5"], "{way}");
            let said = browser.text("document.querySelector('[data-said]').textContent").await?;
            assert_eq!(said, "Found: 600; the best 60 are shown.");
            // What the first part has is found as before, and near spellings in all of them.
            assert!(look_for(browser, "clear amber").await?.contains(&"Clear Amber".to_owned()), "{way}");
            assert_eq!(look_for(browser, "quilwort").await?.len(), 60, "{way}");
        }
        // A part that can't be had: everything else stands in the list below.
        std::fs::remove_file(published.site().join(&parts[1])).unwrap();
        browser.goto(&format!("{}search.html", published.ways()[0])).await?;
        browser.ask(&format!("document.querySelector('.search').dataset.parts += ' {}'", parts.join(" "))).await?;
        browser.write("#wanted", "quillwort").await?;
        browser.wait("document.querySelector('[data-said]').textContent.startsWith('The texts could not')").await
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn results_are_reached_by_keys_and_kept_in_the_address() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}search.html")).await?;
            look_for(browser, "clear amber").await?;
            browser.press(Key::Down).await?;
            browser.press(Key::Down).await?;
            browser.press(Key::Up).await?;
            let first = browser.text("document.activeElement === document.querySelector('.found a')").await?;
            assert_eq!(first, "true");
            let target = browser.text("document.activeElement.href").await?;
            browser.press(Key::Enter).await?;
            browser.wait(&format!("location.href === '{target}'")).await?;
            browser.driver.back().await?;
            browser.wait("document.querySelectorAll('.found a').length > 1").await?;
            assert_eq!(browser.text("document.querySelector('#wanted').value").await?, "clear amber");
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn what_an_author_writes_is_never_markup_in_a_result() {
    with_reader(async |browser, published| {
        let hostile = "Bog <img src=x onerror=document.title='lost'>";
        published.bench.replace("content/paints/mere.yaml", "Bog Iron", &format!("\"{hostile}\""));
        published.publish();
        let way = &published.ways()[0];
        browser.goto(&format!("{way}search.html")).await?;
        let found = look_for(browser, "bog onerror").await?;
        assert_eq!(found.first().map(String::as_str), Some(hostile));
        assert_eq!(browser.text("document.querySelectorAll('.found img').length").await?, "0");
        assert_eq!(browser.text("document.querySelectorAll('.found li:first-child a mark').length").await?, "2");
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn without_script_everything_stands_from_a_to_z() {
    with_reader(async |browser, published| {
        browser.block_scripts(true).await?;
        let way = &published.ways()[0];
        browser.driver.goto(format!("{way}search.html")).await?;
        let letters =
            browser.ask("return [...document.querySelectorAll('.letter h3')].map(e => e.textContent)").await?;
        let letters: Vec<&str> = letters.as_array().unwrap().iter().filter_map(|one| one.as_str()).collect();
        assert!(letters.len() > 10 && letters.is_sorted(), "{letters:?}");
        browser.click(".letter a[href='paints/bog-iron.html']").await?;
        assert!(browser.driver.title().await?.starts_with("Bog Iron"));
        Ok(())
    });
}

async fn cards(browser: &Browser) -> WebDriverResult<serde_json::Value> {
    browser
        .ask("return [...document.querySelectorAll('.card')].filter(e => e.checkVisibility()).map(e => e.querySelector('.card-title').textContent)")
        .await
}

/// Four small schemes beside those of the demo: with eight or more the filters come.
fn four_more(bench: &crate::bench::Bench) {
    for name in ["moth", "newt", "otter", "pike"] {
        let scheme = format!("---\ntitle: The {name}\nlevel: easy\ntags: [Brushes]\nareas: {{skin: 100%}}\n---\n");
        let step = "---\ntitle: Grey\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [{use: grey-start}]\nminutes: 5\n---\n";
        bench.write(&format!("content/schemes/{name}/scheme.md"), scheme);
        bench.write(&format!("content/schemes/{name}/10-grey.md"), step);
    }
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn filters_come_with_the_eighth_scheme_combine_and_stand_in_the_address() {
    with_reader(async |browser, published| {
        browser.goto(&format!("{}index.html", published.ways()[0])).await?;
        assert_eq!(browser.text("document.querySelectorAll('.sieve').length").await?, "0", "filters for five schemes");
        four_more(&published.bench);
        published.publish();
        for way in published.ways() {
            browser.goto(&format!("{way}index.html")).await?;
            assert_eq!(cards(browser).await?.as_array().unwrap().len(), 9);
            browser.click(".sieve summary").await?;
            // A tag that is called like a technique is one word.
            browser.click(".sieve input[value='airbrush']").await?;
            let sprayed = cards(browser).await?;
            assert_eq!(sprayed.as_array().unwrap().len(), 3, "{sprayed}");
            browser
                .wait("[...document.querySelectorAll('[role=status]')].some(e => e.textContent === '3 of 9 schemes')")
                .await?;
            browser.click(".sieve input[value='steady']").await?;
            assert_eq!(cards(browser).await?, json!(["Fen warden in amber shell"]));
            // What would leave nothing can't be chosen.
            assert_eq!(browser.text("document.querySelector('.sieve input[value=\"3600\"]').disabled").await?, "true");
            browser.driver.refresh().await?;
            assert_eq!(cards(browser).await?, json!(["Fen warden in amber shell"]), "a reload widens the choice");
            browser.ask("location.hash = 'word=brushes&level=steady'").await?;
            browser.wait("!document.querySelector('[data-nothing]').hidden").await?;
            browser.click(".sieve [data-clear]").await?;
            assert_eq!(cards(browser).await?.as_array().unwrap().len(), 9);
            assert_eq!(browser.text("location.hash").await?, "");
            // Without the filters, the same words lead on as links.
            browser.click(".card .tags a").await?;
            browser.wait("location.pathname.includes('/tags/')").await?;
        }
        Ok(())
    });
}

#[test]
fn beyond_two_hundred_schemes_the_index_has_lines_that_the_filters_know() {
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: Large\nauthor: Quill Hollis\ngroups: [Reeds, Fens]\n")
        .with("content/tools.yaml", "tools: {}\n");
    for at in 0..230 {
        let group = if at < 220 { "Reeds" } else { "Fens" };
        let scheme = format!(
            "---\ntitle: Scheme {at}\nsummary: It is number {at}.\ngroup: {group}\nlevel: easy\ntags: [tag-{at}]\nareas: {{skin: 100%}}\n---\n"
        );
        door = door.with(&format!("content/schemes/scheme-{at:03}/scheme.md"), scheme);
        let step = "---\ntitle: Wash it\nstage: prepare\nwith: brush\nminutes: 5\n---\nWash it.\n";
        door = door.with(&format!("content/schemes/scheme-{at:03}/10-wash.md"), step);
    }
    let proof = Proof::of(story::check(&door).unwrap(), None);
    let page = proof.file(&door, "index.html").unwrap().unwrap();
    let page = String::from_utf8_lossy(&page);
    assert_eq!(page.matches("<li class=\"card card-bare\"").count(), 200);
    assert_eq!(page.matches("<li class=\"card card-line\"").count(), 30);
    assert_eq!(page.matches("<h2 class=\"group\">").count(), 2, "the second group has lines alone");
    let line = "data-level=\"easy\" data-seconds=\"300\" data-words=\"brush\nbrush only\ntag-225\"><a href=\"schemes/scheme-225.html\">Scheme 225</a> \
        <span class=\"maker\">It is number 225.</span></li>";
    assert!(page.contains(line), "{}", &page[page.find("Scheme 225").unwrap() - 300..][..400]);
}
