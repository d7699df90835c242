//! Published worked examples step by step, with every input.

use super::markdown::{escaped, table};
use crate::cases::{Outcomes, State, Subject};
use std::collections::BTreeMap;

const OPENING: &str = "
## Worked examples

Examples that a document works out, step by step: every input as it was taken
from the page or carried over from the step before, what is printed, and what
comes out here. The tier says whether the printed answer was seen.

";

/// The section of the page.
pub(super) fn section(outcomes: &Outcomes) -> String {
    let mut examples: BTreeMap<(&str, &str), Vec<Vec<String>>> = BTreeMap::new();
    for (file, rows) in outcomes {
        for (case, row) in file.cases.iter().zip(rows) {
            let (Some(example), Subject::Formula { input, .. }) =
                (&case.worked_example, &case.subject)
            else {
                continue;
            };
            let inputs: Vec<String> = input
                .iter()
                .map(|(name, value)| format!("{} {value}", name.replace('_', " ")))
                .collect();
            let result = if row.state == State::Pass { "pass" } else { "see above" };
            let cells = [
                &case.locator,
                &inputs.join("; "),
                &row.expected,
                &row.computed,
                &format!("{} ({})", row.tolerance, case.reason),
                case.tier.words(),
                result,
            ];
            let steps = examples.entry((file.source.as_str(), example.as_str())).or_default();
            steps.push(cells.map(escaped).to_vec());
        }
    }
    let head = ["step", "inputs", "printed", "computed", "tolerance and reason", "tier", "result"];
    let mut text = OPENING.to_owned();
    for ((source, example), steps) in &examples {
        text.push_str(&format!("\n### {source}, {example}\n\n{}", table(&head, steps)));
    }
    text
}
