//! Feeds `targets::front_matter`.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| targets::front_matter::run(data));
