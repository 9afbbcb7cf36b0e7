//! The demo guide's site as a visitor finds it: every link leads somewhere, nothing is asked of other hosts, cautions stand.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write as _;
use std::sync::OnceLock;

use crate::bench::{self, Bench};
use scraper::{Html, Selector};

pub(crate) type Site = BTreeMap<String, Vec<u8>>;

/// The published demo guide, published once for all tests.
pub(crate) fn site() -> &'static Site {
    static SITE: OnceLock<Site> = OnceLock::new();
    SITE.get_or_init(publish)
}

/// The demo guide as its author has it after publishing. A test that publishes it again makes only what it changed.
pub(crate) fn published_demo() -> Bench {
    let bench = Bench::demo();
    for (path, bytes) in site() {
        bench.write(&format!("published/{path}"), bytes);
    }
    bench
}

fn publish() -> Site {
    let bench = Bench::demo();
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 0, "{}", run.err);
    assert_eq!(run.err, "", "the demo guide has findings");
    bench::files_below(&bench.path("published"))
}

pub(crate) fn pages(site: &Site) -> Vec<(&str, Html)> {
    let html = site.iter().filter(|(path, _)| path.split('.').next_back() == Some("html"));
    html.map(|(path, bytes)| (path.as_str(), Html::parse_document(std::str::from_utf8(bytes).unwrap()))).collect()
}

pub(crate) fn select<'a>(page: &'a Html, selector: &str) -> Vec<scraper::ElementRef<'a>> {
    let selector = Selector::parse(selector).unwrap();
    page.select(&selector).collect()
}

/// Where a link on a page leads: a path in the site and an anchor.
fn resolve(from: &str, link: &str) -> (String, Option<String>) {
    let (path, anchor) = link.split_once('#').map_or((link, None), |(path, anchor)| (path, Some(anchor)));
    let decode = |text: &str| percent_encoding::percent_decode_str(text).decode_utf8().unwrap().into_owned();
    let anchor = anchor.map(decode);
    if path.is_empty() {
        return (from.to_owned(), anchor);
    }
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in path.split('/') {
        match part {
            ".." => assert!(parts.pop().is_some(), "{link} on {from} leads out of the site"),
            "." => {}
            part => parts.push(part),
        }
    }
    (decode(&parts.join("/")), anchor)
}

#[test]
fn every_link_leads_somewhere() {
    let site = site();
    let pages = pages(site);
    let anchors: BTreeMap<&str, BTreeSet<String>> = pages
        .iter()
        .map(|(path, page)| (*path, select(page, "[id]").iter().map(|e| e.attr("id").unwrap().to_owned()).collect()))
        .collect();
    let mut checked = 0;
    let mut reached = BTreeSet::from(["index.html".to_owned(), "404.html".to_owned()]);
    for (path, page) in &pages {
        for element in select(page, "[href], [src]") {
            let link = element.attr("href").or_else(|| element.attr("src")).unwrap();
            let is_outside = link.starts_with("https://") || link.starts_with("mailto:");
            let link = if *path == "404.html" { link.trim_start_matches("/fen/") } else { link };
            if is_outside {
                assert!(element.value().name() == "a" || element.attr("rel") == Some("canonical"), "{link} on {path}");
                continue;
            }
            let (target, anchor) = resolve(path, link);
            assert!(site.contains_key(&target), "{link} on {path} leads to {target}, which is not there");
            if let Some(anchor) = anchor {
                assert!(anchors[target.as_str()].contains(&anchor), "{link} on {path}: no such anchor");
            }
            reached.insert(target);
            checked += 1;
        }
    }
    let lost: Vec<&str> = pages.iter().map(|(path, _)| *path).filter(|path| !reached.contains(*path)).collect();
    assert!(lost.is_empty(), "nothing leads to {lost:?}");
    assert!(checked > 2000, "only {checked} links");
}

#[test]
fn anchors_are_unique_on_a_page() {
    for (path, page) in pages(site()) {
        let mut seen = BTreeSet::new();
        for element in select(&page, "[id]") {
            assert!(
                seen.insert(element.attr("id").unwrap().to_owned()),
                "{} twice on {path}",
                element.attr("id").unwrap()
            );
        }
    }
}

#[test]
fn no_page_runs_a_script_that_is_not_a_file_of_the_guide_or_asks_another_host() {
    for (path, page) in pages(site()) {
        for script in select(&page, "script:not([type='application/ld+json'], [type='application/json'])") {
            assert!(script.inner_html().is_empty() && script.attr("defer").is_some(), "{} on {path}", script.html());
        }
        for element in select(&page, "body *") {
            let handler = element.value().attrs().find(|(name, _)| name.starts_with("on"));
            assert!(handler.is_none(), "{handler:?} on {path}");
        }
        // The page for a lost address brings its style along, and its policy knows it by its sum.
        let alone =
            if path == "404.html" { "[style], iframe, object, form" } else { "[style], style, iframe, object, form" };
        assert!(select(&page, alone).is_empty(), "inline style on {path}");
        let policy = select(&page, "meta[http-equiv='Content-Security-Policy']");
        let policy = policy.first().unwrap_or_else(|| panic!("no policy on {path}")).attr("content").unwrap();
        assert!(policy.contains("default-src 'none'"), "{policy} on {path}");
        for element in select(&page, "img, link, script, source") {
            let link = element.attr("src").or_else(|| element.attr("href")).unwrap_or_default();
            assert!(!link.starts_with("http") || element.attr("rel") == Some("canonical"), "{link} on {path}");
        }
    }
}

/// The most bytes of script that a page loads, as written, without the words and the figures of the guide.
const MOST_SCRIPT: usize = 30_000;

#[test]
fn no_page_loads_much_script() {
    let site = site();
    for (path, page) in pages(site) {
        let links = select(&page, "script[src*='theme/script/']");
        let loaded: usize = links
            .iter()
            .map(|script| script.attr("src").unwrap().split("theme/").nth(1).unwrap())
            .map(|name| site[&format!("theme/{name}")].len())
            .sum();
        assert!(loaded > 1000 && loaded < MOST_SCRIPT, "{loaded} bytes of script on {path}");
    }
}

#[test]
fn a_scheme_counts_its_products_as_its_shopping_list_does() {
    let site = site();
    let is_list = |path: &str| path.starts_with("schemes/") && path.ends_with("/shopping.html");
    let mut count = 0;
    for (path, list) in pages(site).into_iter().filter(|(path, _)| is_list(path)) {
        let scheme = format!("{}.html", path.trim_end_matches("/shopping.html"));
        let page = Html::parse_document(std::str::from_utf8(&site[&scheme]).unwrap());
        let counted = select(&page, ".glance > div").into_iter().map(|one| one.text().collect::<String>());
        let counted: Vec<String> = counted.filter(|one| one.starts_with("Products")).collect();
        let listed = select(&list, ".slip-line [data-have]").len();
        assert_eq!(counted, [format!("Products{listed}")], "{path}");
        count += 1;
    }
    assert!(count > 4, "only {count} lists");
}

#[test]
fn a_cleaner_says_after_which_steps_it_cleans_as_the_shopping_list_does() {
    let site = site();
    let parsed = |path: &str| Html::parse_document(std::str::from_utf8(&site[path]).unwrap());
    let list = parsed("schemes/fen-warden/shopping.html");
    for id in ["osk-cleaner", "mere-cleaner"] {
        let numbers = |page: &Html, links: &str| -> Vec<String> {
            select(page, links).iter().map(|link| link.attr("title").unwrap().to_owned()).collect()
        };
        let page = parsed(&format!("paints/{id}.html"));
        let used = select(&page, ".lines > li").into_iter().find(|line| line.html().contains("fen-warden.html"));
        let said = used.unwrap_or_else(|| panic!("{id} is used by nobody")).text().collect::<String>();
        assert!(said.contains("cleans up after step"), "{said}");
        let own = numbers(&page, ".lines a[href*='fen-warden/']");
        let line = select(&list, ".slip-line").into_iter().find(|line| line.html().contains(&format!("\"{id}\"")));
        let line = Html::parse_fragment(&line.unwrap().html());
        let bought = numbers(&line, ".slip-uses a");
        assert!(bought.iter().all(|step| own.contains(step)) && !own.is_empty(), "{id}: {own:?}, {bought:?}");
    }
    let paints = parsed("paints/index.html");
    let chip = select(&paints, ".chart-paint").into_iter().find(|one| one.html().contains("osk-cleaner.html"));
    assert!(chip.unwrap().text().collect::<String>().contains("in 1 scheme"));
}

#[test]
fn the_demo_says_on_its_front_page_that_it_is_invented() {
    let page = Html::parse_document(std::str::from_utf8(&site()["index.html"]).unwrap());
    let said = select(&page, ".summary")[0].text().collect::<String>();
    assert!(said.contains("makers, products, waits and hazard codes in it are invented"), "{said}");
}

/// The most bytes that a scheme's page and all that it loads take on the way, without photos, packed as hosts pack them.
const MOST_ALL_TOLD: usize = 117_000;

fn packed(bytes: &[u8]) -> usize {
    let mut out = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::default());
    out.write_all(bytes).unwrap();
    out.finish().unwrap().len()
}

#[test]
fn a_scheme_is_light_to_load() {
    let site = site();
    let fonts = site.keys().filter(|path| path.split('.').next_back() == Some("woff2") && !path.contains("-more."));
    let fonts: usize = fonts.map(|path| site[path].len()).sum();
    let is_scheme = |path: &str| path.strip_prefix("schemes/").is_some_and(|name| !name.contains('/'));
    for (path, page) in pages(site).into_iter().filter(|(path, _)| is_scheme(path)) {
        let scripts = select(&page, "script[src], link[rel='stylesheet'], link[rel='icon']");
        let links = scripts.iter().filter_map(|element| element.attr("src").or_else(|| element.attr("href")));
        let files: usize = links.map(|link| packed(&site[link.strip_prefix("../").unwrap()])).sum();
        let all = packed(&site[path]) + files + fonts;
        assert!(files > 10_000 && all < MOST_ALL_TOLD, "{all} bytes for {path}");
    }
}

#[test]
fn controls_of_one_kind_are_told_apart_by_their_names() {
    let kinds = [("schemes/fen-warden.html", ".coats > legend"), ("armies/fen-watch.html", ".plan-evening summary")];
    for (path, selector) in kinds {
        let page = Html::parse_document(std::str::from_utf8(&site()[path]).unwrap());
        let names: Vec<String> = select(&page, selector).iter().map(|element| element.text().collect()).collect();
        let apart: BTreeSet<&String> = names.iter().collect();
        assert!(names.len() > 5 && apart.len() == names.len(), "{names:?} on {path}");
    }
}

#[test]
fn every_page_has_a_head_a_reader_can_use() {
    for (path, page) in pages(site()) {
        let title = select(&page, "title").first().map(|e| e.text().collect::<String>()).unwrap_or_default();
        assert!(!title.trim().is_empty(), "no title on {path}");
        assert_eq!(select(&page, "h1").len(), 1, "one main heading on {path}");
        assert_eq!(select(&page, "main").len(), 1, "one main part on {path}");
        assert_eq!(select(&page, "html[lang='en']").len(), 1, "no language on {path}");
        for image in select(&page, "img") {
            assert!(image.attr("alt").is_some_and(|alt| !alt.is_empty()), "no words for a picture on {path}");
            assert!(image.attr("width").is_some() && image.attr("height").is_some(), "no size for a picture on {path}");
        }
    }
}

#[test]
fn the_steps_of_a_sequence_have_the_words_before_them_that_the_scheme_gives() {
    let bench = published_demo();
    bench.replace(
        "content/schemes/heron-rider/90-fen-base.md",
        "sequence: fen-base\n",
        "sequence: fen-base\ntitle: Bank\n",
    );
    let run = bench.run(&["check", ".", "--strict"]);
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    let text = bench.run(&["publish"]);
    assert_eq!(text.status, 0, "{}", text.err);
    let page = std::fs::read_to_string(bench.path("published/schemes/heron-rider.html")).unwrap();
    assert!(page.contains("Bank: Mud on the base"), "the title of the step stands alone");
    let other = std::fs::read_to_string(bench.path("published/schemes/marsh-levy.html")).unwrap();
    assert!(other.contains("Mud on the base") && !other.contains("Bank: "), "another scheme is not told so");
}

#[test]
fn a_scheme_is_data_for_search_engines_too() {
    let site = site();
    let page = Html::parse_document(std::str::from_utf8(&site["schemes/fen-warden.html"]).unwrap());
    let script = select(&page, "script[type='application/ld+json']");
    let data: serde_json::Value = serde_json::from_str(&script[0].text().collect::<String>()).unwrap();
    assert_eq!(data["@type"], "HowTo");
    assert_eq!(data["step"].as_array().unwrap().len(), select(&page, "section.step, article.step, li.step").len());
    let said = select(&page, ".glance-wide dd")[0].text().collect::<String>();
    let days = said.split(' ').nth(1).unwrap();
    assert_eq!(data["totalTime"], format!("P{days}D"), "{said}");
    let told = data["step"][5]["text"].as_str().unwrap();
    assert!(!told.ends_with('…'), "an instruction is cut: {told}");
}

#[test]
fn who_has_no_airbrush_finds_what_brushes_alone_can_paint() {
    let index = Html::parse_document(std::str::from_utf8(&site()["index.html"]).unwrap());
    assert_eq!(select(&index, ".index-brush a[href='#brush-only']").len(), 1);
    let links: Vec<&str> =
        select(&index, "#brush-only a").iter().filter_map(|link| link.value().attr("href")).collect();
    assert_eq!(links, ["schemes/heron-rider.html", "schemes/marsh-levy-grey-by-brush.html"]);
}

#[test]
fn a_comma_stays_with_the_step_before_it() {
    let lists = site().iter().filter(|(path, _)| path.ends_with("shopping.html") || path.starts_with("paints/"));
    let mut kept = 0;
    for (path, page) in lists {
        let page = std::str::from_utf8(page).unwrap();
        let uses = page.split("class=\"slip-uses\"").skip(1).chain(page.split("class=\"lines-more\"").skip(1));
        for uses in uses.filter_map(|uses| uses.split("</li>").next()) {
            assert!(!uses.contains("</a>, ") && !uses.contains("</a>; "), "{path}: {uses}");
            kept += uses.matches("</a>,</span> ").count();
        }
    }
    assert!(kept > 20, "{kept}");
}

#[test]
fn the_feed_and_the_map_can_be_read() {
    let site = site();
    let feed = atom_syndication::Feed::read_from(&site["feed.xml"][..]).unwrap();
    assert!(!feed.entries().is_empty());
    assert!(feed.entries().windows(2).all(|pair| pair[0].updated() >= pair[1].updated()));
    let map = std::str::from_utf8(&site["sitemap.xml"]).unwrap();
    let html = site.keys().filter(|path| path.split('.').next_back() == Some("html") && *path != "404.html").count();
    assert_eq!(map.matches("<loc>").count(), html);
}

#[test]
fn every_spraying_step_shows_its_caution_before_its_instruction() {
    let site = site();
    let spraying: Vec<&String> = site.keys().filter(|path| path.contains("/50-amber")).collect();
    assert!(!spraying.is_empty());
    for path in spraying {
        let html = std::str::from_utf8(&site[path]).unwrap();
        let line = html.find("class=\"caution-line\"").unwrap_or_else(|| panic!("no line of what to do on {path}"));
        let mix = html.find("class=\"mix").unwrap_or_else(|| panic!("no mix on {path}"));
        let instruction = html.find("class=\"telling").unwrap_or_else(|| panic!("no instruction on {path}"));
        assert!(line < mix && mix < instruction, "what to do stands after the mix on {path}");
        assert!(html.contains("class=\"caution\"") && html.contains("caution-closing"));
    }
}

#[test]
fn the_same_guide_gives_the_same_bytes() {
    assert!(*site() == publish());
}

#[test]
fn schemes_in_no_group_have_a_heading_of_their_own_where_others_are_in_one() {
    let bench = published_demo();
    let headings = || -> Vec<String> {
        assert_eq!(bench.run(&["publish"]).status, 0);
        let page = std::fs::read_to_string(bench.path("published/index.html")).unwrap();
        let page = Html::parse_document(&page);
        select(&page, "h2.group").iter().map(|heading| heading.text().collect()).collect()
    };
    assert!(headings().is_empty());
    bench.replace("content/schemes/fen-warden/scheme.md", "level: steady", "level: steady\ngroup: Wardens");
    assert_eq!(headings(), ["Wardens", "More schemes"]);
    bench.replace("content/guide.yaml", "language: en", "language: de");
    assert_eq!(headings(), ["Wardens", "Weitere Bemalungen"]);
}
