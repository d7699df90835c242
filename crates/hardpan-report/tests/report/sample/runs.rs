//! Invented runs with constant accelerations.

use hardpan_model::{RunEvent, RunEventKind, RunPoint, RunTrace};
use hardpan_quantity::{kilonewtons, knots, metres, ratio, seconds};

/// Down the glide to 320 m, then to a stop at 1 390 m.
pub(crate) fn landing() -> RunTrace {
    let mut points = vec![point(20.0, 121.0, 15.2), point(170.0, 119.0, 7.0)];
    points.extend((0..=40).map(|n| {
        let share = f64::from(n) / 40.0;
        point(320.0 + 1070.0 * share, 114.0 * (1.0 - share).sqrt(), 0.0)
    }));
    let events = vec![
        event(RunEventKind::Screen, 20.0, 121.0),
        event(RunEventKind::Touchdown, 320.0, 114.0),
        event(RunEventKind::BrakesOn, 390.0, 110.0),
        event(RunEventKind::Stop, 1390.0, 0.0),
    ];
    RunTrace { points, events }
}

/// From 1 980 m down the stations, off the ground at 760 m.
pub(crate) fn take_off() -> RunTrace {
    let mut points: Vec<RunPoint> = (0..=40)
        .map(|n| {
            let share = f64::from(n) / 40.0;
            point(1980.0 - 1220.0 * share, 116.0 * share.sqrt(), 0.0)
        })
        .collect();
    points.extend([point(560.0, 119.0, 4.0), point(270.0, 122.0, 10.7)]);
    let events = vec![
        event(RunEventKind::BrakeRelease, 1980.0, 0.0),
        event(RunEventKind::EngineFailure, 1060.0, 101.0),
        event(RunEventKind::Decision, 1020.0, 103.0),
        event(RunEventKind::Rotation, 880.0, 111.0),
        event(RunEventKind::LiftOff, 760.0, 116.0),
        event(RunEventKind::Screen, 270.0, 122.0),
    ];
    RunTrace { points, events }
}

/// The same to the decision, then to a stop at 115 m.
pub(crate) fn rejected() -> RunTrace {
    let mut points: Vec<RunPoint> = (0..=30)
        .map(|n| {
            let share = f64::from(n) / 30.0;
            point(1980.0 - 960.0 * share, 103.0 * share.sqrt(), 0.0)
        })
        .collect();
    points.extend((1..=30).map(|n| {
        let share = f64::from(n) / 30.0;
        point(1020.0 - 905.0 * share, 103.0 * (1.0 - share).sqrt(), 0.0)
    }));
    let events = vec![
        event(RunEventKind::BrakeRelease, 1980.0, 0.0),
        event(RunEventKind::Decision, 1020.0, 103.0),
        event(RunEventKind::Stop, 115.0, 0.0),
    ];
    RunTrace { points, events }
}

fn point(station: f64, speed: f64, height: f64) -> RunPoint {
    RunPoint {
        station: metres(station),
        time: seconds(0.0),
        ground_speed: knots(speed),
        airspeed: knots(speed + 3.0),
        thrust: kilonewtons(110.0),
        lift: kilonewtons(0.03 * speed * speed),
        braking: kilonewtons(0.0),
        friction: ratio(if height > 0.0 { 0.0 } else { 0.03 }),
        main_leg_load: kilonewtons(190.0),
        nose_leg_load: kilonewtons(38.0),
        height: metres(height),
    }
}

fn event(kind: RunEventKind, station: f64, speed: f64) -> RunEvent {
    RunEvent { kind, station: metres(station), time: seconds(0.0), ground_speed: knots(speed) }
}
