//! `hardpan formula`: list the published formulas, or evaluate one by hand.

use crate::failure::Failure;
use hardpan_model::{Argument, Formula};
use hardpan_quantity::{Amount, UnitSystem, parse_amount, units_of};
use std::fmt::Write as _;

/// The text of the list, of one formula, or of its value.
pub(crate) fn run(
    name: Option<&str>,
    values: &[String],
    system: UnitSystem,
) -> Result<String, Failure> {
    let mut formulas = hardpan_assess::formulas();
    formulas.extend(hardpan_book::counting_formulas());
    let Some(name) = name else {
        return Ok(list(&formulas));
    };
    let Some(formula) = formulas.iter().find(|formula| formula.name == name) else {
        let nearest = formulas
            .iter()
            .map(|formula| (strsim::jaro_winkler(formula.name, name), formula.name))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .filter(|(likeness, _)| *likeness > 0.75)
            .map(|(_, name)| name);
        return Err(Failure::NoSuchFormula { asked: name.to_owned(), nearest });
    };
    let mut text = describe(formula, system);
    if values.is_empty() {
        return Ok(text);
    }
    let amounts = read_values(formula, values)?;
    let result =
        formula.value(&amounts).map_err(|error| Failure::Argument { what: error.to_string() })?;
    let _ = writeln!(text, "\nwith");
    for (argument, amount) in formula.arguments.iter().zip(&amounts) {
        let _ = writeln!(text, "  {} = {}", argument.name, amount.show(system));
    }
    let _ = writeln!(text, "\nresult  {}   (SI: {})", result.show(system), result.si);
    Ok(text)
}

fn list(formulas: &[&'static Formula]) -> String {
    let widest = formulas.iter().map(|formula| formula.name.len()).max().unwrap_or(0);
    let mut text = String::new();
    for formula in formulas {
        let _ = writeln!(text, "{:widest$}  {}", formula.name, formula.computes);
    }
    let _ = writeln!(
        text,
        "\n{} formulas. `hardpan formula NAME` shows one; add name=value to evaluate it.",
        formulas.len()
    );
    text
}

fn describe(formula: &Formula, system: UnitSystem) -> String {
    let mut text =
        format!("{}\n{}\n\n    {}\n\n", formula.name, formula.computes, formula.expression);
    for argument in formula.arguments {
        let _ = writeln!(
            text,
            "  {:24} {:10} {:24} {}",
            argument.name,
            argument.symbol,
            argument.dimension.name(),
            range(argument, system)
        );
    }
    let _ = writeln!(text, "  gives {}", formula.result.name());
    let _ = writeln!(text, "\nsource   {}", formula.source);
    let _ = writeln!(text, "scatter  {}", formula.scatter);
    text
}

fn range(argument: &Argument, system: UnitSystem) -> String {
    let show = |si: f64| Amount::new(argument.dimension, si).show(system);
    match (argument.minimum.is_finite(), argument.maximum.is_finite()) {
        (true, true) => format!("{} to {}", show(argument.minimum), show(argument.maximum)),
        (true, false) => format!("from {}", show(argument.minimum)),
        (false, true) => format!("up to {}", show(argument.maximum)),
        (false, false) => "any".to_owned(),
    }
}

fn read_values(formula: &Formula, values: &[String]) -> Result<Vec<Amount>, Failure> {
    let mut read: Vec<Option<Amount>> = vec![None; formula.arguments.len()];
    for value in values {
        let (name, text) = value.split_once('=').ok_or_else(|| Failure::Argument {
            what: format!("`{value}` is not of the form name=value"),
        })?;
        let index = formula.arguments.iter().position(|argument| argument.name == name);
        let Some(index) = index else {
            let known: Vec<&str> = formula.arguments.iter().map(|one| one.name).collect();
            return Err(Failure::Argument {
                what: format!(
                    "`{name}` is no argument of {}; it takes {}",
                    formula.name,
                    known.join(", ")
                ),
            });
        };
        let dimension = formula.arguments[index].dimension;
        let amount = parse_amount(text, dimension)
            .map_err(|error| Failure::Argument { what: format!("{name}: {error}") })?;
        read[index] = Some(amount);
    }
    let missing: Vec<String> = formula
        .arguments
        .iter()
        .zip(&read)
        .filter(|(_, amount)| amount.is_none())
        .map(|(argument, _)| example(argument))
        .collect();
    if missing.is_empty() {
        Ok(read.into_iter().flatten().collect())
    } else {
        Err(Failure::Argument {
            what: format!("{} still needs {}", formula.name, missing.join(" ")),
        })
    }
}

fn example(argument: &Argument) -> String {
    match units_of(argument.dimension).first() {
        Some(unit) => format!("{}=\"… {}\"", argument.name, unit.symbol),
        None => format!("{}=…", argument.name),
    }
}
