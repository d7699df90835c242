//! What each kernel of the ground costs beside a simple piece of work that is
//! timed in the same run, so that the figure holds on any machine.
#![allow(missing_docs)]

use criterion::{Bencher, Criterion, criterion_group, criterion_main};
use hardpan_ground::penetrometer::bearing_ratio;
use hardpan_ground::{
    AirRecord, BARBER_RUT, CONTACT_AREA, CONTACT_WIDTH, CircularLoad, ElasticLayer,
    EquivalentLoads, FLEXIBLE_COVER_CUBIC, FLEXIBLE_COVER_ROOT, FOOTPRINT_AREA,
    FROST_DEPTH_BERGGREN, FrostClimate, GroundPlace, HAMMITT_BEARING, LayeredGround, LegGeometry,
    RepetitionFactors, RequirementTable, RutCalibration, RutLoading, SHEET_FLOW_DEPTH_GALLAWAY,
    SHEET_FLOW_DEPTH_IZZARD, SHEET_FLOW_DEPTH_MANNING, SINGLE_WHEEL_FACTOR, Side, Strata, TyreSize,
    coverages_per_pass, deflection, equivalent_single_wheel, flexible_acn, frost_year, judge_point,
    largest_leg_load, largest_pressure, main_gear_tracks, minimum_pressure, needed_thickness,
    rut_forecast, surface_shear,
};
use hardpan_model::{Formula, Given, Hammer, Reading, SoilClass, Sounding, StrengthPoint};
use hardpan_quantity::{
    Density, Force, Length, PenetrationRate, Pressure, Quantity, bearing_percent, celsius,
    kilograms, kilonewtons, kilopascals, megapascals, metres, millimetres, percent, ratio,
};
use std::cell::Cell;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// Points of layered ground that a core must reach in a second.
const POINTS_A_SECOND: f64 = 10_000.0;

/// Time of one turn, kept while the bench runs.
fn timed(bench: &mut Bencher<'_>, last: &Cell<f64>, mut work: impl FnMut() -> f64) {
    bench.iter_custom(|turns| {
        let begin = Instant::now();
        for _ in 0..turns {
            black_box(work());
        }
        let lasted = begin.elapsed();
        last.set(lasted.as_secs_f64() / turns.max(1) as f64);
        lasted
    });
}

/// Times a kernel and its baseline in turn and prints how many times as long the
/// kernel takes. Returns seconds of the kernel.
fn against(
    criterion: &mut Criterion,
    (kernel, work): (&str, &mut dyn FnMut() -> f64),
    (baseline, plain): (&str, &mut dyn FnMut() -> f64),
) -> f64 {
    let (ours, theirs) = (Cell::new(f64::NAN), Cell::new(f64::NAN));
    let mut group = criterion.benchmark_group(kernel);
    group.sample_size(20).measurement_time(Duration::from_secs(2));
    group.warm_up_time(Duration::from_millis(500));
    group.bench_function("kernel", |bench| timed(bench, &ours, &mut *work));
    group.bench_function(baseline, |bench| timed(bench, &theirs, &mut *plain));
    group.finish();
    println!("{kernel}: {:.2} times {baseline}", ours.get() / theirs.get());
    ours.get()
}

/// 180 rows of five blows through gravel, clay and a weak seam.
fn sounding() -> Sounding {
    let mut depth = 0.0;
    let readings = (0..180_u32).map(|row| {
        let rate = match row {
            0..60 => 1.0,
            60..90 => 3.1,
            _ => 1.7,
        };
        depth += 5.0 * rate * (1.0 + 0.1 * f64::from(row % 5));
        Reading { blows: 5, depth: millimetres(depth), line: row + 2 }
    });
    Sounding {
        station: Given::stated("station", metres(120.0)),
        offset: metres(0.0),
        date: None,
        hammer: Given::stated("hammer", Hammer::Standard),
        soil: Some(Given::stated("soil", SoilClass::LeanClay)),
        readings: readings.collect(),
        refusal: false,
        moisture: None,
    }
}

fn soundings(criterion: &mut Criterion) {
    let test = sounding();
    against(
        criterion,
        ("sounding reduction, 180 rows to strata", &mut || {
            Strata::of(black_box(&test)).map_or(f64::NAN, |strata| strata.known_to.si())
        }),
        ("the penetrometer law at every row", &mut || {
            let mut before = 0.0;
            let mut sum = 0.0;
            for reading in &black_box(&test).readings {
                let depth = reading.depth.si();
                let rate = PenetrationRate::from_si((depth - before) / f64::from(reading.blows));
                before = depth;
                sum += bearing_ratio(rate, SoilClass::Other).percent();
            }
            sum
        }),
    );
}

fn direct(formula: &Formula, values: &[f64]) -> f64 {
    (formula.evaluate)(black_box(values))
}

fn classification(criterion: &mut Criterion) {
    let Ok(leg) = LegGeometry::dual(metres(0.71)) else { return };
    let (share, pressure) = (percent(46.0), megapascals(0.8));
    against(
        criterion,
        ("classification number of a dual leg", &mut || {
            let mass = kilograms(black_box(37_308.0));
            let strength = bearing_percent(6.0);
            flexible_acn(mass, share, &leg, pressure, strength, RepetitionFactors::Of2007)
                .map_or(f64::NAN, |found| found.number)
        }),
        ("its equivalent single wheel at one depth", &mut || {
            let load = kilonewtons(black_box(168.0));
            equivalent_single_wheel(&leg, load, pressure, metres(0.5)).map_or(f64::NAN, Force::si)
        }),
    );
}

fn pavement(criterion: &mut Criterion) {
    let (load, pressure) = (224e3, 1.0e6);
    against(
        criterion,
        ("design equation, both forms with the factor of coverages", &mut || {
            let alpha = direct(&SINGLE_WHEEL_FACTOR, &[600.0]);
            direct(&FLEXIBLE_COVER_ROOT, &[load, pressure, 6.0, alpha])
                + direct(&FLEXIBLE_COVER_CUBIC, &[load, pressure, 6.0, alpha])
        }),
        ("contact area as load over pressure", &mut || direct(&CONTACT_AREA, &[load, pressure])),
    );
}

/// A point of gravel over clay, as the ground of a lane.
fn point() -> StrengthPoint {
    let layers = [(0.0, 45.0), (250.0, 9.0), (500.0, 6.0)];
    StrengthPoint {
        station: metres(100.0),
        layers: layers.map(|(top, cbr)| (millimetres(top), bearing_percent(cbr))).into(),
        known_to: millimetres(900.0),
        nearest: metres(0.0),
        away: Vec::new(),
        soil: SoilClass::Other,
        soundings: vec![0],
        strength_tests: Vec::new(),
    }
}

fn demand(criterion: &mut Criterion) {
    let Ok(leg) = LegGeometry::dual(metres(0.71)) else { return };
    let loads = EquivalentLoads::new(leg);
    let Ok(table) = RequirementTable::new(&loads, kilopascals(700.0), 200.0) else { return };
    let place = point();
    let load = kilonewtons(160.0);
    let one = || direct(&HAMMITT_BEARING, &[112e3, 7e5, 0.25, 200.0]);
    let judge = || judge_point(black_box(&place), &table, load).holds();
    let criterion_once = "the unsurfaced criterion once";
    against(
        criterion,
        ("a point of three layers judged under a dual leg", &mut || f64::from(u8::from(judge()))),
        (criterion_once, &mut || one()),
    );
    against(
        criterion,
        ("gravel that mends a point", &mut || {
            let found = needed_thickness(black_box(&place), &table, load);
            found.map_or(f64::NAN, |gravel| gravel.thickness.si())
        }),
        ("the same point judged", &mut || f64::from(u8::from(judge()))),
    );
    against(
        criterion,
        ("greatest load of a point", &mut || {
            let found = largest_leg_load([black_box(&place)], &table);
            found.map_or(f64::NAN, |limit| limit.load.si())
        }),
        ("the same point judged once", &mut || f64::from(u8::from(judge()))),
    );
    against(
        criterion,
        ("greatest tyre pressure of a point", &mut || {
            let ends = (kilopascals(300.0), kilopascals(1200.0));
            let found = largest_pressure([black_box(&place)], &loads, 200.0, load, ends);
            let found = found.ok().flatten().and_then(|limit| limit.pressure);
            found.map_or(f64::NAN, Pressure::si)
        }),
        ("the same point judged at one pressure", &mut || f64::from(u8::from(judge()))),
    );
    against(
        criterion,
        ("shear of the top under a braked wheel", &mut || {
            let drag = percent(black_box(30.0));
            surface_shear(kilopascals(700.0), drag, bearing_percent(12.0)).utilisation.si()
        }),
        (criterion_once, &mut || one()),
    );
    let tracks = main_gear_tracks(&leg, metres(5.2));
    against(
        criterion,
        ("coverages of a pass of two dual legs", &mut || {
            let found = coverages_per_pass(black_box(&tracks), metres(0.36), metres(0.77));
            found.unwrap_or(f64::NAN)
        }),
        ("width of one contact area", &mut || direct(&CONTACT_WIDTH, &[0.114])),
    );
}

fn tyre(criterion: &mut Criterion) {
    let size = TyreSize {
        diameter: metres(0.96),
        width: metres(0.34),
        rated_pressure: kilopascals(800.0),
        profile_coefficient: 0.03,
    };
    let footprint = |load: Force, pressure: Pressure| {
        let deep = deflection(&size, load, pressure).map_or(f64::NAN, Length::si);
        let least = minimum_pressure(load, kilonewtons(120.0), size.rated_pressure);
        direct(&FOOTPRINT_AREA, &[0.34, 0.96, deep]) + least.map_or(f64::NAN, Pressure::si)
    };
    against(
        criterion,
        ("tyre: deflection, footprint and least pressure", &mut || {
            footprint(kilonewtons(black_box(85.0)), kilopascals(600.0))
        }),
        ("contact area as load over pressure", &mut || direct(&CONTACT_AREA, &[85e3, 6e5])),
    );
}

fn ruts(criterion: &mut Criterion) {
    let loading = RutLoading {
        load: kilonewtons(60.0),
        pressure: kilopascals(600.0),
        passes: 200.0,
        thickness: millimetres(240.0),
        above: bearing_percent(40.0),
        below: bearing_percent(4.0),
        over_laws: ratio(1.0),
    };
    against(
        criterion,
        ("ruts by both laws", &mut || {
            let found = rut_forecast(black_box(&loading));
            found.barber.map_or(f64::NAN, Length::si)
        }),
        ("the regression of 1978 once", &mut || {
            direct(&BARBER_RUT, &[60e3, 6e5, 200.0, 0.24, 40.0, 4.0])
        }),
    );
    let pairs: Vec<(Length, Length)> = (1..=60)
        .map(|row| (millimetres(20.0 + f64::from(row % 9)), millimetres(18.0 + f64::from(row % 7))))
        .collect();
    against(
        criterion,
        ("rut law held to 60 ruts, 95 % interval", &mut || {
            let found = RutCalibration::of(black_box(&pairs));
            let interval = found.map(|found| found.factor_interval(0.95));
            interval.ok().flatten().map_or(f64::NAN, |(low, high)| high - low)
        }),
        ("mean of their logarithms", &mut || {
            let logs = black_box(&pairs).iter().map(|(law, found)| (found.si() / law.si()).ln());
            logs.sum::<f64>() / 60.0
        }),
    );
}

fn weather(criterion: &mut Criterion) {
    let monthly = [-14.0, -12.0, -5.0, 3.0, 10.0, 15.0, 18.0, 16.0, 10.0, 3.0, -4.0, -11.0];
    let climate = FrostClimate {
        air: AirRecord::Monthly(monthly.map(celsius)),
        freezing_factor: 0.95,
        thawing_factor: 1.25,
        frozen_conductivity: 2.5,
        thawed_conductivity: 1.9,
        dry_density: Density::from_si(1900.0),
        water_content: percent(8.0),
    };
    against(
        criterion,
        ("frost of a year, modified Berggren day by day", &mut || {
            frost_year(black_box(&climate)).map_or(f64::NAN, |year| year.len() as f64)
        }),
        ("365 depths with the correction known", &mut || {
            let depth = |day: i32| {
                let index = f64::from(day);
                direct(&FROST_DEPTH_BERGGREN, &[2.5, index, 1900.0, 0.08, 0.8])
            };
            (1..=365).map(depth).sum()
        }),
    );
    let rain = 20e-3 / 3600.0;
    against(
        criterion,
        ("sheet flow by three laws", &mut || {
            direct(&SHEET_FLOW_DEPTH_MANNING, &[15.0, rain, 0.02, 0.05])
                + direct(&SHEET_FLOW_DEPTH_GALLAWAY, &[15.0, rain, 0.02, 1e-3])
                + direct(&SHEET_FLOW_DEPTH_IZZARD, &[15.0, rain, 0.02, 0.02])
        }),
        ("one power of a number", &mut || black_box(15.0 * rain).powf(0.6)),
    );
}

fn layered(criterion: &mut Criterion) {
    let layer = |thickness: Option<f64>, stiffness: f64| ElasticLayer {
        thickness: thickness.map(millimetres),
        stiffness: megapascals(stiffness),
        poisson: 0.35,
    };
    let ground = |layers: &[ElasticLayer]| LayeredGround::new(layers).ok();
    let three = [layer(Some(200.0), 250.0), layer(Some(300.0), 100.0), layer(None, 40.0)];
    let (Some(three), Some(whole)) = (ground(&three), ground(&[layer(None, 40.0)])) else { return };
    let wheel = |x: f64| {
        CircularLoad::wheel(metres(x), metres(0.0), kilonewtons(45.0), kilopascals(600.0)).ok()
    };
    let dual: Vec<CircularLoad> = [wheel(-0.22), wheel(0.22)].into_iter().flatten().collect();
    let place = |depth: f64| GroundPlace {
        x: metres(0.1),
        y: metres(0.0),
        depth: millimetres(depth),
        side: Side::Below,
    };
    let strain = |ground: &LayeredGround, depth: f64| {
        let found = ground.response(black_box(&dual), &place(depth));
        found.map_or(f64::NAN, |found| found.strain[2].si())
    };
    for (depth, name) in [
        (500.0, "layered response, 3 layers, dual leg, top of the weak layer"),
        (0.0, "layered response, 3 layers, dual leg, at the surface"),
    ] {
        let seconds = against(
            criterion,
            (name, &mut || strain(&three, depth)),
            ("a half space in closed form", &mut || strain(&whole, depth)),
        );
        let rate = 1.0 / seconds;
        println!(
            "{name}: {:.1} times {POINTS_A_SECOND:.0} points a second",
            rate / POINTS_A_SECOND
        );
    }
}

criterion_group!(
    benches,
    soundings,
    classification,
    pavement,
    demand,
    tyre,
    ruts,
    weather,
    layered
);
criterion_main!(benches);
