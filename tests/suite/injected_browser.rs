//! The attacked guide in a real browser: nothing of it runs, nothing leaves the site, no dialog opens.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use crate::attacks::{self, Guide};
use crate::bench::{Bench, files_below};
use crate::driver::Browser;
use crate::host::Host;
use crate::injected::bundles;
use crate::structure;

/// Notes what an attack would do before any of the page's own scripts runs: open a dialog, run a script that the policy
/// had to stop, load what the policy had to stop.
const WATCH: &str = r"
window.noted = [];
for (const name of ['alert', 'confirm', 'prompt', 'open', 'print']) window[name] = () => { noted.push(name); };
document.addEventListener('securitypolicyviolation', e => noted.push(e.effectiveDirective + ' ' + e.blockedURI), true);
";

/// What happened on the page: marks of the attack, what was noted, what was asked of other hosts, elements of the
/// attack's making.
const ASK: &str = r"
const own = location.protocol === 'file:' ? 'file:' : location.origin;
const asked = performance.getEntriesByType('resource').map(e => e.name)
  .filter(n => !n.startsWith(own) && !n.startsWith('data:') && !n.startsWith('blob:'));
const made = [...document.querySelectorAll('*')].filter(e =>
  /^(iframe|object|embed|base|form|math)$/.test(e.localName)
  || [...e.attributes].some(a => /^on|^srcdoc$/.test(a.name))
  || e.localName === 'a' && /^(javascript|data|vbscript):/i.test(e.href)).map(e => e.outerHTML.slice(0, 200));
return { pwned: 'pwned' in window, noted: window.noted, asked, made, href: location.href };
";

/// Every second of the guides that hold all attacks that a text may hold, a few in each so that no text is longer than a
/// page can show.
fn guides(from: usize) -> Vec<Bench> {
    let guide = Guide::read();
    let seen: Vec<String> = attacks::corpus()
        .into_iter()
        .filter(|attack| !attack.contains(|c| c != '\r' && structure::obeyed(c)))
        .collect();
    let publish = |text: &String| {
        let first = text.split(['\r', '\n']).next().unwrap_or_default();
        let bench = guide.attacked(text, &format!("~~~~~~ {first}\n{text}\n~~~~~~\n"));
        let run = bench.run(&["publish", "--single"]);
        assert_eq!(run.status, 0, "{}", run.err);
        bench
    };
    bundles(&seen).iter().skip(from).step_by(2).map(publish).collect()
}

/// Opens each page by an address, lets its scripts work, uses its search, and asks what happened.
async fn look(
    browser: &Browser,
    bench: &Bench,
    start: &str,
    pages: &[String],
) -> thirtyfour::error::WebDriverResult<()> {
    for page in pages {
        let address = format!("{start}{page}");
        browser.goto(&address).await?;
        if page == "search.html" {
            browser.write("input[type=search]", "pwned").await?;
            browser.wait("document.querySelectorAll('main a[href]').length > 3").await?;
        }
        // Details are opened, and what has a name is focused and pointed at: attacks wait for that.
        browser
            .ask("for (const d of document.querySelectorAll('details')) d.open = true; for (const e of document.querySelectorAll('main *')) { e.dispatchEvent(new MouseEvent('mouseover', { bubbles: true })); } return new Promise(r => setTimeout(() => r(true), 30));")
            .await?;
        let told: Value = browser.ask(ASK).await?;
        let wanted = json!({ "pwned": false, "noted": [], "asked": [], "made": [], "href": told["href"] });
        assert_eq!(told, wanted, "{address} of {}", bench.path("").display());
        let href = told["href"].as_str().unwrap_or_default();
        assert!(href.starts_with(start), "{address} led to {href}");
    }
    Ok(())
}

/// So many pages of one kind at most are opened of each guide.
const OF_A_KIND: usize = 2;

/// Some pages of each kind, others at each turn.
fn some_of_each_kind(pages: &[String], turn: usize) -> Vec<String> {
    let mut kinds: BTreeMap<String, Vec<&String>> = BTreeMap::new();
    for page in pages {
        kinds.entry(kind_of(page)).or_default().push(page);
    }
    let some = |of: Vec<&String>| {
        let from = turn * OF_A_KIND;
        (0..of.len().min(OF_A_KIND)).map(|at| of[(from + at) % of.len()].clone()).collect::<Vec<_>>()
    };
    kinds.into_values().flat_map(some).collect()
}

/// What kind of page a path is: pages of one template have one.
fn kind_of(page: &str) -> String {
    let parts: Vec<&str> = page.split('/').collect();
    match parts.as_slice() {
        [folder, file] if *file != "index.html" => format!("{folder}/…"),
        [folder, _, file] if file.starts_with(|c: char| c.is_ascii_digit()) => format!("{folder}/…/step"),
        [folder, _, file] => format!("{folder}/…/{file}"),
        _ => page.to_owned(),
    }
}

#[test]
fn each_kind_of_page_is_opened_and_each_page_at_some_turn() {
    let pages = ["index.html", "paints/index.html", "paints/a.html", "paints/b.html", "paints/c.html", "s/x/10-a.html"];
    let pages: Vec<String> = pages.map(str::to_owned).to_vec();
    assert_eq!(some_of_each_kind(&pages, 0).len(), 5);
    let ever: BTreeSet<String> = (0..3).flat_map(|turn| some_of_each_kind(&pages, turn)).collect();
    assert_eq!(ever.len(), pages.len());
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn no_attack_runs_on_any_page_and_nothing_leaves_the_site() {
    nothing_runs_in(&guides(0));
}

/// The other half: two browsers take half of the time.
#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn no_attack_of_the_other_half_runs_on_any_page() {
    nothing_runs_in(&guides(1));
}

fn nothing_runs_in(benches: &[Bench]) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let browser = Browser::start().await.unwrap();
        browser.before_pages(WATCH).await.unwrap();
        for (turn, bench) in benches.iter().enumerate() {
            let site = bench.path("published");
            let files = files_below(&site);
            let pages: Vec<String> = files
                .into_keys()
                .filter(|path| path.rsplit_once('.').is_some_and(|(_, ending)| ending == "html"))
                .collect();
            assert!(pages.len() > 30, "{pages:?}");
            // Every kind of page with every attack, by turns as a file and from a host. Of pages of one kind, each guide
            // opens others; that no page of any guide holds anything but words is held by `injected`.
            let host = Host::start(site.clone(), "/fen/");
            let pages = some_of_each_kind(&pages, turn);
            let by_turns = |way: usize| pages.iter().skip((turn + way) % 2).step_by(2).cloned().collect::<Vec<_>>();
            look(&browser, bench, &format!("file://{}/", site.display()), &by_turns(0)).await.unwrap();
            look(&browser, bench, &host.address(), &by_turns(1)).await.unwrap();
        }
        // What the watch would note if an attack did run, so that a silent watch is not taken for a quiet page.
        let site = benches[0].path("published");
        let page = std::fs::read_to_string(site.join("404.html")).unwrap();
        let broken =
            page.replace("<main", "<img src=\"https://evil.example/a.png\"><script>window.pwned = 1</script><main");
        std::fs::write(site.join("broken.html"), broken).unwrap();
        browser.goto(&format!("file://{}/broken.html", site.display())).await.unwrap();
        let told = browser.ask(ASK).await.unwrap();
        assert_eq!(told["pwned"], false, "the policy stops a script in the page");
        assert_eq!(told["noted"].as_array().map(Vec::len), Some(2), "{told}");
        browser.driver.clone().quit().await.unwrap();
    });
}
