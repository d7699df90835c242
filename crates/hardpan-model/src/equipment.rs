//! Protective equipment, approved limits and handling, by phase.

use crate::{Given, SurfaceKind, SurfaceState};
use hardpan_quantity::{Amount, Length, Speed, Time};
use jiff::civil::Date;

/// Phase of a movement, in the order in which the crew meets them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// Approach and landing, to the end of the roll.
    Landing,
    /// From the end of the landing roll.
    AfterLanding,
    /// Engines running and taxi.
    Taxi,
    /// Lined up, before brake release.
    BeforeBrakeRelease,
    /// From brake release to 35 ft.
    TakeOff,
    /// Climb with gear down and up to its retraction.
    Climb,
    /// At all times on the strip.
    Always,
}

impl Phase {
    /// All, in order.
    pub const ALL: [Self; 7] = [
        Self::Always,
        Self::Landing,
        Self::AfterLanding,
        Self::Taxi,
        Self::BeforeBrakeRelease,
        Self::TakeOff,
        Self::Climb,
    ];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Always => "always",
            Self::Landing => "landing",
            Self::AfterLanding => "after landing",
            Self::Taxi => "taxi",
            Self::BeforeBrakeRelease => "before brake release",
            Self::TakeOff => "take-off",
            Self::Climb => "climb",
        }
    }
}

/// One piece of protective equipment.
#[derive(Debug, Clone, PartialEq)]
pub struct Equipment {
    /// Name, such as `nose gear deflector`.
    pub name: Given<String>,
    /// Surfaces on which it must be fitted and working; empty when never required.
    pub required_on: Vec<SurfaceKind>,
    /// Whether it is fitted.
    pub fitted: Option<Given<bool>>,
    /// Whether it works.
    pub serviceable: Option<Given<bool>>,
    /// Day of its last inspection.
    pub inspected_on: Option<Given<Date>>,
    /// Longest time between inspections.
    pub inspect_every: Option<Given<Time>>,
}

/// What a zone of the aeroplane does to a stone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ZoneKind {
    /// It is struck.
    Airframe,
    /// It stops stones before they strike, while the equipment of its name is
    /// fitted and works.
    Deflector,
}

/// What a part of the underside is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ZonePart {
    /// A flap, which may be up.
    Flap,
    /// The belly.
    Belly,
    /// An antenna.
    Antenna,
    /// A light.
    Light,
    /// An engine inlet, which swallows stones.
    Inlet,
    /// The arc of a propeller at its lowest.
    Propeller,
    /// The tail.
    Tail,
}

impl ZonePart {
    /// All, in the order in which they are listed.
    pub const ALL: [Self; 7] = [
        Self::Flap,
        Self::Belly,
        Self::Antenna,
        Self::Light,
        Self::Inlet,
        Self::Propeller,
        Self::Tail,
    ];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Flap => "flap",
            Self::Belly => "belly",
            Self::Antenna => "antenna",
            Self::Light => "light",
            Self::Inlet => "inlet",
            Self::Propeller => "propeller",
            Self::Tail => "tail",
        }
    }
}

/// A level part of the underside that thrown stones can meet.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// Name; of a deflector, that of its equipment.
    pub name: Given<String>,
    /// What it does to a stone.
    pub kind: ZoneKind,
    /// Foremost edge, aft of the nose wheels; negative ahead of them.
    pub from: Given<Length>,
    /// Aftmost edge.
    pub to: Given<Length>,
    /// Height over the ground.
    pub height: Given<Length>,
    /// Width across.
    pub width: Given<Length>,
    /// Distance of its middle from the centre line, where it stands on both sides.
    pub offset: Option<Given<Length>>,
    /// What part of the airframe it is.
    pub part: Option<ZonePart>,
    /// Height over the ground of a flap that is up.
    pub height_up: Option<Given<Length>>,
    /// Speed of the blade across the path of a stone.
    pub blade_speed: Option<Given<Speed>>,
}

/// What a low point of the aeroplane is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LowPart {
    /// Tip of a propeller.
    Propeller,
    /// Engine pod.
    Pod,
    /// Deflector of stones or spray.
    Deflector,
    /// Belly.
    Belly,
    /// Door, open on the ground or of the gear.
    Door,
    /// Antenna, lamp or drain mast.
    Antenna,
}

/// What a low point moves with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carrier {
    /// It comes down with tyre and strut.
    Airframe,
    /// It stands on the main gear below the strut and comes down with its tyres.
    MainLeg,
    /// It stands on the nose gear below the strut.
    NoseLeg,
}

/// A low point of the aeroplane that must stay clear of the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct ClearancePoint {
    /// Name.
    pub name: Given<String>,
    /// What it is.
    pub part: LowPart,
    /// What it moves with.
    pub carrier: Carrier,
    /// Place aft of the nose wheels; negative ahead of them.
    pub aft: Given<Length>,
    /// Distance from the centre line, where it stands on both sides.
    pub offset: Option<Given<Length>>,
    /// Height over level ground, the aeroplane standing on its wheels.
    pub height: Given<Length>,
}

/// Which side of the value is allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// The value is the greatest allowed.
    AtMost,
    /// The value is the least allowed.
    AtLeast,
}

/// One approved limit that the operator entered from its manual.
#[derive(Debug, Clone, PartialEq)]
pub struct ApprovedLimit {
    /// When it applies.
    pub phase: Phase,
    /// What is limited: one of [`ApprovedLimit::CHECKED`], or any other words
    /// for a limit that the crew holds.
    pub quantity: Given<String>,
    /// Which side is allowed.
    pub bound: Bound,
    /// The limiting value.
    pub value: Given<Amount>,
    /// Surface that it is for; all where it is not stated.
    pub surface: Option<Given<SurfaceKind>>,
    /// State of the surface that it is for; all where it is not stated.
    pub state: Option<Given<SurfaceState>>,
    /// Condition in words, such as `dissipators on`.
    pub when: Option<Given<String>>,
}

impl ApprovedLimit {
    /// Whether it bounds a movement on a surface in a state; it does unless it
    /// is known to be for another.
    #[must_use]
    pub fn bounds(&self, surface: Option<SurfaceKind>, state: Option<SurfaceState>) -> bool {
        let surface = surface.zip(self.surface.as_ref()).is_none_or(|(is, own)| own.value == is);
        let state = state.zip(self.state.as_ref()).is_none_or(|(is, own)| own.value == is);
        surface && state
    }

    /// Quantities that the assessment checks by itself; all others are printed
    /// on the card in their phase for the crew to hold.
    pub const CHECKED: [&'static str; 12] = [
        "crosswind",
        "tailwind",
        "take-off mass",
        "landing mass",
        "main tyre pressure",
        "nose tyre pressure",
        "outside temperature",
        "pressure altitude",
        "runway slope",
        "surfacing thickness",
        "strip width",
        "loose material depth",
    ];
}

/// One line of handling in the operator's words.
#[derive(Debug, Clone, PartialEq)]
pub struct Handling {
    /// When it applies.
    pub phase: Phase,
    /// What to do.
    pub say: Given<String>,
}
