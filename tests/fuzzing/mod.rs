//! The fuzz targets within bounds that a test can have: their seeds, and the same seeds spoiled with fixed dice.

#[expect(unreachable_pub, reason = "for the fuzzer the same files are a library")]
#[path = "../fuzz/targets/mod.rs"]
mod targets;

mod guides;

use std::fs;
use std::path::Path;

use proptest::prelude::Rng;
use proptest::test_runner::{RngAlgorithm, TestRng};

/// The longest input, in bytes; one that grows by repetition is cut there.
const LONGEST: usize = 8_000;

/// Signs and words that readers of files stumble over.
const SPICES: &[&[u8]] = &[
    b"\0",
    b"\t",
    b"\r\n",
    b"---\n",
    b"\xff\xfe",
    b"\xef\xbb\xbf",
    b"1e309",
    b"NaN",
    b"-1",
    b"[[[[",
    b"{a: {a: ",
    b"*a",
    b"&a ",
    b": ",
    b"<div>",
    b"](",
    b"> > > ",
    b"99999999999999999999",
    b"\xe2\x80\xae",
    b"\xff\xd9",
    b"100%",
    b"0 ml",
];

/// So many times more than usual, for a long run (`tests/longer.sh`).
pub(crate) fn times() -> usize {
    std::env::var("MAULSTICK_TIMES").ok().and_then(|times| times.parse().ok()).unwrap_or(1)
}

/// The seeds of a target, sorted by name.
fn seeds(target: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/seeds").join(target);
    let mut paths: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    assert!(!paths.is_empty(), "{target} has no seeds");
    paths.into_iter().map(|path| fs::read(path).unwrap()).collect()
}

/// Spoils some bytes in one to four places: one turned, one lost, a stretch doubled, a spice put in, the end cut off.
fn spoil(bytes: &mut Vec<u8>, dice: &mut TestRng) {
    for _ in 0..=dice.next_u32() % 4 {
        let mut below = |most: usize| dice.next_u32() as usize % most.max(1);
        let at = below(bytes.len());
        match below(5) {
            0 if !bytes.is_empty() => bytes[at] ^= 1 << below(8),
            1 if !bytes.is_empty() => drop(bytes.remove(at)),
            2 => {
                let end = (at + below(200)).min(bytes.len());
                let stretch = bytes[at..end].repeat(1 + below(4));
                bytes.splice(at..at, stretch);
            }
            3 => drop(bytes.splice(at..at, SPICES[below(SPICES.len())].iter().copied())),
            _ => bytes.truncate(at + below(200)),
        }
    }
    bytes.truncate(LONGEST);
}

/// Runs a target on its seeds, then on so many spoiled ones.
fn smoke(target: &str, run: impl Fn(&[u8]), turns: usize) {
    let seeds = seeds(target);
    for seed in &seeds {
        run(seed);
    }
    let mut dice = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    for turn in 0..turns * times() {
        let mut bytes = seeds[turn % seeds.len()].clone();
        spoil(&mut bytes, &mut dice);
        run(&bytes);
    }
}

#[test]
fn front_matter() {
    smoke("front_matter", targets::front_matter::run, 400);
}

#[test]
fn step() {
    smoke("step", targets::step::run, 12);
}

#[test]
fn paints() {
    smoke("paints", targets::paints::run, 60);
}

#[test]
fn mesh() {
    smoke("mesh", targets::mesh::run, 400);
}

#[test]
fn photo() {
    smoke("photo", targets::photo::run, 400);
}

#[test]
fn markdown() {
    smoke("markdown", targets::markdown::run, 150);
}
