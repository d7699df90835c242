//! The books of the folder, and what they say of a strip.

use super::noted;
use crate::frozen::KeptRecord;
use crate::recorded::recorded;
use hardpan_book::{Book, Entry, GradingLimits, TOLD_FROM, current, grading, strip_told};
use hardpan_model::{Flight, StripRecord, StripTold};
use hardpan_web::Recorded;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

/// The entries of a book that tell of a strip, or why they cannot be read.
type Read = Arc<Result<Vec<Entry>, String>>;

/// A book and a strip.
type Asked = (String, String);

/// Mark of a book, the day of asking, and what it said.
type Said = (String, Date, Recorded);

/// Books as they were read last.
#[derive(Default)]
pub(super) struct Books {
    read: Mutex<BTreeMap<String, (String, Read)>>,
    /// What was said last of a strip on a day.
    said: Mutex<BTreeMap<Asked, Said>>,
}

impl Books {
    /// What each of these books says of the strip of a flight at its time, and the same
    /// as text. A book that tells of other strips only says nothing.
    pub(super) fn of_flight(
        &self,
        files: &[String],
        flight: &Flight,
    ) -> (Vec<StripRecord>, String) {
        let mut records = Vec::new();
        for file in files {
            match &*self.read(file) {
                Ok(entries) => {
                    let standing: Vec<&Entry> = entries.iter().collect();
                    records.extend(recorded(&standing, file, flight));
                }
                Err(why) => {
                    let told = StripTold::Unreadable(why.clone());
                    records.push(StripRecord { book: file.as_str().into(), told });
                }
            }
        }
        records.retain(|record| !matches!(record.told, StripTold::Nothing(_)));
        let text = records.iter().map(|record| KeptRecord::of(record).text()).collect();
        (records, text)
    }

    /// What each of these books says of a strip at a moment.
    pub(super) fn of_strip(&self, files: &[String], strip: &str, at: Timestamp) -> Vec<Recorded> {
        let said = files.iter().map(|file| self.said(file, strip, at));
        said.filter(|one| !matches!(one.told, StripTold::Nothing(_))).collect()
    }

    fn said(&self, file: &str, strip: &str, at: Timestamp) -> Recorded {
        let day = Offset::UTC.to_datetime(at).date();
        let key = (file.to_owned(), strip.to_owned());
        let mark = noted::mark_of_book(file, SystemTime::now());
        let known = open(&self.said).get(&key).cloned();
        if let Some((_, _, said)) =
            known.filter(|(old, when, _)| Some(old) == mark.as_ref() && *when == day)
        {
            return said;
        }
        let (told, due) = match &*self.read(file) {
            Ok(entries) => {
                let standing: Vec<&Entry> = entries.iter().collect();
                let told = strip_told(&standing, file, strip, at);
                let found = grading(&standing, strip, at, &GradingLimits::default());
                let places = found.map(|found| found.places).unwrap_or_default();
                let due = places.first().and_then(|one| Some((one.days[0]?, one.place())));
                (told, due)
            }
            Err(why) => (StripTold::Unreadable(why.clone()), None),
        };
        let said = Recorded { file: file.to_owned(), told, due };
        if let Some(mark) = mark {
            open(&self.said).insert(key, (mark, day, said.clone()));
        }
        said
    }

    /// The entries of a book, read again only when somebody touched it.
    fn read(&self, file: &str) -> Read {
        let mark = noted::mark_of_book(file, SystemTime::now());
        let known = open(&self.read).get(file).cloned();
        if let Some((_, read)) = known.filter(|(old, _)| Some(old) == mark.as_ref()) {
            return read;
        }
        let entries = Book::open(Path::new(file)).and_then(|book| book.entries());
        let telling = entries.map(|entries| {
            let standing = current(&entries).into_iter();
            standing.filter(|entry| TOLD_FROM.contains(&entry.record.kind())).cloned().collect()
        });
        let read: Read = Arc::new(telling.map_err(|error| error.to_string()));
        if let Some(mark) = mark {
            open(&self.read).insert(file.to_owned(), (mark, Arc::clone(&read)));
        }
        read
    }
}

fn open<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}
