//! `strength_tests.csv`: strength tests besides the penetrometer, one a row.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::rows::{Column, Row, Rows};
use crate::strip::checks::{on_strip, shown};
use crate::strip::states;
use crate::table::plausible;
use hardpan_model::{Given, StrengthFigure, StrengthTest, StrengthTestKind};
use hardpan_quantity::{BearingRatio, Dimension, Length, Pressure, Quantity, Ratio, metres};
use std::sync::Arc;

const LENGTHS: &[(&str, f64)] = &[("_m", 1.0), ("_ft", 0.3048)];
const DEPTHS: &[(&str, f64)] = &[("_mm", 1e-3), ("_in", 0.0254), ("_cm", 1e-2)];
const RATIOS: &[(&str, f64)] = &[("_percent", 1.0)];
const SHARES: &[(&str, f64)] = &[("_percent", 1e-2)];
const MODULI: &[(&str, f64)] = &[("_mpa", 1e6), ("_psi", 6_894.757_293_168_361)];
const STATION: usize = 0;
const OFFSET: usize = 1;
const DATE: usize = 2;
const TEST: usize = 3;
const FROM: usize = 4;
const TO: usize = 5;
const BEARING: usize = 6;
const MODULUS: usize = 7;
const INDEX: usize = 8;
const MOISTURE: usize = 9;
const STATE: usize = 10;
const COLUMNS: &[Column] = &[
    Column { name: "station", units: LENGTHS, optional: false },
    Column { name: "offset", units: LENGTHS, optional: false },
    Column { name: "date", units: &[], optional: false },
    Column { name: "test", units: &[], optional: false },
    Column { name: "from", units: DEPTHS, optional: false },
    Column { name: "to", units: DEPTHS, optional: false },
    Column { name: "cbr", units: RATIOS, optional: true },
    Column { name: "modulus", units: MODULI, optional: true },
    Column { name: "index", units: &[], optional: true },
    Column { name: "moisture", units: SHARES, optional: true },
    Column { name: "state", units: &[], optional: true },
];

/// Read all tests, in the order of the file.
pub(crate) fn strength_tests(
    page: &Page<'_>,
    length: Option<Length>,
    source: Option<Arc<str>>,
) -> Vec<StrengthTest> {
    let Some(rows) = Rows::open(page, COLUMNS) else {
        return Vec::new();
    };
    let mut tests = Vec::new();
    let count = rows.each(|row| tests.extend(test(page, row, length, source.as_ref())));
    if count == 0 {
        page.report(rows.header(), &Mistake::NoRows { what: "strength tests".to_owned() });
    }
    tests
}

fn test(
    page: &Page<'_>,
    row: &Row<'_>,
    length: Option<Length>,
    source: Option<&Arc<str>>,
) -> Option<StrengthTest> {
    let station = row.number(STATION, Dimension::Length, plausible::STATION);
    let offset = row.number(OFFSET, Dimension::Length, plausible::OFFSET);
    let date = row.date(DATE);
    let kinds = StrengthTestKind::ALL.map(|kind| (kind.word(), kind));
    let kind = row.must(TEST).and_then(|_| row.word(TEST, &kinds));
    let top = row.number(FROM, Dimension::Length, plausible::SOUNDING_DEPTH);
    let bottom = row.number(TO, Dimension::Length, plausible::SOUNDING_DEPTH);
    let figure = kind.and_then(|kind| figure(row, kind));
    let moisture = match row.text(MOISTURE) {
        None => Some(None),
        Some(_) => row.number(MOISTURE, Dimension::Ratio, plausible::MOISTURE).map(Some),
    };
    let state = match row.text(STATE) {
        None => Some(None),
        Some(_) => row.word(STATE, &states()).map(Some),
    };
    let (station, top, bottom) = (metres(station?), metres(top?), metres(bottom?));
    if let Some(mistake) = on_strip("this test", station, length) {
        row.report_cell(STATION, &mistake);
    }
    if bottom <= top {
        let mistake = Mistake::OutOfOrder {
            lower: row.name(FROM),
            low: shown(top),
            upper: row.name(TO),
            high: shown(bottom),
        };
        row.report_cell(TO, &mistake);
        return None;
    }
    let at = |column| page.origin(row.cell_span(column).start, &row.name(column));
    let (column, figure) = figure?;
    Some(StrengthTest {
        kind: Given { value: kind?, origin: at(TEST), source: source.cloned() },
        station: Given { value: station, origin: at(STATION), source: source.cloned() },
        offset: metres(offset?),
        date: date?.map(|value| Given { value, origin: at(DATE), source: source.cloned() }),
        top,
        bottom,
        figure: Given { value: figure, origin: at(column), source: source.cloned() },
        moisture: moisture?.map(|share| Given {
            value: Ratio::from_si(share),
            origin: at(MOISTURE),
            source: source.cloned(),
        }),
        state: state?.map(|value| Given { value, origin: at(STATE), source: source.cloned() }),
    })
}

/// The figure of a test and its column; the other two columns stay empty.
fn figure(row: &Row<'_>, kind: StrengthTestKind) -> Option<(usize, StrengthFigure)> {
    let column = match kind {
        StrengthTestKind::FieldBearingRatio
        | StrengthTestKind::LaboratoryBearingRatio
        | StrengthTestKind::SoakedBearingRatio => BEARING,
        StrengthTestKind::Plate | StrengthTestKind::LightPlate => MODULUS,
        StrengthTestKind::ConeIndex => INDEX,
    };
    let mut sound = true;
    for other in [BEARING, MODULUS, INDEX] {
        if other != column && row.text(other).is_some() {
            let wanted = format!("empty, as it must be for the test `{}`", kind.word());
            row.report_cell(other, &Mistake::CellNumber { column: row.name(other), wanted });
            sound = false;
        }
    }
    let (dimension, bounds) = match column {
        BEARING => (Dimension::BearingRatio, plausible::BEARING_RATIO),
        MODULUS => (Dimension::Pressure, plausible::MODULUS),
        _ => (Dimension::Coefficient, plausible::CONE_INDEX),
    };
    let value = row.number(column, dimension, bounds)?;
    let figure = match column {
        BEARING => StrengthFigure::BearingRatio(BearingRatio::from_si(value)),
        MODULUS => StrengthFigure::Modulus(Pressure::from_si(value)),
        _ => StrengthFigure::Index(value),
    };
    sound.then_some((column, figure))
}
