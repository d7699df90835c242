//! The blocks of the card.

use super::data::Cut;
use crate::Report;
use crate::report::{HandlingLine, MassBlock, PhaseBlock};
use hardpan_assess::CardLineKind;
use hardpan_model::{Verdict, Weight};
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

/// Lines, and how many were left out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct ListData {
    lines: Vec<ListLine>,
    more: usize,
}

/// One line with its sign.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ListLine {
    sign: &'static str,
    text: String,
}

/// One phase.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct PhaseData {
    phase: &'static str,
    lines: Vec<PhaseLine>,
    more: usize,
}

/// One line of a phase.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct PhaseLine {
    kind: &'static str,
    text: String,
    source: String,
}

pub(super) fn masses(report: &Report, cut: Cut) -> Vec<MassData> {
    report.masses.iter().map(|block| mass(block, cut)).collect()
}

fn mass(block: &MassBlock, cut: Cut) -> MassData {
    let line = |limit: &crate::report::MassLine| {
        let mass = limit.mass.as_deref().unwrap_or("no mass holds");
        cut.words(&format!("{mass}: {} {}", limit.code, limit.title), 70)
    };
    let set_by = match block.limits.first() {
        Some(limit) => cut.words(&format!("set by {} {}", limit.code, limit.title), 80),
        None => "nothing sets a limit".to_owned(),
    };
    MassData {
        name: block.name.to_owned(),
        largest: block.largest.as_deref().map(|mass| cut.figure(mass)),
        planned: block.planned.clone(),
        set_by,
        next: block.limits.iter().skip(1).take(cut.density.next_limits).map(line).collect(),
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

/// Conditions first, then what findings ask for beyond them and the lines of
/// the phases, then why the governing one is to be trusted less.
pub(super) fn conditions(report: &Report, cut: Cut) -> ListData {
    let conditions = &report.answer.conditions;
    let mut lines: Vec<(&'static str, &str)> =
        conditions.iter().map(|line| ("!", line.as_str())).collect();
    let in_phases = |code: &str| {
        let mut all = report.phases.iter().flat_map(|block| &block.lines);
        all.any(|line| line.source == code)
    };
    let asked = report
        .findings
        .iter()
        .filter(|row| row.verdict != Verdict::Pass && !in_phases(row.code))
        .filter_map(|row| row.instruction.as_deref());
    let caveats = report.governing().map_or(&[][..], |row| row.caveats.as_slice());
    for text in asked.chain(caveats.iter().map(String::as_str)) {
        if !lines.iter().any(|(_, known)| known.contains(text)) {
            lines.push(("·", text));
        }
    }
    list(&lines, cut.density.conditions, cut)
}

/// What is missing: as the answer says it, else finding by finding.
pub(super) fn missing(report: &Report, cut: Cut) -> ListData {
    let unproven =
        report.assessment.findings.iter().zip(&report.findings).filter(|(finding, _)| {
            finding.verdict == Verdict::Unproven && finding.weight == Weight::Safety
        });
    let rows: Vec<String> =
        unproven.map(|(_, row)| format!("{} {}: {}", row.code, row.title, row.because)).collect();
    let said = report.answer.missing.iter().map(String::as_str);
    let lines: Vec<(&'static str, &str)> =
        said.chain(rows.iter().map(String::as_str)).map(|line| ("?", line)).collect();
    list(&lines, cut.density.missing, cut)
}

fn list(lines: &[(&'static str, &str)], most: usize, cut: Cut) -> ListData {
    let shown = lines.iter().take(most);
    ListData {
        lines: shown.map(|(sign, text)| ListLine { sign, text: cut.line(text) }).collect(),
        more: lines.len().saturating_sub(most),
    }
}

/// The phases in two columns of about the same number of lines.
pub(super) fn phases(report: &Report, cut: Cut) -> Vec<Vec<PhaseData>> {
    let blocks: Vec<PhaseData> = report.phases.iter().map(|block| phase(block, cut)).collect();
    let heights: Vec<usize> = blocks.iter().map(PhaseData::height).collect();
    let sum = |part: Option<&[usize]>| part.unwrap_or_default().iter().sum::<usize>();
    let taller = |at: &usize| sum(heights.get(..*at)).max(sum(heights.get(*at..)));
    let split = (0..=blocks.len()).min_by_key(taller).unwrap_or(0);
    let mut left = blocks;
    let right = left.split_off(split);
    vec![left, right]
}

/// Characters of a phase line that stand on one line of the page, about.
const LINE: usize = 60;

impl PhaseData {
    /// Lines that the phase takes on the page, about.
    fn height(&self) -> usize {
        let of = |line: &PhaseLine| 1 + (line.text.len() + line.source.len()) / LINE;
        1 + usize::from(self.more > 0) + self.lines.iter().map(of).sum::<usize>()
    }
}

fn phase(block: &PhaseBlock, cut: Cut) -> PhaseData {
    let most = cut.density.phase_lines;
    let line = |line: &HandlingLine| PhaseLine {
        kind: match line.kind {
            CardLineKind::Limit => "limit",
            CardLineKind::Computed => "computed",
            CardLineKind::Handling => "handling",
        },
        text: cut.line(&line.text),
        source: if cut.density.sources { cut.words(&line.source, 60) } else { String::new() },
    };
    PhaseData {
        phase: block.phase,
        lines: block.lines.iter().take(most).map(line).collect(),
        more: block.lines.len().saturating_sub(most),
    }
}
