//! One edit in the easel: from the write until the changed page has come by the socket.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use crate::meter::{median, processor};

/// How many edits are made.
const EDITS: usize = 15;

/// The easel's process; it ends when it is dropped.
struct Easel(Child);

impl Drop for Easel {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// Measures edits of a step, of a paint and of a scheme's heading.
pub(crate) fn measure(guide: &Path, cold: f64) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_maulstick"));
    command.arg("easel").arg(guide).args(["--port", "0"]).stdout(Stdio::piped()).stderr(Stdio::null());
    let start = Instant::now();
    let mut easel = Easel(command.spawn().unwrap());
    let mut first = String::new();
    BufReader::new(easel.0.stdout.take().unwrap()).read_line(&mut first).unwrap();
    let host = first.split("http://").nth(1).unwrap().trim().trim_end_matches('/').to_owned();
    println!("  easel     {:8.2} s until it stands", start.elapsed().as_secs_f64());
    let scheme = "content/schemes/scheme-00042";
    let page = "/schemes/scheme-00042.html";
    let cases = [
        ("a step", format!("{scheme}/30-cloth.md"), "minutes: 10\n", page, "of 42"),
        ("a heading", format!("{scheme}/scheme.md"), "## Before you begin", page, "Before you begin"),
        ("a paint", "content/paints/mere.yaml".to_owned(), "name: green 2,", page, "green 2"),
    ];
    for (what, file, old, page, word) in cases {
        let (time, cost) = edits(&easel, &host, &guide.join(file), old, page, word);
        println!(
            "  {what:<9} {:8.1} ms to the changed page, processor {:6.1} ms: {:.2} % of a cold publish",
            time * 1e3,
            cost * 1e3,
            cost * 100.0 / cold
        );
    }
}

/// The median time of an edit, and the processor time of one.
fn edits(easel: &Easel, host: &str, file: &Path, old: &str, page: &str, word: &str) -> (f64, f64) {
    let text = fs::read_to_string(file).unwrap();
    let process = easel.0.id().to_string();
    let mut news = BufReader::new(ask(host, "/.easel/news"));
    wait_for_news(&mut news);
    let before = processor(&process);
    let times: Vec<f64> = (0..EDITS)
        .map(|turn| {
            // What reaches the reader depends on the kind of edit; a number in the text shows that it is this very one.
            let mark = format!("mark{turn}x");
            let new = match old {
                "minutes: 10\n" => text.replacen("of 42", &format!("of 42 {mark}"), 1),
                "## Before you begin" => text.replacen(old, &format!("{old} {mark}"), 1),
                _ => text.replacen("name: green 2,", &format!("name: green 2 {mark},"), 1),
            };
            assert!(new.contains(&mark) && text.contains(word), "{word} is not in {}", file.display());
            thread::sleep(Duration::from_millis(60));
            let start = Instant::now();
            fs::write(file, new).unwrap();
            loop {
                wait_for_news(&mut news);
                let mut answer = String::new();
                ask(host, page).read_to_string(&mut answer).unwrap();
                if answer.contains(&mark) {
                    return start.elapsed().as_secs_f64();
                }
            }
        })
        .collect();
    let cost = (processor(&process) - before) / EDITS as f64;
    fs::write(file, text).unwrap();
    wait_for_news(&mut news);
    (median(times.into_iter()), cost)
}

fn ask(host: &str, path: &str) -> TcpStream {
    let mut stream = TcpStream::connect(host).unwrap();
    write!(stream, "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").unwrap();
    stream
}

fn wait_for_news(news: &mut impl BufRead) {
    let mut line = String::new();
    while !line.starts_with("data:") {
        line.clear();
        assert!(news.read_line(&mut line).unwrap() > 0, "the easel ended");
    }
}
