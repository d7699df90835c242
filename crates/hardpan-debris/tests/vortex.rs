//! The vortex along invented runs: closed forms, monotone answers, refusals.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_debris::{
    Air, Assurance, Error, Inlet, Propeller, RunWind, VortexState, flow_in_air, inlet_velocity,
    propeller_vortex_along, rolling_schedule, specific_thrust, static_share, straight_schedule,
    stretches, vortex_along,
};
use hardpan_model::{RunPoint, RunTrace};
use hardpan_quantity::{
    MassFlow, Quantity, kilonewtons, knots, metres, metres_per_second, newtons, ratio, seconds,
};
use proptest::prelude::*;

fn calm() -> RunWind {
    RunWind { headwind: knots(0.0), crosswind: knots(0.0) }
}

fn low_pod() -> Inlet {
    Inlet { diameter: metres(1.5), height: metres(1.5), take_off_flow: MassFlow::from_si(300.0) }
}

fn run(speeds: &[f64], thrust: f64) -> RunTrace {
    let points = speeds
        .iter()
        .enumerate()
        .map(|(index, speed)| RunPoint {
            station: metres(index as f64 * 10.0),
            time: seconds(index as f64),
            ground_speed: metres_per_second(*speed),
            airspeed: metres_per_second(*speed),
            thrust: newtons(thrust),
            lift: newtons(0.0),
            braking: newtons(0.0),
            friction: ratio(0.0),
            main_leg_load: newtons(0.0),
            nose_leg_load: newtons(0.0),
            height: metres(0.0),
        })
        .collect();
    RunTrace { points, events: Vec::new() }
}

#[test]
fn a_take_off_goes_from_on_through_uncertain_to_off() {
    let trace = run(&[0.0, 5.0, 10.0, 20.0, 25.0, 30.0, 40.0], 200e3);
    let points =
        vortex_along(&trace, &low_pod(), &Air::standard(), &calm(), |_| kilonewtons(200.0))
            .unwrap();
    let states: Vec<_> = points.iter().map(|point| point.state).collect();
    use VortexState::{Off, On, Uncertain};
    assert_eq!(states, [On, On, On, Uncertain, Uncertain, Off, Off]);
    assert_eq!(
        stretches(points.iter().map(|point| (point.station, point.state)), On),
        [(metres(0.0), metres(20.0))]
    );
    assert!(points[0].risk_index.is_infinite());
}

#[test]
fn schedule_and_share_are_each_other_turned_round() {
    let (inlet, air) = (low_pod(), Air::standard());
    for assurance in [Assurance::Off, Assurance::NotOn] {
        for row in rolling_schedule(&inlet, &air, &calm(), assurance).unwrap() {
            let share = inlet.greatest_share(&air, row.from_speed, &calm(), assurance).unwrap();
            assert_relative_eq!(share.si(), row.share.si(), max_relative = 1e-9);
        }
        assert_eq!(static_share(&inlet, &air, &calm(), assurance).unwrap().si(), 0.0);
    }
}

#[test]
fn the_relative_wind_is_a_vector_by_station_and_time() {
    let wind = RunWind { headwind: metres_per_second(4.0), crosswind: metres_per_second(-10.0) };
    let trace = run(&[0.0, 6.0, 26.0], 200e3);
    let points = vortex_along(&trace, &low_pod(), &Air::standard(), &wind, |_| newtons(200e3));
    let points = points.unwrap();
    for (point, ahead) in points.iter().zip([4.0_f64, 10.0, 30.0]) {
        assert_relative_eq!(point.relative_wind.si(), ahead.hypot(10.0), max_relative = 1e-12);
        assert_relative_eq!(point.wind_angle.si().tan(), 10.0 / ahead, max_relative = 1e-12);
    }
    let times: Vec<f64> = points.iter().map(|point| point.time.si()).collect();
    assert_eq!(times, [0.0, 1.0, 2.0]);
    let tail = RunWind { headwind: metres_per_second(-4.0), ..calm() };
    let points = vortex_along(&trace, &low_pod(), &Air::standard(), &tail, |_| newtons(200e3));
    assert_eq!(points.unwrap()[0].relative_wind.si(), 0.0);
}

#[test]
fn reverse_thrust_counts_as_full_flow() {
    let points = vortex_along(&run(&[20.0], -30e3), &low_pod(), &Air::standard(), &calm(), |_| {
        kilonewtons(200.0)
    });
    assert_eq!(points.unwrap()[0].share.si(), 1.0);
}

#[test]
fn a_propeller_outruns_its_vortex_and_reverse_brings_it_back() {
    let propeller = Propeller { diameter: metres(3.9), height: metres(2.4) };
    let along = |trace: &RunTrace| {
        propeller_vortex_along(trace, &propeller, 2, &Air::standard(), &calm()).unwrap()
    };
    let states: Vec<_> =
        along(&run(&[0.0, 5.0, 20.0], 60e3)).iter().map(|point| point.state).collect();
    assert_eq!(states, [VortexState::On, VortexState::On, VortexState::Off]);
    assert_eq!(along(&run(&[30.0], -10e3))[0].state, VortexState::On);
    let trace = run(&[0.0], 60e3);
    assert!(propeller_vortex_along(&trace, &propeller, 0, &Air::standard(), &calm()).is_err());
}

#[test]
fn refuses_what_it_cannot_use() {
    let air = Air::standard();
    assert!(matches!(
        inlet_velocity(MassFlow::from_si(900.0), metres(1.5), &air),
        Err(Error::Choked { .. })
    ));
    let buried = Inlet { height: metres(0.2), ..low_pod() };
    assert!(matches!(
        buried.vortex(ratio(1.0), &air, knots(0.0), &calm()),
        Err(Error::OutOfRange { .. })
    ));
    let storm = RunWind { headwind: metres_per_second(f64::NAN), ..calm() };
    assert!(low_pod().vortex(ratio(1.0), &air, knots(0.0), &storm).is_err());
    assert!(specific_thrust(f64::NAN).is_err());
}

#[test]
fn hot_and_high_air_lowers_the_flow_as_density_and_sound_do() {
    let air = Air { pressure: hardpan_quantity::pascals(80_000.0), ..Air::standard() };
    let flow = flow_in_air(MassFlow::from_si(300.0), &air).unwrap();
    assert_relative_eq!(flow.si(), 300.0 * 80_000.0 / 101_325.0, max_relative = 1e-12);
    let inlet = low_pod();
    assert_relative_eq!(
        inlet.velocity(ratio(1.0), &air).unwrap().si(),
        inlet.velocity(ratio(1.0), &Air::standard()).unwrap().si(),
        max_relative = 1e-9
    );
}

proptest! {
    #[test]
    fn prop_more_wind_or_speed_never_strengthens(
        height in 0.8_f64..4.0, share in 0.05_f64..1.0, speed in 0.0_f64..60.0,
        head in -15.0_f64..15.0, cross in 0.0_f64..15.0, more in 0.0_f64..10.0,
    ) {
        let inlet = Inlet { height: metres(height), ..low_pod() };
        let index = |speed: f64, head: f64, cross: f64| {
            let wind = RunWind {
                headwind: metres_per_second(head),
                crosswind: metres_per_second(cross),
            };
            inlet
                .risk_index(ratio(share), &Air::standard(), metres_per_second(speed), &wind)
                .unwrap()
        };
        let before = index(speed, head, cross);
        prop_assert!(index(speed + more, head, cross) <= before);
        prop_assert!(index(speed, head + more, cross) <= before);
        prop_assert!(index(speed, head, cross + more) <= before);
        prop_assert!(index(speed, head, -cross) == before);
    }

    #[test]
    fn prop_lower_inlet_and_more_thrust_never_help(
        height in 0.8_f64..4.0, drop in 0.0_f64..0.05, share in 0.05_f64..0.9,
        more in 0.0_f64..0.1, speed in 0.0_f64..60.0,
    ) {
        let index = |height: f64, share: f64| {
            let inlet = Inlet { height: metres(height), ..low_pod() };
            inlet
                .risk_index(ratio(share), &Air::standard(), metres_per_second(speed), &calm())
                .unwrap()
        };
        prop_assert!(index(height - drop, share) >= index(height, share));
        prop_assert!(index(height, share + more) >= index(height, share));
    }

    /// Straight lines between the rows of a schedule never set what may hold a vortex.
    #[test]
    fn prop_a_straight_schedule_holds_no_vortex_between_its_rows(
        height in 1.0_f64..4.0, head in -5.0_f64..8.0, at in 0.0_f64..1.0, first in 0_usize..9,
    ) {
        let inlet = Inlet { height: metres(height), ..low_pod() };
        let wind = RunWind { headwind: metres_per_second(head), ..calm() };
        let air = Air::standard();
        let lowest = rolling_schedule(&inlet, &air, &wind, Assurance::Off).unwrap();
        let rows = straight_schedule(&lowest, &wind).unwrap();
        for (raised, row) in rows.iter().zip(&lowest) {
            prop_assert_eq!(raised.share, row.share);
            prop_assert!(raised.from_speed.si() >= row.from_speed.si() - 1e-12);
        }
        let (low, high) = (rows[first], rows[first + 1]);
        let between = |a: f64, b: f64| a + at * (b - a);
        let speed = between(low.from_speed.si(), high.from_speed.si());
        prop_assume!(low.from_speed.si() > 0.0);
        let share = ratio(between(low.share.si(), high.share.si()));
        let index = inlet.risk_index(share, &air, metres_per_second(speed), &wind).unwrap();
        // Compressibility bends the flow a little against the root of the share.
        prop_assert!(index <= 0.8 * 1.02, "{index}");
    }

    #[test]
    fn prop_a_tailwind_is_no_better_than_calm(share in 0.1_f64..1.0, tail in 0.0_f64..10.0) {
        let (inlet, air) = (low_pod(), Air::standard());
        let wind = RunWind { headwind: metres_per_second(-tail), ..calm() };
        let calm = inlet.lowest_speed_for(ratio(share), &air, &calm(), Assurance::Off).unwrap();
        let late = inlet.lowest_speed_for(ratio(share), &air, &wind, Assurance::Off).unwrap();
        prop_assert!(late >= calm);
        prop_assert_eq!(
            inlet.vortex(ratio(share), &air, metres_per_second(0.0), &wind).unwrap(),
            VortexState::On
        );
    }

    #[test]
    fn prop_no_panic_on_any_number(
        a in any::<f64>(), b in any::<f64>(), c in any::<f64>(), d in any::<f64>(),
    ) {
        let inlet = Inlet { diameter: metres(a), height: metres(b), take_off_flow: MassFlow::from_si(c) };
        let wind = RunWind { headwind: metres_per_second(d), crosswind: metres_per_second(a) };
        let air = Air::standard();
        let _ = inlet.vortex(ratio(b), &air, metres_per_second(c), &wind);
        let _ = inlet.lowest_speed_for(ratio(d), &air, &wind, Assurance::Off);
        let _ = rolling_schedule(&inlet, &air, &wind, Assurance::NotOn);
        let _ = vortex_along(&run(&[a, b], c), &low_pod(), &air, &wind, |_| newtons(d));
    }
}
