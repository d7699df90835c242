//! Calibrated, true and equivalent airspeed, and Mach number.
//!
//! Subsonic pitot relation; at strip speeds the compressible form differs from
//! the incompressible one by up to half a knot.

use crate::Air;
use crate::air::atmosphere::{
    SEA_LEVEL_PRESSURE_PA, SEA_LEVEL_TEMPERATURE_K, air_density, speed_of_sound,
};
use crate::entry::{argument, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Dimension, Quantity, Speed};

const PITOT: Source = Source::new("PITOT-SLIDES", "impact pressure, subsonic", Tier::Secondary);

fn impact_ratio(mach: f64) -> f64 {
    (1.0 + 0.2 * mach * mach).powf(3.5) - 1.0
}

fn mach_from_impact_ratio(ratio: f64) -> f64 {
    (5.0 * ((ratio + 1.0).powf(2.0 / 7.0) - 1.0)).max(0.0).sqrt()
}

fn mach_from_calibrated(calibrated: f64, pressure: f64) -> f64 {
    let impact =
        SEA_LEVEL_PRESSURE_PA * impact_ratio(calibrated / speed_of_sound(SEA_LEVEL_TEMPERATURE_K));
    mach_from_impact_ratio(impact / pressure)
}

fn true_from_calibrated(calibrated: f64, pressure: f64, temperature: f64) -> f64 {
    mach_from_calibrated(calibrated, pressure) * speed_of_sound(temperature)
}

fn equivalent_from_calibrated(calibrated: f64, pressure: f64) -> f64 {
    // Equivalent airspeed does not depend on temperature, so any will do.
    let temperature = SEA_LEVEL_TEMPERATURE_K;
    let ratio = air_density(pressure, temperature) / crate::air::atmosphere::SEA_LEVEL_DENSITY;
    true_from_calibrated(calibrated, pressure, temperature) * ratio.sqrt()
}

fn calibrated_from_true(true_speed: f64, pressure: f64, temperature: f64) -> f64 {
    let impact = pressure * impact_ratio(true_speed / speed_of_sound(temperature));
    speed_of_sound(SEA_LEVEL_TEMPERATURE_K) * mach_from_impact_ratio(impact / SEA_LEVEL_PRESSURE_PA)
}

impl Air {
    /// True airspeed from calibrated airspeed.
    #[must_use]
    pub fn true_airspeed(&self, calibrated: Speed) -> Speed {
        Speed::from_si(self.true_si(calibrated.si()))
    }

    /// Calibrated airspeed from true airspeed.
    #[must_use]
    pub fn calibrated_airspeed(&self, true_airspeed: Speed) -> Speed {
        Speed::from_si(self.calibrated_si(true_airspeed.si()))
    }

    pub(crate) fn true_si(&self, calibrated: f64) -> f64 {
        true_from_calibrated(calibrated, self.pressure_pa, self.temperature_k)
    }

    pub(crate) fn calibrated_si(&self, true_airspeed: f64) -> f64 {
        calibrated_from_true(true_airspeed, self.pressure_pa, self.temperature_k)
    }
}

const CALIBRATED: Argument = argument("calibrated", "CAS", Dimension::Speed, 0.0, 330.0);
const PRESSURE: Argument = argument("pressure", "p", Dimension::AirPressure, 22_700.0, 110_000.0);
const TEMPERATURE: Argument = argument("temperature", "T", Dimension::Temperature, 180.0, 340.0);

/// Mach number from calibrated airspeed.
pub(crate) static MACH_FROM_CALIBRATED: Formula = Formula {
    name: "mach-from-calibrated",
    computes: "Mach number from calibrated airspeed",
    expression: "qc = p0 [(1 + 0.2 (CAS/a0)^2)^3.5 - 1]; M = sqrt{5 [(qc/p + 1)^(2/7) - 1]}",
    arguments: &[CALIBRATED, PRESSURE],
    result: Dimension::Coefficient,
    source: PITOT,
    scatter: "none: a definition",
    evaluate: kernel!(mach_from_calibrated, cas, p),
};

/// True airspeed from calibrated airspeed.
pub(crate) static TRUE_FROM_CALIBRATED: Formula = Formula {
    name: "true-from-calibrated",
    computes: "true airspeed from calibrated airspeed",
    expression: "TAS = a sqrt{5 [(q/p + 1)^(2/7) - 1]}, q = p0 [(1 + 0.2 (CAS/a0)^2)^3.5 - 1], a = sqrt(1.4 R T); p0 1013.25 hPa, a0 340.294 m/s, R 287.053 J/(kg K)",
    arguments: &[CALIBRATED, PRESSURE, TEMPERATURE],
    result: Dimension::Speed,
    source: PITOT,
    scatter: "none: a definition",
    evaluate: kernel!(true_from_calibrated, cas, p, t),
};

/// Equivalent airspeed from calibrated airspeed.
pub(crate) static EQUIVALENT_FROM_CALIBRATED: Formula = Formula {
    name: "equivalent-from-calibrated",
    computes: "equivalent airspeed from calibrated airspeed",
    expression: "EAS = TAS sqrt(sigma)",
    arguments: &[CALIBRATED, PRESSURE],
    result: Dimension::Speed,
    source: PITOT,
    scatter: "none: a definition",
    evaluate: kernel!(equivalent_from_calibrated, cas, p),
};

/// Calibrated airspeed from true airspeed.
pub(crate) static CALIBRATED_FROM_TRUE: Formula = Formula {
    name: "calibrated-from-true",
    computes: "calibrated airspeed from true airspeed",
    expression: "CAS = a0 sqrt{5 [(q/p0 + 1)^(2/7) - 1]}, q = p [(1 + 0.2 (TAS/a)^2)^3.5 - 1], a = sqrt(1.4 R T); p0 1013.25 hPa, a0 340.294 m/s, R 287.053 J/(kg K)",
    arguments: &[
        argument("true_airspeed", "TAS", Dimension::Speed, 0.0, 330.0),
        PRESSURE,
        TEMPERATURE,
    ],
    result: Dimension::Speed,
    source: PITOT,
    scatter: "none: a definition",
    evaluate: kernel!(calibrated_from_true, tas, p, t),
};
