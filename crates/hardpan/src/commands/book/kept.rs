//! Versions of aeroplanes, strips, days and flights, and single entries.

use super::{audit, opened};
use crate::failure::Failure;
use crate::frozen::versions;
use crate::output::{make_folder, write_new};
use hardpan_book::{
    Book, Entry, Holding, Kind, Record, Version, holdings, holdings_value, versions_used,
};
use hardpan_files::Disk;
use hardpan_quantity::UnitSystem;
use hardpan_report::field_text;
use std::fmt::Write as _;
use std::path::{Component, Path};

/// Digits of a digest that are shown in a list.
const DIGITS: usize = 12;

fn refused(what: String) -> Failure {
    Failure::Argument { what }
}

fn short(digest: &str) -> String {
    digest.chars().take(DIGITS).collect()
}

/// What is said of versions that were recorded.
pub(crate) fn new_versions(entries: &[Entry]) -> String {
    let mut text = String::new();
    for entry in entries {
        let Some(version) = Version::of(&entry.record) else { continue };
        let old = entry.supersedes.map_or_else(String::new, |old| format!(" after entry {old}"));
        let _ = writeln!(
            text,
            "{} {}: version {}, entry {}{old}",
            version.kind,
            version.name,
            short(version.digest),
            entry.id
        );
    }
    text
}

/// Keep a file with those that it names.
pub(super) fn keep(
    path: &Path,
    file: &Path,
    name: Option<&str>,
    by: &str,
) -> Result<String, Failure> {
    let versions = versions(&Disk::default(), &file.to_string_lossy(), name)?;
    let (mut book, made) = opened(path)?;
    let entries = book.keep(None, versions, &audit(by))?;
    if entries.is_empty() {
        return Ok(format!("{made}nothing has changed since the versions that the book holds\n"));
    }
    Ok(format!("{made}{}", new_versions(&entries)))
}

/// Every version, the newest of each first.
pub(super) fn list(path: &Path, json: bool) -> Result<String, Failure> {
    let entries = Book::open(path)?.entries()?;
    if json {
        return Ok(format!("{:#}\n", holdings_value(&entries, hardpan_assess::CAUTION)));
    }
    let all = holdings(&entries);
    if all.is_empty() {
        return Ok(
            "the book holds no aeroplane, strip, day or flight; `keep` records them\n".into()
        );
    }
    let mut text = String::new();
    for one in &all {
        let _ = write!(
            text,
            "{} {}: entry {}, version {}, {} by {}, {}",
            one.version.kind,
            one.version.name,
            one.entry.id,
            short(one.version.digest),
            one.entry.audit.at.strftime("%Y-%m-%d %H:%MZ"),
            one.entry.audit.by,
            one.version.file
        );
        match one.superseded_by {
            Some(by) => {
                let _ = writeln!(text, "; superseded by entry {by}");
            }
            None => text.push_str(&details(one)),
        }
    }
    Ok(text)
}

/// Equipment, surveys and assessments of a version that stands.
fn details(one: &Holding<'_>) -> String {
    let mut text = String::from("\n");
    for piece in &one.equipment {
        let due = piece.due.map_or_else(String::new, |day| format!(", due {day}"));
        let at = piece.at.strftime("%Y-%m-%d");
        let _ = writeln!(text, "  {}: {} on {at}{due}", piece.item, piece.state);
    }
    if one.version.kind == Kind::Aeroplane && one.equipment.is_empty() {
        text.push_str("  the state of its equipment is not recorded\n");
    }
    for (entry, survey) in &one.surveys {
        let _ =
            writeln!(text, "  {}: {} of {}, entry {entry}", survey.file, survey.what, survey.date);
    }
    if !one.assessments.is_empty() {
        let all: Vec<String> = one.assessments.iter().map(ToString::to_string).collect();
        let by = if all.len() == 1 { "assessment of entry" } else { "assessments of entries" };
        let _ = writeln!(text, "  used by the {by} {}", all.join(", "));
    }
    text
}

fn found(entries: &[Entry], id: i64) -> Result<&Entry, Failure> {
    entries
        .iter()
        .find(|entry| entry.id == id)
        .ok_or_else(|| refused(format!("there is no entry {id}; the book holds {}", entries.len())))
}

/// One entry with its audit.
pub(super) fn show(path: &Path, id: i64, units: UnitSystem) -> Result<String, Failure> {
    let entries = Book::open(path)?.entries()?;
    let entry = found(&entries, id)?;
    let mut text = format!(
        "entry {id}: {}\nrecorded {} by {}\n",
        entry.record.kind(),
        entry.audit.at,
        entry.audit.by
    );
    if let Some(first) = &entry.first {
        let _ = writeln!(text, "{first}");
    }
    if let (Some(old), Some(why)) = (entry.supersedes, &entry.why) {
        let _ = writeln!(text, "in the place of entry {old}: {why}");
        let before = entries.iter().find(|entry| entry.id == old);
        text.push_str(&before.map_or_else(String::new, |before| changes(before, entry, units)));
    }
    if let Some(newer) = entries.iter().find(|other| other.supersedes == Some(id)) {
        let _ = writeln!(text, "no longer stands; see entry {}", newer.id);
    }
    for (name, value) in entry.record.fields() {
        match name.as_str() {
            "files" | "json" | "inputs" | "versions" => {}
            _ => {
                let _ = writeln!(text, "  {name}: {}", field_text(&name, &value, units));
            }
        }
    }
    if let Some(version) = Version::of(&entry.record) {
        for (name, file) in version.files() {
            let kept = if file.text.is_some() { "kept whole" } else { "digest only" };
            let _ = writeln!(text, "  {}  {name}, {kept}", file.digest);
        }
    }
    if let Record::Assessment(one) = &entry.record {
        for (kind, digest, held) in versions_used(&entries, one.versions.as_deref().unwrap_or("")) {
            let place =
                held.map_or("not in this book".to_owned(), |held| format!("entry {}", held.id));
            let _ = writeln!(text, "  made from {kind} version {}, {place}", short(&digest));
        }
    }
    Ok(text)
}

/// The values that are not the same, before and after.
fn changes(before: &Entry, after: &Entry, units: UnitSystem) -> String {
    let (old, new) = (before.record.fields(), after.record.fields());
    let mut text = String::new();
    for name in before.record.kind().fields() {
        let is_long = ["files", "json", "inputs", "versions"].contains(name);
        let (a, b) = (old.get(*name), new.get(*name));
        if a == b || is_long {
            continue;
        }
        let told = |value: Option<&String>, how: &dyn Fn(&str) -> String| {
            value.map_or_else(|| "not stated".to_owned(), |value| how(value))
        };
        let read = |value: &str| field_text(name, value, units);
        let (mut was, mut is) = (told(a, &read), told(b, &read));
        if was == is {
            // Rounded alike, and yet corrected.
            (was, is) = (told(a, &str::to_owned), told(b, &str::to_owned));
        }
        let _ = writeln!(text, "  {name}: before {was}, after {is}");
    }
    text
}

/// Write what a version holds.
pub(super) fn files(path: &Path, id: i64, to: &Path) -> Result<String, Failure> {
    let entries = Book::open(path)?.entries()?;
    let entry = found(&entries, id)?;
    let version = Version::of(&entry.record).ok_or_else(|| {
        refused(format!("entry {id} is of the kind {}; it holds no files", entry.record.kind()))
    })?;
    if to.exists() {
        return Err(Failure::Exists { path: to.to_owned() });
    }
    let files = version.files();
    let is_outside =
        |name: &str| Path::new(name).components().any(|part| !matches!(part, Component::Normal(_)));
    let mut text = String::new();
    for (name, file) in &files {
        let Some(content) = file.text.as_ref().filter(|_| !is_outside(name)) else {
            let why = if file.text.is_none() {
                "only its digest is kept"
            } else {
                "it lies outside the folder"
            };
            let _ = writeln!(text, "not written: {name}; {why}");
            continue;
        };
        let target = to.join(name);
        make_folder(target.parent().unwrap_or(to))?;
        write_new(&target, content)?;
        let _ = writeln!(text, "written: {}", target.display());
    }
    Ok(text)
}
