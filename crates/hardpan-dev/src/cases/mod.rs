//! The published values that the formulas must reproduce.
//!
//! Read from `validation/cases/<crate>/<source>.toml`; how a case is written
//! stands in `validation/README.md`.

mod case;
mod count;
mod evaluate;
mod load;
mod written;

pub use case::{Case, CaseFile, Kind, Subject, Tier};
pub use count::Count;
pub use evaluate::{Outcome, State, evaluate};
pub use load::{load, parse};

use crate::{Problem, Workspace};
use hardpan_model::Formula;
use std::fmt::Write;

/// The outcome of every case, file by file.
pub type Outcomes = Vec<(CaseFile, Vec<Outcome>)>;

/// Evaluate every case of the workspace.
///
/// # Errors
/// One [`Problem`] for each case that cannot be read or names what does not exist.
pub fn outcomes(workspace: &Workspace, formulas: &[&Formula]) -> Result<Outcomes, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut done = Vec::new();
    for file in load(workspace)? {
        let mut rows = Vec::new();
        for case in &file.cases {
            match evaluate(&file.path, case, formulas) {
                Ok(outcome) => rows.push(outcome),
                Err(problem) => problems.push(problem),
            }
        }
        done.push((file, rows));
    }
    if problems.is_empty() { Ok(done) } else { Err(problems) }
}

/// Hold every formula against its published values.
///
/// # Errors
/// One [`Problem`] for each case that misses or cannot be evaluated.
pub fn validate(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let outcomes = outcomes(workspace, &hardpan_assess::formulas())?;
    let misses = misses(&outcomes);
    if misses.is_empty() { Ok(table(&outcomes)) } else { Err(misses) }
}

fn misses(outcomes: &Outcomes) -> Vec<Problem> {
    let mut misses = Vec::new();
    for (file, rows) in outcomes {
        for (case, row) in file.cases.iter().zip(rows) {
            if let State::Miss(why) = &row.state {
                let text = format!(
                    "{}: {} gives {}, expected {} ± {} ({}): {why}",
                    case.id, row.subject, row.computed, row.expected, row.tolerance, case.locator
                );
                misses.push(Problem::of_file(&file.path, text));
            }
        }
    }
    misses
}

fn table(outcomes: &Outcomes) -> String {
    let mut text = String::new();
    let (mut held, mut known) = (0, 0);
    for (file, rows) in outcomes {
        for (case, row) in file.cases.iter().zip(rows) {
            let state = match row.state {
                State::Pass => "pass",
                State::KnownDisagreement => "known disagreement",
                State::Miss(_) => "miss",
            };
            held += usize::from(row.state == State::Pass);
            known += usize::from(row.state == State::KnownDisagreement);
            // A String takes everything that is written to it.
            let _ = writeln!(
                text,
                "{state:<20}{:<24}{:<44}{} (expected {} ± {})",
                file.source, case.id, row.computed, row.expected, row.tolerance
            );
        }
    }
    text + &format!("{held} hold, {known} known disagreements, 0 miss")
}
