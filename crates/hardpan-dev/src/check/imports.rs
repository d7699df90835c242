//! Imports run one way: every edge between crates of the workspace stands in
//! the crate table of `ARCHITECTURE.md`.

use crate::{Problem, Workspace};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};

const FILE: &str = "ARCHITECTURE.md";
const HEAD: [&str; 4] = ["crate", "phase", "holds", "may depend on"];
const PREFIX: &str = "hardpan-";

/// What each crate of the table may import.
pub type Allowed = BTreeMap<String, BTreeSet<String>>;

/// One import as the manifests state it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edge {
    /// The crate that imports.
    pub from: String,
    /// The crate that is imported.
    pub to: String,
}

#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
}

#[derive(Deserialize)]
struct Package {
    name: String,
    dependencies: Vec<Dependency>,
}

#[derive(Deserialize)]
struct Dependency {
    name: String,
    path: Option<String>,
}

/// Check the edges of the workspace.
///
/// # Errors
/// One [`Problem`] for each crate or edge that the table does not have.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let one = |problem| vec![problem];
    let allowed = table(&workspace.read(FILE).map_err(one)?)?;
    let listing = ["metadata", "--offline", "--no-deps", "--format-version", "1"];
    let text = workspace.run("cargo", &listing, "").map_err(one)?;
    let metadata: Metadata = serde_json::from_str(&text)
        .map_err(|error| one(Problem::of_file("cargo metadata", error.to_string())))?;
    let crates: Vec<String> = metadata.packages.iter().map(|p| p.name.clone()).collect();
    let problems = forbidden(&allowed, &crates, &edges(&metadata));
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

fn edges(metadata: &Metadata) -> Vec<Edge> {
    let mut edges = Vec::new();
    for package in &metadata.packages {
        for dependency in package.dependencies.iter().filter(|d| d.path.is_some()) {
            edges.push(Edge { from: package.name.clone(), to: dependency.name.clone() });
        }
    }
    edges
}

/// Crates and edges that the table does not have.
#[must_use]
pub fn forbidden(allowed: &Allowed, crates: &[String], edges: &[Edge]) -> Vec<Problem> {
    let unlisted = crates
        .iter()
        .filter(|name| !allowed.contains_key(*name))
        .map(|name| Problem::of_file(FILE, format!("{name} is missing from the crate table")));
    let stray = edges
        .iter()
        .filter(|edge| allowed.get(&edge.from).is_some_and(|to| !to.contains(&edge.to)))
        .map(|Edge { from, to }| {
            let file = format!("crates/{from}/Cargo.toml");
            Problem::of_file(file, format!("{from} may not depend on {to}; see {FILE}"))
        });
    unlisted.chain(stray).collect()
}

/// Read the crate table: the Markdown table headed crate, phase, holds, may depend on.
///
/// # Errors
/// A [`Problem`] when there is no such table or a row names a crate it does not list.
pub fn table(text: &str) -> Result<Allowed, Vec<Problem>> {
    let mut lines = text.lines().enumerate().skip_while(|(_, line)| cells(line) != HEAD).skip(2);
    let mut rows: Vec<(usize, Vec<&str>)> = Vec::new();
    for (index, line) in lines.by_ref().take_while(|(_, line)| line.starts_with('|')) {
        rows.push((index + 1, cells(line)));
    }
    if rows.is_empty() {
        let wanted = HEAD.join(" | ");
        return Err(vec![Problem::of_file(FILE, format!("has no table headed {wanted}"))]);
    }
    let names: BTreeSet<String> =
        rows.iter().filter_map(|(_, row)| row.first()).map(|name| full_name(name)).collect();
    let mut allowed = Allowed::new();
    let mut problems = Vec::new();
    for (line, row) in rows {
        let [name, _, _, targets] = row[..] else {
            problems.push(Problem::at(FILE, line, "a row of the crate table has four cells"));
            continue;
        };
        let targets: BTreeSet<String> = targets
            .split(',')
            .map(str::trim)
            .filter(|target| !matches!(*target, "" | "–" | "-"))
            .map(full_name)
            .collect();
        for stranger in targets.difference(&names) {
            problems.push(Problem::at(FILE, line, format!("{stranger} has no row of its own")));
        }
        allowed.insert(full_name(name), targets);
    }
    if problems.is_empty() { Ok(allowed) } else { Err(problems) }
}

fn cells(line: &str) -> Vec<&str> {
    let inner = line.trim().trim_start_matches('|').trim_end_matches('|');
    inner.split('|').map(|cell| cell.trim().trim_matches('`')).collect()
}

fn full_name(name: &str) -> String {
    let name = name.trim_matches('`');
    if name == "hardpan" || name.starts_with(PREFIX) {
        name.to_owned()
    } else {
        format!("{PREFIX}{name}")
    }
}
