//! What holds the aeroplane straight on its wheels: rudder, nose wheel and the
//! grip of the main wheels against an engine that failed and a wind from the side.
//!
//! A static balance: moments about the main wheels, forces across the aeroplane.
//! The wind's force is `½ ρ √(V² + w²) w A`: with no speed that of the wind on an
//! aeroplane at rest, at speed that of the small angle of sideslip. It acts behind
//! the main wheels and so turns the nose into the wind.

use crate::entry::{argument, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::Dimension;

/// Lever arms and areas, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Steering {
    /// Side force of the rudder fully over, over the dynamic pressure, m².
    pub(crate) rudder_area: f64,
    /// Distance of that force behind the main wheels, m.
    pub(crate) rudder_arm: f64,
    /// Distance of the outermost engine from the centre line, m.
    pub(crate) engine_arm: f64,
    /// Side force of the wind over its dynamic pressure, m².
    pub(crate) side_area: f64,
    /// Distance of that force behind the main wheels, m.
    pub(crate) side_behind: f64,
    /// Side force that the nose wheel gives, over its load and the braking
    /// coefficient of the ground; none where that is not stated.
    pub(crate) nose_factor: Option<f64>,
    pub(crate) wheelbase: f64,
}

/// What the wheels carry and how they hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WheelGrip {
    pub(crate) nose_load: f64,
    pub(crate) main_load: f64,
    /// Coefficient across the wheels.
    pub(crate) coefficient: f64,
}

/// The greatest wind from the side that is held at a speed, and by what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct HeldWind {
    pub(crate) speed: f64,
    /// Whether the main wheels slide before rudder and nose wheel are used up.
    pub(crate) by_grip: bool,
}

/// Force of a wind from the side.
fn side_force(density: f64, airspeed: f64, crosswind: f64, area: f64) -> f64 {
    0.5 * density * airspeed.hypot(crosswind) * crosswind * area
}

impl Steering {
    /// Moment to spare at an airspeed with one engine out and the wind from its
    /// side, rudder alone, N m.
    pub(crate) fn spare(&self, density: f64, airspeed: f64, wind: f64, failed: (f64, f64)) -> f64 {
        let (thrust, drag_area) = failed;
        let dynamic = 0.5 * density * airspeed * airspeed;
        let engine = (thrust + dynamic * drag_area) * self.engine_arm;
        let weathercock = side_force(density, airspeed, wind, self.side_area) * self.side_behind;
        dynamic * self.rudder_area * self.rudder_arm - engine - weathercock
    }

    /// Force across the main wheels with one engine out: that of the rudder which
    /// holds the moment, and of the wind from the side that adds to it.
    pub(crate) fn across(&self, density: f64, airspeed: f64, wind: f64, failed: (f64, f64)) -> f64 {
        let (thrust, drag_area) = failed;
        let dynamic = 0.5 * density * airspeed * airspeed;
        let rudder = (thrust + dynamic * drag_area) * self.engine_arm / self.rudder_arm;
        let wind = side_force(density, airspeed, wind, self.side_area);
        rudder + wind * (1.0 - self.side_behind / self.rudder_arm).abs()
    }

    /// The greatest wind from the side that is held with all engines running.
    pub(crate) fn held(&self, density: f64, airspeed: f64, grip: &WheelGrip) -> HeldWind {
        let (behind, arm) = (self.side_behind, self.rudder_arm);
        let nose = self.nose_factor.unwrap_or(0.0) * grip.coefficient * grip.nose_load;
        let rudder = 0.5 * density * airspeed * airspeed * self.rudder_area;
        let by_moment = (rudder * arm + nose * self.wheelbase) / behind;
        let main = grip.coefficient * grip.main_load;
        let rudder_in_part = match 1.0 - behind / arm {
            left if left > 0.0 => main / left,
            _ => f64::INFINITY,
        };
        let by_grip = if rudder_in_part * behind / arm <= rudder {
            rudder_in_part
        } else {
            (main + rudder * (1.0 + arm / self.wheelbase)) / (1.0 + behind / self.wheelbase)
        };
        let force = by_moment.min(by_grip);
        let twice = 2.0 * force / (density * self.side_area);
        let square = airspeed * airspeed;
        let speed = (2.0 * twice * twice / (square + square.hypot(2.0 * twice))).sqrt();
        HeldWind { speed, by_grip: by_grip < by_moment }
    }
}

fn rudder_holds(
    thrust: f64,
    engine_arm: f64,
    density: f64,
    rudder_area: f64,
    rudder_arm: f64,
) -> f64 {
    (2.0 * thrust * engine_arm / (density * rudder_area * rudder_arm)).sqrt()
}

fn nose_holds(force: f64, wheelbase: f64, density: f64, area: f64, behind: f64) -> f64 {
    (2.0 * force * wheelbase / (density * area * behind)).sqrt()
}

const MOMENTS: Source =
    Source::new("TEXTBOOK-PHYSICS", "moments about the main wheels", Tier::Derived);

/// Lowest speed at which the rudder alone holds the thrust of the other side.
pub(crate) static RUDDER_HOLDS_ENGINE: Formula = Formula {
    name: "rudder-holds-engine",
    computes: "true airspeed at which the rudder alone holds an engine failure, in calm air",
    expression: "V = sqrt(2 T y / (rho A_r r))",
    arguments: &[
        argument("thrust", "T", Dimension::Force, 0.0, 1e6),
        argument("engine_arm", "y", Dimension::Length, 0.0, 50.0),
        argument("density", "rho", Dimension::Density, 0.3, 2.0),
        argument("rudder_force_area", "A_r", Dimension::Area, 0.1, 500.0),
        argument("rudder_arm", "r", Dimension::Length, 0.5, 60.0),
    ],
    result: Dimension::Speed,
    source: MOMENTS,
    scatter: "the rule lets the aeroplane swing by 30 ft, which a static balance does not count",
    evaluate: kernel!(rudder_holds, thrust, engine_arm, density, rudder_area, rudder_arm),
};

/// Wind from the side that the nose wheel holds at rest.
pub(crate) static NOSE_WHEEL_HOLDS_WIND: Formula = Formula {
    name: "nose-wheel-holds-wind",
    computes: "wind from the side that the nose wheel alone holds at a standstill",
    expression: "w = sqrt(2 F l / (rho A a))",
    arguments: &[
        argument("nose_side_force", "F", Dimension::Force, 0.0, 1e6),
        argument("wheelbase", "l", Dimension::Length, 1.0, 50.0),
        argument("density", "rho", Dimension::Density, 0.3, 2.0),
        argument("side_force_area", "A", Dimension::Area, 1.0, 1000.0),
        argument("side_force_behind", "a", Dimension::Length, 0.05, 30.0),
    ],
    result: Dimension::Speed,
    source: MOMENTS,
    scatter: "not published; the side force of a wheel on loose ground is",
    evaluate: kernel!(nose_holds, force, wheelbase, density, area, behind),
};
