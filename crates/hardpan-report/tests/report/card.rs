//! The card: a front and what stands overleaf, the same bytes twice, nothing run
//! from user text.

use crate::sample::{self, UnitSystem, report};
use hardpan_model::Verdict;
use hardpan_report::{card_page_count, card_pdf};

#[test]
fn every_sample_takes_a_front_and_a_back() {
    let samples = [
        ("conditional", sample::conditional()),
        ("failing", sample::failing()),
        ("unproven", sample::unproven()),
        ("overlong", sample::overlong(Verdict::Conditional)),
        ("overlong-unproven", sample::overlong(Verdict::Unproven)),
        ("empty", sample::empty()),
        ("not-finite", sample::not_finite()),
    ];
    for (name, assessment) in samples {
        for (system, units) in [("metric", UnitSystem::Metric), ("imperial", UnitSystem::Imperial)]
        {
            let report = report(&assessment, units);
            let pages = card_page_count(&report).unwrap();
            let fits = !name.starts_with("overlong");
            assert!(if fits { pages == 2 } else { pages > 2 }, "{name}, {system}: {pages} pages");
            let pdf = card_pdf(&report).unwrap();
            let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
            std::fs::write(folder.join(format!("card-{name}-{system}.pdf")), pdf).unwrap();
        }
    }
}

#[test]
fn every_verdict_takes_one_sheet() {
    for verdict in [Verdict::Pass, Verdict::Conditional, Verdict::Unproven, Verdict::Fail] {
        let mut assessment = sample::conditional();
        assessment.answer.verdict = verdict;
        let pdf = card_pdf(&report(&assessment, UnitSystem::Metric)).unwrap();
        let name = format!("card-verdict-{}.pdf", verdict.word());
        let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
        std::fs::write(folder.join(name), pdf).unwrap();
    }
}

#[test]
fn the_same_report_gives_the_same_bytes() {
    let report = report(&sample::conditional(), UnitSystem::Metric);
    assert_eq!(card_pdf(&report).unwrap(), card_pdf(&report).unwrap());
}

#[test]
fn user_text_is_never_run() {
    let mut assessment = sample::conditional();
    let hostile = "#panic(\"run\") $x$ *bold* = heading \\ #read(\"/etc/passwd\") <label> @ref";
    assessment.identity.strip = hostile.to_owned();
    assessment.answer.sentence = hostile.to_owned();
    assessment.answer.conditions = vec![hostile.to_owned()];
    for line in &mut assessment.card_lines {
        line.text = hostile.to_owned();
    }
    for mark in &mut assessment.sketch.marks {
        mark.label = "</text><script>x</script>&\u{0}\u{1b}[31m".to_owned();
    }
    assert_eq!(card_page_count(&report(&assessment, UnitSystem::Metric)), Ok(2));
}

#[test]
fn signs_that_the_type_lacks_do_not_stop_the_card() {
    let mut assessment = sample::conditional();
    assessment.identity.strip = "ᐃᖃᓗᐃᑦ 滑走路 🛬 \u{202e}abc".to_owned();
    assert_eq!(card_page_count(&report(&assessment, UnitSystem::Metric)), Ok(2));
    assert!(card_pdf(&report(&assessment, UnitSystem::Metric)).is_ok());
}
