//! Answers of suspensions to bumps, and the drop of one leg.

use super::{argument, derived, kernel};
use crate::ride::strut::{OleoLaw, drop};
use hardpan_model::{Argument, Formula, Source, Tier};

use hardpan_quantity::Dimension::{
    Area, Coefficient, Count, Density, Force, Length, Mass, Pressure, Speed, Volume,
};

const AREA: Argument = argument("piston_area", "Aa", Area, 1e-5, 1.0);
const PRELOAD: Argument = argument("preload_pressure", "pa0", Pressure, 1e3, 5e7);
const VOLUME: Argument = argument("gas_volume", "v0", Volume, 1e-7, 1.0);
const EXPONENT: Argument = argument("polytropic_exponent", "n", Coefficient, 1.0, 1.4);
const REPORT: Source = Source::new("NACA-1154", "equations of motion of one leg", Tier::Memory);

/// `√[(1 + (2ζr)²)/((1 − r²)² + (2ζr)²)]`.
fn transmissibility(ratio: f64, damping: f64) -> f64 {
    let d = 2.0 * damping * ratio;
    let stiff = 1.0 - ratio * ratio;
    ((1.0 + d * d) / (stiff * stiff + d * d)).sqrt()
}

/// `ρ² |sin(π/ρ)|/|1 − ρ²|`, π/2 at ρ = 1.
fn residual_of_bump(ratio: f64) -> f64 {
    if (ratio - 1.0).abs() < 1e-7 {
        return std::f64::consts::FRAC_PI_2;
    }
    ratio * ratio * (std::f64::consts::PI / ratio).sin().abs() / (1.0 - ratio * ratio).abs()
}

/// `ρ_o A_h³/(2 (C_d A_n)²)`.
fn orifice_damping(density: f64, area: f64, orifice: f64, coefficient: f64) -> f64 {
    let opening = coefficient * orifice;
    density * area * area * area / (2.0 * opening * opening)
}

fn oleo(area: f64, preload: f64, volume: f64, polytropic: f64) -> OleoLaw {
    OleoLaw {
        area,
        preload,
        volume,
        polytropic,
        damping: 0.0,
        unsprung: 1.0,
        tyre: 1.0,
        tyre_exponent: 1.0,
        stop: crate::ride::strut::STOP_M,
    }
}

fn gas_force(area: f64, preload: f64, volume: f64, polytropic: f64, stroke: f64) -> f64 {
    oleo(area, preload, volume, polytropic).gas_force(stroke)
}

/// Greatest tyre (1) or strut load (2) or stroke (3) in a drop.
fn drop_peak(values: &[f64]) -> f64 {
    let [area, preload, volume, polytropic, damping, unsprung, tyre, power, upper, speed, which] =
        values
    else {
        return f64::NAN;
    };
    let law = OleoLaw {
        damping: *damping,
        unsprung: *unsprung,
        tyre: *tyre,
        tyre_exponent: *power,
        ..oleo(*area, *preload, *volume, *polytropic)
    };
    let (tyre, strut, stroke) = drop(&law, *upper, *speed);
    match which {
        1.0 => tyre,
        2.0 => strut,
        3.0 => stroke,
        _ => f64::NAN,
    }
}

/// Transmissibility.
pub(crate) static TRANSMISSIBILITY: Formula = Formula {
    name: "suspension-transmissibility",
    computes: "motion of a damped mass on a spring over that of its base",
    expression: "√[(1 + (2ζr)²)/((1 − r²)² + (2ζr)²)]",
    arguments: &[
        argument("frequency_ratio", "r", Coefficient, 0.0, 100.0),
        argument("damping_ratio", "ζ", Coefficient, 0.0, 5.0),
    ],
    result: Coefficient,
    source: derived("damped oscillator on a moving base"),
    scatter: "exact",
    evaluate: kernel!(transmissibility, ratio, damping),
};

/// Residual after a bump.
pub(crate) static RESIDUAL: Formula = Formula {
    name: "bump-residual-amplitude",
    computes: "motion left after an undamped mass has crossed one 1-cosine bump, over its height",
    expression: "ρ² |sin(π/ρ)|/|1 − ρ²|, ρ = V/(f λ)",
    arguments: &[argument("tuning", "ρ", Coefficient, 0.1, 20.0)],
    result: Coefficient,
    source: derived("undamped oscillator over one bump"),
    scatter: "exact",
    evaluate: kernel!(residual_of_bump, ratio),
};

/// Orifice damping.
pub(crate) static ORIFICE: Formula = Formula {
    name: "oleo-orifice-damping",
    computes: "force of the oil for each square of stroke rate, N s²/m²",
    expression: "ρ Ah³/(2 (Cd An)²)",
    arguments: &[
        argument("oil_density", "ρ", Density, 500.0, 1_500.0),
        argument("oil_area", "Ah", Area, 1e-5, 1.0),
        argument("orifice_area", "An", Area, 1e-8, 0.1),
        argument("discharge_coefficient", "Cd", Coefficient, 0.3, 1.2),
    ],
    result: Coefficient,
    source: REPORT,
    scatter: "coefficient from tests",
    evaluate: kernel!(orifice_damping, density, area, orifice, coefficient),
};

/// Gas force.
pub(crate) static GAS_FORCE: Formula = Formula {
    name: "oleo-gas-force",
    computes: "force of the gas in a strut at a stroke",
    expression: "pa0 Aa (v0/(v0 − Aa s))^n",
    arguments: &[AREA, PRELOAD, VOLUME, EXPONENT, argument("stroke", "s", Length, 0.0, 2.0)],
    result: Force,
    source: REPORT,
    scatter: "exponent 1.0 to 1.4",
    evaluate: kernel!(gas_force, area, preload, volume, polytropic, stroke),
};

/// Drop of one leg.
pub(crate) static DROP_PEAK: Formula = Formula {
    name: "oleo-drop-peak",
    computes: "greatest tyre load (1), strut load (2), N, or stroke (3), m, in a drop of one leg, lift equal to weight",
    expression: "upper and lower mass on strut and tyre",
    arguments: &[
        AREA,
        PRELOAD,
        VOLUME,
        EXPONENT,
        argument("damping", "c, N s²/m²", Coefficient, 0.0, 1e9),
        argument("unsprung_mass", "m2", Mass, 0.1, 1e5),
        argument("tyre_constant", "m, N/m^r", Coefficient, 1.0, 1e10),
        argument("tyre_exponent", "r", Coefficient, 0.5, 3.0),
        argument("upper_mass", "m1", Mass, 1.0, 1e6),
        argument("sink_speed", "V", Speed, 0.0, 10.0),
        argument("which", "1 to 3", Count, 1.0, 3.0),
    ],
    result: Coefficient,
    source: REPORT,
    scatter: "equations from memory; the data of the report were not available",
    evaluate: drop_peak,
};
