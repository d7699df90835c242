//! `hardpan masses`: largest masses of a flight over a range of days.

use super::{assess, reading};
use crate::arguments::Masses;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::{FlapsTried, MassSheet, SheetAxes, mass_sheet};
use hardpan_files::Disk;
use hardpan_model::{SurfaceState, Verdict};
use hardpan_quantity::{Amount, Dimension, Pressure, Quantity, celsius, knots, parse};
use hardpan_report::{
    MassesReport, TextStyle, masses_csv, masses_figure, masses_json, masses_pdf, masses_text,
};

/// Temperatures of the sheet when none are asked for, °C.
const TEMPERATURES: [f64; 6] = [-20.0, -10.0, 0.0, 10.0, 20.0, 30.0];
/// Headwinds of the sheet when none are asked for, kt.
const HEADWINDS: [f64; 4] = [-5.0, 0.0, 10.0, 20.0];
/// Most places that are computed in one sheet.
const MOST: usize = 2000;

/// Compute the sheet of a flight file; the exit code is that of its best place.
pub(crate) fn run(wanted: &Masses) -> Result<u8, Failure> {
    let axes = axes(wanted)?;
    let (flight, identifier) = reading::flight(&Disk::default(), &wanted.flight.to_string_lossy())?;
    let progress = Progress::start("computing the sheet");
    let sheet = mass_sheet(&flight, &axes, |done, every| {
        progress.step(format!("computing the sheet: {done} of {every}"));
    });
    let report = MassesReport::new(&sheet, wanted.show.system(), reading::produced(&identifier));
    let pdf = wanted.sheet.as_ref().map(|path| {
        progress.step("typesetting the sheet");
        let pdf = masses_pdf(&report)
            .map_err(|error| Failure::Typeset { document: "the sheet", what: error.to_string() });
        (path, pdf)
    });
    drop(progress);
    if let Some(path) = &wanted.figure {
        write_whole(path, masses_figure(&report).as_bytes())?;
        screen::note(&format!("figure written: {}\n", path.display()));
    }
    if wanted.csv {
        screen::say(&masses_csv(&report));
    } else if wanted.json {
        screen::say(&masses_json(&report));
    } else {
        let style = TextStyle { width: screen::width(), colour: screen::colour() };
        screen::say(&masses_text(&report, style));
    }
    if let Some((path, pdf)) = pdf {
        write_whole(path, &pdf?)?;
        screen::note(&format!("sheet written: {}\n", path.display()));
    }
    Ok(assess::exit_code(best(&sheet)))
}

/// The best verdict of a place.
fn best(sheet: &MassSheet) -> Verdict {
    let rows = sheet.panels.iter().flat_map(|panel| &panel.rows);
    rows.flatten().map(|cell| cell.verdict).min().unwrap_or(Verdict::Unproven)
}

fn axes(wanted: &Masses) -> Result<SheetAxes, Failure> {
    let mut axes = SheetAxes {
        temperatures: quantities("--temperatures", &wanted.temperatures)?,
        headwinds: quantities("--headwinds", &wanted.headwinds)?,
        pressures: quantities("--pressures", &wanted.pressures)?,
        states: wanted.states.iter().map(|word| state(word)).collect::<Result<_, _>>()?,
        air_pressures: air_pressures(&wanted.air_pressures)?,
        flaps: if wanted.best_flap { FlapsTried::Best } else { FlapsTried::AsPlanned },
    };
    if axes.temperatures.is_empty() {
        axes.temperatures = TEMPERATURES.map(celsius).to_vec();
    }
    if axes.headwinds.is_empty() {
        axes.headwinds = HEADWINDS.map(knots).to_vec();
    }
    let places = axes.temperatures.len() * axes.headwinds.len();
    let places = 2 * places * axes.pressures.len().max(1) * axes.states.len().max(1);
    let places = places * axes.air_pressures.len().max(1);
    if places > MOST {
        let what = format!("the sheet would have {places} places; ask for at most {MOST}");
        return Err(Failure::Argument { what });
    }
    Ok(axes)
}

/// Values in rising order, each once.
fn quantities<Q: Quantity>(option: &str, texts: &[String]) -> Result<Vec<Q>, Failure> {
    let mut values: Vec<Q> = Vec::new();
    for text in texts {
        let value: Q = parse(text)
            .map_err(|error| Failure::Argument { what: format!("{option}: {error}") })?;
        values.push(value);
    }
    values.sort_by(|a, b| a.si().total_cmp(&b.si()));
    values.dedup_by(|a, b| a.si() == b.si());
    Ok(values)
}

/// Air pressures that may be reduced to sea level anywhere.
/// Source: common practice, no source.
const AIR_PRESSURES_PA: std::ops::RangeInclusive<f64> = 87_000.0..=109_000.0;

fn air_pressures(texts: &[String]) -> Result<Vec<Pressure>, Failure> {
    let values: Vec<Pressure> = quantities("--air-pressures", texts)?;
    match values.iter().find(|value| !AIR_PRESSURES_PA.contains(&value.si())) {
        None => Ok(values),
        Some(value) => {
            let read = Amount::new(Dimension::AirPressure, value.si()).told();
            let what = format!(
                "--air-pressures: {read} is not an air pressure at sea level; write one from \
                 870 hPa to 1090 hPa"
            );
            Err(Failure::Argument { what })
        }
    }
}

fn state(word: &str) -> Result<SurfaceState, Failure> {
    let known = SurfaceState::ALL.into_iter().find(|state| state.word() == word.trim());
    known.ok_or_else(|| {
        let words = SurfaceState::ALL.map(SurfaceState::word).join(", ");
        Failure::Argument { what: format!("--states: `{word}` is none of {words}") }
    })
}
