//! Feeds `targets::paints`.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| targets::paints::run(data));
