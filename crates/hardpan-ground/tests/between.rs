//! The ground between soundings, its sections and what is credited of it.

mod support;

use approx::assert_relative_eq;
use hardpan_ground::penetrometer::{CREDIT_DIVISOR, credit_divisor, credited, mean_credited_as};
use hardpan_ground::{
    DEVIATION_BESIDE_SOUNDING, DEVIATION_BETWEEN_SOUNDINGS, Error, Section, model_spread,
    percentile, sections, strength_along,
};
use hardpan_model::{Given, Lane, SoilClass, StrengthPoint, Strip};
use hardpan_quantity::{
    BearingRatio, Length, Quantity, bearing_percent, metres, millimetres_per_blow, percent,
};
use proptest::prelude::*;
use support::{layered, strip};

fn between(behind: f64, ahead: f64, length: f64) -> f64 {
    (DEVIATION_BETWEEN_SOUNDINGS.evaluate)(&[behind, ahead, length])
}

/// Five soundings 80 m apart, the middle one a little softer.
fn sounded(correlation: f64) -> Strip {
    let rates = [11.0, 12.0, 14.0, 12.5, 11.5];
    let soundings = rates.iter().enumerate().map(|(index, rate)| {
        layered(80.0 * index as f64, Some(SoilClass::Other), &[(*rate, 800.0)])
    });
    let mut strip = strip(soundings.collect());
    strip.sounding_rules.correlation_length = Some(Given::stated("length", metres(correlation)));
    strip
}

fn along(strip: &Strip) -> Vec<StrengthPoint> {
    let lanes = [(Lane::Nose, metres(0.0))];
    strength_along(strip, &lanes, metres(5.0), metres(400.0)).expect("usable")[0].points.clone()
}

fn top(point: &StrengthPoint) -> f64 {
    point.layers.first().map_or(f64::NAN, |layer| layer.1.percent())
}

#[test]
fn strength_falls_away_from_soundings_and_is_unknown_beyond_reach() {
    let points = along(&sounded(40.0));
    let at = |station: f64| {
        top(points.iter().find(|point| point.station == metres(station)).expect("a station"))
    };
    let found = 292.0 / 14.0f64.powf(1.12);
    assert_relative_eq!(at(160.0), found, max_relative = 0.01);
    let weaker = 292.0 / 12.0f64.powf(1.12);
    assert!(at(40.0) < 0.97 * weaker && at(75.0) < at(80.0));
    assert!(at(345.0) > at(400.0));
    let mut far = sounded(40.0);
    far.soundings.truncate(3);
    assert!(along(&far).last().expect("an end").layers.is_empty());
}

/// Two soundings show no scatter: nothing grows, and S20 asks for more.
#[test]
fn few_soundings_show_no_scatter() {
    let mut few = sounded(40.0);
    few.soundings.truncate(2);
    let points = along(&few);
    assert_relative_eq!(top(&points[8]), 292.0 / 12.0f64.powf(1.12), max_relative = 0.01);
}

#[test]
fn exact_the_credit_follows_the_least_of_the_laws_on_weak_ground() {
    assert_eq!(credit_divisor(bearing_percent(8.0)), CREDIT_DIVISOR);
    let rate = millimetres_per_blow(100.0);
    let spread = model_spread(rate).expect("inside");
    assert_relative_eq!(
        credited(spread.used).percent(),
        spread.least.percent(),
        max_relative = 1e-9
    );
    assert!(credit_divisor(spread.used) > CREDIT_DIVISOR);
    assert_relative_eq!(mean_credited_as(bearing_percent(6.0)).percent(), 7.8, epsilon = 1e-9);
}

/// Median-unbiased quantile of 1 to 9 at a tenth: place 1/3 + 0.1 (9 + 1/3) =
/// 1.2667 of the rising values.
#[test]
fn exact_a_stated_percentile() {
    let values: Vec<BearingRatio> = (1..=9).map(|k| bearing_percent(f64::from(k))).collect();
    let tenth = percentile(&values, percent(10.0)).expect("values");
    assert_relative_eq!(tenth.percent(), 1.0 / 3.0 + 0.1 * (9.0 + 1.0 / 3.0), epsilon = 1e-9);
    assert_eq!(percentile(&[], percent(10.0)), Err(Error::NoValues));
    assert!(percentile(&values, percent(120.0)).is_err());
}

fn cut(strengths: &[f64]) -> Vec<Section> {
    let values: Vec<(Length, BearingRatio)> = strengths
        .iter()
        .enumerate()
        .map(|(index, ratio)| (metres(50.0 * index as f64), bearing_percent(*ratio)))
        .collect();
    sections(&values, metres(50.0 * strengths.len() as f64)).expect("usable")
}

#[test]
fn sections_part_where_the_ground_changes() {
    let strengths = [20.0, 22.0, 19.0, 21.0, 8.0, 7.0, 8.5, 7.5, 18.0, 21.0, 20.0, 19.0];
    let found = cut(&strengths);
    let members: Vec<usize> = found.iter().map(|section| section.members.len()).collect();
    assert_eq!(members, [4, 4, 4]);
    assert_relative_eq!(found[0].to.si(), 175.0);
    assert_relative_eq!(found[1].to.si(), 375.0);
    assert_relative_eq!(found[2].to.si(), 600.0);
}

#[test]
fn even_ground_and_few_soundings_are_one_section() {
    assert_eq!(cut(&[20.0, 22.0, 19.0, 21.0, 20.5, 19.5, 21.5, 20.0]).len(), 1);
    assert_eq!(cut(&[20.0, 21.0, 5.0, 6.0, 5.5]).len(), 1);
    assert_eq!(sections(&[], metres(100.0)), Err(Error::NoValues));
    assert!(sections(&[(metres(0.0), bearing_percent(0.0))], metres(100.0)).is_err());
}

proptest! {
    #[test]
    fn prop_deviation_grows_away_from_soundings_and_falls_with_the_length(
        gap in 10.0f64..400.0, share in 0.0f64..0.5, more in 0.0f64..0.5, length in 5.0f64..500.0
    ) {
        let nearer = share.min(share + more * (0.5 - share));
        let further = share + more * (0.5 - share);
        let at = |share: f64, length: f64| between(share * gap, (1.0 - share) * gap, length);
        prop_assert!(at(nearer, length) <= at(further, length) + 1e-9);
        prop_assert!(at(share, 2.0 * length) <= at(share, length) + 1e-9);
        prop_assert!(at(0.0, length).abs() < 1e-6);
        prop_assert!((at(share, length) - at(1.0 - share, length)).abs() < 1e-9);
        let one = (DEVIATION_BESIDE_SOUNDING.evaluate)(&[share * gap, length]);
        prop_assert!(at(share, length) <= one + 1e-9);
    }

    #[test]
    fn prop_no_correlation_makes_ground_stronger_than_the_weaker_neighbour(
        length in 5.0f64..300.0
    ) {
        let rates = [11.0, 12.0, 14.0, 12.5, 11.5];
        for point in along(&sounded(length)).iter().filter(|point| !point.layers.is_empty()) {
            let rate = point.soundings.iter().map(|index| rates[*index]).fold(0.0, f64::max);
            prop_assert!(top(point) <= 292.0 / f64::powf(rate, 1.12) * 1.01);
        }
    }

    #[test]
    fn prop_sections_hold_every_sounding_once_in_order(
        strengths in prop::collection::vec(2.0f64..60.0, 1..40)
    ) {
        let found = cut(&strengths);
        let members: Vec<usize> =
            found.iter().flat_map(|section| section.members.iter().copied()).collect();
        prop_assert_eq!(members, (0..strengths.len()).collect::<Vec<_>>());
        for pair in found.windows(2) {
            prop_assert_eq!(pair[0].to, pair[1].from);
        }
        if found.len() > 1 {
            prop_assert!(found.iter().all(|section| section.members.len() >= 3));
        }
    }

    #[test]
    fn prop_more_is_never_credited_of_weaker_ground(low in 0.05f64..100.0, more in 0.0f64..50.0) {
        let less = credited(bearing_percent(low));
        let full = credited(bearing_percent(low + more));
        prop_assert!(less.percent() <= full.percent() + 1e-9);
        prop_assert!(full.percent() <= (low + more) / CREDIT_DIVISOR + 1e-9);
        let back = mean_credited_as(full);
        prop_assert!((credited(back).percent() - full.percent()).abs() < 1e-6);
    }
}
