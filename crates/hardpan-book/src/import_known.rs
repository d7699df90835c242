//! What of a file stands in the book already, word for word.

use crate::names::InUse;
use crate::store::{Named, Put, Superseding};
use crate::{BookError, Entry, Fields, Kind, Mistakes, Record, Taken, current};
use std::collections::{BTreeMap, BTreeSet};

/// What became of a file that was taken over.
#[derive(Debug, Clone, PartialEq)]
pub struct TakenOver {
    /// What was recorded, in its order.
    pub recorded: Vec<Entry>,
    /// Entries that held some of it already, word for word.
    pub known: Vec<i64>,
}

/// Everything that a record says.
type Words = (Kind, Fields);

fn words(record: &Record) -> Words {
    (record.kind(), record.fields())
}

/// Names of the entries that stand, but for those that are replaced.
fn names_without(stand: &[&Entry], replaced: &BTreeSet<i64>) -> InUse {
    let kept = stand.iter().filter(|entry| !replaced.contains(&entry.id));
    InUse::of(kept.map(|entry| &entry.record))
}

/// What the book does not hold, ready to be put in, and the entries that hold the rest.
/// Each entry answers for one record only: of two alike in the file, two must stand.
///
/// # Errors
/// [`Mistakes`]: what supersedes an entry that something else supersedes already.
pub(crate) fn unknown_of<'h>(
    history: &'h [Taken],
    standing: &[Entry],
) -> Result<(Vec<Put<'h>>, Vec<i64>), Mistakes> {
    let followers: BTreeMap<i64, i64> =
        standing.iter().filter_map(|one| Some((one.supersedes?, one.id))).collect();
    let mut mistakes = Mistakes::default();
    let mut alike: BTreeMap<Words, Vec<&Entry>> = BTreeMap::new();
    for entry in standing {
        alike.entry(words(&entry.record)).or_default().push(entry);
    }
    let stand = current(standing);
    let mut replaced = BTreeSet::new();
    let mut names = names_without(&stand, &replaced);
    let gone: BTreeSet<i64> =
        history.iter().filter_map(|one| one.supersedes.as_ref().map(|(id, _)| *id)).collect();
    let (mut puts, mut known, mut places) = (Vec::new(), Vec::new(), Vec::new());
    let place = |places: &[Named], id: i64| {
        usize::try_from(id).ok()?.checked_sub(1).and_then(|index| places.get(index)).copied()
    };
    for (one, number) in history.iter().zip(1..) {
        let old = one.supersedes.as_ref().and_then(|(id, why)| {
            place(&places, *id).map(|id| Superseding { id, why: why.as_str() })
        });
        let mut record = one.record.clone();
        let shows = match &mut record {
            Record::Picture(picture) => {
                let shows = place(&places, picture.of_entry);
                if let Some(Named::Standing(id)) = shows {
                    picture.of_entry = id;
                }
                shows
            }
            _ => None,
        };
        let names_new = matches!(shows, Some(Named::Along(_)));
        let others = alike.get_mut(&words(&record)).filter(|_| !names_new);
        let found = others.and_then(|others| {
            let find = |holds: &dyn Fn(&&Entry) -> bool| others.iter().position(holds);
            let at = match old.map(|old| old.id) {
                Some(Named::Standing(id)) => find(&|entry| entry.supersedes == Some(id)),
                Some(Named::Along(_)) => None,
                // A table does not say what a row of it superseded.
                None => find(&|entry| entry.supersedes.is_none())
                    .or_else(|| find(&|entry| !followers.contains_key(&entry.id))),
            };
            Some(others.remove(at?).id)
        });
        match found {
            Some(id) => {
                known.push(id);
                places.push(Named::Standing(id));
            }
            None => {
                if let Some(Named::Standing(id)) = old.map(|old| old.id)
                    && let Some(by) = followers.get(&id)
                {
                    mistakes.record(BookError::Superseded { id, by: *by }, |_| one.at);
                }
                if let Some(Named::Standing(id)) = old.map(|old| old.id) {
                    replaced.insert(id);
                    names = names_without(&stand, &replaced);
                }
                if !gone.contains(&number)
                    && let Err(cause) = names.takes(&record)
                {
                    mistakes.record(cause, |_| one.at);
                }
                puts.push(Put { record, old, first: one.first.clone(), shows });
                places.push(Named::Along(i64::try_from(puts.len()).unwrap_or(i64::MAX)));
            }
        }
    }
    mistakes.or((puts, known))
}
