//! What is done with bytes that nobody vouches for: one function a target, shared by the fuzzer and the tests.
//!
//! Every target takes any bytes at all and panics only where the program broke a promise: it stopped, or a finding has
//! no place.

pub mod front_matter;
pub mod guide;
pub mod markdown;
pub mod mesh;
pub mod paints;
pub mod photo;
pub mod step;
