//! `ruts.csv`: ruts as they were measured, one a row.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::rows::{Column, Row, Rows};
use crate::strip::checks::on_strip;
use crate::table::plausible;
use hardpan_model::{Given, Lane, MeasuredRut};
use hardpan_quantity::{Dimension, Length, Mass, Pressure, Quantity, metres};
use std::sync::Arc;

const LENGTHS: &[(&str, f64)] = &[("_m", 1.0), ("_ft", 0.3048)];
const DEPTHS: &[(&str, f64)] = &[("_mm", 1e-3), ("_in", 0.0254), ("_cm", 1e-2)];
const MASSES: &[(&str, f64)] = &[("_t", 1e3), ("_kg", 1.0), ("_lb", 0.453_592_37)];
const PRESSURES: &[(&str, f64)] = &[("_kpa", 1e3), ("_psi", 6_894.757_293_168_361)];
const STATION: usize = 0;
const LANE: usize = 1;
const DATE: usize = 2;
const RUT: usize = 3;
const PASSES: usize = 4;
const MASS: usize = 5;
const PRESSURE: usize = 6;
const COLUMNS: &[Column] = &[
    Column { name: "station", units: LENGTHS, optional: false },
    Column { name: "lane", units: &[], optional: false },
    Column { name: "date", units: &[], optional: false },
    Column { name: "rut", units: DEPTHS, optional: false },
    Column { name: "passes", units: &[], optional: false },
    Column { name: "mass", units: MASSES, optional: false },
    Column { name: "pressure", units: PRESSURES, optional: false },
];

/// Read all ruts, in the order of the file.
pub(crate) fn ruts(
    page: &Page<'_>,
    length: Option<Length>,
    source: Option<&Arc<str>>,
) -> Vec<MeasuredRut> {
    let Some(rows) = Rows::open(page, COLUMNS) else {
        return Vec::new();
    };
    let mut ruts = Vec::new();
    let count = rows.each(|row| ruts.extend(rut(page, row, length, source)));
    if count == 0 {
        page.report(rows.header(), &Mistake::NoRows { what: "ruts".to_owned() });
    }
    ruts
}

fn rut(
    page: &Page<'_>,
    row: &Row<'_>,
    length: Option<Length>,
    source: Option<&Arc<str>>,
) -> Option<MeasuredRut> {
    let lanes = [Lane::Left, Lane::Right].map(|lane| (lane.word(), lane));
    let station = row.number(STATION, Dimension::Length, plausible::STATION);
    let lane = row.must(LANE).and_then(|_| row.word(LANE, &lanes));
    let date = row.date(DATE);
    let depth = row.number(RUT, Dimension::Length, plausible::RUT);
    let passes = row.number(PASSES, Dimension::Coefficient, plausible::PASSES);
    let mass = row.number(MASS, Dimension::Mass, plausible::MASS);
    let pressure = row.number(PRESSURE, Dimension::Pressure, plausible::TYRE_PRESSURE);
    let station = metres(station?);
    if let Some(mistake) = on_strip("this rut", station, length) {
        row.report_cell(STATION, &mistake);
    }
    let at = |column| page.origin(row.cell_span(column).start, &row.name(column));
    fn given<T>(value: T, origin: hardpan_model::Origin, source: Option<&Arc<str>>) -> Given<T> {
        Given { value, origin, source: source.cloned() }
    }
    Some(MeasuredRut {
        station: given(station, at(STATION), source),
        lane: lane?,
        date: date?.map(|date| given(date, at(DATE), source)),
        depth: given(metres(depth?), at(RUT), source),
        passes: given(passes?, at(PASSES), source),
        mass: given(Mass::from_si(mass?), at(MASS), source),
        pressure: given(Pressure::from_si(pressure?), at(PRESSURE), source),
    })
}
