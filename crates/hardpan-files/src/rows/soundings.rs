//! `soundings.csv`: dynamic cone penetrometer tests, one reading a row.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Page, shortened};
use crate::rows::{Column, Row, Rows};
use crate::strip::checks::{on_strip, place, shown};
use crate::table::plausible;
use hardpan_model::{Given, Hammer, Reading, SoilClass, Sounding};
use hardpan_quantity::{Dimension, Length, Quantity, Ratio, metres};
use jiff::civil::Date;
use std::collections::BTreeMap;
use std::sync::Arc;

const LENGTHS: &[(&str, f64)] = &[("_m", 1.0), ("_ft", 0.3048)];
const DEPTHS: &[(&str, f64)] = &[("_mm", 1e-3), ("_in", 0.0254), ("_cm", 1e-2)];
const SHARES: &[(&str, f64)] = &[("_percent", 1e-2)];
const STATION: usize = 0;
const OFFSET: usize = 1;
const DATE: usize = 2;
const HAMMER: usize = 3;
const SOIL: usize = 4;
const BLOWS: usize = 5;
const DEPTH: usize = 6;
const NOTE: usize = 7;
const MOISTURE: usize = 8;
const COLUMNS: &[Column] = &[
    Column { name: "station", units: LENGTHS, optional: false },
    Column { name: "offset", units: LENGTHS, optional: false },
    Column { name: "date", units: &[], optional: false },
    Column { name: "hammer", units: &[], optional: false },
    Column { name: "soil", units: &[], optional: false },
    Column { name: "blows", units: &[], optional: false },
    Column { name: "depth", units: DEPTHS, optional: false },
    Column { name: "note", units: &[], optional: true },
    Column { name: "moisture", units: SHARES, optional: true },
];
const HAMMERS: [(&str, Hammer); 2] = [("8 kg", Hammer::Standard), ("4.6 kg", Hammer::Light)];
const SOILS: [(&str, SoilClass); 3] =
    [("CL", SoilClass::LeanClay), ("CH", SoilClass::FatClay), ("other", SoilClass::Other)];

/// One row, read.
struct Blow {
    station: f64,
    offset: f64,
    date: Option<Date>,
    hammer: Hammer,
    soil: Option<SoilClass>,
    blows: u32,
    depth: f64,
    refusal: bool,
    moisture: Option<f64>,
}

/// A sounding while its rows are read, and the line of its last row.
struct Open {
    sounding: Sounding,
    first_line: u32,
    last_line: u32,
    depth: f64,
    /// Whether no row of it was reported.
    is_sound: bool,
}

impl Open {
    fn is_of(&self, row: &Blow) -> bool {
        let sounding = &self.sounding;
        sounding.station.value.si() == row.station
            && sounding.offset.si() == row.offset
            && sounding.date.as_ref().map(|date| date.value) == row.date
    }

    /// Whether all its rows stay at the surface, and none was reported.
    fn reached_nothing(&self) -> bool {
        self.sounding.readings.is_empty() && self.is_sound
    }
}

/// Read all soundings, in the order of the file.
pub(crate) fn soundings(
    page: &Page<'_>,
    length: Option<Length>,
    source: Option<Arc<str>>,
) -> Vec<Sounding> {
    let Some(rows) = Rows::open(page, COLUMNS) else {
        return Vec::new();
    };
    let mut all: Vec<Open> = Vec::new();
    let mut seen: BTreeMap<(u64, u64, Option<Date>), u32> = BTreeMap::new();
    let mut all_read = true;
    let count = rows.each(|row| {
        let Some(blow) = blow(row) else {
            all_read = false;
            return;
        };
        if !all.last().is_some_and(|last| last.is_of(&blow)) {
            let key = (blow.station.to_bits(), blow.offset.to_bits(), blow.date);
            if let Some(earlier) = seen.get(&key) {
                report_duplicate(page, row, &blow, *earlier);
                return;
            }
            if let Some(mistake) = on_strip("this sounding", metres(blow.station), length) {
                row.report_cell(STATION, &mistake);
            }
            seen.insert(key, row.line);
            all.push(open(page, row, &blow, source.clone()));
        }
        if let Some(last) = all.last_mut() {
            add(page, row, &blow, last);
        }
    });
    if count == 0 {
        page.report(rows.header(), &Mistake::NoRows { what: "soundings".to_owned() });
    }
    for open in all.iter().filter(|open| all_read && open.reached_nothing()) {
        let mistake = Mistake::NothingReached {
            station: place(open.sounding.station.value),
            offset: place(open.sounding.offset),
        };
        let line = page.lines.start(open.last_line);
        page.report(page.lines.line_span(page.text, line), &mistake);
    }
    all.into_iter().map(|open| open.sounding).collect()
}

fn blow(row: &Row<'_>) -> Option<Blow> {
    let station = row.number(STATION, Dimension::Length, plausible::STATION);
    let offset = row.number(OFFSET, Dimension::Length, plausible::OFFSET);
    let date = row.date(DATE);
    let hammer = row.must(HAMMER).and_then(|cell| hammer(row, cell));
    let soil = match row.text(SOIL) {
        None => Some(None),
        Some(_) => row.word(SOIL, &SOILS).map(Some),
    };
    let blows = whole(row);
    let depth = row.number(DEPTH, Dimension::Length, plausible::SOUNDING_DEPTH);
    let refusal = match row.text(NOTE) {
        None => Some(false),
        Some(_) => row.word_or_nothing(NOTE, &[("refusal", true)]),
    };
    let moisture = match row.text(MOISTURE) {
        None => Some(None),
        Some(_) => row.number(MOISTURE, Dimension::Ratio, plausible::MOISTURE).map(Some),
    };
    Some(Blow {
        moisture: moisture?,
        station: station? + 0.0,
        offset: offset? + 0.0,
        date: date?,
        hammer: hammer?,
        soil: soil?,
        blows: blows?,
        depth: depth?,
        refusal: refusal?,
    })
}

/// A hammer by its mass, with or without a blank before the unit.
fn hammer(row: &Row<'_>, cell: &str) -> Option<Hammer> {
    let mass = cell.strip_suffix("kg").and_then(|number| number.trim_end().parse::<f64>().ok());
    if mass == Some(8.0) {
        Some(Hammer::Standard)
    } else if mass == Some(4.6) {
        Some(Hammer::Light)
    } else {
        row.word(HAMMER, &HAMMERS)
    }
}

fn whole(row: &Row<'_>) -> Option<u32> {
    let cell = row.must(BLOWS)?;
    let Ok(number) = cell.parse::<i64>() else {
        let mistake =
            Mistake::CellNumber { column: "blows".to_owned(), wanted: "a whole number".to_owned() };
        row.report_cell(BLOWS, &mistake);
        return None;
    };
    let blows = u32::try_from(number).ok().filter(|blows| plausible::BLOWS.hold(f64::from(*blows)));
    if blows.is_some() {
        return blows;
    }
    let (low, high) = (plausible::BLOWS.low.to_string(), plausible::BLOWS.high.to_string());
    row.report_cell(
        BLOWS,
        &Mistake::OutOfRange { key: "blows".to_owned(), value: shortened(cell), low, high },
    );
    None
}

fn open(page: &Page<'_>, row: &Row<'_>, blow: &Blow, source: Option<Arc<str>>) -> Open {
    let name = row.name(STATION);
    let origin = page.origin(row.cell_span(STATION).start, &name);
    let station = Given { value: metres(blow.station), origin, source };
    let at = |column: usize| page.origin(row.cell_span(column).start, &row.name(column));
    let source = station.source.clone();
    let sounding = Sounding {
        offset: metres(blow.offset),
        date: blow.date.map(|value| Given { value, origin: at(DATE), source: source.clone() }),
        hammer: Given { value: blow.hammer, origin: at(HAMMER), source: source.clone() },
        soil: blow.soil.map(|value| Given { value, origin: at(SOIL), source: source.clone() }),
        moisture: moisture(page, row, blow, source),
        station,
        readings: Vec::new(),
        refusal: false,
    };
    Open { sounding, first_line: row.line, last_line: row.line, depth: 0.0, is_sound: true }
}

fn moisture(
    page: &Page<'_>,
    row: &Row<'_>,
    blow: &Blow,
    source: Option<Arc<str>>,
) -> Option<Given<Ratio>> {
    let value = Ratio::from_si(blow.moisture?);
    let origin = page.origin(row.cell_span(MOISTURE).start, &row.name(MOISTURE));
    Some(Given { value, origin, source })
}

/// Add a row to its sounding. The surface row, 0 blows at depth 0, says nothing
/// that the next row does not say and is left out; so is a last row of refusal
/// that went no deeper.
fn add(page: &Page<'_>, row: &Row<'_>, blow: &Blow, open: &mut Open) {
    let first = open.first_line == row.line;
    if open.sounding.refusal {
        row.report(&Mistake::AfterRefusal {});
        open.is_sound = false;
        return;
    }
    if !first {
        unchanged(row, blow, &open.sounding);
    }
    let surface = first && blow.blows == 0 && blow.depth == 0.0;
    if let Some(moisture) = moisture(page, row, blow, open.sounding.station.source.clone()) {
        let wetter = |given: &Given<Ratio>| moisture.value < given.value;
        if open.sounding.moisture.as_ref().is_none_or(wetter) {
            open.sounding.moisture = Some(moisture);
        }
    }
    let stopped = blow.refusal && blow.blows > 0 && blow.depth == open.depth;
    open.sounding.refusal = blow.refusal;
    if surface || stopped {
        open.last_line = row.line;
        return;
    }
    if first && blow.depth == 0.0 {
        row.report_cell(DEPTH, &Mistake::BlowsAtSurface { blows: blow.blows.to_string() });
        open.is_sound = false;
    } else if blow.depth <= open.depth {
        open.is_sound = false;
        let mistake = Mistake::DepthOrder {
            depth: shown(metres(blow.depth)),
            before: shown(metres(open.depth)),
            line: row.line,
            earlier: open.last_line,
        };
        let other = page.lines.line_span(page.text, page.lines.start(open.last_line));
        page.report_with(row.cell_span(DEPTH), &mistake, other, "the row before");
    } else if blow.blows == 0 {
        open.is_sound = false;
        row.report_cell(BLOWS, &Mistake::NoBlows { depth: shown(metres(blow.depth)) });
    } else {
        let reading = Reading { blows: blow.blows, depth: metres(blow.depth), line: row.line };
        open.sounding.readings.push(reading);
        open.depth = blow.depth;
    }
    open.last_line = row.line;
}

fn unchanged(row: &Row<'_>, blow: &Blow, sounding: &Sounding) {
    if blow.hammer != sounding.hammer.value {
        let before = HAMMERS.iter().find(|(_, hammer)| *hammer == sounding.hammer.value);
        let before = before.map_or("", |(word, _)| word).to_owned();
        row.report_cell(HAMMER, &Mistake::ChangedWithin { column: "hammer".to_owned(), before });
    }
    let soil = sounding.soil.as_ref().map(|soil| soil.value);
    if blow.soil != soil {
        let before = SOILS
            .iter()
            .find(|(_, class)| Some(*class) == soil)
            .map_or("", |(word, _)| word)
            .to_owned();
        row.report_cell(SOIL, &Mistake::ChangedWithin { column: "soil".to_owned(), before });
    }
}

fn report_duplicate(page: &Page<'_>, row: &Row<'_>, blow: &Blow, earlier: u32) {
    let mistake = Mistake::DuplicateSounding {
        station: place(metres(blow.station)),
        offset: place(metres(blow.offset)),
        line: row.line,
        earlier,
    };
    let other = page.lines.line_span(page.text, page.lines.start(earlier));
    page.report_with(row.span(), &mistake, other, "the first of the two");
}
