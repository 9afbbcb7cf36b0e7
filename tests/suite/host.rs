//! A small web host for one folder, which can go down and can be half way through replacing a site.

use std::collections::BTreeMap;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread;

/// A host that serves until the test ends.
pub(crate) struct Host {
    port: u16,
    served: Arc<Served>,
}

struct Served {
    folder: PathBuf,
    /// The path on the host at which the folder stands.
    below: &'static str,
    down: AtomicBool,
    /// Files that are served instead of those in the folder.
    instead: Mutex<BTreeMap<String, Vec<u8>>>,
}

impl Host {
    /// Serves a folder at a path such as `/fen/`.
    pub(crate) fn start(folder: PathBuf, below: &'static str) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let port = listener.local_addr().unwrap().port();
        let served = Arc::new(Served { folder, below, down: AtomicBool::new(false), instead: Mutex::default() });
        let shared = Arc::clone(&served);
        thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let served = Arc::clone(&shared);
                thread::spawn(move || served.answer(&stream));
            }
        });
        Self { port, served }
    }

    /// Where the folder begins.
    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}{}", self.port, self.served.below)
    }

    /// Takes the host away, or brings it back.
    pub(crate) fn set_down(&self, down: bool) {
        self.served.down.store(down, Ordering::SeqCst);
    }

    /// Serves other bytes for one file; none: its own again.
    pub(crate) fn set_instead(&self, path: &str, bytes: Option<Vec<u8>>) {
        let mut instead = self.served.instead.lock().unwrap();
        match bytes {
            Some(bytes) => _ = instead.insert(path.to_owned(), bytes),
            None => _ = instead.remove(path),
        }
    }
}

impl Served {
    /// Reads one request and answers it; a host that is down hangs up.
    fn answer(&self, mut stream: &TcpStream) {
        let mut lines = BufReader::new(stream).lines().map_while(Result::ok);
        let Some(request) = lines.next() else { return };
        let _headers: Vec<String> = lines.take_while(|line| !line.is_empty()).collect();
        if self.down.load(Ordering::SeqCst) {
            return;
        }
        let path = request.split(' ').nth(1).unwrap_or_default().split('?').next().unwrap_or_default();
        let path = percent_encoding::percent_decode_str(path).decode_utf8_lossy();
        let found = path.strip_prefix(self.below).filter(|inside| !inside.contains("..")).and_then(|inside| {
            let inside = if inside.is_empty() { "index.html" } else { inside };
            let instead = self.instead.lock().unwrap().get(inside).cloned();
            let bytes = instead.or_else(|| fs::read(self.folder.join(inside)).ok())?;
            Some((kind(inside), bytes))
        });
        let (status, kind, bytes) = match found {
            Some((kind, bytes)) => ("200 OK", kind, bytes),
            None => ("404 Not Found", "text/plain", b"nothing here".to_vec()),
        };
        let head = format!(
            "HTTP/1.1 {status}\r\ncontent-type: {kind}\r\ncontent-length: {}\r\ncache-control: no-cache\r\nconnection: close\r\n\r\n",
            bytes.len()
        );
        // A browser may have hung up in the meantime.
        let _ = stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(&bytes));
    }
}

fn kind(path: &str) -> &'static str {
    match path.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css",
        "js" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" => "image/jpeg",
        "woff2" => "font/woff2",
        _ => "application/octet-stream",
    }
}
