//! A thrust schedule against full thrust from brake release: what must not
//! change, and what must not get shorter.

mod fixture;

use approx::assert_relative_eq;
use fixture::{even_ground, take_off_flap, twin};
use hardpan_model::{Direction, FieldRule};
use hardpan_quantity::{Quantity, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, Error, Ground, RunModel, Situation, TakeOffPlan, TakeOffRun, ThrustSchedule,
    WindComponents, take_off,
};
use proptest::prelude::*;
use rstest::rstest;

fn run(rule: FieldRule, schedule: ThrustSchedule, mass: f64) -> Result<TakeOffRun, Error> {
    let condition = even_ground(2500.0, 0.0, 0.04, 0.25);
    let ground = Ground::new(&condition, Direction::Up, metres(2500.0)).expect("ground");
    let situation = Situation {
        mass: kilograms(mass),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 5.0).expect("air"),
        wind: WindComponents::stated(knots(5.0), knots(0.0)),
        ground: &ground,
    };
    let plan = TakeOffPlan {
        rule,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: true,
    };
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
    take_off(&model.with_schedule(schedule), &situation, &plan)
}

fn rows(stated: &[(f64, f64)]) -> Result<ThrustSchedule, Error> {
    let typed: Vec<_> = stated.iter().map(|row| (knots(row.0), percent(row.1))).collect();
    ThrustSchedule::new(&typed)
}

#[rstest]
#[case(FieldRule::LargeTakeOff)]
#[case(FieldRule::AllEnginesTakeOff)]
fn full_thrust_as_a_schedule_changes_no_bit(#[case] rule: FieldRule) {
    let stated = rows(&[(0.0, 100.0), (40.0, 100.0), (60.0, 100.0)]).expect("a schedule");
    let full = run(rule, ThrustSchedule::full(), 45_000.0).expect("a run");
    assert_eq!(full, run(rule, stated, 45_000.0).expect("a run"));
}

#[rstest]
#[case(-1.0, 0.4)]
#[case(0.0, 0.4)]
#[case(10.0, 0.4)]
#[case(25.0, 0.6)]
#[case(39.999_999, 0.8)]
#[case(40.0, 0.8)]
#[case(50.0, 0.9)]
#[case(60.0, 1.0)]
#[case(140.0, 1.0)]
fn shares_are_held_joined_and_full_at_last(#[case] speed: f64, #[case] share: f64) {
    let schedule = rows(&[(10.0, 40.0), (40.0, 80.0), (60.0, 100.0)]).expect("a schedule");
    assert_relative_eq!(schedule.share(knots(speed)).si(), share, epsilon = 1e-6);
}

#[rstest]
#[case(&[(20.0, 40.0), (20.0, 100.0)])]
#[case(&[(20.0, 40.0), (50.0, 90.0)])]
#[case(&[(20.0, 0.0), (50.0, 100.0)])]
#[case(&[(20.0, 101.0), (50.0, 100.0)])]
#[case(&[(f64::NAN, 40.0), (50.0, 100.0)])]
#[case(&[(20.0, f64::NAN), (50.0, 100.0)])]
#[case(&[(-1.0, 40.0), (50.0, 100.0)])]
#[case(&[(1.0, 9.0), (2.0, 9.0), (3.0, 9.0), (4.0, 9.0), (5.0, 9.0), (6.0, 9.0), (7.0, 9.0), (8.0, 9.0), (9.0, 100.0)])]
fn what_is_no_schedule_is_refused(#[case] stated: &[(f64, f64)]) {
    assert!(rows(stated).is_err());
}

/// Half of the thrust up to a ground speed without resistance takes twice the
/// distance to it: `s = m V²/2T`. With resistance it takes more than twice.
#[test]
fn half_thrust_takes_more_than_twice_the_distance_to_a_speed() {
    let half = rows(&[(60.0, 50.0), (60.001, 100.0)]).expect("a schedule");
    let distance = |schedule| {
        let run = run(FieldRule::LargeTakeOff, schedule, 45_000.0).expect("a run");
        let points = run.trace.expect("a trace").points;
        let at = points.iter().position(|point| point.ground_speed >= knots(60.0));
        let at = at.expect("a point at that speed");
        let (a, b) = (&points[at - 1], &points[at]);
        let share = (knots(60.0) - a.ground_speed) / (b.ground_speed - a.ground_speed);
        (a.station + share * (b.station - a.station)).si()
    };
    let (full, half) = (distance(ThrustSchedule::full()), distance(half));
    assert!(half > 2.0 * full && half < 3.5 * full, "{full} m and {half} m");
}

proptest! {
    #[test]
    fn no_schedule_makes_a_take_off_shorter(
        shares in proptest::array::uniform3(20.0..100.0f64),
        speeds in proptest::array::uniform3(1.0..30.0f64),
        mass in 35_000.0..52_000.0f64,
    ) {
        let [a, b, c] = speeds;
        let stated = [(a, shares[0]), (a + b, shares[1]), (a + b + c, shares[2]), (95.0, 100.0)];
        let schedule = rows(&stated).expect("a schedule");
        for rule in [FieldRule::LargeTakeOff, FieldRule::AllEnginesTakeOff] {
            let full = run(rule, ThrustSchedule::full(), mass).expect("a run");
            let Ok(slow) = run(rule, schedule, mass) else { continue };
            prop_assert!(slow.all_engines.screen >= full.all_engines.screen);
            prop_assert!(slow.distance_needed >= full.distance_needed);
            prop_assert!(slow.accelerate_stop_needed >= full.accelerate_stop_needed);
            prop_assert!(slow.stop_from_rotation >= full.stop_from_rotation);
        }
    }
}
