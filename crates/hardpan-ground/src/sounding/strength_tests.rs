//! What does a strength test besides the penetrometer say of a layer?
//!
//! `StrengthTest` → the bearing ratio that it counts with, or why it does not
//! count. A field test of the bearing ratio counts as it reads. A stiffness
//! counts at half of the lower of two published laws turned round, since
//! stiffness and strength lie apart by half to double. A specimen is not the
//! ground in its place, and no law from the airfield cone index was read.

use crate::formulas::{argument, kernel};
use hardpan_model::{
    Argument, Formula, Source, StrengthFigure, StrengthTest, StrengthTestKind, Tier,
};
use hardpan_quantity::{BearingRatio, Dimension, Pressure, Quantity};

/// How far a test that counts may be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Strength measured in place: counts beside the soundings.
    InPlace,
    /// Strength inferred from stiffness: counts where nothing better reaches.
    Stiffness,
}

/// Why a test does not count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotCounted {
    /// A specimen from the laboratory.
    Specimen,
    /// An index for which no law was read.
    NoLaw,
    /// A stiffness outside the range of the laws.
    OutsideLaw,
}

impl NotCounted {
    /// In words.
    #[must_use]
    pub const fn why(self) -> &'static str {
        match self {
            Self::Specimen => "a specimen is not the ground in its place",
            Self::NoLaw => "no published law from this index to a bearing ratio was read",
            Self::OutsideLaw => {
                "outside the stiffness of 10 to 86 MPa for which laws are published"
            }
        }
    }
}

/// The share of the bearing ratio from a stiffness that is counted: the laws
/// hold within half to double.
pub const STIFFNESS_CREDIT: f64 = 0.5;

const MODULUS: Argument =
    argument("modulus", "E", Dimension::Pressure, 10e6, 86.3e6).printed_in("MPa");

/// Heukelom and Klomp, turned round.
pub static CBR_FROM_STIFFNESS_HEUKELOM_1962: Formula = Formula {
    name: "cbr-from-stiffness-heukelom-klomp-1962",
    computes: "bearing ratio from the stiffness of soil",
    expression: "CBR = E / 10; E in MPa",
    arguments: &[MODULUS],
    result: Dimension::BearingRatio,
    source: Source::new(
        "HEUKELOM-KLOMP-1962",
        "dynamic modulus from CBR, turned round",
        Tier::Memory,
    ),
    scatter: "half to double",
    evaluate: kernel!(|modulus| modulus / 10e6),
};

/// TRL, turned round.
pub static CBR_FROM_STIFFNESS_TRL: Formula = Formula {
    name: "cbr-from-stiffness-trl-1984",
    computes: "bearing ratio from the stiffness of soil",
    expression: "CBR = (E / 17.6)^(1/0.64); E in MPa",
    arguments: &[MODULUS],
    result: Dimension::BearingRatio,
    source: Source::new("TRL-LR1132", "stiffness from CBR, turned round", Tier::Memory),
    scatter: "half to double",
    evaluate: kernel!(|modulus| (modulus / 17.6e6).powf(1.0 / 0.64)),
};

/// The lower of two published laws at a stiffness; none outside 10 to 86 MPa,
/// between CBR 1 of the one law and CBR 12 of the other.
#[must_use]
pub fn bearing_from_stiffness(modulus: Pressure) -> Option<BearingRatio> {
    let si = modulus.si();
    let inside = (MODULUS.minimum..=MODULUS.maximum).contains(&si);
    let laws = [&CBR_FROM_STIFFNESS_HEUKELOM_1962, &CBR_FROM_STIFFNESS_TRL];
    let lower = laws.map(|law| (law.evaluate)(&[si])).into_iter().fold(f64::INFINITY, f64::min);
    inside.then(|| BearingRatio::from_si(lower))
}

/// The standing of a test and the bearing ratio that it counts with.
///
/// # Errors
/// [`NotCounted`] with the reason.
pub fn counted(test: &StrengthTest) -> Result<(Standing, BearingRatio), NotCounted> {
    match (test.kind.value, test.figure.value) {
        (StrengthTestKind::FieldBearingRatio, StrengthFigure::BearingRatio(ratio)) => {
            let percent = ratio.percent().min(crate::penetrometer::GREATEST_PERCENT);
            Ok((Standing::InPlace, BearingRatio::from_si(percent)))
        }
        (
            StrengthTestKind::Plate | StrengthTestKind::LightPlate,
            StrengthFigure::Modulus(modulus),
        ) => bearing_from_stiffness(modulus)
            .map(|mean| {
                (Standing::Stiffness, BearingRatio::from_si(STIFFNESS_CREDIT * mean.percent()))
            })
            .ok_or(NotCounted::OutsideLaw),
        (StrengthTestKind::LaboratoryBearingRatio | StrengthTestKind::SoakedBearingRatio, _) => {
            Err(NotCounted::Specimen)
        }
        _ => Err(NotCounted::NoLaw),
    }
}
