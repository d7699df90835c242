//! No place on somebody's machine, and no loose end.

use super::each_file;
use crate::{Problem, Workspace};

/// This list and its tests, the two places where the words may stand.
const OWN: [&str; 2] =
    ["crates/hardpan-dev/src/check/words.rs", "crates/hardpan-dev/tests/words.rs"];

/// Texts that stand for a place on one machine.
const PLACES: [&str; 2] = ["/home/", "/Users/"];
/// Whole words.
const WORDS: [&str; 2] = ["TODO", "FIXME"];

/// Check every text file.
///
/// # Errors
/// One [`Problem`] for each forbidden word.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let files = workspace.files().map_err(|problem| vec![problem])?;
    let held = |file: &String| !OWN.contains(&file.as_str()) && !file.starts_with("LICENSE-");
    each_file(workspace, files.into_iter().filter(held), forbidden)
}

/// The forbidden words of one file.
#[must_use]
pub fn forbidden(file: &str, text: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let mut add = |text: String| problems.push(Problem::at(file, index + 1, text));
        for place in PLACES.iter().filter(|place| names_place(line, place)) {
            add(format!("`{place}` is a place on one machine"));
        }
        for word in words(line).filter(|word| WORDS.contains(word)) {
            add(format!("`{word}` does not belong here"));
        }
    }
    problems
}

/// A path that starts with the place, not a longer path or address that holds it.
fn names_place(line: &str, place: &str) -> bool {
    line.match_indices(place).any(|(at, _)| {
        let before = line.get(..at).and_then(|head| head.chars().next_back());
        !before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '.' | '-' | '_' | '}'))
    })
}

fn words(line: &str) -> impl Iterator<Item = &str> {
    line.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}
