//! Reading the case files.

use super::{Case, CaseFile, Kind, Subject, Tier};
use crate::{Problem, Workspace};
use hardpan_quantity::Dimension;
use serde::Deserialize;
use std::collections::BTreeMap;

const FOLDER: &str = "validation/cases";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenFile {
    source: String,
    kind: Kind,
    uncertainty: Option<String>,
    case: Vec<WrittenCase>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenCase {
    id: String,
    locator: String,
    tier: Tier,
    formula: Option<String>,
    #[serde(default)]
    input: BTreeMap<String, String>,
    text: Option<String>,
    dimension: Option<Dimension>,
    expect: String,
    tolerance: String,
    reason: String,
    worked_example: Option<String>,
    known_disagreement: Option<String>,
}

/// Read every case file of the workspace.
///
/// # Errors
/// One [`Problem`] for each file that is no case file, each incomplete case and
/// each name that is used twice.
pub fn load(workspace: &Workspace) -> Result<Vec<CaseFile>, Vec<Problem>> {
    let paths = workspace.files_in(FOLDER, ".toml").map_err(|problem| vec![problem])?;
    let mut files = Vec::new();
    let mut problems = Vec::new();
    for path in paths {
        match workspace.read(&path).map_err(|p| vec![p]).and_then(|text| parse(&path, &text)) {
            Ok(file) => files.push(file),
            Err(found) => problems.extend(found),
        }
    }
    problems.extend(repeated_names(&files));
    if problems.is_empty() { Ok(files) } else { Err(problems) }
}

/// Read one case file.
///
/// # Errors
/// As [`load`].
pub fn parse(path: &str, text: &str) -> Result<CaseFile, Vec<Problem>> {
    let written: WrittenFile =
        toml::from_str(text).map_err(|error| vec![Problem::of_file(path, error.to_string())])?;
    let mut problems = Vec::new();
    if written.kind == Kind::Validation && written.uncertainty.is_none() {
        problems.push(Problem::of_file(
            path,
            "a validation states the `uncertainty` of its measurements",
        ));
    }
    let mut cases = Vec::new();
    for case in written.case {
        if written.source.is_empty() && case.tier != Tier::CommonPractice {
            problems.push(Problem::of_file(
                path,
                format!("{}: only common practice may go without a source", case.id),
            ));
        }
        match complete(path, case) {
            Ok(case) => cases.push(case),
            Err(problem) => problems.push(problem),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(CaseFile {
        path: path.to_owned(),
        source: written.source,
        kind: written.kind,
        uncertainty: written.uncertainty,
        cases,
    })
}

fn complete(path: &str, case: WrittenCase) -> Result<Case, Problem> {
    let subject = match (case.formula, case.text, case.dimension) {
        (Some(name), None, None) => Subject::Formula { name, input: case.input },
        (None, Some(text), Some(dimension)) if case.input.is_empty() => {
            Subject::Reading { text, dimension }
        }
        _ => {
            return Err(Problem::of_file(
                path,
                format!("{}: needs `formula` with `input`, or `text` with `dimension`", case.id),
            ));
        }
    };
    Ok(Case {
        id: case.id,
        locator: case.locator,
        tier: case.tier,
        subject,
        expect: case.expect,
        tolerance: case.tolerance,
        reason: case.reason,
        worked_example: case.worked_example,
        known_disagreement: case.known_disagreement,
    })
}

fn repeated_names(files: &[CaseFile]) -> Vec<Problem> {
    let mut seen: BTreeMap<&str, &str> = BTreeMap::new();
    let mut problems = Vec::new();
    for (path, id) in files.iter().flat_map(|f| f.cases.iter().map(|c| (&*f.path, &*c.id))) {
        if let Some(first) = seen.insert(id, path) {
            problems.push(Problem::of_file(path, format!("case {id} stands in {first} already")));
        }
    }
    problems
}
