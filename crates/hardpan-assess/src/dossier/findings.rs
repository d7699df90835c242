//! The rules that need no flight, judged on the strip alone.

use super::Shown;
use super::ride_sheet::{self, RideSheet};
use crate::context::Context;
use crate::measure::{Standing, measure};
use crate::rides::Asked;
use crate::rule::Rule;
use crate::rules::RULES;
use crate::shape::StripShape;
use hardpan_model::{Finding, Flight, Given, Strip, TaxiStretch, Verdict};
use hardpan_quantity::{Length, metres};
use std::sync::Arc;

/// Rules of the strip; W10 and W20 judge what was seen on the day of a flight.
fn is_of_the_strip(rule: &Rule) -> bool {
    rule.code.starts_with('R')
        || (rule.code.starts_with('W') && !matches!(rule.code, "W10" | "W20"))
        || matches!(rule.code, "G10" | "S10" | "S20" | "S40" | "S50")
}

/// What only a flight supplies.
const OF_FLIGHTS: [&str; 3] = ["flight", "aeroplane", "day"];

/// What the rules say of a strip.
pub(super) struct Judged {
    pub(super) findings: Vec<Finding>,
    /// Code and title of the checks that wait for a flight.
    pub(super) left: Vec<(&'static str, String)>,
    /// The shape behind them.
    pub(super) shape: Arc<StripShape>,
}

/// Rules of the ride, which only a flight supplies.
const RIDE: &str = "R70";

/// Judge the strip, with wheels at half a track on each side of the centre.
pub(super) fn of(strip: &Strip, track: Option<Length>) -> Judged {
    let mut flight = Flight { strip: strip.clone(), ..Flight::default() };
    flight.aeroplane.gear.track = track.map(|track| Given::stated("gear.track", track));
    judged(flight)
}

/// Judge the strip of a flight under the gear and the span of its aeroplane,
/// and the ride of its planned movements.
pub(super) fn of_flight(flight: &Flight) -> (Judged, Shown<RideSheet>) {
    let mut alone = Flight { strip: flight.strip.clone(), ..Flight::default() };
    alone.aeroplane.gear.track = flight.aeroplane.gear.track.clone();
    alone.aeroplane.wing.span = flight.aeroplane.wing.span.clone();
    let mut judged = judged(alone);
    let measured = measure(flight, &Standing::of(flight), &[]);
    let context = Context::tried(flight, &measured, Asked::Whole);
    let ridden = RULES.iter().filter(|rule| rule.code == RIDE);
    let ridden: Vec<Finding> = ridden.flat_map(|rule| (rule.judge)(&context)).collect();
    judged.left.retain(|(code, _)| *code != RIDE);
    let at = judged.findings.iter().position(|finding| finding.code == RIDE);
    judged.findings.retain(|finding| finding.code != RIDE);
    let at = at.unwrap_or(judged.findings.len());
    judged.findings.splice(at..at, ridden);
    (judged, ride_sheet::of(flight, &measured))
}

fn judged(mut flight: Flight) -> Judged {
    flight.taxi = Some(vec![everywhere(&flight.strip)]);
    let standing = Standing::of(&flight);
    let measured = measure(&flight, &standing, &[]);
    let context = Context::tried(&flight, &measured, Asked::Whole);
    let rules = RULES.iter().filter(|rule| is_of_the_strip(rule));
    let (left, findings): (Vec<Finding>, Vec<Finding>) =
        rules.flat_map(|rule| (rule.judge)(&context)).partition(waits_for_a_flight);
    let left = left.into_iter().map(|finding| (finding.code, finding.title)).collect();
    Judged { findings, left, shape: measured.shape }
}

/// Wheels may come anywhere on the strip: ground that is reported closed counts
/// wherever it lies.
fn everywhere(strip: &Strip) -> TaxiStretch {
    const BEYOND_ANY_STRIP_M: f64 = 100_000.0;
    let to = strip.length.as_ref().map_or(metres(BEYOND_ANY_STRIP_M), |length| length.value);
    TaxiStretch { from: Given::stated("taxi", metres(0.0)), to }
}

fn waits_for_a_flight(finding: &Finding) -> bool {
    finding.verdict == Verdict::Unproven
        && finding.needs.iter().any(|need| is_of_a_flight(&need.what))
        && finding.needs.iter().all(|need| is_of_a_flight(&need.what))
}

/// Whether only a flight, its aeroplane or its day supplies a thing.
pub(super) fn is_of_a_flight(what: &str) -> bool {
    OF_FLIGHTS.iter().any(|noun| what.strip_prefix(noun).is_some_and(|rest| rest.starts_with(':')))
}
