//! The strings of the report: rounding that errs on the safe side, and what
//! stands beside what.

use crate::sample::{self, UnitSystem, report};

/// 1 lb = 0.453 592 37 kg and 1 psi = 6.894 757 kPa, [NIST-SP-811] appendix B:
/// 31 500 kg = 69 445.6 lb, 530 kPa = 76.87 psi, 620 kPa = 89.92 psi,
/// 1 390 m = 4 560.4 ft, 1 980 m = 6 496.06 ft.
#[test]
fn what_is_allowed_is_rounded_down_and_what_is_needed_up() {
    let report = report(&sample::failing(), UnitSystem::Imperial);
    let largest = report.masses.first().and_then(|mass| mass.largest.clone());
    assert_eq!(largest.as_deref(), Some("69\u{a0}445 lb"));
    assert_eq!(report.tyre.range.as_deref(), Some("77–89 psi"));
    let run = report.distances.iter().find(|row| row.code == "F10").unwrap();
    assert_eq!(run.needed, "4561 ft");
    assert_eq!(run.available.as_deref(), Some("6496 ft"));
}

#[test]
fn round_values_stay_as_they_are() {
    let report = report(&sample::conditional(), UnitSystem::Metric);
    let largest = report.masses.first().and_then(|mass| mass.largest.clone());
    assert_eq!(largest.as_deref(), Some("44\u{a0}100 kg"));
    assert_eq!(report.tyre.range.as_deref(), Some("530–620 kPa"));
}

#[test]
fn a_figure_of_the_day_stands_beside_the_limit_of_its_finding() {
    let report = report(&sample::conditional(), UnitSystem::Metric);
    let limit = |name: &str| {
        report.day.iter().find(|row| row.name == name).and_then(|row| row.limit.clone())
    };
    assert_eq!(limit("crosswind").as_deref(), Some("at most 15 kt"));
    assert_eq!(limit("tailwind, landing 07").as_deref(), Some("at most 10 kt"));
    assert_eq!(limit("temperature"), None);
}

#[test]
fn only_pass_and_conditional_may_be_used() {
    assert!(report(&sample::conditional(), UnitSystem::Metric).is_usable());
    assert!(!report(&sample::failing(), UnitSystem::Metric).is_usable());
    assert!(!report(&sample::unproven(), UnitSystem::Metric).is_usable());
    assert!(!report(&sample::empty(), UnitSystem::Metric).is_usable());
}
