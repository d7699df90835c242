//! The demo flight with changes, as the tests of the whole tool use it.
#![allow(dead_code)]

pub(crate) mod openings;

use hardpan_assess::{Assessment, assess};
use hardpan_files::{Memory, read_flight};
use hardpan_model::{Finding, Flight, Given, SurveyPoint, Uncertainty};
use hardpan_quantity::{Mass, Quantity, ratio};
use std::fmt::Write as _;
use std::path::PathBuf;

pub(crate) const FILES: [&str; 13] = [
    "flight.toml",
    "aeroplane.toml",
    "strip.toml",
    "day.toml",
    "survey.csv",
    "soundings.csv",
    "strength_tests.csv",
    "take_off_15.csv",
    "take_off_25.csv",
    "stop_15.csv",
    "stop_25.csv",
    "landing_40.csv",
    "ruts.csv",
];

/// One change: in a file, a text that stands there becomes another.
#[derive(Debug, Clone)]
pub(crate) struct Change {
    pub(crate) file: String,
    pub(crate) from: String,
    pub(crate) to: String,
}

pub(crate) fn demo_folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo")
}

pub(crate) fn demo_text(name: &str) -> String {
    std::fs::read_to_string(demo_folder().join(name)).expect("the demo stands in the repository")
}

/// The demo files after the changes; each must find its text exactly once.
pub(crate) fn changed_files(changes: &[Change]) -> Vec<(String, String)> {
    changed_files_in("demo", changes)
}

/// The same of a folder of the repository.
fn changed_files_in(folder: &str, changes: &[Change]) -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..").join(folder);
    FILES
        .iter()
        .filter(|name| folder.join(name).exists())
        .map(|name| {
            let mut text = std::fs::read_to_string(folder.join(name)).expect("a readable file");
            for change in changes.iter().filter(|change| change.file == *name) {
                let count = text.matches(&change.from).count();
                assert_eq!(count, 1, "`{}` stands {count} times in {name}", change.from);
                text = text.replace(&change.from, &change.to);
            }
            ((*name).to_owned(), text)
        })
        .collect()
}

pub(crate) fn flight(changes: &[Change]) -> Flight {
    flight_beside("demo", changes, &[])
}

/// The flight of a folder of the repository after the changes, with other files
/// beside it.
pub(crate) fn flight_beside(
    folder: &str,
    changes: &[Change],
    beside: &[(String, Vec<u8>)],
) -> Flight {
    let files = changed_files_in(folder, changes)
        .into_iter()
        .fold(Memory::default(), |files, (name, text)| files.with(&name, text));
    let files = beside.iter().fold(files, |files, (name, bytes)| files.with(name, bytes.clone()));
    let reading = read_flight(&files, "flight.toml");
    let told: Vec<String> = reading.diagnostics.iter().map(|one| format!("{one:?}")).collect();
    reading.value.unwrap_or_else(|| panic!("the files cannot be read: {told:#?}"))
}

pub(crate) fn assessed(changes: &[Change]) -> Assessment {
    assess(&flight(changes))
}

/// The flight of a folder of the repository with changes.
pub(crate) fn assessed_in(folder: &str, changes: &[Change]) -> Assessment {
    assess(&flight_beside(folder, changes, &[]))
}

pub(crate) fn change(file: &str, from: &str, to: &str) -> Change {
    Change { file: file.to_owned(), from: from.to_owned(), to: to.to_owned() }
}

/// Gravel over ground of another rate, alike everywhere along the strip.
#[derive(Debug, Clone, Copy)]
pub(crate) struct GravelOver {
    /// Blows for each 20 mm of gravel: 4 are 5 mm a blow.
    pub(crate) gravel_blows: u32,
    pub(crate) thickness_mm: u32,
    pub(crate) ground_mm_per_blow: f64,
    /// Water when it was tested; nobody says where it is empty.
    pub(crate) moisture_percent: &'static str,
}

/// The demo flight after the changes on such ground, with no other tests of it.
pub(crate) fn gravel_over(over: GravelOver, changes: &[Change]) -> Flight {
    let GravelOver { gravel_blows, thickness_mm, ground_mm_per_blow, moisture_percent } = over;
    let mut soundings =
        "station_m,offset_m,date,hammer,soil,blows,depth_mm,moisture_percent\n".to_owned();
    for place in 0..50 {
        let station = f64::from(place) * 40.0;
        for offset in [-2.6, 0.0, 2.6] {
            let mut row = |blows: u32, depth: f64| {
                let head = format!("{station},{offset},2026-05-20,8 kg,other");
                let _ = writeln!(soundings, "{head},{blows},{depth:.0},{moisture_percent}");
            };
            row(0, 0.0);
            (1..=thickness_mm / 20).for_each(|step| row(gravel_blows, f64::from(step) * 20.0));
            let top = f64::from(thickness_mm / 20) * 20.0;
            (1..=20).for_each(|step| row(1, top + f64::from(step) * ground_mm_per_blow));
        }
    }
    let mut files = Memory::default();
    for (name, text) in changed_files(changes) {
        let text = match name.as_str() {
            "soundings.csv" => soundings.clone(),
            "strength_tests.csv" => "station_m,offset_m,date,test,from_mm,to_mm\n".to_owned(),
            _ => text,
        };
        files = files.with(&name, text.as_str());
    }
    read_flight(&files, "flight.toml").value.expect("a flight")
}

/// A flight on a strip that is rougher from 850 to 1000 m: each level there stands so
/// many times as far off the straight line between the ends.
pub(crate) fn rougher(mut flight: Flight, times: f64) -> Flight {
    let survey = flight.strip.survey.as_mut().expect("a survey");
    for line in &mut survey.lines {
        let within = |at: &SurveyPoint| (850.0..=1000.0).contains(&at.station.si());
        let mut points: Vec<&mut SurveyPoint> =
            line.points.iter_mut().filter(|point| within(point)).collect();
        let (Some(first), Some(last)) = (points.first(), points.last()) else { continue };
        let (from, to) = ((first.station, first.elevation), (last.station, last.elevation));
        for point in &mut points {
            let share = (point.station - from.0).si() / (to.0 - from.0).si();
            let straight = from.1 + (to.1 - from.1) * share;
            point.elevation = straight + (point.elevation - straight) * times;
        }
    }
    flight
}

/// A flight with other masses of landing and take-off.
pub(crate) fn at_masses(mut flight: Flight, landing: Mass, take_off: Mass) -> Flight {
    let set = |given: &mut Option<Given<Mass>>, mass| {
        *given = given.take().map(|given| given.map(|_| mass));
    };
    set(&mut flight.landing.as_mut().expect("planned").mass, landing);
    set(&mut flight.take_off.as_mut().expect("planned").mass, take_off);
    flight
}

/// The worst finding of a rule.
pub(crate) fn finding<'a>(assessment: &'a Assessment, code: &str) -> &'a Finding {
    assessment
        .findings
        .iter()
        .filter(|finding| finding.code == code)
        .max_by_key(|finding| finding.verdict)
        .unwrap_or_else(|| panic!("no finding {code}"))
}

/// All deviations 0, save what a test then sets.
pub(crate) fn exact() -> Uncertainty {
    let zero = || Some(Given::stated("uncertainty", ratio(0.0)));
    Uncertainty {
        level: None,
        penetrometer_law: zero(),
        bearing_law: zero(),
        rut_law: zero(),
        strain_law: zero(),
        sounding: zero(),
        rolling_friction: zero(),
        braking_friction: zero(),
        wind_speed: Some(Given::stated("uncertainty", Quantity::from_si(0.0))),
        wind_direction: Some(Given::stated("uncertainty", Quantity::from_si(0.0))),
        temperature_kelvins: Some(Given::stated("uncertainty", 0.0)),
        air_pressure: Some(Given::stated("uncertainty", Quantity::from_si(0.0))),
        mass: zero(),
        thrust: zero(),
    }
}
