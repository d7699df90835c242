//! Growth of ruts, and by when a strip must be graded.

mod support;

use hardpan_book::{
    Entry, GradingLimits, Kind, Record, State, current, grading, line_through, status,
};
use hardpan_quantity::{Quantity as _, millimetres, seconds};
use proptest::prelude::*;
use support::{audit, moment, movement, record, survey};

/// x and y of [NIST-STRD], dataset Norris, as several public copies give it.
const NORRIS: [(f64, f64); 36] = [
    (0.2, 0.1),
    (337.4, 338.8),
    (118.2, 118.1),
    (884.6, 888.0),
    (10.1, 9.2),
    (226.5, 228.1),
    (666.3, 668.5),
    (996.3, 998.5),
    (448.6, 449.1),
    (777.0, 778.9),
    (558.2, 559.2),
    (0.4, 0.3),
    (0.6, 0.1),
    (775.5, 778.1),
    (666.9, 668.8),
    (338.0, 339.3),
    (447.5, 448.9),
    (11.6, 10.8),
    (556.0, 557.7),
    (228.1, 228.3),
    (995.8, 998.0),
    (887.6, 888.8),
    (120.2, 119.6),
    (0.3, 0.3),
    (0.3, 0.6),
    (556.8, 557.6),
    (339.1, 339.3),
    (887.2, 888.0),
    (999.0, 998.5),
    (779.0, 778.9),
    (11.1, 10.2),
    (118.3, 117.6),
    (229.2, 228.9),
    (669.1, 668.4),
    (448.9, 449.2),
    (0.5, 0.2),
];

/// Certified values of [NIST-STRD], Norris: 15 digits; double precision keeps 11.
#[test]
fn a_line_is_the_certified_one() {
    let line = line_through(&NORRIS).expect("a line");
    let (of_intercept, of_slope) = line.deviations();
    for (found, certified) in [
        (line.intercept, -0.262_323_073_774_029),
        (line.slope, 1.002_116_818_020_45),
        (of_intercept, 0.232_818_234_301_152),
        (of_slope, 0.429_796_848_199_937e-3),
        (line.scatter, 0.884_796_396_144_373),
    ] {
        assert!(((found - certified) / certified).abs() < 1e-11, "{found} {certified}");
    }
}

proptest! {
    /// The definition of the interval: its ends are where the band stands at the limit.
    #[test]
    fn prop_the_interval_ends_where_the_band_meets_the_limit(
        points in prop::collection::vec((0.0_f64..500.0, 0.0_f64..60.0), 3..12),
        limit in 30.0_f64..90.0,
    ) {
        let Some(line) = line_through(&points) else { return Ok(()) };
        let from = points.iter().map(|(x, _)| *x).fold(0.0, f64::max);
        let found = line.crossing(limit, from, 0.95).expect("a confidence");
        if let Some(at) = found.earliest.filter(|at| *at > from) {
            let (_, _, high) = line.band(at, 0.95).expect("a confidence");
            prop_assert!((high - limit).abs() < 1e-6 * (1.0 + at.abs()), "{high} {limit}");
        }
        if let Some(at) = found.latest.filter(|at| *at > from && line.scatter > 0.0) {
            let (low, _, _) = line.band(at, 0.95).expect("a confidence");
            prop_assert!((low - limit).abs() < 1e-6 * (1.0 + at.abs()), "{low} {limit}");
        }
        if let (Some(best), Some(earliest)) = (found.best, found.earliest) {
            prop_assert!(earliest <= best + 1e-6);
        }
        if let (Some(best), Some(latest)) = (found.best, found.latest) {
            prop_assert!(best <= latest + 1e-6);
        }
    }

    #[test]
    fn prop_nothing_panics(points in prop::collection::vec((any::<f64>(), any::<f64>()), 0..6),
                           limit in any::<f64>(), from in any::<f64>(), level in any::<f64>()) {
        if let Some(line) = line_through(&points) {
            let _ = line.crossing(limit, from, level);
        }
    }
}

#[test]
fn too_few_points_or_one_place_make_no_line() {
    assert_eq!(line_through(&[(0.0, 1.0), (1.0, 2.0)]), None);
    assert_eq!(line_through(&[(1.0, 1.0), (1.0, 2.0), (1.0, 3.0)]), None);
    assert_eq!(line_through(&[(0.0, f64::NAN), (1.0, 2.0), (2.0, 3.0)]), None);
}

fn seen(at: &str, rut: &str) -> Record {
    let values = [("strip", "North"), ("at", at), ("rut", rut), ("water", "0 mm")];
    let place = [("rut_station", "640 m"), ("rut_lane", "left main")];
    record(Kind::Inspection, &[&values[..], &place[..]].concat())
}

/// Ten passes a day from 1 June on, and a rut found by inspections at noon.
fn book(ruts: &[(&str, &str)], more: Vec<Record>) -> Vec<Entry> {
    let moved = (1..=28).flat_map(|day| {
        (0..10).map(move |minute| movement("landing", &format!("2026-06-{day:02}T06:{minute:02}Z")))
    });
    let found = ruts.iter().map(|(at, rut)| seen(at, rut));
    let all: Vec<Record> = moved.chain(found).chain(more).collect();
    let entry = |(id, record)| Entry {
        id,
        audit: audit(),
        supersedes: None,
        why: None,
        mark: None,
        first: None,
        record,
    };
    (1..).zip(all).map(entry).collect()
}

const RUTS: [(&str, &str); 3] =
    [("2026-06-04T12:00Z", "4 mm"), ("2026-06-14T12:00Z", "14 mm"), ("2026-06-24T12:00Z", "24 mm")];

/// By hand: 4, 14 and 24 mm after 40, 140 and 240 passes are 0.1 mm a pass; 76 mm
/// are met at pass 760. By the end of 28 June there were 280, so that 480 are left;
/// 280 in 27.75 days are 70.6 a week, and 480 take 47.6 days: 47 from 28 June.
#[test]
fn a_day_is_told_from_growth_and_passes() {
    let entries = book(&RUTS, Vec::new());
    let now = moment("2026-06-29T00:00Z");
    let found = grading(&current(&entries), "North", now, &GradingLimits::default());
    let found = found.expect("it can be told");
    let passes = found.passes.expect("there are movements");
    assert_eq!(passes.movements, 280);
    assert!((passes.mean - 280.0 / 27.75 * 7.0).abs() < 1e-9, "{passes:?}");
    let place = found.places.iter().find(|one| one.lane.is_some()).expect("the place");
    assert_eq!(place.place(), "rut left main, station 600 to 700 m");
    assert!((place.growth.si() - 0.1).abs() < 1e-12, "{place:?}");
    let left = place.passes_left[0].expect("it grows");
    assert!((left - 480.0).abs() < 1e-6, "{left}");
    assert_eq!(place.days[0].map(|day| day.to_string()).as_deref(), Some("2026-08-15"));
    // The line has no scatter: the interval is that of the passes alone.
    assert!(place.days[1] < place.days[0] && place.days[0] < place.days[2], "{place:?}");
}

#[test]
fn two_inspections_a_repair_or_no_growth_tell_no_day() {
    let now = moment("2026-06-29T00:00Z");
    let told = |entries: &[Entry]| {
        grading(&current(entries), "North", now, &GradingLimits::default()).expect("it is told")
    };
    let few = told(&book(&RUTS[..2], Vec::new()));
    assert!(few.places.is_empty());
    assert!(few.not_told.iter().any(|why| why.contains("three")), "{:?}", few.not_told);
    let mended = record(
        Kind::Repair,
        &[
            ("strip", "North"),
            ("date", "2026-06-15"),
            ("from", "600 m"),
            ("to", "700 m"),
            ("what", "graded"),
        ],
    );
    assert!(told(&book(&RUTS, vec![mended])).places.is_empty(), "what was found before is gone");
    let same = RUTS.map(|(at, _)| (at, "24 mm"));
    let level = told(&book(&same, Vec::new()));
    assert!(level.places.iter().all(|one| one.days[0].is_none()), "{:?}", level.places);
    let empty = told(&[]);
    assert!(empty.passes.is_none() && !empty.not_told.is_empty());
}

#[test]
fn loose_material_is_held_to_a_limit_that_is_stated() {
    let loose = |at: &str, depth: &str| {
        let values = [("strip", "North"), ("at", at), ("rut", "0 mm"), ("water", "0 mm")];
        let place = [("loose", depth), ("loose_station", "900 m")];
        record(Kind::Inspection, &[&values[..], &place[..]].concat())
    };
    let more = RUTS.map(|(at, rut)| loose(at, rut)).to_vec();
    let entries = book(&[], more);
    let now = moment("2026-06-29T00:00Z");
    let found = grading(&current(&entries), "North", now, &GradingLimits::default());
    let found = found.expect("it can be told");
    assert!(found.not_told.iter().any(|why| why.contains("no limit is stated")), "{found:?}");
    let limits = GradingLimits { loose: Some(millimetres(34.0)), ..GradingLimits::default() };
    let found = grading(&current(&entries), "North", now, &limits).expect("it can be told");
    let place = found.places.iter().find(|one| one.what == "loose").expect("the place");
    let left = place.passes_left[0].expect("it grows");
    assert!((left - 60.0).abs() < 1e-6, "34 mm at pass 340, 280 so far: {left}");
}

#[test]
fn growth_that_has_led_to_the_limit_restricts() {
    let surveyed = || {
        vec![
            survey("levels", "2026-05-04", "2027-05-04"),
            survey("soundings", "2026-05-04", "2027-05-04"),
        ]
    };
    let state = |ruts: &[(&str, &str)]| {
        let entries = book(ruts, surveyed());
        let now = moment("2026-06-29T00:00Z");
        status(&current(&entries), "North", now, seconds(7.0 * 86_400.0), None)
    };
    assert_eq!(state(&RUTS).state, State::Open, "{:?}", state(&RUTS).reasons);
    let steep = [(RUTS[0].0, "12 mm"), (RUTS[1].0, "42 mm"), (RUTS[2].0, "72 mm")];
    let found = state(&steep);
    assert_eq!(found.state, State::Restricted);
    assert!(found.reasons[0].contains("its growth leads to 76 mm by now"), "{:?}", found.reasons);
}
