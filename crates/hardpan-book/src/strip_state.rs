//! What a book says of a strip at the time of a flight.

use crate::closures::closed_times;
use crate::counts::last_inspection_entry;
use crate::names::is_alike;
use crate::status::{against_use, grown, not_seen_since};
use crate::{Entry, Kind};
use hardpan_model::{ClosedSpan, Given, Origin, StripState, StripTold};
use jiff::Timestamp;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Kinds of record that tell of the ground of a strip, or of what moved on it.
pub const TOLD_FROM: [Kind; 6] =
    [Kind::Movement, Kind::Inspection, Kind::Damage, Kind::Repair, Kind::Closure, Kind::Survey];

/// What the entries that stand in `book` say of a strip at a moment: its closures, when
/// it was last inspected, and what that inspection and the growth of ruts since hold
/// against it. A strip whose name differs only by case, spaces or hyphens is taken for
/// the same one: a closure must not be missed for a slip of the pen.
#[must_use]
pub fn strip_told(standing: &[&Entry], book: &str, strip: &str, at: Timestamp) -> StripTold {
    let tells = |entry: &&&Entry| TOLD_FROM.contains(&entry.record.kind());
    let known: BTreeSet<&str> =
        standing.iter().filter(tells).filter_map(|entry| entry.record.strip()).collect();
    let Some(name) = known.get(strip).or_else(|| known.iter().find(|one| is_alike(one, strip)))
    else {
        return StripTold::Nothing(known.into_iter().map(str::to_owned).collect());
    };
    let file: Arc<str> = book.into();
    let origin = |id: i64| Origin {
        file: Arc::clone(&file),
        line: 0,
        column: 0,
        key: format!("entry {id}").into(),
    };
    let closures = closed_times(standing, name).into_iter().map(|one| ClosedSpan {
        from: Given { value: one.from, origin: origin(one.entry.id), source: None },
        until: one.until.map(|(id, at)| Given { value: at, origin: origin(id), source: None }),
        reason: one.reason.to_owned(),
        by: one.entry.audit.by.clone(),
    });
    let mut state = StripState { closures: closures.collect(), ..StripState::default() };
    if let Some((entry, seen)) = last_inspection_entry(standing, name, at) {
        let from = |what: String| Given { value: what, origin: origin(entry.id), source: None };
        state.inspected = Some(Given { value: seen.at, origin: origin(entry.id), source: None });
        state.restrictions.extend(against_use(seen).into_iter().map(from));
        state.restrictions.extend(not_seen_since(standing, name, at, seen).map(from));
        state.restrictions.extend(grown(standing, name, at).into_iter().map(from));
    }
    StripTold::State(state)
}
