//! The policy by which a browser runs and loads nothing from elsewhere, word for word: on every page, in every file that is
//! a page in one piece, and on every answer of the easel.

use base64::Engine as _;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::Stdio;

use scraper::{Html, Selector};
use sha2::{Digest as _, Sha256};

use crate::bench::{Bench, files_below};
use crate::site::published_demo;

/// A page of the site.
const SITE: &str = "default-src 'none'; script-src 'self'; worker-src 'self'; manifest-src 'self'; style-src 'self'; \
    font-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'";

/// A page in one file: its style stands in it, and nothing runs.
const SINGLE: &str = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; \
    form-action 'none'";

/// An answer of the easel, whose pages are told of changes and are shown in no frame.
const EASEL: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; \
    media-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

#[test]
fn every_page_and_every_single_file_begins_with_its_policy() {
    let bench = published_demo();
    let run = bench.run(&["publish", ".", "--single"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let head = Selector::parse("head > *").unwrap();
    let styled = Selector::parse("[style]").unwrap();
    let (mut pages, mut singles) = (0, 0);
    for (path, bytes) in files_below(&bench.path("published")) {
        if path.rsplit_once('.').is_none_or(|(_, ending)| ending != "html") {
            continue;
        }
        let page = Html::parse_document(&String::from_utf8(bytes).unwrap());
        let single = path.starts_with("single/");
        let mut first = page.select(&head).map(|element| element.value());
        assert_eq!(first.next().and_then(|element| element.attr("charset")), Some("utf-8"), "{path}");
        let policy = first.next().unwrap();
        assert_eq!(policy.attr("http-equiv"), Some("Content-Security-Policy"), "{path}");
        let mut content = policy.attr("content").unwrap().to_owned();
        // The page for a lost address brings a style along, which the policy knows by its sum.
        if path == "404.html" {
            let style = page.select(&Selector::parse("style").unwrap()).next().unwrap().inner_html();
            let sum = base64::engine::general_purpose::STANDARD.encode(Sha256::digest(style));
            content = content.replace(&format!(" 'sha256-{sum}'"), "");
        }
        assert_eq!(content, if single { SINGLE } else { SITE }, "{path}");
        assert_eq!(page.select(&styled).count(), 0, "{path} has a style that the policy would stop");
        if single {
            let scripts = Selector::parse("script, link[rel=stylesheet]").unwrap();
            assert_eq!(page.select(&scripts).count(), 0, "{path}");
            singles += 1;
        } else {
            pages += 1;
        }
    }
    assert!(pages > 60 && singles == 10, "{pages} pages, {singles} single files");
}

#[test]
fn no_policy_lets_a_script_run_that_is_not_the_sites() {
    for policy in [SITE, SINGLE, EASEL] {
        let rule = |name: &str| policy.split("; ").find_map(|rule| rule.strip_prefix(name)).map(str::trim);
        assert_eq!(rule("default-src "), Some("'none'"));
        assert!(matches!(rule("script-src "), None | Some("'self'")), "{policy}");
        assert_eq!((rule("base-uri "), rule("form-action ")), (Some("'none'"), Some("'none'")));
        assert!(!policy.contains('*') && !policy.contains("http") && !policy.contains("unsafe-eval"), "{policy}");
    }
}

#[test]
fn every_answer_of_the_easel_has_its_policy() {
    let bench = Bench::demo();
    let mut easel =
        bench.command(&["easel", "--port", "0"]).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let lines = BufReader::new(easel.stdout.take().unwrap()).lines().map(Result::unwrap);
    let host = lines.into_iter().find_map(|line| Some(line.split_once("http://")?.1.trim_end_matches('/').to_owned()));
    let host = host.expect("an address");
    let mut heads = Vec::new();
    for path in ["/", "/schemes/fen-warden.html", "/armies/fen-watch.html", "/theme/style/chart.css", "/nothing.html"] {
        let mut stream = TcpStream::connect(&host).unwrap();
        write!(stream, "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        heads.push((path, text.split_once("\r\n\r\n").unwrap().0.to_owned()));
    }
    easel.kill().unwrap();
    easel.wait().unwrap();
    for (path, head) in heads {
        let told = head.lines().filter_map(|line| line.split_once(": "));
        let policies: Vec<&str> = told
            .filter(|(name, _)| name.eq_ignore_ascii_case("content-security-policy"))
            .map(|(_, rule)| rule)
            .collect();
        assert_eq!(policies, [EASEL], "{path}");
    }
}

#[test]
fn the_columns_of_a_table_need_no_style_of_their_own() {
    for raw_html in ["", "\nraw-html: true"] {
        let bench = Bench::empty();
        bench.run(&["start", "mine"]);
        bench.replace("mine/content/guide.yaml", "language: en", &format!("language: en{raw_html}"));
        let table = "\n| paint | parts | how |\n| --- | ---: | :---: |\n| Moss | 3 | by brush |\n";
        for file in ["pages/about.md", "schemes/first-figure/scheme.md", "schemes/first-figure/30-green-coat.md"] {
            let path = bench.path(&format!("mine/content/{file}"));
            std::fs::write(&path, std::fs::read_to_string(&path).unwrap() + table).unwrap();
        }
        let run = bench.run(&["publish", "mine", "--single"]);
        assert_eq!(run.status, 0, "{}", run.err);
        let mut with_table = 0;
        for (path, bytes) in files_below(&bench.path("mine/published")) {
            let text = String::from_utf8_lossy(&bytes);
            assert!(!text.contains("style=\"text-align"), "{path}");
            if text.contains("<td class=\"to-right\">3</td><td class=\"to-middle\">by brush</td>") {
                assert!(text.contains("<th class=\"to-right\">parts</th>"), "{path}");
                with_table += 1;
            }
        }
        assert!(with_table >= 3, "{with_table} pages show the table");
        let style = std::fs::read_to_string(bench.path("mine/published/theme/style/chart.css")).unwrap();
        for class in [".to-left", ".to-middle", ".to-right"] {
            assert!(style.contains(class), "{class}");
        }
    }
}
