//! What stands at each station: rows of texts, so that the page only looks up.

use super::axis::Axis;
use super::lying::{depth_at, stones_at};
use super::pieces::pieces;
use crate::desk::Judged;
use hardpan_assess::{Assessment, StrengthSample};
use hardpan_model::{Patch, RunPoint, RunTrace};
use hardpan_quantity::{BearingRatio, Dimension, Force, Length, Quantity, Ratio, Speed};
use hardpan_report::{amount_text, glued, mark_label, quantity_text, station_unit};
use serde_json::json;

/// Most stations at which the cursor can stand.
const MOST: f64 = 500.0;
/// Steps between them, in metres or feet.
const STEPS: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];
/// What stands where a run does not go.
const NONE: &str = "–";
/// What stands where nothing was measured.
const UNKNOWN: &str = "not known";

/// One row of texts, one for each station.
pub(super) struct ValueRow {
    pub(super) id: String,
    pub(super) name: String,
    texts: Vec<String>,
}

impl ValueRow {
    pub(super) fn at(&self, index: usize) -> &str {
        self.texts.get(index).map_or(NONE, String::as_str)
    }
}

/// Stations at which the cursor can stand, and what stands there.
pub(super) struct Values {
    stations: Vec<f64>,
    labels: Vec<String>,
    shares: Vec<f64>,
    rows: Vec<ValueRow>,
}

/// A figure of a run at a point, as text in the reader's units.
type Figure = fn(&RunPoint, &RunPoint, f64) -> (Dimension, f64);

/// Figures of a run by the beginning of their row's name.
const FIGURES: [(&str, &str, Figure); 5] = [
    ("speed", "ground speed", |a, b, t| {
        between(Speed::DIMENSION, a.ground_speed, b.ground_speed, t)
    }),
    ("thrust", "thrust", |a, b, t| between(Force::DIMENSION, a.thrust, b.thrust, t)),
    ("friction", "drag of the wheels over their load", |a, b, t| {
        let (_, share) = between(Ratio::DIMENSION, a.friction, b.friction, t);
        (Dimension::Coefficient, share)
    }),
    ("load", "load on a main leg", |a, b, t| {
        between(Force::DIMENSION, a.main_leg_load, b.main_leg_load, t)
    }),
    ("height", "height", |a, b, t| between(Length::DIMENSION, a.height, b.height, t)),
];

fn between<Q: Quantity>(kind: Dimension, from: Q, to: Q, share: f64) -> (Dimension, f64) {
    (kind, from.si() + share * (to.si() - from.si()))
}

impl Values {
    pub(super) fn of(judged: &Judged, axis: &Axis) -> Self {
        let (assessment, flight) = (&judged.assessment, &judged.flight);
        let (symbol, size) = station_unit(axis.units());
        let stations = stations(axis.last(), size);
        let label = |station: &f64| format!("{:.0} {symbol}", station / size);
        let sketch = &assessment.sketch;
        let profile: Vec<f64> = sketch.profile.iter().map(|(station, _)| station.si()).collect();
        let profile = pieces(&stations, &profile);
        let near = nearest(&sketch.strength, &stations);
        let patches = |patches: Option<&[Patch]>, s| depth_at(patches, s, axis);
        let mut rows = vec![
            row("level", "level of the centre line", &stations, |at, _| {
                level(&sketch.profile, profile.get(at).copied().flatten(), axis)
            }),
            row("available", "bearing ratio available", &stations, |at, _| {
                strength(near.get(at), |one| one.available, axis)
            }),
            row("needed", "bearing ratio needed", &stations, |at, _| {
                strength(near.get(at), |one| one.needed, axis)
            }),
            row("water", "water", &stations, |_, s| {
                patches(flight.day.standing_water.as_deref(), s)
            }),
            row("loose", "loose material", &stations, |_, s| {
                patches(flight.day.loose_material.as_deref(), s)
            }),
            row("stones", "loose stones", &stations, |_, s| stones_at(flight, s, axis)),
            row("lying", "marked here", &stations, |_, s| marks(assessment, s, axis)),
        ];
        for (index, (name, run)) in sketch.runs.iter().take(super::runs::CLASSES.len()).enumerate()
        {
            let points: Vec<f64> = run.points.iter().map(|point| point.station.si()).collect();
            let points = pieces(&stations, &points);
            for (id, words, figure) in FIGURES {
                let (id, name) = (format!("{id}-{index}"), format!("{name}, {words}"));
                rows.push(row(&id, &name, &stations, |at, _| {
                    run_text(run, points.get(at).copied().flatten(), figure, axis)
                }));
            }
        }
        Self {
            labels: stations.iter().map(label).collect(),
            shares: stations.iter().map(|station| axis.share(*station)).collect(),
            stations,
            rows,
        }
    }

    pub(super) fn rows(&self) -> &[ValueRow] {
        &self.rows
    }

    /// The text of a row at a station.
    pub(super) fn value(&self, id: &str, index: usize) -> &str {
        self.rows.iter().find(|row| row.id == id).map_or(NONE, |row| row.at(index))
    }

    pub(super) fn label(&self, index: usize) -> &str {
        self.labels.get(index).map_or("", String::as_str)
    }

    pub(super) fn last(&self) -> usize {
        self.stations.len().saturating_sub(1)
    }

    /// The station nearest to one in metres.
    pub(super) fn nearest(&self, station: f64) -> usize {
        let distance = |at: &f64| (at - station).abs();
        let nearest = self.stations.iter().enumerate();
        nearest.min_by(|a, b| distance(a.1).total_cmp(&distance(b.1))).map_or(0, |(index, _)| index)
    }

    /// For the script of the page; safe inside a `script` element.
    pub(super) fn json(&self) -> String {
        let short = |values: &[f64], digits: i32| -> Vec<f64> {
            let size = 10_f64.powi(digits);
            values.iter().map(|value| (value * size).round() / size).collect()
        };
        let rows: serde_json::Map<String, serde_json::Value> =
            self.rows.iter().map(|row| (row.id.clone(), json!(row.texts))).collect();
        let value = json!({
            "stations": short(&self.stations, 1), "shares": short(&self.shares, 5),
            "labels": self.labels, "rows": rows,
        });
        value.to_string().replace('<', "\\u003c")
    }
}

/// Round stations in the reader's unit, and the last one.
fn stations(last: f64, size: f64) -> Vec<f64> {
    let step = STEPS.into_iter().find(|step| last / (step * size) <= MOST).unwrap_or(100.0) * size;
    let whole = (last / step).floor().min(4.0 * MOST) as usize;
    let mut stations: Vec<f64> = (0..=whole).map(|index| index as f64 * step).collect();
    if stations.last().is_some_and(|at| last - at > step / 100.0) {
        stations.push(last);
    }
    stations
}

fn row(id: &str, name: &str, stations: &[f64], text: impl Fn(usize, f64) -> String) -> ValueRow {
    let texts = stations.iter().enumerate().map(|(at, station)| glued(&text(at, *station)));
    ValueRow { id: id.to_owned(), name: name.to_owned(), texts: texts.collect() }
}

/// The level on a piece of the profile.
fn level(profile: &[(Length, Length)], piece: Option<(usize, f64)>, axis: &Axis) -> String {
    let found = piece.and_then(|(first, share)| {
        let (from, to) = (profile.get(first)?.1.si(), profile.get(first + 1)?.1.si());
        Some(from + share * (to - from))
    });
    let text = |metres: f64| {
        let (symbol, size) = station_unit(axis.units());
        format!("{:.2} {symbol}", metres / size)
    };
    found.map_or_else(|| UNKNOWN.to_owned(), text)
}

/// The sample nearest to each station.
fn nearest<'a>(samples: &'a [StrengthSample], stations: &[f64]) -> Vec<&'a StrengthSample> {
    let to = |station: f64| {
        let distance = move |one: &StrengthSample| (one.station.si() - station).abs();
        samples.iter().min_by(|a, b| distance(a).total_cmp(&distance(b)))
    };
    stations.iter().filter_map(|station| to(*station)).collect()
}

fn strength(
    near: Option<&&StrengthSample>,
    pick: fn(&StrengthSample) -> Option<BearingRatio>,
    axis: &Axis,
) -> String {
    let found = near.and_then(|one| pick(one));
    found.map_or_else(|| UNKNOWN.to_owned(), |ratio| quantity_text(ratio, axis.units()))
}

fn marks(assessment: &Assessment, station: f64, axis: &Axis) -> String {
    let here = assessment
        .sketch
        .marks
        .iter()
        .filter(|mark| mark.from.si() - 0.5 <= station && station <= mark.to.si() + 0.5);
    let texts: Vec<String> = here.map(|mark| mark_label(mark, axis.units())).collect();
    if texts.is_empty() { "nothing".to_owned() } else { texts.join(", ") }
}

fn run_text(run: &RunTrace, piece: Option<(usize, f64)>, figure: Figure, axis: &Axis) -> String {
    let found = piece.and_then(|(first, share)| {
        Some(figure(run.points.get(first)?, run.points.get(first + 1)?, share))
    });
    found.map_or_else(
        || NONE.to_owned(),
        |(kind, value)| amount_text(hardpan_quantity::Amount::new(kind, value), axis.units()),
    )
}
