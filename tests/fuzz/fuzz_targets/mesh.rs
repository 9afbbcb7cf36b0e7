//! Feeds `targets::mesh`.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| targets::mesh::run(data));
