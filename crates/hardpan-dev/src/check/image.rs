//! The container file copies what the build reads, the ignore file leaves it there, and
//! the toolchain is that of the workspace.

use crate::{Problem, Workspace};

const IMAGE: &str = "packaging/Containerfile";
const IGNORED: &str = ".dockerignore";
/// What every build of the workspace reads.
const ALWAYS: [&str; 3] = ["Cargo.toml", "Cargo.lock", "crates"];
/// What no build reads, however large it is.
const NEVER: [&str; 2] = [".git", "target"];

/// Check the container file against the sources.
///
/// # Errors
/// One [`Problem`] for each path that does not reach the build, for a line that this
/// check does not understand, or for another toolchain.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let read = |file: &str| workspace.read(file).map_err(|problem| vec![problem]);
    let (image, ignored, manifest) = (read(IMAGE)?, read(IGNORED)?, read("Cargo.toml")?);
    let mut problems = toolchain(&image, &manifest);
    let copied = copied(&image);
    for (source, line) in &copied {
        if !workspace.path(source).exists() {
            problems.push(Problem::at(IMAGE, *line, format!("`{source}` is not there")));
        }
    }
    let files = workspace.files_in("crates", ".rs").map_err(|problem| vec![problem])?;
    let mut needed: Vec<String> = ALWAYS.map(str::to_owned).to_vec();
    for file in files.iter().filter(|file| is_built(file)) {
        match included(file, &workspace.text(file).unwrap_or_default()) {
            Ok(paths) => needed.extend(paths),
            Err(problem) => problems.push(problem),
        }
    }
    needed.sort();
    needed.dedup();
    let sources: Vec<&str> = copied.iter().map(|(source, _)| source.as_str()).collect();
    problems.extend(reaching(&needed, &sources, &ignored));
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

fn is_built(file: &str) -> bool {
    let mut parts = file.split('/').skip(2);
    matches!(parts.next(), Some("src" | "build.rs"))
}

/// What each `COPY` of the first stage takes from the context, with its line.
#[must_use]
pub fn copied(image: &str) -> Vec<(String, usize)> {
    let mut found = Vec::new();
    let mut stages = 0;
    for (index, line) in image.lines().enumerate() {
        let words: Vec<&str> = line.split_whitespace().collect();
        match words.as_slice() {
            ["FROM", ..] => stages += 1,
            ["COPY", sources @ .., _] if stages == 1 => {
                let sources = sources.iter().filter(|source| !source.starts_with("--"));
                found.extend(sources.map(|source| ((*source).to_owned(), index + 1)));
            }
            _ => {}
        }
    }
    found
}

/// Paths from the root that a source takes in when it is compiled; of a path that is
/// put together, its folder.
///
/// # Errors
/// A [`Problem`] where none can be read.
pub fn included(file: &str, text: &str) -> Result<Vec<String>, Problem> {
    let mut found = Vec::new();
    for (begun, _) in text.match_indices("include_") {
        let rest = text.get(begun..).unwrap_or_default();
        let Some(rest) = ["include_str!(", "include_bytes!("]
            .iter()
            .find_map(|taking| rest.strip_prefix(taking))
        else {
            continue;
        };
        let line = text.get(..begun).unwrap_or_default().lines().count().max(1);
        let is_made = rest.trim_start().starts_with("concat!");
        let path = rest.split('"').nth(1).filter(|path| !path.is_empty());
        let path = path.ok_or_else(|| {
            Problem::at(file, line, "begin what is taken in with its path in quotation marks")
        })?;
        let path =
            if is_made { path.rsplit_once('/').map_or(path, |(folder, _)| folder) } else { path };
        let mut parts: Vec<&str> = file.split('/').collect();
        parts.pop();
        for part in path.split('/') {
            match part {
                "." => {}
                ".." => {
                    parts.pop();
                }
                name => parts.push(name),
            }
        }
        found.push(parts.join("/"));
    }
    Ok(found)
}

/// Needed paths that are not copied, or ignored; and what should be ignored and is not.
#[must_use]
pub fn reaching(needed: &[String], sources: &[&str], ignored: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    for path in needed {
        if !sources.iter().any(|source| is_under(path, source)) {
            let text = format!("copies no `{path}`, which the build reads");
            problems.push(Problem::of_file(IMAGE, text));
        }
        if is_ignored(path, ignored) {
            let text = format!("keeps `{path}` from the build, which reads it");
            problems.push(Problem::of_file(IGNORED, text));
        }
    }
    for path in NEVER.iter().filter(|path| !is_ignored(path, ignored)) {
        problems.push(Problem::of_file(IGNORED, format!("lets `{path}` into the context")));
    }
    for (index, line) in ignored.lines().enumerate() {
        let name = line.trim_start_matches('!');
        if name != "*" && !line.starts_with('#') && name.contains(['*', '?', '[', '\\']) {
            problems.push(Problem::at(IGNORED, index + 1, "write whole names or `*`"));
        }
    }
    problems
}

/// Whether the last line that fits a path keeps it out.
fn is_ignored(path: &str, ignored: &str) -> bool {
    let lines = ignored.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines.fold(false, |was, line| {
        let (name, is_out) = line.strip_prefix('!').map_or((line, true), |name| (name, false));
        if name == "*" || is_under(path, name) { is_out } else { was }
    })
}

fn is_under(path: &str, folder: &str) -> bool {
    path.strip_prefix(folder).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
}

/// Whether the build begins from the toolchain that the workspace names.
#[must_use]
pub fn toolchain(image: &str, manifest: &str) -> Vec<Problem> {
    let wanted = manifest
        .lines()
        .find_map(|line| line.strip_prefix("rust-version = \"")?.strip_suffix('"'))
        .unwrap_or("none");
    let begun = image.lines().enumerate().find(|(_, line)| line.starts_with("FROM "));
    let is_same = |line: &str| {
        let rest = line.strip_prefix("FROM rust:").and_then(|rest| rest.strip_prefix(wanted));
        rest.is_some_and(|rest| rest.starts_with(['-', ' ']))
    };
    match begun {
        Some((_, line)) if is_same(line) => Vec::new(),
        begun => {
            let line = begun.map_or(1, |(index, _)| index + 1);
            let text = format!("begin from rust:{wanted}, the rust-version of Cargo.toml");
            vec![Problem::at(IMAGE, line, text)]
        }
    }
}
