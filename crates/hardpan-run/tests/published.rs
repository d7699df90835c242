//! The published values of this crate, read from `validation/cases/run`.

use hardpan_model::Formula;
use hardpan_quantity::{Amount, Dimension, parse_amount, units_of};
use hardpan_run::FORMULAS;
use std::fs;
use std::path::Path;

/// A difference of two amounts: the offset of temperature scales drops out.
fn interval(text: &str, dimension: Dimension) -> f64 {
    let amount = parse_amount(text, dimension).expect("a tolerance").si;
    let unit = units_of(dimension).iter().find(|unit| text.ends_with(&format!(" {}", unit.symbol)));
    amount - unit.map_or(0.0, |unit| unit.offset)
}

fn miss(case: &toml::Table) -> Option<String> {
    let text = |key: &str| case.get(key).and_then(toml::Value::as_str).expect("a text");
    let formula: &Formula =
        FORMULAS.iter().find(|formula| formula.name == text("formula")).expect("a formula");
    let input = case.get("input").and_then(toml::Value::as_table).expect("an input");
    assert_eq!(input.len(), formula.arguments.len(), "arguments of {}", text("id"));
    let values: Vec<Amount> = formula
        .arguments
        .iter()
        .map(|argument| {
            let written = input.get(argument.name).and_then(toml::Value::as_str);
            let written = written.unwrap_or_else(|| panic!("{} of {}", argument.name, text("id")));
            parse_amount(written, argument.dimension).expect("an amount")
        })
        .collect();
    let found = formula.value(&values).unwrap_or_else(|error| panic!("{}: {error}", text("id")));
    let wanted = parse_amount(text("expect"), formula.result).expect("an amount").si;
    let allowed = interval(text("tolerance"), formula.result) + 1e-12 * wanted.abs();
    ((found.si - wanted).abs() > allowed)
        .then(|| format!("{}: {} instead of {wanted} ± {allowed}", text("id"), found.si))
}

#[test]
fn val_every_published_value_is_met() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../validation/cases/run");
    let mut count = 0;
    let mut misses = Vec::new();
    for entry in fs::read_dir(folder).expect("the cases") {
        let text = fs::read_to_string(entry.expect("a file").path()).expect("a file");
        let file: toml::Table = text.parse().expect("a case file");
        for case in file.get("case").and_then(toml::Value::as_array).expect("cases") {
            count += 1;
            misses.extend(miss(case.as_table().expect("a case")));
        }
    }
    assert!(count > 400, "only {count} cases were found");
    assert!(misses.is_empty(), "{}", misses.join("\n"));
}

#[test]
fn every_formula_is_named_once_and_described() {
    for (index, formula) in FORMULAS.iter().enumerate() {
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        assert!(formula.name.chars().all(plain), "{}", formula.name);
        let twins = FORMULAS.iter().filter(|other| other.name == formula.name).count();
        assert_eq!(twins, 1, "{}", formula.name);
        assert!(!formula.expression.is_empty() && !formula.scatter.is_empty());
        for argument in formula.arguments {
            assert!(argument.minimum <= argument.maximum, "{} {index}", formula.name);
        }
    }
}
