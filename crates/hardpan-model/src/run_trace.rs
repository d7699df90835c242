//! What a run did by station.

use hardpan_quantity::{Force, Length, Ratio, Speed, Time};

/// One landing, take-off or rejected take-off as it went along the strip.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct RunTrace {
    /// Points in the order of time.
    pub points: Vec<RunPoint>,
    /// Events in the order of time.
    pub events: Vec<RunEvent>,
}

/// The aeroplane at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunPoint {
    /// Station along the strip, whichever way the run goes.
    pub station: Length,
    /// Time since the start of the run.
    pub time: Time,
    /// Ground speed.
    pub ground_speed: Speed,
    /// True airspeed.
    pub airspeed: Speed,
    /// Thrust of all engines.
    pub thrust: Force,
    /// Lift.
    pub lift: Force,
    /// Braking force of the wheels.
    pub braking: Force,
    /// Drag of the wheels on the ground, rolling and braking, over their load; 0 in
    /// the air.
    pub friction: Ratio,
    /// Load on one main leg.
    pub main_leg_load: Force,
    /// Load on the nose leg.
    pub nose_leg_load: Force,
    /// Height of the wheels over the ground.
    pub height: Length,
}

/// Something that happened during a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunEvent {
    /// What.
    pub kind: RunEventKind,
    /// Where.
    pub station: Length,
    /// When, since the start of the run.
    pub time: Time,
    /// Ground speed then.
    pub ground_speed: Speed,
}

/// What may happen during a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RunEventKind {
    /// Brakes released.
    BrakeRelease,
    /// An engine fails.
    EngineFailure,
    /// Decision speed.
    Decision,
    /// Rotation.
    Rotation,
    /// Wheels off the ground.
    LiftOff,
    /// Screen height reached, or crossed on the way down.
    Screen,
    /// Wheels on the ground.
    Touchdown,
    /// Brakes fully on.
    BrakesOn,
    /// Standstill.
    Stop,
}
