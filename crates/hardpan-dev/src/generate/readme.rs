//! The count of published values in `README.md`, between its two marks.

use crate::cases::{Count, Outcomes, Tier, outcomes};
use crate::{Problem, Workspace};

/// The file that is written.
pub(super) const FILE: &str = "README.md";
const BEGIN: &str = "<!-- validation count: written by cargo dev generate -->";
const END: &str = "<!-- end of validation count -->";

/// The page with its count as it is today.
pub(super) fn page(workspace: &Workspace) -> Result<String, Vec<Problem>> {
    let text = workspace.read(FILE).map_err(|problem| vec![problem])?;
    let outcomes = outcomes(workspace, &hardpan_assess::formulas())?;
    replaced(&text, &count(&outcomes)).ok_or_else(|| {
        vec![Problem::of_file(FILE, format!("has no lines `{BEGIN}` and `{END}`, in that order"))]
    })
}

/// The text with other words between the two marks.
#[must_use]
pub fn replaced(text: &str, words: &str) -> Option<String> {
    let (head, rest) = text.split_once(BEGIN)?;
    let (_, tail) = rest.split_once(END)?;
    Some(format!("{head}{BEGIN}\n{words}\n{END}{tail}"))
}

fn count(outcomes: &Outcomes) -> String {
    let tier = |wanted: Tier| Count::of(outcomes, |_, tier| tier == wanted);
    let evidence = Count::of(outcomes, |_, tier| tier.is_evidence());
    let all = Count::of(outcomes, |_, _| true);
    format!(
        "Formulas are held against {} values from outside: {} read in their document, {} read as\n\
         quoted, {} derived, {} computed independently. {} hold, {} miss, {} disagree for a known\n\
         reason. Counted apart, as no evidence: {} from memory, {} of common practice.",
        evidence.cases,
        tier(Tier::Published).cases,
        tier(Tier::Secondary).cases,
        tier(Tier::Derived).cases,
        tier(Tier::Oracle).cases,
        evidence.pass,
        all.miss(),
        evidence.known,
        tier(Tier::Memory).cases,
        tier(Tier::CommonPractice).cases,
    )
}
