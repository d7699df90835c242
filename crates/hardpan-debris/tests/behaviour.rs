//! Stones, dust, blast, reverse and clearances: closed forms, monotone answers,
//! refusals, and no panic on any number.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_debris::{
    Air, Assurance, BodyPoint, DamageBand, Drops, Efflux, ErosionSurface, Error, FORMULAS,
    FailedLegs, Grain, Jet, JetPath, Laminate, Launch, NoseOrTail, Propeller, RunWind, Stance,
    Stone, VortexState, axle_drop, blast_pressure, cable_margin, cloud_share, cloud_time,
    descent_speed, missile_speed, propeller_clearance_rule, stone_table, stones_met,
    stones_under_edges,
};
use hardpan_quantity::{
    Amount, Density, Energy, Length, Quantity, degrees, kilonewtons, knots, megapascals, metres,
    metres_per_second, millimetres, ratio,
};
use proptest::prelude::*;

fn air() -> Density {
    Density::from_si(1.225)
}

fn stone(diameter: f64, drag: f64) -> Stone {
    Stone { diameter: metres(diameter), density: Density::from_si(2650.0), drag, lift: 0.0 }
}

fn launch(forward: f64, upward: f64) -> Launch {
    Launch {
        forward: metres_per_second(forward),
        sideways: metres_per_second(0.0),
        upward: metres_per_second(upward),
    }
}

#[test]
fn exact_flight_without_drag_is_a_parabola() {
    const G: f64 = 9.806_65;
    for (forward, upward) in [(0.0, 5.0), (20.0, 10.0), (-3.0, 0.7)] {
        let flight = stone(0.02, 0.0).fly(&launch(forward, upward), air()).unwrap();
        let time = 2.0 * upward / G;
        assert_relative_eq!(flight.time.si(), time, max_relative = 1e-9);
        assert_relative_eq!(flight.forward.si(), forward * time, max_relative = 1e-9);
        assert_relative_eq!(flight.apex.si(), upward * upward / (2.0 * G), max_relative = 1e-9);
        assert_relative_eq!(flight.landing_speed.si(), forward.hypot(upward), max_relative = 1e-9);
    }
}

#[test]
fn exact_vertical_apex_with_drag() {
    // L/2 ln(1 + v²/(g L)) for a stopping length L: textbook.
    const G: f64 = 9.806_65;
    for upward in [3.0_f64, 10.0, 40.0] {
        let length = 4.0 / 3.0 * 2650.0 / 1.225 * 0.01 / 0.8;
        let apex = 0.5 * length * (upward * upward / (G * length)).ln_1p();
        let flight = stone(0.01, 0.8).fly(&launch(0.0, upward), air()).unwrap();
        assert_relative_eq!(flight.apex.si(), apex, max_relative = 1e-6);
    }
}

#[test]
fn exact_strike_without_drag() {
    let strike = stone(0.02, 0.0)
        .strike(&launch(0.0, 10.0), air(), metres_per_second(50.0), metres(2.0))
        .unwrap()
        .unwrap();
    let time = (10.0 - (100.0_f64 - 2.0 * 9.806_65 * 2.0).sqrt()) / 9.806_65;
    assert_relative_eq!(strike.time.si(), time, max_relative = 1e-9);
    assert_relative_eq!(strike.aft.si(), 50.0 * time, max_relative = 1e-9);
    let rise = 10.0 - 9.806_65 * time;
    assert_relative_eq!(strike.speed.si(), 50.0_f64.hypot(rise), max_relative = 1e-9);
    let low =
        stone(0.02, 0.8).strike(&launch(0.0, 5.0), air(), metres_per_second(50.0), metres(2.0));
    assert_eq!(low.unwrap(), None);
}

#[test]
fn rules_and_bands_as_printed() {
    assert_relative_eq!(
        propeller_clearance_rule(NoseOrTail::NoseWheel).si(),
        0.177_8,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        propeller_clearance_rule(NoseOrTail::TailWheel).si(),
        0.228_6,
        max_relative = 1e-12
    );
    let band = |joules: f64| DamageBand::of(Energy::from_si(joules)).unwrap();
    assert_eq!(band(1.9), DamageBand::Paint);
    assert_eq!(band(2.0), DamageBand::Dents);
    assert_eq!(band(10.0), DamageBand::Puncture);
    assert_eq!(band(50.1), DamageBand::BeyondDesign);
    assert_relative_eq!(
        ErosionSurface::LooseDry.onset_speed(air()).unwrap().si(),
        15.3,
        epsilon = 0.05
    );
    let cut = efflux().planning_cut_off(metres(3.0)).unwrap();
    assert_relative_eq!(cut.si(), knots(60.0).si(), max_relative = 1e-12);
    let near = efflux().planning_cut_off(metres(1.0)).unwrap();
    assert_relative_eq!(near.si(), 90.0, max_relative = 1e-9);
}

fn efflux() -> Efflux {
    Efflux {
        diameter: metres(0.6),
        speed: metres_per_second(150.0),
        angle: degrees(45.0),
        density_ratio: ratio(1.0),
    }
}

#[test]
fn merged_jets_reach_as_the_guidance_says() {
    // [FAA-AC-150-5300-13] chapter 8 puts 20 to 30 mph beyond 2 000 ft.
    let jet = Jet {
        diameter: metres(2.0),
        speed: metres_per_second(300.0),
        density_ratio: ratio(1.0),
        count: 4,
    };
    for path in [JetPath::Free, JetPath::AlongGround] {
        let miles_per_hour = jet.speed_at(metres(609.6), path).unwrap().si() / 0.447_04;
        assert!((20.0..30.0).contains(&miles_per_hour));
    }
}

#[test]
fn the_stone_table_grows_with_size() {
    let sizes = [0.002, 0.005, 0.01, 0.02, 0.04].map(metres);
    let rows =
        stone_table(&sizes, Density::from_si(2650.0), air(), metres_per_second(50.0)).unwrap();
    assert!(rows.windows(2).all(|pair| {
        pair[0].energy < pair[1].energy
            && pair[0].rolls_at < pair[1].rolls_at
            && pair[0].carried_at < pair[1].carried_at
            && pair[0].band <= pair[1].band
    }));
    assert!(stone_table(&[metres(-1.0)], air(), air(), metres_per_second(50.0)).is_err());
}

#[test]
fn a_flat_tyre_lowers_the_outer_point_more_than_its_axle() {
    let stance = Stance { wheelbase: metres(12.0), track: metres(5.0) };
    let point = BodyPoint { aft: metres(10.0), right: metres(4.9), height: metres(0.6) };
    let right = axle_drop(metres(0.5), metres(0.35), metres(0.1), metres(0.05)).unwrap();
    let drops = Drops { nose: metres(0.0), left: metres(0.0), right };
    let lowered = stance.lowering(&point, &drops).unwrap();
    assert!(lowered > right && right.si() > 0.29);
    let left = stance.clearance(&point, &drops, metres(0.1)).unwrap();
    assert_relative_eq!(left.si(), 0.6 - lowered.si() - 0.1, epsilon = 1e-12);
    assert!(axle_drop(metres(0.3), metres(0.4), metres(0.0), metres(0.0)).is_err());
    assert!(cable_margin(metres(0.2), metres(0.09), metres(0.15)).unwrap().si() < 0.0);
}

#[test]
fn the_worst_side_and_leg_set_the_least_clearance() {
    let stance = Stance { wheelbase: metres(12.0), track: metres(5.0) };
    let point = BodyPoint { aft: metres(10.0), right: metres(4.9), height: metres(0.9) };
    let failed = FailedLegs { nose: metres(0.1), main: metres(0.3) };
    let least = |rut: f64, bump: f64, failed| {
        stance.least_clearance(&point, metres(rut), metres(bump), failed).unwrap().si()
    };
    assert_relative_eq!(least(0.0, 0.0, None), 0.9, epsilon = 1e-12);
    // A wheel in a rut beside one that is not: 0.05 · (0.5 + 0.98) · 10/12.
    assert_relative_eq!(least(0.05, 0.0, None), 0.9 - 0.05 * 1.48 * 10.0 / 12.0, epsilon = 1e-12);
    assert_relative_eq!(
        least(0.0, 0.1, Some(failed)),
        0.8 - 0.3 * 1.48 * 10.0 / 12.0,
        epsilon = 1e-12
    );
    assert!(least(0.05, 0.1, Some(failed)) < least(0.0, 0.1, Some(failed)));
}

#[test]
fn a_jet_of_a_thrust_reaches_as_far_as_its_momentum() {
    let jet = |thrust: f64| {
        Jet::of_thrust(kilonewtons(thrust), metres_per_second(250.0), air(), 2).unwrap()
    };
    let end = |thrust: f64| jet(thrust).reach(missile_speed(), JetPath::AlongGround).unwrap();
    assert_relative_eq!(end(72.0).si(), 2.0 * end(18.0).si(), max_relative = 1e-9);
    let there = jet(72.0).speed_at(end(72.0), JetPath::AlongGround).unwrap();
    assert_relative_eq!(there.si(), missile_speed().si(), max_relative = 1e-9);
    let slow = Jet { speed: metres_per_second(5.0), ..jet(72.0) };
    assert_eq!(slow.reach(missile_speed(), JetPath::AlongGround).unwrap(), metres(0.0));
}

#[test]
fn a_propeller_vortex_goes_with_speed() {
    let propeller = Propeller { diameter: metres(3.9), height: metres(2.4) };
    let wind = RunWind { headwind: knots(0.0), crosswind: knots(20.0) };
    let state = |speed: f64| {
        propeller
            .vortex(kilonewtons(30.0), &Air::standard(), metres_per_second(speed), &wind)
            .unwrap()
    };
    assert_eq!(state(0.0), VortexState::On);
    assert_eq!(state(20.0), VortexState::Off);
    let low = Propeller { height: metres(1.0), ..propeller };
    assert!(matches!(
        low.blow_away_speed(kilonewtons(30.0), &Air::standard()),
        Err(Error::OutOfRange { .. })
    ));
}

#[test]
fn errors_name_thing_value_and_limits() {
    let error = stone(2.0, 0.8).mass().unwrap_err();
    assert!(error.to_string().starts_with("stone diameter is 2.00 m, outside "));
    let error = blast_pressure(metres_per_second(f64::NAN)).unwrap_err();
    assert!(error.to_string().ends_with("outside 0 kt to 661 kt"));
    assert!(stones_met(-1.0, metres(1.0), metres(1.0)).is_err());
}

#[test]
fn formula_names_are_unique_and_each_has_a_value() {
    let mut names: Vec<&str> = FORMULAS.iter().map(|formula| formula.name).collect();
    names.sort_unstable();
    let count = names.len();
    names.dedup();
    assert_eq!(names.len(), count);
    for formula in FORMULAS {
        assert!((formula.evaluate)(&[]).is_nan(), "{} takes no arguments", formula.name);
        let middle: Vec<Amount> = formula
            .arguments
            .iter()
            .map(|a| Amount::new(a.dimension, 0.99 * a.minimum + 0.01 * a.maximum))
            .collect();
        let _ = formula.value(&middle);
    }
}

proptest! {
    #[test]
    fn prop_a_smaller_stone_never_hits_harder(
        small in 0.001_f64..0.05, more in 0.0_f64..0.05, speed in 0.0_f64..150.0,
    ) {
        let energy = |d: f64| stone(d, 0.8).energy(metres_per_second(speed)).unwrap();
        prop_assert!(energy(small) <= energy(small + more));
    }

    #[test]
    fn prop_more_loose_stones_are_never_fewer_met_or_thrown(
        loose in 0.0_f64..1e4, more in 0.0_f64..1e4, width in 0.0_f64..3.0,
        rolled in 0.0_f64..2_000.0, further in 0.0_f64..500.0, edges in 1_u32..12,
        size in 0.001_f64..0.1,
    ) {
        let met = |loose: f64, rolled: f64| stones_met(loose, metres(width), metres(rolled));
        prop_assert!(met(loose + more, rolled).unwrap() >= met(loose, rolled).unwrap());
        prop_assert!(met(loose, rolled + further).unwrap() >= met(loose, rolled).unwrap());
        let under = |loose: f64, rolled: f64| {
            stones_under_edges(loose, metres(size), edges, metres(rolled))
        };
        prop_assert!(under(loose + more, rolled).unwrap() >= under(loose, rolled).unwrap());
        prop_assert!(under(loose, rolled + further).unwrap() >= under(loose, rolled).unwrap());
    }

    #[test]
    fn prop_a_bigger_stone_flies_higher_and_needs_more_wind(
        small in 0.002_f64..0.04, more in 0.0_f64..0.02, upward in 0.5_f64..25.0,
        forward in 0.0_f64..30.0,
    ) {
        let apex = |d: f64| stone(d, 0.8).fly(&launch(forward, upward), air()).unwrap().apex;
        prop_assert!(apex(small) <= apex(small + more) + metres(1e-9));
        let grain = |d: f64| Grain {
            diameter: metres(d), density: Density::from_si(2650.0), air_density: air(),
        };
        let (a, b) = (grain(small), grain(small + more));
        prop_assert!(a.single_stone_threshold().unwrap() <= b.single_stone_threshold().unwrap());
        prop_assert!(a.settling_speed().unwrap() <= b.settling_speed().unwrap());
    }

    #[test]
    fn prop_propeller_thrust_and_speed_are_each_other_turned_round(
        ratio_of_height in 0.56_f64..2.0, wind in 2.0_f64..40.0, more in 0.0_f64..20.0,
    ) {
        let propeller = Propeller { diameter: metres(3.9), height: metres(3.9 * ratio_of_height) };
        let free = |speed: f64| {
            let wind = RunWind { headwind: metres_per_second(speed), crosswind: knots(0.0) };
            propeller.greatest_thrust(&Air::standard(), knots(0.0), &wind, Assurance::NotOn)
        };
        let thrust = free(wind).unwrap();
        prop_assume!(thrust < kilonewtons(900.0));
        let blown = propeller.blow_away_speed(thrust, &Air::standard()).unwrap();
        prop_assert!((blown.si() - 1.25 * wind).abs() < 1e-6 * wind);
        prop_assert!(free(wind + more).unwrap() >= thrust);
        let lower = Propeller { height: metres(3.9 * 0.56), ..propeller };
        prop_assert!(
            lower.blow_away_speed(thrust, &Air::standard()).unwrap() >= blown - metres_per_second(1e-9)
        );
    }

    #[test]
    fn prop_ruts_bumps_and_failed_legs_never_raise_a_point(
        aft in -3.0_f64..20.0, right in 0.0_f64..6.0, rut in 0.0_f64..0.2, bump in 0.0_f64..0.2,
        nose in 0.0_f64..0.3, main in 0.0_f64..0.4,
    ) {
        let stance = Stance { wheelbase: metres(12.0), track: metres(5.0) };
        let point = BodyPoint { aft: metres(aft), right: metres(right), height: metres(1.0) };
        let failed = FailedLegs { nose: metres(nose), main: metres(main) };
        let least = |rut: f64, bump: f64, failed| {
            stance.least_clearance(&point, metres(rut), metres(bump), failed).unwrap().si()
        };
        prop_assert!(least(rut, 0.0, None) <= 1.0 + 1e-12);
        prop_assert!(least(rut, bump, None) <= least(rut, 0.0, None) + 1e-12);
        prop_assert!(least(rut, bump, Some(failed)) <= least(rut, bump, None) + 1e-12);
    }

    #[test]
    fn prop_a_cloud_thins_and_finer_dust_stays(
        small in 2e-6_f64..1e-4, more in 0.0_f64..1e-4, share in 0.01_f64..0.9,
    ) {
        let settling = |d: f64| {
            Grain { diameter: metres(d), density: Density::from_si(2650.0), air_density: air() }
                .settling_speed()
                .unwrap()
        };
        let time = |d: f64, share: f64| cloud_time(settling(d), share, metres(10.0)).unwrap();
        prop_assert!(time(small + more, share) <= time(small, share));
        prop_assert!(time(small, 1.0) <= time(small, share));
        let left = cloud_share(settling(small), time(small, share), metres(10.0)).unwrap();
        prop_assert!((left - share).abs() < 1e-9);
    }

    #[test]
    fn prop_drag_lowers_and_shortens(drag in 0.0_f64..1.5, upward in 0.5_f64..25.0, forward in 0.0_f64..30.0) {
        let free = stone(0.01, 0.0).fly(&launch(forward, upward), air()).unwrap();
        let held = stone(0.01, drag).fly(&launch(forward, upward), air()).unwrap();
        prop_assert!(held.apex <= free.apex + metres(1e-9));
        prop_assert!(held.forward <= free.forward + metres(1e-9));
    }

    #[test]
    fn prop_blast_fades_with_distance(near in 1.0_f64..100.0, more in 0.0_f64..400.0, count in 1_u32..4) {
        let jet = Jet { diameter: metres(0.8), speed: metres_per_second(250.0), density_ratio: ratio(0.6), count };
        for path in [JetPath::Free, JetPath::AlongGround] {
            let at = |x: f64| jet.speed_at(metres(x), path).unwrap();
            prop_assert!(at(near + more) <= at(near));
        }
    }

    #[test]
    fn prop_no_panic_on_any_number(values in proptest::collection::vec(any::<f64>(), 7)) {
        let v = |i: usize| values[i];
        let any_stone = Stone {
            diameter: metres(v(0)), density: Density::from_si(v(1)), drag: v(2), lift: v(3),
        };
        let _ = any_stone.fly(&launch(v(4), v(5)), Density::from_si(v(6)));
        let _ = any_stone.strike(&launch(v(4), v(5)), air(), metres_per_second(v(0)), metres(v(1)));
        let _ = stone(0.01, 0.8).fly(&launch(v(4), v(5)), air());
        let _ = descent_speed(metres_per_second(v(0)), millimetres(v(1)), metres(v(2)));
        let _ = Efflux { diameter: metres(v(0)), speed: metres_per_second(v(1)), angle: degrees(v(2)), density_ratio: ratio(v(3)) }
            .reach(metres_per_second(v(4)));
        let _ = Laminate {
            stiffness: megapascals(v(0)), thickness: millimetres(v(1)), toughness_j_per_m2: v(2),
            poisson: v(3), density: Density::from_si(v(4)),
        }
        .small_mass_speed();
        let _: Result<Length, _> = Stance { wheelbase: metres(v(0)), track: metres(v(1)) }.clearance(
            &BodyPoint { aft: metres(v(2)), right: metres(v(3)), height: metres(v(4)) },
            &Drops { nose: metres(v(5)), left: metres(v(6)), right: metres(v(0)) },
            metres(v(1)),
        );
        for formula in FORMULAS {
            let arguments: Vec<f64> = (0..formula.arguments.len()).map(|i| v(i % 7)).collect();
            let _ = (formula.evaluate)(&arguments);
        }
    }
}
