//! The dossier of a strip: the same bytes twice, honest about what is not
//! known, laid out whatever the survey is like.

use hardpan_assess::{PlaceKind, StripDossier, StripRepair, dossier};
use hardpan_model::{
    Area, AreaKind, AreaOutline, Given, Hammer, Reading, Sounding, Strip, SurfaceKind, Survey,
    SurveyLine, SurveyPoint, Verdict,
};
use hardpan_quantity::{Length, Quantity, UnitSystem, metres, millimetres};
use hardpan_report::{
    DossierReport, Produced, TextStyle, dossier_json, dossier_pdf, dossier_schema, dossier_text,
    strip_figures,
};
use std::sync::LazyLock;

fn given<T>(value: T) -> Given<T> {
    Given::stated("test", value)
}

/// Invented ground: a crown, a bump over its limit in the middle, a hollow at
/// the left that holds water.
fn level(station: f64, offset: f64) -> f64 {
    let near = |at: f64, reach: f64| (-((station - at) / reach).powi(2)).exp();
    let bump = 0.12 * near(400.0, 7.0) * (-(offset / 4.0).powi(2)).exp();
    let hollow = 0.25 * near(700.0, 15.0) * (-((offset + 4.0) / 3.0).powi(2)).exp();
    100.0 + 0.003 * station - 0.015 * offset.abs() + bump - hollow
}

fn surveyed(length: f64, offsets: impl Iterator<Item = f64>, step: f64) -> Survey {
    let count = (length / step).round() as usize;
    let points = |offset: f64| {
        (0..=count).map(move |at| SurveyPoint {
            station: metres(at as f64 * step),
            elevation: metres(level(at as f64 * step, offset)),
            line: 1,
        })
    };
    let line = |offset| SurveyLine { offset: metres(offset), points: points(offset).collect() };
    Survey {
        file: "survey.csv".into(),
        date: None,
        level_noise: Some(given(millimetres(2.0))),
        lines: offsets.map(line).collect(),
    }
}

fn sounding(station: f64, offset: f64) -> Sounding {
    let reading = |(at, blows): (usize, u32)| Reading {
        blows,
        depth: millimetres(50.0 * (at + 1) as f64),
        line: 1,
    };
    let blows = [9, 9, 8, 4, 3, 3, 3, 4];
    Sounding {
        station: given(metres(station)),
        offset: metres(offset),
        date: None,
        hammer: given(Hammer::Standard),
        soil: None,
        readings: blows.into_iter().enumerate().map(reading).collect(),
        refusal: false,
        moisture: None,
    }
}

fn strip(length: f64, survey: Survey) -> Strip {
    Strip {
        name: Some(given("Invented".to_owned())),
        length: Some(given(metres(length))),
        width: Some(given(metres(30.0))),
        surface: Some(given(SurfaceKind::Gravel)),
        survey: Some(survey),
        soundings: (0..20).map(|at| sounding(f64::from(at) * length / 19.0, 2.0)).collect(),
        ..Strip::default()
    }
}

fn rough() -> &'static StripDossier {
    static ROUGH: LazyLock<StripDossier> = LazyLock::new(|| {
        let offsets = [-12.0, -8.0, -4.0, 0.0, 4.0, 8.0, 12.0];
        let survey = surveyed(1000.0, offsets.into_iter(), 2.5);
        dossier(&strip(1000.0, survey), Some(metres(8.0)))
    });
    &ROUGH
}

fn report(dossier: &StripDossier, units: UnitSystem) -> DossierReport {
    let produced = Produced { by: "hardpan test".to_owned(), ..Produced::default() };
    DossierReport::new(dossier, units, produced)
}

fn kept(name: &str, report: &DossierReport) -> Vec<u8> {
    let pdf = dossier_pdf(report).expect("it is typeset");
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
    std::fs::write(folder.join(format!("dossier-{name}.pdf")), &pdf).expect("a writable folder");
    for figure in report.figures() {
        std::fs::write(folder.join(format!("dossier-{name}-{}.svg", figure.name)), &figure.svg)
            .expect("a writable folder");
    }
    pdf
}

#[test]
fn the_worst_places_are_found_where_they_are() {
    let found = rough();
    assert_eq!(found.verdict, Verdict::Fail);
    let bump = found.places.iter().find(|place| place.kind == PlaceKind::Bump).unwrap();
    assert!(bump.over && (bump.worst.si() - 400.0).abs() < 3.0, "{bump:?}");
    let pond = found.ponds.as_ref().unwrap().first().unwrap();
    assert!((pond.worst.si() - 700.0).abs() < 10.0 && pond.offsets.0.si() < 0.0, "{pond:?}");
    assert!(found.places.first().is_some_and(|place| place.over));
    let repairs = found.repairs.as_ref().expect("the survey shows them");
    let holds = |action: &str, at: f64| {
        let here = |one: &&StripRepair| one.from.si() < at && one.to.si() > at;
        repairs.iter().filter(here).any(|one| one.action == action && one.volume.si() > 1.0)
    };
    assert!(holds("cut", 400.0) && holds("fill", 700.0), "{repairs:?}");
}

#[test]
fn ground_that_is_reported_closed_closes_the_strip() {
    let mut strip = strip(300.0, surveyed(300.0, [-3.0, 0.0, 3.0].into_iter(), 2.5));
    let outline = AreaOutline::Across { from: metres(100.0), to: metres(120.0) };
    let kind = given(AreaKind::Closed);
    strip.areas =
        vec![Area { name: None, kind, outline, depth: None, sinkage: None, reported_on: None }];
    let found = dossier(&strip, None);
    let area = found.findings.iter().find(|finding| finding.code == "S50").unwrap();
    assert_eq!((area.verdict, found.verdict), (Verdict::Fail, Verdict::Fail));
}

#[test]
fn the_same_strip_gives_the_same_bytes() {
    let report = report(rough(), UnitSystem::Metric);
    assert_eq!(kept("rough", &report), dossier_pdf(&report).unwrap());
    assert_eq!(dossier_json(&report), dossier_json(&report));
}

#[test]
fn a_strip_without_files_is_unproven_and_says_what_to_measure() {
    let bare = dossier(&Strip::default(), None);
    assert_eq!(bare.verdict, Verdict::Unproven);
    let report = report(&bare, UnitSystem::Metric);
    kept("bare", &report);
    let text = dossier_text(&report, TextStyle::default());
    for words in ["UNPROVEN", "no survey", "no soundings", "strip: survey", "never a pass"] {
        assert!(text.contains(words), "{words} in\n{text}");
    }
    for name in ["evenness", "water", "soundings", "elevation", "roughness-index"] {
        let figure = report.figures().iter().find(|figure| figure.name == name).unwrap();
        assert!(figure.svg.contains("not known"), "{name}");
    }
}

#[test]
fn long_strips_and_many_lines_are_laid_out() {
    let many = surveyed(500.0, (0..25).map(|at| f64::from(at) - 12.0), 2.5);
    kept("many-lines", &report(&dossier(&strip(500.0, many), None), UnitSystem::Imperial));
    let long = surveyed(4000.0, [-10.0, 0.0, 10.0].into_iter(), 5.0);
    kept("long", &report(&dossier(&strip(4000.0, long), None), UnitSystem::Metric));
}

#[test]
fn numbers_on_the_figure_are_those_of_the_list() {
    let found = rough();
    let figures = strip_figures(found, UnitSystem::Metric);
    let plan = &figures.iter().find(|figure| figure.name == "evenness").unwrap().svg;
    for number in 1..=2 {
        assert!(plan.contains(&format!(">{number}</text>")), "{number}");
    }
    assert!(plan.contains("above-limit") && plan.contains("below-quarter"));
}

#[test]
fn nothing_that_is_not_finite_is_drawn_or_run() {
    let mut strip = strip(300.0, surveyed(300.0, [-3.0, 0.0, 3.0].into_iter(), 2.5));
    strip.name = Some(given("#panic(\"run\") </text><script>&\u{1b} 滑走路".to_owned()));
    strip.width = Some(given(metres(f64::NAN)));
    if let Some(point) = strip.survey.as_mut().and_then(|s| s.lines[0].points.get_mut(40)) {
        point.elevation = Length::from_si(f64::INFINITY);
    }
    let report = report(&dossier(&strip, None), UnitSystem::Metric);
    assert!(dossier_pdf(&report).is_ok());
    for figure in report.figures() {
        assert!(!figure.svg.contains("NaN") && !figure.svg.contains("inf\""), "{}", figure.name);
        assert!(!figure.svg.contains("<script>"));
    }
}

#[test]
fn the_document_fits_its_schema() {
    let schema: serde_json::Value = serde_json::from_str(&dossier_schema()).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    for found in [rough(), &dossier(&Strip::default(), None)] {
        let text = dossier_json(&report(found, UnitSystem::Imperial));
        let document: serde_json::Value = serde_json::from_str(&text).unwrap();
        let errors: Vec<String> =
            validator.iter_errors(&document).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{errors:?}");
    }
}

#[test]
fn imperial_readers_see_no_metres() {
    let text = dossier_text(&report(rough(), UnitSystem::Imperial), TextStyle::default());
    assert!(text.contains(" ft") && text.contains(" in"), "{text}");
    let from = text.find("Worst places").unwrap();
    let to = text.find("Roughness index by").unwrap();
    // A straightedge is called by the length at which it is sold.
    let shown = text[from..to].replace("3 m straightedge", "straightedge");
    for words in [" mm", " m ", " m,", " kPa"] {
        assert!(!shown.contains(words), "`{words}` in\n{text}");
    }
}
