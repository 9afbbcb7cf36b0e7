//! The parts of the program from inside, each held against what is known of it: colours, films, orders, rules, plans. One test
//! program for all, so that the library is linked once, and the long ones run beside each other.
#![expect(clippy::unwrap_used, clippy::expect_used, reason = "a test that can't go on has failed")]

mod appearance;
mod cases;
mod colour;
mod film;
mod fuzzing;
mod live;
mod nearest;
mod orders;
mod plan;
#[path = "cases/reading.rs"]
mod reading;
