//! F54: whether the tyres would ride on the water that stands on the strip.

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, computed, given, plain_step};
use crate::ground::LegKind;
use crate::measured::{Known, Measured};
use crate::rule::Rule;
use crate::run_basis::{MOTION, RUNS};
use hardpan_model::{Finding, Mark, Patch, Phase, RunEventKind, RunTrace, Source, Tier};
use hardpan_quantity::{Pressure, Quantity, Speed, metres};

pub(super) const RULE: Rule = Rule {
    code: "F54",
    name: "Hydroplaning",
    checks: "Greatest ground speed of the wheels over each patch of standing water of the day file \
             against the speed at which tyres of the pressure set for this flight ride on water; \
             where touchdown lies in the water, against that at which they do not spin up. The \
             softer of main and nose tyres counts; a take-off is tried carried on and rejected.",
    why: "A tyre that rides on water neither brakes nor steers. A pressure lowered for soft \
          ground lowers the speed at which that begins.",
    limit: "9 kt x sqrt(p in psi) for a tyre that turns, 7.7 kt x sqrt(p in psi) for one that does \
            not turn yet.",
    applies: "Water that was seen and mapped, each movement that is planned. Water is taken as \
              deeper than the tread. Wet clay can be slippery far below these speeds; W10 allows \
              no standing water at all.",
    source: Source::new("NASA-TN-D-2056", "dynamic hydroplaning", Tier::Secondary),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let patches = context.flight.day.standing_water.as_deref().unwrap_or_default();
    let traces = traces(context.measured);
    let over = |patch: &Patch| {
        let rolled = traces.iter().filter_map(|(phase, trace)| {
            fastest_over(trace, patch).map(|(speed, spins)| (*phase, speed, spins))
        });
        rolled.max_by(|a, b| nearness(a).total_cmp(&nearness(b)))
    };
    let rolled = patches.iter().filter_map(|patch| Some((patch, over(patch)?)));
    let mut findings: Vec<Finding> =
        rolled.map(|(patch, worst)| finding(context, patch, worst)).collect();
    if !patches.is_empty() {
        findings.extend(not_run(context.measured));
    }
    findings
}

/// A movement over the water that cannot be run is not known to stay off it.
fn not_run(measured: &Measured) -> Vec<Finding> {
    let landing = measured.landing.as_ref().and_then(|run| run.as_ref().err());
    let take_off = measured.take_off.as_ref().and_then(|run| run.as_ref().err());
    let both = [(Phase::Landing, landing), (Phase::TakeOff, take_off)];
    let missing = both.into_iter().filter_map(|(phase, why)| Some((phase, why?)));
    missing.map(|(phase, why)| draft(phase).unavailable(why)).collect()
}

fn draft(phase: Phase) -> Draft {
    Draft::new(&RULE, "hydroplaning", phase).mark(Mark::PlanningOnly)
}

/// Order of how near a run comes to its limit: both limits rise with the same root
/// of the pressure.
fn nearness((_, speed, spin): &(Phase, Speed, Spin)) -> f64 {
    match spin {
        Spin::Turning => speed.si() / 9.0,
        Spin::TouchingDown => speed.si() / 7.7,
    }
}

/// Whether the tyres turn when they come to the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Spin {
    Turning,
    TouchingDown,
}

fn traces(measured: &Measured) -> Vec<(Phase, &RunTrace)> {
    let landing = measured.landing.as_ref().and_then(|run| run.as_ref().ok());
    let landing = landing.and_then(|run| run.trace.as_ref()).map(|trace| (Phase::Landing, trace));
    let take_off = measured.take_off.as_ref().and_then(|run| run.as_ref().ok());
    let take_offs = take_off.map(|run| [run.trace.as_ref(), run.rejected_trace.as_ref()]);
    let take_offs = take_offs.into_iter().flatten().flatten();
    landing.into_iter().chain(take_offs.map(|trace| (Phase::TakeOff, trace))).collect()
}

/// Greatest ground speed of wheels on a patch; none where they do not come.
fn fastest_over(trace: &RunTrace, patch: &Patch) -> Option<(Speed, Spin)> {
    let (from, to) = (patch.from.value.min(patch.to), patch.from.value.max(patch.to));
    let speeds = trace.points.windows(2).filter_map(|pair| match pair {
        [a, b] if a.height <= metres(0.0) && b.height <= metres(0.0) => {
            let (low, high) = (a.station.min(b.station), a.station.max(b.station));
            (low <= to && high >= from).then(|| a.ground_speed.max(b.ground_speed))
        }
        _ => None,
    });
    let fastest = speeds.reduce(Speed::max)?;
    let touches = trace
        .events
        .iter()
        .any(|event| event.kind == RunEventKind::Touchdown && (from..=to).contains(&event.station));
    Some((fastest, if touches { Spin::TouchingDown } else { Spin::Turning }))
}

/// The lower pressure of main and nose tyres, and which it is.
fn softer(measured: &Measured) -> Known<(Pressure, LegKind)> {
    let main = measured.main_tyre.as_ref().map_err(Clone::clone)?.set;
    let nose = measured.nose_tyre.as_ref().map_err(Clone::clone)?.set;
    Ok(if nose < main { (nose, LegKind::Nose) } else { (main, LegKind::Main) })
}

fn finding(context: &Context<'_>, patch: &Patch, fastest: (Phase, Speed, Spin)) -> Finding {
    let (phase, speed, spin) = fastest;
    let draft = draft(phase).value(speed).place(patch.from.value, patch.to, None);
    let name = match spin {
        Spin::Turning => "hydroplaning-rotating",
        Spin::TouchingDown => "hydroplaning-not-rotating",
    };
    let limit = softer(context.measured).and_then(|(pressure, kind)| {
        let by = if kind == LegKind::Nose { "nose tyres, T10" } else { "main tyres, T10" };
        let step = by_formula(name, vec![computed("tyre_pressure", pressure, by)])?;
        Ok((result_of::<Speed>(&step)?, step))
    });
    let (limit, step) = match limit {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    draft
        .at_most(limit)
        .step(plain_step(
            "ground speed over the water",
            "greatest of the runs planned, wheels on the ground",
            MOTION,
            vec![
                computed("ground speed", speed, RUNS),
                given("from", &patch.from),
                given("depth", &patch.depth),
            ],
            speed,
        ))
        .step(step)
        .instruct("drain the water, or roll over it slower: it neither brakes nor steers there")
        .judged("the tyres still touch the ground there", "the tyres ride on the water there")
}

#[cfg(test)]
mod tests {
    use super::{Spin, fastest_over, nearness};
    use hardpan_model::{Given, Origin, Patch, Phase, RunEvent, RunEventKind, RunPoint, RunTrace};
    use hardpan_quantity::{
        Force, Length, Quantity, Speed, Time, knots, metres, millimetres, ratio,
    };

    fn point(station: f64, speed: f64, height: f64) -> RunPoint {
        let none = Force::from_si(0.0);
        RunPoint {
            station: metres(station),
            time: Time::from_si(0.0),
            ground_speed: Speed::from_si(speed),
            airspeed: Speed::from_si(speed),
            thrust: none,
            lift: none,
            braking: none,
            friction: ratio(0.0),
            main_leg_load: none,
            nose_leg_load: none,
            height: metres(height),
        }
    }

    fn patch(from: f64, to: f64) -> Patch {
        fn given(value: Length) -> Given<Length> {
            let origin = Origin { file: "day".into(), line: 1, column: 1, key: "from".into() };
            Given { value, origin, source: None }
        }
        Patch {
            from: given(metres(from)),
            to: metres(to),
            depth: given(millimetres(5.0)),
            stones_per_square_metre: None,
            largest_stone: None,
            sizes: Vec::new(),
            rolling: None,
        }
    }

    /// [NASA-TN-D-2056]: 9 and 7.7 kt by the root of the pressure in psi. At 100 psi
    /// 80 kt turning are inside 90 kt, 79 kt at touchdown over 77 kt.
    #[test]
    fn a_touchdown_in_the_water_comes_before_a_faster_run_over_it() {
        let landing = (Phase::Landing, knots(79.0), Spin::TouchingDown);
        let take_off = (Phase::TakeOff, knots(80.0), Spin::Turning);
        assert!(nearness(&landing) > nearness(&take_off));
    }

    #[test]
    fn only_wheels_on_the_ground_ride_on_the_water() {
        let trace = RunTrace {
            points: vec![point(0.0, 70.0, 10.0), point(100.0, 65.0, 0.0), point(110.0, 60.0, 0.0)],
            events: vec![RunEvent {
                kind: RunEventKind::Touchdown,
                station: metres(100.0),
                time: Time::from_si(0.0),
                ground_speed: Speed::from_si(65.0),
            }],
        };
        let over = |from, to| fastest_over(&trace, &patch(from, to));
        assert_eq!(over(20.0, 60.0), None);
        assert_eq!(over(90.0, 105.0), Some((Speed::from_si(65.0), Spin::TouchingDown)));
        assert_eq!(over(104.0, 106.0), Some((Speed::from_si(65.0), Spin::Turning)));
        assert_eq!(over(200.0, 300.0), None);
    }
}
