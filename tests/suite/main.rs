//! The tests that see what an author or a reader would see: the real program on real guides, and its pages.
#![expect(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that can't go on has failed")]

mod access;
mod attacks;
mod bad_luck;
mod bench;
mod browser;
mod cards;
mod colours;
mod commands;
mod desk;
mod documents;
mod driver;
mod easel;
mod faults;
mod host;
mod hostile;
mod house_rules;
mod injected;
mod injected_browser;
mod matching;
mod mends;
mod mix;
mod offline;
mod photograph;
mod pictures;
mod plans;
mod policy;
mod reader;
mod search;
mod shop;
mod site;
mod slip;
mod structure;
mod swatches;
mod timers;
mod words;
