//! The shopping list for other numbers of models: the page's script against the program itself, line by line.

use maulstick::door::Disk;
use maulstick::guide::Step;
use maulstick::quantity::{By, StepNeed};
use maulstick::story;
use maulstick::work::WorkedScheme;
use serde_json::{Value, json};
use thirtyfour::prelude::*;

use crate::driver::{Browser, Published, with_reader};

/// What a line of the page says: its id, the need, the bottles, the price.
const LINES: &str = "return [...document.querySelectorAll('[data-have]')].map(box => {
  const line = box.closest('li'), text = name => line.querySelector(name).textContent;
  const likely = line.querySelector('.slip-likely');
  return [box.dataset.have, text('.slip-need'), text('.slip-bought'), text('.slip-price'), likely.hidden ? '' : likely.textContent];
});";

/// Numbers of models: all small ones, the usual batches, and large ones.
const MODELS: &[u32] = &[1, 2, 3, 4, 5, 6, 7, 9, 10, 11, 13, 17, 24, 30, 47, 60, 99, 100, 250, 500, 777, 999];

/// What the program says of the same list, written as the page writes it.
fn wanted(published: &Published, scheme: &str, models: u32) -> (Vec<Value>, Value) {
    let run = published.bench.run(&["shop", ".", scheme, "--models", &models.to_string(), "--format", "json"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let list: Value = serde_json::from_str(&run.out).unwrap();
    let lines = list["lines"].as_array().unwrap().iter().map(|line| {
        let picks = line["buy"].as_array().unwrap();
        let one = |pick: &Value| format!("{} × {} ml", pick["bottles"], sized(pick["bottle_ml"].as_f64().unwrap()));
        let bought = picks.iter().map(one).collect::<Vec<_>>().join(" + ");
        let bought = if picks.is_empty() { "size not known".to_owned() } else { bought };
        let price = line["price_total"].as_f64().map(|price| format!("{price:.2}")).unwrap_or_default();
        let ml = |name: &str| line[name].as_f64().unwrap();
        json!([line["id"], ml("ml_needed"), ml("ml_low"), ml("ml_high"), bought, price, line["bottles_likely"]])
    });
    (lines.collect(), json!([list["bottles"], list["total"], list["total_likely"], list["unpriced"]]))
}

/// Two figures, or whole millilitres, as the program writes volumes that it predicts.
fn figure(ml: f64) -> String {
    let places = match ml {
        less if less < 0.0995 => 3,
        less if less < 0.995 => 2,
        less => usize::from(less < 9.95),
    };
    written(ml, places)
}

/// The most, in ml, that is said to be a drop or two: two and a half of the largest that the demo's products have.
const TRACE: f64 = 0.125;

/// The size of a bottle, as its label has it.
fn sized(ml: f64) -> String {
    written(ml, 1)
}

fn written(ml: f64, places: usize) -> String {
    let text = format!("{ml:.places$}");
    if places > 0 { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

async fn set(browser: &Browser, models: u32) -> WebDriverResult<()> {
    browser.write(".slip-models input", &models.to_string()).await?;
    browser.wait(&format!("document.querySelector('#slip-for').textContent.includes(' {models} ')")).await
}

async fn compare(browser: &Browser, published: &Published, scheme: &str, models: u32) -> WebDriverResult<usize> {
    let (lines, sums) = wanted(published, scheme, models);
    let shown = browser.ask(LINES).await?;
    let shown = shown.as_array().unwrap();
    assert_eq!(shown.len(), lines.len());
    for line in &lines {
        let own = shown.iter().find(|shown| shown[0] == line[0]).unwrap_or_else(|| panic!("{line} is not shown"));
        let need = own[1].as_str().unwrap().trim_start_matches("about ").trim_end_matches(')').replace(" ml (", "–");
        // The least that keeps its ratio stands alone: no bound of it shows.
        let need = need.trim_end_matches(" ml");
        let bound = |at: usize| line[at].as_f64().unwrap();
        assert!(need.contains('–') || need == "a drop or two" || bound(3) - bound(2) <= 0.0101 * bound(1), "{line}");
        // What is less than can be measured is a drop, and has no figures.
        let is_drop = need == "a drop or two" && line[3].as_f64().unwrap() < TRACE;
        for (own, exact) in need.split('–').filter(|_| !is_drop).zip([1, 2, 3].map(|at| line[at].as_f64().unwrap())) {
            // The program writes thousandths there; rounded once more, they may fall to the other side.
            let near = [-0.000_501, 0.0, 0.000_501].map(|off| figure((exact + off).max(0.0)));
            assert!(near.iter().any(|near| near == own), "{scheme}, {models} models: {need} and {line}");
        }
        assert_eq!(own[2], line[4], "{scheme}, {models} models: {line}");
        assert_eq!(own[3], line[5], "{scheme}, {models} models: {line}");
        // What the likely figure would buy is told where it is less, and is so many bottles.
        let fewer: u64 = own[4].as_str().unwrap().split(['+', ':']).filter_map(bottles).sum();
        if own[4] != "" && !own[4].as_str().unwrap().ends_with("none") {
            assert_eq!(line[6], fewer, "{scheme}, {models} models: {own}");
        }
    }
    let count = browser.text("document.querySelector('.slip-bottles').textContent").await?;
    assert_eq!(count.split(' ').next().unwrap(), sums[0].to_string(), "{scheme}, {models} models");
    let total = browser.text("document.querySelector('.slip-total').textContent").await?;
    assert_eq!(total, format!("€{:.2}", sums[1].as_f64().unwrap()), "{scheme}, {models} models");
    let note = browser.text("document.querySelector('.slip-foot').textContent").await?;
    let likely = format!("€{:.2}", sums[2].as_f64().unwrap());
    assert!(sums[1] == sums[2] || note.contains(&likely), "{scheme}, {models} models: {note} without {likely}");
    let unpriced = match sums[3].as_u64().unwrap() {
        0 => String::new(),
        1 => "1 of the things to buy has no price".to_owned(),
        count => format!("{count} of the things to buy have no price"),
    };
    assert!(note.contains(&unpriced) && (!unpriced.is_empty() || !note.contains("no price")), "{note}: {unpriced}");
    Ok(lines.len())
}

fn bottles(text: &str) -> Option<u64> {
    text.trim().split_once(" × ").and_then(|(count, _)| count.parse().ok())
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn the_page_reckons_as_the_program_does() {
    with_reader(async |browser, published| {
        let way = &published.ways()[0];
        let mut compared = 0;
        for (schemes, scheme) in ["fen-warden", "heron-rider", "reed-boat", "lantern-pier"].into_iter().enumerate() {
            browser.goto(&format!("{way}schemes/{scheme}/shopping.html")).await?;
            // All numbers for one scheme, every third for the others, each from another place.
            let every = if schemes == 0 { 1 } else { 3 };
            for models in MODELS.iter().skip(schemes % every).step_by(every) {
                set(browser, *models).await?;
                compared += compare(browser, published, scheme, *models).await?;
            }
        }
        assert!(compared > 500, "only {compared} lines");
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn odd_bottles_and_missing_prices_are_chosen_alike() {
    with_reader(async |browser, published| {
        // Sizes with nothing in common, prices that make two sizes equal, no price, and no size at all.
        let paints = published.bench.path("content/paints/mere.yaml");
        let text = std::fs::read_to_string(&paints).unwrap();
        let text = text.replacen("bottle: 17 ml", "bottle: 14.7 ml", 1);
        std::fs::write(&paints, text).unwrap();
        let glim = "content/paints/glim.yaml";
        published.bench.replace(glim, "price: ", "price: 1").replace(glim, "bottle: 15 ml\n", "");
        published.publish();
        let way = &published.ways()[1];
        for scheme in ["fen-warden", "heron-rider"] {
            browser.goto(&format!("{way}schemes/{scheme}/shopping.html")).await?;
            for models in [1, 8, 40, 333, 999] {
                set(browser, models).await?;
                compare(browser, published, scheme, models).await?;
            }
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn what_the_reader_has_is_not_bought_and_the_number_is_the_same_on_every_page() {
    with_reader(async |browser, published| {
        for way in published.ways() {
            browser.goto(&format!("{way}schemes/fen-warden/shopping.html")).await?;
            let count = "Number(document.querySelector('.slip-bottles').textContent.split(' ')[0])";
            let before: u64 = browser.text(count).await?.parse().unwrap();
            browser.click("[data-have='clear-amber']").await?;
            let line = "document.querySelector('[data-have=clear-amber]').closest('li').querySelector('.slip-bought').textContent";
            assert_eq!(browser.text(line).await?, "in the cupboard");
            let after: u64 = browser.text(count).await?.parse().unwrap();
            assert!(after < before, "{before} and then {after}");
            set(browser, 7).await?;
            browser.goto(&format!("{way}schemes/fen-warden.html")).await?;
            assert_eq!(browser.text("document.querySelector('.progress input').value").await?, "7");
            browser.goto(&format!("{way}schemes/fen-warden/shopping.html")).await?;
            browser.wait("document.querySelector('#slip-for').textContent.includes(' 7 ')").await?;
            browser.click("[data-have='clear-amber']").await?;
        }
        Ok(())
    });
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn what_the_reader_has_comes_off_the_list_of_an_army_too() {
    with_reader(async |browser, published| {
        const SUM: &str = "document.querySelector('.slip-sum-top').innerText.replace(/\\s+/g, ' ')";
        for way in published.ways() {
            browser.block_scripts(true).await?;
            browser.driver.goto(format!("{way}armies/fen-watch/shopping.html")).await?;
            let shown = "return [...document.querySelectorAll('.slip-sum, .slip-bought, .slip-price, [data-pieces]')].map(e => e.textContent)";
            let written = browser.ask(shown).await?;
            browser.block_scripts(false).await?;
            browser.goto(&format!("{way}armies/fen-watch/shopping.html")).await?;
            assert_eq!(browser.ask(shown).await?, written, "{way}: the page reckons otherwise than the program");
            let before = browser.text(SUM).await?;
            browser.click("[data-have='grey-start']").await?;
            let line = "document.querySelector('[data-have=grey-start]').closest('li')";
            assert_eq!(
                browser.text(&format!("{line}.querySelector('.slip-bought').textContent")).await?,
                "in the cupboard"
            );
            assert_eq!(browser.text(&format!("{line}.querySelector('.slip-price').textContent")).await?, "");
            let without = browser.text(SUM).await?;
            assert_ne!(without, before);
            // What is counted in pieces too.
            let tufts = "[data-box]:has(+ .slip-name [data-pieces='reed-tufts'])";
            browser.click(tufts).await?;
            let neither = browser.text(SUM).await?;
            assert!(without.contains(" and 1 pack ") && !neither.contains("pack"), "{without} and then {neither}");
            browser.click(tufts).await?;
            browser.click("[data-have='grey-start']").await?;
            assert_eq!(browser.text(SUM).await?, before);
        }
        Ok(())
    });
}

/// What is measured out of every mix of a scheme, as a page writes it; nothing where it goes by volume.
fn measured_out(worked: &WorkedScheme, models: u32) -> Vec<Option<String>> {
    let mixes = worked.scheme.steps.iter().zip(&worked.needs).filter(|(step, _)| step.mix.is_ratio());
    let written = |(step, need): (&Step, &Option<StepNeed>)| {
        let out = need.as_ref()?.for_models(models).out;
        let volumes: Vec<f64> = out.volumes.iter().map(|volume| volume.0).collect();
        let lines = || step.mix.lines();
        let (parts, unit): (Vec<String>, _) = match out.by {
            By::Drops => (
                lines().filter_map(|line| line.sum(&out.counts)).map(|count: u32| count.to_string()).collect(),
                "drops",
            ),
            By::Marks => (
                lines()
                    .filter_map(|line| line.sum(&volumes))
                    .map(|ml: f64| format!("{}", (ml * 10.0).round() / 10.0))
                    .collect(),
                "ml",
            ),
            By::Volume => return None,
        };
        Some(format!("{} {unit} for {models} {}", parts.join(" + "), if models == 1 { "model" } else { "models" }))
    };
    mixes.map(written).collect()
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn every_mix_follows_the_number_of_models_as_the_program_measures_it_out() {
    with_reader(async |browser, published| {
        let checked = story::check(&Disk::new(published.bench.path(""))).unwrap();
        let way = &published.ways()[0];
        let mut compared = 0;
        for worked in &checked.worked.schemes {
            let slug = &worked.scheme.slug;
            browser.goto(&format!("{way}schemes/{slug}.html")).await?;
            let list = browser.text("document.querySelector('.progress input').value").await?;
            browser.goto(&format!("{way}schemes/{slug}/shopping.html")).await?;
            let own = browser.text("document.querySelector('.slip-models input').value").await?;
            assert_eq!(own, list, "{slug}: two numbers of models that nobody chose");
            browser.goto(&format!("{way}schemes/{slug}.html")).await?;
            for models in MODELS {
                let shown = format!(
                    "Maulstick.change(Maulstick.mine, marks => {{ marks.models = {models}; }});
                    return [...document.querySelectorAll('.step .mix-lot')].map(lot => lot.textContent)"
                );
                let shown = browser.ask(&shown).await?;
                let wanted = measured_out(worked, *models);
                assert_eq!(shown.as_array().unwrap().len(), wanted.len(), "{slug}");
                for (shown, wanted) in shown.as_array().unwrap().iter().zip(&wanted) {
                    if let Some(wanted) = wanted {
                        assert_eq!(shown, wanted, "{slug}, {models} models");
                        compared += 1;
                    }
                }
            }
            // The choice is kept, and the desk knows it.
            let step = &worked.scheme.steps.iter().find(|step| step.mix.is_ratio()).unwrap().stem;
            browser.goto(&format!("{way}schemes/{slug}/{step}.html")).await?;
            assert!(browser.text("document.querySelector('.mix-lot').textContent").await?.ends_with(" for 999 models"));
        }
        assert!(compared > 400, "only {compared} mixes");
        // The field beside a mix is the one at the head once more.
        browser.goto(&format!("{way}schemes/heron-rider.html")).await?;
        browser.write(".mix-amounts .models input", "7").await?;
        browser.wait("document.querySelector('.progress .models input').value === '7'").await?;
        let last = "[...document.querySelectorAll('.step .mix-lot')].at(-1).textContent";
        assert!(browser.text(last).await?.ends_with(" for 7 models"));
        Ok(())
    });
}
