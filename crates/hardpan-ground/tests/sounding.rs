//! Strata and strength along lanes: what must hold whatever the sounding.

mod support;

use approx::assert_relative_eq;
use hardpan_ground::penetrometer::{bearing_ratio, credited, laws_apart, lowest_bearing_ratio};
use hardpan_ground::{
    Error, NotCounted, Strata, characteristic, counted, model_spread, strength_along, summarise,
};
use hardpan_model::{Given, Hammer, Lane, SoilClass, Strip};
use hardpan_quantity::{Quantity, bearing_percent, metres, millimetres, millimetres_per_blow};
use proptest::prelude::*;
use support::{field, layered, sounding, stiffness, strip};

#[test]
fn exact_two_layers_give_two_strata() {
    let strata =
        Strata::of(&layered(0.0, Some(SoilClass::LeanClay), &[(5.0, 300.0), (25.0, 800.0)]))
            .expect("usable");
    assert_eq!(strata.strata.len(), 2);
    assert_relative_eq!(strata.surfacing.expect("found").si(), 0.300, epsilon = 1e-9);
    assert_relative_eq!(strata.strata[0].rate.si(), 0.005, epsilon = 1e-9);
    assert_relative_eq!(strata.strata[1].rate.si(), 0.025, epsilon = 1e-9);
    let clay = bearing_ratio(millimetres_per_blow(25.0), SoilClass::LeanClay);
    assert_relative_eq!(strata.strata[1].bearing_ratio.percent(), clay.percent(), epsilon = 1e-9);
}

#[test]
fn thin_weak_seam_between_strong_layers_is_found() {
    let layers = [(6.0, 300.0), (30.0, 400.0), (6.0, 800.0)];
    let strata = Strata::of(&layered(0.0, Some(SoilClass::Other), &layers)).expect("usable");
    let weakest =
        strata.strata.iter().max_by(|a, b| a.rate.si().total_cmp(&b.rate.si())).expect("some");
    assert_relative_eq!(weakest.top.si(), 0.300, epsilon = 0.031);
    assert!(weakest.rate.si() > 0.025, "{weakest:?}");
}

#[test]
fn loose_top_over_dense_gravel_does_not_hide_the_clay() {
    let layers = [(12.0, 72.0), (4.0, 252.0), (15.0, 702.0)];
    let strata = Strata::of(&layered(0.0, Some(SoilClass::Other), &layers)).expect("usable");
    assert_relative_eq!(strata.surfacing.expect("found").si(), 0.252, epsilon = 0.021);
}

#[test]
fn even_ground_shows_no_surfacing() {
    let strata =
        Strata::of(&layered(0.0, Some(SoilClass::Other), &[(10.0, 800.0)])).expect("usable");
    assert_eq!((strata.strata.len(), strata.surfacing), (1, None));
}

#[test]
fn light_hammer_counts_double() {
    let mut test = layered(0.0, Some(SoilClass::Other), &[(10.0, 800.0)]);
    test.hammer = Given::stated("hammer", Hammer::Light);
    let strata = Strata::of(&test).expect("usable");
    assert_relative_eq!(strata.strata[0].rate.si(), 0.020, epsilon = 1e-9);
}

#[test]
fn seating_is_no_stratum_but_sinking_is() {
    let seated = sounding(0.0, Some(SoilClass::Other), &[(0, 15.0), (5, 115.0), (5, 215.0)]);
    let strata = Strata::of(&seated).expect("usable");
    assert_relative_eq!(strata.strata[0].rate.si(), 0.020, epsilon = 1e-9);
    assert_eq!(strata.strata[0].top, millimetres(0.0));
    let sunk =
        sounding(0.0, Some(SoilClass::Other), &[(5, 100.0), (5, 200.0), (0, 300.0), (5, 400.0)]);
    let strata = Strata::of(&sunk).expect("usable");
    let softest =
        strata.strata.iter().map(|s| s.bearing_ratio.percent()).fold(f64::INFINITY, f64::min);
    assert!(softest < 0.5, "{strata:?}");
}

#[test]
fn unusable_soundings_are_refused() {
    let other = Some(SoilClass::Other);
    assert!(matches!(Strata::of(&sounding(0.0, other, &[])), Err(Error::SoundingEmpty { .. })));
    assert!(matches!(
        Strata::of(&sounding(0.0, other, &[(0, 100.0), (0, 200.0)])),
        Err(Error::SoundingNoBlows { .. })
    ));
    assert!(matches!(
        Strata::of(&sounding(0.0, other, &[(5, 100.0), (5, 100.0)])),
        Err(Error::SoundingDepth { line: 3, .. })
    ));
    assert!(matches!(
        Strata::of(&sounding(0.0, other, &[(5, f64::NAN)])),
        Err(Error::SoundingDepth { .. })
    ));
    assert!(matches!(
        Strata::of(&sounding(0.0, other, &[(5, 20_000.0)])),
        Err(Error::SoundingTooDeep { .. })
    ));
}

#[test]
fn lean_clay_switches_once_where_its_own_law_passes_ten() {
    let above = bearing_ratio(millimetres_per_blow(18.58), SoilClass::LeanClay);
    let below = bearing_ratio(millimetres_per_blow(18.59), SoilClass::LeanClay);
    assert!(above.percent() > 11.0 && below.percent() < 10.0);
}

#[test]
fn capped_and_never_helpful_for_nonsense() {
    assert_eq!(bearing_ratio(millimetres_per_blow(1.0), SoilClass::Other).percent(), 100.0);
    for rate in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(bearing_ratio(millimetres_per_blow(rate), SoilClass::FatClay).percent(), 0.0);
    }
}

#[test]
fn spread_brackets_the_law_in_use() {
    let spread = model_spread(millimetres_per_blow(20.0)).expect("inside");
    assert_relative_eq!(spread.least.percent(), 9.28, epsilon = 0.005);
    assert_relative_eq!(spread.greatest.percent(), 14.01, epsilon = 0.005);
    assert_eq!(model_spread(millimetres_per_blow(1.0)), None);
}

#[test]
fn the_laws_lie_apart_around_the_one_in_use() {
    for percent in [0.5, 1.0, 3.0, 10.0, 60.0] {
        let laws = laws_apart(bearing_percent(percent)).expect("inside");
        assert!(laws.least.percent() <= percent.max(0.773) + 1e-9, "{laws:?}");
        assert!(laws.greatest.percent() >= percent - 1e-9, "{laws:?}");
    }
    let laws = laws_apart(bearing_percent(10.1915)).expect("20 mm per blow");
    assert_relative_eq!(laws.least.percent(), 9.28, epsilon = 0.005);
    assert_eq!(laws_apart(bearing_percent(140.0)), None);
    assert_eq!(laws_apart(bearing_percent(f64::NAN)), None);
}

#[test]
fn soft_place_reaches_to_its_neighbours_and_no_further() {
    let soft = layered(300.0, Some(SoilClass::Other), &[(8.0, 200.0), (40.0, 800.0)]);
    let firm = |at| layered(at, Some(SoilClass::Other), &[(8.0, 200.0), (12.0, 800.0)]);
    let mut strip = strip(vec![firm(200.0), soft, firm(400.0), firm(500.0)]);
    strip.sounding_rules.correlation_length = Some(Given::stated("length", metres(1000.0)));
    let lanes = strength_along(&strip, &[(Lane::Left, metres(-1.0))], metres(10.0), metres(600.0))
        .expect("usable");
    let at = |station: f64| {
        lanes[0].points.iter().find(|p| p.station == metres(station)).expect("a station")
    };
    let under = |station: f64| at(station).layers.last().expect("known").1.percent();
    assert!(under(210.0) < 5.0 && under(390.0) < 5.0 && under(300.0) < 5.0);
    assert!(under(200.0) > 15.0 && under(450.0) > 15.0);
    assert!(at(50.0).layers.is_empty() && at(50.0).known_to == metres(0.0));
    assert_eq!(at(300.0).soundings, vec![1]);
    assert_eq!(at(350.0).soundings, vec![1, 2]);
    assert_relative_eq!(at(350.0).nearest.si(), 50.0f64.hypot(1.0), epsilon = 1e-9);
    assert_eq!(lanes[0].points.len(), 61);
}

#[test]
fn nearby_sounding_is_not_outdone_by_a_far_one_on_the_lane() {
    let mut on_lane = layered(0.0, Some(SoilClass::Other), &[(8.0, 800.0)]);
    on_lane.offset = metres(-3.0);
    let beside = layered(95.0, Some(SoilClass::Other), &[(40.0, 800.0)]);
    let strip = strip(vec![on_lane, beside]);
    let lanes = strength_along(&strip, &[(Lane::Left, metres(-3.0))], metres(1.0), metres(95.0))
        .expect("usable");
    assert!(lanes[0].points[94].layers[0].1.percent() < 5.0);
}

/// A soil class that nobody stated takes the lowest law.
#[test]
fn unstated_soil_takes_the_lowest_law() {
    let strata = Strata::of(&layered(0.0, None, &[(30.0, 900.0)])).expect("usable");
    let lowest = lowest_bearing_ratio(millimetres_per_blow(30.0));
    assert_relative_eq!(strata.strata[0].bearing_ratio.percent(), lowest.percent());
    assert_relative_eq!(lowest.percent(), 3.84, epsilon = 0.005);
}

#[test]
fn lanes_refuse_what_they_cannot_use() {
    let lanes = [(Lane::Nose, metres(0.0))];
    let empty = strip(vec![]);
    assert!(strength_along(&empty, &lanes, metres(0.0), metres(100.0)).is_err());
    assert!(strength_along(&empty, &lanes, metres(1e-6), metres(1e6)).is_err());
    assert!(strength_along(&empty, &lanes, metres(1.0), metres(f64::NAN)).is_err());
    let points = strength_along(&empty, &lanes, metres(50.0), metres(100.0)).expect("no sounding");
    assert!(points[0].points.iter().all(|p| p.layers.is_empty() && p.nearest.si().is_infinite()));
    assert!(matches!(summarise(&points, metres(0.6)), Err(Error::NoValues)));
    let bad = strip(vec![sounding(0.0, None, &[])]);
    assert!(strength_along(&bad, &lanes, metres(50.0), metres(100.0)).is_err());
}

/// CBR 8 to 12: mean 10, s 1.5811, mean less s 8.419; arithmetic of the stated
/// practice, lower quartile by the median-unbiased rule 8 + 2/3.
#[test]
fn val_characteristic_values() {
    let values = [8.0, 9.0, 10.0, 11.0, 12.0].map(bearing_percent);
    let found = characteristic(&values).expect("five");
    assert_relative_eq!(found.mean.percent(), 10.0);
    assert_relative_eq!(found.mean_less_deviation.expect("five").percent(), 8.419, epsilon = 5e-4);
    assert_relative_eq!(found.lower_quartile.percent(), 8.0 + 2.0 / 3.0, epsilon = 1e-9);
    assert_eq!(found.least.percent(), 8.0);
    assert!(characteristic(&[bearing_percent(f64::NAN)]).is_err());
}

fn rows() -> impl Strategy<Value = Vec<(u32, f64)>> {
    prop::collection::vec((0u32..30, prop_oneof![5 => -5.0f64..200.0, 1 => Just(f64::NAN)]), 0..60)
        .prop_map(|rows| {
            let mut depth = 0.0;
            rows.into_iter()
                .map(|(blows, advance)| {
                    depth += advance;
                    (blows, depth)
                })
                .collect()
        })
}

fn soils() -> impl Strategy<Value = Option<SoilClass>> {
    prop_oneof![
        Just(None),
        Just(Some(SoilClass::Other)),
        Just(Some(SoilClass::LeanClay)),
        Just(Some(SoilClass::FatClay))
    ]
}

proptest! {
    #[test]
    fn prop_any_sounding_is_read_or_refused(rows in rows(), soil in soils(), refusal: bool) {
        let mut test = sounding(100.0, soil, &rows);
        test.refusal = refusal;
        if let Ok(strata) = Strata::of(&test) {
            prop_assert!(!strata.strata.is_empty());
            let mut depth = 0.0;
            for stratum in &strata.strata {
                prop_assert_eq!(stratum.top.si(), depth);
                prop_assert!(stratum.bottom.si() > depth);
                prop_assert!(stratum.softest >= stratum.rate || (stratum.softest.si() - stratum.rate.si()).abs() < 1e-12);
                let percent = stratum.bearing_ratio.percent();
                prop_assert!(percent > 0.0 && percent <= 100.0);
                depth = stratum.bottom.si();
            }
            prop_assert_eq!(depth, strata.known_to.si());
        }
        let strip = strip(vec![test]);
        let _ = strength_along(&strip, &[(Lane::Nose, metres(0.0))], metres(20.0), metres(300.0));
    }

    #[test]
    fn prop_more_penetration_is_never_stronger(
        rate in 1.0f64..400.0, more in 1.0f64..2.0, soil in soils()
    ) {
        let of = |rate: f64| match soil {
            Some(soil) => bearing_ratio(millimetres_per_blow(rate), soil).percent(),
            None => lowest_bearing_ratio(millimetres_per_blow(rate)).percent(),
        };
        prop_assert!(of(rate * more) <= of(rate));
        let mean = bearing_percent(of(rate));
        prop_assert!(credited(mean) <= mean);
    }

    #[test]
    fn prop_another_weaker_sounding_never_helps(
        rate in 3.0f64..40.0, factor in 1.0f64..4.0, at in 0.0f64..200.0
    ) {
        let lane = [(Lane::Nose, metres(0.0))];
        let layers = [(rate, 800.0)];
        let one = layered(100.0, Some(SoilClass::Other), &layers);
        let weaker = layered(at, Some(SoilClass::Other), &[(rate * factor, 800.0)]);
        let alone = strength_along(&strip(vec![one.clone()]), &lane, metres(10.0), metres(200.0))
            .expect("usable");
        let both = strength_along(&strip(vec![one, weaker]), &lane, metres(10.0), metres(200.0))
            .expect("usable");
        for (a, b) in alone[0].points.iter().zip(&both[0].points) {
            if let (Some(a), Some(b)) = (a.layers.first(), b.layers.first()) {
                prop_assert!(b.1.percent() <= a.1.percent() * (1.0 + 1e-9));
            }
        }
    }
}

#[test]
fn field_tests_stand_for_their_depths_and_leave_a_gap_unknown() {
    let place = Strip {
        strength_tests: vec![field(100.0, 0.0, 150.0, 30.0), field(100.0, 300.0, 500.0, 8.0)],
        ..Strip::default()
    };
    let lanes = [(Lane::Nose, metres(0.0))];
    let at_100 = |strip: &Strip| {
        let lanes = strength_along(strip, &lanes, metres(100.0), metres(200.0)).expect("usable");
        lanes[0].points[1].clone()
    };
    let point = at_100(&place);
    assert_relative_eq!(point.known_to.si(), 0.150, epsilon = 1e-9);
    assert_eq!(point.strength_tests, [0, 1]);
    let mut closed = place;
    closed.strength_tests.push(field(100.0, 150.0, 300.0, 12.0));
    let point = at_100(&closed);
    assert_relative_eq!(point.known_to.si(), 0.500, epsilon = 1e-9);
    let ratios: Vec<f64> = point.layers.iter().map(|(_, ratio)| ratio.percent()).collect();
    assert_eq!(ratios, [30.0, 12.0, 8.0]);
}

#[test]
fn stiffness_stands_in_only_where_nothing_better_reaches() {
    let plate = stiffness(100.0, 50.0);
    let with =
        |soundings| Strip { soundings, strength_tests: vec![plate.clone()], ..Strip::default() };
    let lanes = [(Lane::Nose, metres(0.0))];
    let first = |strip: &Strip| {
        strength_along(strip, &lanes, metres(100.0), metres(100.0)).expect("usable")[0].points[1]
            .clone()
    };
    let alone = first(&with(Vec::new()));
    assert_relative_eq!(alone.layers[0].1.percent(), 2.5, epsilon = 1e-9);
    let sounded = first(&with(vec![layered(60.0, Some(SoilClass::Other), &[(10.0, 800.0)])]));
    assert!(sounded.strength_tests.is_empty() && sounded.layers[0].1.percent() > 20.0);
    assert_eq!(counted(&stiffness(0.0, 200.0)), Err(NotCounted::OutsideLaw));
}

proptest! {
    #[test]
    fn prop_another_field_test_never_raises_what_soundings_give(
        top in 0.0f64..600.0, thick in 20.0f64..300.0, percent in 1.0f64..90.0, at in 0.0f64..200.0,
    ) {
        let soundings = vec![layered(100.0, Some(SoilClass::Other), &[(6.0, 200.0), (15.0, 800.0)])];
        let plain = strip(soundings.clone());
        let tests = vec![field(at, top, top + thick, percent)];
        let more = Strip { soundings, strength_tests: tests, ..Strip::default() };
        let lanes = [(Lane::Nose, metres(0.0))];
        let along = |strip: &Strip| {
            strength_along(strip, &lanes, metres(20.0), metres(200.0)).expect("usable")
        };
        let (before, after) = (along(&plain), along(&more));
        for (old, new) in before[0].points.iter().zip(&after[0].points) {
            prop_assert!(new.known_to >= old.known_to);
            for depth in (0..79).map(|step| millimetres(10.0 * f64::from(step))) {
                let at = |layers: &[(hardpan_quantity::Length, hardpan_quantity::BearingRatio)]| {
                    layers.iter().rev().find(|(top, _)| *top <= depth).map(|layer| layer.1.percent())
                };
                if let (Some(old), Some(new)) = (at(&old.layers), at(&new.layers)) {
                    prop_assert!(new <= old + 1e-9);
                }
            }
        }
    }
}
