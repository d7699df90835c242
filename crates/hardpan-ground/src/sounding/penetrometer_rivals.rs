//! How far do the published penetrometer laws lie apart at one rate?
//!
//! Four rivals of the law of ASTM D6951, all for a 60° cone and the 8 kg
//! hammer. They serve the spread only; no decision rests on them.
//! Numbers: `validation/cases/ground/penetrometer-rivals.toml`.

use crate::formulas::{argument, kernel};
use crate::sounding::penetrometer::{GREATEST_PERCENT, cbr_webster_1992};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{BearingRatio, Dimension, PenetrationRate, Quantity};

const RATE: Argument =
    argument("penetration_rate", "DN", Dimension::PenetrationRate, 2e-3, 0.2).printed_in("mm/blow");
const SCATTER: &str = "published laws lie about ±30 % around their middle at one rate";

const fn law(
    name: &'static str,
    computes: &'static str,
    expression: &'static str,
    source: Source,
    evaluate: fn(&[f64]) -> f64,
) -> Formula {
    Formula {
        name,
        computes,
        expression,
        arguments: &[RATE],
        result: Dimension::BearingRatio,
        source,
        scatter: SCATTER,
        evaluate,
    }
}

/// TRL law.
pub static CBR_TRL: Formula = law(
    "cbr-trl",
    "California bearing ratio from penetration rate, TRL law",
    "log10 CBR = 2.48 - 1.057 log10 DN; DN in mm per blow",
    Source::new("TRL-ORN8", "penetrometer law as quoted in national road manuals", Tier::Secondary),
    kernel!(|rate| cbr_trl(rate)),
);

/// Kleyn 1975.
pub static CBR_KLEYN_1975: Formula = law(
    "cbr-kleyn-1975",
    "California bearing ratio from penetration rate, Kleyn's law",
    "log10 CBR = 2.62 - 1.27 log10 DN; DN in mm per blow",
    Source::new("KLEYN-1975", "penetrometer law as quoted", Tier::Secondary),
    kernel!(|rate| cbr_kleyn_1975(rate)),
);

/// Livneh 1987.
pub static CBR_LIVNEH_1987: Formula = law(
    "cbr-livneh-1987",
    "California bearing ratio from penetration rate, Livneh's law",
    "log10 CBR = 2.20 - 0.71 (log10 DN)^1.5; DN in mm per blow",
    Source::new("LIVNEH-1987", "penetrometer law as quoted", Tier::Secondary),
    kernel!(|rate| cbr_livneh_1987(rate)),
);

/// Harison 1987.
pub static CBR_HARISON_1987: Formula = law(
    "cbr-harison-1987",
    "California bearing ratio from penetration rate, Harison's law",
    "log10 CBR = 2.81 - 1.32 log10 DN; DN in mm per blow",
    Source::new("HARISON-1987", "penetrometer law as quoted in a road manual", Tier::Secondary),
    kernel!(|rate| cbr_harison_1987(rate)),
);

fn log_rate(rate_m: f64) -> f64 {
    (rate_m * 1e3).log10()
}

fn cbr_trl(rate_m: f64) -> f64 {
    10f64.powf(2.48 - 1.057 * log_rate(rate_m))
}

fn cbr_kleyn_1975(rate_m: f64) -> f64 {
    10f64.powf(2.62 - 1.27 * log_rate(rate_m))
}

fn cbr_livneh_1987(rate_m: f64) -> f64 {
    10f64.powf(2.20 - 0.71 * log_rate(rate_m).max(0.0).powf(1.5))
}

fn cbr_harison_1987(rate_m: f64) -> f64 {
    10f64.powf(2.81 - 1.32 * log_rate(rate_m))
}

/// What five published laws say at one rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModelSpread {
    /// The law that the product uses for all soils.
    pub used: BearingRatio,
    /// Least of the five.
    pub least: BearingRatio,
    /// Greatest of the five.
    pub greatest: BearingRatio,
}

/// The spread of the five published laws for all soils at one rate of the
/// 8 kg hammer, each capped at CBR 100. None outside 2 to 200 mm per blow,
/// where not all of them hold.
#[must_use]
pub fn model_spread(rate: PenetrationRate) -> Option<ModelSpread> {
    let rate_m = rate.si();
    if !(RATE.minimum..=RATE.maximum).contains(&rate_m) {
        return None;
    }
    let laws = [cbr_webster_1992, cbr_trl, cbr_kleyn_1975, cbr_livneh_1987, cbr_harison_1987];
    let values = laws.map(|law| law(rate_m).min(GREATEST_PERCENT));
    Some(ModelSpread {
        used: BearingRatio::from_si(cbr_webster_1992(rate_m).min(GREATEST_PERCENT)),
        least: BearingRatio::from_si(values.into_iter().fold(f64::INFINITY, f64::min)),
        greatest: BearingRatio::from_si(values.into_iter().fold(0.0, f64::max)),
    })
}
