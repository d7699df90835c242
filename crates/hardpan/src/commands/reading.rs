//! Reading a flight, with everything wrong in it shown.

use crate::failure::Failure;
use crate::progress::Progress;
use crate::screen;
use hardpan_files::{
    CloudInput, FileReadError, FileSource, Reading, Sources, read_flight, read_strip, render,
};
use hardpan_model::{Flight, Strip};
use hardpan_report::Produced;
use sha2::{Digest as _, Sha256};

/// This program and its version.
pub(crate) const PROGRAM: &str = concat!("hardpan ", env!("CARGO_PKG_VERSION"));

/// Digits of the digest that are shown.
const DIGITS: usize = 12;

/// The flight of a file, and what identifies its inputs.
pub(crate) fn flight(source: &dyn FileSource, path: &str) -> Result<(Flight, String), Failure> {
    let watched = Watched { source, progress: Progress::start("reading the flight") };
    let reading = read_flight(&watched, path);
    drop(watched);
    usable(reading)
}

/// The strip of a file, and what identifies its inputs.
pub(crate) fn strip(source: &dyn FileSource, path: &str) -> Result<(Strip, String), Failure> {
    let watched = Watched { source, progress: Progress::start("reading the strip") };
    let reading = read_strip(&watched, path);
    drop(watched);
    usable(reading)
}

/// Files whose reading is shown at the terminal.
struct Watched<'s> {
    source: &'s dyn FileSource,
    progress: Progress,
}

impl FileSource for Watched<'_> {
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError> {
        self.source.read(path)
    }

    fn open(&self, path: &str) -> Result<Box<dyn CloudInput>, FileReadError> {
        self.source.open(path)
    }

    fn told(&self, path: &str, share: f64) {
        self.progress.share(path, share);
    }
}

/// The value of a reading and what identifies its inputs; its mistakes are shown.
pub(crate) fn usable<T>(reading: Reading<T>) -> Result<(T, String), Failure> {
    show_diagnostics(&reading);
    let errors = reading.errors();
    let identifier = whole_identifier(&reading.sources);
    match reading.value {
        Some(value) => Ok((value, identifier)),
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
pub(crate) fn whole_identifier(sources: &Sources) -> String {
    let mut digest = Sha256::new();
    for (_, text) in sources.iter() {
        digest.update((text.len() as u64).to_le_bytes());
        digest.update(text.as_bytes());
    }
    hex(digest)
}

/// One digest of two.
pub(crate) fn joined(one: &str, other: &str) -> String {
    hex(Sha256::new().chain_update(one).chain_update(" ").chain_update(other))
}

/// The part of a digest that is shown.
fn shown(identifier: &str) -> String {
    identifier.chars().take(DIGITS).collect()
}

fn hex(digest: Sha256) -> String {
    digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}

/// What produced a report of these inputs, and when.
pub(crate) fn produced(identifier: &str) -> Produced {
    let now = jiff::Timestamp::now().strftime("%Y-%m-%d %H:%MZ").to_string();
    dated(identifier, &now)
}

/// What produced a report, with the date that the user wants on it.
pub(super) fn dated(identifier: &str, date: &str) -> Produced {
    Produced { by: PROGRAM.to_owned(), at: date.to_owned(), identifier: shown(identifier) }
}
