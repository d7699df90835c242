//! R30 where a survey has holes: what nobody levelled is neither flat nor crowned.

use hardpan_assess::dossier;
use hardpan_model::{Finding, Given, Strip, Survey, SurveyLine, SurveyPoint, Verdict};
use hardpan_quantity::metres;

/// A crowned strip over 1000 m, a level each metre on lines 2 m apart, but for
/// the places that `hole` names.
fn strip(hole: impl Fn(f64, f64) -> bool, crossfall: f64) -> Strip {
    let line = |offset: f64| SurveyLine {
        offset: metres(offset),
        points: (0..=1000)
            .map(f64::from)
            .filter(|station| !hole(*station, offset))
            .map(|station| SurveyPoint {
                station: metres(station),
                elevation: metres(100.0 - crossfall * offset.abs()),
                line: 1,
            })
            .collect(),
    };
    let lines = (-5..=5).map(|at| line(2.0 * f64::from(at))).collect();
    let level_noise = Some(Given::stated("level_noise", metres(0.002)));
    Strip {
        length: Some(Given::stated("length", metres(1000.0))),
        survey: Some(Survey { file: "s.csv".into(), date: None, level_noise, lines }),
        ..Strip::default()
    }
}

fn crossfall(strip: &Strip) -> Finding {
    let found = dossier(strip, None).findings;
    found.into_iter().find(|finding| finding.code == "R30").expect("a finding")
}

#[test]
fn a_whole_crown_sheds_water_and_a_flat_strip_does_not() {
    assert_eq!(crossfall(&strip(|_, _| false, 0.02)).verdict, Verdict::Pass);
    assert_eq!(crossfall(&strip(|_, _| false, 0.004)).verdict, Verdict::Fail);
}

/// Edges at one height on both sides of a hole over the centre.
#[test]
fn a_hole_over_the_centre_is_not_flat() {
    let over = |from: f64, to: f64| move |s: f64, o: f64| (from..to).contains(&s) && o.abs() < 5.0;
    let long = crossfall(&strip(over(200.0, 600.0), 0.02));
    assert_eq!(long.verdict, Verdict::Unproven, "{}", long.because);
    // Within 30 m levels are carried on along each line.
    let short = crossfall(&strip(over(200.0, 225.0), 0.02));
    assert_eq!(short.verdict, Verdict::Pass, "{}", short.because);
}

#[test]
fn a_hole_right_across_is_not_flat() {
    let long = crossfall(&strip(|s, _| (200.0..600.0).contains(&s), 0.02));
    assert_eq!(long.verdict, Verdict::Unproven, "{}", long.because);
    let short = crossfall(&strip(|s, _| (200.0..218.0).contains(&s), 0.02));
    assert_eq!(short.verdict, Verdict::Pass, "{}", short.because);
}

/// A ragged hole leaves two lines far apart and none between.
#[test]
fn two_lines_across_a_hole_are_not_flat() {
    let ragged = |s: f64, o: f64| (200.0..600.0).contains(&s) && o.abs() != 4.0;
    let found = crossfall(&strip(ragged, 0.02));
    assert_eq!(found.verdict, Verdict::Unproven, "{}", found.because);
}

#[test]
fn flat_ground_fails_although_some_of_it_is_not_surveyed() {
    let hole = |s: f64, _: f64| (200.0..300.0).contains(&s);
    assert_eq!(crossfall(&strip(hole, 0.004)).verdict, Verdict::Fail);
}
