//! Reading a flight, with everything wrong in it shown.

use crate::failure::Failure;
use crate::screen;
use hardpan_files::{FileSource, Reading, Sources, read_flight, render};
use hardpan_model::Flight;
use hardpan_report::Produced;
use sha2::{Digest as _, Sha256};

/// Digits of the digest that are shown.
const DIGITS: usize = 12;

/// The flight of a file, and what identifies its inputs.
pub(super) fn flight(source: &dyn FileSource, path: &str) -> Result<(Flight, String), Failure> {
    let reading = read_flight(source, path);
    show_diagnostics(&reading);
    let errors = reading.errors();
    let identifier = identifier(&reading.sources);
    match reading.value {
        Some(flight) => Ok((flight, identifier)),
        None => Err(Failure::Files { errors: errors.max(1) }),
    }
}

/// Write every diagnostic beside the result.
pub(super) fn show_diagnostics<T>(reading: &Reading<T>) {
    if !reading.diagnostics.is_empty() {
        let colour = screen::colour_of_messages();
        screen::note(&render(&reading.diagnostics, &reading.sources, colour));
    }
}

/// A digest of the files read, in the order of reading.
fn identifier(sources: &Sources) -> String {
    let mut digest = Sha256::new();
    for (_, text) in sources.iter() {
        digest.update((text.len() as u64).to_le_bytes());
        digest.update(text.as_bytes());
    }
    let hex: String = digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect();
    hex.chars().take(DIGITS).collect()
}

/// What produced a report, and when.
pub(super) fn produced(identifier: &str) -> Produced {
    let now = jiff::Timestamp::now().strftime("%Y-%m-%d %H:%MZ").to_string();
    Produced {
        by: concat!("hardpan ", env!("CARGO_PKG_VERSION")).to_owned(),
        at: now,
        identifier: identifier.to_owned(),
    }
}
