//! Time to judge a strip of 400 stations in three lanes.

use criterion::{Criterion, criterion_group, criterion_main};
use hardpan_ground::{
    EquivalentLoads, LegGeometry, RequirementTable, judge_point, largest_leg_load,
};
use hardpan_model::{SoilClass, StrengthPoint};
use hardpan_quantity::{bearing_percent, kilonewtons, kilopascals, metres, millimetres};
use std::hint::black_box;

fn points() -> Vec<StrengthPoint> {
    (0..1200)
        .map(|index| StrengthPoint {
            station: metres(f64::from(index % 400) * 5.0),
            layers: vec![
                (millimetres(0.0), bearing_percent(60.0 + f64::from(index % 7))),
                (millimetres(220.0), bearing_percent(12.0 + f64::from(index % 11))),
                (millimetres(480.0), bearing_percent(8.0 + f64::from(index % 5))),
            ],
            known_to: millimetres(900.0),
            nearest: metres(20.0),
            away: Vec::new(),
            soil: SoilClass::Other,
            soundings: vec![0, 1],
            strength_tests: Vec::new(),
        })
        .collect()
}

fn strip(criterion: &mut Criterion) {
    let Ok(leg) = LegGeometry::dual(metres(0.45)) else { return };
    criterion.bench_function("table of a dual leg", |bench| {
        bench.iter(|| EquivalentLoads::new(black_box(leg)))
    });
    let loads = EquivalentLoads::new(leg);
    let Ok(table) = RequirementTable::new(&loads, kilopascals(550.0), 100.0) else { return };
    let points = points();
    criterion.bench_function("judge 1200 points", |bench| {
        bench.iter(|| {
            points
                .iter()
                .filter(|point| judge_point(point, &table, black_box(kilonewtons(95.0))).holds())
                .count()
        })
    });
    criterion.bench_function("largest load over 1200 points", |bench| {
        bench.iter(|| largest_leg_load(black_box(&points), &table))
    });
}

criterion_group!(benches, strip);
criterion_main!(benches);
