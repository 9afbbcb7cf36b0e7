//! The tests that see what an author or a reader would see: the real program on real guides, and its pages.
#![expect(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that can't go on has failed")]

mod access;
mod attacks;
mod bad_luck;
mod bare;
mod begun;
mod bench;
mod bounds;
mod browser;
mod cards;
mod colours;
mod commands;
mod compare;
mod demo_colours;
mod demo_words;
mod desk;
#[cfg(unix)]
mod disks;
mod documents;
mod drawn;
mod driver;
mod easel;
mod faults;
mod host;
mod hostile;
mod house_rules;
mod house_rules_circles;
mod injected;
mod injected_browser;
mod inputs;
mod killed;
mod matching;
mod measures;
mod mends;
mod mix;
mod offline;
#[cfg(unix)]
mod paths;
mod photograph;
mod pictures;
mod plans;
mod policy;
mod promises;
mod reader;
mod said_first;
mod scripts;
mod search;
mod seen;
mod shapes;
mod shop;
mod site;
mod slip;
mod structure;
mod swatches;
mod tagged;
mod timers;
mod tongues;
#[cfg(unix)]
mod underneath;
mod versions;
#[cfg(windows)]
mod windows;
mod words;
