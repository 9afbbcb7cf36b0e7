//! Feeds `targets::markdown`.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| targets::markdown::run(data));
