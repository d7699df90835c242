//! What a book said of a strip, as it is kept with an assessment.

use hardpan_model::{ClosedSpan, Given, Origin, StripRecord, StripState, StripTold};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// What a book said of the strip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct KeptRecord {
    book: String,
    told: KeptTold,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum KeptTold {
    Unreadable(String),
    Nothing(Vec<String>),
    State {
        closures: Vec<KeptClosure>,
        inspected: Option<Noted<Timestamp>>,
        restrictions: Vec<Noted<String>>,
    },
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptClosure {
    from: Noted<Timestamp>,
    until: Option<Noted<Timestamp>>,
    reason: String,
    by: String,
}

/// A value with the entry that it stands in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Noted<T> {
    entry: String,
    value: T,
}

impl<T: Clone> Noted<T> {
    fn of(given: &Given<T>) -> Self {
        Self { entry: given.origin.key.to_string(), value: given.value.clone() }
    }

    fn given(&self, book: &Arc<str>) -> Given<T> {
        let key = self.entry.as_str().into();
        let origin = Origin { file: Arc::clone(book), line: 0, column: 0, key };
        Given { value: self.value.clone(), origin, source: None }
    }
}

impl KeptRecord {
    pub(crate) fn of(record: &StripRecord) -> Self {
        let told = match &record.told {
            StripTold::Unreadable(why) => KeptTold::Unreadable(why.clone()),
            StripTold::Nothing(known) => KeptTold::Nothing(known.clone()),
            StripTold::State(state) => {
                let closures = state.closures.iter().map(|span| KeptClosure {
                    from: Noted::of(&span.from),
                    until: span.until.as_ref().map(Noted::of),
                    reason: span.reason.clone(),
                    by: span.by.clone(),
                });
                KeptTold::State {
                    closures: closures.collect(),
                    inspected: state.inspected.as_ref().map(Noted::of),
                    restrictions: state.restrictions.iter().map(Noted::of).collect(),
                }
            }
        };
        Self { book: record.book.to_string(), told }
    }

    pub(crate) fn record(&self) -> StripRecord {
        let book: Arc<str> = self.book.as_str().into();
        let told = match &self.told {
            KeptTold::Unreadable(why) => StripTold::Unreadable(why.clone()),
            KeptTold::Nothing(known) => StripTold::Nothing(known.clone()),
            KeptTold::State { closures, inspected, restrictions } => {
                let closures = closures.iter().map(|one| ClosedSpan {
                    from: one.from.given(&book),
                    until: one.until.as_ref().map(|until| until.given(&book)),
                    reason: one.reason.clone(),
                    by: one.by.clone(),
                });
                StripTold::State(StripState {
                    closures: closures.collect(),
                    inspected: inspected.as_ref().map(|seen| seen.given(&book)),
                    restrictions: restrictions.iter().map(|one| one.given(&book)).collect(),
                })
            }
        };
        StripRecord { book, told }
    }

    /// The same as text, for a digest of what was read.
    pub(crate) fn text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }
}
