//! The inlet vortex along a take-off, and the loose stones it meets.

pub(crate) mod flat_tyre;
pub(crate) mod schedule;

use crate::context::Context;
use crate::draft::{Draft, computed, given, given_as, need};
use crate::measured::{Known, Unavailable};
use crate::stones::stones_per_square_metre;
use hardpan_debris::{
    Air, Inlet, RunWind, VORTEX_TIER, VortexState, stones_met, stretches, vortex_along,
};
use hardpan_model::{BasisInput, EngineKind, Finding, Flight, Given, Patch, Source};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, Speed, Time, knots, metres};
use hardpan_run::TakeOffRun;

/// Source of every figure that rests on the formation boundary.
pub(crate) const BOUNDARY: Source =
    Source::new("NAKAYAMA-JONES-1999", "formation boundary, with a judged band", VORTEX_TIER);

/// Width of ground that a vortex works on over the inlet's diameter: the
/// greatest of the range thought likely. Judgement.
pub(crate) const FOOTPRINT_OVER_DIAMETER: f64 = 0.5;

/// Where a vortex stands during a take-off.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Exposure {
    /// Stretches on which it is expected, lower station first.
    pub(crate) expected: Vec<(Length, Length)>,
    /// Stretches near the onset.
    pub(crate) possible: Vec<(Length, Length)>,
    /// Time from brake release and ground speed at which it is last in doubt.
    pub(crate) last: Option<(Time, Speed)>,
    /// Inlets or propellers.
    pub(crate) count: f64,
    /// Width of ground under one of them.
    pub(crate) footprint: Length,
}

/// The inlet of a turbofan as it stands.
pub(crate) fn inlet(flight: &Flight) -> Known<Inlet> {
    let engines = &flight.aeroplane.engines;
    match (&engines.inlet_diameter, &engines.inlet_height, &engines.air_flow) {
        (Some(diameter), Some(height), Some(flow)) => {
            Ok(Inlet { diameter: diameter.value, height: height.value, take_off_flow: flow.value })
        }
        _ => Err(Unavailable::missing(
            "the inlet vortex",
            vec![need(
                "aeroplane: engines.inlet_diameter, inlet_height, air_flow",
                "from the engine's manual",
            )],
        )),
    }
}

/// Air and the least sure wind along the take-off; no crosswind is credited.
pub(crate) fn air_and_wind(context: &Context<'_>) -> Known<(Air, RunWind)> {
    let missing = || Unavailable::missing("the wind along the strip", Vec::new());
    let wind = context.measured.take_off_wind.as_ref().ok_or_else(missing)?;
    let wind = wind.as_ref().map_err(Clone::clone)?;
    let air = context.measured.air.as_ref().map_err(Clone::clone)?;
    let air = Air { pressure: air.pressure(), temperature: air.temperature() };
    Ok((air, RunWind { headwind: wind.headwind, crosswind: knots(0.0) }))
}

/// Where a vortex stands during a take-off with its trace.
pub(crate) fn exposure(context: &Context<'_>, run: &TakeOffRun) -> Known<Exposure> {
    exposure_of(context, run, &inlet(context.flight)?)
}

/// The same for an inlet at another height.
pub(crate) fn exposure_of(
    context: &Context<'_>,
    run: &TakeOffRun,
    inlet: &Inlet,
) -> Known<Exposure> {
    let (air, wind) = air_and_wind(context)?;
    let missing = || Unavailable::missing("the vortex along the run", Vec::new());
    let trace = run.trace.as_ref().ok_or_else(missing)?;
    let points = vortex_along(trace, inlet, &air, &wind, |airspeed| run.full_thrust.at(airspeed))
        .map_err(|error| Unavailable::refused("the vortex along the run", &error))?;
    let places = points.iter().map(|point| (point.station, point.state));
    let last = points.iter().rfind(|point| point.state != VortexState::Off);
    let last = last.map(|point| (point.time, point.ground_speed));
    Ok(Exposure::of(places, last, engines(context.flight)?, footprint(inlet)))
}

/// How many engines meet stones.
pub(crate) fn engines(flight: &Flight) -> Known<u32> {
    let count = flight.aeroplane.engines.count.as_ref().map(|count| count.value);
    count.ok_or_else(|| {
        let wanted = need("aeroplane: engines.count", "how many engines meet stones");
        Unavailable::missing("the vortex along the run", vec![wanted])
    })
}

/// Thrust used to taxi: as the flight handles the aeroplane, else as its file says.
pub(crate) fn taxi_thrust(flight: &Flight) -> Option<&Given<Ratio>> {
    flight.technique.taxi_thrust.as_ref().or(flight.aeroplane.engines.taxi_share.as_ref())
}

/// Whether the engines are known to drive propellers.
pub(crate) fn is_propeller(flight: &Flight) -> bool {
    let kind = flight.aeroplane.engines.kind.as_ref();
    kind.is_some_and(|kind| kind.value == EngineKind::Turboprop)
}

/// Width of ground that a vortex under an inlet works on.
pub(crate) fn footprint(inlet: &Inlet) -> Length {
    FOOTPRINT_OVER_DIAMETER * inlet.diameter
}

/// Length of stretches.
pub(crate) fn total(stretches: &[(Length, Length)]) -> Length {
    stretches.iter().fold(metres(0.0), |sum, (from, to)| sum + (*to - *from))
}

impl Exposure {
    /// The stretches of a run, from the state at each of its stations.
    pub(crate) fn of(
        places: impl Iterator<Item = (Length, VortexState)> + Clone,
        last: Option<(Time, Speed)>,
        count: u32,
        footprint: Length,
    ) -> Self {
        let by_station = |state| {
            let found = stretches(places.clone(), state).into_iter();
            found.map(|(a, b)| (a.min(b), a.max(b))).collect::<Vec<_>>()
        };
        Self {
            expected: by_station(VortexState::On),
            possible: by_station(VortexState::Uncertain),
            last,
            count: f64::from(count),
            footprint,
        }
    }

    /// The span on which a vortex is expected or may stand.
    pub(crate) fn span_in_doubt(&self) -> Option<(Length, Length)> {
        let both = self.expected.iter().chain(&self.possible).copied();
        both.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
    }

    /// Where a vortex is expected and where it may stand, in words.
    pub(crate) fn told(&self) -> String {
        let stretches = [("is expected", &self.expected), ("may stand", &self.possible)]
            .into_iter()
            .filter_map(|(what, stretches)| Some(format!("{what} {}", extent(stretches)?)))
            .collect::<Vec<_>>()
            .join(" and ");
        match self.last {
            Some((time, speed)) if time > Time::default() => format!(
                "{stretches}, until {} and {:.0} s after brake release",
                Amount::from(speed).told(),
                time.si().ceil()
            ),
            _ => stretches,
        }
    }

    /// Ground of a patch over which a vortex is expected or possible.
    pub(crate) fn over(&self, patch: &Patch) -> Length {
        let overlap = |(from, to): &(Length, Length)| {
            (to.min(patch.to) - from.max(patch.from.value)).max(metres(0.0))
        };
        self.expected.iter().chain(&self.possible).map(overlap).fold(metres(0.0), |a, b| a + b)
    }

    /// Loose stones of the patches in the footprints of all inlets; none where
    /// a patch that is rolled over has no count.
    pub(crate) fn stones(&self, patches: &[Patch]) -> Option<Known<f64>> {
        let mut sum = 0.0;
        for patch in patches {
            let rolled = self.over(patch);
            if rolled.si() <= 0.0 {
                continue;
            }
            let met = stones_met(stones_per_square_metre(patch)?, self.footprint, rolled);
            match met {
                Ok(met) => sum += self.count * met,
                Err(error) => return Some(Err(Unavailable::refused("stones met", &error))),
            }
        }
        Some(Ok(sum))
    }

    /// Width of ground under one vortex, and where it is expected along the run, as
    /// inputs.
    pub(crate) fn footprint_inputs(&self, flight: &Flight) -> Vec<BasisInput> {
        let engines = &flight.aeroplane.engines;
        let diameter = match is_propeller(flight) {
            true => engines.propeller_diameter.as_ref(),
            false => engines.inlet_diameter.as_ref(),
        };
        let width = |of| given_as("width of ground under one vortex", of, self.footprint.into());
        let along = [("expected", &self.expected), ("possible", &self.possible)];
        let along = along.map(|(word, stretches)| {
            computed(&format!("stretch with a vortex {word}"), total(stretches), "D15 or D20")
        });
        diameter.map(width).into_iter().chain(along).collect()
    }
}

/// What the file says of the inlet, as inputs.
pub(crate) fn inlet_inputs(flight: &Flight) -> Vec<BasisInput> {
    let engines = &flight.aeroplane.engines;
    let rows = [
        engines.inlet_diameter.as_ref().map(|value| given("inlet diameter", value)),
        engines.inlet_height.as_ref().map(|value| given("inlet height", value)),
        engines.air_flow.as_ref().map(|value| given("air flow", value)),
    ];
    rows.into_iter().flatten().collect()
}

/// How far stretches reach in words; a single station where they have no length.
fn extent(stretches: &[(Length, Length)]) -> Option<String> {
    let (station, _) = stretches.first()?;
    let over = total(stretches);
    Some(if over > Length::default() {
        format!("over {} of the run", shown(over))
    } else {
        format!("at station {}", shown(*station))
    })
}

/// What to sweep before the run.
pub(crate) fn swept(from: Length, to: Length) -> String {
    if from < to {
        format!("sweep and walk stations {}", Amount::from(from).told_to(to.into()))
    } else {
        format!("sweep and walk station {}", shown(from))
    }
}

/// The vortex at idle, lined up into the wind of the day.
pub(crate) fn at_idle_told(draft: Draft, state: VortexState) -> Finding {
    match state {
        VortexState::Off => draft.pass("no vortex is expected at idle facing this wind"),
        VortexState::Uncertain => draft.conditional("a vortex may stand at idle, facing this wind"),
        VortexState::On => draft
            .instruct("line up over swept ground only: a vortex is expected even at idle")
            .conditional("a vortex is expected at idle, even facing this wind"),
    }
}

fn shown(length: Length) -> String {
    Amount::from(length).told()
}

#[cfg(test)]
mod tests {
    use super::extent;
    use hardpan_quantity::{UnitSystem, metres, tell};

    #[test]
    fn a_stretch_without_length_is_told_as_its_station() {
        assert_eq!(extent(&[]), None);
        let told = |from: f64, to: f64| {
            let words = extent(&[(metres(from), metres(to))]).unwrap();
            tell(&words, UnitSystem::Metric)
        };
        assert_eq!(told(15.0, 15.0), "at station 15.0 m");
        assert_eq!(told(15.0, 40.0), "over 25.0 m of the run");
    }
}
