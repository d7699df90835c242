//! The lesson of the demo: every answer is one of the assessment's, and the
//! figure worked by hand comes out of the catalogue again.

mod support;

use hardpan_assess::{assess, rules};
use hardpan_quantity::UnitSystem;
use hardpan_report::{Lesson, Produced, Report};
use support::flight;

#[test]
fn the_answers_are_those_of_the_assessment() {
    let assessment = assess(&flight(&[]));
    let report = Report::new(&assessment, UnitSystem::Metric, Produced::default());
    let lesson = Lesson::new(&report, true);
    let questions = lesson.questions();
    for line in &report.turning {
        let asked = questions.iter().find(|(asks, _)| {
            asks.starts_with(&format!("The plan has {} of {}", line.what, line.now))
        });
        let (_, answer) = asked.expect("each turning point is asked");
        assert!(
            answer.to_lowercase().starts_with(&line.sentence.to_lowercase()),
            "{answer} {}",
            line.sentence
        );
    }
    for mass in &report.masses {
        let largest = mass.largest.as_deref().expect("a mass");
        let asks = format!("What sets the largest {}", mass.name);
        let (_, answer) = questions.iter().find(|(q, _)| q.starts_with(&asks)).expect("asked");
        assert!(answer.contains(largest), "{answer}");
    }
    let by_hand = questions.iter().filter(|(asks, _)| asks.starts_with("Work out by hand"));
    assert!(by_hand.count() >= 3);
}

#[test]
fn every_rule_at_work_is_taught_once() {
    let assessment = assess(&flight(&[]));
    let report = Report::new(&assessment, UnitSystem::Metric, Produced::default());
    let taught = Lesson::new(&report, false).rules_taught();
    for rule in rules() {
        let at_work = assessment.findings.iter().any(|finding| finding.code == rule.code);
        let times = taught.iter().filter(|code| **code == rule.code).count();
        assert_eq!(times, usize::from(at_work), "{}", rule.code);
    }
}
