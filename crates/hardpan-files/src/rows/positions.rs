//! Positions of a satellite receiver by latitude, longitude and height.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::rows::{Column, Rows, column_names};
use crate::table::plausible;
use hardpan_quantity::{Angle, Dimension, Length, Quantity, metres};
use hardpan_survey::Geographic;

const DEGREES: &[(&str, f64)] = &[("_deg", std::f64::consts::PI / 180.0)];
const LENGTHS: &[(&str, f64)] = &[("_m", 1.0), ("_ft", 0.3048)];
const LATITUDE: usize = 0;
const LONGITUDE: usize = 1;
const HEIGHT: usize = 2;
const COLUMNS: &[Column] = &[
    Column { name: "latitude", units: DEGREES, optional: false },
    Column { name: "longitude", units: DEGREES, optional: false },
    Column { name: "height", units: LENGTHS, optional: false },
];

/// One row.
pub(crate) struct Position {
    pub(crate) place: Geographic,
    pub(crate) height: Length,
    /// Line of the file.
    pub(crate) line: u32,
}

/// Whether a table holds positions, told by its first line.
pub(crate) fn are_in(text: &str) -> bool {
    column_names(text).iter().any(|name| name.starts_with("latitude"))
}

/// Read the positions; none when the file has no rows.
pub(crate) fn positions(page: &Page<'_>) -> Option<Vec<Position>> {
    let rows = Rows::open(page, COLUMNS)?;
    let mut positions = Vec::new();
    let count = rows.each(|row| {
        let latitude = row.number(LATITUDE, Dimension::Angle, plausible::LATITUDE);
        let longitude = row.number(LONGITUDE, Dimension::Angle, plausible::LONGITUDE);
        let height = row.number(HEIGHT, Dimension::Length, plausible::STRIP_ELEVATION);
        if let (Some(latitude), Some(longitude), Some(height)) = (latitude, longitude, height) {
            let (latitude, longitude) = (Angle::from_si(latitude), Angle::from_si(longitude));
            let place = Geographic { latitude, longitude };
            positions.push(Position { place, height: metres(height), line: row.line });
        }
    });
    if count == 0 {
        page.report(rows.header(), &Mistake::NoRows { what: "survey".to_owned() });
        return None;
    }
    Some(positions)
}
