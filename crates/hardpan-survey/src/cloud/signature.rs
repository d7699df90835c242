//! What the first bytes of a file promise, held against its size before
//! anything is allocated for it.
//!
//! Source: [LAS-14-R15] tables 3 and 30; [LASZIP-2013] for the chunks.

use crate::Error;
use std::io::{Read, Seek, SeekFrom};

const HEAD: usize = 375;
const RECORD_HEAD: u64 = 54;
const EXTENDED_RECORD_HEAD: u64 = 60;
/// Length of a point record of formats 0 to 10.
const RECORD_LENGTHS: [u16; 11] = [20, 28, 26, 34, 57, 63, 30, 36, 38, 59, 67];
/// Layers of a chunk for the core of a point of format 6 and above.
const CORE_LAYERS: u64 = 9;

/// The promises that were checked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Signature {
    pub(crate) points: u64,
    pub(crate) format: u8,
    pub(crate) record_length: u16,
    pub(crate) compressed: bool,
    start: u64,
    size: u64,
}

fn part<const N: usize>(head: &[u8], at: usize) -> Result<[u8; N], Error> {
    head.get(at..at + N)
        .and_then(|bytes| bytes.try_into().ok())
        .ok_or(Error::CutShort { what: "its header" })
}

fn word(head: &[u8], at: usize) -> Result<u16, Error> {
    part(head, at).map(u16::from_le_bytes)
}

fn long(head: &[u8], at: usize) -> Result<u64, Error> {
    part(head, at).map(|bytes| u64::from(u32::from_le_bytes(bytes)))
}

fn huge(head: &[u8], at: usize) -> Result<u64, Error> {
    part(head, at).map(u64::from_le_bytes)
}

impl Signature {
    /// Reads and checks the header; leaves the input at its start.
    pub(crate) fn read(input: &mut (impl Read + Seek)) -> Result<Self, Error> {
        let size = input.seek(SeekFrom::End(0)).map_err(|error| refused(&error))?;
        let head = bytes_at(input, 0, HEAD)?;
        if head.get(..4) != Some(b"LASF") {
            return Err(Error::NotACloud);
        }
        let version: [u8; 2] = part(&head, 24)?;
        if version[0] != 1 || version[1] > 4 {
            return Err(Error::CloudVersion { major: version[0], minor: version[1] });
        }
        let (head_size, start) = (u64::from(word(&head, 94)?), long(&head, 96)?);
        let (stated, record_length) = (part::<1>(&head, 104)?[0], word(&head, 105)?);
        let (format, compressed) = (stated & 0x3f, stated & 0xc0 != 0);
        let least = RECORD_LENGTHS.get(usize::from(format)).copied();
        if least.is_none_or(|least| record_length < least) {
            return Err(Error::PointFormat { format, record_length });
        }
        let records = long(&head, 100)?;
        if head_size + records * RECORD_HEAD > start || start > size {
            return Err(Error::CutShort { what: "what stands before its points" });
        }
        let few = long(&head, 107)?;
        let points = if version[1] >= 4 && few == 0 { huge(&head, 247)? } else { few };
        if version[1] >= 4 && long(&head, 243)? > 0 {
            extended(input, huge(&head, 235)?, size)?;
        }
        plain_numbers(&head)?;
        let found = Self { points, format, record_length, compressed, start, size };
        found.holds_its_points(input)?;
        input.seek(SeekFrom::Start(0)).map_err(|error| refused(&error))?;
        Ok(found)
    }

    fn holds_its_points(&self, input: &mut (impl Read + Seek)) -> Result<(), Error> {
        if self.points == 0 {
            return Err(Error::NoPoint);
        }
        if self.compressed {
            return self.chunks_are_counted(input);
        }
        let length = u64::from(self.record_length);
        let held = (self.size - self.start) / length;
        if held < self.points {
            return Err(Error::Truncated { points: self.points, held });
        }
        Ok(())
    }

    /// The table of chunks has no more entries than the file has bytes.
    fn chunks_are_counted(&self, input: &mut (impl Read + Seek)) -> Result<(), Error> {
        let what = "its table of chunks";
        let mut table = huge(&bytes_at(input, self.start, 8)?, 0)?;
        if table <= self.start || table > i64::MAX as u64 {
            table = huge(&bytes_at(input, self.size.saturating_sub(8), 8)?, 0)?;
        }
        if table <= self.start || table.saturating_add(8) > self.size {
            return Err(Error::CutShort { what });
        }
        let chunks = long(&bytes_at(input, table, 8)?, 4)?;
        if chunks > self.size {
            return Err(Error::CutShort { what });
        }
        Ok(())
    }

    /// Walks the chunks of a layered file: no layer may be longer than what is
    /// left of the file. Leaves the input at its start.
    pub(crate) fn layers_fit(&self, input: &mut (impl Read + Seek)) -> Result<(), Error> {
        if !self.compressed || self.format < 6 {
            return Ok(());
        }
        let what = "one of its chunks";
        let core = RECORD_LENGTHS.get(usize::from(self.format)).copied().unwrap_or(0);
        let extra = u64::from(self.record_length.saturating_sub(core));
        let layers = CORE_LAYERS + extra + [0, 1, 2, 1, 3][usize::from(self.format - 6).min(4)];
        let fixed = u64::from(self.record_length) + 4;
        let (mut at, mut points) = (self.start + 8, 0_u64);
        while points < self.points {
            let length = usize::try_from(fixed + 4 * layers).unwrap_or(usize::MAX);
            let head = bytes_at(input, at, length)?;
            let count = long(&head, usize::from(self.record_length))?;
            let mut end = at + fixed + 4 * layers;
            for layer in 0..layers {
                let place = usize::try_from(fixed + 4 * layer).unwrap_or(usize::MAX);
                end = end.saturating_add(long(&head, place)?);
            }
            if count == 0 || end > self.size {
                return Err(Error::CutShort { what });
            }
            points = points.saturating_add(count);
            at = end;
        }
        input.seek(SeekFrom::Start(0)).map_err(|error| refused(&error))?;
        Ok(())
    }
}

/// The first extended record lies within the file.
fn extended(input: &mut (impl Read + Seek), at: u64, size: u64) -> Result<(), Error> {
    let what = "what stands behind its points";
    if at.saturating_add(EXTENDED_RECORD_HEAD) > size {
        return Err(Error::CutShort { what });
    }
    let length = huge(&bytes_at(input, at, 60)?, 20)?;
    if length > size - at - EXTENDED_RECORD_HEAD {
        return Err(Error::CutShort { what });
    }
    Ok(())
}

/// Scales are positive and all six numbers of the transform are finite.
fn plain_numbers(head: &[u8]) -> Result<(), Error> {
    for (index, at) in (131..179).step_by(8).enumerate() {
        let value = f64::from_le_bytes(part(head, at)?);
        if !value.is_finite() || (index < 3 && value <= 0.0) {
            return Err(Error::CutShort { what: "the scale of its coordinates" });
        }
    }
    Ok(())
}

fn bytes_at(input: &mut (impl Read + Seek), at: u64, most: usize) -> Result<Vec<u8>, Error> {
    input.seek(SeekFrom::Start(at)).map_err(|error| refused(&error))?;
    let mut bytes = Vec::new();
    input.take(most as u64).read_to_end(&mut bytes).map_err(|error| refused(&error))?;
    Ok(bytes)
}

pub(crate) fn refused(error: &std::io::Error) -> Error {
    Error::Refused { reason: error.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Cursor;

    /// Format, length of a record and count of points as an independent reader
    /// gives them, laspy 2.7.0 (BSD-2), see tests/data.
    #[test]
    fn headers_of_outside_files_promise_what_another_reader_finds() {
        for (file, bytes, format, record_length, points, compressed) in [
            ("simple.las", &include_bytes!("../../tests/data/simple.las")[..], 3, 34, 1065, false),
            ("simple.laz", &include_bytes!("../../tests/data/simple.laz")[..], 3, 34, 1065, true),
            (
                "autzen_trim.laz",
                &include_bytes!("../../tests/data/autzen_trim.laz")[..],
                3,
                34,
                110_000,
                true,
            ),
            (
                "simple1_3.las",
                &include_bytes!("../../tests/data/simple1_3.las")[..],
                4,
                57,
                999,
                false,
            ),
            (
                "test1_4.las",
                &include_bytes!("../../tests/data/test1_4.las")[..],
                6,
                30,
                1000,
                false,
            ),
        ] {
            let found = Signature::read(&mut Cursor::new(bytes)).expect("a header");
            let told = (found.format, found.record_length, found.points, found.compressed);
            assert_eq!(told, (format, record_length, points, compressed), "{file}");
        }
    }
}
