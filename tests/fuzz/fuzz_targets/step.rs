//! Feeds `targets::step`.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| targets::step::run(data));
