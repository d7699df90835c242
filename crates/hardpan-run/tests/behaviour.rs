//! What must hold of every run, whatever the aeroplane and the day.

mod fixture;

use fixture::{even_ground, ground_by, landing_flap, single, take_off_flap, twin};
use hardpan_model::{Aeroplane, Condition, Direction, FieldRule, SurfaceState};
use hardpan_quantity::{
    Length, Quantity, Speed, kelvins, kilograms, knots, metres, pascals, percent, ratio,
};
use hardpan_run::{
    Air, Available, DecisionChoice, DecisionRange, Error, Ground, LandingPlan, LandingRun,
    RunModel, Situation, TakeOffPlan, TakeOffRun, WindComponents, landing, take_off,
};
use proptest::prelude::*;

const LENGTH: f64 = 2500.0;

/// One take-off or landing in a few numbers.
#[derive(Debug, Clone, Copy)]
struct Case {
    mass: f64,
    altitude: f64,
    warmer: f64,
    headwind_kt: f64,
    grade: f64,
    rolling: f64,
    braking: f64,
}

const PLAIN: Case = Case {
    mass: 45_000.0,
    altitude: 300.0,
    warmer: 5.0,
    headwind_kt: 0.0,
    grade: 0.0,
    rolling: 0.04,
    braking: 0.25,
};

impl Case {
    fn ground(&self) -> Ground {
        let condition = even_ground(LENGTH, self.grade, self.rolling, self.braking);
        Ground::new(&condition, Direction::Up, metres(LENGTH)).expect("ground")
    }

    fn situation<'a>(&self, ground: &'a Ground) -> Situation<'a> {
        Situation {
            mass: kilograms(self.mass),
            centre_of_gravity: percent(22.0),
            air: Air::standard(metres(self.altitude), self.warmer).expect("air"),
            wind: WindComponents::stated(knots(self.headwind_kt), knots(0.0)),
            ground,
        }
    }

    fn take_off(&self, aeroplane: &Aeroplane, rule: FieldRule) -> Result<TakeOffRun, Error> {
        let model = RunModel::for_take_off(aeroplane, &take_off_flap()).expect("model");
        let plan = TakeOffPlan {
            rule,
            line_up: metres(0.0),
            available: Available::default(),
            wet_screen: None,
            decision_speed: None,
            brake_allowance: None,
            traces: false,
        };
        take_off(&model, &self.situation(&self.ground()), &plan)
    }

    fn landing(&self, aeroplane: &Aeroplane) -> Result<LandingRun, Error> {
        let model = RunModel::for_landing(aeroplane, &landing_flap()).expect("model");
        let plan = LandingPlan {
            own_factor: None,
            rule: FieldRule::LandingSixtyPercent,
            state: SurfaceState::Dry,
            speed_addition: knots(5.0),
            late_by: None,
            brake_target: None,
            traces: false,
        };
        landing(&model, &self.situation(&self.ground()), &plan)
    }
}

/// A distance; what cannot be done counts as endless.
fn needed(run: Result<TakeOffRun, Error>) -> [f64; 3] {
    run.map_or([f64::INFINITY; 3], |run| {
        let si = |length: Option<Length>| length.map_or(f64::INFINITY, |length| length.si());
        let all = run.all_engines.screen.si();
        [all, si(run.distance_needed), si(run.accelerate_stop_needed)]
    })
}

/// Whether the decision speed is the lowest that control on the ground allows.
/// It then lies one second of acceleration above the control speed, so a lazier
/// aeroplane stops from a lower one, and the stop may shrink.
fn is_held_up_by_control(run: &Result<TakeOffRun, Error>) -> bool {
    let decision = run.as_ref().ok().and_then(|run| run.decision);
    decision.is_some_and(|decision| decision.choice == DecisionChoice::LowestAllowed)
}

fn stops(run: Result<LandingRun, Error>) -> f64 {
    run.map_or(f64::INFINITY, |run| run.stop.si())
}

/// Rounding of the search for the decision speed, in metres.
const ROUNDING: f64 = 0.01;

fn never_shorter(easy: f64, hard: f64) -> bool {
    hard >= easy - ROUNDING || easy.is_infinite() && hard.is_infinite()
}

fn any_case() -> impl Strategy<Value = Case> {
    (
        30_000.0..60_000.0f64,
        0.0..2500.0f64,
        -40.0..27.0f64,
        -10.0..20.0f64,
        -0.02..0.02f64,
        0.02..0.08f64,
        0.08..0.4f64,
    )
        .prop_map(|(mass, altitude, warmer, headwind_kt, grade, rolling, braking)| Case {
            mass,
            altitude,
            warmer,
            headwind_kt,
            grade,
            rolling,
            braking,
        })
}

/// The harder ones of a case, each by one change.
fn harder_take_offs(case: Case, more: f64) -> Vec<(&'static str, Case)> {
    vec![
        ("heavier", Case { mass: case.mass * (1.0 + 0.2 * more), ..case }),
        ("hotter", Case { warmer: case.warmer + 15.0 * more, ..case }),
        ("higher", Case { altitude: case.altitude + 800.0 * more, ..case }),
        ("less headwind", Case { headwind_kt: case.headwind_kt - 10.0 * more, ..case }),
        ("softer", Case { rolling: case.rolling + 0.06 * more, ..case }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(48) })]

    #[test]
    fn prop_harder_take_offs_are_never_shorter(case in any_case(), more in 0.0..1.0f64) {
        let easy = case.take_off(&twin(), FieldRule::LargeTakeOff);
        let compared = if is_held_up_by_control(&easy) { 2 } else { 3 };
        let easy = needed(easy);
        for (name, hard) in harder_take_offs(case, more) {
            let hard = needed(hard.take_off(&twin(), FieldRule::LargeTakeOff));
            for (easy, hard) in easy.iter().zip(hard).take(compared) {
                prop_assert!(never_shorter(*easy, hard), "{name}: {easy} then {hard}");
            }
        }
        let uphill = Case { grade: case.grade + 0.02 * more, ..case };
        let uphill = needed(uphill.take_off(&twin(), FieldRule::LargeTakeOff));
        // A rising strip helps the stop, so with poor brakes it may shorten the balanced field.
        prop_assert!(never_shorter(easy[0], uphill[0]), "uphill");
        let slippery = Case { braking: case.braking * (1.0 - 0.6 * more), ..case };
        let slippery = needed(slippery.take_off(&twin(), FieldRule::LargeTakeOff));
        prop_assert!(never_shorter(easy[1], slippery[1]) && never_shorter(easy[2], slippery[2]));
    }

    #[test]
    fn prop_harder_single_engine_take_offs_are_never_shorter(
        case in any_case(),
        more in 0.0..1.0f64,
    ) {
        let case = Case { mass: case.mass / 10.0, ..case };
        let easy = needed(case.take_off(&single(), FieldRule::AllEnginesTakeOff));
        for (name, hard) in harder_take_offs(case, more) {
            let hard = needed(hard.take_off(&single(), FieldRule::AllEnginesTakeOff));
            prop_assert!(never_shorter(easy[1], hard[1]), "{name}: {} then {}", easy[1], hard[1]);
        }
    }

    #[test]
    fn prop_harder_landings_are_never_shorter(case in any_case(), more in 0.0..1.0f64) {
        let easy = stops(case.landing(&twin()));
        for (name, hard) in [
            ("heavier", Case { mass: case.mass * (1.0 + 0.2 * more), ..case }),
            ("hotter", Case { warmer: case.warmer + 15.0 * more, ..case }),
            ("higher", Case { altitude: case.altitude + 800.0 * more, ..case }),
            ("less headwind", Case { headwind_kt: case.headwind_kt - 10.0 * more, ..case }),
            ("downhill", Case { grade: case.grade - 0.02 * more, ..case }),
            ("slippery", Case { braking: case.braking * (1.0 - 0.6 * more), ..case }),
        ] {
            let hard = stops(hard.landing(&twin()));
            prop_assert!(never_shorter(easy, hard), "{name}: {easy} then {hard}");
        }
    }

    #[test]
    fn prop_small_changes_of_mass_make_small_changes_of_distance(case in any_case()) {
        let heavier = Case { mass: case.mass + 1.0, ..case };
        let first = needed(case.take_off(&twin(), FieldRule::LargeTakeOff));
        let second = needed(heavier.take_off(&twin(), FieldRule::LargeTakeOff));
        for (first, second) in first.iter().zip(second) {
            if first.is_finite() && *first < 6000.0 {
                prop_assert!((second - first).abs() < 5.0, "{first} then {second}");
            }
        }
    }

    #[test]
    fn prop_decision_speed_lies_in_its_range(
        case in any_case(),
        go in 800.0..4000.0f64,
        stop in 800.0..4000.0f64,
    ) {
        let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
        let ground = case.ground();
        let available = Available {
            take_off_distance: Some(metres(go)),
            accelerate_stop: Some(metres(stop)),
        };
        let plan = TakeOffPlan {
            rule: FieldRule::LargeTakeOff,
            line_up: metres(15.0),
            available,
            wet_screen: None,
            decision_speed: None,
            brake_allowance: None,
            traces: false,
        };
        let Ok(run) = take_off(&model, &case.situation(&ground), &plan) else { return Ok(()) };
        let decision = run.decision.expect("a rule with engine failure");
        let slack = 1e-3;
        prop_assert!(decision.lowest.si() <= decision.highest.si() + slack);
        prop_assert!(decision.speed.si() >= decision.lowest.si() - slack);
        prop_assert!(decision.speed.si() <= decision.highest.si() + slack);
        prop_assert!(decision.highest.si() <= run.speeds.rotation.calibrated.si() + slack);
        if let DecisionRange::Between(low, high) = decision.range {
            prop_assert!(low.si() - slack <= decision.speed.si());
            prop_assert!(decision.speed.si() <= high.si() + slack);
            let carried_on = decision.carried_on.expect("a speed from which it goes on");
            prop_assert!(carried_on.screen.si() + 15.0 <= go);
            prop_assert!(decision.stop.si().max(decision.stop_all_engines.si()) + 15.0 <= stop);
        }
    }

    #[test]
    fn prop_no_input_panics(
        mass in any_number(), centre in any_number(), pressure in any_number(),
        temperature in any_number(), wind in any_number(), length in any_number(),
        points in prop::collection::vec((any_number(), any_number(), any_number(), any_number()), 0..6),
        down in any::<bool>(),
    ) {
        let points = points
            .into_iter()
            .map(|(station, elevation, rolling, braking)| hardpan_model::GroundPoint {
                station: metres(station),
                elevation: metres(elevation),
                rolling: ratio(rolling),
                braking: ratio(braking),
                water: metres(0.0),
            })
            .collect();
        let direction = if down { Direction::Down } else { Direction::Up };
        let stated = Ground::new(&Condition { points }, direction, metres(length));
        let ground = stated.unwrap_or_else(|_| PLAIN.ground());
        let plain = Air::standard(metres(0.0), 0.0).expect("air");
        let situation = Situation {
            mass: kilograms(mass),
            centre_of_gravity: ratio(centre),
            air: Air::new(pascals(pressure), kelvins(temperature)).unwrap_or(plain),
            wind: WindComponents::stated(Speed::from_si(wind), Speed::from_si(wind)),
            ground: &ground,
        };
        try_everything(&situation);
        try_everything(&Situation { mass: kilograms(45_000.0), ..situation });
        try_everything(&Situation { centre_of_gravity: percent(20.0), ..situation });
    }
}

/// Any number: plausible, huge, tiny, negative or none.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![-2.0..2.0f64, -100.0..1000.0f64, 1e3..2e5f64, any::<f64>()]
}

fn try_everything(situation: &Situation) {
    for aeroplane in [twin(), single()] {
        let model = RunModel::for_take_off(&aeroplane, &take_off_flap()).expect("model");
        for rule in [FieldRule::LargeTakeOff, FieldRule::AllEnginesTakeOff] {
            let plan = TakeOffPlan {
                rule,
                line_up: metres(0.0),
                available: Available {
                    take_off_distance: Some(metres(1500.0)),
                    accelerate_stop: Some(metres(1500.0)),
                },
                wet_screen: None,
                decision_speed: None,
                brake_allowance: None,
                traces: true,
            };
            if let Ok(run) = take_off(&model, situation, &plan) {
                assert!(run.all_engines.screen.si().is_finite());
            }
        }
        let model = RunModel::for_landing(&aeroplane, &landing_flap()).expect("model");
        let plan = LandingPlan {
            own_factor: None,
            rule: FieldRule::LandingSeventyPercent,
            state: SurfaceState::Wet,
            speed_addition: knots(0.0),
            late_by: None,
            brake_target: None,
            traces: true,
        };
        if let Ok(run) = landing(&model, situation, &plan) {
            assert!(run.stop.si().is_finite());
        }
    }
}

#[test]
fn mud_that_holds_the_aeroplane_is_an_error() {
    let case = Case { rolling: 0.6, ..PLAIN };
    let error = case.take_off(&twin(), FieldRule::LargeTakeOff).expect_err("it is stuck");
    assert!(matches!(error, Error::CannotAccelerate { .. }), "{error}");
}

#[test]
fn ice_on_a_slope_is_an_error() {
    let case = Case { braking: 0.01, grade: -0.04, ..PLAIN };
    let error = case.landing(&twin()).expect_err("it slides");
    assert!(matches!(error, Error::CannotStop { .. }), "{error}");
}

#[test]
fn too_heavy_to_climb_on_one_engine_gives_no_distance() {
    let case = Case { mass: 62_000.0, warmer: 20.0, ..PLAIN };
    let run = case.take_off(&twin(), FieldRule::LargeTakeOff).expect("all engines climb");
    assert_eq!(run.distance_needed, None);
    assert!(run.climb.engine_out.expect("two engines").gear_down.si() < 0.01);
}

#[test]
fn one_engine_has_no_engine_failure_rule() {
    let case = Case { mass: 4500.0, ..PLAIN };
    let error = case.take_off(&single(), FieldRule::LargeTakeOff).expect_err("one engine");
    assert_eq!(error, Error::RuleNeedsTwoEngines);
}

#[test]
fn the_other_direction_sees_the_ground_the_other_way_round() {
    let soft = |from: f64| {
        ground_by(LENGTH, 5.0, move |station| {
            let rolling = if (from..from + 200.0).contains(&station) { 0.15 } else { 0.04 };
            (0.004 * station, rolling, 0.25)
        })
    };
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: true,
    };
    let run = |condition: &Condition, direction: Direction| {
        let ground = Ground::new(condition, direction, metres(LENGTH)).expect("ground");
        take_off(&model, &PLAIN.situation(&ground), &plan).expect("a take-off")
    };
    let up = run(&soft(400.0), Direction::Up);
    let mut mirrored = soft(400.0);
    for point in &mut mirrored.points {
        point.station = metres(LENGTH) - point.station;
    }
    mirrored.points.reverse();
    let down = run(&mirrored, Direction::Down);
    assert_eq!(up.all_engines, down.all_engines);
    let stations = down.trace.expect("a trace").points;
    assert_eq!(stations.first().map(|point| point.station.si()), Some(LENGTH));
    assert!(stations.windows(2).all(|pair| pair[1].station <= pair[0].station));
}

#[test]
fn a_run_beyond_the_survey_says_so() {
    let condition = even_ground(600.0, 0.0, 0.04, 0.25);
    let ground = Ground::new(&condition, Direction::Up, metres(600.0)).expect("ground");
    let model = RunModel::for_landing(&twin(), &landing_flap()).expect("model");
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingSixtyPercent,
        state: SurfaceState::Dry,
        speed_addition: knots(0.0),
        late_by: None,
        brake_target: None,
        traces: false,
    };
    let run = landing(&model, &PLAIN.situation(&ground), &plan).expect("a landing");
    assert!(run.beyond_survey);
    assert!(!PLAIN.landing(&twin()).expect("a landing").beyond_survey);
}

#[test]
fn everything_that_is_missing_is_named_at_once() {
    let empty = Aeroplane::default();
    let mut flap = take_off_flap();
    flap.lift_maximum = None;
    let needs = RunModel::for_take_off(&empty, &flap).expect_err("nothing is known");
    for key in [
        "aeroplane: wing.area",
        "aeroplane: engines.kind",
        "aeroplane: engines.count",
        "aeroplane: gear.wheelbase",
        "aeroplane: balance.centre_of_gravity_height",
        "aeroplane: brakes.wheels",
        "aeroplane: speeds.rotation_time",
        "aeroplane: flap \"5\": lift_maximum",
    ] {
        assert!(needs.iter().any(|need| need.what == key), "{key}");
    }
}
