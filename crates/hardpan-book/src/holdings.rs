//! Which aeroplanes, strips, days and flights the book holds, in which versions.

use crate::{Entry, Equipment, Kind, Record, Survey, Version, current};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// One version that the book holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Holding<'e> {
    /// The version.
    pub version: Version<'e>,
    /// The entry that holds it.
    pub entry: &'e Entry,
    /// The entry that took its place.
    pub superseded_by: Option<i64>,
    /// Of an aeroplane, the newest state of each piece of its equipment.
    pub equipment: Vec<&'e Equipment>,
    /// Of a strip, the surveys whose file is in it, bit for bit, with their entries.
    pub surveys: Vec<(i64, &'e Survey)>,
    /// The kept assessments that were made from it.
    pub assessments: Vec<i64>,
}

/// Every version, aeroplanes first, then strips, days and flights; of each the
/// newest first.
#[must_use]
pub fn holdings(entries: &[Entry]) -> Vec<Holding<'_>> {
    let taken: BTreeMap<i64, i64> =
        entries.iter().filter_map(|entry| Some((entry.supersedes?, entry.id))).collect();
    let standing = current(entries);
    let mut all: Vec<Holding<'_>> = entries
        .iter()
        .filter_map(|entry| {
            let version = Version::of(&entry.record)?;
            Some(Holding {
                version,
                entry,
                superseded_by: taken.get(&entry.id).copied(),
                equipment: equipment_of(&standing, &version),
                surveys: surveys_of(&standing, &version),
                assessments: assessments_of(&standing, &version),
            })
        })
        .collect();
    all.sort_by(|a, b| {
        let place = |one: &Holding<'_>| (one.version.kind, one.version.name.to_owned());
        place(a).cmp(&place(b)).then(b.entry.id.cmp(&a.entry.id))
    });
    all
}

/// The newest state of each piece of equipment of an aeroplane, by its name.
fn equipment_of<'e>(standing: &[&'e Entry], version: &Version<'_>) -> Vec<&'e Equipment> {
    let mut newest: BTreeMap<&str, &Equipment> = BTreeMap::new();
    if version.kind == Kind::Aeroplane {
        for entry in standing {
            let Record::Equipment(one) = &entry.record else { continue };
            if one.tail == version.name
                && newest.get(&*one.item).is_none_or(|known| one.at >= known.at)
            {
                newest.insert(&one.item, one);
            }
        }
    }
    newest.into_values().collect()
}

fn surveys_of<'e>(standing: &[&'e Entry], version: &Version<'_>) -> Vec<(i64, &'e Survey)> {
    if version.kind != Kind::Strip {
        return Vec::new();
    }
    let digests: BTreeSet<String> = version.files().into_values().map(|file| file.digest).collect();
    let mine = |entry: &&'e Entry| match &entry.record {
        Record::Survey(one) if one.digest.as_ref().is_some_and(|d| digests.contains(d)) => {
            Some((entry.id, one))
        }
        _ => None,
    };
    standing.iter().filter_map(mine).collect()
}

fn assessments_of(standing: &[&Entry], version: &Version<'_>) -> Vec<i64> {
    let uses = |versions: &str| {
        let value: Value = serde_json::from_str(versions).unwrap_or_default();
        value.get(version.kind.word()).and_then(Value::as_str) == Some(version.digest)
    };
    let mine = standing.iter().filter(|entry| {
        matches!(&entry.record, Record::Assessment(one) if one.versions.as_deref().is_some_and(uses))
    });
    mine.map(|entry| entry.id).collect()
}

/// The same as JSON: the caution, and a list of versions with their files' digests.
#[must_use]
pub fn holdings_value(entries: &[Entry], caution: &str) -> Value {
    let versions: Vec<Value> = holdings(entries).iter().map(told).collect();
    json!({ "caution": caution, "versions": versions })
}

fn told(one: &Holding<'_>) -> Value {
    let files: BTreeMap<String, String> =
        one.version.files().into_iter().map(|(name, file)| (name, file.digest)).collect();
    let equipment = one.equipment.iter().map(|one| {
        json!({
            "item": one.item, "state": one.state.to_string(), "at": one.at.to_string(),
            "due": one.due.map(|day| day.to_string()),
        })
    });
    let surveys = one.surveys.iter().map(|(id, survey)| {
        json!({
            "entry": id, "what": survey.what.to_string(), "date": survey.date.to_string(),
            "file": survey.file,
        })
    });
    json!({
        "entry": one.entry.id,
        "kind": one.version.kind.word(),
        "name": one.version.name,
        "strip": one.version.strip,
        "tail": one.version.tail,
        "file": one.version.file,
        "sha256": one.version.digest,
        "files": files,
        "recorded_at": one.entry.audit.at.to_string(),
        "recorded_by": one.entry.audit.by,
        "supersedes": one.entry.supersedes,
        "superseded_by": one.superseded_by,
        "equipment": equipment.collect::<Vec<_>>(),
        "surveys": surveys.collect::<Vec<_>>(),
        "assessments": one.assessments,
    })
}
