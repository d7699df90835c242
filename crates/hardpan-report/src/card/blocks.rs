//! The blocks of figures on the front of the card.

use super::data::Cut;
use crate::Report;
use crate::report::MassBlock;
use serde::Serialize;

/// A number and its unit, set apart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct Figure {
    pub(super) number: String,
    pub(super) unit: String,
}

/// Largest mass of one movement.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct MassData {
    name: String,
    largest: Option<Figure>,
    planned: Option<String>,
    set_by: String,
    next: Vec<String>,
}

/// Tyre pressure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct TyreData {
    set: Option<Figure>,
    range: Option<String>,
    because: String,
}

/// What to watch on the strip.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct WatchData {
    pub(super) places: Vec<WatchPlace>,
    pub(super) more: usize,
}

/// One place to watch.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct WatchPlace {
    pub(super) stretch: Figure,
    pub(super) what: String,
}

/// One speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct SpeedData {
    symbol: &'static str,
    name: &'static str,
    speed: Figure,
}

/// One distance.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct DistanceData {
    name: String,
    needed: String,
    available: Option<String>,
    share: Option<f64>,
}

/// One figure of the day.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct DayData {
    name: String,
    value: String,
    limit: Option<String>,
}

pub(super) fn masses(report: &Report, cut: Cut) -> Vec<MassData> {
    report.masses.iter().map(|block| mass(block, cut)).collect()
}

fn mass(block: &MassBlock, cut: Cut) -> MassData {
    let line = |limit: &crate::report::MassLine| {
        let mass = limit.mass.as_deref().unwrap_or("no mass holds");
        cut.words(&format!("{mass}: {} {}", limit.code, limit.title), 70)
    };
    let set_by = match (block.set_by(), &block.unknown) {
        (Some(limit), _) => cut.words(&format!("set by {} {}", limit.code, limit.title), 80),
        (None, Some(unknown)) => cut.words(&format!("not known: {unknown} lacks data"), 80),
        (None, None) => "nothing sets a limit".to_owned(),
    };
    let known = usize::from(block.set_by().is_some());
    MassData {
        name: block.name.to_owned(),
        largest: block.largest.as_deref().map(|mass| cut.figure(mass)),
        planned: block.planned.clone(),
        set_by,
        next: block.limits.iter().skip(known).take(cut.density.next_limits).map(line).collect(),
    }
}

pub(super) fn tyre(report: &Report, cut: Cut) -> TyreData {
    TyreData {
        set: report.tyre.set.as_deref().map(|pressure| cut.figure(pressure)),
        range: report.tyre.range.clone(),
        because: cut.words(&report.tyre.because, 90),
    }
}

pub(super) fn speeds(report: &Report, cut: Cut) -> Vec<SpeedData> {
    let rows = report.speeds.iter().take(cut.density.speeds);
    rows.map(|row| SpeedData { symbol: row.symbol, name: row.name, speed: cut.figure(&row.speed) })
        .collect()
}

pub(super) fn distances(report: &Report, cut: Cut) -> Vec<DistanceData> {
    let rows = report.distances.iter().take(cut.density.distances);
    rows.map(|row| DistanceData {
        name: cut.words(&row.name, 34),
        needed: row.needed.clone(),
        available: row.available.clone(),
        share: row.share,
    })
    .collect()
}

pub(super) fn day(report: &Report, cut: Cut) -> Vec<DayData> {
    let rows = report.day.iter().take(cut.density.day);
    rows.map(|row| DayData {
        name: cut.words(&row.name, 34),
        value: row.value.clone(),
        limit: row.limit.clone(),
    })
    .collect()
}

/// How far the answer holds, in a few words each.
pub(super) fn turning(report: &Report, cut: Cut) -> Vec<String> {
    let shorts = report.turning.iter().filter_map(|row| row.short.as_deref());
    shorts.take(cut.density.day).map(|short| cut.words(short, 40)).collect()
}
