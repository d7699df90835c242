//! `survey.csv`: levels by station and offset.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::rows::jumps::report_jumps;
use crate::rows::{Column, Row, Rows};
use crate::strip::checks::{on_strip, place};
use crate::table::plausible;
use hardpan_model::{SurveyLine, SurveyPoint};
use hardpan_quantity::{Dimension, Length, Quantity, metres};
use std::collections::BTreeMap;

const FOOT: f64 = 0.3048;
const LENGTHS: &[(&str, f64)] = &[("_m", 1.0), ("_ft", FOOT)];
const STATION: usize = 0;
const OFFSET: usize = 1;
const ELEVATION: usize = 2;
const COLUMNS: &[Column] = &[
    Column { name: "station", units: LENGTHS, optional: false },
    Column { name: "offset", units: LENGTHS, optional: false },
    Column { name: "elevation", units: LENGTHS, optional: false },
];
/// Offsets closer than this belong to one line, in metres.
const SAME_OFFSET: f64 = 1e-6;

/// Read the survey lines; none when the file has no rows.
pub(crate) fn survey(page: &Page<'_>, length: Option<Length>) -> Option<Vec<SurveyLine>> {
    let rows = Rows::open(page, COLUMNS)?;
    let mut lines: BTreeMap<i64, SurveyLine> = BTreeMap::new();
    let mut farthest: Option<(f64, usize)> = None;
    let count = rows.each(|row| {
        let Some((station, offset, elevation)) = point(row) else {
            return;
        };
        if farthest.is_none_or(|(most, _)| station > most) {
            farthest = Some((station, row.span().start));
        }
        // Bounded by the plausible offsets, so that the cast keeps the value.
        let key = (offset / SAME_OFFSET).round() as i64;
        let line = lines
            .entry(key)
            .or_insert_with(|| SurveyLine { offset: metres(offset), points: Vec::new() });
        let point =
            SurveyPoint { station: metres(station), elevation: metres(elevation), line: row.line };
        if in_order(page, row, line, &point) {
            line.points.push(point);
        }
    });
    let lines: Vec<SurveyLine> = lines.into_values().collect();
    report_jumps(page, &lines);
    if let Some((most, start)) = farthest
        && let Some(mistake) = on_strip("the survey", metres(most), length)
    {
        page.report(page.lines.line_span(page.text, start), &mistake);
    }
    if count == 0 {
        page.report(rows.header(), &Mistake::NoRows { what: "survey".to_owned() });
        return None;
    }
    Some(lines)
}

fn point(row: &Row<'_>) -> Option<(f64, f64, f64)> {
    let station = row.number(STATION, Dimension::Length, plausible::STATION);
    let offset = row.number(OFFSET, Dimension::Length, plausible::OFFSET);
    let elevation = row.number(ELEVATION, Dimension::Length, plausible::STRIP_ELEVATION);
    Some((station?, offset?, elevation?))
}

fn in_order(page: &Page<'_>, row: &Row<'_>, line: &SurveyLine, point: &SurveyPoint) -> bool {
    let Some(last) = line.points.last() else {
        return true;
    };
    if point.station.si() > last.station.si() {
        return true;
    }
    let stations = &line.points;
    let at = stations.partition_point(|other| other.station.si() < point.station.si());
    let same = stations.get(at).filter(|other| other.station.si() == point.station.si());
    let earlier = same.unwrap_or(last);
    let (station, offset) = (place(point.station), place(line.offset));
    let mistake = if same.is_some() {
        Mistake::DuplicatePoint { station, offset, line: point.line, earlier: earlier.line }
    } else {
        let before = place(last.station);
        Mistake::StationOrder { station, before, offset, line: point.line, earlier: last.line }
    };
    let other = page.lines.line_span(page.text, page.lines.start(earlier.line));
    page.report_with(row.cell_span(STATION), &mistake, other, "the other row");
    false
}
