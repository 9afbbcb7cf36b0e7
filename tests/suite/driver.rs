//! A real browser, driven as a reader's hand would: opened pages, clicks, keys, touches.

use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};
use thirtyfour::prelude::*;

use crate::bench::Bench;
use crate::host::Host;
use crate::site::published_demo;

/// One page of every kind.
pub(crate) const PAGES: &[&str] = &[
    "index.html",
    "schemes/fen-warden.html",
    "schemes/fen-warden/50-amber-shell.html",
    "schemes/fen-warden/shopping.html",
    "schemes/fen-warden/source.html",
    "schemes/reed-boat.html",
    "paints/index.html",
    "paints/bog-iron.html",
    "stages/index.html",
    "stages/glaze.html",
    "tags/index.html",
    "armies/fen-watch.html",
    "armies/fen-watch/shopping.html",
    "armies/fen-watch/tick-grid.html",
    "colours.html",
    "pages/holding-a-brush.html",
    "checks.html",
    "search.html",
    "device.html",
];

/// A browser with its driver; both end when it is dropped.
pub(crate) struct Browser {
    pub(crate) driver: WebDriver,
    _process: Process,
    _profile: tempfile::TempDir,
}

/// The driver's process; it ends when it is dropped.
struct Process(Child);

impl Process {
    fn start(port: u16) -> Self {
        let mut command = Command::new("chromedriver");
        command.arg(format!("--port={port}")).stdout(Stdio::null()).stderr(Stdio::null());
        Self(command.spawn().expect("chromedriver is not installed; tests/run.sh brings it"))
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        // A driver that has ended already has nothing to be ended.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

impl Browser {
    pub(crate) async fn start() -> WebDriverResult<Self> {
        let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        let process = Process::start(port);
        for _ in 0..100 {
            if TcpStream::connect(("127.0.0.1", port)).is_ok() {
                break;
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
        let profile = tempfile::tempdir().unwrap();
        let data = format!("--user-data-dir={}", profile.path().display());
        let mut wanted = DesiredCapabilities::chrome();
        for argument in [
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            &data,
        ] {
            wanted.add_arg(argument)?;
        }
        wanted.set("goog:loggingPrefs", json!({ "browser": "ALL" }))?;
        let driver = WebDriver::new(format!("http://127.0.0.1:{port}"), wanted).await?;
        Ok(Self { driver, _process: process, _profile: profile })
    }

    /// Opens a page at a width, in light or dark.
    pub(crate) async fn open(&self, site: &Path, page: &str, width: u32, dark: bool) -> WebDriverResult<()> {
        let scheme = if dark { "dark" } else { "light" };
        self.command(
            "Emulation.setEmulatedMedia",
            json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] }),
        )
        .await?;
        let metrics = json!({ "width": width, "height": 900, "deviceScaleFactor": 1, "mobile": false });
        self.command("Emulation.setDeviceMetricsOverride", metrics).await?;
        self.driver.goto(format!("file://{}/{page}", site.display())).await?;
        self.ask("return document.fonts.ready.then(() => true)").await?;
        Ok(())
    }

    /// Opens an address.
    pub(crate) async fn goto(&self, address: &str) -> WebDriverResult<()> {
        self.driver.goto(address).await?;
        self.ask("return document.fonts.ready.then(() => true)").await?;
        Ok(())
    }

    /// Clicks the first element that a selector finds, scrolled into sight.
    pub(crate) async fn click(&self, selector: &str) -> WebDriverResult<()> {
        let element = self.driver.find(By::Css(selector)).await?;
        let bar = "const e = arguments[0]; e.scrollIntoView({ block: 'center', behavior: 'instant' });";
        self.driver.execute(bar, vec![element.to_json()?]).await?;
        element.click().await
    }

    /// Writes a text into a field, over what stands there.
    pub(crate) async fn write(&self, selector: &str, text: &str) -> WebDriverResult<()> {
        self.click(selector).await?;
        let field = self.driver.find(By::Css(selector)).await?;
        field.send_keys(Key::Control + "a").await?;
        field.send_keys(text).await
    }

    /// Presses keys where the focus is.
    pub(crate) async fn press(&self, keys: impl Into<TypingData>) -> WebDriverResult<()> {
        self.driver.action_chain().send_keys(keys).perform().await
    }

    /// Waits until an expression holds, and says what it was when it does not.
    pub(crate) async fn wait(&self, expression: &str) -> WebDriverResult<()> {
        for _ in 0..100 {
            if self.ask(&format!("return !!({expression})")).await? == true {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
        let page = self.ask("return location.href + '\\n' + document.body.innerText").await?;
        panic!("{expression} does not come true on {}", page.as_str().unwrap_or_default());
    }

    /// What an expression gives as text.
    pub(crate) async fn text(&self, expression: &str) -> WebDriverResult<String> {
        Ok(self.ask(&format!("return String({expression})")).await?.as_str().unwrap_or_default().to_owned())
    }

    /// Runs a script in every page before its own scripts.
    pub(crate) async fn before_pages(&self, script: &str) -> WebDriverResult<()> {
        self.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await?;
        Ok(())
    }

    /// Switches the pages' own scripts off or on.
    pub(crate) async fn block_scripts(&self, blocked: bool) -> WebDriverResult<()> {
        self.command("Emulation.setScriptExecutionDisabled", json!({ "value": blocked })).await?;
        Ok(())
    }

    pub(crate) async fn command(&self, name: &str, parameters: Value) -> WebDriverResult<Value> {
        self.driver.cdp().send_raw(name, parameters).await
    }

    pub(crate) async fn ask(&self, script: &str) -> WebDriverResult<Value> {
        Ok(self.driver.execute(script, Vec::new()).await?.json().clone())
    }
}

/// Runs a conversation with a browser over the published demo guide.
pub(crate) fn in_browser(talk: impl AsyncFnOnce(&Browser, &Path) -> WebDriverResult<()>) {
    let bench = published_demo();
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let browser = Browser::start().await.unwrap();
        talk(&browser, &bench.path("published")).await.unwrap();
        browser.driver.clone().quit().await.unwrap();
    });
}

/// The demo guide published, with the program's folder, and the two ways in which a reader comes to it: by double
/// click, and from a web host where it stands in a folder.
pub(crate) struct Published {
    pub(crate) bench: Bench,
    pub(crate) host: Host,
}

impl Published {
    /// The published folder.
    pub(crate) fn site(&self) -> PathBuf {
        self.bench.path("published")
    }

    /// The addresses under which the guide begins.
    pub(crate) fn ways(&self) -> [String; 2] {
        [format!("file://{}/", self.site().display()), self.host.address()]
    }

    /// Publishes again after a change.
    pub(crate) fn publish(&self) {
        let run = self.bench.run(&["publish"]);
        assert_eq!(run.status, 0, "{}", run.err);
    }
}

/// Runs a conversation with a browser over the published demo guide, on disk and on a web host.
pub(crate) fn with_reader(talk: impl AsyncFnOnce(&Browser, &Published) -> WebDriverResult<()>) {
    let bench = published_demo();
    let host = Host::start(bench.path("published"), "/fen/");
    let published = Published { bench, host };
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let browser = Browser::start().await.unwrap();
        talk(&browser, &published).await.unwrap();
        browser.driver.clone().quit().await.unwrap();
    });
}
