//! A flight: one landing, one take-off or both.

mod options;

pub use options::{Costs, Options, OtherBleeds};

use crate::{Aeroplane, Day, Given, Strip, StripRecord, Uncertainty};
use hardpan_quantity::{Acceleration, Length, Mass, Pressure, Ratio, Speed, Temperature, Time};
use jiff::civil::Date;

/// Which way along the stations.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// From station 0 upwards.
    Up,
    /// From the last station downwards.
    Down,
}

/// One landing, take-off or both, of one aeroplane at one strip on one day.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Flight {
    /// Name of the flight.
    pub name: Option<Given<String>>,
    /// The aeroplane.
    pub aeroplane: Aeroplane,
    /// The strip.
    pub strip: Strip,
    /// The day.
    pub day: Day,
    /// Landing, if one is planned.
    pub landing: Option<Landing>,
    /// Take-off, if one is planned.
    pub take_off: Option<TakeOff>,
    /// Main tyre pressure, if the crew has set it; otherwise one is chosen.
    pub main_tyre_pressure: Option<Given<Pressure>>,
    /// Nose tyre pressure.
    pub nose_tyre_pressure: Option<Given<Pressure>>,
    /// Where and how warm the tyres are set, if that is not at the strip.
    pub tyres_set: Option<TyresSet>,
    /// Passes that the ground must carry before it is next mended.
    pub passes: Option<Given<f64>>,
    /// Stretches over which the aeroplane taxis, at full static load; when not
    /// stated it is taken to taxi everywhere.
    pub taxi: Option<Vec<TaxiStretch>>,
    /// Time on the ground between the landing and the take-off.
    pub turn_round: Option<Given<Time>>,
    /// How the crew handles the aeroplane on the ground.
    pub technique: Technique,
    /// What stones did on the movements so far.
    pub damage_record: Option<DamageRecord>,
    /// What each book that was asked says of the strip; empty where none was asked.
    pub strip_records: Vec<StripRecord>,
    /// What may be changed, and what changes cost.
    pub options: Options,
    /// How sure the inputs are.
    pub uncertainty: Uncertainty,
    /// Oldest that a weather report may be, in hours.
    pub report_hours: Option<Given<f64>>,
    /// Oldest that a sounding or survey may be, in days.
    pub survey_days: Option<Given<f64>>,
}

/// Where the tyres are set before the flight to the strip.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TyresSet {
    /// Temperature of the air there, taken by the tyres.
    pub temperature: Option<Given<Temperature>>,
    /// Elevation of that place over mean sea level.
    pub elevation: Option<Given<Length>>,
}

/// How the crew handles the aeroplane on the ground. Anything may be missing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Technique {
    /// Ground speed while taxiing.
    pub taxi_speed: Option<Given<Speed>>,
    /// How often the brakes take the aeroplane from taxi speed to a stop on the
    /// way to a take-off.
    pub taxi_stops: Option<Given<u32>>,
    /// Share of static take-off thrust while taxiing.
    pub taxi_thrust: Option<Given<Ratio>>,
    /// Where the flaps stand while taxiing.
    pub flaps_while_taxiing: Option<Given<FlapsWhileTaxiing>>,
    /// Ground speed at which reverse thrust is idle again.
    pub reverse_until: Option<Given<Speed>>,
}

/// Where the flaps stand while taxiing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlapsWhileTaxiing {
    /// Raised before and lowered after taxiing.
    Up,
    /// As set for the movement.
    Down,
}

/// Strikes by stones on the movements of a time, as a log has them.
#[derive(Debug, Clone, PartialEq)]
pub struct DamageRecord {
    /// Landings and take-offs.
    pub movements: Given<u32>,
    /// Strikes reported.
    pub strikes: Given<u32>,
    /// First day.
    pub from: Option<Given<Date>>,
    /// Last day.
    pub to: Option<Given<Date>>,
}

/// A stretch of the strip over which the aeroplane taxis.
#[derive(Debug, Clone, PartialEq)]
pub struct TaxiStretch {
    /// First station.
    pub from: Given<Length>,
    /// Last station.
    pub to: Length,
}

/// Reverse thrust that a landing uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReverseUse {
    /// None.
    None,
    /// Reversers open, engines at idle.
    Idle,
    /// More than idle.
    Full,
}

impl ReverseUse {
    /// All, with the words written in files.
    pub const WORDS: [(&'static str, Self); 3] =
        [("none", Self::None), ("idle", Self::Idle), ("full", Self::Full)];
}

/// A planned landing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Landing {
    /// Which way.
    pub direction: Option<Given<Direction>>,
    /// Mass at touchdown.
    pub mass: Option<Given<Mass>>,
    /// Load aboard.
    pub load: Option<Given<Mass>>,
    /// Centre of gravity on the mean chord.
    pub centre_of_gravity: Option<Given<Ratio>>,
    /// Flap setting by name.
    pub flap: Option<Given<String>>,
    /// Regulatory factor by name.
    pub rule: Option<Given<FieldRule>>,
    /// Speed added to the reference speed over the threshold.
    pub speed_addition: Option<Given<Speed>>,
    /// Standard deviation of the place of touchdown, from the operator's record.
    pub touchdown_scatter: Option<Given<Length>>,
    /// The operator's own factor on the landing distance.
    pub factor: Option<Given<f64>>,
    /// Deceleration that automatic brakes are set to; none for brakes fully on.
    pub brake_target: Option<Given<Acceleration>>,
    /// Flap setting of a go-around with one engine out, by name.
    pub go_around_flap: Option<Given<String>>,
    /// How far the threshold of this landing is laid up the strip.
    pub displaced_threshold: Option<Given<Length>>,
    /// Reverse thrust that is to be used.
    pub reverse: Option<Given<ReverseUse>>,
    /// Whether it is to be counted in the distance.
    pub count_reverse: Option<Given<bool>>,
}

/// A planned take-off.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TakeOff {
    /// Which way.
    pub direction: Option<Given<Direction>>,
    /// Mass at brake release.
    pub mass: Option<Given<Mass>>,
    /// Load aboard.
    pub load: Option<Given<Mass>>,
    /// Centre of gravity on the mean chord.
    pub centre_of_gravity: Option<Given<Ratio>>,
    /// Flap setting by name.
    pub flap: Option<Given<String>>,
    /// Regulatory factor by name.
    pub rule: Option<Given<FieldRule>>,
    /// Distance lost by lining up.
    pub line_up: Option<Given<Length>>,
    /// Height over the surface at which the climb with an engine out is levelled.
    pub level_off: Option<Given<Length>>,
    /// Name of the flap setting of the final segment.
    pub final_flap: Option<Given<String>>,
    /// Setting of the bleeds in the operator's words, by which charts are chosen.
    pub bleeds: Option<Given<String>>,
    /// Screen with one engine out on a wet strip, where that is approved.
    pub wet_screen: Option<Given<Length>>,
    /// Whether reverse thrust is to be counted in a rejected take-off.
    pub count_reverse: Option<Given<bool>>,
    /// Decision speed V1, calibrated; none where it is to be chosen.
    pub decision_speed: Option<Given<Speed>>,
    /// What is set for thrust, by the parameter of the aeroplane file; none for
    /// all that the engines give on the day.
    pub setting: Option<Given<f64>>,
    /// Thrust set on the roll by ground speed, in the order of the file; empty
    /// for full thrust from brake release on.
    pub thrust: Vec<ThrustRow>,
}

/// One row of a thrust schedule.
#[derive(Debug, Clone, PartialEq)]
pub struct ThrustRow {
    /// Ground speed.
    pub ground_speed: Given<Speed>,
    /// Share of take-off thrust set there.
    pub share: Given<Ratio>,
}

/// Regulatory factors that an operator may work under, by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FieldRule {
    /// Take-off of a large aeroplane: engine failure accounted for, 115 % of
    /// the all-engine distance, 35 ft screen.
    LargeTakeOff,
    /// Take-off without engine-failure accountability: all-engine distance to
    /// 50 ft times 1.33 (two engines; 1.25 with three, 1.18 with four).
    AllEnginesTakeOff,
    /// Landing within 60 % of the distance available.
    LandingSixtyPercent,
    /// Landing within 70 % of the distance available.
    LandingSeventyPercent,
    /// Landing check before arrival: 15 % on the computed distance.
    LandingFifteenPercent,
}

impl FieldRule {
    /// Those of a take-off, with the words written in files.
    pub const OF_TAKE_OFF: [(&'static str, Self); 2] =
        [("large-take-off", Self::LargeTakeOff), ("all-engines-take-off", Self::AllEnginesTakeOff)];
    /// Those of a landing, likewise.
    pub const OF_LANDING: [(&'static str, Self); 3] = [
        ("landing-60", Self::LandingSixtyPercent),
        ("landing-70", Self::LandingSeventyPercent),
        ("landing-15", Self::LandingFifteenPercent),
    ];
}
