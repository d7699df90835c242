//! Speeds, distances and figures of the day, as tables.

use crate::assessment::{DayFigures, DistanceRow, Identity, SpeedRow};
use crate::measured::{Known, Measured};
use crate::movements::start_end;
use hardpan_model::{Direction, Finding, Flight, Given};
use hardpan_quantity::{Amount, Quantity};
use hardpan_run::WindComponents;

/// Speeds to bug, landing first.
pub(crate) fn speeds(measured: &Measured) -> Vec<SpeedRow> {
    let mut rows = Vec::new();
    if let Some(Ok(run)) = &measured.landing {
        rows.push(SpeedRow::new("VREF", "landing reference", run.reference.calibrated));
        rows.push(SpeedRow::new("VTHR", "over the threshold", run.threshold_speed));
        rows.push(SpeedRow::new("VTD", "touchdown", run.touchdown_speed));
    }
    if let Some(Ok(run)) = &measured.take_off {
        if let Some(decision) = &run.decision {
            rows.push(SpeedRow::new("V1", "decision", decision.speed));
        }
        rows.push(SpeedRow::new("VR", "rotation", run.speeds.rotation.calibrated));
        rows.push(SpeedRow::new("VLOF", "lift-off", run.speeds.lift_off.calibrated));
        rows.push(SpeedRow::new("V2", "take-off safety", run.speeds.safety.calibrated));
    }
    rows
}

/// Distances needed against those available, from the findings themselves.
pub(crate) fn distances(findings: &[Finding]) -> Vec<DistanceRow> {
    let is_distance = |finding: &&Finding| {
        matches!(finding.code, "F10" | "F15" | "F20" | "F50") && finding.title != "decision speed"
    };
    let row = |finding: &Finding| {
        Some(DistanceRow {
            code: finding.code,
            name: finding.title.clone(),
            needed: finding.value?.get()?,
            available: finding.limit.and_then(|limit| limit.amount.get()),
        })
    };
    let mut rows: Vec<DistanceRow> = findings.iter().filter(is_distance).filter_map(row).collect();
    let beside = mark_what_binds(&mut rows);
    let beside: Vec<DistanceRow> =
        beside.into_iter().rev().map(|index| rows.remove(index)).collect();
    rows.extend(beside.into_iter().rev());
    rows
}

/// Where a chart and the model give the same distance, the longer binds.
/// Returns the places of those that do not bind, rising.
fn mark_what_binds(rows: &mut [DistanceRow]) -> Vec<usize> {
    let charted = |row: &DistanceRow| {
        let figure = row.name.strip_suffix(", approved chart")?;
        Some(figure.trim_end_matches(" required").to_owned())
    };
    let pairs: Vec<(usize, usize)> = rows
        .iter()
        .enumerate()
        .filter_map(|(chart, row)| {
            let figure = charted(row)?;
            let model = rows.iter().position(|other| other.name == figure)?;
            Some((chart, model))
        })
        .collect();
    let mut beside = Vec::new();
    for (chart, model) in pairs {
        let model_binds = rows[model].needed > rows[chart].needed;
        let (binding, other) = if model_binds { (model, chart) } else { (chart, model) };
        rows[binding].name.push_str(" (binds)");
        beside.push(other);
    }
    beside.sort_unstable();
    beside
}

/// Air and wind of the day.
pub(crate) fn day(flight: &Flight, measured: &Measured) -> DayFigures {
    let mut rows: Vec<(String, Amount)> = Vec::new();
    let mut wind = |name: &str, wind: &Option<Known<WindComponents>>| {
        if let Some(Ok(wind)) = wind {
            let (word, along) = if wind.headwind.si() < 0.0 {
                ("tailwind", -wind.headwind)
            } else {
                ("headwind", wind.headwind)
            };
            rows.push((format!("{word}, {name}"), along.into()));
            rows.push((format!("crosswind, {name}"), wind.crosswind.into()));
        }
    };
    wind("landing", &measured.landing_wind);
    wind("take-off", &measured.take_off_wind);
    if let Some(temperature) = &flight.day.temperature {
        rows.push(("outside temperature".to_owned(), temperature.value.into()));
    }
    if let Some(pressure) = &flight.day.sea_level_pressure {
        rows.push(("altimeter setting".to_owned(), Amount::air_pressure(pressure.value)));
    }
    if let Ok(air) = &measured.air {
        rows.push(("pressure altitude".to_owned(), air.pressure_altitude().into()));
        rows.push(("density altitude".to_owned(), air.density_altitude().into()));
    }
    DayFigures { rows }
}

/// Who, where, when.
pub(crate) fn identity(flight: &Flight) -> Identity {
    let text = |given: &Option<Given<String>>| {
        given.as_ref().map_or_else(|| "not stated".to_owned(), |given| given.value.clone())
    };
    let surface = flight.strip.surface.as_ref().map_or("surface not stated", |s| s.value.word());
    let state = flight.day.surface_state.as_ref().map_or("state not stated", |s| s.value.word());
    let date = flight.day.date.as_ref().map(|date| date.value.to_string());
    let time = flight.day.time_utc.as_ref().map(|time| time.value.to_string());
    Identity {
        flight: text(&flight.name),
        aeroplane: text(&flight.aeroplane.name),
        strip: text(&flight.strip.name),
        surface: format!("{surface}, {state}"),
        date: date.unwrap_or_else(|| "date not stated".to_owned()),
        time_utc: time.unwrap_or_else(|| "time not stated".to_owned()),
        validity: "for the time and reports above only; again after rain, thaw, a change of wind \
                   or damage to the strip"
            .to_owned(),
        directions: directions(flight),
    }
}

fn directions(flight: &Flight) -> String {
    let designator = |direction: Option<&Given<Direction>>| {
        let direction = direction?.value;
        let word = match direction {
            Direction::Up => "up the stations",
            Direction::Down => "down the stations",
        };
        let end = start_end(flight, direction).designator.as_ref();
        Some(end.map_or_else(|| word.to_owned(), |given| given.value.clone()))
    };
    let landing = flight.landing.as_ref().map(|plan| ("landing", plan.direction.as_ref()));
    let take_off = flight.take_off.as_ref().map(|plan| ("take-off", plan.direction.as_ref()));
    [landing, take_off]
        .into_iter()
        .flatten()
        .map(|(word, direction)| match designator(direction) {
            Some(designator) => format!("{word} {designator}"),
            None => format!("{word}, direction not stated"),
        })
        .collect::<Vec<_>>()
        .join(", ")
}
