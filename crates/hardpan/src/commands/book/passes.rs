//! Passes by stretch, and the book on a map.

use crate::commands::reading;
use crate::failure::Failure;
use hardpan_book::{Book, Entry, Ground, current, geojson_value, passes_by_stretch};
use hardpan_files::{Disk, axis_on_globe};
use hardpan_model::AxisPoint;
use hardpan_quantity::{Length, Quantity as _, UnitSystem, parse};
use hardpan_report::{quantity_text, stretch_text};
use std::fmt::Write as _;
use std::path::Path;

fn refused(what: String) -> Failure {
    Failure::Argument { what }
}

fn length(option: &str, text: &str) -> Result<Length, Failure> {
    let read: Length = parse(text).map_err(|error| refused(format!("{option}: {error}")))?;
    if read.si() > 0.0 {
        Ok(read)
    } else {
        Err(refused(format!("{option}: {text} is not above 0")))
    }
}

/// One line a stretch.
pub(super) fn text(
    path: &Path,
    strip: &str,
    step: &str,
    file: Option<&Path>,
    units: UnitSystem,
) -> Result<String, Failure> {
    let step = length("--step", step)?;
    let end = match file {
        Some(file) => {
            let (read, _) = reading::strip(&Disk::default(), &file.to_string_lossy())?;
            read.length.map(|given| given.value)
        }
        None => None,
    };
    let entries = Book::open(path)?.entries()?;
    let standing: Vec<&Entry> = current(&entries);
    let found = passes_by_stretch(&standing, strip, step, end)?;
    if found.is_empty() {
        let what = format!("{} tells no station of {strip}; name its --file", path.display());
        return Err(refused(what));
    }
    let mut out =
        format!("passes over {strip} since each stretch was mended, in each wheel lane\n");
    for one in &found {
        let place = stretch_text(one.from, one.to, units);
        let since = one.since.map_or_else(String::new, |day| format!(", mended {day}"));
        let unsure = match one.everywhere {
            0 => String::new(),
            count => format!(" ({count} without a stretch)"),
        };
        let _ = write!(out, "  {place}: {}{unsure}{since}", one.passes);
        for (lane, rut, day) in &one.ruts {
            let _ = write!(out, "; rut {lane} {} on {day}", quantity_text(*rut, units));
        }
        out.push('\n');
    }
    Ok(out)
}

/// The book of a strip file's strip as GeoJSON.
pub(super) fn map(path: &Path, file: &Path, lane: Option<&str>) -> Result<String, Failure> {
    let lane = lane.map(|text| length("--lane", text)).transpose()?;
    let (strip, _) = reading::strip(&Disk::default(), &file.to_string_lossy())?;
    let told = |what: &str| refused(format!("{}: {what}", file.display()));
    let name = strip.name.as_ref().ok_or_else(|| told("the strip file states no `name`"))?;
    let length = strip.length.as_ref().ok_or_else(|| told("the strip file states no `length`"))?;
    let axis = axis_on_globe(&strip)
        .ok_or_else(|| told("the strip file has no `latitude` and `longitude` of both ends"))?
        .map_err(|error| told(&error.to_string()))?;
    let on_globe = |station: Length, offset: Length| {
        let at = AxisPoint { station, offset };
        let place = axis.place(at.station, at.offset).ok()?;
        Some((place.latitude, place.longitude))
    };
    let ground = Ground { strip: &name.value, length: length.value, lane, on_globe: &on_globe };
    let entries = Book::open(path)?.entries()?;
    let mut value = geojson_value(&current(&entries), &ground);
    value["caution"] = hardpan_assess::CAUTION.into();
    Ok(format!("{value:#}\n"))
}
