//! How sure the answer is: closed forms through the whole tool, the same draws
//! by the same seed, and every figure borne out by fresh draws.

mod support;

use hardpan_assess::{Confidence, LimitChance, Moving, Sampling, assess, confidence};
use hardpan_model::{Flight, Given, Uncertainty, Verdict};
use hardpan_quantity::{Mass, Quantity, millimetres, ratio, tonnes};
use snapbox::cmd::{Command, cargo_bin};
use support::{changed_files, flight};

fn drawn(flight: &Flight, draws: u32, seed: u32) -> Confidence {
    confidence(flight, Sampling { draws, seed, threads: 2 }, |_, _| ())
}

fn limit<'a>(found: &'a Confidence, code: &str, moving: Option<Moving>) -> &'a LimitChance {
    let of = |limit: &&LimitChance| limit.code == code && limit.moving == moving;
    found.limits.iter().find(of).expect("a limit")
}

/// The demo far inside its limits.
fn lightly_loaded() -> Flight {
    let mut flight = flight(&[]);
    let light = |given: Given<Mass>| given.map(|_| tonnes(33.0));
    if let Some(plan) = &mut flight.landing {
        plan.mass = plan.mass.take().map(light);
    }
    if let Some(plan) = &mut flight.take_off {
        plan.mass = plan.mass.take().map(light);
    }
    if let Some(survey) = &mut flight.strip.survey {
        survey.level_noise = Some(Given::stated("survey", millimetres(0.01)));
    }
    flight
}

/// All deviations 0, save what a test then sets.
fn exact() -> Uncertainty {
    let zero = || Some(Given::stated("uncertainty", ratio(0.0)));
    Uncertainty {
        level: None,
        penetrometer_law: zero(),
        sounding: zero(),
        rolling_friction: zero(),
        braking_friction: zero(),
        wind_speed: Some(Given::stated("uncertainty", Quantity::from_si(0.0))),
        wind_direction: Some(Given::stated("uncertainty", Quantity::from_si(0.0))),
        temperature_kelvins: Some(Given::stated("uncertainty", 0.0)),
        air_pressure: Some(Given::stated("uncertainty", Quantity::from_si(0.0))),
        mass: zero(),
        thrust: zero(),
    }
}

#[test]
fn the_same_seed_gives_the_same_draws_on_any_number_of_threads() {
    let flight = flight(&[]);
    let one = confidence(&flight, Sampling { draws: 128, seed: 7, threads: 1 }, |_, _| ());
    let three = confidence(&flight, Sampling { draws: 128, seed: 7, threads: 3 }, |_, _| ());
    assert_eq!(one, three);
    let other = drawn(&flight, 128, 8);
    assert_ne!(one.limits, other.limits);
}

/// Closed form: a lognormal mass with a median of the mass planned exceeds the
/// structural limit with 1 - Φ(ln(limit / planned) / s), s² = ln(1 + d²). Here
/// the limit lies at 1, 1/2 and 2 of s above: 15.866, 30.854 and 2.275 %
/// (printed tables of the normal distribution, from memory).
#[test]
fn val_the_structural_limit_is_exceeded_as_the_closed_form_says() {
    for (deviations, exact_share) in [(1.0_f64, 0.158_66), (0.5, 0.308_54), (2.0, 0.022_75)] {
        let mut flight = flight(&[]);
        flight.uncertainty = exact();
        let spread: f64 = 0.05;
        flight.uncertainty.mass = Some(Given::stated("uncertainty", ratio(spread)));
        let s = (1.0 + spread * spread).ln().sqrt();
        let planned = tonnes(52.0 * (-deviations * s).exp());
        let plan = flight.take_off.as_mut().expect("planned");
        plan.mass = plan.mass.take().map(|given| given.map(|_| planned));
        let found = drawn(&flight, 512, 3);
        let chance =
            limit(&found, "A10", Some(Moving::TakeOff)).exceeded.expect("the limit is known");
        // 512 points lie one in each slice of the axis: the count is right to one.
        assert!((chance.share.si() - exact_share).abs() <= 1.01 / 512.0, "{chance:?}");
        let (low, high) = (chance.between.0.si(), chance.between.1.si());
        assert!(low <= exact_share && exact_share <= high, "{chance:?}");
    }
}

#[test]
fn without_any_doubt_each_limit_holds_always_or_never() {
    let mut flight = flight(&[]);
    flight.uncertainty = exact();
    if let Some(landing) = &mut flight.landing {
        landing.touchdown_scatter = None;
    }
    if let Some(survey) = &mut flight.strip.survey {
        survey.level_noise = Some(Given::stated("survey", millimetres(0.01)));
    }
    let found = drawn(&flight, 128, 1);
    let of_noise = |limit: &&LimitChance| limit.code != "R70";
    for limit in found.limits.iter().filter(of_noise) {
        let share = limit.exceeded.map(|chance| chance.share.si());
        assert!(share == Some(0.0) || share == Some(1.0), "{limit:?}");
    }
    let missing: Vec<&str> = found.missing.iter().map(|need| need.what.as_str()).collect();
    assert_eq!(missing, ["flight: landing.touchdown_scatter"]);
    assert_eq!(found.verdict, Verdict::Unproven);
}

#[test]
fn what_nobody_says_how_sure_it_is_leaves_the_answer_unproven() {
    let mut flight = lightly_loaded();
    flight.uncertainty.mass = None;
    flight.uncertainty.sounding = None;
    let found = drawn(&flight, 128, 1);
    assert_eq!(found.verdict, Verdict::Unproven, "{:?}", found.limits);
    let missing: Vec<&str> = found.missing.iter().map(|need| need.what.as_str()).collect();
    assert_eq!(missing, ["flight: uncertainty.sounding", "flight: uncertainty.mass"]);
    assert!(found.masses.iter().all(|mass| mass.held.is_none()));
}

/// The mass that holds at the level, planned, is one at which the limits of its
/// movement hold in that share of the same draws; a little more is not.
#[test]
fn the_mass_that_holds_is_borne_out_by_planning_it() {
    let planned = flight(&[]);
    let found = drawn(&planned, 256, 5);
    let take_off = found.masses.iter().find(|mass| mass.moving == Moving::TakeOff);
    let take_off = take_off.expect("planned");
    let held = take_off.held.expect("some mass holds");
    assert!(Some(held) <= take_off.assessed);
    let failing = |kg: f64| {
        let mut flight = planned.clone();
        flight.landing = None;
        flight.uncertainty = planned.uncertainty.clone();
        let plan = flight.take_off.as_mut().expect("planned");
        plan.mass = plan.mass.take().map(|given| given.map(|_| tonnes(kg / 1000.0)));
        let found = drawn(&flight, 256, 5);
        let of_take_off = found.limits.iter().filter(|one| one.moving == Some(Moving::TakeOff));
        of_take_off.filter_map(|one| Some(one.exceeded?.share.si())).collect::<Vec<f64>>()
    };
    // The touchdown axis is gone with the landing, so the draws are others; the
    // share may stray by its own scatter: three deviations of 5 % of 256. Any one
    // limit is exceeded at most as often as one of them is, all together at least.
    assert!(failing(held.si()).iter().all(|share| *share <= 0.05 + 0.041));
    if Some(held) < take_off.assessed {
        assert!(failing(held.si() + 1500.0).iter().sum::<f64>() > 0.05);
    }
}

#[test]
fn more_certainty_asked_for_and_more_doubt_never_carry_more() {
    let mut flight = flight(&[]);
    let at = |flight: &Flight| {
        let found = drawn(flight, 256, 2);
        found.masses.iter().map(|mass| mass.held.map_or(0.0, Quantity::si)).collect::<Vec<_>>()
    };
    let usual = at(&flight);
    flight.uncertainty.level = Some(Given::stated("uncertainty.level", ratio(0.99)));
    let surer = at(&flight);
    assert!(surer.iter().zip(&usual).all(|(surer, usual)| surer <= usual), "{surer:?} {usual:?}");
    flight.uncertainty.level = None;
    flight.uncertainty.mass = Some(Given::stated("uncertainty.mass", ratio(0.04)));
    let looser = at(&flight);
    assert!(looser.iter().zip(&usual).all(|(looser, usual)| looser < usual), "{looser:?}");
}

#[test]
fn a_level_below_the_least_is_not_taken() {
    let mut flight = flight(&[]);
    flight.uncertainty.level = Some(Given::stated("uncertainty.level", ratio(0.5)));
    assert!((drawn(&flight, 128, 1).level.si() - 0.95).abs() < 1e-12);
}

#[test]
fn no_certainty_mends_what_the_assessment_fails() {
    let mut flight = flight(&[]);
    let plan = flight.take_off.as_mut().expect("planned");
    plan.mass = plan.mass.take().map(|given| given.map(|_| tonnes(60.0)));
    let found = drawn(&flight, 128, 1);
    assert_eq!(assess(&flight).answer.verdict, Verdict::Fail);
    assert_eq!((found.assessed, found.verdict), (Verdict::Fail, Verdict::Fail));
}

#[test]
fn the_command_writes_text_json_that_fits_its_schema_and_a_page() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in changed_files(&[]) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let hardpan = || Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1");
    let path = folder.path().join("flight.toml").to_string_lossy().into_owned();
    let page = folder.path().join("sure.pdf").to_string_lossy().into_owned();
    let run = |more: &[&str]| {
        let all = [&["confidence", path.as_str(), "--draws", "128"], more].concat();
        hardpan().args(all).output().expect("it runs")
    };
    let json = run(&["--json", "--sheet", &page]);
    let document: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
    let schema = hardpan().args(["schema", "confidence"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let faults: Vec<String> = validator.iter_errors(&document).map(|e| e.to_string()).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    assert!(std::fs::read(&page).expect("written").starts_with(b"%PDF"));
    let text = run(&["--units", "imperial"]);
    let text = String::from_utf8_lossy(&text.stdout).into_owned();
    for wanted in ["Largest masses", "lb", "Which measurement", "Absence of data is never a pass."]
    {
        assert!(text.contains(wanted), "{wanted} is not in\n{text}");
    }
    assert_eq!(run(&["--draws", "5"]).status.code(), Some(2));
}
