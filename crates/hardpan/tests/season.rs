//! The ground with the strength of the season.

mod support;

use hardpan_assess::Assessment;
use hardpan_model::{Finding, Verdict, Weight};
use support::{assessed, change};

fn of<'a>(assessment: &'a Assessment, code: &str, title: &str) -> &'a Finding {
    let mut findings = assessment.findings.iter().filter(|finding| finding.code == code);
    findings.find(|finding| finding.title.starts_with(title)).expect(title)
}

fn summer_at(share: &str) -> Assessment {
    let (from, to) = ("strength = \"100 %\"", format!("strength = \"{share}\""));
    assessed(&[change("strip.toml", from, &to)])
}

const MAIN: &str = "ground under the main wheels";

/// Every layer at a share of its strength: the strength used rises as its
/// reciprocal, and more where the ground falls below CBR 3, since the published
/// laws part there and the least of them is credited.
#[test]
fn exact_a_share_divides_the_strength_credited() {
    for (share, over) in [("100 %", 1.0), ("80 %", 0.8), ("25 %", 0.25)] {
        let assessment = summer_at(share);
        let plain = of(&assessment, "G20", MAIN).value.expect("a figure").si;
        let season = of(&assessment, "S65", MAIN).value.expect("a figure").si;
        let above = season * over / plain - 1.0;
        let wanted = if over < 0.5 { 0.01..0.1 } else { -1e-9..1e-9 };
        assert!(wanted.contains(&above), "{share}: {season} and {plain}");
        assert_eq!(of(&assessment, "S65", MAIN).weight, Weight::Safety);
        assert_eq!(of(&assessment, "S65", MAIN).verdict == Verdict::Pass, season <= 1.0);
    }
}

#[test]
fn the_calendar_counts_the_days_of_the_seasons_that_carry() {
    let calendar = |assessment: &Assessment| {
        let finding = of(assessment, "S65", "days of the year");
        (finding.value.map(|value| value.si), finding.because.clone())
    };
    let (days, told) = calendar(&assessed(&[]));
    // 21 May to 15 October, both counted: 11 + 30 + 31 + 31 + 30 + 15.
    assert_eq!(days, Some(148.0));
    // 365 less 148 and less 1 April to 20 May, 30 + 20.
    assert!(told.contains("167 days lie in no season"), "{told}");
    let (days, told) = calendar(&summer_at("25 %"));
    assert_eq!(days, Some(0.0), "{told}");
}

#[test]
fn a_season_goes_over_the_new_year_and_the_least_share_counts() {
    let over = change(
        "strip.toml",
        "from = \"05-21\"\nto = \"10-15\"",
        "from = \"10-16\"\nto = \"06-20\"",
    );
    let assessment = assessed(std::slice::from_ref(&over));
    assert_eq!(of(&assessment, "S65", MAIN).verdict, Verdict::Pass);
    let both = change("strip.toml", "to = \"05-20\"", "to = \"06-20\"");
    let assessment = assessed(&[over, both]);
    assert_eq!(of(&assessment, "S65", MAIN).verdict, Verdict::Fail, "60 % counts, not 100 %");
}

#[test]
fn without_a_date_or_a_season_nothing_is_assumed() {
    let undated = assessed(&[change("day.toml", "date = 2026-06-18\n", "")]);
    let finding = of(&undated, "S65", MAIN);
    assert_eq!((finding.verdict, finding.value), (Verdict::Unproven, None));
    let winter = assessed(&[change("strip.toml", "to = \"10-15\"", "to = \"06-17\"")]);
    let finding = of(&winter, "S65", MAIN);
    assert_eq!((finding.verdict, finding.value), (Verdict::Unproven, None));
    assert!(finding.needs.iter().any(|need| need.what.contains("[[season]]")));
}
