//! Wet smooth pavement: the braking coefficient of the certification rule.
//!
//! For hard wet pavement only. Nothing in the rule supports it on gravel, dirt
//! or grass; it stands here for comparison and for the aeroplane's own figures.

use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{AntiSkid, Formula, Source, Tier};
use hardpan_quantity::Dimension;

const KNOT: f64 = 1852.0 / 3600.0;
const PSI: f64 = 6_894.757_293_168_361;

/// Cubic coefficients by tyre pressure, psi, of the ground speed in 100 kt,
/// highest power first. Source: [CFR-25-109] (c)(1).
const CUBICS: [(f64, [f64; 4]); 4] = [
    (50.0, [-0.0350, 0.306, -0.851, 0.883]),
    (100.0, [-0.0437, 0.320, -0.805, 0.804]),
    (200.0, [-0.0331, 0.252, -0.658, 0.692]),
    (300.0, [-0.0401, 0.263, -0.611, 0.614]),
];
/// Beyond 200 kt the cubics turn upwards; the speed is held there.
const FASTEST_KT: f64 = 200.0;

/// The curve of one tyre pressure, times an efficiency of the anti-skid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WetCurve([f64; 4]);

impl WetCurve {
    /// Curve of a tyre pressure in Pa, 50 to 300 psi.
    pub(crate) fn new(pressure: f64, efficiency: f64) -> Self {
        let psi = (pressure / PSI).clamp(50.0, 300.0);
        let pair = CUBICS.windows(2).find(|pair| match pair {
            [_, (upper, _)] => psi <= *upper,
            _ => false,
        });
        let [(low, below), (high, above)] = match pair {
            Some([a, b]) => [*a, *b],
            _ => [CUBICS[2], CUBICS[3]],
        };
        let share = (psi - low) / (high - low);
        let mut cubic = [0.0; 4];
        for ((term, a), b) in cubic.iter_mut().zip(below).zip(above) {
            *term = efficiency * (a + share * (b - a));
        }
        Self(cubic)
    }

    /// Coefficient at a ground speed in m/s.
    #[inline]
    pub(crate) fn coefficient(self, speed: f64) -> f64 {
        let x = (speed / KNOT).clamp(0.0, FASTEST_KT) / 100.0;
        let [c3, c2, c1, c0] = self.0;
        ((c3 * x + c2) * x + c1) * x + c0
    }
}

/// Share of the tyre's grip that an anti-skid system uses on wet pavement.
///
/// Source: [CFR-25-109] (c)(2): on-off 0.30, quasi-modulating 0.50, fully
/// modulating 0.80.
#[must_use]
pub fn anti_skid_efficiency(kind: AntiSkid) -> f64 {
    match kind {
        AntiSkid::OnOff => 0.30,
        AntiSkid::QuasiModulating => 0.50,
        AntiSkid::FullyModulating => 0.80,
    }
}

fn wet_paved(speed: f64, pressure: f64) -> f64 {
    WetCurve::new(pressure, 1.0).coefficient(speed)
}

fn wet_paved_braking(speed: f64, pressure: f64, efficiency: f64) -> f64 {
    WetCurve::new(pressure, efficiency).coefficient(speed)
}

/// Grip of a tyre on wet smooth pavement.
pub(crate) static WET_PAVED_GRIP: Formula = Formula {
    name: "wet-paved-grip",
    computes: "greatest tyre-to-ground coefficient on wet smooth pavement",
    expression: "c3 x^3 + c2 x^2 + c1 x + c0, x = V/100 kt, linear between 50, 100, 200, 300 psi",
    arguments: &[
        argument("ground_speed", "V", Dimension::Speed, 0.0, FASTEST_KT * KNOT),
        argument("tyre_pressure", "p", Dimension::Pressure, 49.999 * PSI, 300.001 * PSI),
    ],
    result: Dimension::Coefficient,
    source: Source::new("CFR-25-109", "(c)(1)", Tier::Secondary),
    scatter: "very wet pavement may need 30 to 40 % more distance; pavement only",
    evaluate: kernel!(wet_paved, speed, pressure),
};

/// Braking coefficient on wet smooth pavement.
pub(crate) static WET_PAVED_BRAKING: Formula = Formula {
    name: "wet-paved-braking",
    computes: "braking coefficient of the braked wheels on wet smooth pavement",
    expression: "greatest coefficient x anti-skid efficiency (0.30, 0.50 or 0.80)",
    arguments: &[
        argument("ground_speed", "V", Dimension::Speed, 0.0, FASTEST_KT * KNOT),
        argument("tyre_pressure", "p", Dimension::Pressure, 49.999 * PSI, 300.001 * PSI),
        coefficient("efficiency", "eta", 0.0, 1.0),
    ],
    result: Dimension::Coefficient,
    source: Source::new("CFR-25-109", "(c)(1) and (c)(2)", Tier::Secondary),
    scatter: "very wet pavement may need 30 to 40 % more distance; pavement only",
    evaluate: kernel!(wet_paved_braking, speed, pressure, efficiency),
};
