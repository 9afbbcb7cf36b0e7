//! The tests that see what an author or a reader would see: the real program on real guides, and its pages.

mod bench;
mod browser;
mod commands;
mod documents;
mod faults;
mod house_rules;
mod site;
