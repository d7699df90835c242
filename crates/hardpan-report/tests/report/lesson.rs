//! The lesson: the same bytes twice, whatever the assessment is like, and
//! nothing asked that is not answered.

use crate::sample::{UnitSystem, conditional, empty, not_finite, overlong, report};
use hardpan_report::{Lesson, TextStyle, lesson_pdf, lesson_text};

#[test]
fn the_same_lesson_gives_the_same_bytes() {
    for assessment in [conditional(), empty(), not_finite(), overlong(hardpan_model::Verdict::Fail)]
    {
        let units = UnitSystem::Imperial;
        let report = report(&assessment, units);
        let lesson = Lesson::new(&report, true);
        let once = lesson_pdf(&lesson).expect("a lesson");
        assert!(once.starts_with(b"%PDF-"));
        assert_eq!(once, lesson_pdf(&Lesson::new(&report, true)).expect("a lesson"));
        let text = lesson_text(&lesson, TextStyle::default());
        assert!(text.contains(report.caution.get(..18).expect("words")), "{text}");
    }
}

#[test]
fn every_question_has_an_answer_that_can_be_left_out() {
    let report = report(&conditional(), UnitSystem::Metric);
    let lesson = Lesson::new(&report, true);
    assert!(lesson.questions().len() > 5);
    for (asks, answer) in lesson.questions() {
        assert!(asks.ends_with(['?', '.']) && !answer.is_empty(), "{asks} {answer}");
    }
    let without = lesson_text(&Lesson::new(&report, false), TextStyle::default());
    assert!(lesson_text(&lesson, TextStyle::default()).contains("\nAnswers\n"));
    assert!(!without.contains("\nAnswers\n"));
}

#[test]
fn a_difference_of_temperatures_knows_no_zero_of_a_scale() {
    let mut assessment = conditional();
    let finding = assessment.findings.first_mut().expect("a finding");
    finding.code = "L10";
    finding.value =
        Some(hardpan_quantity::Amount::new(hardpan_quantity::Dimension::Temperature, 287.15));
    finding.limit = Some(hardpan_model::Limit {
        bound: hardpan_model::Bound::AtMost,
        amount: hardpan_quantity::Amount::new(hardpan_quantity::Dimension::Temperature, 312.15),
    });
    let lesson = Lesson::new(&report(&assessment, UnitSystem::Metric), true);
    let answers: Vec<&str> = lesson.questions().into_iter().map(|(_, answer)| answer).collect();
    assert!(answers.iter().any(|a| a.contains("inside the limit by 25.0 °C")), "{answers:?}");
}
