//! `VALIDATION.md`: every published value that is reproduced, and those missed.

use super::markdown::{GENERATED, escaped, table};
use super::published_factors;
use super::worked_examples;
use crate::cases::{CaseFile, Count, Kind, Outcome, Outcomes, State, Tier, outcomes};
use crate::{Problem, SourceList, Workspace};

const OPENING: &str = "\
# Validation

Published values that the formulas must reproduce, each with its place in its
source. *Verification* shows that a published equation is solved correctly;
*validation* that it agrees with measurements. Values from memory and facts of
the trade are counted apart: agreement with them is no evidence. How a case is
written stands in `validation/README.md`.

";

/// The page.
pub(super) fn page(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let sources = SourceList::load(workspace)?;
    let outcomes = outcomes(workspace, &hardpan_assess::formulas())?;
    let mut text = format!("{GENERATED}\n\n{OPENING}{}", counts(&outcomes));
    let mut files: Vec<&(CaseFile, Vec<Outcome>)> = outcomes.iter().collect();
    files.sort_by(|(a, _), (b, _)| (&a.source, &a.path).cmp(&(&b.source, &b.path)));
    for (file, rows) in files {
        text.push_str(&section(file, rows, &sources));
    }
    text.push_str(&worked_examples::section(&outcomes));
    text.push_str(&published_factors::section(workspace)?);
    Ok(text)
}

fn counts(outcomes: &Outcomes) -> String {
    let row = |name: &str, count: Count| {
        let figures = [count.cases, count.pass, count.miss(), count.known].map(|n| n.to_string());
        std::iter::once(name.to_owned()).chain(figures).collect::<Vec<String>>()
    };
    let evidence = |wanted: Kind| Count::of(outcomes, |k, tier| k == wanted && tier.is_evidence());
    let by_kind = [
        row("verification", evidence(Kind::Verification)),
        row("validation", evidence(Kind::Validation)),
        row("counted apart", Count::of(outcomes, |_, tier| !tier.is_evidence())),
    ];
    let by_tier = Tier::ALL.map(|t| row(t.words(), Count::of(outcomes, |_, tier| tier == t)));
    let head = |first| [first, "cases", "pass", "miss", "known disagreement"];
    table(&head("evidence"), &by_kind) + "\n" + &table(&head("tier"), &by_tier)
}

fn section(file: &CaseFile, rows: &[Outcome], sources: &SourceList) -> String {
    let mut text = match sources.entries.get(&file.source) {
        Some((_, entry)) => format!(
            "\n## {}\n\n{}, {}, {} ({}).",
            file.source,
            escaped(&entry.title),
            escaped(&entry.authors),
            escaped(&entry.year),
            entry.obtained.words()
        ),
        None if file.source.is_empty() => {
            "\n## Facts of the trade\n\nCommon practice, no source.".to_owned()
        }
        None => format!("\n## {}\n\nA source that is described nowhere.", file.source),
    };
    let kind = match file.kind {
        Kind::Verification => "Verification",
        Kind::Validation => "Validation",
    };
    text.push_str(&format!(" {kind}."));
    if let Some(uncertainty) = &file.uncertainty {
        text.push_str(&format!(" Uncertainty of the measurements: {}.", escaped(uncertainty)));
    }
    text.push_str("\n\n");
    let lines: Vec<Vec<String>> = file
        .cases
        .iter()
        .zip(rows)
        .map(|(case, row)| {
            let cells = [
                &case.id,
                &case.locator,
                case.tier.words(),
                &row.subject,
                &row.expected,
                &row.computed,
                &format!("{} ({})", row.tolerance, case.reason),
                &state(&row.state, case.known_disagreement.as_deref()),
            ];
            cells.map(escaped).to_vec()
        })
        .collect();
    let head =
        ["case", "place", "tier", "of", "expected", "computed", "tolerance and reason", "result"];
    text + &table(&head, &lines)
}

fn state(state: &State, disagreement: Option<&str>) -> String {
    match state {
        State::Pass => "pass".to_owned(),
        State::Miss(why) => format!("miss: {why}"),
        State::KnownDisagreement => {
            format!("known disagreement: {}", disagreement.unwrap_or_default())
        }
    }
}
