//! A grid of levels as an image with tags that say where it lies.
//!
//! Source: [OGC-19-008] for the tags and keys.

use super::grid::{CELL_LIMIT, Grid};
use crate::Error;
use crate::cloud::{CloudInput, CloudUnit, units_of_keys};
use std::io::BufReader;
use tiff::decoder::{Decoder, DecodingResult, Limits};
use tiff::tags::Tag;
use tiff::{ColorType, TiffError};

/// Key that tells whether a place is that of the corner of a cell or of its
/// middle, and the value for the middle.
const RASTER_TYPE: u16 = 1025;
const IS_POINT: u16 = 2;
/// Most bytes of one tag.
const TAG_LIMIT: usize = 1 << 20;

type Image = Decoder<BufReader<Box<dyn CloudInput>>>;

/// Read a grid from an image of one band. Units come from its keys; where those
/// state none, from the user; they are never guessed.
///
/// # Errors
/// [`Error`] for bytes that are no such image, for more than twenty million
/// cells, a frame in degrees, or a unit that nobody states.
pub fn geotiff(
    input: Box<dyn CloudInput>,
    horizontal: Option<CloudUnit>,
    vertical: Option<CloudUnit>,
) -> Result<Grid, Error> {
    let limits = limits();
    let mut image = Decoder::new(BufReader::new(input)).map_err(broken)?.with_limits(limits);
    let (columns, rows) = image.dimensions().map_err(broken)?;
    let (columns, rows) = (columns as usize, rows as usize);
    if columns.saturating_mul(rows) > CELL_LIMIT {
        return Err(Error::GridSize { columns, rows, levels: 0, limit: CELL_LIMIT });
    }
    let colour = image.colortype().map_err(broken)?;
    if !matches!(colour, ColorType::Gray(_)) {
        let why = format!("it has more than one band ({colour:?})");
        return Err(Error::NotAGrid { why });
    }
    let keys = keys(&mut image)?;
    let short = |id: u16| keys.iter().find(|(key, _)| *key == id).map(|(_, value)| *value);
    let units = units_of_keys(&short, horizontal, vertical)?;
    let frame = frame(&mut image, short(RASTER_TYPE) == Some(IS_POINT))?;
    let missing = missing(&mut image)?;
    let levels = levels(image.read_image().map_err(broken)?, missing, units.vertical);
    let scaled = |(east, north): (f64, f64)| (east * units.horizontal, north * units.horizontal);
    Grid::new(
        (columns, rows),
        scaled(frame.origin),
        scaled(frame.column),
        scaled(frame.row),
        levels,
    )
}

fn limits() -> Limits {
    let mut limits = Limits::default();
    limits.decoding_buffer_size = CELL_LIMIT * size_of::<f64>();
    limits.intermediate_buffer_size = CELL_LIMIT * size_of::<f64>();
    limits.ifd_value_size = TAG_LIMIT;
    limits
}

fn broken(error: TiffError) -> Error {
    Error::NotAGrid { why: error.to_string() }
}

/// Middle of the first cell, and the steps from column to column and from row
/// to row.
struct Frame {
    origin: (f64, f64),
    column: (f64, f64),
    row: (f64, f64),
}

fn frame(image: &mut Image, is_point: bool) -> Result<Frame, Error> {
    let numbers = |image: &mut Image, tag| -> Result<Option<Vec<f64>>, Error> {
        let found = image.find_tag(tag).map_err(broken)?;
        found.map(|value| value.into_f64_vec().map_err(broken)).transpose()
    };
    let matrix = numbers(image, Tag::ModelTransformationTag)?;
    let scale = numbers(image, Tag::ModelPixelScaleTag)?;
    let tie = numbers(image, Tag::ModelTiepointTag)?;
    let (corner, column, row) = match (matrix.as_deref(), scale.as_deref(), tie.as_deref()) {
        (Some([a, b, _, d, e, f, _, h, ..]), ..) => ((*d, *h), (*a, *e), (*b, *f)),
        (None, Some([across, down, ..]), Some([i, j, _, x, y, ..])) => {
            ((x - i * across, y + j * down), (*across, 0.0), (0.0, -down))
        }
        _ => {
            let why = "it has no tags that say where it lies".to_owned();
            return Err(Error::NotAGrid { why });
        }
    };
    let half = if is_point { 0.0 } else { 0.5 };
    let origin = (corner.0 + half * (column.0 + row.0), corner.1 + half * (column.1 + row.1));
    Ok(Frame { origin, column, row })
}

/// Keys that hold a number of their own.
fn keys(image: &mut Image) -> Result<Vec<(u16, u16)>, Error> {
    let Some(value) = image.find_tag(Tag::GeoKeyDirectoryTag).map_err(broken)? else {
        return Ok(Vec::new());
    };
    let words = value.into_u16_vec().map_err(broken)?;
    let entries = words.get(4..).unwrap_or_default().chunks_exact(4);
    Ok(entries
        .filter_map(|entry| match entry {
            [key, 0, _, value] => Some((*key, *value)),
            _ => None,
        })
        .collect())
}

/// The number that stands for no level.
fn missing(image: &mut Image) -> Result<Option<f64>, Error> {
    let Some(value) = image.find_tag(Tag::GdalNodata).map_err(broken)? else {
        return Ok(None);
    };
    let text = value.into_string().map_err(broken)?;
    let text = text.trim_matches(['\0', ' ']);
    if text.eq_ignore_ascii_case("nan") {
        return Ok(None);
    }
    let number = text.parse::<f64>();
    number.map(Some).map_err(|_| Error::NotAGrid {
        why: format!(
            "`{}` stands for no level and is no number",
            text.chars().take(20).collect::<String>()
        ),
    })
}

fn levels(image: DecodingResult, missing: Option<f64>, unit: f64) -> Vec<f64> {
    fn each<T: Copy>(
        values: &[T],
        wide: impl Fn(T) -> f64,
        missing: Option<f64>,
        unit: f64,
    ) -> Vec<f64> {
        let level = |value: &T| {
            let value = wide(*value);
            if missing == Some(value) { f64::NAN } else { value * unit }
        };
        values.iter().map(level).collect()
    }
    // A number in 32 bits is held against the mark in 32 bits.
    let short = missing.map(|missing| f64::from(missing as f32));
    match image {
        DecodingResult::U8(values) => each(&values, f64::from, missing, unit),
        DecodingResult::I8(values) => each(&values, f64::from, missing, unit),
        DecodingResult::U16(values) => each(&values, f64::from, missing, unit),
        DecodingResult::I16(values) => each(&values, f64::from, missing, unit),
        DecodingResult::U32(values) => each(&values, f64::from, missing, unit),
        DecodingResult::I32(values) => each(&values, f64::from, missing, unit),
        DecodingResult::U64(values) => each(&values, |value| value as f64, missing, unit),
        DecodingResult::I64(values) => each(&values, |value| value as f64, missing, unit),
        DecodingResult::F16(values) => {
            each(&values, |value| f64::from(value.to_f32()), short, unit)
        }
        DecodingResult::F32(values) => each(&values, f64::from, short, unit),
        DecodingResult::F64(values) => each(&values, |value| value, missing, unit),
    }
}
