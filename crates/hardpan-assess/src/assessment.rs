//! The assessment of a flight: everything that a person or a program is told.

use crate::movements::{ClimbPicture, DecisionPicture};
use crate::stones::stone_picture::StonePicture;
use crate::turning::Turning;
use hardpan_model::{Finding, Phase, RunTrace, Verdict};
use hardpan_quantity::{Amount, BearingRatio, Length, Mass, Pressure, Ratio, Speed};

pub use crate::assess::account::AccountLine;
pub use crate::assess::figure_basis::FigureBasis;
pub use crate::phrase::Phrase;

/// The standing caution on every output.
pub const CAUTION: &str = "Planning aid only. The approved flight manual and its supplements, the \
    operator's procedures, the aerodrome authority, local rules and licensed engineers decide. \
    Absence of data is never a pass.";

/// All findings of a flight, the governing one, and the answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// Who, where, when.
    pub identity: Identity,
    /// The answer in short.
    pub answer: Answer,
    /// All findings, by rule code.
    pub findings: Vec<Finding>,
    /// Largest take-off mass, if a take-off is planned.
    pub take_off_mass: Option<MassAnswer>,
    /// Largest landing mass, if a landing is planned.
    pub landing_mass: Option<MassAnswer>,
    /// Tyre pressure to set.
    pub tyre: TyreAnswer,
    /// Speeds to bug, in the order of use.
    pub speeds: Vec<SpeedRow>,
    /// Distances needed against those available.
    pub distances: Vec<DistanceRow>,
    /// Air and wind figures of the day.
    pub day: DayFigures,
    /// What would help, most effective first.
    pub remedies: Vec<Remedy>,
    /// What on the day would turn the answer.
    pub turning: Turning,
    /// Why the answer is what it is, in the order in which a captain asks.
    pub account: Vec<AccountLine>,
    /// The figures that are no findings, each with what it came from.
    pub figures: Vec<FigureBasis>,
    /// Limits and handling by phase, for the card.
    pub card_lines: Vec<CardLine>,
    /// The strip on its station axis, for pictures.
    pub sketch: Sketch,
    /// The climb with one engine out over the obstacles ahead, for pictures; none
    /// where it is not known.
    pub climb: Option<ClimbPicture>,
    /// What an engine failure comes to by decision speed, for pictures; none
    /// where no take-off accounts for one.
    pub decision: Option<DecisionPicture>,
    /// Stones thrown at the aeroplane, for pictures; none where none are thrown.
    pub stones: Option<StonePicture>,
    /// Handling compared by the stones that it meets; likewise.
    pub handling: Option<HandlingTable>,
}

/// Who, where, when.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Identity {
    /// Name of the flight.
    pub flight: String,
    /// Registration or name of the aeroplane.
    pub aeroplane: String,
    /// Name of the strip.
    pub strip: String,
    /// Surface and its state, such as `gravel, dry`.
    pub surface: String,
    /// Local day, ISO form.
    pub date: String,
    /// Time of the movement, UTC, ISO form.
    pub time_utc: String,
    /// Until when the answer may be used, in words.
    pub validity: String,
    /// Runway designators, such as `landing 07, take-off 25`.
    pub directions: String,
}

/// The answer in short.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The verdict of the whole.
    pub verdict: Verdict,
    /// One sentence: whether, how heavy, at which pressure.
    pub sentence: String,
    /// Index into the findings of the one that governs.
    pub governing: Option<usize>,
    /// The conditions to be kept, one sentence each.
    pub conditions: Vec<String>,
    /// What is missing, one line each; empty unless something is unproven.
    pub missing: Vec<String>,
}

/// Largest mass and what sets it.
#[derive(Debug, Clone, PartialEq)]
pub struct MassAnswer {
    /// Mass planned.
    pub planned: Option<Mass>,
    /// Largest mass at which every safety check holds; none if none was found.
    pub largest: Option<Mass>,
    /// Load that the largest mass leaves over operating mass and the fuel planned,
    /// zero when they leave none; none where one of them is not stated.
    pub load: Option<Mass>,
    /// Limits that are known, by rising mass: the first sets the answer, unless one that is
    /// not known may lie below it. Of those that rest on the same strength of the ground
    /// only the first is named, since mending it mends them all.
    pub limits: Vec<MassLimit>,
    /// The first limit that cannot be told for want of data; none where each is known, or
    /// no mass holds in any case.
    pub unknown: Option<MassLimit>,
}

/// A largest mass, told apart from none and from one that is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Largest {
    /// Every limit holds at it and below.
    Mass(Mass),
    /// A limit is known not to hold even at the lightest mass.
    NoneHolds,
    /// Something is missing, so that no mass is known to hold.
    NotKnown,
}

/// One limit on mass.
#[derive(Debug, Clone, PartialEq)]
pub struct MassLimit {
    /// Code of the rule that sets it.
    pub code: &'static str,
    /// What it is, in words.
    pub title: String,
    /// Largest mass that it allows; none when even the lightest mass is too much.
    pub mass: Option<Mass>,
}

/// Tyre pressure to set and what each pressure allows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TyreAnswer {
    /// Main tyre pressure to set.
    pub set: Option<Pressure>,
    /// Why that pressure.
    pub because: String,
    /// Least pressure that tyre and chart allow at the planned mass.
    pub least: Option<Pressure>,
    /// Greatest pressure that the ground carries at the planned mass.
    pub greatest: Option<Pressure>,
    /// Largest masses by pressure, rising pressure.
    pub table: Vec<PressureRow>,
}

/// What one tyre pressure allows.
#[derive(Debug, Clone, PartialEq)]
pub struct PressureRow {
    /// Main tyre pressure.
    pub pressure: Pressure,
    /// Largest mass that the ground carries at that pressure.
    pub ground: Option<Mass>,
    /// Largest mass that tyre and chart allow at that pressure.
    pub tyre: Option<Mass>,
}

/// One speed.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeedRow {
    /// Symbol of the trade, such as `V1`.
    pub symbol: &'static str,
    /// In words.
    pub name: &'static str,
    /// Calibrated airspeed.
    pub speed: Speed,
}

/// One distance needed against what is available.
#[derive(Debug, Clone, PartialEq)]
pub struct DistanceRow {
    /// Code of the rule.
    pub code: &'static str,
    /// In words.
    pub name: String,
    /// Needed, factors included.
    pub needed: Length,
    /// Available, if declared.
    pub available: Option<Length>,
}

/// Air and wind figures of the day.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct DayFigures {
    /// Rows of name and value in the order shown.
    pub rows: Vec<(String, Amount)>,
}

/// A change that would help.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// What to do.
    pub action: Phrase,
    /// What it brings.
    pub effect: Phrase,
    /// Verdict of the whole after it, as assessed afresh.
    pub verdict_after: Verdict,
    /// Codes of the findings that it mends.
    pub mends: Vec<&'static str>,
    /// Codes of the findings that still fail.
    pub left: Vec<&'static str>,
}

/// Kind of a line on the card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CardLineKind {
    /// An approved limit that the crew holds.
    Limit,
    /// A limit that the assessment computed: planning only.
    Computed,
    /// Handling in the operator's words.
    Handling,
}

/// One line on the card.
#[derive(Debug, Clone, PartialEq)]
pub struct CardLine {
    /// Phase in which it applies.
    pub phase: Phase,
    /// Kind.
    pub kind: CardLineKind,
    /// What to do or hold, with its figure.
    pub text: String,
    /// The figure of an approved limit by itself, for programs.
    pub amount: Option<Amount>,
    /// Where it comes from: finding code, manual or file.
    pub source: String,
}

/// Ways to handle the aeroplane, compared by the stones that they meet.
#[derive(Debug, Clone, PartialEq)]
pub struct HandlingTable {
    /// The handling planned, then each single change of it.
    pub rows: Vec<HandlingRow>,
    /// What the crew could choose and meets fewest; none if that is the plan.
    pub best: Option<HandlingRow>,
    /// What the crew could choose and meets most; none if nothing meets more.
    pub worst: Option<HandlingRow>,
    /// Stones under tyre edges that would reach the airframe, as planned, if
    /// each of them were thrown.
    pub reach: f64,
}

/// One way to handle the aeroplane.
#[derive(Debug, Clone, PartialEq)]
pub struct HandlingRow {
    /// In words.
    pub name: String,
    /// Stones thrown at the airframe over those of the plan; none where the plan
    /// throws none.
    pub thrown: Option<Ratio>,
    /// Loose stones under an inlet vortex; none for propellers.
    pub swallowed: Option<f64>,
    /// Strikes for each 1,000 movements: lower limit, mean, upper limit; none
    /// without a damage record.
    pub strikes: Option<[f64; 3]>,
    /// Whether it is the crew's to choose.
    pub is_crews: bool,
}

/// The strip on its station axis.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sketch {
    /// Length of the strip.
    pub length: Option<Length>,
    /// Width of the strip.
    pub width: Option<Length>,
    /// Designator at station 0 and at the last station.
    pub designators: (String, String),
    /// Centre-line elevation by station.
    pub profile: Vec<(Length, Length)>,
    /// Strength against demand by station, the weakest of the lanes.
    pub strength: Vec<StrengthSample>,
    /// Places worth marking.
    pub marks: Vec<SketchMark>,
    /// Runs by name, such as `landing`, `take-off`, `rejected take-off`.
    pub runs: Vec<(String, RunTrace)>,
}

/// Strength against demand at one station.
#[derive(Debug, Clone, PartialEq)]
pub struct StrengthSample {
    /// Station.
    pub station: Length,
    /// Bearing ratio that the weakest layer is credited with; none where nothing is known.
    pub available: Option<BearingRatio>,
    /// Bearing ratio that it needs for this flight.
    pub needed: Option<BearingRatio>,
    /// Available over needed at the governing layer.
    pub utilisation: Option<f64>,
}

/// Kind of a marked place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SketchMarkKind {
    /// Ground weaker than needed, or the weakest place.
    Soft,
    /// Bump over the evenness limit, or the worst bump.
    Bump,
    /// Rut or dip over the evenness limit, or the worst one.
    Rut,
    /// Standing water.
    Water,
    /// Loose material.
    Loose,
    /// Stretch without sounding or survey.
    Unknown,
}

/// A place worth marking.
#[derive(Debug, Clone, PartialEq)]
pub struct SketchMark {
    /// Kind.
    pub kind: SketchMarkKind,
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Label in few words.
    pub label: String,
    /// Its figure, if any.
    pub amount: Option<Amount>,
    /// Whether it is over its limit, or only worth knowing.
    pub over: bool,
}

impl MassAnswer {
    /// No mass, for no reason that is told.
    pub(crate) const fn none(planned: Option<Mass>) -> Self {
        Self { planned, largest: None, load: None, limits: Vec::new(), unknown: None }
    }

    /// The limit that sets the largest mass, or that no mass keeps; none where a limit that
    /// is not known may be the lower one.
    #[must_use]
    pub fn set_by(&self) -> Option<&MassLimit> {
        self.limits.first().filter(|_| self.unknown.is_none())
    }

    /// The largest mass, and where there is none, whether none holds or none is known.
    #[must_use]
    pub fn most(&self) -> Largest {
        match (self.largest, self.set_by()) {
            (Some(mass), _) => Largest::Mass(mass),
            (None, Some(limit)) if limit.mass.is_none() => Largest::NoneHolds,
            (None, _) => Largest::NotKnown,
        }
    }
}

impl Largest {
    /// The mass; none where none holds or none is known.
    #[must_use]
    pub const fn mass(self) -> Option<Mass> {
        match self {
            Self::Mass(mass) => Some(mass),
            Self::NoneHolds | Self::NotKnown => None,
        }
    }
}

impl SpeedRow {
    /// A row.
    #[must_use]
    pub fn new(symbol: &'static str, name: &'static str, speed: Speed) -> Self {
        Self { symbol, name, speed }
    }
}
