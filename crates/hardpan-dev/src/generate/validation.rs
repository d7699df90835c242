//! `VALIDATION.md`: every published value that is reproduced, and those missed.

use super::markdown::{GENERATED, escaped, table};
use crate::cases::{CaseFile, Kind, Outcome, Outcomes, State, Tier, outcomes};
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
    Ok(text)
}

#[derive(Default)]
struct Count {
    cases: usize,
    pass: usize,
    known: usize,
}

impl Count {
    fn of<'a>(states: impl Iterator<Item = &'a State>) -> Self {
        states.fold(Self::default(), |count, state| Self {
            cases: count.cases + 1,
            pass: count.pass + usize::from(*state == State::Pass),
            known: count.known + usize::from(*state == State::KnownDisagreement),
        })
    }

    fn row(&self, name: String) -> Vec<String> {
        let miss = self.cases - self.pass - self.known;
        let figures = [self.cases, self.pass, miss, self.known].map(|n| n.to_string());
        std::iter::once(name).chain(figures).collect()
    }
}

fn counts(outcomes: &Outcomes) -> String {
    let rows = || {
        outcomes.iter().flat_map(|(file, rows)| {
            file.cases.iter().zip(rows).map(move |(case, row)| (file.kind, case.tier, &row.state))
        })
    };
    let of = |wanted: &dyn Fn(Kind, Tier) -> bool| {
        Count::of(rows().filter(|(kind, tier, _)| wanted(*kind, *tier)).map(|(_, _, s)| s))
    };
    let mut lines = vec![
        of(&|kind, tier| kind == Kind::Verification && tier.is_evidence())
            .row("verification".to_owned()),
        of(&|kind, tier| kind == Kind::Validation && tier.is_evidence())
            .row("validation".to_owned()),
        of(&|_, tier| !tier.is_evidence()).row("counted apart".to_owned()),
    ];
    let mut text = table(&["evidence", "cases", "pass", "miss", "known disagreement"], &lines);
    lines = Tier::ALL
        .iter()
        .map(|tier| of(&|_, other| other == *tier).row(tier.words().to_owned()))
        .collect();
    text.push('\n');
    text + &table(&["tier", "cases", "pass", "miss", "known disagreement"], &lines)
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
