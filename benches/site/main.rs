//! What it costs to publish a large guide and to follow it while it is written.
//!
//! `cargo bench --bench site` measures guides of 100, 1,000 and 5,000 schemes; `cargo bench --bench site -- 100 1000` only
//! those. Every figure is of one run of one machine, so look at the ratios:
//!
//! - *publish* against the *floor*: the same sources read, their YAML and Markdown parsed with the same libraries, and the
//!   same bytes written to fresh files, in parallel, and nothing else. Both in turn, several times, medians. Where other
//!   programs run beside it, the ratio of processor time is the steadier one.
//! - publishing *again* where nothing changed, and after one step was *edited*, against *check*.
//! - peak memory of a process that publishes once (`VmHWM`), and how much of it is above one that only checks: that one
//!   holds all of the guide and what was worked out about it.
//! - what working out all pigments costs of that: a shelf of two hundred paints is weighed against all recipes of known
//!   pigments once in a run.
//! - in the easel one file gets another word: from the write until a page with that word has come by the socket, and the
//!   processor time of it against that of a cold publish.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a bench prints figures, and one that can't go on has none"
)]

mod easel;
mod floor;
mod large;
mod meter;

use std::mem;
use std::path::Path;
use std::process::Command;

use maulstick::colour::Shelf;
use maulstick::door::Disk;
use maulstick::guide::resolve;
use maulstick::source;
use maulstick::story::{self, Wanted};
use meter::{Cost, median};
use rayon::prelude::*;

/// As the program has it: what is measured is what it costs there.
#[cfg(target_os = "linux")]
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// How often publish and floor take turns.
const ROUNDS: usize = 3;

/// Up to this many schemes the floor's bytes fit into memory.
const MOST_WITH_FLOOR: usize = 1000;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|argument| argument != "--bench").collect();
    if let [task, folder, out] = arguments.as_slice() {
        return child(task, Path::new(folder), Path::new(out));
    }
    let asked: Vec<usize> = arguments.iter().filter_map(|argument| argument.parse().ok()).collect();
    let sizes = if asked.is_empty() { vec![100, 1000, 5000] } else { asked };
    for schemes in sizes {
        measure(schemes);
    }
}

/// What a process of its own does: one run, told by its cost.
fn child(task: &str, folder: &Path, out: &Path) {
    let cost = match task {
        "publish" => Cost::of(|| {
            let published = story::publish(&Disk::new(folder), out, Wanted::default(), &()).unwrap();
            assert!(published.written.is_some(), "the large guide has errors");
            // As the commands do: they end here.
            mem::forget(published);
        }),
        "pigments" => {
            // Reading is no part of it; pigments wait until they are asked for.
            let guide = resolve(&mut source::read(&Disk::new(folder)).unwrap()).0;
            let shelf = Shelf::of(&guide.paints);
            Cost::of(|| {
                let known = guide.paints.par_iter().filter(|paint| shelf.pigment(&paint.id).is_some()).count();
                assert!(known > 0, "the large guide has paints with colours");
            })
        }
        "check" => Cost::of(|| {
            mem::forget(story::check(&Disk::new(folder)).unwrap());
        }),
        _ => floor::run(folder, out),
    };
    println!("{}", cost.line());
}

fn run(task: &str, folder: &Path, out: &Path) -> Cost {
    let output = Command::new(std::env::current_exe().unwrap()).arg(task).args([folder, out]).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    Cost::read(std::str::from_utf8(&output.stdout).unwrap())
}

/// Gives one step more words.
fn edit(guide: &Path) {
    let step = guide.join("content/schemes/scheme-00042/40-straps.md");
    let text = std::fs::read_to_string(&step).unwrap();
    std::fs::write(step, text + "\nOne more word.\n").unwrap();
}

/// Tells what publishing again costs, and the memory of a check.
fn warm(guide: &Path, site: &Path, again: &Cost) -> f64 {
    let check = run("check", guide, site);
    println!("  check     {:8.2} s, processor {:8.2} s", check.wall, check.processor);
    edit(guide);
    let edited = run("publish", guide, site);
    for (name, cost, why) in [("again ", again, "nothing changed"), ("edited", &edited, "one step changed")] {
        let ratio = cost.processor / check.processor;
        println!("  {name}    {:8.2} s, processor {:8.2} s, {ratio:.2} of check: {why}", cost.wall, cost.processor);
    }
    check.peak_kb as f64
}

fn measure(schemes: usize) {
    let folder = tempfile::tempdir().unwrap();
    let guide = folder.path().join("guide");
    // Each run gets a place of its own, and nothing is deleted before the end: a file system that has just lost many
    // files takes longer for new ones, and that would count for whoever comes next.
    let site = |round: usize| folder.path().join(format!("site-{round}"));
    large::write(&guide, schemes).unwrap();
    let (mut published, mut floors) = (Vec::new(), Vec::new());
    let rounds = if schemes <= MOST_WITH_FLOOR { ROUNDS } else { 1 };
    for round in 0..rounds {
        published.push(run("publish", &guide, &site(round)));
        if schemes <= MOST_WITH_FLOOR {
            floors.push(run("floor", &guide, &site(round)));
        }
    }
    let again = run("publish", &guide, &site(0));
    let (files, bytes) = floor::weigh(&site(0));
    let (sources, source_bytes) = floor::weigh(&guide);
    let wall = median(published.iter().map(|cost| cost.wall));
    let processor = median(published.iter().map(|cost| cost.processor));
    let peak = median(published.iter().map(|cost| cost.peak_kb as f64));
    println!(
        "{schemes} schemes: {sources} sources of {} kB, {files} files of {} MB",
        source_bytes / 1000,
        bytes / 1_000_000
    );
    println!(
        "  publish   {wall:8.2} s, processor {processor:8.2} s, {:6.2} ms a scheme",
        processor * 1000.0 / schemes as f64
    );
    let held = warm(&guide, &site(0), &again);
    let pigments = median((0..ROUNDS).map(|_| run("pigments", &guide, &site(0)).processor));
    println!("  pigments  {:8.2} s of processor: {:.1} % of it", pigments, 100.0 * pigments / processor);
    println!("  peak      {:8.1} MB, {:6.2} kB a file", peak / 1000.0, peak / files as f64);
    println!(
        "  above     {:8.1} MB that the guide itself takes: {:.2} kB a file",
        held / 1000.0,
        (peak - held) / files as f64
    );
    if !floors.is_empty() {
        let floor = median(floors.iter().map(|cost| cost.wall));
        let floor_processor = median(floors.iter().map(|cost| cost.processor));
        println!("  floor     {floor:8.2} s, processor {floor_processor:8.2} s");
        println!("  ratio     {:8.2}  , processor {:8.2}", wall / floor, processor / floor_processor);
    }
    easel::measure(&guide, processor);
}
