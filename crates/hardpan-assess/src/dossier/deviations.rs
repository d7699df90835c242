//! The strip from above: bumps and ruts, and water, in bands of survey lines.

use super::{DeviationMap, MapRow, Shown, WaterMap};
use hardpan_model::{Strip, Survey, SurveyLine};
use hardpan_quantity::{Length, Quantity, metres};
use hardpan_surface::{
    DetailRules, EdgeRule, EvennessRules, mid_chord_offsets, natural_spacing, resample,
    water_depths,
};

/// Most rows of a map; lines closer together share one.
const MOST_ROWS: usize = 40;
/// Most columns of a map.
const MOST_COLUMNS: f64 = 240.0;
/// Shortest column, metres.
const LEAST_STEP_M: f64 = 2.5;

/// Bumps and ruts under the chord of 100 ft.
pub(super) fn map(strip: &Strip, rules: &EvennessRules) -> Shown<DeviationMap> {
    let survey = strip.survey.as_ref().ok_or_else(|| "the strip has no survey".to_owned())?;
    let rule = EdgeRule::chord_100_ft();
    let columns = Columns::of(strip, survey).ok_or_else(|| "the survey is empty".to_owned())?;
    let (mut rows, mut why) = (Vec::new(), None);
    for line in by_offset(survey) {
        let cells = match offsets(line, &rule, rules) {
            Ok(offsets) => columns.greatest(offsets.into_iter()),
            Err(reason) => {
                why.get_or_insert(reason);
                columns.empty()
            }
        };
        rows.push((line.offset, cells));
    }
    let known = rows.iter().any(|(_, cells)| cells.iter().any(Option::is_some));
    match why {
        Some(why) if !known => Err(why),
        _ if !known => {
            Err("the survey is too short or too sparse for a chord of 100 ft".to_owned())
        }
        _ => Ok(DeviationMap {
            chord: rule.length,
            limit: rule.limit,
            first: metres(columns.first),
            step: metres(columns.step),
            rows: banded(strip, rows),
        }),
    }
}

/// Depth of water in every hollow that the lines enclose.
pub(super) fn water(strip: &Strip, rules: &DetailRules) -> Shown<WaterMap> {
    let survey = strip.survey.as_ref().ok_or_else(|| "the strip has no survey".to_owned())?;
    let columns = Columns::of(strip, survey).ok_or_else(|| "the survey is empty".to_owned())?;
    let depths = water_depths(survey, rules.pond_step, rules.pond_interval)
        .map_err(|error| error.to_string())?;
    let rows = depths.lines.into_iter().map(|(offset, line)| {
        let deep = depths.stations.iter().zip(line);
        (offset, columns.greatest(deep.filter_map(|(station, depth)| Some((*station, depth?)))))
    });
    Ok(WaterMap {
        first: metres(columns.first),
        step: metres(columns.step),
        rows: banded(strip, rows.collect()),
    })
}

/// Stations cut into columns.
struct Columns {
    first: f64,
    step: f64,
    count: usize,
}

impl Columns {
    fn of(strip: &Strip, survey: &Survey) -> Option<Self> {
        let ends = survey.lines.iter().filter_map(|line| {
            Some((line.points.first()?.station.si(), line.points.last()?.station.si()))
        });
        let (first, last) = ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
        let (first, last) = match &strip.length {
            Some(length) if length.value.si() > 0.0 => (0.0, length.value.si()),
            _ => (first, last),
        };
        let span = last - first;
        if !(span > 0.0 && span.is_finite()) {
            return None;
        }
        let step = (span / MOST_COLUMNS).max(LEAST_STEP_M);
        Some(Self { first, step, count: (span / step).ceil().clamp(1.0, 1e4) as usize })
    }

    fn empty(&self) -> Vec<Option<Length>> {
        vec![None; self.count]
    }

    /// The value of greatest size in each column.
    fn greatest(&self, values: impl Iterator<Item = (Length, Length)>) -> Vec<Option<Length>> {
        let mut cells = self.empty();
        for (station, value) in values {
            let at = ((station.si() - self.first) / self.step).floor();
            let Some(cell) = (at >= 0.0).then(|| cells.get_mut(at as usize)).flatten() else {
                continue;
            };
            *cell = Some(larger(*cell, value));
        }
        cells
    }
}

fn larger(known: Option<Length>, value: Length) -> Length {
    match known {
        Some(known) if known.abs() >= value.abs() => known,
        _ => value,
    }
}

fn by_offset(survey: &Survey) -> Vec<&SurveyLine> {
    let mut lines: Vec<&SurveyLine> = survey.lines.iter().collect();
    lines.sort_by(|a, b| a.offset.si().total_cmp(&b.offset.si()));
    lines
}

fn offsets(
    line: &SurveyLine,
    rule: &EdgeRule,
    rules: &EvennessRules,
) -> Shown<Vec<(Length, Length)>> {
    let told = |error: hardpan_surface::Error| error.to_string();
    let spacing = natural_spacing(line, rules.spacing.max(metres(0.5))).map_err(told)?;
    let profiles = resample(line, spacing, rule.survey_interval).map_err(told)?.profiles;
    Ok(profiles
        .iter()
        .filter_map(|profile| mid_chord_offsets(profile, rule.length).ok())
        .flatten()
        .collect())
}

/// Rows by rising offset as bands that reach half way to their neighbours;
/// where they are too many, neighbours share a band.
fn banded(strip: &Strip, rows: Vec<(Length, Vec<Option<Length>>)>) -> Vec<MapRow> {
    let half = strip.width.as_ref().map(|width| 0.5 * width.value.si());
    let offsets: Vec<f64> = rows.iter().map(|row| row.0.si()).collect();
    let outer = |offset: f64, beside: Option<&f64>| {
        let reach = beside.map_or(1.0, |beside| 0.5 * (offset - beside).abs());
        let edge = offset.abs() + reach;
        half.filter(|half| *half > offset.abs()).map_or(edge, |half| half.min(edge))
    };
    let edge = |at: usize| -> f64 {
        match (at.checked_sub(1).and_then(|left| offsets.get(left)), offsets.get(at)) {
            (Some(left), Some(right)) => 0.5 * (left + right),
            (None, Some(only)) => {
                let reach = outer(*only, offsets.get(1)) - only.abs();
                only - reach
            }
            (Some(only), None) => {
                let reach = outer(*only, offsets.len().checked_sub(2).and_then(|i| offsets.get(i)))
                    - only.abs();
                only + reach
            }
            (None, None) => 0.0,
        }
    };
    let share = rows.len().div_ceil(MOST_ROWS).max(1);
    rows.chunks(share)
        .enumerate()
        .map(|(index, group)| {
            let (from, to) = (index * share, index * share + group.len());
            let count = group.iter().map(|row| row.1.len()).max().unwrap_or(0);
            let cells = (0..count).map(|at| {
                let values = group.iter().filter_map(|row| row.1.get(at).copied().flatten());
                values.fold(None, |known, value| Some(larger(known, value)))
            });
            MapRow { band: (metres(edge(from)), metres(edge(to))), cells: cells.collect() }
        })
        .collect()
}
