//! The figures of a book opened: that each comes out by hand from the numbers in it.

mod support;

use hardpan_book::{
    Entry, GradingLimits, Kind, Record, current, damage_rate, grading, passes_since_repair,
};
use hardpan_model::{EntryRange, FigureBasis, InputFrom, Step};
use hardpan_quantity::{Quantity as _, percent};
use support::{audit, moment, movement, record};

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

fn damage() -> Record {
    let values = [("tail", "XX-ONE"), ("strip", "North"), ("date", "2026-06-18")];
    record(Kind::Damage, &[&values[..], &[("zone", "flap"), ("phase", "landing")]].concat())
}

fn seen(day: u8, rut: &str) -> Record {
    let at = format!("2026-06-{day:02}T12:00Z");
    let values = [("strip", "North"), ("at", at.as_str()), ("rut", rut), ("water", "0 mm")];
    let place = [("rut_station", "300 m"), ("rut_lane", "left main")];
    record(Kind::Inspection, &[&values[..], &place[..]].concat())
}

fn named<'a>(opened: &'a [(&'static str, FigureBasis)], key: &str) -> &'a FigureBasis {
    let found = opened.iter().find(|(name, _)| *name == key);
    &found.unwrap_or_else(|| panic!("{key} does not open")).1
}

/// The value that stands under a symbol in a step.
fn under(step: &Step, symbol: &str) -> f64 {
    let found = step.inputs.iter().find(|input| input.symbol == Some(symbol));
    found.unwrap_or_else(|| panic!("{symbol} of {}", step.computes)).amount.si
}

fn last(figure: &FigureBasis) -> &Step {
    figure.basis.steps.last().expect("a step")
}

/// Limits of a count of 2 at 95 %, 0.2422 and 7.2247, as tables of [GARWOOD-1936] form
/// print them (from memory).
#[test]
fn a_rate_opens_to_its_entries_and_comes_out_by_hand() {
    let moved = std::iter::repeat_n(movement("landing", "2026-06-18T15:00Z"), 40);
    let all = entries([damage()].into_iter().chain(moved).chain([damage()]).collect());
    let rate = damage_rate(&current(&all), "North", percent(95.0)).expect("it can be told");
    let opened = rate.opened("");
    let told = last(named(&opened, "per_1000"));
    assert_eq!(told.expression, "1000 × n / m");
    assert_eq!((under(told, "n"), under(told, "m")), (2.0, 40.0));
    assert!((told.result.si - 50.0).abs() < 1e-12);
    let range = |first, last| EntryRange { first, last };
    let from = |at: usize| told.inputs[at].from.clone();
    assert_eq!(from(0), InputFrom::Entries(vec![range(1, 1), range(42, 42)]));
    assert_eq!(from(1), InputFrom::Entries(vec![range(2, 41)]));
    for (key, of_count) in [("lower", 0.2422), ("upper", 7.2247)] {
        let figure = named(&opened, key);
        let [of_mean, scaled] = figure.basis.steps.as_slice() else { panic!("{key}") };
        assert_eq!(of_mean.source.key, "GARWOOD-1936");
        assert!((under(of_mean, "α") - 0.05).abs() < 1e-12);
        assert!((of_mean.result.si - of_count).abs() <= 5e-5, "{key} {:?}", of_mean.result);
        assert!((scaled.result.si - 1000.0 * of_mean.result.si / 40.0).abs() < 1e-9);
    }
}

/// Three inspections after 10, 20 and 30 passes: 10, 22 and 31 mm. By hand: means of 20
/// passes and 21 mm, 1.05 mm a pass, 1.2247 mm about the line; t of one degree of freedom
/// is 12.706 in printed tables.
fn rutted() -> Vec<Entry> {
    let mut records = Vec::new();
    for (day, rut) in [(5, "10 mm"), (12, "22 mm"), (19, "31 mm")] {
        let at = format!("2026-06-{day:02}T08:00Z");
        records.extend(std::iter::repeat_n(movement("landing", &at), 10));
        records.push(seen(day, rut));
    }
    entries(records)
}

#[test]
fn growth_and_passes_left_come_out_by_hand() {
    let all = rutted();
    let now = moment("2026-06-19T12:00Z");
    let limits = GradingLimits::default();
    let found = grading(&current(&all), "North", now, &limits).expect("it can be told");
    let week = found.passes.as_ref();
    let place = found.places.first().expect("ruts anywhere");
    let opened = place.opened(week);
    let growth = named(&opened, "growth_m_per_1000_passes");
    assert!((growth.amount.si - 1.05).abs() < 1e-9, "{:?}", growth.amount);
    let inputs: Vec<&str> = last(growth).inputs.iter().map(|one| one.name.as_str()).collect();
    assert!(inputs.contains(&"depth on 2026-06-12"), "{inputs:?}");
    let left = last(named(&opened, "passes_left"));
    let [x, d, y, b, p] = ["X", "D", "Y", "B", "P"].map(|symbol| under(left, symbol));
    assert_eq!((x, p), (20.0, 30.0));
    assert!((d - 0.076).abs() < 1e-12 && (y - 0.021).abs() < 1e-12);
    // 20 + 1000 × 55 mm / 1050 mm − 30.
    assert!((left.result.si - 42.380_952).abs() < 1e-5, "{:?}", left.result);
    assert!((x + 1000.0 * (d - y) / b - p - left.result.si).abs() < 1e-9);
    for key in ["passes_left_fewest", "passes_left_most"] {
        let Some((_, figure)) = opened.iter().find(|(name, _)| *name == key) else { continue };
        let steps = &figure.basis.steps;
        let edge = &steps[steps.len() - 2];
        let of = |symbol| under(edge, symbol);
        assert!((of("t") - 12.706).abs() < 5e-4, "{}", of("t"));
        assert!((of("s") - 0.001_224_7).abs() < 1e-6 && of("Q") == 200.0);
        let sign = if key == "passes_left_fewest" { 1.0 } else { -1.0 };
        let at = edge.result.si - of("X");
        let band = of("t") * of("s") * (1.0 / of("k") + at * at / of("Q")).sqrt();
        if at > 10.0 {
            let met = of("Y") + of("B") * at / 1000.0 + sign * band;
            assert!((met - of("D")).abs() < 1e-9, "{key}: {met}");
        }
        assert!((last(figure).result.si - (edge.result.si - 30.0)).abs() < 1e-9);
    }
    // 30 passes in 14.17 days, 7 × 42.38 / 14.82 = 20 whole days.
    let day = last(named(&opened, "day"));
    let (passes, a_week) = (under(day, "N"), under(day, "w"));
    assert!((a_week - 7.0 * 30.0 / (14.0 + 4.0 / 24.0)).abs() < 1e-9, "{a_week}");
    assert_eq!(day.result.si, (7.0 * passes / a_week).floor());
    assert_eq!(place.days[0].map(|day| day.to_string()), Some("2026-07-09".to_owned()));
    assert_eq!(day.result.si, 20.0);
}

/// Each value that is told opens, and to itself.
#[test]
fn what_is_told_of_grading_opens() {
    let all = rutted();
    let now = moment("2026-06-20T12:00Z");
    let limits = GradingLimits::default();
    let found = grading(&current(&all), "North", now, &limits).expect("it can be told");
    let week = found.passes.expect("there are movements");
    let opened = week.opened();
    for (key, value) in [
        ("movements", week.movements as f64),
        ("days", week.days),
        ("per_week", week.mean),
        ("lower", week.lower),
        ("upper", week.upper),
    ] {
        let figure = named(&opened, key);
        assert_eq!(figure.amount.si, value, "{key}");
        assert_eq!(last(figure).result.si, value, "{key}");
    }
    let place = found.places.first().expect("ruts anywhere");
    let opened = place.opened(Some(&week));
    assert_eq!(named(&opened, "last_m").amount.si, place.last.0.si());
    assert_eq!(named(&opened, "limit_m").amount.si, place.limit.si());
    assert_eq!(last(named(&opened, "limit_m")).inputs.len(), 1);
    assert_eq!(named(&opened, "inspections").amount.si, 3.0);
}

#[test]
fn passes_are_counted_from_the_repair_that_is_named() {
    let values = [("strip", "North"), ("date", "2026-06-10"), ("from", "0 m"), ("to", "900 m")];
    let repair = record(Kind::Repair, &[&values[..], &[("what", "graded")]].concat());
    let moved = |day: u8| movement("landing", &format!("2026-06-{day:02}T08:00Z"));
    let all = entries(vec![moved(1), moved(9), repair, moved(10), moved(11)]);
    let passes = passes_since_repair(&current(&all), "North");
    let opened = passes.opened();
    let inputs = &last(named(&opened, "passes")).inputs;
    let range = |first, last| InputFrom::Entries(vec![EntryRange { first, last }]);
    assert_eq!(
        inputs.iter().map(|one| one.from.clone()).collect::<Vec<_>>(),
        [range(4, 5), range(3, 3)]
    );
    assert!(inputs[1].name.contains("2026-06-10"), "{}", inputs[1].name);
}
