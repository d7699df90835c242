//! Whether reverse thrust is counted in a stop: only where the flight asks for it
//! and the aeroplane file names the approval for the surface.
//!
//! An accelerate-stop distance may count it on a wet runway, not on a dry one.
//! Distances of dispatch rest on those of the manual on a dry runway, so a landing
//! counts it under the rule of the arrival only. It is not counted over loose
//! stones, where the crew is told to leave it, nor below the airspeed at which
//! its efflux reaches the inlet.
//!
//! Source: [CFR-25-109] (f); [CFR-121-195] (b), (d).

use crate::by_formula::{by_formula, result_of};
use crate::draft::{Draft, computed, constant, given, given_as};
use crate::jet::reverse_front::{GREATEST_CONSTANT, SHEET};
use crate::vortex::is_propeller;
use hardpan_model::{
    BasisInput, FieldRule, Flight, Given, Reverse, ReverseApproval, ReverseUse, Step, SurfaceState,
};
use hardpan_quantity::{Amount, Speed, knots};
use hardpan_run::{ReverseThrust, RunModel};

/// What becomes of reverse thrust in one movement.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Credit<'a> {
    /// Nobody asks for it.
    NotAsked,
    /// It is asked for and not counted, and why.
    Refused(String),
    /// It is counted.
    Counted(Counted<'a>),
}

/// Reverse thrust as it is counted.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Counted<'a> {
    reverse: &'a Reverse,
    approval: &'a ReverseApproval,
    thrust: ReverseThrust,
    /// Airspeed down to which it is counted.
    pub(crate) down_to: Speed,
}

/// In a rejected take-off.
pub(crate) fn in_take_off(flight: &Flight) -> Credit<'_> {
    let Some(planned) = &flight.take_off else { return Credit::NotAsked };
    if !is_asked(planned.count_reverse.as_ref()) {
        return Credit::NotAsked;
    }
    let rule = planned.rule.as_ref().map(|rule| rule.value);
    if rule != Some(FieldRule::LargeTakeOff) {
        return refused("only a stop under large-take-off counts it");
    }
    if flight.day.surface_state.as_ref().map(|state| state.value) != Some(SurfaceState::Wet) {
        return refused("the rule lets a stop count it on a wet surface only");
    }
    counted(flight)
}

/// In a landing.
pub(crate) fn in_landing(flight: &Flight) -> Credit<'_> {
    let Some(planned) = &flight.landing else { return Credit::NotAsked };
    if !is_asked(planned.count_reverse.as_ref()) {
        return Credit::NotAsked;
    }
    let rule = planned.rule.as_ref().map(|rule| rule.value);
    if rule != Some(FieldRule::LandingFifteenPercent) {
        return refused(
            "only landing-15 counts it; distances of dispatch rest on dry ones without",
        );
    }
    if planned.reverse.as_ref().map(|given| given.value) != Some(ReverseUse::Full) {
        return refused("the landing does not plan full reverse");
    }
    counted(flight)
}

fn is_asked(count: Option<&Given<bool>>) -> bool {
    count.is_some_and(|count| count.value)
}

fn refused(why: impl Into<String>) -> Credit<'static> {
    Credit::Refused(why.into())
}

/// What the aeroplane file, the strip and the day leave of it.
fn counted(flight: &Flight) -> Credit<'_> {
    let reverse = &flight.aeroplane.engines.reverse;
    let Some(surface) = &flight.strip.surface else { return refused("the surface is not stated") };
    let approved = |approval: &&ReverseApproval| approval.surface.value == surface.value;
    let Some(approval) = reverse.approvals.iter().find(approved) else {
        return refused(format!(
            "the aeroplane file has no approval of it on {}",
            surface.value.word()
        ));
    };
    if let Some(why) = stones(flight) {
        return refused(why);
    }
    let (Some(idle_by), Some(set_after), Some(engines)) =
        (&reverse.idle_by, &reverse.set_after, &reverse.engines)
    else {
        return refused("engines.reverse lacks one of idle_by, set_after and engines");
    };
    let Some(reached) = reach(flight) else {
        return refused("the airspeed at which its efflux reaches the inlet is not known");
    };
    // Without an approved speed 60 kt: common practice, no source.
    let stowed_by = reverse.stowed_by.as_ref().map_or(knots(60.0), |given| given.value);
    let down_to = idle_by.value.max(reached).max(stowed_by);
    let rows: Vec<_> =
        reverse.rows.iter().map(|row| (row.airspeed.value, row.force.value)).collect();
    match ReverseThrust::new(&rows, down_to, set_after.value, engines.value) {
        Ok(thrust) => Credit::Counted(Counted { reverse, approval, thrust, down_to }),
        Err(error) => refused(error.to_string()),
    }
}

/// Loose stones that forbid it, or that nobody looked for.
fn stones(flight: &Flight) -> Option<String> {
    let Some(patches) = &flight.day.loose_material else {
        return Some("nobody says whether loose stones lie on the strip".to_owned());
    };
    let places: Vec<_> = patches
        .iter()
        .map(|patch| Amount::from(patch.from.value).told_to(patch.to.into()))
        .collect();
    (!places.is_empty()).then(|| format!("loose stones lie at stations {}", places.join(", ")))
}

/// Airspeed below which the efflux of full reverse reaches the inlet; none where
/// that is not stated. A propeller has no such figure: its approved speed holds.
fn reach(flight: &Flight) -> Option<Speed> {
    if is_propeller(flight) {
        return Some(Speed::default());
    }
    let reverse = &flight.aeroplane.engines.reverse;
    let inputs = vec![
        constant("constant of the sheet", Amount::coefficient(GREATEST_CONSTANT), SHEET),
        given("diameter of the lobe", reverse.efflux_diameter.as_ref()?),
        given("efflux speed at full reverse", reverse.efflux_speed.as_ref()?),
        given("strike point to lip", reverse.lip_distance.as_ref()?),
    ];
    let step = by_formula("reverse-cut-off-speed", inputs).ok()?;
    result_of::<Speed>(&step).ok()
}

impl Credit<'_> {
    /// The model with what is counted.
    pub(super) fn applied(&self, model: RunModel) -> RunModel {
        match self {
            Self::Counted(counted) => model.with_reverse(counted.thrust.clone()),
            Self::NotAsked | Self::Refused(_) => model,
        }
    }

    pub(crate) fn is_counted(&self) -> bool {
        matches!(self, Self::Counted(_))
    }

    /// What a finding says of it.
    pub(crate) fn told(&self, draft: Draft, after_failure: &str) -> Draft {
        match self {
            Self::NotAsked => draft,
            Self::Refused(why) => {
                draft.caveat(format!("reverse thrust is asked for and not counted: {why}"))
            }
            Self::Counted(counted) => draft.caveat(format!(
                "reverse thrust is counted down to {}, on the word of {}{after_failure}",
                Amount::from(counted.down_to).told(),
                counted.approval.manual.value,
            )),
        }
    }

    /// The step of a run with what is counted in it.
    pub(crate) fn in_step(&self, step: Step) -> Step {
        let Self::Counted(counted) = self else { return step };
        let expression = step.expression.replace("wheel brakes only", "wheel brakes and reverse");
        let inputs = step.inputs.into_iter().chain(counted.inputs()).collect();
        Step { expression, inputs, ..step }
    }
}

impl Counted<'_> {
    fn inputs(&self) -> Vec<BasisInput> {
        let rows = self.reverse.rows.iter().map(|row| {
            let airspeed = Amount::from(row.airspeed.value).told();
            given(&format!("reverse thrust of an engine at {airspeed}"), &row.force)
        });
        let mut inputs: Vec<_> = rows.collect();
        inputs.extend(self.reverse.engines.as_ref().map(|engines| {
            let amount = Amount::count(f64::from(engines.value));
            given_as("engines with reverse", engines, amount)
        }));
        inputs.extend(self.reverse.set_after.as_ref().map(|time| given("set after", time)));
        inputs.push(computed("counted down to", self.down_to, "approved speed or reach of D40"));
        inputs
    }
}
