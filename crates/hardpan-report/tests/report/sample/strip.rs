//! The invented strip on its station axis.

use super::runs;
use hardpan_assess::{Sketch, SketchMark, SketchMarkKind, StrengthSample};
use hardpan_quantity::{Amount, Length, bearing_percent, metres, millimetres};

pub(super) fn mark(
    kind: SketchMarkKind,
    from: f64,
    to: f64,
    label: &str,
    amount: Option<Amount>,
    over: bool,
) -> SketchMark {
    SketchMark { kind, from: metres(from), to: metres(to), label: label.to_owned(), amount, over }
}

pub(super) fn sketch() -> Sketch {
    Sketch {
        length: Some(metres(1980.0)),
        width: Some(metres(30.0)),
        designators: ("07".to_owned(), "25".to_owned()),
        profile: (0..=66).map(|n| elevation(f64::from(n) * 30.0)).collect(),
        strength: (0..=66).map(|n| strength(f64::from(n) * 30.0)).collect(),
        marks: vec![
            mark(
                SketchMarkKind::Soft,
                600.0,
                690.0,
                "soft",
                Some(bearing_percent(9.1).into()),
                true,
            ),
            mark(SketchMarkKind::Bump, 910.0, 910.0, "bump", Some(millimetres(46.0).into()), false),
            mark(
                SketchMarkKind::Water,
                1180.0,
                1200.0,
                "pond",
                Some(millimetres(4.0).into()),
                false,
            ),
            mark(SketchMarkKind::Loose, 1310.0, 1370.0, "loose gravel", None, true),
            mark(SketchMarkKind::Rut, 1640.0, 1670.0, "rut", Some(millimetres(31.0).into()), false),
        ],
        runs: vec![
            ("landing".to_owned(), runs::landing()),
            ("take-off".to_owned(), runs::take_off()),
            ("rejected take-off".to_owned(), runs::rejected()),
        ],
    }
}

fn elevation(station: f64) -> (Length, Length) {
    let hill = (-((station - 910.0) / 25.0).powi(2)).exp() * 0.18;
    (metres(station), metres(412.0 + 0.003 * station + 1.6 * (station / 400.0).sin() + hill))
}

fn strength(station: f64) -> StrengthSample {
    let soft = (-((station - 645.0) / 55.0).powi(2)).exp();
    let available = 19.0 - 10.4 * soft + 1.5 * (station / 170.0).sin();
    let needed = 8.8 + 1.2 * (station - 990.0).abs() / 990.0;
    StrengthSample {
        station: metres(station),
        available: Some(bearing_percent(available)),
        needed: Some(bearing_percent(needed)),
        utilisation: Some(needed / available),
    }
}
