//! Ruts of inspections, in the form in which a strip file reads measured ruts.

use crate::counts::{day_of, movements};
use crate::stretch::rolled_over;
use crate::{Entry, Movement, Record, Repair};
use hardpan_quantity::{Length, Quantity as _};
use jiff::civil::Date;
use std::fmt::Write as _;

/// Headings of the file.
const HEADINGS: &str = "station_m,lane,date,rut_mm,passes,mass_t,pressure_kpa\n";

/// Lanes by which a rut law can be held to what was measured.
pub(crate) const LANES: [&str; 2] = ["left main", "right main"];

/// Ruts of a strip as a file, and what could not be written into it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeasuredRuts {
    /// CSV text.
    pub text: String,
    /// How many places it holds.
    pub places: usize,
    /// Number of the entry of each place, in the order of the rows.
    pub entries: Vec<i64>,
    /// What was left out, one sentence each.
    pub left_out: Vec<String>,
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
        left_out: Vec::new(),
    };
    for entry in entries {
        let Record::Inspection(seen) = &entry.record else { continue };
        if seen.strip != strip {
            continue;
        }
        let (Some(station), Some(lane)) = (seen.rut_station, &seen.rut_lane) else { continue };
        let date = day_of(seen.at);
        let before = |one: &&Movement| one.at <= seen.at;
        match row(entries, strip, station, lane, before, date) {
            Ok((passes, mass, pressure)) => {
                let rut = rounded(seen.rut.si() * 1e3);
                let station = metres_text(station);
                // Writing into a text cannot fail.
                let _ = writeln!(
                    ruts.text,
                    "{station},{lane},{date},{rut},{passes},{:.3},{:.1}",
                    mass * 1e-3,
                    pressure * 1e-3
                );
                ruts.places += 1;
                ruts.entries.push(entry.id);
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

/// Passes, mean mass, kilograms, and mean pressure, pascals, of a place.
fn row(
    entries: &[&Entry],
    strip: &str,
    station: Length,
    lane: &str,
    before: impl Fn(&&Movement) -> bool,
    date: Date,
) -> Result<(usize, f64, f64), String> {
    if !LANES.contains(&lane) {
        return Err(format!("`{lane}` is none of {}", LANES.join(", ")));
    }
    let repairs = entries.iter().filter_map(|entry| match &entry.record {
        Record::Repair(one) if one.strip == strip => Some(one),
        _ => None,
    });
    let covers = |one: &&Repair| one.from <= station && station <= one.to && one.date <= date;
    let made_level = repairs.filter(covers).map(|one| one.date).max();
    let after = |one: &&Movement| made_level.is_none_or(|level| day_of(one.at) >= level);
    let passes: Vec<&Movement> = movements(entries, strip)
        .filter(before)
        .filter(after)
        .filter(|one| rolled_over(one, station, station))
        .collect();
    let masses: Vec<f64> = passes.iter().map(|one| one.mass.si()).collect();
    let stated = passes.iter().filter_map(|one| one.pressure);
    let pressures: Vec<f64> = stated.map(|pressure| pressure.si()).collect();
    let mean = |values: &[f64]| {
        let count = u32::try_from(values.len()).ok().filter(|count| *count > 0)?;
        Some(values.iter().sum::<f64>() / f64::from(count))
    };
    let mass = mean(&masses).ok_or("no movement is recorded since it was made level")?;
    let pressure = mean(&pressures).ok_or("no movement states its tyre pressure")?;
    Ok((passes.len(), mass, pressure))
}
