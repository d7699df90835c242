//! One finding as a row of strings.

use super::held::Held;
use super::needed::Needed;
use crate::measure::{amount_text, bound_word, limit_of, limit_short, place_text};
use crate::wrap::plain;
use hardpan_model::{Finding, Mark, Place, Verdict, Weight};
use hardpan_quantity::UnitSystem;

/// One finding, in the reader's units.
#[derive(Debug, Clone, PartialEq)]
pub struct FindingRow {
    /// Code of the rule.
    pub code: &'static str,
    /// What was checked.
    pub title: String,
    /// The answer.
    pub verdict: Verdict,
    /// Value found.
    pub value: Option<String>,
    /// Limit with its side.
    pub limit: Option<String>,
    /// Limit with its side as a sign, for tables.
    pub limit_short: Option<String>,
    /// Margin with its sign.
    pub margin: Option<String>,
    /// Where.
    pub place_text: Option<String>,
    /// Phase, in a word.
    pub phase: &'static str,
    /// Why.
    pub because: String,
    /// What must be done.
    pub instruction: Option<String>,
    /// What the figure may be used for, in words.
    pub mark: &'static str,
    /// Whether it bears on safety, in words.
    pub weight: &'static str,
    /// What is missing and how to supply it.
    pub needs: Vec<(String, String)>,
    /// Reasons to trust it less.
    pub caveats: Vec<String>,
    pub(crate) place: Option<Place>,
    pub(crate) units: UnitSystem,
}

impl FindingRow {
    pub(crate) fn new(finding: &Finding, units: UnitSystem, needed: &Needed) -> Self {
        let held = Held::new(finding, units, needed);
        let needs = finding.needs.iter().map(|need| (plain(&need.what), plain(&need.how)));
        Self {
            code: finding.code,
            title: plain(&finding.title),
            verdict: finding.verdict,
            limit: finding.limit.zip(held.limit.as_deref()).map(|(one, told)| limit_of(one, told)),
            limit_short: finding
                .limit
                .zip(held.limit.as_deref())
                .map(|(one, told)| limit_short(one, told)),
            value: held.value,
            margin: held.margin,
            place_text: finding.place.map(|place| place_text(place, units)),
            phase: finding.phase.word(),
            because: plain(&finding.because),
            instruction: instruction(finding, units),
            mark: mark_word(finding.mark),
            weight: weight_word(finding.weight),
            needs: needs.collect(),
            caveats: finding.caveats.iter().map(|caveat| plain(&caveat.text)).collect(),
            place: finding.place,
            units,
        }
    }
}

/// The instruction; one that ends with the side of its limit gets the limit.
fn instruction(finding: &Finding, units: UnitSystem) -> Option<String> {
    let text = plain(finding.instruction.as_deref()?);
    match finding.limit {
        Some(limit) if text.ends_with(bound_word(limit.bound)) => {
            Some(format!("{text} {}", amount_text(limit.amount, units)))
        }
        _ => Some(text),
    }
}

/// What a figure may be used for, in words.
pub(crate) const fn mark_word(mark: Mark) -> &'static str {
    match mark {
        Mark::Approved => "approved",
        Mark::Measured => "measured",
        Mark::PlanningOnly => "planning only",
    }
}

const fn weight_word(weight: Weight) -> &'static str {
    match weight {
        Weight::Safety => "bears on safety",
        Weight::Advice => "worth knowing",
    }
}
