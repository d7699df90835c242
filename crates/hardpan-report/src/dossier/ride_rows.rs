//! The ride of an aeroplane over the strip, in the reader's units.

use crate::measure::{amount_text, quantity_text, stretch_text};
use crate::wrap::plain;
use hardpan_assess::StripDossier;
use hardpan_assess::ride_sheet::{RidePlace, RideSheet, WaveLimit};
use hardpan_quantity::{
    Acceleration, Length, Quantity, STANDARD_GRAVITY_M_PER_S2, UnitSystem, millimetres,
};
use serde::Serialize;

/// Highest wave that is looked for.
const HIGHEST_MM: f64 = 300.0;

/// One ride.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct RideRow {
    pub(super) run: String,
    pub(super) speed: String,
    pub(super) lane: &'static str,
    pub(super) cockpit: String,
    pub(super) over: bool,
    pub(super) centre: String,
    pub(super) gear: String,
    pub(super) station: String,
    pub(super) notes: String,
}

/// Waves of one length: the limiting height by speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct WaveRow {
    pub(super) length: String,
    pub(super) speed: String,
    pub(super) bump: String,
    pub(super) dip: String,
    pub(super) row: String,
}

/// The ride, or why it is not known.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub(super) struct RideTables {
    /// Whether a flight was given.
    pub(super) wanted: bool,
    /// Why it is not known; empty when it is.
    pub(super) unknown: String,
    /// What the tables are of.
    pub(super) about: String,
    pub(super) runs: Vec<RideRow>,
    pub(super) by_speed: Vec<RideRow>,
    pub(super) waves: Vec<WaveRow>,
}

pub(super) fn of(dossier: &StripDossier, units: UnitSystem) -> RideTables {
    match &dossier.ride {
        None => RideTables::default(),
        Some(Err(why)) => RideTables {
            wanted: true,
            unknown: format!("Not known: {}.", plain(why)),
            ..RideTables::default()
        },
        Some(Ok(sheet)) => tables(sheet, units),
    }
}

fn tables(sheet: &RideSheet, units: UnitSystem) -> RideTables {
    let rows = |list: &[RidePlace]| list.iter().map(|one| row(one, sheet, units)).collect();
    RideTables {
        wanted: true,
        unknown: String::new(),
        about: format!(
            "A rigid {} in heave and pitch on its struts and tyres, planning only; limit {} either \
             way at the cockpit [MORRIS-HALL-1965]; survey noise alone shows {} there.",
            plain(&sheet.aeroplane),
            g(sheet.limit),
            sheet.noise.map_or_else(|| "nothing known".to_owned(), g)
        ),
        runs: rows(&sheet.runs),
        by_speed: rows(&sheet.by_speed),
        waves: sheet.waves.iter().map(|one| wave(one, units)).collect(),
    }
}

fn g(acceleration: Acceleration) -> String {
    format!("{:.2}\u{a0}g", acceleration.si() / STANDARD_GRAVITY_M_PER_S2)
}

fn row(one: &RidePlace, sheet: &RideSheet, units: UnitSystem) -> RideRow {
    let mut notes = Vec::new();
    if one.bottomed {
        notes.push("a strut bottoms");
    }
    if one.left_ground {
        notes.push("wheels leave the ground");
    }
    RideRow {
        run: one.run.to_owned(),
        speed: amount_text(one.speed.into(), units),
        lane: one.lane.word(),
        cockpit: g(one.cockpit),
        over: one.cockpit > sheet.limit,
        centre: g(one.centre),
        gear: format!("{:.2} / {:.2}", one.load_factors.0.si(), one.load_factors.1.si()),
        station: stretch_text(one.station, one.station, units),
        notes: notes.join(", "),
    }
}

fn wave(one: &WaveLimit, units: UnitSystem) -> WaveRow {
    let shown = |height: Option<Length>| match height {
        Some(height) => quantity_text(height, units),
        None => format!("over {}", quantity_text(millimetres(HIGHEST_MM), units)),
    };
    WaveRow {
        length: quantity_text(one.length, units),
        speed: amount_text(one.speed.into(), units),
        bump: shown(one.bump),
        dip: shown(one.dip),
        row: shown(one.row),
    }
}
