//! What the noise of a survey may have made is neither good nor bad ground: it
//! is named as such, and what stands out of it still fails.
#![allow(clippy::unwrap_used)]

use hardpan_assess::{StripDossier, dossier};
use hardpan_model::{
    Finding, Given, ReferenceCode, Strip, Survey, SurveyLine, SurveyPoint, Verdict,
};
use hardpan_quantity::{Length, Quantity, UnitSystem, metres};

const OFFSETS: [f64; 5] = [-9.0, -2.5, 0.0, 2.5, 9.0];
const SPACING_M: f64 = 0.5;

fn given<T>(value: T) -> Option<Given<T>> {
    Some(Given::stated("test", value))
}

/// A number between 0 and 1 for each index: the bits of its product with an odd
/// constant, folded. No source; any even scatter will do.
fn dice(index: u64) -> f64 {
    let mut bits = index.wrapping_add(1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    (bits ^ (bits >> 31)) as f64 / u64::MAX as f64
}

/// Twelve dice, less six, are nearly normal with a deviation of one.
fn scatter(index: u64) -> f64 {
    (0..12).map(|die| dice(12 * index + die)).sum::<f64>() - 6.0
}

/// 900 m by 18 m with a crown of 1.5 %, a level every half metre, its ground and
/// the scatter of its levels in metres.
fn strip(ground: impl Fn(f64, f64) -> f64, noise: f64, stated: bool) -> Strip {
    let mut index = 0;
    let line = |offset: &f64| SurveyLine {
        offset: metres(*offset),
        points: (0..=1800)
            .map(|at| f64::from(at) * SPACING_M)
            .map(|x| {
                index += 1;
                let level = 100.0 - 0.015 * offset.abs() + ground(x, *offset);
                SurveyPoint {
                    station: metres(x),
                    elevation: metres(level + noise * scatter(index)),
                    line: 1,
                }
            })
            .collect(),
    };
    let lines = OFFSETS.iter().map(line).collect();
    Strip {
        length: given(metres(900.0)),
        width: given(metres(18.0)),
        reference_code: given(ReferenceCode { number: 2, letter: 'B' }),
        survey: Some(Survey {
            file: "survey.csv".into(),
            date: None,
            level_noise: if stated { given(metres(noise)) } else { None },
            lines,
        }),
        ..Strip::default()
    }
}

fn of_shape(judged: &StripDossier) -> impl Iterator<Item = &Finding> {
    judged.findings.iter().filter(|one| ["R10", "R30", "R40", "R80"].contains(&one.code))
}

#[test]
fn noise_alone_fails_nothing_and_is_named() {
    let judged = dossier(&strip(|_, _| 0.0, 0.04, true), None);
    for finding in of_shape(&judged) {
        let told = format!("{} {}: {}", finding.code, finding.title, finding.because);
        assert_ne!(finding.verdict, Verdict::Fail, "{told}");
    }
    let is = |code: &str, verdict: Verdict| {
        of_shape(&judged).any(|one| one.code == code && one.verdict == verdict)
    };
    assert!(is("R10", Verdict::Unproven) && is("R40", Verdict::Unproven));
    assert!(judged.places.iter().all(|place| !place.over), "{:#?}", judged.places);
    let doubted = |words: &str| words.contains("may be noise of the survey");
    assert!(
        judged.places.iter().any(|place| doubted(&place.words.show(UnitSystem::Metric))),
        "{:#?}",
        judged.places
    );
    let table = judged.irregularities.unwrap();
    assert!(table.iter().any(|row| row.grade == "may be noise"), "{table:#?}");
    let why = judged.ponds.unwrap_err();
    assert!(why.contains("noise of the survey alone shows"), "{why}");
}

#[test]
fn what_stands_out_of_the_noise_still_fails() {
    // A ditch of 0.6 m right across, 6 m long.
    let ditch = |x: f64, _: f64| if (400.0..=406.0).contains(&x) { -0.6 } else { 0.0 };
    let judged = dossier(&strip(ditch, 0.04, true), None);
    let failed =
        |code: &str| of_shape(&judged).any(|one| one.code == code && one.verdict == Verdict::Fail);
    assert!(failed("R10") && failed("R40"));
    let over: Vec<Length> =
        judged.places.iter().filter(|place| place.over).map(|place| place.worst).collect();
    assert!(!over.is_empty());
    assert!(over.iter().all(|at| (380.0..430.0).contains(&at.si())), "{over:?}");
}

/// Waves with random phases whose density falls as the square of the wave
/// number: 0.16 m³ at one wave in 128 m. Noise of σ every Δ has the density
/// 2 σ² Δ at every wave number (white noise, its variance spread evenly up to
/// the shortest wave that the levels show).
fn waves(x: f64, _: f64) -> f64 {
    let wave = |number: u32| {
        let turn = dice(u64::from(number)) + f64::from(number) * x / 128.0;
        0.05 / f64::from(number) * (std::f64::consts::TAU * turn).cos()
    };
    (1..=128).map(wave).sum()
}

#[test]
fn a_spectrum_ends_where_noise_would_draw_it() {
    let centre = |noise: f64, stated: bool| {
        let judged = dossier(&strip(waves, noise, stated), None);
        judged.lines.into_iter().find(|line| line.offset == metres(0.0)).unwrap().spectrum
    };
    let quiet = centre(0.001, true).unwrap();
    let noisy = centre(0.008, true).unwrap();
    assert!((quiet.exponent - 2.0).abs() < 0.3, "{}", quiet.exponent);
    assert!((noisy.exponent - 2.0).abs() < 0.4, "{}", noisy.exponent);
    // Three times 2 · 0.008² · 0.5 m³ is met by 0.16 m³ / k² at k = 29: 4.4 m.
    let shortest = noisy.fitted.0.si();
    assert!((3.0..6.5).contains(&shortest), "{shortest}");
    assert!(quiet.fitted.0.si() < 2.6, "{:?}", quiet.fitted);
    let drowned = centre(0.3, true).unwrap_err();
    assert!(drowned.contains("noise of the survey alone would draw it"), "{drowned}");
    let unstated = centre(0.001, false).unwrap_err();
    assert!(unstated.contains("noise of a level is not stated"), "{unstated}");
}
