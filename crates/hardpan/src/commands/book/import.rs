//! Records of a file into the book: all of them, or every mistake of the file.

use super::{audit, kind_of, opened, passes, photo};
use crate::failure::Failure;
use hardpan_book::{
    ImportError, Mistakes, OffGlobe, Record, TakenOver, fit_to_take_over, taken_of, text_of,
};
use hardpan_files::{Disk, FileSource as _};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

/// Records of a file, all of them or none.
pub(super) fn import(
    path: &Path,
    from: &Path,
    (kind, strip, pictures): (Option<&str>, Option<&Path>, Option<&Path>),
    by: &str,
) -> Result<String, Failure> {
    let told = |what: String| Failure::Argument { what: format!("{}: {what}", from.display()) };
    let wrong = |mistakes: Mistakes| mistaken(from, &mistakes);
    let bytes =
        Disk::default().read(&from.to_string_lossy()).map_err(|error| told(error.to_string()))?;
    let text = text_of(bytes).map_err(wrong)?;
    let kind = kind.map(kind_of).transpose()?;
    let off_globe = strip.map(passes::off_globe).transpose()?;
    let is_json = text.trim_start_matches('\u{feff}').trim_start().starts_with('{');
    if kind.is_none() && !is_json {
        return Err(told("name the kind of record that a CSV file holds: --kind".into()));
    }
    let off_globe = off_globe.as_deref().map(|one| one as &OffGlobe<'_>);
    let taken = taken_of(&text, kind, off_globe).map_err(wrong)?;
    let digests = taken.iter().filter_map(|one| match &one.record {
        Record::Picture(picture) => Some(picture.digest.as_str()),
        _ => None,
    });
    let pictures = match pictures {
        Some(folder) => photo::of_folder(folder, &digests.collect())?,
        None => Vec::new(),
    };
    let refused = |error: ImportError| match error {
        ImportError::Book(error) => error.into(),
        ImportError::File(mistakes) => wrong(mistakes),
        error => told(error.to_string()),
    };
    let audit = audit(by);
    if !path.exists() {
        // A file with mistakes makes no new book.
        fit_to_take_over(&taken, &pictures, &BTreeSet::new(), &audit).map_err(refused)?;
    }
    let (mut book, made) = opened(path)?;
    let TakenOver { recorded, known } =
        book.take_over(taken, &pictures, &audit).map_err(refused)?;
    let numbers = match (recorded.first(), recorded.last()) {
        (Some(first), Some(last)) if first.id < last.id => {
            format!("entries {} to {}", first.id, last.id)
        }
        (Some(first), _) => format!("entry {}", first.id),
        _ => return Ok(format!("nothing was recorded: {}\n", standing(&known))),
    };
    let left = match known.len() {
        0 => String::new(),
        _ => format!("; left out: {}", standing(&known)),
    };
    Ok(format!("{made}recorded as {numbers}{left}\n"))
}

/// What stood in the book before.
fn standing(known: &[i64]) -> String {
    match known {
        [one] => format!("one record that entry {one} holds word for word"),
        [first, .., last] => format!(
            "{} records that stand in the book word for word (entries {first} to {last})",
            known.len()
        ),
        [] => String::new(),
    }
}

/// Every mistake of a file, a line each.
fn mistaken(from: &Path, mistakes: &Mistakes) -> Failure {
    let from = from.display();
    let mut what = match mistakes.count() {
        1 => format!("{from} has a mistake; nothing was recorded:\n"),
        count => format!("{from} has {count} mistakes; nothing was recorded:\n"),
    };
    for mistake in mistakes.told() {
        let _ = writeln!(what, "  {from}: {mistake}");
    }
    if mistakes.more() > 0 {
        let _ = writeln!(what, "  and {} more", mistakes.more());
    }
    what.push_str("Mend the file and take it over again.");
    Failure::Argument { what }
}
