//! Counts, rates and states computed from entries.

mod support;

use hardpan_book::{
    Entry, Kind, Record, State, current, damage_rate, days_since_inspection, movements_by_month,
    passes_since_repair, poisson_limits, status,
};
use hardpan_quantity::{Quantity as _, percent, ratio, seconds};
use proptest::prelude::*;
use support::{audit, closure, inspection, moment, movement, record, survey};

const DAY: f64 = 86_400.0;

fn entries(records: Vec<Record>) -> Vec<Entry> {
    let entry = |(id, record)| Entry {
        id,
        audit: audit(),
        supersedes: None,
        why: None,
        mark: None,
        first: None,
        record,
    };
    (1..).zip(records).map(entry).collect()
}

fn state(records: Vec<Record>, now: &str) -> State {
    let surveyed = [
        survey("levels", "2026-05-04", "2027-05-04"),
        survey("soundings", "2026-05-04", "2027-05-04"),
    ];
    let entries = entries(records.into_iter().chain(surveyed).collect());
    let found = status(&current(&entries), "North", moment(now), seconds(7.0 * DAY), None);
    assert!(!found.reasons.is_empty());
    found.state
}

/// Two-sided limits of a Poisson mean, from public pages: one on the count of
/// 25 at three levels, printed to two decimals, which names [GARWOOD-1936] as
/// its method; one on counts of 0 and 10 at 95 %.
#[test]
fn limits_are_those_that_are_published() {
    let cases = [
        (25, 90.0, 17.38, 34.92, 0.005),
        (25, 95.0, 16.18, 36.90, 0.005),
        (25, 99.0, 14.00, 41.00, 0.005),
        (10, 95.0, 4.80, 18.39, 0.005),
        (0, 95.0, 0.0, 3.689, 0.0005),
    ];
    for (count, level, lower, upper, half_digit) in cases {
        let limits = poisson_limits(count, percent(level)).expect("inside the range");
        assert!((limits.lower - lower).abs() <= half_digit, "{count} {level}: {limits:?}");
        assert!((limits.upper - upper).abs() <= half_digit, "{count} {level}: {limits:?}");
    }
}

/// 95 % limits as printed in tables of [GARWOOD-1936] form; from memory.
#[test]
fn limits_are_those_remembered_from_tables() {
    let cases = [(1, 0.0253, 5.5716), (2, 0.2422, 7.2247), (5, 1.6235, 11.6683)];
    for (count, lower, upper) in cases {
        let limits = poisson_limits(count, percent(95.0)).expect("inside the range");
        assert!((limits.lower - lower).abs() <= 5e-5, "{count}: {limits:?}");
        assert!((limits.upper - upper).abs() <= 5e-5, "{count}: {limits:?}");
    }
}

#[test]
fn confidence_outside_its_range_is_refused() {
    for level in [0.0, 1.0, -0.1, 1.5, f64::NAN, f64::INFINITY] {
        assert!(poisson_limits(3, ratio(level)).is_err(), "{level}");
    }
}

/// Chance of at most `count` events, summed term by term.
fn chance_of_at_most(count: u32, mean: f64) -> f64 {
    let mut term = (-mean).exp();
    let mut sum = term;
    for k in 1..=count {
        term *= mean / f64::from(k);
        sum += term;
    }
    sum
}

proptest! {
    /// The definition of the limits: each tail holds half of what is left.
    #[test]
    fn prop_limits_cut_off_the_tails(count in 1_u32..120, level in 0.5_f64..0.999) {
        let limits = poisson_limits(count, ratio(level)).expect("inside the range");
        let tail = (1.0 - level) / 2.0;
        prop_assert!((chance_of_at_most(count, limits.upper) - tail).abs() < 1e-7);
        prop_assert!((1.0 - chance_of_at_most(count - 1, limits.lower) - tail).abs() < 1e-7);
        prop_assert!(limits.lower < f64::from(count) && f64::from(count) < limits.upper);
    }

    #[test]
    fn prop_counts_add_up(days in prop::collection::vec((1_u8..=12, 1_u8..=28, any::<bool>()), 0..60),
                          mended in 1_u8..=12) {
        let moved = days.iter().map(|(month, day, lands)| {
            movement(if *lands { "landing" } else { "take-off" },
                     &format!("2025-{month:02}-{day:02}T10:00Z"))
        });
        let date = format!("2025-{mended:02}-15");
        let repair = record(Kind::Repair, &[("strip", "North"), ("date", &date), ("from", "0 m"),
                                            ("to", "900 m"), ("what", "graded")]);
        let entries = entries(moved.chain([repair]).collect());
        let standing = current(&entries);
        let months = movements_by_month(&standing, "North");
        prop_assert_eq!(months.values().map(|(l, t)| l + t).sum::<usize>(), days.len());
        prop_assert_eq!(months.values().map(|(l, _)| l).sum::<usize>(),
                        days.iter().filter(|(_, _, lands)| *lands).count());
        let since = days.iter().filter(|(month, day, _)| (*month, *day) >= (mended, 15)).count();
        let passes = passes_since_repair(&standing, "North");
        prop_assert_eq!(passes.count, since);
        prop_assert_eq!(passes.since.map(|day| day.to_string()), Some(date));
        prop_assert_eq!(passes_since_repair(&standing, "South").count, 0);
    }
}

#[test]
fn damage_is_told_for_each_thousand_movements() {
    let damage = record(
        Kind::Damage,
        &[
            ("tail", "XX-ONE"),
            ("strip", "North"),
            ("date", "2026-06-18"),
            ("zone", "flap"),
            ("phase", "landing"),
        ],
    );
    let none = entries(vec![damage.clone()]);
    let rate = damage_rate(&current(&none), "North", percent(95.0)).expect("inside the range");
    assert_eq!((rate.reports, rate.movements, rate.rate), (1, 0, None));
    let moved = std::iter::repeat_n(movement("landing", "2026-06-18T15:00Z"), 500);
    let some = entries(moved.chain([damage]).collect());
    let rate = damage_rate(&current(&some), "North", percent(95.0)).expect("inside the range");
    let limits = rate.limits.expect("there are movements");
    assert_eq!(rate.rate, Some(2.0));
    assert!((limits.lower - 2.0 * 0.0253).abs() < 1e-4, "{limits:?}");
    assert!((limits.upper - 2.0 * 5.5716).abs() < 1e-4, "{limits:?}");
}

#[test]
fn a_strip_that_was_never_inspected_is_never_open() {
    let now = "2026-06-20T00:00Z";
    assert_eq!(state(vec![], now), State::NotKnown);
    assert_eq!(state(vec![movement("landing", "2026-06-18T15:00Z")], now), State::NotKnown);
    assert_eq!(state(vec![closure("reopened", "2026-06-18T15:00Z")], now), State::NotKnown);
    let ahead = inspection("2026-06-21T00:00Z", "0 mm", "0 mm");
    assert_eq!(state(vec![ahead], now), State::NotKnown);
}

/// The rut limit is 3 in, as [CFR-14-139-307] is quoted; 76 mm is its rounded
/// form.
#[test]
fn ruts_water_and_age_restrict() {
    let now = "2026-06-20T00:00Z";
    let fresh = "2026-06-19T00:00Z";
    let of = |at: &str, rut: &str, water: &str| state(vec![inspection(at, rut, water)], now);
    assert_eq!(of(fresh, "0 mm", "0 mm"), State::Open);
    assert_eq!(of(fresh, "75.9 mm", "0 mm"), State::Open);
    assert_eq!(of(fresh, "76 mm", "0 mm"), State::Restricted);
    assert_eq!(of(fresh, "3 in", "0 mm"), State::Restricted);
    assert_eq!(of(fresh, "0 mm", "1 mm"), State::Restricted);
    assert_eq!(of("2026-06-13T00:00Z", "0 mm", "0 mm"), State::Open);
    assert_eq!(of("2026-06-12T23:59:59Z", "0 mm", "0 mm"), State::Restricted);
    let mended =
        vec![inspection("2026-06-18T00:00Z", "90 mm", "0 mm"), inspection(fresh, "20 mm", "0 mm")];
    assert_eq!(state(mended, now), State::Open);
}

#[test]
fn a_wait_that_is_no_number_never_opens() {
    let entries = entries(vec![inspection("2026-06-19T00:00Z", "0 mm", "0 mm")]);
    let now = moment("2026-06-20T00:00Z");
    let found = status(&current(&entries), "North", now, seconds(f64::NAN), None);
    assert_eq!(found.state, State::Restricted);
}

#[test]
fn closures_close_and_ask_for_an_inspection_after() {
    let now = "2026-06-20T00:00Z";
    let seen = |at: &str| inspection(at, "0 mm", "0 mm");
    let closed = || closure("closed", "2026-06-18T00:00Z");
    let open = || closure("reopened", "2026-06-19T00:00Z");
    let before = || seen("2026-06-17T00:00Z");
    assert_eq!(state(vec![before(), closed()], now), State::Closed);
    assert_eq!(state(vec![closed()], now), State::Closed);
    assert_eq!(state(vec![before(), closed()], "2026-06-17T12:00Z"), State::Open);
    assert_eq!(state(vec![before(), closed(), open()], now), State::Restricted);
    assert_eq!(state(vec![closed(), open(), seen("2026-06-18T12:00Z")], now), State::Open);
    let together = vec![closure("closed", "2026-06-19T00:00Z"), open(), before()];
    assert_eq!(state(together, now), State::Closed);
}

#[test]
fn age_of_an_inspection_is_told() {
    let entries = entries(vec![inspection("2026-06-18T12:00Z", "0 mm", "0 mm")]);
    let now = moment("2026-06-20T00:00Z");
    let age = days_since_inspection(&current(&entries), "North", now).map(|age| age.si());
    assert_eq!(age, Some(129_600.0));
    assert_eq!(days_since_inspection(&current(&entries), "South", now), None);
}

/// What is not recorded, or of no stated age, is never a pass.
#[test]
fn surveys_that_are_missing_old_or_of_no_stated_age_restrict() {
    let now = moment("2026-06-20T00:00Z");
    let undated = |what: &str| {
        let values = [("strip", "North"), ("what", what), ("date", "2026-05-21"), ("file", "a")];
        record(Kind::Survey, &values)
    };
    let told = |surveys: Vec<Record>, days: Option<f64>| {
        let seen = inspection("2026-06-19T00:00Z", "0 mm", "0 mm");
        let all = entries(surveys.into_iter().chain([seen]).collect());
        let longest = days.map(|days| seconds(days * DAY));
        let found = status(&current(&all), "North", now, seconds(7.0 * DAY), longest);
        (found.state, found.reasons.join("; "))
    };
    let (state, why) = told(vec![], Some(1e6));
    assert_eq!(state, State::Restricted);
    assert!(why.contains("no survey of levels") && why.contains("no soundings"), "{why}");
    let both = || vec![undated("levels"), undated("strength tests")];
    let (state, why) = told(both(), None);
    assert_eq!(state, State::Restricted);
    assert!(why.contains("levels of 2026-05-21 state no day"), "{why}");
    assert_eq!(told(both(), Some(30.0)).0, State::Open, "30 days from 21 May to 20 June");
    let (state, why) = told(both(), Some(29.0));
    assert!(state == State::Restricted && why.contains("30 d old, more than 29 d"), "{why}");
    assert_eq!(told(both(), Some(f64::NAN)).0, State::Restricted);
    let dated = |due: &str| vec![survey("levels", "2026-05-04", due), undated("soundings")];
    assert_eq!(told(dated("2026-06-19"), Some(90.0)).0, State::Restricted, "its day is past");
    assert_eq!(told(dated("2026-06-20"), Some(90.0)).0, State::Open);
    let ahead = vec![survey("levels", "2026-06-21", "2027-01-01"), undated("soundings")];
    assert_eq!(told(ahead, Some(90.0)).0, State::Restricted, "a survey that lies ahead");
}
