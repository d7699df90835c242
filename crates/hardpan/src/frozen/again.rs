//! Making an assessment of the book again.

use super::differences::differences;
use super::keeper::{digest_of, hex};
use super::{Inputs, KeptFile, KeptRecord};
use crate::commands::reading;
use crate::failure::Failure;
use hardpan_assess::assess;
use hardpan_book::AssessmentRecord;
use hardpan_files::{CloudInput, Disk, FileReadError, FileSource, change_flight};
use hardpan_quantity::{UnitSystem, counted};
use hardpan_report::{Produced, Report, json_text};
use sha2::{Digest as _, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Most differences that are told one by one.
const MOST_TOLD: usize = 20;

/// Make an assessment again from what was kept with it. Gives the text and
/// whether every bit is the same.
pub(crate) fn again(id: i64, record: &AssessmentRecord) -> Result<(String, bool), Failure> {
    let refused = |what: String| Failure::Argument { what };
    let inputs = record.inputs.as_ref().ok_or_else(|| {
        refused(format!(
            "entry {id} was recorded without its files and cannot be made again; `hardpan assess \
             FLIGHT --keep BOOK --by NAME` keeps them"
        ))
    })?;
    let inputs: Inputs = serde_json::from_str(inputs)
        .map_err(|error| refused(format!("the files of entry {id} cannot be read: {error}")))?;
    let document: serde_json::Value = serde_json::from_str(&record.json)
        .map_err(|error| refused(format!("entry {id} holds no assessment: {error}")))?;
    let produced = Produced {
        by: record.program.clone(),
        at: document["produced"]["at"].as_str().unwrap_or_default().to_owned(),
        identifier: record.identifier.clone(),
    };
    let now = made(&inputs, produced)?;
    let mut text = format!(
        "entry {id}: {}, {} at {}, {}\nmade by {}; made again by {}\n",
        record.flight,
        record.tail,
        record.strip,
        record.verdict.word(),
        record.program,
        reading::PROGRAM,
    );
    // The book trims what it is given.
    let is_same = now.trim_end() == record.json.trim_end();
    if is_same {
        text.push_str("the same to the last bit\n");
        return Ok((text, true));
    }
    let now: serde_json::Value = serde_json::from_str(&now)
        .map_err(|error| refused(format!("the new assessment cannot be read: {error}")))?;
    let found = differences(&document, &now);
    let differ = counted(found.len(), "value differs", "values differ");
    let _ = writeln!(text, "not the same: {differ}");
    for difference in found.iter().take(MOST_TOLD) {
        let _ = writeln!(text, "  {difference}");
    }
    if found.len() > MOST_TOLD {
        let _ = writeln!(text, "  and {} more", found.len() - MOST_TOLD);
    }
    Ok((text, false))
}

/// The assessment of kept inputs as JSON.
fn made(inputs: &Inputs, produced: Produced) -> Result<String, Failure> {
    let source = Frozen::new(&inputs.files);
    let (mut flight, _) = reading::flight(&source, &inputs.flight)?;
    if !inputs.changes.is_empty() {
        flight = reading::usable(change_flight(flight, &inputs.changes))?.0;
    }
    if let Some(damage) = &inputs.damage {
        flight.damage_record = Some(damage.record());
    }
    flight.strip_records = inputs.state.iter().map(KeptRecord::record).collect();
    Ok(json_text(&Report::new(&assess(&flight), UnitSystem::Metric, produced)))
}

/// Files as they were kept.
pub(crate) struct Frozen<'i> {
    files: &'i BTreeMap<String, KeptFile>,
    disk: Disk,
}

impl<'i> Frozen<'i> {
    pub(crate) fn new(files: &'i BTreeMap<String, KeptFile>) -> Self {
        Self { files, disk: Disk::default() }
    }

    fn kept(&self, path: &str) -> Result<&KeptFile, FileReadError> {
        self.files.get(path).ok_or(FileReadError::NotFound)
    }
}

fn changed() -> FileReadError {
    let reason = "the book holds only the digest of this file, and what stands there now is \
                  another; put the old file back in its place";
    FileReadError::Refused { reason: reason.to_owned() }
}

impl FileSource for Frozen<'_> {
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError> {
        match self.kept(path)? {
            KeptFile::Text(text) => Ok(text.clone().into_bytes()),
            KeptFile::Sha256(digest) => {
                let bytes = self.disk.read(path)?;
                let is_same = hex(Sha256::new().chain_update(&bytes)) == *digest;
                if is_same { Ok(bytes) } else { Err(changed()) }
            }
        }
    }

    fn open(&self, path: &str) -> Result<Box<dyn CloudInput>, FileReadError> {
        match self.kept(path)? {
            KeptFile::Text(text) => Ok(Box::new(std::io::Cursor::new(text.clone().into_bytes()))),
            KeptFile::Sha256(digest) => {
                let is_same = digest_of(&mut self.disk.open(path)?)? == *digest;
                if is_same { self.disk.open(path) } else { Err(changed()) }
            }
        }
    }
}
