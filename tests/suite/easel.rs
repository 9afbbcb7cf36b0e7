//! The live view as an author has it: the real program, real sockets, a real browser.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
#[cfg(unix)]
use std::os::unix::fs::PermissionsExt;
#[cfg(unix)]
use std::process::Command;
use std::process::{Child, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use crate::bench::{self, Bench};
use crate::driver::Browser;
use crate::site::published_demo;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_mins(1);

/// A running easel; it ends when it is dropped.
struct Easel {
    child: Child,
    host: String,
    said: Vec<String>,
}

impl Drop for Easel {
    fn drop(&mut self) {
        // One that has ended already has nothing to be ended.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// What came back.
struct Answer {
    status: u16,
    head: String,
    body: String,
}

impl Easel {
    fn start(bench: &Bench, arguments: &[&str]) -> Self {
        let mut command = bench.command(&[&["easel"], arguments].concat());
        let child = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        let mut easel = Self { child, host: String::new(), said: Vec::new() };
        for line in BufReader::new(easel.child.stdout.take().unwrap()).lines().map(Result::unwrap) {
            if let Some((_, address)) = line.split_once("http://") {
                address.trim_end_matches('/').clone_into(&mut easel.host);
            }
            easel.said.push(line);
            if !easel.host.is_empty() {
                return easel;
            }
        }
        panic!("the easel did not stand: {:?}", easel.said);
    }

    fn over(bench: &Bench) -> Self {
        Self::start(bench, &["--port", "0"])
    }

    fn get(&self, path: &str) -> Answer {
        self.ask("GET", path, &self.host, "")
    }

    /// Sends a request as it is written, whatever a well-behaved client would send.
    fn ask(&self, method: &str, path: &str, host: &str, more: &str) -> Answer {
        let mut stream = TcpStream::connect(&self.host).unwrap();
        write!(stream, "{method} {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n{more}\r\n").unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        let (head, body) = text.split_once("\r\n\r\n").unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        Answer { status, head: head.to_lowercase(), body: body.to_owned() }
    }

    fn news(&self) -> News {
        let mut stream = TcpStream::connect(&self.host).unwrap();
        write!(stream, "GET /.easel/news HTTP/1.1\r\nHost: {}\r\n\r\n", self.host).unwrap();
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        News(BufReader::new(stream))
    }
}

/// The stream of news, as an open page hears it.
struct News(BufReader<TcpStream>);

impl News {
    fn next(&mut self) -> Value {
        loop {
            let mut line = String::new();
            assert!(self.0.read_line(&mut line).unwrap() > 0, "the easel ended");
            if let Some(data) = line.strip_prefix("data: ") {
                return serde_json::from_str(data).unwrap();
            }
        }
    }

    /// The first news for which something holds.
    fn until(&mut self, holds: impl Fn(&Value) -> bool) -> Value {
        let start = Instant::now();
        while start.elapsed() < PATIENCE {
            let news = self.next();
            if holds(&news) {
                return news;
            }
        }
        panic!("nothing of that kind was told");
    }
}

const STEP: &str = "content/schemes/fen-warden/60-reed-cloth.md";

#[test]
fn the_easel_shows_what_would_be_published() {
    let bench = published_demo();
    let easel = Easel::over(&bench);
    let site = bench::files_below(&bench.path("published"));
    for path in ["theme/style/chart.css", "feed.xml", "schemes/fen-warden.html", "paints/bog-iron.html"] {
        let Some(published) = site.get(path) else { continue };
        let answer = easel.get(&format!("/{path}"));
        assert_eq!(answer.status, 200, "{path}");
        let published = String::from_utf8_lossy(published);
        // A page has the live view's script in it, and the live view's policy in place of its own.
        if path.strip_suffix(".html").is_none() {
            assert_eq!(answer.body, published, "{path}");
            continue;
        }
        let behind = |html: &str| html.split_once("<meta name=\"viewport\"").unwrap().1.to_owned();
        assert_eq!(behind(&answer.body), behind(&published), "{path}");
    }
    assert_eq!(easel.get("/").body, easel.get("/index.html").body);
    assert_eq!(easel.get("/paints/").status, 200);
    assert_eq!(easel.get("/nothing.html").status, 404);
    for header in ["content-security-policy: default-src 'none'", "x-content-type-options: nosniff"] {
        assert!(easel.get("/").head.contains(header), "{header}");
    }
}

#[test]
fn strangers_get_nothing() {
    let bench = Bench::demo();
    bench.write("secret.txt", "not for the web").write("content/schemes/fen-warden/notes.txt", "neither");
    let easel = Easel::over(&bench);
    let port = easel.host.rsplit(':').next().unwrap();
    for host in ["fen.example", &format!("fen.example:{port}"), "127.0.0.1", &format!("127.0.0.1.fen.example:{port}")] {
        let answer = easel.ask("GET", "/", host, "");
        assert_eq!((answer.status, answer.body.contains("<html")), (421, false), "{host}");
    }
    for more in ["Origin: https://fen.example\r\n", "Origin: null\r\n", "Sec-Fetch-Site: cross-site\r\n"] {
        assert_eq!(easel.ask("GET", "/.easel/news", &easel.host, more).status, 403, "{more}");
    }
    for method in ["POST", "PUT", "DELETE", "OPTIONS", "PATCH"] {
        let answer = easel.ask(method, "/", &easel.host, "");
        assert_eq!(answer.status, 405, "{method}");
        assert!(answer.head.contains("allow: get, head"), "{method}: {}", answer.head);
    }
    let head = easel.ask("HEAD", "/", &easel.host, "");
    assert_eq!((head.status, head.body.as_str()), (200, ""));
    let outside = [
        "/../secret.txt",
        "/..%2fsecret.txt",
        "/%2e%2e/secret.txt",
        "/schemes/..%5c..%5csecret.txt",
        "//secret.txt",
        "/secret.txt",
        "/content/guide.yaml",
        "/schemes/fen-warden/notes.txt",
        "/%00",
        "/%ff",
    ];
    for path in outside {
        let answer = easel.get(path);
        assert!(matches!(answer.status, 400 | 404), "{path}: {}", answer.status);
        assert!(!answer.body.contains("not for the web") && !answer.body.contains("neither"), "{path}");
    }
    let elsewhere = TcpStream::connect(format!("127.0.0.2:{port}"));
    assert!(elsewhere.is_err(), "the easel listens on another address too");
}

#[test]
fn who_says_nothing_is_not_waited_for() {
    let bench = Bench::demo();
    let easel = Easel::over(&bench);
    let mut silent: Vec<TcpStream> = (0..200).map(|_| TcpStream::connect(&easel.host).unwrap()).collect();
    silent[0].write_all(b"GET / HTTP/1.1\r\nhost: ").unwrap();
    // Those who are let in are sent away after ten seconds, and others come to their turn.
    assert_eq!(easel.get("/").status, 200);
    silent[0].set_read_timeout(Some(PATIENCE)).unwrap();
    let mut rest = Vec::new();
    let _ = silent[0].read_to_end(&mut rest);
    assert!(!String::from_utf8_lossy(&rest).contains(" 200 "), "a question without an end has no answer");
}

#[test]
fn a_guide_that_is_replaced_as_a_whole_is_followed() {
    let bench = Bench::empty();
    for name in ["guide", "other"] {
        bench::copy(&bench::demo_folder().join("content"), &bench.path(&format!("{name}/content")));
    }
    bench.replace("other/content/guide.yaml", "language: en", "language: xx");
    let easel = Easel::start(&bench, &["guide", "--port", "0"]);
    let mut news = easel.news();
    news.next();
    fs::rename(bench.path("guide"), bench.path("old")).unwrap();
    fs::rename(bench.path("other"), bench.path("guide")).unwrap();
    news.until(|state| state["report"].to_string().contains("words-missing"));
    bench.replace("guide/content/guide.yaml", "language: xx", "language: en");
    news.until(|state| !state["report"].to_string().contains("words-missing"));
}

#[cfg(unix)]
#[test]
fn a_file_that_becomes_a_link_is_told_as_in_a_fresh_look() {
    let bench = Bench::demo();
    let easel = Easel::over(&bench);
    let mut news = easel.news();
    news.next();
    let page = bench.path("content/pages/holding-a-brush.md");
    fs::rename(&page, bench.path("elsewhere.md")).unwrap();
    std::os::unix::fs::symlink(bench.path("elsewhere.md"), &page).unwrap();
    let told = news.until(|state| state["report"].to_string().contains("it is a link"));
    let fresh: Value = serde_json::from_str(&bench.run(&["check", "--format", "json"]).out).unwrap();
    assert_eq!(told["report"]["findings"], fresh["findings"]);
}

#[test]
fn a_taken_port_gets_the_next_one() {
    let bench = Bench::demo();
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port();
    let easel = Easel::start(&bench, &["--port", &port.to_string()]);
    assert!(easel.said[0].contains(&format!("Port {port} is taken")), "{:?}", easel.said);
    assert_ne!(easel.host, format!("127.0.0.1:{port}"));
    assert_eq!(easel.get("/").status, 200);
}

#[cfg(unix)]
#[test]
fn an_interrupt_ends_it_at_once_whoever_still_listens() {
    let bench = Bench::demo();
    let mut easel = Easel::over(&bench);
    let mut news = easel.news();
    news.next();
    let start = Instant::now();
    assert!(Command::new("kill").args(["-INT", &easel.child.id().to_string()]).status().unwrap().success());
    let status = easel.child.wait().unwrap();
    assert!(status.success(), "{status}");
    assert!(start.elapsed() < Duration::from_secs(5), "it took {:?}", start.elapsed());
}

#[test]
fn a_broken_step_leaves_the_rest_and_is_named_by_file_and_line() {
    let bench = Bench::demo();
    let easel = Easel::over(&bench);
    let mut news = easel.news();
    assert_eq!(news.next()["report"]["counts"]["error"], 0);
    let whole = fs::read_to_string(bench.path(STEP)).unwrap();
    bench.write(STEP, whole.replacen("title:", "titel:", 1));
    let line = bench.line_of(STEP, "titel:");
    let told = news.until(|news| news["report"]["counts"]["error"].as_u64() > Some(0));
    let found = told["report"]["findings"].as_array().unwrap();
    assert!(
        found.iter().any(|one| one["rule"] == "unknown-key" && one["file"] == STEP && one["line"] == line),
        "{found:?}"
    );
    let page = easel.get("/schemes/fen-warden.html");
    assert_eq!(page.status, 200);
    assert!(page.body.contains("amber-shell") && page.body.contains("reed-cloth"), "the rest is missing");
    bench.write(STEP, whole);
    let told = news.until(|news| news["report"]["counts"]["error"] == 0);
    assert!(told["revision"].as_u64() > Some(1));
}

#[test]
fn every_way_of_saving_is_noticed() {
    let bench = Bench::demo();
    let easel = Easel::over(&bench);
    let mut news = easel.news();
    news.next();
    let whole = fs::read_to_string(bench.path(STEP)).unwrap();
    let title = |new: &str| {
        let line = whole.lines().find(|line| line.starts_with("title:")).unwrap();
        whole.replacen(line, &format!("title: {new}"), 1)
    };
    let shows = |news: &mut News, text: &str| {
        let start = Instant::now();
        while !easel.get("/schemes/fen-warden.html").body.contains(text) {
            assert!(start.elapsed() < PATIENCE, "'{text}' is not shown");
            news.next();
        }
    };
    // By a new file that takes the old one's name.
    bench.write("content/schemes/fen-warden/.60.swp", title("By another name"));
    fs::rename(bench.path("content/schemes/fen-warden/.60.swp"), bench.path(STEP)).unwrap();
    shows(&mut news, "By another name");
    // In pieces, with a pause in the middle.
    let text = title("In two pieces");
    bench.write(STEP, &text[..text.len() / 2]);
    thread::sleep(Duration::from_millis(300));
    bench.write(STEP, &text);
    shows(&mut news, "In two pieces");
    // Away and back.
    fs::remove_file(bench.path(STEP)).unwrap();
    thread::sleep(Duration::from_millis(300));
    bench.write(STEP, title("Back again"));
    shows(&mut news, "Back again");
    // A whole scheme that moves, and many files at once.
    bench::copy(&bench.path("content/schemes/fen-warden"), &bench.path("copied"));
    fs::rename(bench.path("copied"), bench.path("content/schemes/second-warden")).unwrap();
    let start = Instant::now();
    while easel.get("/schemes/second-warden/60-reed-cloth.html").status != 200 {
        assert!(start.elapsed() < PATIENCE, "the new scheme is not shown");
        news.next();
    }
    fs::rename(bench.path("content/schemes/second-warden"), bench.path("content/schemes/third-warden")).unwrap();
    let start = Instant::now();
    while easel.get("/schemes/third-warden.html").status != 200
        || easel.get("/schemes/second-warden.html").status != 404
    {
        assert!(start.elapsed() < PATIENCE, "the moved scheme is not shown");
        news.next();
    }
    // The whole content gone, and there again.
    fs::rename(bench.path("content"), bench.path("elsewhere")).unwrap();
    let told = news.until(|news| !news["trouble"].is_null());
    assert!(told["trouble"].as_str().unwrap().contains("content"), "{told}");
    assert_eq!(easel.get("/index.html").status, 200, "what was read last is shown");
    fs::rename(bench.path("elsewhere"), bench.path("content")).unwrap();
    news.until(|news| news["trouble"].is_null());
}

#[cfg(unix)]
#[test]
fn a_guide_that_goes_away_and_comes_back_is_followed_again() {
    let bench = Bench::demo();
    let easel = Easel::over(&bench);
    let mut news = easel.news();
    let away = |from: &str, to: &str| fs::rename(bench.path(from), bench.path(to)).unwrap();
    away("content", "aside");
    news.until(|news| news["trouble"].is_string());
    assert_eq!(easel.get("/index.html").status, 200, "what was read last is shown");
    away("aside", "content");
    news.until(|news| news["trouble"].is_null());
    bench.replace("content/guide.yaml", "Painting Book", "Painting Tome");
    news.until(|_| easel.get("/index.html").body.contains("Painting Tome"));
    // What is no file, and a link that leads out, is a finding and not waited for.
    let made = Command::new("mkfifo").arg(bench.path("content/pages/pipe.md")).status().unwrap();
    assert!(made.success());
    std::os::unix::fs::symlink("/etc/hostname", bench.path("content/pages/host.md")).unwrap();
    let told = news.until(|news| news["report"].to_string().matches("file-refused").count() == 2);
    assert!(told["trouble"].is_null(), "{told}");
}

#[cfg(unix)]
#[test]
fn open_asks_the_system_for_a_browser() {
    let bench = Bench::demo();
    let opener = bench.path("bin/xdg-open");
    bench.write("bin/xdg-open", format!("#!/bin/sh\necho \"$1\" > {}\n", bench.path("opened").display()));
    fs::set_permissions(&opener, fs::Permissions::from_mode(0o755)).unwrap();
    let path = format!("{}:{}", bench.path("bin").display(), std::env::var("PATH").unwrap());
    let mut command = bench.command(&["easel", "--port", "0", "--open"]);
    let child = command.env("PATH", path).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let _easel = Easel { child, host: String::new(), said: Vec::new() };
    let start = Instant::now();
    while !fs::read_to_string(bench.path("opened")).is_ok_and(|opened| opened.ends_with('\n')) {
        assert!(start.elapsed() < PATIENCE, "no browser was asked for");
        thread::sleep(Duration::from_millis(50));
    }
    assert!(fs::read_to_string(bench.path("opened")).unwrap().starts_with("http://127.0.0.1:"));
}

/// Waits until a script in the page says yes.
async fn until(browser: &Browser, script: &str) {
    let start = Instant::now();
    while browser.ask(&format!("return Boolean({script})")).await.unwrap() != json!(true) {
        assert!(start.elapsed() < PATIENCE, "never came true: {script}");
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
}

#[test]
#[ignore = "needs chromium and chromedriver; tests/run.sh brings them"]
fn an_open_page_takes_the_change_in_its_place() {
    let bench = Bench::demo();
    let easel = Easel::over(&bench);
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let browser = Browser::start().await.unwrap();
        browser.driver.goto(format!("http://{}/schemes/fen-warden.html", easel.host)).await.unwrap();
        until(&browser, "document.querySelector('.easel-bar') && document.readyState === 'complete'").await;
        // What a reader and a page's own script did to the page: a tick, typed text, a class, focus, the place in the text.
        browser
            .ask(
                "window.same = 1; document.documentElement.classList.add('reading');
                 const step = document.getElementById('60-reed-cloth');
                 const tick = Object.assign(document.createElement('input'), { type: 'checkbox', id: 'tick', checked: true });
                 const typed = Object.assign(document.createElement('input'), { id: 'typed', value: 'half a line' });
                 step.prepend(tick, typed); step.scrollIntoView({ behavior: 'instant' });
                 typed.focus({ preventScroll: true }); return 1;",
            )
            .await
            .unwrap();
        let before = browser.ask("return Math.round(scrollY)").await.unwrap();
        assert!(before.as_u64() > Some(100), "{before}");
        let line = fs::read_to_string(bench.path(STEP)).unwrap();
        let line = line.lines().find(|line| line.starts_with("title:")).unwrap().to_owned();
        let start = Instant::now();
        bench.replace(STEP, &line, "title: Cloth of the deep reeds");
        until(&browser, "document.body.textContent.includes('Cloth of the deep reeds')").await;
        let shown = start.elapsed();
        let kept = browser
            .ask(
                "const of = id => document.getElementById(id);
                 return [window.same, document.documentElement.className, of('tick').checked, of('typed').value, document.activeElement.id, \
                 of('tick').closest('#\\\\36 0-reed-cloth') !== null]",
            )
            .await
            .unwrap();
        assert_eq!(kept, json!([1, "reading", true, "half a line", "typed", true]), "after {shown:?}");
        let after = browser.ask("return Math.round(scrollY)").await.unwrap();
        assert!(after.as_i64().unwrap().abs_diff(before.as_i64().unwrap()) < 60, "from {before} to {after}");
        // A broken step: the bar names it by file and line, and the rest of the page stands.
        let broken = bench.replace(STEP, "title:", "titel:").line_of(STEP, "titel:");
        until(&browser, &format!("document.querySelector('.easel-bar').textContent.includes('{STEP}:{broken}:')")).await;
        until(&browser, "document.querySelector('.easel-bar').checkVisibility() && document.getElementById('tick').checked").await;
        bench.replace(STEP, "titel:", "title:");
        until(&browser, "document.querySelector('.easel-bar').hidden").await;
        // Another style comes without the page being loaded anew.
        let style = fs::read_to_string(bench::demo_folder().join("themes/chart/style/chart.css")).unwrap();
        bench.write("themes/chart/style/chart.css", style + "\nh1 { letter-spacing: 7px }\n");
        until(&browser, "getComputedStyle(document.querySelector('h1')).letterSpacing === '7px' && window.same === 1").await;
        // A browser holds six connections to one host. Pages that nobody looks at give theirs back, so that the eighth comes
        // and hears of a change.
        browser.driver.set_page_load_timeout(PATIENCE).await.unwrap();
        for _ in 0..7 {
            let tab = browser.driver.new_tab().await.unwrap();
            browser.driver.switch_to_window(tab).await.unwrap();
            browser.driver.goto(format!("http://{}/schemes/fen-warden.html", easel.host)).await.unwrap();
            until(&browser, "document.querySelector('.easel-bar') && document.readyState === 'complete'").await;
        }
        bench.replace(STEP, "Cloth of the deep reeds", "Cloth of the tall reeds");
        until(&browser, "document.body.textContent.includes('Cloth of the tall reeds')").await;
        let log = browser.driver.get_log("browser").await.unwrap_or_default();
        let severe: Vec<String> = log.iter().map(|entry| format!("{entry:?}")).filter(|one| one.contains("SEVERE")).collect();
        assert!(severe.is_empty(), "{}", severe.join("\n"));
        browser.driver.clone().quit().await.unwrap();
    });
}
