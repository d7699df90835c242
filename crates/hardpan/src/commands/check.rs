//! `hardpan check`: read files and explain every error.

use super::reading::show_diagnostics;
use crate::failure::Failure;
use crate::screen;
use hardpan_files::{Disk, read_any};
use std::path::PathBuf;

/// Check files; those that can be used are named with what they are.
pub(crate) fn run(files: &[PathBuf]) -> Result<u8, Failure> {
    let mut errors = 0;
    for path in files {
        let name = path.to_string_lossy();
        let reading = read_any(&Disk::default(), &name);
        show_diagnostics(&reading);
        match &reading.value {
            Some(value) => {
                let absent = match reading.absent.len() {
                    0 => String::new(),
                    count => format!(", {count} keys left out"),
                };
                screen::say(&format!("{name}: {} can be used{absent}\n", value.word()));
            }
            None => errors += reading.errors().max(1),
        }
    }
    if errors == 0 { Ok(0) } else { Err(Failure::Files { errors }) }
}
