//! Decoding on one thread, gridding on another, in the order of the file.

use super::signature::{Signature, refused};
use super::unit::{CloudUnit, Units, units};
use crate::gridding::{Accumulator, GridSettings, Gridded, PointMetres};
use crate::jumps::one_unit;
use crate::{Error, StationAxis};
use hardpan_quantity::Length;
use las::{PointData, PointDataBuilder, Reader};
use std::io::{BufReader, Read, Seek, SeekFrom};
use std::sync::mpsc::{Receiver, SyncSender, channel, sync_channel};

/// Points decoded at once.
const BATCH: u64 = 50_000;
/// Batches on the way between the two threads.
const UNDER_WAY: usize = 4;

/// Bytes of a cloud: a file, or memory.
pub trait CloudInput: Read + Seek + Send + Sync + 'static {}

impl<T: Read + Seek + Send + Sync + 'static> CloudInput for T {}

/// What a cloud is laid on, and what is known of it besides.
#[derive(Debug, Clone, PartialEq)]
pub struct CloudRequest {
    /// Axis of the strip in the frame of the cloud.
    pub axis: StationAxis,
    /// Length of the running surface.
    pub strip_length: Length,
    /// Width of the running surface.
    pub strip_width: Length,
    /// Cells and ground.
    pub settings: GridSettings,
    /// Unit of easting and northing, where the user states it.
    pub horizontal_unit: Option<CloudUnit>,
    /// Unit of height, where the user states it.
    pub vertical_unit: Option<CloudUnit>,
}

/// Survey lines from a cloud. `progress` is told the share that is done.
///
/// Memory is bounded by the cells of the strip, whatever the count of points.
///
/// # Errors
/// [`Error`] for bytes that are no cloud, are cut short or damaged, for a frame
/// in degrees, a unit that nobody states, or points that miss the strip.
pub fn read_cloud(
    input: Box<dyn CloudInput>,
    request: &CloudRequest,
    progress: &mut dyn FnMut(f64),
) -> Result<Gridded, Error> {
    let mut grid = Accumulator::new(
        request.axis,
        request.settings,
        request.strip_length,
        request.strip_width,
    )?;
    let units = (request.horizontal_unit, request.vertical_unit);
    each_batch(input, units, progress, &mut |batch| {
        batch.each(|point, withheld| if withheld { grid.withheld() } else { grid.add(point) });
        Ok(())
    })?;
    let gridded = grid.finish()?;
    one_unit(&gridded.lines)?;
    Ok(gridded)
}

/// Hands over all points of a cloud, batch by batch, in the order of the file.
pub(super) fn each_batch(
    mut input: Box<dyn CloudInput>,
    (horizontal, vertical): (Option<CloudUnit>, Option<CloudUnit>),
    progress: &mut dyn FnMut(f64),
    take: &mut dyn FnMut(&Batch<'_>) -> Result<(), Error>,
) -> Result<(), Error> {
    let signature = Signature::read(&mut input)?;
    let header = las::Header::new(&mut input).map_err(|error| damaged(0, &error))?;
    items_match(&header, signature)?;
    let units = units(&header, horizontal, vertical)?;
    signature.layers_fit(&mut input)?;
    input.seek(SeekFrom::Start(0)).map_err(|error| refused(&error))?;
    let total = header.number_of_points();
    let (full, filled) = sync_channel(UNDER_WAY);
    let (empty, emptied) = channel();
    let decoder = std::thread::spawn(move || decode(input, &full, &emptied));
    let mut done: u64 = 0;
    let mut outcome = Ok(());
    for batch in &filled {
        outcome = batch.and_then(|points| {
            take(&Batch { points: &points, units })?;
            done += points.len() as u64;
            progress(done as f64 / total.max(1) as f64);
            // The decoder may have ended already; it then needs no buffer.
            let _ = empty.send(points);
            Ok(())
        });
        if outcome.is_err() {
            break;
        }
    }
    // The decoder stops at its next batch, which nobody takes.
    drop(filled);
    // The decoding library may stop on bytes that it does not expect.
    let ended = decoder.join().map_err(|_| Error::Damaged {
        points: done,
        what: "its compressed points contradict themselves".to_owned(),
    });
    outcome.and(ended)?;
    if done != total {
        return Err(Error::Truncated { points: total, held: done });
    }
    Ok(())
}

fn decode(
    input: Box<dyn CloudInput>,
    full: &SyncSender<Result<PointData, Error>>,
    emptied: &Receiver<PointData>,
) {
    let mut reader = match Reader::new(BufReader::with_capacity(1 << 18, input)) {
        Ok(reader) => reader,
        Err(error) => {
            let _ = full.send(Err(damaged(0, &error)));
            return;
        }
    };
    let total = reader.header().number_of_points();
    let mut done = 0;
    while done < total {
        let mut points = emptied
            .try_recv()
            .unwrap_or_else(|_| PointDataBuilder::new().for_header(reader.header()).build());
        let batch = match reader.fill_points(BATCH, &mut points) {
            Ok(0) => return,
            Ok(count) => {
                done += count;
                Ok(points)
            }
            Err(error) => Err(fault(done, total, &error)),
        };
        let failed = batch.is_err();
        if full.send(batch).is_err() || failed {
            return;
        }
    }
}

/// Points as they stand in the file, and the units that they are in.
pub(super) struct Batch<'p> {
    points: &'p PointData,
    units: Units,
}

impl Batch<'_> {
    /// Each point in metres, and whether the file withholds it. Record by
    /// record: coordinates stand first in every format.
    /// Source: [LAS-14-R15] tables 7 and 14.
    #[inline]
    pub(super) fn each(&self, mut take: impl FnMut(PointMetres, bool)) {
        let (points, units) = (self.points, self.units);
        let transforms = points.transforms();
        let (x, y, z) = (transforms.x, transforms.y, transforms.z);
        let extended = points.format().is_extended;
        for record in points.raw_bytes().chunks_exact(points.record_len().max(1)) {
            let [x0, x1, x2, x3, y0, y1, y2, y3, z0, z1, z2, z3, _, _, _, flags, class, ..] =
                *record
            else {
                continue;
            };
            let (class, withheld) = if extended {
                (class, flags & 0x04 != 0)
            } else {
                (flags & 0x1f, flags & 0x80 != 0)
            };
            let point = PointMetres {
                easting: x.direct(i32::from_le_bytes([x0, x1, x2, x3])) * units.horizontal,
                northing: y.direct(i32::from_le_bytes([y0, y1, y2, y3])) * units.horizontal,
                height: z.direct(i32::from_le_bytes([z0, z1, z2, z3])) * units.vertical,
                class: Some(class),
            };
            take(point, withheld);
        }
    }
}

/// The items of a compressed file make up one record.
fn items_match(header: &las::Header, signature: Signature) -> Result<(), Error> {
    if !signature.compressed {
        return Ok(());
    }
    let what = || Error::CutShort { what: "the record that says how its points are compressed" };
    let record = header
        .all_vlrs()
        .find(|record| record.user_id == "laszip encoded" && record.record_id == 22204)
        .ok_or_else(what)?;
    let word = |at: usize| {
        let bytes: [u8; 2] = record.data.get(at..at + 2)?.try_into().ok()?;
        Some(usize::from(u16::from_le_bytes(bytes)))
    };
    let items = word(32).ok_or_else(what)?;
    let mut length = 0;
    for item in 0..items {
        length += word(36 + 6 * item).ok_or_else(what)?;
    }
    if items == 0 || length != usize::from(signature.record_length) {
        return Err(what());
    }
    Ok(())
}

fn fault(done: u64, total: u64, error: &las::Error) -> Error {
    match error {
        las::Error::Io(reason) if reason.kind() == std::io::ErrorKind::UnexpectedEof => {
            Error::Truncated { points: total, held: done }
        }
        other => damaged(done, other),
    }
}

fn damaged(points: u64, error: &las::Error) -> Error {
    Error::Damaged { points, what: error.to_string() }
}
