//! Passes by stretch, and the book on a map.

use super::document;
use super::state::question;
use crate::commands::reading;
use crate::failure::Failure;
use hardpan_assess::coverages_of_one_pass;
use hardpan_book::{
    Book, Entry, Ground, LaneCoverage, NameOf, PassCoverages, Question, StretchPasses, current,
    geojson_value, must_know, passes_by_stretch, told_of_passes,
};
use hardpan_files::{Disk, axis_on_globe};
use hardpan_model::{AxisPoint, Strip};
use hardpan_quantity::{Angle, Length, Quantity as _, UnitSystem, counted, parse};
use hardpan_report::{quantity_text, stretch_text};
use hardpan_survey::Geographic;
use hardpan_web::OffStrip;
use std::fmt::Write as _;
use std::path::Path;

/// A place this far off the strip is none of it, metres. Judgement.
const AROUND_METRES: f64 = 100.0;

fn refused(what: String) -> Failure {
    Failure::Argument { what }
}

pub(super) fn length(option: &str, text: &str) -> Result<Length, Failure> {
    let read: Length = parse(text).map_err(|error| refused(format!("{option}: {error}")))?;
    if read.si() > 0.0 {
        Ok(read)
    } else {
        Err(refused(format!("{option}: {text} is not above 0")))
    }
}

/// The length of a strip by its file.
pub(super) fn end_of(file: Option<&Path>) -> Result<Option<Length>, Failure> {
    let Some(file) = file else { return Ok(None) };
    let (read, _) = reading::strip(&Disk::default(), &file.to_string_lossy())?;
    Ok(read.length.map(|given| given.value))
}

/// Coverages of one pass by the gear of a flight's aeroplane, for the aeroplanes of the
/// book that were named. Without a name it is that of its file.
pub(super) fn of_gear(
    path: &Path,
    flight: Option<&Path>,
    tails: &[String],
) -> Result<Option<PassCoverages>, Failure> {
    let Some(file) = flight else { return Ok(None) };
    let told = |what: &str| refused(format!("{}: {what}", file.display()));
    let (flight, _) = reading::flight(&Disk::default(), &file.to_string_lossy())?;
    let lanes = coverages_of_one_pass(&flight).map_err(|missing| {
        let needs: Vec<String> =
            missing.needs.iter().map(|need| format!("{} ({})", need.what, need.how)).collect();
        told(&format!("{}: {}", missing.because, needs.join(", ")))
    })?;
    let own = flight.aeroplane.name.as_ref().map_or("", |name| name.value.as_str());
    if tails.is_empty() && own.is_empty() {
        return Err(told("its aeroplane has no `name`; say --tail"));
    }
    let lanes =
        lanes.map(|(lane, coverages, step)| LaneCoverage { lane, coverages, steps: vec![step] });
    let entries = Book::open(path)?.entries()?;
    Ok(Some(PassCoverages::of_aeroplanes(&current(&entries), tails, own, lanes)?))
}

/// Coverages of the busiest point of each lane.
fn covered(one: &StretchPasses, of_one: &PassCoverages) -> String {
    let found = one.coverages(of_one);
    let lanes = found.lanes.map(|(lane, count)| format!("{} {count:.1}", lane.word()));
    let others = match found.others {
        0 => String::new(),
        count => {
            format!(", and {} of other aeroplanes on top", counted(count, "pass", "passes"))
        }
    };
    let passes = counted(found.passes, "pass", "passes");
    format!("; coverages {} from {passes}{others}", lanes.join(", "))
}

/// Whose passes are told, and by what stretches.
pub(super) struct Wanted<'a> {
    pub(super) strip: &'a str,
    /// Length of a stretch, if somebody wants another than the usual one.
    pub(super) step: Option<&'a str>,
    /// File of the strip.
    pub(super) file: Option<&'a Path>,
    pub(super) of_one: Option<&'a PassCoverages>,
    /// Aeroplanes that were named.
    pub(super) tails: &'a [String],
}

/// That a book knows every aeroplane that was named.
pub(super) fn must_know_all(standing: &[&Entry], tails: &[String]) -> Result<(), Failure> {
    tails.iter().try_for_each(|tail| must_know(standing, NameOf::Tail, tail))?;
    Ok(())
}

/// The same as JSON.
pub(super) fn told(path: &Path, wanted: &Wanted<'_>) -> Result<String, Failure> {
    let asked = Question {
        step: wanted.step.map(|text| length("--step", text)).transpose()?,
        end: end_of(wanted.file)?,
        coverages: wanted.of_one,
        ..question(wanted.strip)
    };
    let entries = Book::open(path)?.entries()?;
    must_know_all(&current(&entries), wanted.tails)?;
    Ok(document(told_of_passes(&entries, &asked)?))
}

/// One line a stretch.
pub(super) fn text(path: &Path, wanted: &Wanted<'_>, units: UnitSystem) -> Result<String, Failure> {
    let Wanted { strip, of_one, .. } = *wanted;
    let step = wanted.step.map(|text| length("--step", text)).transpose()?;
    let end = end_of(wanted.file)?;
    let entries = Book::open(path)?.entries()?;
    let standing: Vec<&Entry> = current(&entries);
    must_know(&standing, NameOf::Strip, strip)?;
    must_know_all(&standing, wanted.tails)?;
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
        out.push_str(&of_one.map_or_else(String::new, |of_one| covered(one, of_one)));
        for rut in &one.ruts {
            let depth = quantity_text(rut.depth, units);
            let _ = write!(out, "; rut {} {depth} on {}", rut.lane, rut.date);
        }
        out.push('\n');
    }
    Ok(out)
}

/// The book of a strip file's strip as GeoJSON.
pub(super) fn map(path: &Path, file: &Path, lane: Option<&str>) -> Result<String, Failure> {
    let lane = lane.map(|text| length("--lane", text)).transpose()?;
    let (strip, _) = reading::strip(&Disk::default(), &file.to_string_lossy())?;
    let entries = Book::open(path)?.entries()?;
    map_of(&strip, &entries, lane).map_err(|what| refused(format!("{}: {what}", file.display())))
}

/// What a book tells of a strip, as GeoJSON text.
pub(crate) fn map_of(
    strip: &Strip,
    entries: &[Entry],
    lane: Option<Length>,
) -> Result<String, String> {
    let name = strip.name.as_ref().ok_or("the strip file states no `name`")?;
    let length = strip.length.as_ref().ok_or("the strip file states no `length`")?;
    let axis = axis_on_globe(strip)
        .ok_or("the strip file has no `latitude` and `longitude` of both ends")?
        .map_err(|error| error.to_string())?;
    let on_globe = |station: Length, offset: Length| {
        let at = AxisPoint { station, offset };
        let place = axis.place(at.station, at.offset).ok()?;
        Some((place.latitude, place.longitude))
    };
    let ground = Ground { strip: &name.value, length: length.value, lane, on_globe: &on_globe };
    let mut value = geojson_value(&current(entries), &ground);
    value["caution"] = hardpan_assess::CAUTION.into();
    Ok(format!("{value:#}\n"))
}

/// Where on the strip of a file a place lies.
pub(super) fn off_globe(file: &Path) -> Result<OffStrip, Failure> {
    let (strip, _) = reading::strip(&Disk::default(), &file.to_string_lossy())?;
    off_globe_of(&strip).map_err(|what| refused(format!("{}: {what}", file.display())))
}

/// Where on a strip a place lies: station and offset, metres.
pub(crate) fn off_globe_of(strip: &Strip) -> Result<OffStrip, String> {
    let axis = axis_on_globe(strip)
        .ok_or("the strip file has no `latitude` and `longitude` of both ends")?
        .map_err(|error| error.to_string())?;
    let length = strip.length.as_ref().map_or(f64::INFINITY, |given| given.value.si());
    Ok(Box::new(move |latitude: f64, longitude: f64| {
        let [latitude, longitude] =
            [latitude, longitude].map(|one| Angle::from_si(one.to_radians()));
        let (station, offset) = axis.locate(Geographic { latitude, longitude }).ok()?;
        let at = station.si();
        let is_on = (-AROUND_METRES..=length + AROUND_METRES).contains(&at)
            && offset.si().abs() <= AROUND_METRES;
        is_on.then(|| (at.clamp(0.0, length), offset.si()))
    }))
}
