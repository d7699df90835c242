//! What the ground still carries, and what is said beside the decision on it.

mod support;

use hardpan_assess::{Assessment, assess, formulas};
use hardpan_model::{Finding, Step, Verdict, Weight};
use hardpan_quantity::{Quantity, UnitSystem, tell};
use support::{GravelOver, assessed, change, demo_text, gravel_over};

fn finding<'a>(assessment: &'a Assessment, code: &str) -> &'a Finding {
    assessment.findings.iter().find(|finding| finding.code == code).expect(code)
}

fn asking(passes: &str) -> Assessment {
    assessed(&[change("flight.toml", "passes = 60", &format!("passes = {passes}"))])
}

#[test]
fn exact_the_passes_left_are_carried_and_two_more_are_not() {
    let planned = assessed(&[]);
    let left = finding(&planned, "G40");
    let value = left.value.expect("a number").si;
    assert_eq!((left.weight, left.verdict), (Weight::Advice, Verdict::Pass));
    assert!(value >= 60.0);
    let set = planned.tyre.set.expect("a pressure").si();
    let at = |passes: f64| {
        let pressure = format!("main_tyre_pressure = \"{set} Pa\"\npasses = {passes}");
        assessed(&[change("flight.toml", "passes = 60", &pressure)])
    };
    assert_eq!(finding(&at(value), "G20").verdict, Verdict::Pass);
    assert_eq!(finding(&at(value + 2.0), "G20").verdict, Verdict::Fail);
}

#[test]
fn ground_that_fails_names_every_stretch_and_the_gravel_that_mends_it() {
    let failed = asking("200");
    let ground = finding(&failed, "G20");
    assert_eq!(ground.verdict, Verdict::Fail);
    let instruction = ground.instruction.as_deref().expect("what to lay");
    assert!(instruction.contains("of gravel of at least CBR"), "{instruction}");
    let because = tell(&ground.because, UnitSystem::Metric);
    assert!(because.contains("do not hold: 545–725 m"), "{because}");
    assert_eq!(finding(&failed, "G40").verdict, Verdict::Fail);
}

#[test]
fn passes_left_are_unproven_where_the_ground_or_the_passes_are_not_known() {
    let silent = assessed(&[change("flight.toml", "passes = 60\n", "")]);
    let unknown = assessed(&[change("strip.toml", "value = \"60 m\"", "value = \"20 m\"")]);
    for assessment in [silent, unknown] {
        let left = finding(&assessment, "G40");
        assert_eq!((left.verdict, left.value), (Verdict::Unproven, None));
        assert!(!left.needs.is_empty());
    }
}

fn over(ground_mm_per_blow: f64, thickness_mm: u32) -> Assessment {
    let over =
        GravelOver { gravel_blows: 4, thickness_mm, ground_mm_per_blow, moisture_percent: "" };
    assess(&gravel_over(over, &[]))
}

fn rut<'a>(assessment: &'a Assessment, law: &str) -> &'a Finding {
    let mut all = assessment.findings.iter().filter(|finding| finding.code == "G50");
    all.find(|finding| finding.title.contains(law)).expect(law)
}

#[test]
fn ruts_stand_side_by_side_and_each_law_keeps_to_its_range() {
    let firm = over(20.0, 160);
    assert_eq!(rut(&firm, "Barber").verdict, Verdict::Pass);
    assert_eq!(rut(&firm, "Giroud").verdict, Verdict::Unproven);
    assert!(rut(&firm, "Giroud").because.contains("outside the published range"));
    let soft = over(45.0, 300);
    for law in ["Barber", "Giroud"] {
        let found = rut(&soft, law);
        assert_eq!(found.weight, Weight::Advice);
        assert!(found.value.is_some(), "{law}: {}", found.because);
        let last = found.basis.steps.last().expect("a basis");
        assert_eq!(found.value.map(|value| value.si), Some(last.result.si));
    }
}

#[test]
fn prop_softer_ground_ruts_deeper() {
    let depths: Vec<f64> = [16.0, 20.0, 30.0, 45.0]
        .map(|rate| rut(&over(rate, 300), "Barber").value.expect("a rut").si)
        .to_vec();
    assert!(depths.windows(2).all(|pair| pair[0] < pair[1]), "{depths:?}");
}

/// Every catalogued step of a finding, done again from the inputs shown.
fn redo(finding: &Finding) -> usize {
    let catalogue = formulas();
    let named = finding.basis.steps.iter().filter_map(|step| Some((step, step.formula?)));
    named
        .map(|(step, name)| {
            let formula = catalogue.iter().find(|formula| formula.name == name).expect(name);
            let values: Vec<_> = step.inputs.iter().map(|input| input.amount).collect();
            let by_hand = formula.value(&values).unwrap_or_else(|error| panic!("{error}"));
            let close = (by_hand.si - step.result.si).abs() <= 4e-3 * by_hand.si.abs();
            assert!(close, "{name} gives {by_hand:?}, shown {:?}", step.result);
        })
        .count()
}

#[test]
fn exact_ruts_in_soft_ground_can_be_done_by_hand() {
    let soft = over(45.0, 300);
    assert_eq!(redo(rut(&soft, "Barber")), 2);
    assert_eq!(redo(rut(&soft, "Giroud")), 2);
}

fn all<'a>(assessment: &'a Assessment, code: &str) -> Vec<&'a Finding> {
    assessment.findings.iter().filter(|finding| finding.code == code).collect()
}

#[test]
fn characteristic_strength_is_that_of_the_soundings() {
    let even = over(20.0, 160);
    // [ASTM-D6951] Table 1: 20 mm a blow stands for CBR 10.
    for finding in all(&even, "S40") {
        let value = finding.value.expect("a bearing ratio").si;
        assert!((value - 10.0).abs() < 0.5, "{}: {value}", finding.title);
        assert_eq!((finding.weight, finding.limit), (Weight::Advice, None));
    }
    let uneven = assessed(&[]);
    let [quartile, less, ref sections @ ..] = all(&uneven, "S40")[..] else {
        panic!("two practices")
    };
    assert!(sections.iter().all(|section| section.weight == Weight::Advice));
    let values: Vec<f64> =
        quartile.basis.steps[0].inputs.iter().map(|input| input.amount.si).collect();
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>();
    let by_hand = mean - (squares / (count - 1.0)).sqrt();
    assert!((less.value.expect("a value").si - by_hand).abs() < 1e-9);
    let below = values.iter().filter(|value| **value < quartile.value.expect("a value").si);
    assert!((below.count() as f64 / count - 0.25).abs() < 0.05);
}

#[test]
fn a_tyre_at_its_rating_has_its_rated_deflection_and_a_softer_one_more() {
    let at = |pressure: &str| {
        let set = format!("main_tyre_pressure = \"{pressure}\"\npasses = 60");
        let assessment = assessed(&[change("flight.toml", "passes = 60", &set)]);
        let main = all(&assessment, "T20")[0];
        assert_eq!(redo(main), 5);
        let mean = main.basis.steps.last().expect("a step");
        assert_eq!(mean.computes, "mean contact pressure");
        let set = input(&main.basis.steps[1], "pressure");
        // [SMILEY-HORNE-1958]: F = (p + 0.08 p_r) w sqrt(w d) 2.4 (x - 0.03) over an area
        // of 2.3 D sqrt(w d), x = D/w beyond 0.1.
        let x = input(&main.basis.steps[1], "deflection") / 0.36;
        let by_hand = (set + 0.08 * 155.0 * 6_894.757) * 2.4 * (x - 0.03) / (2.3 * x);
        assert!(x > 0.1 && (mean.result.si / by_hand - 1.0).abs() < 1e-6, "{}", mean.result.si);
        assert_eq!((main.weight, main.limit), (Weight::Advice, None));
        main.value.expect("a share").si
    };
    let (soft, rated) = (at("100 psi"), at("155 psi"));
    assert!(rated < 1.0, "a wheel of 93 kN deflects less than one of the rated 112 kN: {rated}");
    assert!(soft > 1.0 && soft < 2.0, "{soft}");
}

/// Per cent deflection is 100 D over (d − flange diameter)/2 (common practice, no source).
#[test]
fn exact_per_cent_deflection_where_the_flange_is_stated() {
    let at = |flange: &str| {
        let stated = format!("width = \"0.36 m\"\nflange_diameter = \"{flange}\"");
        assessed(&[change("aeroplane.toml", "width = \"0.36 m\"", &stated)])
    };
    let found = at("0.56 m");
    let main = all(&found, "T20")[0];
    assert_eq!((redo(main), main.verdict), (7, Verdict::Pass));
    let of = |step: &&Step| step.formula == Some("tyre-deflection-of-section");
    let steps: Vec<&Step> = main.basis.steps.iter().filter(of).collect();
    for step in &steps {
        assert!((step.result.si - input(step, "deflection") / 0.23).abs() < 1e-12);
    }
    assert!(steps.len() == 2 && main.because.contains("of the section above the flange"));
    let bearing = at("0.95 m");
    let main = all(&bearing, "T20")[0];
    assert_eq!((main.weight, main.verdict), (Weight::Advice, Verdict::Fail));
    assert!(main.because.contains("the rim bears"), "{}", main.because);
}

/// The maker's table, read on a straight line by hand, decides where no chart is entered.
#[test]
fn exact_the_makers_table_gives_the_least_pressure_at_the_wheel_load() {
    let text = demo_text("aeroplane.toml");
    let from = text.find("# Least pressure by mass on gravel.").expect("the chart");
    let to = text.find("[gear.main.strut]").expect("after the chart");
    let table = "[[gear.main.tyre.load_table]]\nload = \"50 kN\"\npressure = \"80 psi\"\n\
                 [[gear.main.tyre.load_table]]\nload = \"112 kN\"\npressure = \"142 psi\"\n";
    let least = |table: &str| {
        let found = assessed(&[change("aeroplane.toml", &text[from..to], table)]);
        let main = all(&found, "T10")[0].clone();
        let limit = main.limit.expect("a least").amount.si;
        (main, limit)
    };
    let (main, by_table) = least(table);
    assert!(main.because.contains("the maker's table at this wheel load"), "{}", main.because);
    let (_, by_rating) = least("");
    // 1 psi for each kN from 80 psi at 50 kN; the rating asks p_r (1.08 L/L_r − 0.08).
    let load = 112.0 * (by_rating / (155.0 * 6_894.757) + 0.08) / 1.08;
    let by_hand = (80.0 + (load - 50.0)) * 6_894.757;
    assert!((by_table / by_hand - 1.0).abs() < 1e-5, "{by_table} {by_hand}");
}

fn published(strength: &str) -> Assessment {
    let tables = format!("[strength]\n{strength}\n\n[survey_info]");
    assessed(&[change("strip.toml", "[survey_info]", &tables)])
}

#[test]
fn exact_the_published_strength_number_binds_the_mass_too() {
    assert!(all(&assessed(&[]), "G70").is_empty(), "no number, nothing to check");
    let strong = published("number = 60\nsubgrade = \"B\"\ntyre_pressure_limit = \"1.0 MPa\"");
    let found = all(&strong, "G70");
    assert_eq!(found.len(), 3);
    assert!(found.iter().all(|finding| finding.verdict == Verdict::Pass));
    assert_eq!(found.iter().map(|finding| redo(finding)).sum::<usize>(), 2);
    let weak = published("number = 15\nsubgrade = \"B\"\ntyre_pressure_limit = \"0.5 MPa\"");
    assert!(all(&weak, "G70").iter().all(|finding| finding.verdict == Verdict::Fail));
    let set_by = weak.take_off_mass.as_ref().and_then(|mass| mass.set_by());
    assert_eq!(set_by.map(|limit| limit.code), Some("G70"));
}

/// [HAYHOE-2007]: four wheels of one leg count 0.825 before October 2007, 0.800
/// since; one and two count the same.
#[test]
fn a_number_between_both_sets_of_factors_holds_on_condition() {
    let four = |number: f64| {
        let tables = format!("[strength]\nnumber = {number}\nsubgrade = \"C\"\n\n[survey_info]");
        let wheels = "wheels = 4\nspacing = \"0.78 m\"\ntandem_spacing = \"1.2 m\"\nstroke_left";
        assessed(&[
            change("strip.toml", "[survey_info]", &tables),
            change("aeroplane.toml", "wheels = 2\nspacing = \"0.78 m\"\nstroke_left", wheels),
        ])
    };
    let wide = four(60.0);
    let steps = &all(&wide, "G70")[0].basis.steps;
    let numbers: Vec<f64> =
        steps.iter().filter(|step| step.formula.is_some()).map(|step| step.result.si).collect();
    let [since, before] = numbers[..] else { panic!("{numbers:?}") };
    assert!(before > since * 1.02, "{before} before, {since} since");
    let between = four(0.5 * (before + since));
    let found = all(&between, "G70")[0];
    assert_eq!((found.verdict, redo(found)), (Verdict::Conditional, 2), "{}", found.because);
    assert_eq!(all(&four(0.98 * since), "G70")[0].verdict, Verdict::Fail);
    let two = published("number = 60\nsubgrade = \"C\"");
    assert_eq!(redo(all(&two, "G70")[0]), 1, "two wheels have one factor in both sets");
}

#[test]
fn a_strength_number_without_its_letter_proves_nothing() {
    let silent = published("number = 60");
    let found = all(&silent, "G70");
    assert_eq!(found.len(), 2);
    for finding in found {
        assert_eq!((finding.verdict, finding.weight), (Verdict::Unproven, Weight::Safety));
        assert_eq!(finding.needs[0].what, "strip: strength.subgrade");
    }
}

fn step<'a>(assessment: &'a Assessment, computes: &str) -> &'a Step {
    let steps = &finding(assessment, "G20").basis.steps;
    steps.iter().find(|step| step.computes.contains(computes)).expect("a step")
}

fn input(step: &Step, name: &str) -> f64 {
    step.inputs.iter().find(|input| input.name == name).expect("an input").amount.si
}

/// Two tyres of a leg at both ends of the track: the busiest point has the share of
/// a normal law [HOSANG-1975] of each, and wider wander makes fewer coverages.
#[test]
fn exact_coverages_follow_the_wander_that_is_stated() {
    let wander = |metres: &str| {
        let line = format!("wheel_wander = \"{metres} m\"\nsurface = ");
        assessed(&[change("strip.toml", "surface = ", &line)])
    };
    let plain = assessed(&[]);
    let coverages = step(&plain, "coverages that the passes make");
    assert!((input(coverages, "standard deviation of wander") - 0.773_049).abs() < 1e-9);
    let stated = wander("0.2");
    let coverages = step(&stated, "coverages that the passes make");
    let width = input(coverages, "section width of a tyre");
    // Tracks 0.78 m apart hardly meet at 0.2 m: one tyre over its own line.
    let bell = |y: f64| (-0.5 * (y / 0.2f64).powi(2)).exp() / (0.2 * std::f64::consts::TAU.sqrt());
    let strips = (0..1000).map(|index| bell(width * ((f64::from(index) + 0.5) / 1000.0 - 0.5)));
    let one = strips.sum::<f64>() * width / 1000.0;
    let per_pass = input(coverages, "coverages of one pass");
    assert!((per_pass - one).abs() < 0.01, "{per_pass} and {one}");
    assert!((coverages.result.si - 60.0 * per_pass).abs() < 1e-9);
    let used = ["0.2", "0.5", "0.773", "1.5"]
        .map(|metres| finding(&wander(metres), "G20").value.expect("a value").si);
    assert!(used.windows(2).all(|pair| pair[0] > pair[1]), "{used:?}");
}

#[test]
fn the_laws_of_the_penetrometer_stand_beside_the_one_in_use() {
    let plain = assessed(&[]);
    let credited = step(&plain, "bearing ratio credited");
    let (mean, least) = (input(credited, "mean"), input(credited, "least of the laws"));
    let greatest = input(credited, "greatest of the laws");
    assert!(least < mean && mean < greatest, "{least} {mean} {greatest}");
    assert!(mean / credited.result.si <= mean / least * 1.3);
}
