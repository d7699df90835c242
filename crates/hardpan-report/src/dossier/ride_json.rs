//! The ride for a program, in SI units.

use crate::json::finite;
use hardpan_assess::StripDossier;
use hardpan_assess::ride_sheet::{RidePlace, RideSheet, WaveLimit};
use hardpan_quantity::{Length, Quantity};
use schemars::JsonSchema;
use serde::Serialize;

/// The ride of a flight over the strip, or why it is not known.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Ride")]
pub(super) struct RideJson {
    /// Why it is not known; null when it is.
    unproven: Option<String>,
    /// Name of the aeroplane.
    aeroplane: Option<String>,
    /// Greatest acceleration at the cockpit where precise control is needed.
    limit_m_per_s2: Option<f64>,
    /// What survey noise alone would show there.
    noise_m_per_s2: Option<f64>,
    /// Each planned run over each main lane.
    runs: Vec<RidePlaceJson>,
    /// Steady speeds over the worse main lane.
    by_speed: Vec<RidePlaceJson>,
    /// Heights at which 1-cosine waves bring the limit to the cockpit.
    waves: Vec<WaveJson>,
}

/// The worst moment of one ride.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "RidePlace")]
struct RidePlaceJson {
    /// The run in words, or `steady speed`.
    run: &'static str,
    /// The main lane; the nose wheels take the centre.
    lane: &'static str,
    /// Greatest acceleration at the cockpit.
    cockpit_m_per_s2: Option<f64>,
    /// Greatest acceleration at the centre of gravity.
    centre_m_per_s2: Option<f64>,
    /// Greatest load of nose and main gear over that of standing still.
    load_factors: [Option<f64>; 2],
    /// Station of the centre of gravity then.
    station_m: Option<f64>,
    /// Ground speed there.
    speed_m_per_s: Option<f64>,
    /// Whether a strut bottomed.
    bottomed: bool,
    /// Whether wheels left the ground.
    left_ground: bool,
}

/// Waves of one length at one speed; null where no height up to 0.3 m brings
/// the limit to the cockpit.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "WaveLimit")]
struct WaveJson {
    /// Length of the wave.
    length_m: Option<f64>,
    /// Ground speed.
    speed_m_per_s: Option<f64>,
    /// Height of a single bump.
    bump_m: Option<f64>,
    /// Depth of a single dip.
    dip_m: Option<f64>,
    /// Height of each of three bumps in a row.
    row_m: Option<f64>,
}

/// The ride of a dossier; none where no flight was given.
pub(super) fn of(dossier: &StripDossier) -> Option<RideJson> {
    Some(match dossier.ride.as_ref()? {
        Ok(sheet) => known(sheet),
        Err(why) => RideJson {
            unproven: Some(why.clone()),
            aeroplane: None,
            limit_m_per_s2: None,
            noise_m_per_s2: None,
            runs: Vec::new(),
            by_speed: Vec::new(),
            waves: Vec::new(),
        },
    })
}

fn known(sheet: &RideSheet) -> RideJson {
    RideJson {
        unproven: None,
        aeroplane: Some(sheet.aeroplane.clone()),
        limit_m_per_s2: finite(sheet.limit.si()),
        noise_m_per_s2: sheet.noise.and_then(|noise| finite(noise.si())),
        runs: sheet.runs.iter().map(place).collect(),
        by_speed: sheet.by_speed.iter().map(place).collect(),
        waves: sheet.waves.iter().map(wave).collect(),
    }
}

fn place(one: &RidePlace) -> RidePlaceJson {
    RidePlaceJson {
        run: one.run,
        lane: one.lane.word(),
        cockpit_m_per_s2: finite(one.cockpit.si()),
        centre_m_per_s2: finite(one.centre.si()),
        load_factors: [finite(one.load_factors.0.si()), finite(one.load_factors.1.si())],
        station_m: finite(one.station.si()),
        speed_m_per_s: finite(one.speed.si()),
        bottomed: one.bottomed,
        left_ground: one.left_ground,
    }
}

fn wave(one: &WaveLimit) -> WaveJson {
    let height = |height: Option<Length>| height.and_then(|height| finite(height.si()));
    WaveJson {
        length_m: finite(one.length.si()),
        speed_m_per_s: finite(one.speed.si()),
        bump_m: height(one.bump),
        dip_m: height(one.dip),
        row_m: height(one.row),
    }
}
