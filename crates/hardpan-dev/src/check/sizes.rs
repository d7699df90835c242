//! Small files: one idea each.

use super::each_file;
use crate::{Problem, Workspace};

const MOST_LINES: usize = 600;
const MOST_LINES_OF_LIB: usize = 60;

/// Check every Rust file.
///
/// # Errors
/// One [`Problem`] for each file that is too long.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let files = workspace.files().map_err(|problem| vec![problem])?;
    let rust = files.into_iter().filter(|file| file.ends_with(".rs"));
    each_file(workspace, rust, |file, text| too_long(file, text).into_iter().collect())
}

/// The problem of a file that is too long.
#[must_use]
pub fn too_long(file: &str, text: &str) -> Option<Problem> {
    let most = if file.ends_with("src/lib.rs") { MOST_LINES_OF_LIB } else { MOST_LINES };
    let lines = text.lines().count();
    (lines > most).then(|| {
        Problem::of_file(file, format!("has {lines} lines, at most {most}; split it by idea"))
    })
}
