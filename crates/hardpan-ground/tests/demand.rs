//! The requirement and the judgement of a point: what must hold throughout.

mod support;

use approx::assert_relative_eq;
use hardpan_ground::{
    EquivalentLoads, GreatestLoad, LEG_BEARING, LegGeometry, LimitedBy, PointJudgement,
    RequirementTable, UnknownReason, equivalent_single_wheel, judge_point, largest_leg_load,
    largest_pressure, needed_thickness, point_carries, surface_shear,
};
use hardpan_model::StrengthPoint;
use hardpan_quantity::{
    Force, Quantity, bearing_percent, kilonewtons, kilopascals, metres, millimetres, newtons, ratio,
};
use proptest::prelude::*;
use std::sync::LazyLock;
use support::point;

static LEGS: LazyLock<Vec<EquivalentLoads>> = LazyLock::new(|| {
    [
        Some(LegGeometry::single()),
        LegGeometry::dual(metres(0.43)).ok(),
        LegGeometry::dual(metres(0.86)).ok(),
        LegGeometry::of_wheels(2, None, Some(metres(1.2))).ok(),
        LegGeometry::of_wheels(4, Some(metres(0.8)), Some(metres(1.3))).ok(),
    ]
    .into_iter()
    .flatten()
    .map(EquivalentLoads::new)
    .collect()
});

fn table(leg: usize, pressure: f64, coverages: f64) -> RequirementTable {
    RequirementTable::new(&LEGS[leg], kilopascals(pressure), coverages).expect("positive")
}

/// Hammitt's equation turned round, evaluated apart from memory of the
/// equation: 50 kN at 500 kPa under 150 mm needs CBR 10.48 for 1000 coverages.
#[test]
fn oracle_single_wheel_at_nominal_cover() {
    let table = table(0, 500.0, 1000.0);
    let needed = |depth| table.needed(millimetres(depth), kilonewtons(50.0)).percent();
    assert_relative_eq!(needed(150.0), 10.48, epsilon = 0.005);
    assert_eq!(needed(0.0), needed(150.0));
    assert!(needed(300.0) < needed(150.0));
}

#[test]
fn few_coverages_count_as_ten_and_say_so() {
    let (few, ten) = (table(0, 500.0, 2.0), table(0, 500.0, 10.0));
    let load = kilonewtons(50.0);
    assert_eq!(few.needed(metres(0.3), load), ten.needed(metres(0.3), load));
    assert_eq!((few.caveats().len(), ten.caveats().len()), (2, 1));
    assert!(RequirementTable::new(&LEGS[0], kilopascals(500.0), 0.0).is_err());
    assert!(RequirementTable::new(&LEGS[0], kilopascals(f64::NAN), 10.0).is_err());
}

#[test]
fn table_follows_the_formula_between_its_rows() {
    for loads in LEGS.iter() {
        let (leg, wheels) = (loads.leg(), f64::from(loads.leg().wheels()));
        for depth in [0.15, 0.23, 0.47, 0.9, 1.7, 3.3] {
            for load in [3e3, 3e4, 1.2e5] {
                let table = RequirementTable::new(loads, kilopascals(600.0), 200.0).expect("ok");
                let needed = table.needed(metres(depth), newtons(load)).percent();
                let formula =
                    (LEG_BEARING.evaluate)(&leg_arguments(leg, load, 600e3, depth, 200.0));
                assert_relative_eq!(needed, formula, max_relative = 1e-3);
                let single =
                    equivalent_single_wheel(leg, newtons(load), kilopascals(600.0), metres(depth))
                        .expect("positive");
                let area = std::f64::consts::PI * 55_847.5 * wheels * 600e3;
                let factor = 0.176 * 200f64.log10() + 0.120;
                let published = single.si()
                    / (55_847.5 * (depth / factor).powi(2) + load * 55_847.5 * 55_847.5 / area);
                assert!(needed >= published * 0.997 && needed <= published * 1.03);
            }
        }
    }
}

fn leg_arguments(
    leg: &LegGeometry,
    load: f64,
    pressure: f64,
    depth: f64,
    coverages: f64,
) -> [f64; 7] {
    let [across, along] = [leg.spacing(), leg.tandem_spacing()]
        .map(|spacing| spacing.map_or(0.0, |spacing| spacing.si()));
    [load, f64::from(leg.wheels()), across, along, pressure, depth, coverages]
}

#[test]
fn unknown_ground_never_holds() {
    let table = table(1, 550.0, 100.0);
    let nothing = StrengthPoint { nearest: metres(140.0), ..point(&[], 0.0) };
    let PointJudgement::Unknown(unknown) = judge_point(&nothing, &table, kilonewtons(1.0)) else {
        panic!("nothing is known there");
    };
    assert!(matches!(unknown.reason, UnknownReason::NoSounding { .. }));
    assert!(unknown.need().how.contains("140"));
    let shallow = point(&[(0.0, 80.0)], 250.0);
    let PointJudgement::Unknown(unknown) = judge_point(&shallow, &table, kilonewtons(40.0)) else {
        panic!("known too shallow");
    };
    assert!(matches!(unknown.reason, UnknownReason::TooShallow { wanted: Some(_), .. }));
    assert!(unknown.so_far.expect("a layer").holds());
}

#[test]
fn known_weak_layer_fails_however_shallow_the_sounding() {
    let judged =
        judge_point(&point(&[(0.0, 2.0)], 200.0), &table(1, 550.0, 100.0), kilonewtons(80.0));
    assert!(matches!(judged, PointJudgement::Known(demand) if !demand.holds()));
}

#[test]
fn weak_layer_below_governs_at_its_own_depth() {
    let judged = judge_point(
        &point(&[(0.0, 60.0), (250.0, 5.0)], 900.0),
        &table(1, 550.0, 100.0),
        kilonewtons(90.0),
    );
    let PointJudgement::Known(demand) = judged else { panic!("known to 900 mm") };
    assert_eq!(demand.depth, millimetres(250.0));
    assert_relative_eq!(demand.credited.percent(), 5.0 / 1.3);
    assert_relative_eq!(
        demand.utilisation.si(),
        demand.needed.percent() / demand.credited.percent(),
        epsilon = 1e-12
    );
}

#[test]
fn gravel_mends_the_place_it_is_computed_for() {
    let (table, load) = (table(1, 550.0, 300.0), kilonewtons(110.0));
    let weak = point(&[(0.0, 60.0), (150.0, 4.0)], 900.0);
    assert!(!judge_point(&weak, &table, load).holds());
    let gravel = needed_thickness(&weak, &table, load).expect("known");
    let more = gravel.thickness.si() * 1e3 + 1e-3;
    let mended = point(
        &[(0.0, gravel.bearing_ratio.percent() + 1e-9), (more, 60.0), (150.0 + more, 4.0)],
        900.0 + more,
    );
    assert!(judge_point(&mended, &table, load).holds());
    assert_eq!(gravel.over, millimetres(150.0));
    let firm = needed_thickness(&point(&[(0.0, 60.0)], 900.0), &table, load).expect("known");
    assert_eq!(firm.thickness.si(), 0.0);
    assert_eq!(needed_thickness(&point(&[], 0.0), &table, load), None);
}

#[test]
fn nothing_known_limits_the_load_to_nothing() {
    let points = [point(&[(0.0, 60.0)], 900.0), point(&[], 0.0)];
    let limit = largest_leg_load(&points, &table(0, 500.0, 100.0)).expect("points");
    assert_eq!((limit.load.si(), limit.by), (0.0, LimitedBy::NothingKnown));
    assert_eq!(largest_leg_load(&[], &table(0, 500.0, 100.0)), None);
}

#[test]
fn nonsense_is_never_carried() {
    let (table, firm) = (table(1, 550.0, 100.0), point(&[(0.0, 80.0)], 2000.0));
    let carried = |point: &StrengthPoint, load: Force| {
        judge_point(point, &table, load).holds() || point_carries(point, &table, load)
    };
    for load in [f64::NAN, f64::INFINITY] {
        assert!(!carried(&firm, newtons(load)));
    }
    for layer in [(0.0, f64::NAN), (f64::NAN, 80.0), (0.0, 0.0)] {
        assert!(!carried(&point(&[layer], 900.0), kilonewtons(1.0)));
        assert!(!carried(&point(&[layer], 900.0), kilonewtons(0.0)));
    }
}

fn points() -> impl Strategy<Value = StrengthPoint> {
    (prop::collection::vec((20.0f64..400.0, 1.0f64..100.0), 1..5), 50.0f64..800.0).prop_map(
        |(layers, rest)| {
            let mut top = 0.0;
            let mut tops = Vec::new();
            for (thickness, percent) in layers {
                tops.push((top, percent));
                top += thickness;
            }
            point(&tops, top + rest)
        },
    )
}

fn utilisation(point: &StrengthPoint, table: &RequirementTable, load: f64) -> f64 {
    match judge_point(point, table, newtons(load)) {
        PointJudgement::Known(demand) => demand.utilisation.si(),
        PointJudgement::Unknown(unknown) => {
            unknown.so_far.map_or(f64::INFINITY, |demand| demand.utilisation.si())
        }
    }
}

const SLACK: f64 = 1.0 + 1e-9;

proptest! {
    #[test]
    fn prop_load_pressure_and_coverages_never_help(
        leg in 0usize..5, load in 1e3f64..6e5, pressure in 150.0f64..1500.0,
        coverages in 1.0f64..2e4, depth in 0.0f64..4.0, more in 1.0f64..3.0
    ) {
        let needed = |load, pressure, coverages| {
            table(leg, pressure, coverages).needed(metres(depth), newtons(load)).percent()
        };
        let here = needed(load, pressure, coverages);
        prop_assert!(here.is_finite() && here > 0.0);
        prop_assert!(needed(load * more, pressure, coverages) * SLACK >= here);
        prop_assert!(needed(load, pressure * more, coverages) * SLACK >= here);
        prop_assert!(needed(load, pressure, coverages * more) * SLACK >= here);
    }

    #[test]
    fn prop_needed_falls_with_depth(
        leg in 0usize..5, load in 1e3f64..6e5, pressure in 150.0f64..1500.0,
        coverages in 1.0f64..2e4, depth in 0.0f64..7.0, more in 0.0f64..1.0
    ) {
        let table = table(leg, pressure, coverages);
        let at = |depth| table.needed(metres(depth), newtons(load)).percent();
        prop_assert!(at(depth + more) <= at(depth) * SLACK);
    }

    #[test]
    fn prop_weaker_ground_never_helps(
        point in points(), leg in 0usize..5, load in 1e3f64..6e5, weaker in 0.1f64..1.0,
        layer in 0usize..5
    ) {
        let table = table(leg, 550.0, 100.0);
        let mut worse = point.clone();
        let layer = layer % worse.layers.len();
        worse.layers[layer].1 = bearing_percent(worse.layers[layer].1.percent() * weaker);
        prop_assert!(utilisation(&worse, &table, load) * SLACK >= utilisation(&point, &table, load));
        if judge_point(&worse, &table, newtons(load)).holds() {
            prop_assert!(judge_point(&point, &table, newtons(load)).holds());
        }
    }

    #[test]
    fn prop_whether_a_point_carries_is_what_its_judgement_tells(
        point in points(), leg in 0usize..5, load in 0.0f64..6e5, pressure in 150.0f64..1500.0,
        deeper in 0.0f64..2.0
    ) {
        let table = table(leg, pressure, 100.0);
        let known_to = point.known_to + metres(deeper);
        let point = StrengthPoint { known_to, ..point };
        for load in [load, 0.1 * load, 0.01 * load, 0.0] {
            let load = newtons(load);
            let told = judge_point(&point, &table, load).holds();
            prop_assert_eq!(point_carries(&point, &table, load), told);
        }
    }

    #[test]
    fn prop_the_greatest_load_tells_of_the_lesser(
        point in points(), leg in 0usize..5, load in 0.0f64..6e5, pressure in 150.0f64..1500.0,
        lesser in prop::collection::vec(0.0f64..1.0, 1..4), deeper in 0.0f64..2.0
    ) {
        let table = table(leg, pressure, 100.0);
        let point = StrengthPoint { known_to: point.known_to + metres(deeper), ..point };
        let loads: Vec<_> =
            lesser.iter().map(|share| newtons(load * share)).chain([newtons(load)]).collect();
        let mut greatest = GreatestLoad::of(&table, &loads);
        let told = greatest.used_at_most(&point);
        for load in loads {
            match (told, judge_point(&point, &table, load)) {
                (Some(most), PointJudgement::Known(demand)) => {
                    prop_assert!(demand.holds() && demand.utilisation.si() <= most);
                }
                (told, _) => prop_assert!(told.is_none()),
            }
        }
        prop_assert!(GreatestLoad::of(&table, &[]).used_at_most(&point).is_none());
    }

    #[test]
    fn prop_thicker_cover_never_needs_more(
        point in points(), leg in 0usize..5, load in 1e3f64..6e5, more in 0.0f64..0.5
    ) {
        let table = table(leg, 550.0, 100.0);
        let mut covered = point.clone();
        for layer in covered.layers.iter_mut().skip(1) {
            layer.0 += metres(more);
        }
        covered.known_to += metres(more);
        prop_assert!(utilisation(&covered, &table, load) <= utilisation(&point, &table, load) * SLACK);
    }

    #[test]
    fn prop_largest_load_holds_on_one_side_only(
        points in prop::collection::vec(points(), 1..6), leg in 0usize..5, pressure in 200.0f64..1200.0
    ) {
        let table = table(leg, pressure, 100.0);
        let limit = largest_leg_load(&points, &table).expect("points");
        let holds = |load: f64| points.iter().all(|p| judge_point(p, &table, newtons(load)).holds());
        if limit.load.si() > 0.0 {
            prop_assert!(holds(limit.load.si()));
        }
        if limit.by != LimitedBy::SearchEnd {
            prop_assert!(!holds((limit.load.si() + 2.0).max(100.0)));
        }
    }

    #[test]
    fn prop_largest_pressure_holds_on_one_side_only(
        points in prop::collection::vec(points(), 1..6), leg in 0usize..5, load in 1e3f64..2e5
    ) {
        let range = (kilopascals(200.0), kilopascals(1200.0));
        let limit = largest_pressure(&points, &LEGS[leg], 100.0, newtons(load), range)
            .expect("in order").expect("points");
        let holds = |pressure: f64| {
            points.iter().all(|p| judge_point(p, &table(leg, pressure, 100.0), newtons(load)).holds())
        };
        match limit.pressure {
            Some(pressure) => {
                prop_assert!(holds(pressure.si() / 1e3));
                if limit.by != LimitedBy::SearchEnd {
                    prop_assert!(!holds(pressure.si() / 1e3 + 0.02));
                }
            }
            None => prop_assert!(!holds(200.0)),
        }
    }
}

#[test]
fn a_wheel_that_drags_needs_more_of_the_top() {
    let used = |share: f64, cbr: f64| {
        surface_shear(kilopascals(600.0), ratio(share), bearing_percent(cbr)).utilisation.si()
    };
    // 600 kPa over (2 + pi) 30 kPa CBR without drag.
    assert_relative_eq!(used(0.0, 6.0), 600.0 / (5.141_593 * 180.0), max_relative = 1e-6);
    assert!(
        used(0.3, 6.0) > used(0.0, 6.0) && used(0.9, 6.0).is_infinite() && used(0.4, 4.0) > 1.0
    );
    assert!(used(f64::NAN, 6.0).is_infinite() && used(0.3, 0.0).is_infinite());
}

proptest! {
    #[test]
    fn prop_surface_shear_rises_with_drag_and_falls_with_strength(
        share in 0.0f64..0.8, more in 0.001f64..0.1, cbr in 2.0f64..20.0, stronger in 0.1f64..5.0,
    ) {
        let used = |share: f64, cbr: f64| {
            surface_shear(kilopascals(500.0), ratio(share), bearing_percent(cbr)).utilisation.si()
        };
        prop_assert!(used(share + more, cbr) >= used(share, cbr));
        prop_assert!(used(share, cbr + stronger) <= used(share, cbr));
    }
}
