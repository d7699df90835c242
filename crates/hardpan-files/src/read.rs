//! The ways in: read one file of a known or unknown kind, and all that it names.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Files, Page};
use crate::rows::chart::ChartRows;
use crate::rows::{self, chart, positions, ruts, soundings, strength_tests, survey};
use crate::table::toml_text::{KINDS, of_kind, stated_kind, stated_text, within_reach};
use crate::{FileSource, Reading, WeatherReport, aeroplane, day, flight, strip};
use hardpan_model::{
    Aeroplane, Day, Fitted, Flight, MeasuredRut, Sounding, StrengthTest, Strip, SurveyLine,
};
use std::sync::Arc;

/// What a file turned out to hold.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum AnyFile {
    /// `kind = "aeroplane"`.
    Aeroplane(Box<Aeroplane>),
    /// `kind = "strip"`.
    Strip(Box<Strip>),
    /// `kind = "day"`.
    Day(Box<Day>),
    /// `kind = "flight"`.
    Flight(Box<Flight>),
    /// Survey lines from a CSV; none when it has no rows.
    Survey(Vec<SurveyLine>),
    /// So many positions of a satellite receiver from a CSV; they become survey
    /// lines on the axis of a strip.
    Positions(usize),
    /// Soundings from a CSV.
    Soundings(Vec<Sounding>),
    /// Other strength tests from a CSV.
    StrengthTests(Vec<StrengthTest>),
    /// An approved chart from a CSV.
    Chart(Box<ChartRows>),
    /// Measured ruts from a CSV.
    Ruts(Vec<MeasuredRut>),
    /// `kind = "fitted"`.
    Fitted(Box<Fitted>),
    /// A weather report from a text file.
    Report(Box<WeatherReport>),
}

impl AnyFile {
    /// The word for it.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Aeroplane(_) => "aeroplane",
            Self::Strip(_) => "strip",
            Self::Day(_) => "day",
            Self::Flight(_) => "flight",
            Self::Survey(_) => "survey",
            Self::Positions(_) => "positions",
            Self::Soundings(_) => "soundings",
            Self::StrengthTests(_) => "strength tests",
            Self::Chart(_) => "approved chart",
            Self::Ruts(_) => "ruts",
            Self::Fitted(_) => "fitted constants",
            Self::Report(_) => "weather report",
        }
    }
}

/// Read an aeroplane file with the charts that it names.
#[must_use]
pub fn read_aeroplane(source: &dyn FileSource, path: &str) -> Reading<Aeroplane> {
    read(source, path, |page, files| of_kind(page, "aeroplane", |t| aeroplane::aeroplane(t, files)))
}

/// The same with the constants of the model as the file states them, though it
/// takes in fitted ones.
#[must_use]
pub fn read_aeroplane_as_stated(source: &dyn FileSource, path: &str) -> Reading<Aeroplane> {
    read(source, path, |page, files| of_kind(page, "aeroplane", |t| aeroplane::as_stated(t, files)))
}

/// Read a strip file with the survey and soundings that it names.
#[must_use]
pub fn read_strip(source: &dyn FileSource, path: &str) -> Reading<Strip> {
    read(source, path, |page, files| of_kind(page, "strip", |t| strip::strip(t, files)))
}

/// Read a day file.
#[must_use]
pub fn read_day(source: &dyn FileSource, path: &str) -> Reading<Day> {
    read(source, path, |page, _| of_kind(page, "day", day::day))
}

/// Read a flight file with the aeroplane, strip and day that it names.
#[must_use]
pub fn read_flight(source: &dyn FileSource, path: &str) -> Reading<Flight> {
    read(source, path, |page, files| of_kind(page, "flight", |t| flight::flight(t, files)))
}

/// Read a file of any kind: a `.csv` by its columns, a `.txt` or `.metar` as a
/// weather report, anything else by its first key `kind`.
#[must_use]
pub fn read_any(source: &dyn FileSource, path: &str) -> Reading<AnyFile> {
    let ending = path.rsplit_once('.').map_or("", |(_, ending)| ending).to_ascii_lowercase();
    read(source, path, |page, files| match ending.as_str() {
        "csv" => table(page),
        "txt" | "metar" => day::report_file(page).map(|report| AnyFile::Report(Box::new(report))),
        _ => by_kind(page, files),
    })
}

fn read<T>(
    source: &dyn FileSource,
    path: &str,
    read: impl FnOnce(&Page<'_>, &mut Files<'_>) -> Option<T>,
) -> Reading<T> {
    let mut files = Files::new(source);
    let Some(text) = files.load(path, None) else {
        return files.finish(None);
    };
    let file: Arc<str> = path.into();
    let page = Page::new(&file, &text);
    let value = read(&page, &mut files);
    files.close(page);
    files.finish(value)
}

fn table(page: &Page<'_>) -> Option<AnyFile> {
    let names = rows::column_names(page.text);
    let has = |start: &str| names.iter().any(|name| name.starts_with(start));
    if has("latitude") {
        Some(AnyFile::Positions(positions::positions(page).map_or(0, |found| found.len())))
    } else if has("elevation") {
        Some(AnyFile::Survey(survey::survey(page, None).unwrap_or_default()))
    } else if has("blows") || has("hammer") || has("depth") {
        Some(AnyFile::Soundings(soundings::soundings(page, None, None)))
    } else if has("rut") {
        Some(AnyFile::Ruts(ruts::ruts(page, None, None)))
    } else if names.iter().any(|name| name == "test") {
        Some(AnyFile::StrengthTests(strength_tests::strength_tests(page, None, None)))
    } else if let Some(kind) = chart::kind_by_columns(&names) {
        chart::chart(page, kind).map(|rows| AnyFile::Chart(Box::new(rows)))
    } else {
        unknown(page)
    }
}

fn by_kind(page: &Page<'_>, files: &mut Files<'_>) -> Option<AnyFile> {
    if !within_reach(page) {
        return None;
    }
    match stated_kind(page) {
        Some("aeroplane") => of_kind(page, "aeroplane", |t| aeroplane::aeroplane(t, files))
            .map(|value| AnyFile::Aeroplane(Box::new(value))),
        Some("strip") => of_kind(page, "strip", |t| strip::strip(t, files))
            .map(|value| AnyFile::Strip(Box::new(value))),
        Some("day") => of_kind(page, "day", day::day).map(|value| AnyFile::Day(Box::new(value))),
        Some("flight") => of_kind(page, "flight", |t| flight::flight(t, files))
            .map(|value| AnyFile::Flight(Box::new(value))),
        Some("fitted") => of_kind(page, "fitted", |t| aeroplane::fitted::fitted(t, None))
            .map(|value| AnyFile::Fitted(Box::new(value))),
        _ => unknown(page),
    }
}

fn unknown(page: &Page<'_>) -> Option<AnyFile> {
    let mistake = if page.text.trim().is_empty() {
        Mistake::EmptyFile { content: "a file of one of the kinds that are read here".to_owned() }
    } else {
        Mistake::UnknownFile { kinds: KINDS.join(", ") }
    };
    page.report(0..0, &mistake);
    None
}

/// What a TOML file states of itself in its first keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Glance {
    /// Its kind: `aeroplane`, `strip`, `day` or `flight`.
    pub kind: &'static str,
    /// Its name, if it states one.
    pub name: Option<String>,
    /// The files of its aeroplane, strip and day, from where it stands.
    pub names: Vec<(&'static str, String)>,
}

/// Kind, name and named files of a TOML file, without reading what it names;
/// none for a file that states no kind.
#[must_use]
pub fn glance(source: &dyn FileSource, path: &str) -> Option<Glance> {
    let bytes = source.read(path).ok()?;
    let text = std::str::from_utf8(bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes)).ok()?;
    let file: Arc<str> = path.into();
    let page = Page::new(&file, text);
    if !within_reach(&page) {
        return None;
    }
    let kind = stated_kind(&page)?;
    let named = |key: &'static str| {
        stated_text(&page, key).map(|text| (key, crate::paths::beside(path, &text)))
    };
    Some(Glance {
        kind,
        name: stated_text(&page, "name"),
        names: ["aeroplane", "strip", "day"].into_iter().filter_map(named).collect(),
    })
}
