//! The nouns of the trade: strip, aeroplane, day, flight, what the ground is
//! like by station, what a run did by station, and what a check found.
//! Values that people give are [`Given`]: they remember file, line and column.
//! Anything may be missing; absence is for the assessment to report, never for
//! a reader to fill. Nothing here computes, reads, draws or knows the time.

mod aeroplane;
mod area;
mod basis;
mod chart;
mod condition;
mod day;
mod equipment;
mod finding;
mod flight;
mod formula;
mod given;
mod obstacle;
mod run_trace;
mod source;
mod strength_test;
mod strip;
mod strip_record;
mod surface_kind;
mod survey_from;
mod uncertainty;

pub use aeroplane::*;
pub use area::{Area, AreaKind, AreaOutline, AxisPoint};
pub use basis::{Basis, BasisInput, EntryRange, FigureBasis, InputFrom, Step};
pub use chart::{Chart, ChartArgument, ChartFigure, ChartWind};
pub use condition::{Condition, GroundPoint, Lane, StrengthLane, StrengthPoint};
pub use day::{Day, Forecast, Patch, StoneSize, Wind};
pub use equipment::{
    ApprovedLimit, Bound, Carrier, ClearancePoint, Equipment, Handling, LowPart, Phase, Zone,
    ZoneKind, ZonePart,
};
pub use finding::{Caveat, Finding, Limit, Mark, Need, Place, Verdict, Weight};
pub use flight::{
    Costs, DamageRecord, Direction, FieldRule, FlapsWhileTaxiing, Flight, Landing, Options,
    OtherBleeds, ReverseUse, TakeOff, TaxiStretch, Technique, ThrustRow, TyresSet,
};
pub use formula::{Argument, Formula, FormulaError};
pub use given::{Given, Origin};
pub use obstacle::{Obstacle, ObstacleTop};
pub use run_trace::{RunEvent, RunEventKind, RunPoint, RunTrace};
pub use source::{Source, Tier};
pub use strength_test::{StrengthFigure, StrengthTest, StrengthTestKind};
pub use strip::{
    AirTemperatures, Cable, Climate, DeclaredDistances, EdgeKind, EdgeLimit, Frost, Hammer,
    LooseStones, MeasuredRut, MonthDay, PublishedStrength, Reading, ReferenceCode, RollingOverRuts,
    Season, SoilClass, Sounding, SoundingRules, Strip, StripEnd, SubgradeCategory, SurfaceFriction,
    Survey, SurveyLine, SurveyPoint, ThawWeakening, TurningPlace,
};
pub use strip_record::{ClosedSpan, StripRecord, StripState, StripTold};
pub use surface_kind::{SurfaceKind, SurfaceState};
pub use survey_from::*;
pub use uncertainty::Uncertainty;
