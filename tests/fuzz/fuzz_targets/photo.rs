//! Feeds `targets::photo`.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| targets::photo::run(data));
