//! The catalogue as a whole: names, sources, and no panic anywhere in range.

use hardpan_ground::FORMULAS;
use hardpan_model::{FormulaError, Tier};
use hardpan_quantity::Amount;
use proptest::prelude::*;
use std::collections::BTreeSet;

#[test]
fn names_are_unique_and_sources_named() {
    let names: BTreeSet<&str> = FORMULAS.iter().map(|formula| formula.name).collect();
    assert_eq!(names.len(), FORMULAS.len());
    for formula in FORMULAS {
        let named = !formula.source.key.is_empty() || formula.source.tier == Tier::CommonPractice;
        assert!(named, "{}", formula.name);
        assert!(
            formula.name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
        );
        for argument in formula.arguments {
            assert!(argument.minimum < argument.maximum, "{} {}", formula.name, argument.name);
        }
    }
}

fn inside(minimum: f64, maximum: f64, share: f64) -> f64 {
    let value = if minimum > 0.0 {
        minimum * (maximum / minimum).powf(share)
    } else {
        minimum + (maximum - minimum) * share * share
    };
    value.clamp(minimum, maximum)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn prop_every_formula_answers_or_refuses(shares in prop::collection::vec(
        prop_oneof![1 => Just(0.0), 1 => Just(1.0), 6 => 0.0f64..1.0], 12
    )) {
        for formula in FORMULAS {
            let far = formula.name.starts_with("layered");
            let values: Vec<Amount> = formula
                .arguments
                .iter()
                .zip(&shares)
                .map(|(argument, share)| {
                    let near = far && argument.name == "distance";
                    let maximum = if near { 5.0 } else { argument.maximum };
                    let value = inside(argument.minimum, maximum, *share);
                    let whole = if argument.name == "wheels" { value.round() } else { value };
                    Amount::new(argument.dimension, whole)
                })
                .collect();
            match formula.value(&values) {
                Ok(value) => prop_assert!(value.si.is_finite()),
                Err(error) => prop_assert!(
                    matches!(error, FormulaError::NoValue { .. }), "{}", error
                ),
            }
        }
    }
}
