//! The strip: axis, declared distances, surface, survey and soundings.
//!
//! Station counts along the axis from the reference threshold (the first end
//! of the file); offset is positive to the right when looking up the stations.

mod measured_rut;
mod reference_code;
mod season;
mod sounding_rules;

pub use measured_rut::MeasuredRut;
pub use reference_code::ReferenceCode;
pub use season::{AirTemperatures, Climate, Frost, MonthDay, Season, ThawWeakening};
pub use sounding_rules::SoundingRules;

use crate::{
    Area, Given, Obstacle, StoneSize, StrengthTest, SurfaceKind, SurfaceState, SurveyFrom,
};
use hardpan_quantity::{Angle, Force, Length, Pressure, Ratio, Speed};
use jiff::civil::Date;
use std::sync::Arc;

/// One strip as its files describe it. Anything may be missing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Strip {
    /// Name.
    pub name: Option<Given<String>>,
    /// Elevation of the reference threshold over mean sea level.
    pub elevation: Option<Given<Length>>,
    /// Length between the ends of the running surface.
    pub length: Option<Given<Length>>,
    /// Width of the running surface.
    pub width: Option<Given<Length>>,
    /// Reference code that it is laid out for.
    pub reference_code: Option<Given<ReferenceCode>>,
    /// True bearing of the axis, looking up the stations.
    pub bearing: Option<Given<Angle>>,
    /// Lights of the strip, and the approval for movements in the dark there, in words.
    pub night: Option<Given<String>>,
    /// Material of the running surface.
    pub surface: Option<Given<SurfaceKind>>,
    /// Thickness of the surfacing as built; soundings show what is there now.
    pub surfacing_thickness: Option<Given<Length>>,
    /// The end at station 0, used when moving up the stations.
    pub low_end: StripEnd,
    /// The end at the last station, used when moving down the stations.
    pub high_end: StripEnd,
    /// Levelled survey.
    pub survey: Option<Survey>,
    /// What the levels were made from, where the survey is no table of levels.
    pub survey_from: Option<SurveyFrom>,
    /// Penetrometer tests, in the order of the file.
    pub soundings: Vec<Sounding>,
    /// State of the running surface while the soundings were made.
    pub soundings_state: Option<Given<SurfaceState>>,
    /// Rules for the soundings.
    pub sounding_rules: SoundingRules,
    /// Other strength tests, in the order of the file.
    pub strength_tests: Vec<StrengthTest>,
    /// Ruts as they were measured, in the order of the file.
    pub ruts: Vec<MeasuredRut>,
    /// Seasons with the strength that the ground then has.
    pub seasons: Vec<Season>,
    /// Temperatures of the year and the ground that freezes in them.
    pub frost: Option<Frost>,
    /// Temperatures and daylight of the year.
    pub climate: Option<Climate>,
    /// Friction that the user states, with its source.
    pub friction: Vec<SurfaceFriction>,
    /// Distance beyond which a sounding says nothing of the ground.
    pub sounding_reach: Option<Given<Length>>,
    /// Standard deviation of the wheels across their lane, from pass to pass.
    pub wheel_wander: Option<Given<Length>>,
    /// Places where aeroplanes turn.
    pub turning: Vec<TurningPlace>,
    /// Strength number that the aerodrome publishes.
    pub strength: PublishedStrength,
    /// Obstacles; `Some(vec![])` when they were looked for and none is there.
    pub obstacles: Option<Vec<Obstacle>>,
    /// Areas of the ground that somebody reports.
    pub areas: Vec<Area>,
    /// Size that half of the dust of the surface is finer than.
    pub dust_grain: Option<Given<Length>>,
    /// Arrester cables that lie across.
    pub cables: Vec<Cable>,
    /// Loose stones counted and sized along the strip, for patches of the day
    /// whose stones nobody counted.
    pub loose_stones: Vec<LooseStones>,
    /// Limits of evenness that the operator or the aerodrome sets.
    pub evenness: Vec<EdgeLimit>,
}

/// Loose stones counted on a stretch of the strip.
#[derive(Debug, Clone, PartialEq)]
pub struct LooseStones {
    /// First station.
    pub from: Given<Length>,
    /// Last station.
    pub to: Length,
    /// How many lie on a square metre.
    pub stones_per_square_metre: Option<Given<f64>>,
    /// Diameter of the largest.
    pub largest_stone: Option<Given<Length>>,
    /// By size; empty where nobody sorted them.
    pub sizes: Vec<StoneSize>,
}

/// An arrester cable across the strip.
#[derive(Debug, Clone, PartialEq)]
pub struct Cable {
    /// Where it lies.
    pub station: Given<Length>,
    /// Height of its top over the ground, on its supports.
    pub top: Given<Length>,
    /// Tension.
    pub tension: Option<Given<Force>>,
    /// Mass of a metre of it, kg.
    pub kilograms_per_metre: Option<Given<f64>>,
    /// Deepest rut that the wheels cross there, as measured.
    pub rut: Option<Given<Length>>,
    /// Highest bump of the ground under it, as measured.
    pub bump: Option<Given<Length>>,
}

/// What is laid along the strip to judge its evenness.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgeKind {
    /// An ideal chord; any point under it counts.
    Chord,
    /// An ideal chord; its middle counts.
    MidChord,
    /// A rigid straightedge that rests on the ground; the gap under it counts.
    Straightedge,
}

impl EdgeKind {
    /// All, in the order of the files' page.
    pub const ALL: [Self; 3] = [Self::Chord, Self::MidChord, Self::Straightedge];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Chord => "chord",
            Self::MidChord => "mid-chord",
            Self::Straightedge => "straightedge",
        }
    }
}

/// Greatest bump or rut under an edge of one length, as somebody sets it.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeLimit {
    /// What is laid along the strip.
    pub edge: Given<EdgeKind>,
    /// Its length.
    pub length: Given<Length>,
    /// Greatest height or depth.
    pub limit: Given<Length>,
}

/// A strength number as an aerodrome publishes it: a pavement classification
/// number (PCN) for flexible pavement. Anything may be missing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PublishedStrength {
    /// The number.
    pub number: Option<Given<f64>>,
    /// Category of the ground under the pavement.
    pub subgrade: Option<Given<SubgradeCategory>>,
    /// Greatest tyre pressure allowed.
    pub tyre_pressure_limit: Option<Given<Pressure>>,
}

/// Category of the ground under a flexible pavement, from strong to weak.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SubgradeCategory {
    /// High strength, bearing ratio 15.
    A,
    /// Medium strength, bearing ratio 10.
    B,
    /// Low strength, bearing ratio 6.
    C,
    /// Ultra-low strength, bearing ratio 3.
    D,
}

impl SubgradeCategory {
    /// All, from strong to weak.
    pub const ALL: [Self; 4] = [Self::A, Self::B, Self::C, Self::D];

    /// The letter written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::B => "B",
            Self::C => "C",
            Self::D => "D",
        }
    }
}

/// A stretch of the strip on which aeroplanes turn.
#[derive(Debug, Clone, PartialEq)]
pub struct TurningPlace {
    /// First station.
    pub from: Given<Length>,
    /// Last station.
    pub to: Length,
    /// Radius of the path.
    pub radius: Option<Given<Length>>,
    /// Greatest ground speed of the turn.
    pub speed: Option<Given<Speed>>,
}

/// One end of the strip and the distances declared from it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct StripEnd {
    /// Runway designator, such as `07`.
    pub designator: Option<Given<String>>,
    /// Latitude of the middle of the threshold on WGS 84, north positive.
    pub latitude: Option<Given<Angle>>,
    /// Its longitude, east positive.
    pub longitude: Option<Given<Angle>>,
    /// Declared distances in that direction.
    pub declared: DeclaredDistances,
}

/// Declared distances in one direction.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct DeclaredDistances {
    /// Take-off run available.
    pub take_off_run: Option<Given<Length>>,
    /// Take-off distance available.
    pub take_off_distance: Option<Given<Length>>,
    /// Accelerate-stop distance available.
    pub accelerate_stop: Option<Given<Length>>,
    /// Landing distance available.
    pub landing_distance: Option<Given<Length>>,
}

/// A levelled survey: lines along the strip, each at one offset.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// Its file, as the user named it.
    pub file: Arc<str>,
    /// Day of the survey.
    pub date: Option<Given<Date>>,
    /// Standard deviation of one level, as the surveyor states it.
    pub level_noise: Option<Given<Length>>,
    /// Lines by rising offset, points by rising station.
    pub lines: Vec<SurveyLine>,
}

/// Levels along one offset.
#[derive(Debug, Clone, PartialEq)]
pub struct SurveyLine {
    /// Offset of the line.
    pub offset: Length,
    /// Points by strictly rising station.
    pub points: Vec<SurveyPoint>,
}

/// One level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurveyPoint {
    /// Station.
    pub station: Length,
    /// Elevation over any one datum.
    pub elevation: Length,
    /// Line of the survey file.
    pub line: u32,
}

/// Hammer of a dynamic cone penetrometer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hammer {
    /// 8.0 kg.
    Standard,
    /// 4.6 kg.
    Light,
}

/// Soil classes for which separate penetrometer laws are published.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SoilClass {
    /// Any soil but the next two.
    Other,
    /// CL, lean clay.
    LeanClay,
    /// CH, fat clay.
    FatClay,
}

/// One dynamic cone penetrometer test.
#[derive(Debug, Clone, PartialEq)]
pub struct Sounding {
    /// Station; its origin is the first row of the test.
    pub station: Given<Length>,
    /// Offset.
    pub offset: Length,
    /// Day of the test.
    pub date: Option<Given<Date>>,
    /// Hammer.
    pub hammer: Given<Hammer>,
    /// Soil class of the ground under the surfacing.
    pub soil: Option<Given<SoilClass>>,
    /// Readings by strictly rising depth.
    pub readings: Vec<Reading>,
    /// The cone met refusal (stone or frost) at the last depth.
    pub refusal: bool,
    /// Water content of the ground then, mass of water over dry mass.
    pub moisture: Option<Given<Ratio>>,
}

/// Blows since the last reading, and the depth then reached.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Blows since the reading before.
    pub blows: u32,
    /// Depth below the surface after them.
    pub depth: Length,
    /// Line of the soundings file.
    pub line: u32,
}

/// Friction in one state of the surface, as the user states it.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceFriction {
    /// The state it holds for.
    pub state: SurfaceState,
    /// Rolling resistance coefficient.
    pub rolling: Option<Given<Ratio>>,
    /// The same over ruts.
    pub over_ruts: Option<RollingOverRuts>,
    /// Braking coefficient that the aeroplane reaches, anti-skid included.
    pub braking: Option<Given<Ratio>>,
    /// The stretch it holds for, first and last station; none for the rest of
    /// the strip.
    pub between: Option<(Given<Length>, Length)>,
}

/// Rolling resistance as somebody measured it over ruts.
#[derive(Debug, Clone, PartialEq)]
pub struct RollingOverRuts {
    /// Rolling resistance coefficient.
    pub rolling: Given<Ratio>,
    /// Depth of the ruts, under a straightedge across them.
    pub depth: Given<Length>,
}
