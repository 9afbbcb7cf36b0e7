//! **Shop**: what has to be bought.

mod bottles;

pub use bottles::{Pick, choose};
