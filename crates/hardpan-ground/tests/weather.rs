//! The ground through a year of frost.

use hardpan_ground::{
    AirRecord, BERGGREN_LAMBDA_EXACT, Error, FROST_DEPTH_BERGGREN, FUSION_PARAMETER, FrostClimate,
    FrostState, THERMAL_RATIO, frost_year,
};
use hardpan_quantity::{
    Amount, Density, Dimension, Quantity, Ratio, Temperature, celsius, percent,
};
use proptest::prelude::*;

fn climate(monthly: [f64; 12]) -> FrostClimate {
    FrostClimate {
        air: AirRecord::Monthly(monthly.map(celsius)),
        freezing_factor: 0.95,
        thawing_factor: 1.25,
        frozen_conductivity: 2.5,
        thawed_conductivity: 1.9,
        dry_density: Density::from_si(1900.0),
        water_content: percent(8.0),
    }
}

const MILD: [f64; 12] = [-4.0, -3.0, 1.0, 6.0, 11.0, 15.0, 17.0, 16.0, 11.0, 6.0, 1.0, -3.0];

fn frost(state: FrostState) -> f64 {
    match state {
        FrostState::Thawed => 0.0,
        FrostState::Frozen(depth) | FrostState::Thawing(_, depth) => depth.si(),
    }
}

/// On the last day of a winter of 90 days the depth is that of the modified
/// Berggren equation [UFC-3-130-04], whose worked examples stand in
/// `validation/cases/ground/frost-depth.toml`: index 3 · 31 + 4 · 31 + 3 · 28.
#[test]
fn exact_the_depth_at_the_end_of_winter_is_the_published_equation() {
    let year = frost_year(&climate(MILD)).expect("covered");
    let index = 0.95 * (3.0 * 31.0 + 4.0 * 31.0 + 3.0 * 28.0);
    let days = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];
    let mean: f64 = MILD.iter().zip(days).map(|(mean, days)| mean * days).sum::<f64>() / 365.0;
    let number = Amount::coefficient;
    let winter = Amount::new(Dimension::Time, 90.0 * 86_400.0);
    let alpha = THERMAL_RATIO.value(&[celsius(mean).into(), number(index), winter]);
    let mu = FUSION_PARAMETER.value(&[number(index), winter, percent(8.0).into()]);
    let lambda = BERGGREN_LAMBDA_EXACT.value(&[alpha.expect("a"), mu.expect("m")]);
    let depth = FROST_DEPTH_BERGGREN.value(&[
        number(2.5),
        number(index),
        Density::from_si(1900.0).into(),
        percent(8.0).into(),
        lambda.expect("l"),
    ]);
    // 28 February, the 59th day.
    let found = frost(year[58]);
    assert!((found - depth.expect("d").si).abs() < 1e-9, "{found}");
}

/// A record of three years whose days are the monthly means.
fn record(
    monthly: [f64; 12],
    change: impl Fn(usize, usize, f64) -> f64,
) -> Vec<(usize, Temperature)> {
    let days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let year: Vec<f64> = monthly
        .iter()
        .zip(days)
        .flat_map(|(mean, days)| std::iter::repeat_n(*mean, days))
        .collect();
    (0..3)
        .flat_map(|which| year.iter().enumerate().map(move |(day, mean)| (which, day, *mean)))
        .map(|(which, day, mean)| (day, celsius(change(which, day, mean))))
        .collect()
}

#[test]
fn exact_a_record_of_monthly_means_tells_what_the_means_tell() {
    let by_month = frost_year(&climate(MILD)).expect("covered");
    let air = AirRecord::Daily(record(MILD, |_, _, mean| mean));
    let by_day = frost_year(&FrostClimate { air, ..climate(MILD) }).expect("covered");
    for (day, (month, record)) in by_month.iter().zip(&by_day).enumerate() {
        let same = match (month, record) {
            (FrostState::Frozen(a), FrostState::Frozen(b)) => (a.si() - b.si()).abs() < 1e-9,
            (FrostState::Thawing(a, x), FrostState::Thawing(b, y)) => {
                (a.si() - b.si()).abs() < 1e-9 && (x.si() - y.si()).abs() < 1e-9
            }
            (a, b) => a == b,
        };
        assert!(same, "day {day}: {month:?}, {record:?}");
    }
}

#[test]
fn a_mild_week_in_one_winter_of_the_record_is_told_as_thaw() {
    let mild_week = |which: usize, day: usize, mean: f64| {
        if which == 1 && (20..27).contains(&day) { 6.0 } else { mean }
    };
    let air = AirRecord::Daily(record(MILD, mild_week));
    let year = frost_year(&FrostClimate { air, ..climate(MILD) }).expect("covered");
    assert!(matches!(year[24], FrostState::Thawing(..)), "{:?}", year[24]);
    assert!(matches!(year[10], FrostState::Frozen(_)), "{:?}", year[10]);
    let short = AirRecord::Daily(record(MILD, |_, _, mean| mean)[..400].to_vec());
    assert!(frost_year(&FrostClimate { air: short, ..climate(MILD) }).is_err());
}

#[test]
fn the_ground_freezes_thaws_over_frost_and_is_thawed() {
    let year = frost_year(&climate(MILD)).expect("covered");
    assert_eq!(year.len(), 365);
    assert!(matches!(year[40], FrostState::Frozen(_)));
    assert!(matches!(year[70], FrostState::Thawing(thawed, frozen) if thawed < frozen));
    assert_eq!(year[200], FrostState::Thawed);
    let thawing = year.iter().filter(|day| matches!(day, FrostState::Thawing(..))).count();
    assert!((30..90).contains(&thawing), "{thawing}");
}

#[test]
fn warm_years_have_no_frost_and_frost_that_stays_is_refused() {
    let warm = frost_year(&climate([4.0; 12])).expect("covered");
    assert!(warm.iter().all(|day| *day == FrostState::Thawed));
    let cold = MILD.map(|mean| mean - 12.0);
    assert!(matches!(frost_year(&climate(cold)), Err(Error::OutOfRange { .. })));
    let mut late = [-26.0, -26.0, -20.0, -8.0, 1.0, 19.0, 22.0, 20.0, 15.0, 12.0, 4.0, -9.0];
    late[4] = 1.0;
    let stays = frost_year(&FrostClimate { thawing_factor: 0.1, ..climate(late) });
    assert!(matches!(stays, Err(Error::NoSolution { .. })), "{stays:?}");
    let no_water = FrostClimate { water_content: Ratio::from_si(0.0), ..climate(MILD) };
    assert!(frost_year(&no_water).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn prop_a_colder_winter_is_never_shallower(colder in 0.0f64..8.0, month in 0usize..2) {
        let deepest = |monthly: [f64; 12]| {
            let year = frost_year(&climate(monthly)).expect("covered");
            year.into_iter().map(frost).fold(0.0, f64::max)
        };
        let mut cold = MILD;
        cold[month] -= colder;
        prop_assert!(deepest(cold) >= deepest(MILD) - 1e-9);
    }
}
