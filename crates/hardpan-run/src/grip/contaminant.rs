//! Drag of standing water or slush on a tyre. For paved runways; mud and wet
//! fines on a strip are not covered by it.

use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;

/// Drag coefficient of a tyre that pushes fluid aside. Source: [AMC-25-1591].
const DISPLACEMENT_COEFFICIENT: f64 = 0.75;

/// Width of the tyre at the surface of the fluid.
fn wetted_width(width: f64, deflection: f64, depth: f64) -> f64 {
    let share = (deflection + depth) / width;
    2.0 * width * (share - share * share).max(0.0).sqrt()
}

fn displacement_drag(width: f64, deflection: f64, depth: f64, density: f64, speed: f64) -> f64 {
    let front = wetted_width(width, deflection, depth) * depth;
    0.5 * density * speed * speed * front * DISPLACEMENT_COEFFICIENT
}

/// Wheels that one multiplies the drag of a single wheel by on legs of two
/// wheels abreast and of bogies. Source: [AMC-25-1591] from memory.
const fn interference(wheels: u32) -> f64 {
    match wheels {
        0 | 1 => 1.0,
        2 | 3 => 2.0,
        _ => 4.0,
    }
}

/// One kind of leg that wades.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WadingLeg {
    /// Legs, each with the drag of so many single wheels.
    wheels: f64,
    width: f64,
    deflection: f64,
}

impl WadingLeg {
    /// From legs, wheels on each, width, diameter and loaded radius; none where
    /// the tyre does not go with the formula.
    pub(crate) fn new(
        (legs, wheels): (u32, u32),
        (width, diameter, loaded_radius): (f64, f64, f64),
    ) -> Option<Self> {
        let deflection = 0.5 * diameter - loaded_radius;
        let is_sound = width > 0.0 && (0.0..0.5 * width).contains(&deflection);
        is_sound.then(|| Self { wheels: f64::from(legs) * interference(wheels), width, deflection })
    }
}

/// What wades: main and nose legs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wading(pub(crate) [WadingLeg; 2]);

impl Wading {
    /// Drag in water of a depth over the square of the ground speed, kg/m. It is
    /// not lowered above hydroplaning speed, where less is likely.
    pub(crate) fn drag(&self, depth: f64) -> f64 {
        let of_leg = |leg: &WadingLeg| {
            // Beyond half the width the tyre gets no wider.
            let wide = depth.min(0.5 * leg.width - leg.deflection);
            let width = wetted_width(leg.width, leg.deflection, wide);
            leg.wheels * 0.5 * WATER_KG_PER_M3 * width * depth * DISPLACEMENT_COEFFICIENT
        };
        self.0.iter().map(of_leg).sum()
    }
}

const WATER_KG_PER_M3: f64 = 1000.0;

const WIDTH: Argument = argument("tyre_width", "W", Dimension::Length, 0.05, 1.5);
const DEFLECTION: Argument = argument("deflection", "dl", Dimension::Length, 0.0, 0.5);
const DEPTH: Argument = argument("depth", "d", Dimension::Length, 0.0, 0.15);
const AMC: Source = Source::new("AMC-25-1591", "displacement drag", Tier::Memory);

/// Width of a tyre at the surface of the fluid.
pub(crate) static TYRE_WETTED_WIDTH: Formula = Formula {
    name: "tyre-wetted-width",
    computes: "width of a tyre at the surface of the fluid",
    expression: "b = 2 W sqrt[(dl + d)/W - ((dl + d)/W)^2]",
    arguments: &[WIDTH, DEFLECTION, DEPTH],
    result: Dimension::Length,
    source: AMC,
    scatter: "not stated",
    evaluate: kernel!(wetted_width, width, deflection, depth),
};

/// Displacement drag of one tyre.
pub(crate) static DISPLACEMENT_DRAG: Formula = Formula {
    name: "displacement-drag",
    computes: "drag of one tyre in standing fluid, below hydroplaning speed",
    expression: "D = rho V^2 b d Cd/2, Cd = 0.75",
    arguments: &[
        WIDTH,
        DEFLECTION,
        DEPTH,
        argument("fluid_density", "rho", Dimension::Density, 100.0, 1100.0),
        argument("ground_speed", "V", Dimension::Speed, 0.0, 120.0),
    ],
    result: Dimension::Force,
    source: AMC,
    scatter: "not stated; dual wheels twice, four-wheel bogies four times one wheel",
    evaluate: kernel!(displacement_drag, width, deflection, depth, density, speed),
};

fn wet_contaminated(speed: f64) -> f64 {
    let x = speed / (1852.0 / 3600.0) / 100.0;
    ((-0.0632 * x + 0.2683) * x - 0.4321) * x + 0.3485
}

/// Braking coefficient in water and slush, before 2021.
pub(crate) static FLUID_BRAKING: Formula = Formula {
    name: "fluid-braking",
    computes: "braking coefficient in standing water and slush, below hydroplaning speed",
    expression: "-0.0632 x^3 + 0.2683 x^2 - 0.4321 x + 0.3485, x = V/100 kt",
    arguments: &[argument("ground_speed", "V", Dimension::Speed, 0.0, 103.0)],
    result: Dimension::Coefficient,
    source: Source::new("AMC-25-1591", "as before 2021, braking friction", Tier::Memory),
    scatter: "0.05 above hydroplaning speed; paved runways only",
    evaluate: kernel!(wet_contaminated, speed),
};

fn anti_skid_scaled(fully_modulating: f64, efficiency: f64) -> f64 {
    fully_modulating * efficiency / 0.80
}

/// Contaminated-runway coefficient for another anti-skid system.
pub(crate) static CONTAMINATED_BRAKING_SCALED: Formula = Formula {
    name: "contaminated-braking-scaled",
    computes: "braking coefficient on contaminated pavement for another anti-skid system",
    expression: "mu x 0.625 quasi-modulating, x 0.375 on-off, of the fully modulating value",
    arguments: &[
        coefficient("fully_modulating", "mu", 0.0, 1.0),
        coefficient("efficiency", "eta", 0.1, 1.0),
    ],
    result: Dimension::Coefficient,
    source: Source::new("AC-25-31", "wheel braking coefficients", Tier::Secondary),
    scatter: "paved runways only",
    evaluate: kernel!(anti_skid_scaled, mu, efficiency),
};
