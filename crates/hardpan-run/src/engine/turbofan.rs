//! Turbofan thrust: lapse with speed, and with the pressure and temperature of
//! the day.
//!
//! Speed: the two-spool law of Bartel and Young, smooth at standstill. Day:
//! thrust goes with pressure up to the flat-rated temperature and falls beyond
//! it as in the cycle fits of Mattingly, Heiser and Pratt; engines of a bypass
//! ratio below 4 take the steeper fall of their low-bypass form.

use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::Dimension;

/// Bypass ratio from which the high-bypass fall is used.
const HIGH_BYPASS: f64 = 4.0;
/// Mach number up to which the speed law holds. Source: [BARTEL-YOUNG-2008].
pub(crate) const FASTEST_MACH: f64 = 0.4;

/// Coefficients of M and M² in thrust over static thrust.
pub(crate) fn speed_terms(bypass: f64) -> (f64, f64) {
    let gas_generator = 0.0606 * bypass + 0.6337;
    let linear = -0.377 * (1.0 + bypass) / ((1.0 + 0.82 * bypass) * gas_generator).sqrt();
    (linear, 0.23 + 0.19 * bypass.sqrt())
}

fn speed_lapse(bypass: f64, mach: f64) -> f64 {
    let (linear, square) = speed_terms(bypass);
    1.0 + linear * mach + square * mach * mach
}

/// How fast thrust falls beyond the flat-rated temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Fall {
    /// High-bypass turbofan.
    Gentle,
    /// Low-bypass turbofan and turboprop core.
    Steep,
}

impl Fall {
    pub(crate) fn of_bypass(bypass: f64) -> Self {
        if bypass >= HIGH_BYPASS { Self::Gentle } else { Self::Steep }
    }
}

/// Static thrust or power of the day over that of the standard day at sea
/// level. Pressure above standard is not counted.
pub(crate) fn day_lapse(
    pressure_ratio: f64,
    temperature_ratio: f64,
    rated: f64,
    fall: Fall,
) -> f64 {
    let beyond = (temperature_ratio - rated).max(0.0);
    let lost = match fall {
        Fall::Gentle => 2.0 * beyond,
        Fall::Steep => 3.8 * beyond / temperature_ratio,
    };
    pressure_ratio.min(1.0) * (1.0 - lost).max(0.0)
}

fn gentle_lapse(pressure: f64, temperature: f64, rated: f64) -> f64 {
    day_lapse(pressure / 101_325.0, temperature / 288.15, rated / 288.15, Fall::Gentle)
}

fn steep_lapse(pressure: f64, temperature: f64, rated: f64) -> f64 {
    day_lapse(pressure / 101_325.0, temperature / 288.15, rated / 288.15, Fall::Steep)
}

/// Thrust after bleed: the share lost is taken off as it is.
pub(crate) fn after_bleed(thrust: f64, loss: f64) -> f64 {
    thrust * (1.0 - loss)
}

const MATTINGLY: Source =
    Source::new("MATTINGLY-2002", "eqs 2.53 to 2.56 at standstill", Tier::Secondary);

/// Lapse of turbofan thrust with speed.
pub(crate) static TURBOFAN_SPEED_LAPSE: Formula = Formula {
    name: "turbofan-speed-lapse",
    computes: "take-off thrust of a turbofan over its static thrust, at sea level",
    expression: "1 - 0.377 (1 + B) M / sqrt[(1 + 0.82 B) G0] + (0.23 + 0.19 sqrt B) M^2, \
        G0 = 0.0606 B + 0.6337",
    arguments: &[
        coefficient("bypass_ratio", "B", 0.0, 15.0),
        coefficient("mach", "M", 0.0, FASTEST_MACH),
    ],
    result: Dimension::Coefficient,
    source: Source::new("BARTEL-YOUNG-2008", "two-spool take-off thrust", Tier::Secondary),
    scatter: "a few per cent; fitted mainly to bypass ratios above 4",
    evaluate: kernel!(speed_lapse, bypass, mach),
};

/// Lapse of high-bypass thrust with the air of the day.
pub(crate) static DAY_LAPSE_HIGH_BYPASS: Formula = Formula {
    name: "day-lapse-high-bypass",
    computes: "static thrust of the day over that of the standard day, bypass 4 and above",
    expression: "delta {1 - 3 (theta - TR)/1.5}, the bracket from TR = T_flat/T0; delta at most 1",
    arguments: &[
        argument("pressure", "p", Dimension::AirPressure, 30_000.0, 110_000.0),
        argument("temperature", "T", Dimension::Temperature, 180.0, 340.0),
        argument("flat_rated_to", "T_flat", Dimension::Temperature, 250.0, 340.0),
    ],
    result: Dimension::Coefficient,
    source: MATTINGLY,
    scatter: "a few per cent; a fit to cycle computations",
    evaluate: kernel!(gentle_lapse, pressure, temperature, rated),
};

/// Lapse of low-bypass thrust and turboprop power with the air of the day.
pub(crate) static DAY_LAPSE_LOW_BYPASS: Formula = Formula {
    name: "day-lapse-low-bypass",
    computes: "static thrust or power of the day over that of the standard day, bypass below 4 \
        and turboprops",
    expression: "delta {1 - 3.8 (theta - TR)/theta}, the bracket from TR = T_flat/T0; \
        delta at most 1",
    arguments: &[
        argument("pressure", "p", Dimension::AirPressure, 30_000.0, 110_000.0),
        argument("temperature", "T", Dimension::Temperature, 180.0, 340.0),
        argument("flat_rated_to", "T_flat", Dimension::Temperature, 250.0, 340.0),
    ],
    result: Dimension::Coefficient,
    source: MATTINGLY,
    scatter: "a few per cent; a fit to cycle computations",
    evaluate: kernel!(steep_lapse, pressure, temperature, rated),
};

/// Thrust left after bleed.
pub(crate) static THRUST_AFTER_BLEED: Formula = Formula {
    name: "thrust-after-bleed",
    computes: "thrust left when air is bled from the engine",
    expression: "F (1 - C f), f bled share of the engine's air, C about 2.0",
    arguments: &[
        argument("thrust", "F", Dimension::Force, 0.0, 1e7),
        argument("bled_share", "f", Dimension::Ratio, 0.0, 0.2),
        coefficient("bleed_factor", "C", 0.0, 4.0),
    ],
    result: Dimension::Force,
    source: Source::new("RAYMER-2018", "chapter 13, bleed loss", Tier::Memory),
    scatter: "factor between about 1.5 and 2.5",
    evaluate: kernel!(thrust_after_bleed_share, thrust, share, factor),
};

fn thrust_after_bleed_share(thrust: f64, share: f64, factor: f64) -> f64 {
    after_bleed(thrust, factor * share)
}
