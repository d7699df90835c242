//! Everything that can stop a run from being computed, in one place.

use hardpan_quantity::{Amount, Dimension, Pressure, Quantity};
use std::ops::RangeInclusive;

/// Why there is no run.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A value lies outside what the model covers.
    #[error("{name} is {}, outside {} to {}", show(*value), show(*minimum), show(*maximum))]
    OutOfRange {
        /// What it is.
        name: &'static str,
        /// The value.
        value: Amount,
        /// Least that the model covers.
        minimum: Amount,
        /// Greatest that the model covers.
        maximum: Amount,
    },
    /// Thrust does not overcome the resistance.
    #[error(
        "the aeroplane does not reach {}: at {} from the threshold its speed is {} after {}",
        show(*wanted), show(*station), show(*speed), show(*after)
    )]
    CannotAccelerate {
        /// Ground speed wanted.
        wanted: Amount,
        /// Distance from the threshold where it was given up.
        station: Amount,
        /// Ground speed there.
        speed: Amount,
        /// Time since brake release.
        after: Amount,
    },
    /// The brakes do not stop the aeroplane.
    #[error(
        "the aeroplane does not stop: at {} from the threshold its speed is still {} after {}",
        show(*station), show(*speed), show(*after)
    )]
    CannotStop {
        /// Distance from the threshold where it was given up.
        station: Amount,
        /// Ground speed there.
        speed: Amount,
        /// Time since the start of the run.
        after: Amount,
    },
    /// Thrust does not exceed drag in the air.
    #[error(
        "with {engines} engines running the aeroplane does not climb at {}: gradient {}",
        show(*speed), show(*gradient)
    )]
    CannotClimb {
        /// Engines running.
        engines: u32,
        /// True airspeed.
        speed: Amount,
        /// Climb gradient there, at most zero.
        gradient: Amount,
    },
    /// The ground is described at fewer than two stations.
    #[error("the ground is described at {count} stations; a run needs two or more")]
    TooFewStations {
        /// How many.
        count: usize,
    },
    /// The stations do not rise, or a value there is not finite or negative.
    #[error("ground point {index} at {}: {fault}", show(*station))]
    GroundPoint {
        /// Position, counted from 1.
        index: usize,
        /// Its station.
        station: Amount,
        /// What is wrong with it.
        fault: GroundFault,
    },
    /// Water stands on the ground and the drag of the tyres in it is not known.
    #[error(
        "water stands on the strip, and its drag needs width, diameter and loaded radius of main \
         and nose tyres, with a deflection below half the width"
    )]
    TyresInWater,
    /// No airspeed at which the rudder balances an engine failure.
    #[error(
        "the rudder holds an engine failure at no speed: its side force area times its arm is \
         too little for the thrust, the arm of the engine and the wind from the side"
    )]
    NotHeldByRudder,
    /// A take-off rule that accounts for an engine failure, with one engine.
    #[error("a take-off with engine failure accounted for needs two engines or more; this has one")]
    RuleNeedsTwoEngines,
    /// A landing rule for a take-off or the other way round.
    #[error("the rule chosen for the {movement} is one for the other movement")]
    RuleOfOtherMovement {
        /// Take-off or landing.
        movement: &'static str,
    },
    /// The model was built for the other movement.
    #[error("the aeroplane was prepared for the other movement, not for the {movement}")]
    ModelOfOtherMovement {
        /// Take-off or landing.
        movement: &'static str,
    },
    /// A thrust schedule of more rows than are followed.
    #[error("the thrust schedule has {rows} rows; at most {most} are followed")]
    ScheduleTooLong {
        /// How many.
        rows: usize,
        /// Most that are followed.
        most: usize,
    },
    /// A ground speed of a thrust schedule that does not rise.
    #[error("the thrust schedule names {} after a ground speed that is not lower", show(*speed))]
    ScheduleNotRising {
        /// The ground speed.
        speed: Amount,
    },
    /// An airspeed of reverse thrust that does not rise.
    #[error("the rows of reverse thrust name {} after an airspeed that is not lower", show(*speed))]
    ReverseNotRising {
        /// The airspeed.
        speed: Amount,
    },
    /// Reverse thrust at no airspeed above that by which it is idle.
    #[error("reverse thrust needs two rows or more, one above the airspeed by which it is idle")]
    ReverseWithoutRows,
    /// The computation left the finite numbers.
    #[error("the run has no finite result: {quantity} is not finite")]
    NotFinite {
        /// What became infinite or undefined.
        quantity: &'static str,
    },
}

/// What is wrong with a ground point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum GroundFault {
    /// Its station does not lie above the one before.
    #[error("its station is not above the one before")]
    NotRising,
    /// A value is not finite.
    #[error("a value is not finite")]
    NotFinite,
    /// Rolling or braking coefficient below zero or above two.
    #[error("rolling or braking coefficient is not between 0 and 2")]
    Friction,
    /// The ground is steeper than one in five.
    #[error("the ground to the next point is steeper than 20 %")]
    Steep,
}

fn show(amount: Amount) -> String {
    amount.show(Default::default())
}

impl Error {
    /// The SI value of a quantity within a range.
    pub(crate) fn check<Q: Quantity>(
        name: &'static str,
        value: Q,
        range: RangeInclusive<f64>,
    ) -> Result<f64, Self> {
        Self::check_si(name, Q::DIMENSION, value.si(), range)
    }

    pub(crate) fn check_air_pressure(
        name: &'static str,
        value: Pressure,
        range: RangeInclusive<f64>,
    ) -> Result<f64, Self> {
        Self::check_si(name, Dimension::AirPressure, value.si(), range)
    }

    fn check_si(
        name: &'static str,
        dimension: Dimension,
        si: f64,
        range: RangeInclusive<f64>,
    ) -> Result<f64, Self> {
        if range.contains(&si) {
            return Ok(si);
        }
        Err(Self::OutOfRange {
            name,
            value: Amount::new(dimension, si),
            minimum: Amount::new(dimension, *range.start()),
            maximum: Amount::new(dimension, *range.end()),
        })
    }
}
