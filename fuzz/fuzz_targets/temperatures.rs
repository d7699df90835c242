#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| hardpan_files::fuzz_entry::fuzz_temperatures(data));
