//! Every source that is cited is described in `validation/sources`, and every
//! source described there is cited.

use crate::cases;
use crate::{Problem, SourceList, Workspace};
use std::collections::BTreeMap;

const CALL: &str = "Source::new(";

/// Where a key is cited: file and line.
type Citations = BTreeMap<String, (String, usize)>;
/// Constants that hold a text, by name.
pub type Names = BTreeMap<String, String>;

/// Check the citations of the workspace.
///
/// # Errors
/// One [`Problem`] for each key that is cited but not described, described but
/// not cited, or not written where it can be read.
pub fn check(workspace: &Workspace) -> Result<(), Vec<Problem>> {
    let sources = SourceList::load(workspace)?;
    let files = workspace.files_in("crates", ".rs").map_err(|problem| vec![problem])?;
    let texts: Vec<(&String, String)> = files
        .iter()
        .filter(|file| !file.starts_with("crates/hardpan-dev/"))
        .filter_map(|file| workspace.text(file).map(|text| (file, text)))
        .collect();
    let names: Names = texts.iter().flat_map(|(_, text)| named_keys(text)).collect();
    let mut cited = Citations::new();
    let mut problems = Vec::new();
    for (file, text) in &texts {
        if file.contains("/src/") {
            match in_code(text, &names) {
                Ok(found) => add(&mut cited, file, found),
                Err(line) => problems.push(Problem::at(
                    *file,
                    line,
                    format!("write the key as a literal or a constant: `{CALL}\"KEY\", …)`"),
                )),
            }
        }
        add(&mut cited, file, in_comments(text));
    }
    for file in cases::load(workspace)?.iter().filter(|file| !file.source.is_empty()) {
        add(&mut cited, &file.path, vec![(file.source.clone(), 1)]);
    }
    problems.extend(differences(&cited, &sources));
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

fn add(cited: &mut Citations, file: &str, found: Vec<(String, usize)>) {
    for (key, line) in found {
        cited.entry(key).or_insert_with(|| (file.to_owned(), line));
    }
}

/// Keys that are cited but not described, and the other way round.
fn differences(cited: &Citations, sources: &SourceList) -> Vec<Problem> {
    let unknown = cited.iter().filter(|(key, _)| !sources.entries.contains_key(*key)).map(
        |(key, (file, line))| {
            Problem::at(file, *line, format!("[{key}] is not in validation/sources"))
        },
    );
    let unused = sources
        .entries
        .iter()
        .filter(|(key, _)| !cited.contains_key(*key))
        .map(|(key, (file, _))| Problem::of_file(file, format!("[{key}] is cited nowhere")));
    unknown.chain(unused).collect()
}

/// Constants that hold a text, by name: `const RAYMER: &str = "RAYMER-2018";`.
#[must_use]
pub fn named_keys(text: &str) -> Names {
    let named = |line: &str| {
        let (_, rest) = line.split_once("const ")?;
        let (name, value) = rest.split_once(": &str = \"")?;
        Some((name.to_owned(), value.strip_suffix("\";")?.to_owned()))
    };
    text.lines().filter_map(named).collect()
}

/// The keys in calls of `Source::new`, with their lines; none in a file that
/// names no tier, where the call makes something else. A key that is taken from
/// another source, as in `RULE.source.key`, is cited where that one is made.
///
/// # Errors
/// The line of a call whose key is neither a literal nor a known constant.
pub fn in_code(text: &str, names: &Names) -> Result<Vec<(String, usize)>, usize> {
    let mut found = Vec::new();
    if !text.contains("Tier") {
        return Ok(found);
    }
    for (at, _) in text.match_indices(CALL) {
        let (head, tail) = text.split_at(at + CALL.len());
        let line = head.lines().count();
        let argument = tail.split(',').next().unwrap_or_default().trim();
        let literal = argument.strip_prefix('"').and_then(|rest| rest.strip_suffix('"'));
        match literal.or_else(|| names.get(argument).map(String::as_str)) {
            Some("") => {}
            Some(key) => found.push((key.to_owned(), line)),
            None if argument.ends_with(".key") => {}
            None => return Err(line),
        }
    }
    Ok(found)
}

/// The keys in square brackets of comments, with their lines.
#[must_use]
pub fn in_comments(text: &str) -> Vec<(String, usize)> {
    let mut found = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let comment = line.split_once("//").map_or("", |(_, comment)| comment);
        for part in comment.split('[').skip(1) {
            if let Some((key, _)) = part.split_once(']')
                && is_key(key)
            {
                found.push((key.to_owned(), index + 1));
            }
        }
    }
    found
}

/// A key starts with two capitals and has a hyphen: `NIST-SP-811`, not `[i]` or `[Error]`.
fn is_key(text: &str) -> bool {
    let mut capitals = text.chars();
    let starts = (0..2).all(|_| capitals.next().is_some_and(|c| c.is_ascii_uppercase()));
    let plain = text.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '.' | '/'));
    starts && plain && text.contains('-')
}
