//! A file that a book is to take over: CSV of every kind, JSON and GeoJSON.

#![no_main]

use hardpan_book::{Kind, fit_to_take_over, taken_of, text_of};

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    let Ok(text) = text_of(data.to_vec()) else { return };
    let off = |latitude: f64, longitude: f64| Some((longitude * 1e3, latitude));
    let audit = hardpan_book::Audit {
        by: "Ada".to_owned(),
        at: "2026-06-18T15:00:00Z".parse().expect("a moment"),
    };
    for kind in Kind::ALL.iter().copied().map(Some).chain([None]) {
        match taken_of(&text, kind, Some(&off)) {
            Ok(taken) => {
                let _ = fit_to_take_over(&taken, &[], &Default::default(), &audit);
            }
            Err(mistakes) => assert!(mistakes.count() > 0 && !mistakes.to_string().is_empty()),
        }
    }
});
