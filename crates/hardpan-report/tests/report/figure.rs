//! The figures: well-formed, labelled, and honest about what is not known.

use crate::sample::{self, UnitSystem, report};
use hardpan_assess::Assessment;
use hardpan_quantity::kilonewtons;
use hardpan_report::{runs_figure, strip_figure, strip_sketch};

fn both(assessment: &Assessment) -> [String; 2] {
    let report = report(assessment, UnitSystem::Metric);
    [strip_sketch(&report), strip_figure(&report)]
}

#[test]
fn every_place_over_its_limit_is_named() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
    for (name, figure) in ["sketch", "figure"].into_iter().zip(both(&sample::conditional())) {
        std::fs::write(folder.join(format!("{name}.svg")), &figure).unwrap();
        assert!(figure.contains("soft 9.1 %, 600–690\u{a0}m"), "{name}");
        assert!(figure.contains("loose gravel, 1310–1370\u{a0}m"), "{name}");
    }
    for (name, figure) in ["sketch", "figure"].into_iter().zip(both(&sample::failing())) {
        std::fs::write(folder.join(format!("{name}-failing.svg")), &figure).unwrap();
    }
    for (name, figure) in ["sketch", "figure"].into_iter().zip(both(&sample::unproven())) {
        std::fs::write(folder.join(format!("{name}-unproven.svg")), &figure).unwrap();
    }
}

#[test]
fn marks_differ_by_pattern_not_by_colour_alone() {
    let [sketch, _] = both(&sample::conditional());
    for kind in ["soft", "bump", "water", "loose", "rut"] {
        assert!(sketch.contains(&format!("fill=\"url(#hardpan-card-{kind})\"")), "{kind}");
    }
}

#[test]
fn bands_without_figures_say_so() {
    let [sketch, figure] = both(&sample::empty());
    assert_eq!(figure.matches(">not known</text>").count(), 3);
    for picture in [sketch, figure] {
        for words in ["strength not known", "length not known", "no run was computed"] {
            assert!(picture.contains(words), "{words}");
        }
    }
}

#[test]
fn values_that_are_not_finite_leave_no_trace() {
    for figure in both(&sample::not_finite()) {
        assert!(!figure.contains("NaN") && !figure.contains("inf"), "{figure}");
    }
}

#[test]
fn text_of_users_is_escaped() {
    let mut assessment = sample::conditional();
    for mark in &mut assessment.sketch.marks {
        mark.label = "</text><script>&\"\u{1b}".to_owned();
    }
    for figure in both(&assessment) {
        assert!(!figure.contains("<script>") && !figure.contains('\u{1b}'));
    }
}

#[test]
fn the_same_report_gives_the_same_figure() {
    assert_eq!(both(&sample::conditional()), both(&sample::conditional()));
}

#[test]
fn the_runs_show_thrust_friction_and_load_and_reverse_below_nought() {
    let mut assessment = sample::conditional();
    let report_of = |assessment: &Assessment| runs_figure(&report(assessment, UnitSystem::Metric));
    let drawn = report_of(&assessment);
    std::fs::write(std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("runs.svg"), &drawn)
        .unwrap();
    for words in [
        "Ground speed, kt",
        "Thrust of all engines, reverse below 0, kN",
        "Friction: drag of the wheels over their load",
        "Load on one main leg, kN",
    ] {
        assert!(drawn.contains(words), "{words}");
    }
    assert!(!drawn.contains("−20"), "no reverse is counted");
    for point in assessment.sketch.runs.iter_mut().flat_map(|(_, run)| &mut run.points) {
        point.thrust = kilonewtons(-25.0);
    }
    assert!(report_of(&assessment).contains("−20"), "reverse has no scale");
    assert!(report_of(&sample::empty()).matches(">not known</text>").count() >= 5);
    assert!(!report_of(&sample::not_finite()).contains("NaN"));
}
