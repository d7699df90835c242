//! Legs, tyres, coverages and equivalent wheels against closed forms.

use approx::assert_relative_eq;
use hardpan_ground::{
    CHANNELISED_WANDER_M, EquivalentLoads, Error, GearArms, LegGeometry, RepetitionFactors,
    TyreAir, TyreSize, chart_mass, chart_pressure, coverages_per_pass, deflection,
    equivalent_single_wheel, flexible_acn, gauge_pressure_there, leg_loads, load_table_pressure,
    main_gear_tracks, minimum_pressure,
};
use hardpan_model::{Balance, Gear, Given, Leg, TyreChartRow, TyreLoadRow};
use hardpan_quantity::{
    Length, Quantity, Temperature, bearing_percent, kilograms, kilonewtons, kilopascals,
    megapascals, metres, percent, ratio, tonnes,
};
use proptest::prelude::*;

fn given<T>(value: T) -> Option<Given<T>> {
    Some(Given::stated("test", value))
}

fn balance() -> Balance {
    Balance {
        mean_chord: given(metres(2.5)),
        main_gear_at: given(percent(45.0)),
        forward_limit: given(percent(15.0)),
        aft_limit: given(percent(35.0)),
        ..Balance::default()
    }
}

fn gear() -> Gear {
    Gear {
        wheelbase: given(metres(10.0)),
        main: Leg { legs: given(2), wheels: given(2), ..Leg::default() },
        nose: Leg { legs: given(1), ..Leg::default() },
        ..Gear::default()
    }
}

/// Moments about the main gear: nose share (0.45 - 0.25) 2.5 / 10 = 5 %.
#[test]
fn exact_static_loads() {
    let arms = GearArms::of(&balance(), &gear()).expect("complete");
    let loads = arms.standing(tonnes(20.0), percent(25.0)).expect("ahead");
    let weight = 20_000.0 * 9.806_65;
    assert_relative_eq!(loads.nose_leg.si(), 0.05 * weight, max_relative = 1e-12);
    assert_relative_eq!(loads.main_leg.si(), 0.475 * weight, max_relative = 1e-12);
    let braked = arms.braked(tonnes(20.0), percent(25.0), metres(2.0), ratio(0.3)).expect("ahead");
    assert_relative_eq!(
        braked.nose_leg.si(),
        (0.05 + 0.3 * 2.0 / 10.0) * weight,
        max_relative = 1e-12
    );
}

#[test]
fn no_stated_centre_takes_the_heaviest_of_each_leg() {
    let loads = leg_loads(tonnes(20.0), None, &balance(), &gear()).expect("complete");
    let arms = GearArms::of(&balance(), &gear()).expect("complete");
    let aft = arms.standing(tonnes(20.0), percent(35.0)).expect("ahead");
    let forward = arms.standing(tonnes(20.0), percent(15.0)).expect("ahead");
    assert_eq!((loads.main_leg, loads.nose_leg), (aft.main_leg, forward.nose_leg));
}

#[test]
fn everything_missing_is_listed_at_once() {
    let Err(Error::Missing { needs }) =
        leg_loads(tonnes(20.0), None, &Balance::default(), &Gear::default())
    else {
        panic!("nothing was given");
    };
    let keys: Vec<&str> = needs.iter().map(|need| need.what.as_str()).collect();
    assert_eq!(
        keys,
        [
            "aeroplane: balance.mean_chord",
            "aeroplane: balance.main_gear_at",
            "aeroplane: gear.wheelbase",
            "aeroplane: gear.main.legs",
            "aeroplane: gear.nose.legs",
            "aeroplane: balance.aft_limit",
            "aeroplane: balance.forward_limit",
        ]
    );
}

#[test]
fn centre_behind_the_main_gear_is_refused() {
    let result = leg_loads(tonnes(20.0), Some(percent(46.0)), &balance(), &gear());
    assert!(matches!(result, Err(Error::CentreBehindGear { .. })));
    assert!(leg_loads(tonnes(f64::NAN), Some(percent(25.0)), &balance(), &gear()).is_err());
    assert!(leg_loads(tonnes(20.0), Some(percent(f64::NAN)), &balance(), &gear()).is_err());
}

/// Deep under any leg all wheels act as one; at the surface far ones add little.
#[test]
fn exact_limits_of_the_equivalent_wheel() {
    let leg = LegGeometry::of_wheels(4, Some(metres(0.8)), Some(metres(1.3))).expect("bogie");
    let load = kilonewtons(200.0);
    let deep = equivalent_single_wheel(&leg, load, kilopascals(800.0), metres(60.0)).expect("ok");
    assert_relative_eq!(deep.si(), 200e3, max_relative = 1e-3);
    let single = LegGeometry::single();
    let lone = equivalent_single_wheel(&single, load, kilopascals(800.0), metres(0.3)).expect("ok");
    assert_eq!(lone, load);
}

#[test]
fn legs_that_are_not_covered_are_refused() {
    assert!(LegGeometry::of_wheels(0, None, None).is_err());
    assert!(LegGeometry::of_wheels(3, Some(metres(0.5)), None).is_err());
    assert!(matches!(LegGeometry::of_wheels(2, None, None), Err(Error::Missing { .. })));
    assert!(LegGeometry::dual(metres(-0.5)).is_err());
    let six = LegGeometry::of_wheels(6, Some(metres(0.9)), Some(metres(1.2))).expect("three rows");
    assert_eq!((six.wheels(), six.tracks().len()), (6, 2));
    assert_eq!(main_gear_tracks(&six, metres(6.0)).len(), 4);
}

/// A single wheel of 10 t at 1.25 MPa is its own equivalent: 2 × 0.995² × 10.
#[test]
fn exact_classification_number_of_a_single_wheel() {
    for cbr in [15.0, 10.0, 6.0, 3.0] {
        let number = flexible_acn(
            tonnes(10.0),
            ratio(1.0),
            &LegGeometry::single(),
            megapascals(1.25),
            bearing_percent(cbr),
            RepetitionFactors::Of2007,
        )
        .expect("inside");
        assert_relative_eq!(number.number, 2.0 * 0.995 * 0.995 * 10.0, max_relative = 1e-3);
    }
}

#[test]
fn tyre_pressure_follows_load_and_refuses_overload() {
    let at = |load| minimum_pressure(kilonewtons(load), kilonewtons(100.0), kilopascals(900.0));
    assert_relative_eq!(at(100.0).expect("rated").si(), 900e3, max_relative = 1e-12);
    assert_relative_eq!(at(10.0).expect("light").si(), 450e3, max_relative = 1e-12);
    assert!(matches!(at(101.0), Err(Error::TyreOverloaded { .. })));
    assert!(at(0.0).is_err() && at(f64::NAN).is_err());
}

/// Smiley and Horne from memory: 400 kPa, rated 600 kPa, 0.30 × 1.00 m, 80 mm
/// carries 41,812.7 N.
#[test]
fn oracle_deflection_turns_the_load_round() {
    let size = TyreSize {
        diameter: metres(1.0),
        width: metres(0.3),
        rated_pressure: kilopascals(600.0),
        profile_coefficient: 0.03,
    };
    let sunk = deflection(&size, kilonewtons(41.812_7), kilopascals(400.0)).expect("ok");
    assert_relative_eq!(sunk.si(), 0.080, max_relative = 1e-6);
    let small = deflection(&size, kilonewtons(5.0), kilopascals(600.0)).expect("ok");
    let x = small.si() / 0.3;
    let back = 1.08 * 600e3 * 0.3 * 0.3f64.sqrt() * (0.96 * x + 0.216 * x * x / 0.03);
    assert_relative_eq!(back, 5e3, max_relative = 1e-9);
}

/// Both branches of the load of Smiley and Horne meet at ten thirds of the
/// profile coefficient, in value and in slope.
#[test]
fn exact_smiley_horne_is_continuous_in_value_and_slope() {
    for profile in [0.02, 0.03] {
        let knee = 10.0 / 3.0 * profile;
        let load = |deflection: f64| {
            let values = [6e5, 6e5, 1.0, 1.0, deflection, profile];
            (hardpan_ground::TYRE_LOAD.evaluate)(&values)
        };
        let step = 1e-7;
        assert_relative_eq!(load(knee - step), load(knee + step), max_relative = 1e-5);
        let below = (load(knee) - load(knee - step)) / step;
        let above = (load(knee + step) - load(knee)) / step;
        assert_relative_eq!(below, above, max_relative = 1e-4);
        assert_relative_eq!(above, 1.08 * 6e5 * 2.4, max_relative = 1e-6);
    }
}

#[test]
fn chart_is_read_between_its_rows_only() {
    let row = |mass, pressure| TyreChartRow {
        mass: Given::stated("mass", kilograms(mass)),
        pressure: Given::stated("pressure", kilopascals(pressure)),
    };
    let chart = [row(10_000.0, 300.0), row(20_000.0, 500.0), row(22_000.0, 500.0)];
    assert_relative_eq!(chart_pressure(&chart, kilograms(15_000.0)).expect("inside").si(), 400e3);
    assert!(matches!(chart_pressure(&chart, kilograms(9_000.0)), Err(Error::ChartOutside { .. })));
    assert!(matches!(chart_pressure(&chart, kilograms(23_000.0)), Err(Error::ChartOutside { .. })));
    let mass = |pressure| chart_mass(&chart, kilopascals(pressure));
    assert_relative_eq!(mass(400.0).expect("inside").si(), 15_000.0, epsilon = 1e-3);
    assert_eq!(mass(600.0).expect("above").si(), 22_000.0);
    assert!(mass(299.0).is_err());
    assert!(matches!(chart_pressure(&[], kilograms(1.0)), Err(Error::ChartEmpty)));
    assert!(chart_pressure(&[row(2.0, 3.0), row(1.0, 4.0)], kilograms(1.5)).is_err());
    assert!(chart_pressure(&[row(1.0, 4.0), row(2.0, 3.0)], kilograms(1.5)).is_err());
}

#[test]
fn the_makers_table_is_read_between_its_rows_and_at_the_first_below_them() {
    let row = |load, pressure| TyreLoadRow {
        load: Given::stated("load", kilonewtons(load)),
        pressure: Given::stated("pressure", kilopascals(pressure)),
    };
    let table = [row(40.0, 400.0), row(80.0, 800.0)];
    let at = |load| load_table_pressure(&table, kilonewtons(load));
    assert_relative_eq!(at(60.0).expect("inside").si(), 600e3);
    assert_relative_eq!(at(10.0).expect("below").si(), 400e3);
    assert!(matches!(at(81.0), Err(Error::ChartOutside { .. })));
    assert!(at(f64::NAN).is_err());
    assert!(matches!(load_table_pressure(&[], kilonewtons(1.0)), Err(Error::ChartEmpty)));
}

#[test]
fn coverages_refuse_what_they_cannot_use() {
    let wander = metres(CHANNELISED_WANDER_M);
    assert!(coverages_per_pass(&[], metres(0.3), wander).is_err());
    assert!(coverages_per_pass(&[metres(0.0)], metres(0.0), wander).is_err());
    assert!(coverages_per_pass(&[metres(f64::NAN)], metres(0.3), wander).is_err());
    let still = coverages_per_pass(&[metres(0.0)], metres(0.3), metres(1e-9)).expect("no wander");
    assert_relative_eq!(still, 1.0, epsilon = 1e-12);
}

proptest! {
    #[test]
    fn prop_wider_tyres_and_more_tracks_cover_more(
        width in 0.05f64..0.6, more in 1.0f64..2.0, wander in 0.1f64..2.0, spacing in 0.2f64..6.0
    ) {
        let at = |tracks: &[Length], width: f64| {
            coverages_per_pass(tracks, metres(width), metres(wander)).expect("positive")
        };
        let one = [metres(0.0)];
        let two = [metres(-0.5 * spacing), metres(0.5 * spacing)];
        prop_assert!(at(&one, width * more) >= at(&one, width));
        prop_assert!(at(&two, width) >= at(&one, width) - 1e-12);
        prop_assert!(at(&two, width) <= 2.0 * at(&one, width) + 1e-12);
    }

    #[test]
    fn prop_equivalent_wheel_lies_between_one_and_all(
        spacing in 0.2f64..2.0, tandem in 0.5f64..2.0, load in 1e3f64..1e6, depth in 0.01f64..8.0,
        deeper in 1.0f64..2.0
    ) {
        // Tyres stand apart: their footprints do not overlap.
        let footprint_radius = (load / 4.0 / (std::f64::consts::PI * 700e3)).sqrt();
        prop_assume!(2.0 * footprint_radius <= spacing.min(tandem));
        let leg = LegGeometry::of_wheels(4, Some(metres(spacing)), Some(metres(tandem))).expect("bogie");
        let at = |depth: f64| {
            equivalent_single_wheel(&leg, kilonewtons(load / 1e3), kilopascals(700.0), metres(depth))
                .expect("positive").si()
        };
        prop_assert!(at(depth) >= load / 4.0 * (1.0 - 1e-9) && at(depth) <= load * (1.0 + 1e-9));
        prop_assert!(at(depth * deeper) >= at(depth) * (1.0 - 1e-6));
    }
}

proptest! {
    #[test]
    fn prop_a_tyre_taken_there_and_back_reads_the_same(
        gauge in 200.0f64..1200.0, from in -40.0f64..45.0, to in -40.0f64..45.0,
        here in 700.0f64..1050.0, there in 700.0f64..1050.0,
    ) {
        let air = |hpa: f64, celsius: f64| TyreAir {
            pressure: kilopascals(0.1 * hpa),
            temperature: Temperature::from_si(celsius + 273.15),
        };
        let (one, other) = (air(here, from), air(there, to));
        let away = gauge_pressure_there(kilopascals(gauge), one, other).expect("in range");
        let back = gauge_pressure_there(away, other, one).expect("in range");
        prop_assert!((back.si() - gauge * 1e3).abs() < 1e-6 * gauge * 1e3);
        if to > from && there == here {
            prop_assert!(away.si() > gauge * 1e3);
        }
    }
}

/// The search in plan, and its table between knots, at depths and circles of a
/// strip.
#[test]
fn exact_the_table_of_single_wheels_follows_the_search() {
    for leg in [
        LegGeometry::of_wheels(1, None, None),
        LegGeometry::of_wheels(2, Some(metres(0.78)), None),
        LegGeometry::of_wheels(4, Some(metres(0.86)), Some(metres(1.42))),
    ] {
        let leg = leg.expect("a leg");
        let table = EquivalentLoads::new(leg);
        for depth in [0.12, 0.2, 0.35, 0.61, 1.4] {
            for pressure in [400.0, 760.0, 1100.0] {
                let at = (kilonewtons(180.0), kilopascals(pressure), metres(depth));
                let searched = equivalent_single_wheel(&leg, at.0, at.1, at.2).expect("found");
                let found = table.single_wheel(at.0, at.1, at.2).expect("found");
                assert_relative_eq!(found.si(), searched.si(), max_relative = 0.01);
            }
        }
    }
    let table = EquivalentLoads::new(LegGeometry::of_wheels(1, None, None).expect("a leg"));
    let zero = table.single_wheel(kilonewtons(0.0), kilopascals(700.0), metres(0.3));
    assert!(matches!(zero, Err(Error::NotPositive { .. })));
}
