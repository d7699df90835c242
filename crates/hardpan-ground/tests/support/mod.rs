//! Soundings and points stated in code.

use hardpan_model::{
    Given, Hammer, Reading, SoilClass, Sounding, StrengthFigure, StrengthPoint, StrengthTest,
    StrengthTestKind, Strip,
};
use hardpan_quantity::{bearing_percent, megapascals, metres, millimetres};

/// A sounding from blows and depths in millimetres.
pub(crate) fn sounding(station: f64, soil: Option<SoilClass>, rows: &[(u32, f64)]) -> Sounding {
    let readings = rows
        .iter()
        .enumerate()
        .map(|(index, &(blows, depth))| Reading {
            blows,
            depth: millimetres(depth),
            line: index as u32 + 2,
        })
        .collect();
    Sounding {
        station: Given::stated("station", metres(station)),
        offset: metres(0.0),
        date: None,
        hammer: Given::stated("hammer", Hammer::Standard),
        soil: soil.map(|soil| Given::stated("soil", soil)),
        readings,
        refusal: false,
        moisture: None,
    }
}

/// A sounding with one row of five blows at each step, from layers of
/// millimetres per blow and depth of their bottom in millimetres.
#[allow(dead_code)]
pub(crate) fn layered(station: f64, soil: Option<SoilClass>, layers: &[(f64, f64)]) -> Sounding {
    let mut rows = Vec::new();
    let mut depth = 0.0;
    for &(rate, bottom) in layers {
        while depth < bottom - 1e-9 {
            let blows = ((bottom - depth) / rate).round().clamp(1.0, 5.0);
            depth = (depth + blows * rate).min(bottom);
            rows.push((blows as u32, depth));
        }
    }
    sounding(station, soil, &rows)
}

/// A strip that has only soundings.
#[allow(dead_code)]
pub(crate) fn strip(soundings: Vec<Sounding>) -> Strip {
    Strip { soundings, ..Strip::default() }
}

/// A point from tops in millimetres and bearing ratios.
#[allow(dead_code)]
pub(crate) fn point(layers: &[(f64, f64)], known_to: f64) -> StrengthPoint {
    StrengthPoint {
        station: metres(100.0),
        layers: layers
            .iter()
            .map(|&(top, percent)| (millimetres(top), bearing_percent(percent)))
            .collect(),
        known_to: millimetres(known_to),
        nearest: metres(0.0),
        away: Vec::new(),
        soil: SoilClass::Other,
        soundings: vec![0],
        strength_tests: Vec::new(),
    }
}

/// A field test of the bearing ratio, depths in millimetres.
#[allow(dead_code)]
pub(crate) fn field(station: f64, top: f64, bottom: f64, percent: f64) -> StrengthTest {
    StrengthTest {
        kind: Given::stated("test", StrengthTestKind::FieldBearingRatio),
        station: Given::stated("station", metres(station)),
        offset: metres(0.0),
        date: None,
        top: millimetres(top),
        bottom: millimetres(bottom),
        figure: Given::stated("cbr", StrengthFigure::BearingRatio(bearing_percent(percent))),
        moisture: None,
        state: None,
    }
}

/// A light plate over the upper 800 mm, in megapascals.
#[allow(dead_code)]
pub(crate) fn stiffness(station: f64, modulus: f64) -> StrengthTest {
    StrengthTest {
        kind: Given::stated("test", StrengthTestKind::LightPlate),
        figure: Given::stated("modulus", StrengthFigure::Modulus(megapascals(modulus))),
        ..field(station, 0.0, 800.0, 1.0)
    }
}
