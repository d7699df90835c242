//! Pages and lists that are made from code and data, so that nobody copies
//! a figure or a name by hand.

mod formulas;
mod markdown;
mod published_factors;
mod readme;
mod rules;
mod rules_module;
mod sources;
mod validation;
mod worked_examples;

pub use readme::replaced;
pub use rules_module::module_of;

use crate::{Problem, Workspace};

type Generator = fn(&Workspace) -> Result<String, Vec<Problem>>;

const FILES: [(&str, Generator); 6] = [
    (readme::FILE, readme::page),
    ("VALIDATION.md", validation::page),
    ("docs/formulas.md", formulas::page),
    ("docs/rules.md", rules::page),
    ("docs/sources.md", sources::page),
    (rules_module::FILE, rules_module::module),
];

/// Write every generated file that is not up to date.
///
/// # Errors
/// Every [`Problem`] that keeps a file from being made.
pub fn write(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut lines = Vec::new();
    for (file, generator) in FILES {
        match generator(workspace) {
            Ok(text) if workspace.text(file).as_ref() == Some(&text) => {
                lines.push(format!("{file} is up to date"));
            }
            Ok(text) => match workspace.write(file, &text) {
                Ok(()) => lines.push(format!("{file} written")),
                Err(problem) => problems.push(problem),
            },
            Err(found) => Problem::add_new(&mut problems, found),
        }
    }
    if problems.is_empty() { Ok(lines.join("\n")) } else { Err(problems) }
}

/// Check that every generated file is up to date.
///
/// # Errors
/// One [`Problem`] for each file that is not.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let mut problems = Vec::new();
    for (file, generator) in FILES {
        match generator(workspace) {
            Ok(text) if workspace.text(file).as_ref() == Some(&text) => {}
            Ok(_) => {
                problems.push(Problem::of_file(file, "is out of date; run `cargo dev generate`"));
            }
            Err(found) => Problem::add_new(&mut problems, found),
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}
