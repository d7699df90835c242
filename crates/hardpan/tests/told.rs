//! What is told to the crew is whole, and comes out by hand.

mod support;

use hardpan_assess::{Assessment, assess};
use hardpan_model::{Finding, Step, Verdict};
use hardpan_quantity::{Amount, Quantity, UnitSystem, celsius, psi, tell};
use hardpan_report::{Lesson, Produced, Report};
use support::{assessed, assessed_in, change, finding, flight};

const TURBOPROP: &str = "examples/04-dirt-strip-turboprop";

fn metric(text: &str) -> String {
    tell(text, UnitSystem::Metric)
}

fn report(found: &Assessment) -> Report {
    Report::new(found, UnitSystem::Metric, Produced::default())
}

fn last(finding: &Finding) -> &Step {
    finding.basis.steps.last().expect("a step")
}

#[test]
fn an_approved_speed_stands_in_the_instruction_and_among_the_conditions() {
    let found = assessed_in(TURBOPROP, &[]);
    let reverse = finding(&found, "D40").instruction.clone().expect("an instruction");
    assert!(reverse.ends_with("out of reverse by 55 kt"), "{reverse}");
    let conditions = &found.answer.conditions;
    assert!(conditions.iter().any(|one| one.contains("out of reverse by 55 kt")), "{conditions:?}");
    for one in found.findings.iter().filter(|one| one.code == "L20") {
        let (held, limit) = (one.instruction.clone().expect("told"), one.limit.expect("a limit"));
        assert!(metric(&held).ends_with(&limit.amount.show(UnitSystem::Metric)), "{held}");
    }
    let lines = report(&found).phases;
    let all: Vec<&str> =
        lines.iter().flat_map(|phase| &phase.lines).map(|line| line.text.as_str()).collect();
    assert!(all.iter().any(|line| line.ends_with("by 55 kt")), "{all:?}");
    assert!(all.iter().all(|line| line.matches("55 kt").count() < 2), "{all:?}");
}

#[test]
fn one_of_a_kind_is_told_as_one() {
    for folder in [TURBOPROP, "examples/02-short-grass-strip", "demo"] {
        let found = assessed_in(folder, &[]);
        let said = found.account.iter().map(|line| line.said.as_str());
        let all: String = said.chain(found.answer.conditions.iter().map(String::as_str)).collect();
        for wrong in ["the 1 approved", " 1 more condition", "and 1 more", "the 1 figures"] {
            assert!(!all.contains(wrong), "{wrong} in {folder}: {all}");
        }
    }
}

#[test]
fn no_rain_is_told_in_millimetres() {
    let lines = report(&assessed(&[])).turning;
    let rain = lines.iter().find(|line| line.what == "rain of an hour").expect("moved");
    assert_eq!(rain.now, "0\u{a0}mm");
}

#[test]
fn while_it_rains_no_rain_is_told_up_to_which_it_holds() {
    let found = assessed(&[change("day.toml", "\"0 mm\"", "\"20 mm\"")]);
    assert_eq!(found.answer.verdict, Verdict::Unproven);
    assert!(found.turning.points.iter().all(|point| point.what != "rain of an hour"));
}

/// An answer that is not shown to hold does not hold as far as anything.
#[test]
fn nothing_holds_in_an_answer_that_is_unproven() {
    let without = [
        change("strip.toml", "soundings = {", "# soundings = {"),
        change("strip.toml", "survey = {", "# survey = {"),
    ];
    for one in without {
        let found = assessed(&[one]);
        assert_eq!(found.answer.verdict, Verdict::Unproven);
        for point in &found.turning.points {
            let sentence = metric(&point.sentence.told());
            assert!(point.turn.is_some(), "{} is told though nothing turns it", point.what);
            assert!(sentence.starts_with("stays unproven to "), "{sentence}");
        }
    }
}

/// The approved charts of the demo end at −40 °C.
#[test]
fn it_is_told_how_cold_it_may_get() {
    let found = assessed(&[]);
    let cold = found.turning.points.iter().find(|point| point.what == "temperature, colder");
    let cold = cold.expect("it turns");
    let turn = cold.turn.as_ref().expect("it turns");
    assert_eq!((turn.verdict, turn.code), (Verdict::Unproven, "F15"));
    assert_eq!(cold.holds_to, Amount::from(celsius(-40.0)));
    assert_eq!(cold.beyond, Amount::from(celsius(-41.0)));
}

/// Kinetic energy of a mass at the speed that is told, shared by its braked wheels.
#[test]
fn brake_energy_comes_out_by_hand() {
    let found = assessed(&[]);
    for (title, mass) in
        [("brake energy, landing", 39_600.0), ("brake energy, rejected take-off", 40_400.0)]
    {
        let one = found.findings.iter().find(|one| one.title == title).expect("judged");
        let of = |name: &str| one.basis.steps.iter().find(|step| step.formula == Some(name));
        let step = of("kinetic-energy-per-brake").expect("by its formula");
        let [m, v, n] = [0, 1, 2].map(|at: usize| step.inputs[at].amount.si);
        assert!((m - mass).abs() < 1e-6 && (n - 4.0).abs() < 1e-9, "{step:?}");
        let by_hand = 0.5 * m * v * v / n;
        assert!((by_hand - step.result.si).abs() < 1.0, "{by_hand} {step:?}");
        let landing = title.ends_with("landing");
        let value = one.value.expect("a value").si;
        assert!(!landing || (value - by_hand).abs() < 1.0, "{value} {by_hand}");
    }
}

/// The gas law by hand, absolute pressures and temperatures: set as told, the tyres hold
/// what the chart of the demo asks for, by a straight line between its rows, and no more
/// than the ground carries.
#[test]
fn tyres_set_as_told_are_not_below_their_least() {
    for (landing, take_off) in
        [("39.6 t", "40.4 t"), ("41320 kg", "41460 kg"), ("37 t", "38 t"), ("40.9 t", "41.1 t")]
    {
        for (base, warmth) in [("\"6 degC\"", 6.0), ("\"4 degC\"", 4.0), ("\"-11 degC\"", -11.0)] {
            let found = assessed(&[
                change("flight.toml", "\"39.6 t\"", &format!("\"{landing}\"")),
                change("flight.toml", "\"40.4 t\"", &format!("\"{take_off}\"")),
                change("flight.toml", "\"6 degC\"", base),
            ]);
            let title = "main tyre pressure after the flight to the strip";
            let told = found.findings.iter().find(|one| one.title == title).expect("judged");
            let set = told.value.expect("a pressure").si;
            let instruction = told.instruction.clone().expect("told");
            let step = if told.caveats.len() > 1 { 0.1 } else { 1.0 };
            let steps = set / psi(step).si();
            assert!((steps - steps.round()).abs() < 1e-3, "{set} Pa are no steps of {step} psi");
            let shown = Amount::from(psi(set / psi(1.0).si())).show(UnitSystem::Imperial);
            assert!(step < 1.0 || instruction.contains(&shown), "{instruction} {shown}");
            let here = standard_pressure(60.0);
            let there = 101_300.0 * standard_pressure(284.0) / 101_325.0;
            let (tyre, table) = (&found.tyre, found.tyre.least.expect("a least").si());
            // In whole psi, and in whole kPa as the metric sheet has it.
            for as_told in [set, (set / 1000.0).round() * 1000.0] {
                let arrived = (as_told + here) * (14.0 + 273.15) / (warmth + 273.15) - there;
                assert!(arrived >= table - 60.0, "{arrived} of {table} at {landing}, {base}");
                let most = tyre.greatest.map_or(f64::INFINITY, |most| most.si());
                let over = if step < 1.0 { 0.25 * psi(1.0).si() } else { 60.0 };
                assert!(arrived <= most + over, "{arrived} of {most} at {landing}, {base}");
            }
        }
    }
}

/// Pressure of the standard atmosphere by its formula, Pa.
fn standard_pressure(height: f64) -> f64 {
    101_325.0 * (1.0 - 0.0065 * height / 288.15).powf(5.255_88)
}

/// Whoever mends the ground mends it for the level aeroplane and for the one that leans.
#[test]
fn the_next_limit_rests_on_something_else() {
    let found = assess(&flight(&[]));
    for (answer, next) in [(&found.landing_mass, "F50"), (&found.take_off_mass, "F10")] {
        let limits = &answer.as_ref().expect("planned").limits;
        let codes: Vec<&str> = limits.iter().map(|limit| limit.code).collect();
        assert_eq!(codes.get(..2), Some(&["G20", next][..]));
    }
    let lesson = Lesson::new(&report(&found), true);
    let asked = lesson.questions();
    let of_masses = |(asks, _): &&(&str, &str)| asks.starts_with("What sets the largest");
    let asked: Vec<_> = asked.iter().filter(of_masses).collect();
    assert_eq!(asked.len(), 2, "of landing and take-off");
    for (asks, answer) in asked {
        assert!(!answer.contains("G28"), "{asks} {answer}");
    }
}

/// The sun by an almanac's rules of thumb (common practice, no source): on 18 June at 57° north and 145° west it is
/// light at 15:00 UTC and dark at 09:00 UTC.
#[test]
fn daylight_is_told_with_the_height_of_the_sun() {
    let one = assessed(&[]);
    let light = finding(&one, "S80");
    assert_eq!(light.verdict, Verdict::Pass);
    assert_eq!(Some(last(light).result), light.value);
    let degrees = light.value.expect("told").si.to_degrees();
    // Declination 23.4°; 15:00 UTC is 5.3 h of solar time, an hour angle of −100°.
    let by_hand = (57.0_f64.to_radians().sin() * 23.4_f64.to_radians().sin()
        + 57.0_f64.to_radians().cos()
            * 23.4_f64.to_radians().cos()
            * (-100.25_f64).to_radians().cos())
    .asin()
    .to_degrees();
    assert!((degrees - by_hand).abs() < 0.6, "{degrees} {by_hand}");
    let mut nowhere = flight(&[]);
    nowhere.strip.climate = None;
    assert!(assess(&nowhere).findings.iter().all(|one| one.code != "S80"));
}
