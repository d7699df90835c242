//! Figures that people can work by hand, all the way down: every step of a catalogued
//! formula and every line of arithmetic has its numbers in place of its symbols, and with
//! the digits shown it comes out.

mod support;

use hardpan_assess::{Assessment, assess, formulas};
use hardpan_model::{Formula, Step};
use hardpan_quantity::{Amount, Dimension, UnitSystem, units_of};
use hardpan_report::{OpenedStep, Produced, Report, json_text, line_gives, opened};
use std::sync::LazyLock;
use support::flight;
use support::openings::{Told, every_step, examples};

/// Formulas of which no line can be filled in, as their method is a table of the
/// sky, not a line.
const WITHOUT_A_LINE: [&str; 2] = ["sun-declination", "equation-of-time"];
/// A strength or a deflection is looked up between the entries of a table, or
/// searched until the load is the wanted one.
const OF_TABLES: f64 = 0.02;
/// What stands in a line of arithmetic.
const SIGNS: [&str; 7] = [" + ", " − ", " × ", " / ", "/", "√", "²"];
/// Rules with such signs that are no line to fill in: a method gives the result, and the
/// source beside it names the method.
const METHODS: [&str; 2] = [
    "m dV/dt = T − D − μ (W − L) − W sin s, by station, wheel brakes only",
    "heave and pitch of a rigid body, p A (v / (v − A s))ⁿ and c ṡ² in each strut, m zʳ in each \
     tyre",
];

/// Every step that the figures of the demo and of the examples open to, in both systems
/// of units.
static STEPS: LazyLock<Vec<Told>> = LazyLock::new(|| {
    let mut flights = vec![flight(&[])];
    flights.extend(examples());
    let systems = [UnitSystem::Metric, UnitSystem::Imperial];
    let of = |flight| systems.iter().flat_map(move |units| every_step(flight, *units));
    flights.iter().flat_map(of).collect()
});

fn demo() -> Assessment {
    assess(&flight(&[]))
}

fn report(assessment: &Assessment, units: UnitSystem) -> Report {
    Report::new(assessment, units, Produced::default())
}

/// Each step of a catalogued formula.
fn of_formulas() -> Vec<(&'static Told, &'static Formula)> {
    let catalogue = formulas();
    let of = |told: &'static Told| {
        let name = told.step.formula?;
        let formula = catalogue.iter().find(|formula| formula.name == name);
        Some((told, *formula.unwrap_or_else(|| panic!("{name} is in no catalogue"))))
    };
    STEPS.iter().filter_map(of).collect()
}

/// All that does not hold, each once.
fn assert_none(mut wrong: Vec<String>) {
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{} do not hold:\n{}", wrong.len(), wrong.join("\n"));
}

fn line<'s>(shown: &'s OpenedStep, label: &str) -> &'s str {
    let found = shown.lines.iter().find(|(one, _)| *one == label);
    found.map_or("", |(_, text)| text.as_str())
}

#[test]
fn every_step_of_a_formula_takes_its_arguments_in_order_and_comes_out() {
    let steps = of_formulas();
    assert!(steps.len() > 500, "{} steps by a formula", steps.len());
    let mut wrong = Vec::new();
    for (Told { of, step, .. }, formula) in steps {
        let named: Vec<_> = step.inputs.iter().filter_map(|input| input.symbol).collect();
        let wanted: Vec<_> = formula.arguments.iter().map(|argument| argument.symbol).collect();
        if !named.starts_with(&wanted) {
            wrong.push(format!("{of}, {}: {named:?}, not {wanted:?}", formula.name));
            continue;
        }
        let amounts: Vec<Amount> = step.inputs.iter().map(|input| input.amount).collect();
        let given = &amounts[..formula.arguments.len()];
        match formula.value(given) {
            Ok(value) if (value.si - step.result.si).abs() <= OF_TABLES * value.si.abs() => {}
            other => wrong.push(format!("{of}, {}: {other:?}, {step:?}", formula.name)),
        }
    }
    assert_none(wrong);
}

#[test]
fn every_step_of_a_formula_shows_its_numbers_with_units() {
    let mut wrong = Vec::new();
    for (Told { of, shown, .. }, formula) in of_formulas() {
        let numbers = line(shown, "numbers");
        if WITHOUT_A_LINE.contains(&formula.name) {
            assert!(numbers.starts_with("no line to fill in"), "{numbers}");
            continue;
        }
        for argument in formula.arguments {
            let told = told(shown, argument.symbol);
            let number = told.split([' ', '°']).next().expect("a number");
            if !numbers.contains(&format!("({number}")) {
                let name = formula.name;
                wrong.push(format!("{of}, {name}: {} = {told} not in {numbers}", argument.symbol));
            }
        }
    }
    assert_none(wrong);
}

/// Value and what follows it of the input that a symbol stands for.
fn told<'s>(shown: &'s OpenedStep, symbol: &str) -> &'s str {
    let lead = format!("{symbol} = ");
    let of_inputs = shown.lines.iter().filter(|(label, _)| *label == "with");
    let mut told = of_inputs.filter_map(|(_, text)| text.strip_prefix(&lead));
    told.next().unwrap_or_else(|| panic!("no input is told as {symbol}: {shown:?}"))
}

/// The amount that a text begins with, and the decimals it has.
fn read(text: &str, dimension: Dimension) -> (f64, f64) {
    let is_of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '\u{a0}' | '−');
    let end = text.find(|c| !is_of_number(c)).unwrap_or(text.len());
    let (number, rest) = text.split_at(end);
    let number = number.replace('\u{a0}', "").replace('−', "-");
    let decimals = number.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    let value: f64 = number.parse().unwrap_or_else(|_| panic!("{text} begins with no number"));
    let rest = rest.trim_start();
    let is_unit = |unit: &&hardpan_quantity::Unit| {
        rest.strip_prefix(unit.symbol)
            .is_some_and(|after| !after.starts_with(char::is_alphanumeric))
    };
    let unit = units_of(dimension).iter().filter(is_unit).max_by_key(|unit| unit.symbol.len());
    let (factor, offset) = unit.map_or((1.0, 0.0), |unit| (unit.factor, unit.offset));
    (value * factor + offset, 10_f64.powi(-(decimals as i32)) * factor)
}

/// The answer that a step shows, and its last digit.
fn answer(Told { step, shown, .. }: &Told) -> (f64, f64) {
    let (_, answer) = shown.title.rsplit_once(" = ").expect("an answer");
    read(answer, step.result.dimension)
}

/// A reader with the digits on the page, and no others, gets the answer on the page.
#[test]
fn the_digits_shown_give_the_answer_shown_within_its_last_digit() {
    let mut wrong = Vec::new();
    for (one, formula) in of_formulas() {
        let Told { of, step, shown } = one;
        let read = |argument: &hardpan_model::Argument| {
            read(told(shown, argument.symbol), argument.dimension).0
        };
        let values: Vec<f64> = formula.arguments.iter().map(read).collect();
        let by_hand = (formula.evaluate)(&values);
        let given: Vec<f64> = step.inputs.iter().map(|input| input.amount.si).collect();
        let exact = (formula.evaluate)(&given[..formula.arguments.len()]);
        let (answer, last_digit) = answer(one);
        let away = (by_hand - answer).abs();
        if away > 1.01 * last_digit + (exact - step.result.si).abs() {
            let name = formula.name;
            wrong.push(format!("{of}, {name}: {by_hand} by hand, {answer} shown, {shown:?}"));
        }
    }
    assert_none(wrong);
}

/// Each input that stands in a line, with what the text shows of it.
fn amounts_shown(step: &Step, shown: &OpenedStep) -> Vec<Amount> {
    let told = shown.lines.iter().filter(|(label, _)| *label == "with").map(|(_, text)| text);
    let of = |(input, told): (&hardpan_model::BasisInput, &String)| {
        let dimension = input.amount.dimension;
        let value = |symbol: &str| told.strip_prefix(&format!("{symbol} = ")).expect("a symbol");
        let read = |symbol| read(value(symbol), dimension).0;
        Amount::new(dimension, input.symbol.map_or(input.amount.si, read))
    };
    step.inputs.iter().zip(told).map(of).collect()
}

/// A line of arithmetic has its numbers in place; what goes in gives what is told, and so
/// do the digits shown.
#[test]
fn every_line_of_arithmetic_comes_out_with_the_digits_shown() {
    let has_symbols =
        |step: &Step| step.formula.is_none() && step.inputs.iter().any(|one| one.symbol.is_some());
    let mut wrong = Vec::new();
    let mut lines = 0;
    for one in STEPS.iter().filter(|one| has_symbols(&one.step)) {
        let Told { of, step, shown } = one;
        lines += 1;
        let exact: Vec<Amount> = step.inputs.iter().map(|input| input.amount).collect();
        let (answer, last_digit) = answer(one);
        let given = line_gives(step, &exact).map(|amount| amount.si);
        let by_hand = line_gives(step, &amounts_shown(step, shown)).map(|amount| amount.si);
        let is_right = |value: f64, off: f64| (value - answer).abs() <= 1.01 * last_digit + off;
        let exactly = |value: f64| (value - step.result.si).abs() <= 1e-9 * value.abs().max(1e-3);
        let holds = given.is_some_and(exactly) && by_hand.is_some_and(|one| is_right(one, 0.0));
        if !holds || !line(shown, "numbers").contains('(') {
            let rule = &step.expression;
            let exact = step.result.si;
            wrong.push(format!("{of}: {rule}: {given:?}, not {exact}; {by_hand:?} of {shown:?}"));
        }
    }
    assert!(lines > 500, "{lines} lines of arithmetic");
    assert_none(wrong);
}

/// No sum, product or quotient stands in a rule as words alone.
#[test]
fn no_line_of_arithmetic_stands_without_its_numbers() {
    let is_line = |step: &Step| {
        let (line, _) = step.expression.split_once(';').unwrap_or((&step.expression, ""));
        SIGNS.iter().any(|sign| line.contains(sign))
    };
    let is_method = |step: &Step| METHODS.contains(&step.expression.as_str());
    let bare = STEPS.iter().filter(|one| line(&one.shown, "numbers").is_empty());
    let bare = bare.filter(|one| is_line(&one.step) && !is_method(&one.step));
    assert_none(bare.map(|one| one.step.expression.clone()).collect());
}

/// [SMILEY-HORNE-1958] A = 2.3 D sqrt(w d): D is the deflection, d the diameter.
#[test]
fn the_symbol_of_each_input_is_told() {
    let steps = of_formulas();
    let area = steps.iter().find(|(_, formula)| formula.name == "footprint-area-smiley-horne");
    let (Told { shown, .. }, _) = area.expect("a footprint");
    assert!(told(shown, "D").contains(" deflection, "), "{shown:?}");
    assert!(told(shown, "d").contains(" tyre diameter, "), "{shown:?}");
    assert!(line(shown, "numbers").starts_with("A = 2.3 ("), "{shown:?}");
    let json: serde_json::Value =
        serde_json::from_str(&json_text(&report(&demo(), UnitSystem::Metric))).expect("JSON");
    let text = json.to_string();
    assert!(text.contains("\"symbol\":\"D\""), "no symbol is in the JSON");
}

#[test]
fn the_governing_and_limiting_checks_have_their_worked_line() {
    let found = demo();
    let report = report(&found, UnitSystem::Metric);
    let catalogue = formulas();
    for code in ["G20", "G28", "T20", "W40"] {
        let index = found.findings.iter().position(|one| one.code == code).expect(code);
        let shown = opened(&report, index, &catalogue).expect(code);
        let numbers: Vec<_> = shown.iter().map(|step| line(step, "numbers")).collect();
        assert!(numbers.iter().any(|text| text.contains('(')), "{code}: {numbers:?}");
    }
}

/// The same distance stands in several places; a distance needed is told to nobody
/// shorter than it is, and its margin is the difference of what is shown.
#[test]
fn a_distance_needed_is_the_same_everywhere_and_never_told_shorter() {
    let found = demo();
    for units in [UnitSystem::Metric, UnitSystem::Imperial] {
        let report = report(&found, units);
        for (row, shown) in found.distances.iter().zip(&report.distances) {
            let exact = Amount::from(row.needed);
            let (told, _) = read(&shown.needed, Dimension::Length);
            assert!(told >= exact.si - 1e-3, "{} is told as {told}", exact.si);
            let same = found.findings.iter().zip(&report.findings);
            for (finding, row) in same.filter(|(finding, _)| finding.value == Some(exact)) {
                assert_eq!(row.value.as_ref(), Some(&shown.needed), "{}", finding.code);
                let limit = row.limit.as_ref().expect("a limit").replace("at most ", "");
                let (limit, _) = read(&limit, Dimension::Length);
                let margin = row.margin.as_ref().expect("a margin");
                let (margin, digit) = read(margin.trim_start_matches('+'), Dimension::Length);
                assert!((limit - told - margin).abs() < 0.1 * digit, "{row:?}");
            }
        }
    }
}
