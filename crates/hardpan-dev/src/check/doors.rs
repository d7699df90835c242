//! Files, the environment, the clock and the network are reached by the outer
//! crates only; the rest are pure.

use super::each_file;
use crate::{Problem, Workspace};

const OUTER: [&str; 5] = ["hardpan", "hardpan-files", "hardpan-book", "hardpan-web", "hardpan-dev"];
const DOORS: [(&str, &str); 5] = [
    ("std::fs", "files"),
    ("std::env", "the environment"),
    ("std::net", "the network"),
    ("std::process", "other programs"),
    ("::now(", "the clock"),
];

/// Check the sources of every inner crate.
///
/// # Errors
/// One [`Problem`] for each line that reaches outside.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let files = workspace.files_in("crates", ".rs").map_err(|problem| vec![problem])?;
    each_file(workspace, files.into_iter().filter(|file| is_inner(file)), reaching)
}

fn is_inner(file: &str) -> bool {
    let mut parts = file.split('/').skip(1);
    let name = parts.next().unwrap_or_default();
    parts.next() == Some("src") && !OUTER.contains(&name)
}

/// The lines of an inner crate's source that reach outside.
#[must_use]
pub fn reaching(file: &str, text: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let code = line.split("//").next().unwrap_or_default();
        for (door, what) in DOORS.iter().filter(|(door, _)| opens(code, door)) {
            let text = format!("`{door}` reaches {what}; take the value as an argument");
            problems.push(Problem::at(file, index + 1, text));
        }
    }
    problems
}

/// Whether a line names the door, also as one item of a braced import.
fn opens(code: &str, door: &str) -> bool {
    let braced = || {
        let (items, name) = (code.trim().strip_prefix("use std::{")?, door.strip_prefix("std::")?);
        let mut words = items.split(|c: char| !c.is_alphanumeric() && c != '_');
        Some(words.any(|word| word == name))
    };
    code.contains(door) || braced().unwrap_or(false)
}
