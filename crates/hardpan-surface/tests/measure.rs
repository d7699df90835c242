//! The one entry on invented strips: what passes, what fails, what stays unproven.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_model::{Given, Strip, Survey, SurveyLine, SurveyPoint, Verdict};
use hardpan_quantity::{Quantity, metres, millimetres};
use hardpan_surface::{
    CrossSection, Edge, EdgeRule, Error, EvennessRules, EventKind, centre_profile, measure,
};

fn line(offset: f64, interval: f64, length: f64, level: impl Fn(f64) -> f64) -> SurveyLine {
    let count = (length / interval).round() as u32;
    let points = (0..=count)
        .map(|index| {
            let station = f64::from(index) * interval;
            SurveyPoint { station: metres(station), elevation: metres(level(station)), line: index }
        })
        .collect();
    SurveyLine { offset: metres(offset), points }
}

fn strip(lines: Vec<SurveyLine>) -> Strip {
    Strip {
        length: Some(Given::stated("length", metres(900.0))),
        survey: Some(Survey {
            file: "survey.csv".into(),
            date: None,
            level_noise: Some(Given::stated("survey.level_noise", millimetres(3.0))),
            lines,
        }),
        ..Strip::default()
    }
}

fn bump(x: f64, from: f64, base: f64, height: f64) -> f64 {
    if x < from || x > from + base {
        return 0.0;
    }
    0.5 * height * (1.0 - (std::f64::consts::TAU * (x - from) / base).cos())
}

fn crowned(height: f64) -> Strip {
    let level = move |offset: f64| {
        move |x: f64| 100.0 + 0.006 * x - 0.02 * offset.abs() + bump(x, 500.0, 12.0, height)
    };
    strip([-4.0, 0.0, 4.0].map(|offset| line(offset, 1.0, 900.0, level(offset))).to_vec())
}

#[test]
fn a_smooth_crowned_strip_passes() {
    let report = measure(&crowned(0.02), &EvennessRules::default()).unwrap();
    for edge in &report.edges {
        assert_eq!(edge.verdict, Verdict::Pass, "{}: {:?}", edge.rule.name, edge.needs);
        let worst = edge.worst_bump.unwrap().0;
        assert_relative_eq!(worst.height.si(), 0.02, epsilon = 1e-4);
        assert_relative_eq!(worst.worst.si(), 506.0, epsilon = 0.3);
    }
    let gradient = report.slopes[0].gradient;
    assert_relative_eq!(gradient.end_to_end.si(), 0.006, epsilon = 1e-9);
    assert_relative_eq!(gradient.effective.si(), 0.006, epsilon = 1e-9);
    for section in &report.crossfall {
        assert_relative_eq!(section.left.unwrap().si(), 0.02, epsilon = 1e-9);
        assert_eq!(section.form, Some(CrossSection::Crowned));
    }
    assert!(report.needs.is_empty() && report.caveats.is_empty());
}

#[test]
fn a_bump_over_the_limit_fails_and_says_where() {
    let report = measure(&crowned(0.09), &EvennessRules::default()).unwrap();
    let edge = &report.edges[0];
    assert_eq!(edge.verdict, Verdict::Fail);
    let (event, _) = edge.worst().unwrap();
    assert!(event.kind == EventKind::Bump && event.exceeds);
    assert!(event.from.si() < 506.0 && event.to.si() > 506.0);
    assert!(edge.exceedances().all(|(event, _)| (event.worst.si() - 506.0).abs() < 15.0));
}

#[test]
fn missing_noise_sparse_levels_and_short_lines_are_unproven() {
    let rules = EvennessRules::default();
    let mut silent = crowned(0.0);
    silent.survey.as_mut().unwrap().level_noise = None;
    let sparse = strip(vec![line(0.0, 20.0, 900.0, |_| 0.0)]);
    let short = strip(vec![line(0.0, 1.0, 600.0, |_| 0.0)]);
    let mut endless = crowned(0.0);
    endless.length = None;
    let mut noisy = crowned(0.0);
    noisy.survey.as_mut().unwrap().level_noise =
        Some(Given::stated("survey.level_noise", millimetres(15.0)));
    for strip in [silent, sparse, short, endless, noisy] {
        let report = measure(&strip, &rules).unwrap();
        assert_eq!(report.edges[0].verdict, Verdict::Unproven);
        assert!(!report.edges[0].needs.is_empty());
    }
}

/// In so noisy a survey a bump just over the limit may be noise; one over it by
/// more than noise would show is none.
#[test]
fn noise_is_no_bump_and_a_bump_is_no_noise() {
    let rules = EvennessRules::default();
    let noisy = |bump: f64| {
        let mut strip = crowned(bump);
        strip.survey.as_mut().unwrap().level_noise =
            Some(Given::stated("survey.level_noise", millimetres(15.0)));
        measure(&strip, &rules).unwrap().edges.remove(0)
    };
    let (small, large) = (noisy(0.09), noisy(0.30));
    assert!(small.worst().unwrap().0.exceeds);
    assert_eq!((small.verdict, large.verdict), (Verdict::Unproven, Verdict::Fail));
}

#[test]
fn wheel_paths_without_a_line_are_unproven() {
    let rules = EvennessRules { wheel_offsets: vec![metres(-8.0)], ..EvennessRules::default() };
    let report = measure(&crowned(0.0), &rules).unwrap();
    assert_eq!(report.edges[0].verdict, Verdict::Unproven);
}

#[test]
fn one_point_lines_and_strange_values_do_not_panic() {
    let one = strip(vec![line(0.0, 1.0, 0.0, |_| 5.0)]);
    let report = measure(&one, &EvennessRules::default()).unwrap();
    assert_eq!(report.edges[0].verdict, Verdict::Unproven);
    assert_eq!(report.caveats.len(), 1);
    let empty = strip(vec![SurveyLine { offset: metres(0.0), points: Vec::new() }]);
    assert!(measure(&empty, &EvennessRules::default()).is_ok());
    let odd = strip(vec![line(0.0, 1.0, 900.0, |x| if x == 7.0 { f64::NAN } else { 0.0 })]);
    assert!(matches!(
        measure(&odd, &EvennessRules::default()),
        Err(Error::PointOutOfRange { index: 8, .. })
    ));
    assert_eq!(measure(&Strip::default(), &EvennessRules::default()), Err(Error::NoSurvey));
    assert_eq!(measure(&strip(Vec::new()), &EvennessRules::default()), Err(Error::NoLine));
}

#[test]
fn the_straightedge_needs_a_dense_survey() {
    let rules = EvennessRules {
        edges: vec![EdgeRule::depression_3_in(), EdgeRule::straightedge_3_m()],
        ..EvennessRules::default()
    };
    let report = measure(&crowned(0.0), &rules).unwrap();
    assert!(report.edges.iter().all(|edge| edge.rule.edge == Edge::Straightedge));
    assert!(report.edges.iter().all(|edge| edge.verdict == Verdict::Unproven));
}

#[test]
fn centre_profile_keeps_a_straight_grade_and_refuses_gaps() {
    let grade = strip(vec![line(0.0, 10.0, 900.0, |x| 50.0 + 0.01 * x)]);
    for (station, level) in centre_profile(&grade).unwrap() {
        assert_relative_eq!(level.si(), 50.0 + 0.01 * station.si(), epsilon = 1e-9);
    }
    let gap = strip(vec![line(0.0, 10.0, 700.0, |_| 0.0)]);
    assert!(matches!(centre_profile(&gap), Err(Error::Unsurveyed { .. })));
    let sides = strip(vec![line(-6.0, 10.0, 900.0, |_| 1.0), line(2.0, 10.0, 900.0, |_| 2.0)]);
    let (_, level) = centre_profile(&sides).unwrap()[3];
    assert_relative_eq!(level.si(), 1.75, epsilon = 1e-9);
    let far = strip(vec![line(20.0, 10.0, 900.0, |_| 1.0)]);
    assert!(matches!(centre_profile(&far), Err(Error::NoCentreLine { .. })));
}
