//! `docs/sources.md`: the documents.

use super::markdown::{GENERATED, escaped, table};
use crate::{Problem, SourceList, Workspace};

/// The page.
pub(super) fn page(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let list = SourceList::load(workspace)?;
    let rows: Vec<Vec<String>> = list
        .entries
        .iter()
        .map(|(key, (_, entry))| {
            let cells = [
                key,
                &entry.title,
                &entry.authors,
                &entry.year,
                entry.obtained.words(),
                &entry.note,
            ];
            cells.map(escaped).to_vec()
        })
        .collect();
    let table = table(&["key", "title", "authors", "year", "how it was read", "note"], &rows);
    Ok(format!(
        "{GENERATED}\n\n# Sources\n\nThe documents that formulas, limits and expected values come \
         from, and how each was read. What is\nmarked *from memory* is to be read before it is \
         trusted.\n\n{table}"
    ))
}
