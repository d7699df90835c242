//! `docs/formulas.md`: the catalogue of formulas.

use super::markdown::{GENERATED, code, escaped, table};
use crate::{Problem, Workspace};
use hardpan_model::{Argument, Formula};
use hardpan_quantity::{Amount, Dimension, UnitSystem, units_of};

/// The page.
pub(super) fn page(_: &Workspace) -> Result<String, Vec<Problem>> {
    let formulas = hardpan_assess::formulas();
    let mut text = format!(
        "{GENERATED}\n\n# Formulas\n\nEvery published formula that the product uses, as printed, \
         with the range for which its source\nholds. `hardpan formula NAME` evaluates one by \
         hand.\n\n"
    );
    let rows: Vec<Vec<String>> = formulas
        .iter()
        .map(|f| vec![format!("[{0}](#{0})", f.name), escaped(f.computes)])
        .collect();
    text.push_str(&table(&["name", "computes"], &rows));
    for formula in formulas {
        text.push_str(&section(formula));
    }
    Ok(text)
}

fn section(formula: &Formula) -> String {
    let rows: Vec<Vec<String>> = formula.arguments.iter().map(argument).collect();
    format!(
        "\n## {}\n\n{}.\n\n    {}\n\n{}\nGives {}. Scatter: {}.\n\nSource: {}.\n",
        formula.name,
        sentence(formula.computes),
        formula.expression.replace('\n', "\n    "),
        table(&["symbol", "argument", "kind", "from", "to"], &rows),
        kind(formula.result),
        escaped(formula.scatter.trim_end_matches('.')),
        escaped(&formula.source.to_string())
    )
}

fn argument(argument: &Argument) -> Vec<String> {
    vec![
        escaped(argument.symbol),
        code(argument.name),
        kind(argument.dimension),
        bound(argument.dimension, argument.minimum),
        bound(argument.dimension, argument.maximum),
    ]
}

fn kind(dimension: Dimension) -> String {
    match units_of(dimension).first() {
        Some(unit) => format!("{} ({})", dimension.name(), unit.symbol),
        None => dimension.name().to_owned(),
    }
}

fn bound(dimension: Dimension, si: f64) -> String {
    if si.is_infinite() {
        "no bound stated".to_owned()
    } else {
        Amount::new(dimension, si).show(UnitSystem::Metric)
    }
}

fn sentence(text: &str) -> String {
    let text = text.trim_end_matches('.');
    let mut characters = text.chars();
    let first = characters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    escaped(&(first + characters.as_str()))
}
