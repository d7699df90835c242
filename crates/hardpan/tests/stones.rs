//! What thrown stones do to the aeroplane of the demo, with changes.

mod support;

use hardpan_assess::{Assessment, HandlingRow, HandlingTable};
use hardpan_model::{Finding, Verdict, Weight};
use hardpan_quantity::Quantity as _;
use support::{Change, assessed, change};

fn named<'a>(assessment: &'a Assessment, title: &str) -> &'a Finding {
    let mut findings = assessment.findings.iter();
    findings.find(|finding| finding.code == "D70" && finding.title == title).expect(title)
}

fn value(finding: &Finding) -> f64 {
    finding.value.expect("a value").si
}

const NOSE: &str = "stones stopped by nose gear deflector";
const MAIN: &str = "stones stopped by main gear deflectors";

#[test]
fn each_deflector_says_what_it_stops_by_itself() {
    let planned = assessed(&[]);
    let [nose, main] = [NOSE, MAIN].map(|title| value(named(&planned, title)));
    assert!(nose > main && main > 0.0 && nose + main <= 1.0, "{nose} {main}");
    assert_eq!(named(&planned, NOSE).weight, Weight::Advice);
}

#[test]
fn a_deflector_out_of_service_stops_none() {
    let line = |works: &str| {
        format!(
            "source = \"Technical log of 11 May 2026 (invented)\"\n\
             required_on = [\"gravel\", \"dirt\"]\nfitted = true\nserviceable = {works}\n\
             inspected_on = 2026-05-11"
        )
    };
    let nose = |works: &str| format!("name = \"nose gear deflector\"\n{}", line(works));
    let without = assessed(&[change("aeroplane.toml", &nose("true"), &nose("false"))]);
    let planned = assessed(&[]);
    assert_eq!(named(&without, NOSE).verdict, Verdict::Conditional);
    let belly = "stones on rear belly";
    assert!(value(named(&without, belly)) >= value(named(&planned, belly)));
}

#[test]
fn a_blade_is_struck_harder_the_faster_it_turns() {
    let with = |keys: &str| {
        let part = "part = \"belly\"";
        value(named(&assessed(&[change("aeroplane.toml", part, keys)]), "stones on rear belly"))
    };
    let still = with("part = \"propeller\"");
    let turning = with("part = \"propeller\"\nblade_speed = \"180 m/s\"");
    assert!(turning > 2.0 * still, "{turning} {still}");
}

#[test]
fn stones_in_an_inlet_are_swallowed() {
    let inlet = assessed(&[change("aeroplane.toml", "part = \"antenna\"", "part = \"inlet\"")]);
    let found = named(&inlet, "stones on belly antennas");
    assert!(found.verdict == Verdict::Pass || found.because.contains("swallowed"), "{found:?}");
}

fn handling(changes: &[Change]) -> HandlingTable {
    assessed(changes).handling.expect("handling is compared")
}

fn share(row: &HandlingRow) -> f64 {
    row.thrown.expect("stones are thrown as planned").si()
}

#[test]
fn the_handling_planned_is_the_unit_of_every_ratio() {
    let table = handling(&[]);
    let planned = table.rows.first().expect("a first row");
    assert!((share(planned) - 1.0).abs() < 1e-12);
    assert!(table.rows.iter().all(|row| share(row).is_finite() && share(row) >= 0.0));
}

#[test]
fn no_deflector_taken_off_lets_fewer_stones_through() {
    let table = handling(&[]);
    let without = |name: &str| {
        let row = table.rows.iter().find(|row| row.name == name);
        share(row.unwrap_or_else(|| panic!("no row {name}")))
    };
    let single = ["without nose gear deflector", "without main gear deflectors"].map(without);
    let all = without("without any deflector");
    assert!(single.iter().all(|one| *one >= 1.0 && all >= *one), "{single:?} {all}");
}

#[test]
fn more_loose_stones_are_never_fewer_strikes() {
    let counts = [10, 40, 41, 400].map(|count| {
        let to = format!("stones_per_square_metre = {count}");
        handling(&[change("day.toml", "stones_per_square_metre = 40", &to)])
    });
    let reach = counts.each_ref().map(|table| table.reach);
    assert!(reach.is_sorted() && reach[0] > 0.0, "{reach:?}");
    assert!((reach[3] / reach[0] - 40.0).abs() < 1e-9, "a stone counts as any other: {reach:?}");
    let ratios = counts.map(|table| table.rows.iter().map(share).collect::<Vec<_>>());
    for other in &ratios[1..] {
        assert!(ratios[0].iter().zip(other).all(|(a, b)| (a - b).abs() < 1e-9), "{ratios:?}");
    }
}

/// Limits of 3 events at 90 %, 0.818 and 7.754, as printed in tables of
/// [GARWOOD-1936] form; from memory.
#[test]
fn a_damage_record_gives_strikes_with_their_limits() {
    let table = handling(&[]);
    let strikes = table.rows[0].strikes.expect("the demo has a record");
    for (found, count) in strikes.into_iter().zip([0.818, 3.0, 7.754]) {
        let wanted = 1000.0 * count / 214.0;
        assert!((found - wanted).abs() < 0.003 * wanted, "{found} {wanted}");
    }
    for row in &table.rows {
        let scaled = row.strikes.expect("a record")[1];
        assert!((scaled - share(row) * strikes[1]).abs() < 1e-9);
    }
}

#[test]
fn without_a_damage_record_there_are_ratios_only() {
    let record = "[damage_record]\n\
                  source = \"Technical log, June 2025 to June 2026 (invented)\"\n\
                  movements = 214\nstrikes = 3\nfrom = 2025-06-01\nto = 2026-06-17\n";
    let assessment = assessed(&[change("flight.toml", record, "")]);
    let table = assessment.handling.as_ref().expect("handling is compared");
    assert!(table.rows.iter().all(|row| row.strikes.is_none()));
    let rate = |finding: &&Finding| finding.title.starts_with("strikes for each");
    assert_eq!(assessment.findings.iter().filter(rate).count(), 0);
}

#[test]
fn stones_that_nobody_counted_leave_handling_unproven() {
    let count = change("day.toml", "stones_per_square_metre = 40\n", "");
    let assessment = assessed(&[count]);
    let finding = assessment.findings.iter().find(|finding| finding.code == "D80").expect("D80");
    assert_eq!(finding.verdict, Verdict::Unproven);
    assert!(assessment.handling.is_none());
}
