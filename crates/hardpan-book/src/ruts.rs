//! Ruts of inspections, in the form in which a strip file reads measured ruts.

use crate::counts::{day_of, last_repair, movement_entries};
use crate::opened::{Opened, opened_rut};
use crate::stretch::rolled_over;
use crate::{Entry, Movement, Record, Repair};
use hardpan_quantity::{Length, Mass, Pressure, Quantity as _};
use jiff::civil::Date;
use std::fmt::Write as _;

/// Headings of the file.
const HEADINGS: &str = "station_m,lane,date,rut_mm,passes,mass_t,pressure_kpa\n";

/// Lanes by which a rut law can be held to what was measured.
pub(crate) const LANES: [&str; 2] = ["left main", "right main"];

/// Ruts of a strip as a file, and what could not be written into it.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredRuts {
    /// CSV text.
    pub text: String,
    /// How many places it holds.
    pub places: usize,
    /// Number of the entry of each place, in the order of the rows.
    pub entries: Vec<i64>,
    /// What each place was counted from, in the order of the rows.
    pub rows: Vec<RutRow>,
    /// What was left out, one sentence each.
    pub left_out: Vec<String>,
}

/// A place of the file, with what it was counted from.
#[derive(Debug, Clone, PartialEq)]
pub struct RutRow {
    /// The entry of the inspection.
    pub entry: i64,
    /// Where the rut was found.
    pub station: Length,
    /// In which lane.
    pub lane: String,
    /// On which day.
    pub date: Date,
    /// How deep.
    pub rut: Length,
    /// Entries of the movements until then.
    pub passes: Vec<i64>,
    /// Those of them that state a tyre pressure.
    pub with_pressure: Vec<i64>,
    /// Mean mass of the movements.
    pub mass: Mass,
    /// Mean tyre pressure of those that state one.
    pub pressure: Pressure,
}

impl RutRow {
    /// Its figures by the names of the columns of the file.
    #[must_use]
    pub fn opened(&self) -> Opened {
        opened_rut(self)
    }
}

/// The ruts that inspections of a strip found. The passes of a place are the
/// movements after the last repair that covers it; mass and pressure are the
/// means over them, of pressure over those that state it. A movement that
/// does not state the stretch it rolled over counts for every place.
#[must_use]
pub fn measured_ruts(entries: &[&Entry], strip: &str) -> MeasuredRuts {
    let mut ruts = MeasuredRuts {
        text: HEADINGS.to_owned(),
        places: 0,
        entries: Vec::new(),
        rows: Vec::new(),
        left_out: Vec::new(),
    };
    for entry in entries {
        let Record::Inspection(seen) = &entry.record else { continue };
        if seen.strip != strip {
            continue;
        }
        let (Some(station), Some(lane)) = (seen.rut_station, &seen.rut_lane) else { continue };
        let before = |one: &Movement| one.at <= seen.at;
        let place = Place { entry: entry.id, station, lane, date: day_of(seen.at), rut: seen.rut };
        match row(entries, strip, &place, before) {
            Ok(row) => {
                let rut = rounded(seen.rut.si() * 1e3);
                let (station, date) = (metres_text(station), row.date);
                let (passes, mass) = (row.passes.len(), row.mass.si() * 1e-3);
                let pressure = row.pressure.si() * 1e-3;
                // Writing into a text cannot fail.
                let _ = writeln!(
                    ruts.text,
                    "{station},{lane},{date},{rut},{passes},{mass:.3},{pressure:.1}"
                );
                ruts.places += 1;
                ruts.entries.push(entry.id);
                ruts.rows.push(row);
            }
            Err(why) => {
                let told = format!("entry {}, station {:.0} m: {why}", entry.id, station.si());
                ruts.left_out.push(told);
            }
        }
    }
    ruts
}

/// Metres to the millimetre, without what the binary form of a number adds behind them.
#[must_use]
pub fn metres_text(length: Length) -> String {
    rounded(length.si()).to_string()
}

/// A number to three decimals, without what its binary form adds behind them.
pub(crate) fn rounded(value: f64) -> f64 {
    (value * 1e3).round() / 1e3
}

/// Where and when an inspection found a rut.
struct Place<'a> {
    entry: i64,
    station: Length,
    lane: &'a str,
    date: Date,
    rut: Length,
}

/// The place with its passes, and their mean mass and pressure.
fn row(
    entries: &[&Entry],
    strip: &str,
    place: &Place<'_>,
    before: impl Fn(&Movement) -> bool,
) -> Result<RutRow, String> {
    let Place { entry, station, lane, date, rut } = *place;
    if !LANES.contains(&lane) {
        return Err(format!("`{lane}` is none of {}", LANES.join(", ")));
    }
    let covers = |one: &Repair| one.from <= station && station <= one.to && one.date <= date;
    let made_level = last_repair(entries, strip, covers).map(|(_, one)| one.date);
    let after = |one: &Movement| made_level.is_none_or(|level| day_of(one.at) >= level);
    let passes: Vec<(i64, &Movement)> = movement_entries(entries, strip)
        .filter(|(_, one)| before(one) && after(one) && rolled_over(one, station, station))
        .collect();
    let masses: Vec<f64> = passes.iter().map(|(_, one)| one.mass.si()).collect();
    let stated = passes.iter().filter_map(|(id, one)| Some((*id, one.pressure?.si())));
    let (with_pressure, pressures): (Vec<i64>, Vec<f64>) = stated.unzip();
    let mean = |values: &[f64]| {
        let count = u32::try_from(values.len()).ok().filter(|count| *count > 0)?;
        Some(values.iter().sum::<f64>() / f64::from(count))
    };
    let mass = mean(&masses).ok_or("no movement is recorded since it was made level")?;
    let pressure = mean(&pressures).ok_or("no movement states its tyre pressure")?;
    Ok(RutRow {
        entry,
        station,
        lane: lane.to_owned(),
        date,
        rut,
        passes: passes.iter().map(|(id, _)| *id).collect(),
        with_pressure,
        mass: Mass::from_si(mass),
        pressure: Pressure::from_si(pressure),
    })
}
