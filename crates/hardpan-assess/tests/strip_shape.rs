//! What the strip by itself says of its shape: the running surface apart from
//! the ground beside it, and the norms of its reference code.
#![allow(clippy::unwrap_used)]

use hardpan_assess::{Assessment, StripDossier, assess, dossier};
use hardpan_model::{
    Area, AreaKind, AreaOutline, Basis, Finding, Flight, Given, ReferenceCode, Strip, SurfaceState,
    Survey, SurveyLine, SurveyPoint, Verdict,
};
use hardpan_quantity::{Quantity, metres, millimetres};
use rstest::rstest;

fn given<T>(value: T) -> Option<Given<T>> {
    Some(Given::stated("test", value))
}

/// 900 m by 18 m, surveyed every 2.5 m at the offsets, level by offset alone.
fn strip(offsets: &[f64], level: impl Fn(f64, f64) -> f64) -> Strip {
    let line = |offset: &f64| SurveyLine {
        offset: metres(*offset),
        points: (0..=360)
            .map(|index| f64::from(index) * 2.5)
            .map(|x| SurveyPoint {
                station: metres(x),
                elevation: metres(level(x, *offset)),
                line: 1,
            })
            .collect(),
    };
    Strip {
        length: given(metres(900.0)),
        width: given(metres(18.0)),
        reference_code: given(ReferenceCode { number: 2, letter: 'B' }),
        survey: Some(Survey {
            file: "survey.csv".into(),
            date: None,
            level_noise: given(millimetres(1.0)),
            lines: offsets.iter().map(line).collect(),
        }),
        ..Strip::default()
    }
}

const RUNNING: [f64; 5] = [-9.0, -2.5, 0.0, 2.5, 9.0];
const WIDE: [f64; 11] = [-40.0, -30.0, -12.0, -9.0, -2.5, 0.0, 2.5, 9.0, 12.0, 30.0, 40.0];

/// A crown of 1.5 % to the edges, then a fall of `first` over 3 m and of 2 % on.
fn crowned(first: f64) -> impl Fn(f64, f64) -> f64 {
    move |_, y| {
        let out = f64::abs(y);
        100.0
            - 0.015 * out.min(9.0)
            - first * (out - 9.0).clamp(0.0, 3.0)
            - 0.02 * (out - 12.0).max(0.0)
    }
}

fn found<'a>(dossier: &'a StripDossier, code: &str, title: &str) -> &'a Finding {
    let mut all = dossier.findings.iter().filter(|one| one.code == code);
    all.find(|one| one.title.contains(title)).unwrap()
}

#[test]
fn graded_ground_within_the_norm_passes_each_check() {
    let judged = dossier(&strip(&WIDE, crowned(0.03)), None);
    let graded: Vec<&Finding> = judged.findings.iter().filter(|one| one.code == "R90").collect();
    assert_eq!(graded.len(), 4);
    for finding in graded {
        assert_eq!(finding.verdict, Verdict::Pass, "{}: {}", finding.title, finding.because);
    }
}

/// Falls outside 0 to 5 %: a bank that dams the water, and a ditch.
#[rstest]
#[case(-0.01, "dams the water, on both sides")]
#[case(0.06, "more steeply than the civil norm")]
fn the_first_3_m_beyond_the_edge_must_fall_but_not_steeply(#[case] fall: f64, #[case] why: &str) {
    let judged = dossier(&strip(&WIDE, crowned(fall)), None);
    let finding = found(&judged, "R90", "first 3 m");
    assert_eq!(finding.verdict, Verdict::Fail);
    assert!(finding.because.contains(why), "{}", finding.because);
    assert!((finding.value.unwrap().si - fall).abs() < 1e-9);
}

#[test]
fn ground_beside_the_runway_is_no_bump_and_no_crossfall_of_it() {
    // A ditch 1.5 m deep at 12 m and a heap of 2 m at 30 m.
    let ditch = |x: f64, y: f64| {
        let plain = crowned(0.03)(x, y);
        let out = f64::abs(y);
        let heap = if out > 29.0 && (400.0..420.0).contains(&x) { 2.0 } else { 0.0 };
        plain + heap - if out == 12.0 { 1.5 } else { 0.0 }
    };
    let wide = dossier(&strip(&WIDE, ditch), None);
    let narrow = dossier(&strip(&RUNNING, ditch), None);
    for code in ["R10", "R30", "R40", "R80"] {
        // The basis tells how many levels the file has, which are more.
        let told = |dossier: &StripDossier| -> Vec<Finding> {
            let meant = dossier.findings.iter().filter(|one| one.code == code).cloned();
            meant.map(|one| Finding { basis: Basis::default(), ..one }).collect()
        };
        assert_eq!(told(&wide), told(&narrow), "{code}");
    }
    assert_eq!(wide.repairs, narrow.repairs);
    assert_eq!(found(&wide, "R90", "slope across").verdict, Verdict::Fail);
    assert_eq!(found(&wide, "R90", "slope along").verdict, Verdict::Fail);
    assert!(!narrow.findings.iter().any(|one| one.code == "R90"));
}

#[test]
fn a_bank_at_the_edge_makes_a_pond_on_a_surface_that_falls_to_it() {
    // One-sided fall of 1.5 % to the right, 40 m of it dammed by a bank 0.1 m high.
    let banked = |x: f64, y: f64| {
        let bank = if y > 9.0 { 0.1 } else { 0.0 };
        let ends = if (300.0..=340.0).contains(&x) { 0.0 } else { 0.4 };
        100.0 - 0.015 * y.min(9.0) + bank + ends
    };
    let lines: Vec<f64> = RUNNING.iter().copied().chain([10.0, 12.0]).collect();
    let wide = dossier(&strip(&lines, banked), None);
    let depths: Vec<f64> = wide.ponds.unwrap().iter().map(|pond| pond.size.si).collect();
    assert!(depths.iter().any(|depth| (depth - 0.1).abs() < 0.011), "{depths:?}");
    assert_eq!(dossier(&strip(&RUNNING, banked), None).ponds.unwrap(), Vec::new());
}

/// Greatest crossfall by code letter: 2 % for A and B, 1.5 % for C to F.
/// [ICAO-ANNEX-14] 3.1.19, as quoted by secondary documents.
#[rstest]
#[case('A', 0.019, Verdict::Pass)]
#[case('B', 0.021, Verdict::Fail)]
#[case('C', 0.014, Verdict::Pass)]
#[case('F', 0.016, Verdict::Fail)]
fn val_crossfall_by_code_letter(#[case] letter: char, #[case] fall: f64, #[case] wanted: Verdict) {
    let strip = Strip {
        reference_code: given(ReferenceCode { number: 3, letter }),
        ..strip(&RUNNING, |_, y| 100.0 - fall * f64::abs(y))
    };
    assert_eq!(found(&dossier(&strip, None), "R30", "steepest crossfall").verdict, wanted);
}

#[test]
fn a_dish_fails_and_a_code_letter_tells_the_sight_without_an_aeroplane() {
    let dish = dossier(&strip(&RUNNING, |_, y| 100.0 + 0.01 * f64::abs(y)), None);
    assert_eq!(found(&dish, "R30", "rise to both edges").verdict, Verdict::Fail);
    assert_eq!(found(&dish, "R80", "sight over half").verdict, Verdict::Pass);
}

#[test]
fn plane_ground_is_proven_even_and_not_called_sparse() {
    let plane = dossier(&strip(&RUNNING, |x, _| 100.0 + 0.001 * x), None);
    for title in ["100 ft", "200 ft"] {
        let finding = found(&plane, "R10", title);
        assert_eq!(finding.verdict, Verdict::Pass, "{}", finding.because);
        assert!(finding.value.unwrap().si.abs() < 1e-6);
    }
}

/// A strip of 1.5 % to both sides with ruts of a depth from 300 m to 340 m,
/// under a tyre 300 mm wide.
fn rutted(depth: Option<f64>, state: SurfaceState, level: impl Fn(f64, f64) -> f64) -> Assessment {
    let area = Area {
        name: None,
        kind: Given::stated("test", AreaKind::Rutted),
        outline: AreaOutline::Across { from: metres(300.0), to: metres(340.0) },
        depth: depth.and_then(|depth| given(millimetres(depth))),
        sinkage: None,
        reported_on: None,
    };
    let mut flight = Flight {
        strip: Strip { areas: vec![area], ..strip(&RUNNING, level) },
        ..Flight::default()
    };
    flight.day.surface_state = given(state);
    flight.aeroplane.gear.track = given(metres(5.0));
    flight.aeroplane.gear.main.tyre.width = given(millimetres(300.0));
    assess(&flight)
}

fn ruts(assessment: &Assessment) -> &Finding {
    assessment.findings.iter().find(|one| one.code == "W40").unwrap()
}

/// Derived: r − b S = 40 − 150 × 0.015 = 37.75 mm.
#[rstest]
#[case(SurfaceState::Dry, Verdict::Pass)]
#[case(SurfaceState::Wet, Verdict::Fail)]
fn exact_a_rut_holds_its_depth_less_what_the_crossfall_lets_out(
    #[case] state: SurfaceState,
    #[case] wanted: Verdict,
) {
    let assessed = rutted(Some(40.0), state, |_, y| 100.0 - 0.015 * f64::abs(y));
    let finding = ruts(&assessed);
    assert!((finding.value.unwrap().si - 0.037_75).abs() < 1e-9, "{:?}", finding.value);
    assert_eq!(finding.verdict, wanted);
}

#[test]
fn a_depression_under_the_ruts_adds_its_depth() {
    let hollow = |x: f64, y: f64| {
        let deep = if f64::abs(x - 320.0) < 4.0 && y == 2.5 { 0.2 } else { 0.0 };
        100.0 - 0.015 * f64::abs(y) - deep
    };
    let plain = rutted(Some(40.0), SurfaceState::Wet, |_, y| 100.0 - 0.015 * f64::abs(y));
    let with = rutted(Some(40.0), SurfaceState::Wet, hollow);
    let depth = |assessed: &Assessment| ruts(assessed).value.unwrap().si;
    assert!(depth(&with) > depth(&plain) + 0.05, "{} {}", depth(&with), depth(&plain));
}

#[test]
fn ruts_that_nobody_measured_are_unproven() {
    let assessed = rutted(None, SurfaceState::Wet, |_, y| 100.0 - 0.015 * f64::abs(y));
    assert_eq!(ruts(&assessed).verdict, Verdict::Unproven);
    assert!(ruts(&assessed).needs.iter().any(|need| need.what.contains("[[area]] depth")));
}

#[test]
fn the_table_of_irregularities_holds_the_bump_in_the_row_of_its_length() {
    // 100 mm high over 20 m: its worst edge rests 7.5 m beside the crest.
    let bump = |x: f64, y: f64| {
        let along = x - 400.0;
        let on = (0.0..=20.0).contains(&along);
        let rise = 0.05 * (1.0 - (std::f64::consts::TAU * along / 20.0).cos());
        100.0 - 0.015 * f64::abs(y) + if on { rise } else { 0.0 }
    };
    let mut dense = strip(&RUNNING, bump);
    for line in dense.survey.iter_mut().flat_map(|survey| &mut survey.lines) {
        line.points = (0..=1800)
            .map(|index| f64::from(index) * 0.5)
            .map(|x| SurveyPoint {
                station: metres(x),
                elevation: metres(bump(x, line.offset.si())),
                line: 1,
            })
            .collect();
    }
    let table = dossier(&dense, None).irregularities.unwrap();
    assert_eq!(table.len(), 9);
    let row = &table[2];
    assert_eq!((row.length, row.grade), (metres(9.0), "beyond both"));
    let (event, _) = row.found.unwrap();
    assert!((event.station.si() - 410.0).abs() < 6.0 && event.height.si() > 0.08, "{event:?}");
}
