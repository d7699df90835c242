//! What stands at each station: rows of texts, so that the page only looks up.

use super::axis::Axis;
use super::lying::{depth_at, stones_at};
use crate::desk::Judged;
use hardpan_assess::{Assessment, StrengthSample};
use hardpan_model::{RunPoint, RunTrace};
use hardpan_quantity::{Dimension, Force, Length, Quantity, Ratio, Speed};
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
        let mut rows = vec![
            row("level", "level of the centre line", &stations, |s| {
                level(&sketch.profile, s, axis)
            }),
            row("available", "bearing ratio available", &stations, |s| {
                strength(&sketch.strength, s, |one| {
                    one.available.map(|r| quantity_text(r, axis.units()))
                })
            }),
            row("needed", "bearing ratio needed", &stations, |s| {
                strength(&sketch.strength, s, |one| {
                    one.needed.map(|r| quantity_text(r, axis.units()))
                })
            }),
            row("water", "water", &stations, |s| {
                depth_at(flight.day.standing_water.as_deref(), s, axis)
            }),
            row("loose", "loose material", &stations, |s| {
                depth_at(flight.day.loose_material.as_deref(), s, axis)
            }),
            row("stones", "loose stones", &stations, |s| stones_at(flight, s, axis)),
            row("lying", "marked here", &stations, |s| marks(assessment, s, axis)),
        ];
        for (index, (name, run)) in sketch.runs.iter().take(super::runs::CLASSES.len()).enumerate()
        {
            for (id, words, figure) in FIGURES {
                let text = |s| run_text(run, s, figure, axis);
                rows.push(row(
                    &format!("{id}-{index}"),
                    &format!("{name}, {words}"),
                    &stations,
                    text,
                ));
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

fn row(id: &str, name: &str, stations: &[f64], text: impl Fn(f64) -> String) -> ValueRow {
    ValueRow {
        id: id.to_owned(),
        name: name.to_owned(),
        texts: stations.iter().map(|station| glued(&text(*station))).collect(),
    }
}

fn level(profile: &[(Length, Length)], station: f64, axis: &Axis) -> String {
    let found = profile.windows(2).find_map(|pair| {
        let [(s0, z0), (s1, z1)] = pair else { return None };
        let (s0, s1) = (s0.si(), s1.si());
        let share = (station - s0) / (s1 - s0);
        (s0 <= station && station <= s1 && s1 > s0).then(|| z0.si() + share * (z1.si() - z0.si()))
    });
    let text = |metres: f64| {
        let (symbol, size) = station_unit(axis.units());
        format!("{:.2} {symbol}", metres / size)
    };
    found.map_or_else(|| UNKNOWN.to_owned(), text)
}

fn strength(
    samples: &[StrengthSample],
    station: f64,
    pick: impl Fn(&StrengthSample) -> Option<String>,
) -> String {
    let distance = |one: &&StrengthSample| (one.station.si() - station).abs();
    let nearest = samples.iter().min_by(|a, b| distance(a).total_cmp(&distance(b)));
    nearest.and_then(pick).unwrap_or_else(|| UNKNOWN.to_owned())
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

fn run_text(run: &RunTrace, station: f64, figure: Figure, axis: &Axis) -> String {
    let found = run.points.windows(2).find_map(|pair| {
        let [a, b] = pair else { return None };
        let (from, to) = (a.station.si(), b.station.si());
        let share = (station - from) / (to - from);
        ((0.0..=1.0).contains(&share)).then(|| figure(a, b, share))
    });
    found.map_or_else(
        || NONE.to_owned(),
        |(kind, value)| amount_text(hardpan_quantity::Amount::new(kind, value), axis.units()),
    )
}
