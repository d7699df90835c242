//! Rows of an approved chart: one combination of arguments and its value a row.
//!
//! The arguments that stand in the file make a grid, and every place of it must
//! have one value: nothing is filled in, and nothing is carried on beyond it.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::rows::{Column, Row, Rows};
use crate::table::plausible;
use hardpan_model::{ChartArgument, ChartFigure};
use hardpan_quantity::Dimension;
use std::collections::BTreeMap;

const FOOT: f64 = 0.3048;
const MASSES: &[(&str, f64)] = &[("_t", 1e3), ("_kg", 1.0), ("_lb", 0.453_592_37)];
const HEIGHTS: &[(&str, f64)] = &[("_ft", FOOT), ("_m", 1.0)];
const LENGTHS: &[(&str, f64)] = &[("_m", 1.0), ("_ft", FOOT)];
const SPEEDS: &[(&str, f64)] = &[("_kt", 1852.0 / 3600.0), ("_m_s", 1.0)];
const TEMPERATURES: &[(&str, f64)] = &[("_c", 1.0), ("_f", FAHRENHEIT_STEP)];
const FAHRENHEIT_STEP: f64 = 5.0 / 9.0;
const ZERO_CELSIUS_K: f64 = 273.15;
const ZERO_FAHRENHEIT_K: f64 = ZERO_CELSIUS_K - 32.0 * FAHRENHEIT_STEP;
const ARGUMENTS: [ChartArgument; 6] = [
    ChartArgument::Mass,
    ChartArgument::PressureAltitude,
    ChartArgument::Temperature,
    ChartArgument::Headwind,
    ChartArgument::Slope,
    ChartArgument::Available,
];
const MASS: usize = 0;
const AVAILABLE: usize = 5;
const DISTANCE: usize = 6;
const LIMIT_MASS: usize = 7;
const COLUMNS: &[Column] = &[
    Column { name: "mass", units: MASSES, optional: true },
    Column { name: "pressure_altitude", units: HEIGHTS, optional: true },
    Column { name: "temperature", units: TEMPERATURES, optional: true },
    Column { name: "headwind", units: SPEEDS, optional: true },
    Column { name: "slope", units: &[("_percent", 0.01)], optional: true },
    Column { name: "available", units: LENGTHS, optional: true },
    Column { name: "distance", units: LENGTHS, optional: true },
    Column { name: "limit_mass", units: MASSES, optional: true },
];

/// What a chart file holds, in SI units.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartRows {
    /// Rows of each argument, rising.
    pub arguments: Vec<(ChartArgument, Vec<f64>)>,
    /// Values, the last argument running fastest.
    pub values: Vec<f64>,
}

/// One row of the file.
struct Point {
    at: Vec<f64>,
    value: f64,
    line: u32,
}

/// Whether the columns of a table are those of a chart, and of which kind.
pub(crate) fn kind_by_columns(names: &[String]) -> Option<ChartFigure> {
    let has = |start: &str| names.iter().any(|name| name.starts_with(start));
    if has("limit_mass") {
        Some(ChartFigure::TakeOffMass)
    } else {
        has("distance").then_some(ChartFigure::TakeOffDistance)
    }
}

/// Read a chart; none when it is not a full grid that goes one way.
pub(crate) fn chart(page: &Page<'_>, gives: ChartFigure) -> Option<ChartRows> {
    let rows = Rows::open(page, COLUMNS)?;
    let (value, entered) = columns_of(page, &rows, gives)?;
    let mut points = Vec::new();
    let count = rows.each(|row| points.extend(point(row, &entered, value)));
    if count == 0 {
        page.report(rows.header(), &Mistake::NoRows { what: "chart".to_owned() });
        return None;
    }
    if points.len() < count {
        return None;
    }
    let axes: Vec<Vec<f64>> = (0..entered.len()).map(|axis| axis_of(&points, axis)).collect();
    let grid = placed(page, &rows, points, &axes, &entered)?;
    let arguments: Vec<ChartArgument> =
        entered.iter().filter_map(|column| ARGUMENTS.get(*column).copied()).collect();
    let sound = goes_one_way(page, &grid, &axes, &arguments, gives);
    let values = grid.into_iter().map(|point| point.value).collect();
    sound.then(|| ChartRows { arguments: arguments.into_iter().zip(axes).collect(), values })
}

/// The column of the values and those that the chart is entered with.
fn columns_of(page: &Page<'_>, rows: &Rows<'_>, gives: ChartFigure) -> Option<(usize, Vec<usize>)> {
    let (value, column, strangers) = if gives.is_mass() {
        (LIMIT_MASS, "`limit_mass_t`", [DISTANCE, MASS])
    } else {
        (DISTANCE, "`distance_m`", [LIMIT_MASS, AVAILABLE])
    };
    let gives = gives.word().to_owned();
    if !rows.has(value) {
        let mistake = Mistake::ChartValues { gives, column: column.to_owned() };
        page.report(rows.header(), &mistake);
        return None;
    }
    if let Some(stranger) = strangers.into_iter().find(|column| rows.has(*column)) {
        let mistake = Mistake::ChartStranger { gives, column: rows.name_of(stranger) };
        page.report(rows.header(), &mistake);
        return None;
    }
    let entered: Vec<usize> = (0..ARGUMENTS.len()).filter(|column| rows.has(*column)).collect();
    if entered.is_empty() {
        let columns = "mass_t, pressure_altitude_ft, temperature_c, headwind_kt, slope_percent";
        page.report(rows.header(), &Mistake::ChartArguments { columns: columns.to_owned() });
        return None;
    }
    Some((value, entered))
}

fn point(row: &Row<'_>, entered: &[usize], value: usize) -> Option<Point> {
    let at: Vec<Option<f64>> = entered.iter().map(|column| argument(row, *column)).collect();
    let (dimension, bounds) = if value == LIMIT_MASS {
        (Dimension::Mass, plausible::MASS)
    } else {
        (Dimension::Length, plausible::CHART_DISTANCE)
    };
    let value = row.number(value, dimension, bounds);
    Some(Point { at: at.into_iter().collect::<Option<_>>()?, value: value?, line: row.line })
}

fn argument(row: &Row<'_>, column: usize) -> Option<f64> {
    let (dimension, bounds) = match ARGUMENTS.get(column)? {
        ChartArgument::Mass => (Dimension::Mass, plausible::MASS),
        ChartArgument::PressureAltitude => (Dimension::Length, plausible::CHART_ALTITUDE),
        ChartArgument::Temperature => (Dimension::Coefficient, plausible::CHART_DEGREES),
        ChartArgument::Headwind => (Dimension::Speed, plausible::CHART_WIND),
        ChartArgument::Slope => (Dimension::Ratio, plausible::CHART_SLOPE),
        ChartArgument::Available => (Dimension::Length, plausible::CHART_DISTANCE),
    };
    let number = row.number(column, dimension, bounds)? + 0.0;
    Some(number + zero_of(row.rows(), column))
}

/// Kelvins at the zero of a scale of temperature; zero for all other columns.
fn zero_of(rows: &Rows<'_>, column: usize) -> f64 {
    if !matches!(ARGUMENTS.get(column), Some(ChartArgument::Temperature)) {
        0.0
    } else if rows.factor(column) == FAHRENHEIT_STEP {
        ZERO_FAHRENHEIT_K
    } else {
        ZERO_CELSIUS_K
    }
}

fn axis_of(points: &[Point], axis: usize) -> Vec<f64> {
    let mut rows: Vec<f64> =
        points.iter().filter_map(|point| point.at.get(axis).copied()).collect();
    rows.sort_by(f64::total_cmp);
    rows.dedup();
    rows
}

/// The points in the order of the grid; none when one is missing or stands twice.
fn placed(
    page: &Page<'_>,
    rows: &Rows<'_>,
    points: Vec<Point>,
    axes: &[Vec<f64>],
    entered: &[usize],
) -> Option<Vec<Point>> {
    let found = points.len();
    let mut places: BTreeMap<Vec<usize>, Point> = BTreeMap::new();
    for point in points {
        let place: Vec<usize> = axes
            .iter()
            .zip(&point.at)
            .map(|(axis, at)| axis.partition_point(|row| row < at))
            .collect();
        if let Some(earlier) = places.get(&place) {
            let span = page.lines.line_span(page.text, page.lines.start(point.line));
            let mistake = Mistake::ChartTwice { line: point.line, earlier: earlier.line };
            page.report(span, &mistake);
            return None;
        }
        places.insert(place, point);
    }
    let wanted = axes.iter().try_fold(1_usize, |product, axis| product.checked_mul(axis.len()));
    if wanted == Some(found) {
        return Some(places.into_values().collect());
    }
    let wanted = wanted.map_or_else(|| "very many".to_owned(), |wanted| wanted.to_string());
    let missing = first_hole(&places, axes).map_or_else(String::new, |hole| {
        let parts = hole.iter().zip(axes).zip(entered).map(|((place, axis), column)| {
            let si = axis.get(*place).copied().unwrap_or(f64::NAN) - zero_of(rows, *column);
            format!("{} {}", rows.name_of(*column), rows.shown(*column, si))
        });
        parts.collect::<Vec<_>>().join(", ")
    });
    page.report(rows.header(), &Mistake::ChartHole { found, wanted, missing });
    None
}

/// First place of the grid, in its order, that has no point.
fn first_hole(places: &BTreeMap<Vec<usize>, Point>, axes: &[Vec<f64>]) -> Option<Vec<usize>> {
    let mut place = vec![0_usize; axes.len()];
    for filled in places.keys() {
        if *filled != place {
            return Some(place);
        }
        for (index, axis) in place.iter_mut().zip(axes).rev() {
            *index += 1;
            if *index < axis.len() {
                break;
            }
            *index = 0;
        }
    }
    Some(place)
}

/// Two neighbours as far apart as two units of the column: 3.28 ft in a metre and
/// 2.20 lb in a kilogram, from three quarters of the way on. Straight lines over such a
/// step would be worth little anyway.
fn mixed_units(point: &Point, next: &Point, gives: ChartFigure) -> Option<Mistake> {
    let (jump, units) = match gives.is_mass() {
        true => (1.0 / 0.453_592_37, "pounds and kilograms"),
        false => (1.0 / FOOT, "feet and metres"),
    };
    let (low, high) = (point.value.min(next.value), point.value.max(next.value));
    let times = high / low.max(f64::MIN_POSITIVE);
    (times >= 1.0 + (jump - 1.0) * 0.75).then(|| Mistake::ChartUnits {
        line: next.line,
        earlier: point.line,
        times: format!("{times:.1}"),
        units: units.to_owned(),
    })
}

/// More mass, altitude or temperature never helps, and more headwind never harms.
fn goes_one_way(
    page: &Page<'_>,
    grid: &[Point],
    axes: &[Vec<f64>],
    arguments: &[ChartArgument],
    gives: ChartFigure,
) -> bool {
    let mut stride = grid.len();
    for (axis, argument) in axes.iter().zip(arguments) {
        stride /= axis.len().max(1);
        let harms = match argument {
            ChartArgument::Mass | ChartArgument::PressureAltitude | ChartArgument::Temperature => {
                true
            }
            ChartArgument::Headwind | ChartArgument::Available => false,
            ChartArgument::Slope => continue,
        };
        let rises = harms != gives.is_mass();
        for (index, point) in grid.iter().enumerate() {
            let last = (index / stride) % axis.len() + 1 == axis.len();
            let Some(next) = grid.get(index + stride).filter(|_| !last) else { continue };
            let backwards = if rises { next.value < point.value } else { next.value > point.value };
            if backwards {
                let mistake = Mistake::ChartBackwards {
                    argument: argument.word().to_owned(),
                    line: next.line,
                    earlier: point.line,
                    way: if rises { "falls" } else { "rises" }.to_owned(),
                };
                let line = |line| page.lines.line_span(page.text, page.lines.start(line));
                page.report_with(line(next.line), &mistake, line(point.line), "the other row");
                return false;
            }
            if let Some(mistake) = mixed_units(point, next, gives) {
                let line = page.lines.line_span(page.text, page.lines.start(next.line));
                page.report(line, &mistake);
                return false;
            }
        }
    }
    true
}
