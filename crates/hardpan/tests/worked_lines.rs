//! Figures that people can work by hand: every step of a catalogued formula has
//! its numbers in place of its symbols, and with the digits shown it comes out.

mod support;

use hardpan_assess::{Assessment, assess, formulas};
use hardpan_model::{Formula, Step};
use hardpan_quantity::{Amount, Dimension, UnitSystem, units_of};
use hardpan_report::{OpenedStep, Produced, Report, opened, opened_figure};
use support::flight;

/// Formulas of which no line can be filled in, as their method is a table of the
/// sky, not a line.
const WITHOUT_A_LINE: [&str; 2] = ["sun-declination", "equation-of-time"];
/// A strength or a deflection is looked up between the entries of a table, or
/// searched until the load is the wanted one.
const OF_TABLES: f64 = 0.02;

fn demo() -> Assessment {
    assess(&flight(&[]))
}

fn report(assessment: &Assessment, units: UnitSystem) -> Report {
    Report::new(assessment, units, Produced::default())
}

/// Each step of a catalogued formula with how it is shown.
fn steps(report: &Report) -> Vec<(Step, &'static Formula, OpenedStep)> {
    let catalogue = formulas();
    let found = report.assessment();
    let findings = found.findings.iter().enumerate().flat_map(|(index, finding)| {
        let shown = opened(report, index, &catalogue).expect("a finding");
        finding.basis.steps.iter().cloned().zip(shown).collect::<Vec<_>>()
    });
    let figures = found.figures.iter().enumerate().flat_map(|(index, figure)| {
        let shown = opened_figure(report, index, &catalogue).expect("a figure");
        figure.basis.steps.iter().cloned().zip(shown).collect::<Vec<_>>()
    });
    let of_catalogue = |(step, shown): (Step, OpenedStep)| {
        let name = step.formula?;
        let formula = catalogue.iter().find(|formula| formula.name == name);
        Some((step, *formula.unwrap_or_else(|| panic!("{name} is in no catalogue")), shown))
    };
    findings.chain(figures).filter_map(of_catalogue).collect()
}

fn line<'s>(shown: &'s OpenedStep, label: &str) -> &'s str {
    let found = shown.lines.iter().find(|(one, _)| *one == label);
    found.map_or("", |(_, text)| text.as_str())
}

#[test]
fn every_step_of_a_formula_takes_its_arguments_in_order_and_comes_out() {
    let found = demo();
    let steps = steps(&report(&found, UnitSystem::Metric));
    assert!(steps.len() > 60, "{} steps by a formula", steps.len());
    for (step, formula, _) in &steps {
        let named: Vec<_> = step.inputs.iter().filter_map(|input| input.symbol).collect();
        let wanted: Vec<_> = formula.arguments.iter().map(|argument| argument.symbol).collect();
        assert!(named.starts_with(&wanted), "{}: {named:?}, not {wanted:?}", formula.name);
        let amounts: Vec<Amount> = step.inputs.iter().map(|input| input.amount).collect();
        let given = &amounts[..formula.arguments.len()];
        let value = formula.value(given).unwrap_or_else(|error| panic!("{error}"));
        let off = (value.si - step.result.si).abs();
        assert!(off <= OF_TABLES * value.si.abs(), "{}: {value:?}, {step:?}", formula.name);
    }
}

#[test]
fn every_step_of_a_formula_shows_its_numbers_with_units() {
    let found = demo();
    for units in [UnitSystem::Metric, UnitSystem::Imperial] {
        for (step, formula, shown) in steps(&report(&found, units)) {
            let numbers = line(&shown, "numbers");
            if WITHOUT_A_LINE.contains(&formula.name) {
                assert!(numbers.starts_with("no line to fill in"), "{numbers}");
                continue;
            }
            assert!(numbers.contains('('), "{}: {numbers}", formula.name);
            for argument in formula.arguments {
                let told = told(&shown, argument.symbol);
                let number = told.split([' ', '°']).next().expect("a number");
                assert!(
                    numbers.contains(&format!("({number}")),
                    "{}: {} = {told} is not in {numbers}; rule {}",
                    formula.name,
                    argument.symbol,
                    step.expression,
                );
            }
        }
    }
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

/// A reader with the digits on the page, and no others, gets the answer on the page.
#[test]
fn the_digits_shown_give_the_answer_shown_within_its_last_digit() {
    let found = demo();
    for units in [UnitSystem::Metric, UnitSystem::Imperial] {
        for (step, formula, shown) in steps(&report(&found, units)) {
            let of = |argument: &hardpan_model::Argument| {
                read(told(&shown, argument.symbol), argument.dimension).0
            };
            let values: Vec<f64> = formula.arguments.iter().map(of).collect();
            let by_hand = (formula.evaluate)(&values);
            let given: Vec<f64> = step.inputs.iter().map(|input| input.amount.si).collect();
            let exact = (formula.evaluate)(&given[..formula.arguments.len()]);
            let (_, answer) = shown.title.rsplit_once(" = ").expect("an answer");
            let (answer, last_digit) = read(answer, step.result.dimension);
            assert!(
                (by_hand - answer).abs() <= 1.01 * last_digit + (exact - step.result.si).abs(),
                "{}: {by_hand} by hand, {answer} shown, {:?}",
                formula.name,
                shown.lines,
            );
        }
    }
}

/// [SMILEY-HORNE-1958] A = 2.3 D sqrt(w d): D is the deflection, d the diameter.
#[test]
fn the_symbol_of_each_input_is_told() {
    let found = demo();
    let steps = steps(&report(&found, UnitSystem::Metric));
    let area = steps.iter().find(|(_, formula, _)| formula.name == "footprint-area-smiley-horne");
    let (_, _, shown) = area.expect("a footprint");
    assert!(told(shown, "D").contains(" deflection, "), "{shown:?}");
    assert!(told(shown, "d").contains(" tyre diameter, "), "{shown:?}");
    assert!(line(shown, "numbers").starts_with("A = 2.3 ("), "{shown:?}");
    let json: serde_json::Value =
        serde_json::from_str(&hardpan_report::json_text(&report(&found, UnitSystem::Metric)))
            .expect("JSON");
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
