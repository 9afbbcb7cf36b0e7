//! The tests that see what an author or a reader would see: the real program on real guides, and its pages.
#![expect(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that can't go on has failed")]

mod bad_luck;
mod bench;
mod browser;
mod cards;
mod commands;
mod documents;
mod faults;
mod hostile;
mod house_rules;
mod matching;
mod mends;
mod mix;
mod photograph;
mod pictures;
mod shop;
mod site;
mod swatches;
mod words;
