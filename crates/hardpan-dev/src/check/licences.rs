//! Every dependency may be used under a licence that `deny.toml` allows.

use crate::{Problem, Workspace};
use serde::Deserialize;

const FILE: &str = "deny.toml";

#[derive(Deserialize)]
struct Policy {
    licenses: Licences,
}

#[derive(Deserialize)]
struct Licences {
    allow: Vec<String>,
}

#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
    resolve: Resolve,
}

#[derive(Deserialize)]
struct Package {
    id: String,
    name: String,
    license: Option<String>,
    source: Option<String>,
}

#[derive(Deserialize)]
struct Resolve {
    nodes: Vec<Node>,
}

#[derive(Deserialize)]
struct Node {
    id: String,
}

/// Check the licence of every dependency that is built on this platform.
///
/// # Errors
/// One [`Problem`] for each dependency without an allowed licence.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let one = |problem| vec![problem];
    let fault = |error: String| vec![Problem::of_file(FILE, error)];
    let text = workspace.read(FILE).map_err(one)?;
    let policy: Policy = toml::from_str(&text).map_err(|error| fault(error.to_string()))?;
    let host = workspace.run("rustc", &["--print", "host-tuple"], "").map_err(one)?;
    let listing = ["metadata", "--locked", "--format-version", "1", "--filter-platform"];
    let arguments = [&listing[..], &[host.trim()]].concat();
    let json = workspace.run("cargo", &arguments, "").map_err(one)?;
    let metadata: Metadata =
        serde_json::from_str(&json).map_err(|error| fault(error.to_string()))?;
    let problems: Vec<Problem> = metadata
        .packages
        .iter()
        .filter(|package| package.source.is_some())
        .filter(|package| metadata.resolve.nodes.iter().any(|node| node.id == package.id))
        .filter_map(|package| {
            let licence = package.license.as_deref().unwrap_or("no licence");
            let text = format!("{} is under {licence}, which is not allowed", package.name);
            (!is_allowed(licence, &policy.licenses.allow)).then(|| Problem::of_file(FILE, text))
        })
        .collect();
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// Whether a licence expression can be met by the allowed licences alone. `AND`
/// binds more tightly than `OR`, and a slash is an old way to write `OR`.
#[must_use]
pub fn is_allowed(expression: &str, allowed: &[String]) -> bool {
    let spaced = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut rest = words.as_slice();
    either(&mut rest, allowed) && rest.is_empty()
}

fn either(rest: &mut &[&str], allowed: &[String]) -> bool {
    let mut holds = both(rest, allowed);
    while take(rest, "OR") {
        holds |= both(rest, allowed);
    }
    holds
}

fn both(rest: &mut &[&str], allowed: &[String]) -> bool {
    let mut holds = single(rest, allowed);
    while take(rest, "AND") {
        holds &= single(rest, allowed);
    }
    holds
}

fn single(rest: &mut &[&str], allowed: &[String]) -> bool {
    if take(rest, "(") {
        let holds = either(rest, allowed);
        return take(rest, ")") && holds;
    }
    let Some((name, tail)) = rest.split_first() else { return false };
    *rest = tail;
    let mut licence = (*name).to_owned();
    if take(rest, "WITH") {
        let Some((exception, tail)) = rest.split_first() else { return false };
        *rest = tail;
        licence = format!("{licence} WITH {exception}");
    }
    allowed.contains(&licence)
}

fn take(rest: &mut &[&str], word: &str) -> bool {
    match rest.split_first() {
        Some((first, tail)) if *first == word => {
            *rest = tail;
            true
        }
        _ => false,
    }
}
