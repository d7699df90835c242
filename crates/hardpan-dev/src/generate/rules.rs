//! `docs/rules.md`: the catalogue of rules.

use super::markdown::{GENERATED, escaped, table};
use crate::{Problem, Workspace};
use hardpan_assess::Rule;

/// The page.
pub(super) fn page(_: &Workspace) -> Result<String, Vec<Problem>> {
    let rules = hardpan_assess::rules();
    let mut text = format!(
        "{GENERATED}\n\n# Rules\n\nEvery check that an assessment makes. A code is permanent: a \
         withdrawn one is never used again.\n\n"
    );
    let rows: Vec<Vec<String>> = rules
        .iter()
        .map(|rule| [rule.code, rule.name, rule.checks].map(escaped).to_vec())
        .collect();
    text.push_str(&table(&["code", "name", "checks"], &rows));
    for rule in rules {
        text.push_str(&section(rule));
    }
    Ok(text + &without_probability())
}

/// What `hardpan confidence` tells no probability of.
fn without_probability() -> String {
    let rows: Vec<Vec<String>> = hardpan_assess::not_drawn()
        .into_iter()
        .map(|one| {
            let rule = match one.part {
                Some(part) => format!("{}, {part}", one.name),
                None => one.name.to_owned(),
            };
            [one.code, rule.as_str(), one.because].map(escaped).to_vec()
        })
        .collect();
    format!(
        "\n# Without a probability\n\n`hardpan confidence` tells how likely each limit is \
         exceeded; of these it does not:\n\n{}",
        table(&["code", "rule", "why"], &rows)
    )
}

fn section(rule: &Rule) -> String {
    let lines = [
        ("Checks", rule.checks),
        ("Why it matters", rule.why),
        ("Limit", rule.limit),
        ("Applies", rule.applies),
    ];
    let mut text = format!("\n## {} {}\n\n", rule.code, escaped(rule.name));
    for (word, words) in lines {
        text.push_str(&format!("- **{word}:** {}\n", escaped(words)));
    }
    text + &format!("- **Source:** {}\n", escaped(&rule.source.to_string()))
}
