//! What the rules of the workspace forbid.

pub mod citations;
pub mod doors;
pub mod image;
pub mod imports;
pub mod licences;
pub mod sizes;
pub mod words;

use crate::{Problem, Workspace, generate};

type Check = fn(&Workspace) -> Result<(), Vec<Problem>>;

const CHECKS: [(&str, Check); 8] = [
    ("imports follow ARCHITECTURE.md", imports::check),
    ("files are small", sizes::check),
    ("every source is known and used", citations::check),
    ("no forbidden words", words::check),
    ("the outside is reached through its doors only", doors::check),
    ("every dependency is under an allowed licence", licences::check),
    ("the container file copies what the build reads", image::check),
    ("generated files are up to date", generate::check),
];

/// Run every check and report all problems at once.
///
/// # Errors
/// Every [`Problem`] found, in the order of the checks.
pub fn run(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut lines = Vec::new();
    for (claim, check) in CHECKS {
        match check(workspace) {
            Ok(()) => lines.push(format!("holds: {claim}")),
            Err(found) => Problem::add_new(&mut problems, found),
        }
    }
    if problems.is_empty() { Ok(lines.join("\n")) } else { Err(problems) }
}

/// Hold a check on one text against many files.
fn each_file(
    workspace: &Workspace,
    files: impl IntoIterator<Item = String>,
    check: impl Fn(&str, &str) -> Vec<Problem>,
) -> Result<(), Vec<Problem>> {
    let mut problems = Vec::new();
    for file in files {
        if let Some(text) = workspace.text(&file) {
            problems.extend(check(&file, &text));
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}
