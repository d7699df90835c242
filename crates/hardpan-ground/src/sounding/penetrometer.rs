//! What bearing ratio does a penetration rate stand for?
//!
//! `PenetrationRate` → `BearingRatio` by the laws of ASTM D6951: one for all
//! soils, one for lean clay (CL) below CBR 10, one for fat clay (CH).
//! Not a CBR test: published laws differ by about ±30 % at one rate, so the
//! decision uses [`credited`]. Numbers: `validation/cases/ground/astm-d6951.toml`.

use crate::formulas::{argument, kernel};
use crate::sounding::penetrometer_rivals::{ModelSpread, model_spread};
use hardpan_model::{Formula, Hammer, SoilClass, Source, Tier};
use hardpan_quantity::{BearingRatio, Dimension, PenetrationRate, Quantity};

/// Greatest bearing ratio reported from a penetrometer, per cent.
///
/// Source: [ASTM-D6951] Table 1, first row (from memory).
pub const GREATEST_PERCENT: f64 = 100.0;

/// Divisor from the mean bearing ratio of a law to the one that a decision may
/// rest on, at the least: the spread of the published laws at one rate, about ±30 %.
pub const CREDIT_DIVISOR: f64 = 1.3;

/// Where [`CREDIT_DIVISOR`] comes from.
pub const CREDIT_SOURCE: Source =
    Source::new("", "spread of five published penetrometer laws at one rate", Tier::Judgement);

/// Bearing ratio above which the least of the published laws lies nearer to the
/// law for all soils than [`CREDIT_DIVISOR`]: it parts from it at 2.93.
const FURTHER_APART_BELOW_PERCENT: f64 = 3.0;

/// Rate above which the lean-clay law holds, millimetres per blow: where that
/// law itself passes CBR 10, `1 / (0.017019 √10)`.
const LEAN_CLAY_FROM_MM: f64 = 18.580_7;

const RATE: hardpan_model::Argument =
    argument("penetration_rate", "DCP", Dimension::PenetrationRate, 1e-3, 0.4)
        .printed_in("mm/blow");

/// All soils but lean clay below CBR 10 and fat clay.
pub static CBR_WEBSTER_1992: Formula = Formula {
    name: "cbr-webster-1992",
    computes: "California bearing ratio from penetration rate, all soils",
    expression: "CBR = 292 / DCP^1.12; DCP in mm per blow of the 8 kg hammer",
    arguments: &[RATE],
    result: Dimension::BearingRatio,
    source: Source::new(
        "ASTM-D6951",
        "equation for all soils except CL below CBR 10 and CH",
        Tier::Secondary,
    ),
    scatter: "published laws lie about ±30 % around it at one rate",
    evaluate: kernel!(|rate| cbr_webster_1992(rate)),
};

/// Lean clay (CL) below CBR 10.
pub static CBR_LEAN_CLAY_WEBSTER_1994: Formula = Formula {
    name: "cbr-lean-clay-webster-1994",
    computes: "California bearing ratio from penetration rate, lean clay below CBR 10",
    expression: "CBR = 1 / (0.017019 DCP)^2; DCP in mm per blow of the 8 kg hammer",
    arguments: &[argument(
        "penetration_rate",
        "DCP",
        Dimension::PenetrationRate,
        LEAN_CLAY_FROM_MM * 1e-3,
        0.4,
    )],
    result: Dimension::BearingRatio,
    source: Source::new("ASTM-D6951", "equation for CL with CBR below 10", Tier::Memory),
    scatter: "not published; taken as ±30 % like the law for all soils",
    evaluate: kernel!(|rate| cbr_lean_clay_webster_1994(rate)),
};

/// Fat clay (CH).
pub static CBR_FAT_CLAY_WEBSTER_1994: Formula = Formula {
    name: "cbr-fat-clay-webster-1994",
    computes: "California bearing ratio from penetration rate, fat clay",
    expression: "CBR = 1 / (0.002871 DCP); DCP in mm per blow of the 8 kg hammer",
    arguments: &[RATE],
    result: Dimension::BearingRatio,
    source: Source::new("ASTM-D6951", "equation for CH", Tier::Memory),
    scatter: "not published; taken as ±30 % like the law for all soils",
    evaluate: kernel!(|rate| cbr_fat_clay_webster_1994(rate)),
};

pub(crate) fn cbr_webster_1992(rate_m: f64) -> f64 {
    292.0 / (rate_m * 1e3).powf(1.12)
}

pub(crate) fn cbr_lean_clay_webster_1994(rate_m: f64) -> f64 {
    (0.017_019 * rate_m * 1e3).powi(-2)
}

pub(crate) fn cbr_fat_clay_webster_1994(rate_m: f64) -> f64 {
    1.0 / (0.002_871 * rate_m * 1e3)
}

/// Bearing ratio of ground of a soil class, capped at CBR 100.
///
/// Lean clay takes its own law only at rates above 18.58 mm per blow, where
/// that law is below CBR 10, and the law for all soils otherwise: one switch,
/// by the rate alone. The rate is that of the 8 kg hammer, above zero; a rate
/// that is not gives CBR 0, the answer that can help nobody.
#[must_use]
pub fn bearing_ratio(rate: PenetrationRate, soil: SoilClass) -> BearingRatio {
    let rate_m = rate.si();
    if !(rate_m > 0.0 && rate_m.is_finite()) {
        return BearingRatio::from_si(0.0);
    }
    let percent = match soil {
        SoilClass::LeanClay if rate.millimetres_per_blow() > LEAN_CLAY_FROM_MM => {
            cbr_lean_clay_webster_1994(rate_m)
        }
        SoilClass::FatClay => cbr_fat_clay_webster_1994(rate_m),
        SoilClass::LeanClay | SoilClass::Other => cbr_webster_1992(rate_m),
    };
    BearingRatio::from_si(percent.min(GREATEST_PERCENT))
}

/// The lowest that any soil class gives at this rate: for ground whose class
/// is not stated, and for surfacing over ground of a stated class.
#[must_use]
pub fn lowest_bearing_ratio(rate: PenetrationRate) -> BearingRatio {
    let least = [SoilClass::Other, SoilClass::LeanClay, SoilClass::FatClay]
        .into_iter()
        .map(|soil| bearing_ratio(rate, soil).percent())
        .fold(GREATEST_PERCENT, f64::min);
    BearingRatio::from_si(least)
}

/// The part of a mean bearing ratio that a decision may rest on: the mean
/// divided by [`credit_divisor`].
#[must_use]
pub fn credited(mean: BearingRatio) -> BearingRatio {
    BearingRatio::from_si(mean.percent() / credit_divisor(mean))
}

/// Divisor from a mean bearing ratio to the part of it that a decision may rest
/// on: [`CREDIT_DIVISOR`], or, on ground so weak that the published laws lie
/// further apart, the law for all soils over the least of them at the rate that
/// it gives this bearing ratio at; below CBR 0.77 %, where the laws end, as at
/// 200 mm per blow.
#[must_use]
pub fn credit_divisor(mean: BearingRatio) -> f64 {
    if !(mean.percent() > 0.0 && mean.percent() < FURTHER_APART_BELOW_PERCENT) {
        return CREDIT_DIVISOR;
    }
    let apart = laws_apart(mean)
        .map_or(CREDIT_DIVISOR, |spread| spread.used.percent() / spread.least.percent());
    apart.max(CREDIT_DIVISOR)
}

/// What the published laws say at the rate at which the law for all soils gives a
/// mean bearing ratio; below CBR 0.77 %, where the laws end, at 200 mm per blow.
/// None for stronger ground than all of them cover.
#[must_use]
pub fn laws_apart(mean: BearingRatio) -> Option<ModelSpread> {
    let rate_mm = (292.0 / mean.percent()).powf(1.0 / 1.12);
    let rate = if rate_mm > 200.0 { 0.2 } else { rate_mm * 1e-3 };
    model_spread(PenetrationRate::from_si(rate))
}

/// Mean bearing ratio of which a bearing ratio is the credited part.
#[must_use]
pub fn mean_credited_as(credited_part: BearingRatio) -> BearingRatio {
    let wanted = credited_part.percent();
    let (mut low, mut high) = (CREDIT_DIVISOR * wanted, 4.0 * CREDIT_DIVISOR * wanted);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if credited(BearingRatio::from_si(middle)).percent() < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    BearingRatio::from_si(high)
}

/// Factor from penetration per blow of a hammer to that of the 8 kg hammer.
///
/// Source: [FM-5-430] appendix J: one blow of the 8 kg hammer goes twice as
/// deep as one of the 4.6 kg hammer.
#[must_use]
pub const fn hammer_factor(hammer: Hammer) -> f64 {
    match hammer {
        Hammer::Standard => 1.0,
        Hammer::Light => 2.0,
    }
}
