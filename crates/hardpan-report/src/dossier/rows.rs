//! Rows of the tables, in the reader's units.

use crate::measure::{
    amount_text, offset_text, quantity_text, station_number, station_unit, stretch_text,
};
use crate::wrap::plain;
use hardpan_assess::{
    LineShape, Shown, SoundingColumn, StripDossier, StripFact, StripPlace, StripRepair,
};
use hardpan_quantity::{Length, Quantity, UnitSystem, Volume};
use serde::Serialize;

/// Symbol of the roughness index and its size as a slope: metres for each
/// kilometre, or inches for each mile of 63 360 in.
pub(crate) const fn index_unit(units: UnitSystem) -> (&'static str, f64) {
    match units {
        UnitSystem::Metric => ("m/km", 1e-3),
        UnitSystem::Imperial => ("in/mi", 1.0 / 63_360.0),
    }
}

/// The roughness index of a slope, without its unit.
pub(crate) fn index_number(slope: f64, units: UnitSystem) -> String {
    let shown = slope / index_unit(units).1;
    match units {
        UnitSystem::Metric => format!("{shown:.1}"),
        UnitSystem::Imperial => format!("{shown:.0}"),
    }
}

/// What, value and source.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct FactRow {
    pub(super) label: &'static str,
    pub(super) value: String,
    pub(super) source: String,
}

/// A place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct PlaceRow {
    pub(super) number: usize,
    pub(super) what: &'static str,
    pub(super) stretch: String,
    pub(super) offset: String,
    pub(super) size: String,
    pub(super) limit: String,
    pub(super) over: bool,
    pub(super) words: String,
}

/// A repair.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct RepairRow {
    pub(super) action: &'static str,
    pub(super) stretch: String,
    pub(super) offsets: String,
    pub(super) greatest: String,
    pub(super) volume: String,
    pub(super) checks: String,
}

/// Roughness index by stretch and line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct IndexTable {
    pub(super) unit: &'static str,
    /// Offsets of the lines shown.
    pub(super) lines: Vec<String>,
    /// Stretch, and the index on each line shown.
    pub(super) rows: Vec<(String, Vec<String>)>,
    /// Lines that are left out, or why there is none.
    pub(super) note: String,
}

/// Spectrum of one line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct SpectrumRow {
    pub(super) offset: String,
    pub(super) class: String,
    pub(super) density: String,
    pub(super) exponent: String,
    pub(super) fitted: String,
}

/// One sounding.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct SoundingRow {
    pub(super) station: String,
    pub(super) offset: String,
    pub(super) date: String,
    pub(super) surfacing: String,
    pub(super) under: String,
    pub(super) weakest: String,
    pub(super) depth: String,
}

pub(super) fn facts(facts: &[StripFact], units: UnitSystem) -> Vec<FactRow> {
    let row = |fact: &StripFact| FactRow {
        label: fact.label,
        value: plain(&fact.value.show(units)),
        source: plain(&fact.source),
    };
    facts.iter().map(row).collect()
}

pub(super) fn repairs(dossier: &StripDossier, units: UnitSystem) -> Vec<RepairRow> {
    let offset = |offset: Length| offset_text(offset, units);
    let row = |one: &StripRepair| RepairRow {
        action: one.action,
        stretch: stretch_text(one.from, one.to, units),
        offsets: format!("{} to {}", offset(one.offsets.0), offset(one.offsets.1)),
        greatest: quantity_text(one.greatest, units),
        volume: quantity_text(one.volume, units),
        checks: plain(&one.checks.join(", ")),
    };
    dossier.repairs.iter().flatten().map(row).collect()
}

/// All that is to be cut and all that is to be filled, or why that is not
/// known, in one sentence.
pub(super) fn volumes(dossier: &StripDossier, units: UnitSystem) -> String {
    let repairs = match &dossier.repairs {
        Ok(repairs) if repairs.is_empty() => {
            return "No surveyed place surely stands off a chord by more than its limit; what may \
                    be noise of the survey is not counted."
                .to_owned();
        }
        Ok(repairs) => repairs,
        Err(why) => return format!("Not known: {}.", plain(why)),
    };
    let sum = |action: &str| {
        let volumes = repairs.iter().filter(|one| one.action == action).map(|one| one.volume.si());
        quantity_text(Volume::from_si(volumes.sum()), units)
    };
    format!(
        "In all {} to cut and {} to fill, in place and compacted, to bring each surface to its \
         chord.",
        sum("cut"),
        sum("fill")
    )
}

pub(super) fn places(places: &[StripPlace], units: UnitSystem) -> Vec<PlaceRow> {
    places.iter().enumerate().map(|(at, place)| row(at + 1, place, units)).collect()
}

fn row(number: usize, place: &StripPlace, units: UnitSystem) -> PlaceRow {
    let (left, right) = place.offsets;
    let offset = |offset: Length| offset_text(offset, units);
    PlaceRow {
        number,
        what: place.kind.word(),
        stretch: stretch_text(place.from, place.to, units),
        offset: if left == right {
            offset(left)
        } else {
            format!("{} to {}", offset(left), offset(right))
        },
        size: amount_text(place.size, units),
        limit: place.limit.map_or_else(|| "–".to_owned(), |limit| amount_text(limit, units)),
        over: place.over,
        words: plain(&place.words.show(units)),
    }
}

/// A list of places of one line.
pub(super) type Pick = fn(&LineShape) -> &Shown<Vec<StripPlace>>;

/// Most rows of a list by line.
const MOST: usize = 15;

/// The largest places of all lines; of those that overlap, the worst.
pub(super) fn of_lines(dossier: &StripDossier, pick: Pick, units: UnitSystem) -> Vec<PlaceRow> {
    let shown = dossier.lines.iter().filter_map(|line| pick(line).as_ref().ok());
    let mut all: Vec<StripPlace> = shown.flatten().cloned().collect();
    let share = |place: &StripPlace| match place.limit {
        Some(limit) if limit.si > 0.0 => place.size.si / limit.si,
        _ => place.size.si,
    };
    all.sort_by(|a, b| share(b).total_cmp(&share(a)));
    let mut chosen: Vec<StripPlace> = Vec::new();
    for place in all {
        let overlaps = |known: &StripPlace| place.from <= known.to && place.to >= known.from;
        if chosen.len() < MOST && !chosen.iter().any(overlaps) {
            chosen.push(place);
        }
    }
    places(&chosen, units)
}

/// Most lines of the table.
const LINES: usize = 7;

pub(super) fn index_table(dossier: &StripDossier, units: UnitSystem) -> IndexTable {
    let (unit, _) = index_unit(units);
    let known: Vec<(Length, &Vec<_>)> = dossier
        .lines
        .iter()
        .filter_map(|line| Some((line.offset, line.index.as_ref().ok()?)))
        .collect();
    let every = known.len().div_ceil(LINES).max(1);
    let shown: Vec<_> = known.iter().step_by(every).collect();
    let mut stretches: Vec<(Length, Length)> = Vec::new();
    for segment in known.iter().flat_map(|(_, segments)| segments.iter()) {
        if !stretches.iter().any(|known| (known.0 - segment.from).abs().si() < 50.0) {
            stretches.push((segment.from, segment.to));
        }
    }
    stretches.sort_by(|a, b| a.0.si().total_cmp(&b.0.si()));
    let rows = stretches.iter().map(|(from, to)| {
        let value = |(_, segments): &&(Length, &Vec<hardpan_assess::IndexSegment>)| {
            let same = segments.iter().find(|one| (one.from - *from).abs().si() < 50.0);
            same.map_or_else(|| "–".to_owned(), |one| index_number(one.index.si(), units))
        };
        (stretch_text(*from, *to, units), shown.iter().map(value).collect())
    });
    let mut rows: Vec<(String, Vec<String>)> = rows.collect();
    let whole = |(offset, _): &&(Length, &Vec<hardpan_assess::IndexSegment>)| {
        let line = dossier.lines.iter().find(|line| line.offset == *offset);
        let overall = line.and_then(|line| line.overall_index);
        overall.map_or_else(|| "–".to_owned(), |index| index_number(index.si(), units))
    };
    if !rows.is_empty() {
        rows.push(("whole line".to_owned(), shown.iter().map(whole).collect()));
    }
    let why = dossier.lines.iter().find_map(|line| line.index.as_ref().err());
    let note = match (known.is_empty(), why) {
        (true, None) => "There is no survey.".to_owned(),
        (true, Some(why)) => format!("Not known: {}.", plain(why)),
        (false, Some(why)) => format!("Not known on the other lines: {}.", plain(why)),
        (false, None) if shown.len() < known.len() => {
            format!("{} of {} lines shown.", shown.len(), known.len())
        }
        (false, None) => String::new(),
    };
    IndexTable {
        unit,
        lines: shown.iter().map(|(offset, _)| offset_text(*offset, units)).collect(),
        rows,
        note,
    }
}

/// The worst 100 m in one sentence; none where the index is not known.
pub(super) fn index_sentence(dossier: &StripDossier, units: UnitSystem) -> Option<String> {
    let all = dossier.lines.iter().filter_map(|line| Some((line, line.index.as_ref().ok()?)));
    let segments = all.flat_map(|(line, segments)| segments.iter().map(move |one| (line, one)));
    let (line, worst) =
        segments.reduce(|most, next| if next.1.index > most.1.index { next } else { most })?;
    Some(format!(
        "The roughness index is greatest, {} {}, at {} on the line at offset {}.",
        index_number(worst.index.si(), units),
        index_unit(units).0,
        stretch_text(worst.from, worst.to, units),
        offset_text(line.offset, units)
    ))
}

pub(super) fn spectra(dossier: &StripDossier, units: UnitSystem) -> Vec<SpectrumRow> {
    let row = |line: &LineShape| {
        let spectrum = line.spectrum.as_ref().ok()?;
        Some(SpectrumRow {
            offset: offset_text(line.offset, units),
            class: spectrum.class.to_string(),
            density: format!("{:.0}", spectrum.at_ten_metres.si() * 1e6),
            exponent: format!("{:.1}", (spectrum.exponent * 10.0).round() / 10.0 + 0.0),
            fitted: format!(
                "{} to {}",
                quantity_text(spectrum.fitted.0, units),
                quantity_text(spectrum.fitted.1, units)
            ),
        })
    };
    let all: Vec<SpectrumRow> = dossier.lines.iter().filter_map(row).collect();
    let every = all.len().div_ceil(LINES).max(1);
    all.into_iter().step_by(every).collect()
}

pub(super) fn soundings(dossier: &StripDossier, units: UnitSystem) -> Vec<SoundingRow> {
    dossier.soundings.iter().map(|one| sounding(one, units)).collect()
}

fn sounding(one: &SoundingColumn, units: UnitSystem) -> SoundingRow {
    let (symbol, _) = station_unit(units);
    let row = SoundingRow {
        station: format!("{}\u{a0}{symbol}", station_number(one.station, units)),
        offset: offset_text(one.offset, units),
        date: if one.date.is_empty() { "not stated".to_owned() } else { plain(&one.date) },
        surfacing: "–".to_owned(),
        under: "–".to_owned(),
        weakest: "–".to_owned(),
        depth: "–".to_owned(),
    };
    match &one.strata {
        Ok(strata) => SoundingRow {
            surfacing: strata
                .surfacing
                .map_or_else(|| "not met".to_owned(), |depth| quantity_text(depth, units)),
            under: quantity_text(strata.under, units),
            weakest: quantity_text(strata.weakest, units),
            depth: format!(
                "{}{}",
                quantity_text(strata.known_to, units),
                if strata.refusal { ", refusal" } else { "" }
            ),
            ..row
        },
        Err(why) => SoundingRow { depth: format!("not usable: {}", plain(why)), ..row },
    }
}

/// The checks that wait for a flight, in one sentence; empty when there is none.
pub(super) fn left_to_flights(dossier: &StripDossier) -> String {
    let left: Vec<String> = dossier
        .left_to_flights
        .iter()
        .map(|(code, title)| format!("{code} {}", plain(title)))
        .collect();
    if left.is_empty() {
        String::new()
    } else {
        format!("Left to the assessment of a flight: {}.", left.join(", "))
    }
}
