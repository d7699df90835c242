//! Flights as they were read last: one whose files nobody touched is not read again
//! when some of its values are stated again.

use super::noted::Noted;
use super::{FileShelf, sound};
use crate::commands::reading;
use hardpan_files::read_flight;
use hardpan_model::Flight;
use hardpan_web::{Opened, Refusal};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

/// Flights that are kept.
const KEPT: usize = 8;

/// Flights by their files, the one read last in front.
#[derive(Default)]
pub(super) struct Flights(Mutex<VecDeque<(String, Arc<Opened<Flight>>)>>);

impl Flights {
    /// The flight of a file, read afresh unless none of its files was touched.
    pub(super) fn read(&self, shelf: &FileShelf, file: &str) -> Result<Opened<Flight>, Refusal> {
        let known = self.open().iter().find(|(name, _)| name == file).map(|(_, one)| one.clone());
        if let Some(known) =
            known.filter(|one| shelf.mark_at(&one.files, SystemTime::now()) == one.mark)
        {
            return Ok((*known).clone());
        }
        let begun = SystemTime::now();
        let reader = shelf.reader();
        let noted = Noted::new(&*reader);
        let (mut value, mut came) = sound(read_flight(&noted, file))?;
        let (records, said) = shelf.books.of_flight(&shelf.book_files(), &value);
        if !records.is_empty() {
            came.identifier = reading::joined(&came.identifier, &said);
        }
        value.strip_records = records;
        let files = noted.files();
        let mark = shelf.mark_at(&files, begun);
        let opened = Opened { files, mark, ..came.opened(value) };
        let mut kept = self.open();
        kept.retain(|(name, _)| name != file);
        if opened.mark.is_some() {
            kept.push_front((file.to_owned(), Arc::new(opened.clone())));
            kept.truncate(KEPT);
        }
        Ok(opened)
    }

    fn open(&self) -> MutexGuard<'_, VecDeque<(String, Arc<Opened<Flight>>)>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
