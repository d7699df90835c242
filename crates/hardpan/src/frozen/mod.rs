//! An assessment with everything that it was made from, so that it can be made
//! again from the book, bit for bit.

mod again;
mod differences;
mod keeper;
mod record;
mod state;
mod versions;

pub(crate) use again::{Frozen, again};
pub(crate) use keeper::{Keeper, digest_of};
pub(crate) use record::frozen;
pub(crate) use state::KeptRecord;
pub(crate) use versions::versions;

use versions::digests;

use hardpan_model::{DamageRecord, Given, Origin};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What an assessment was made from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Inputs {
    /// The flight file.
    pub(crate) flight: String,
    /// Values stated again.
    #[serde(default)]
    pub(crate) changes: Vec<(String, String)>,
    /// The damage record, where it was taken from a book.
    #[serde(default)]
    pub(crate) damage: Option<KeptDamage>,
    /// What books said of the strip.
    #[serde(default)]
    pub(crate) state: Vec<KeptRecord>,
    /// The files, by the path under which they were read.
    pub(crate) files: BTreeMap<String, KeptFile>,
}

/// A file as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum KeptFile {
    /// All of it.
    Text(String),
    /// Its SHA-256, where it is large or no text: it must still stand where it
    /// stood, as it was.
    Sha256(String),
}

/// A damage record as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct KeptDamage {
    book: String,
    movements: u32,
    strikes: u32,
    from: Option<Date>,
    to: Option<Date>,
}

impl KeptDamage {
    pub(crate) fn record(&self) -> DamageRecord {
        let file: Arc<str> = self.book.as_str().into();
        fn given<T>(file: &Arc<str>, key: &str, value: T) -> Given<T> {
            let origin = Origin { file: file.clone(), line: 0, column: 0, key: key.into() };
            Given { value, origin, source: None }
        }
        DamageRecord {
            movements: given(&file, "movement", self.movements),
            strikes: given(&file, "damage", self.strikes),
            from: self.from.map(|date| given(&file, "movement", date)),
            to: self.to.map(|date| given(&file, "movement", date)),
        }
    }

    pub(crate) const fn new(
        book: String,
        movements: u32,
        strikes: u32,
        from: Option<Date>,
        to: Option<Date>,
    ) -> Self {
        Self { book, movements, strikes, from, to }
    }
}
