//! One check: what, where, value, limit, margin, verdict, basis.

use crate::{Basis, Bound, Lane, Phase};
use hardpan_quantity::{Amount, Length};

/// The answer of one check or of the whole, from best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// Holds without conditions.
    Pass,
    /// Holds while the stated condition is kept.
    Conditional,
    /// Cannot be shown: data are missing, stale or outside a model's range.
    Unproven,
    /// Does not hold.
    Fail,
}

impl Verdict {
    /// The word people see.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Conditional => "conditional",
            Self::Unproven => "unproven",
            Self::Fail => "fail",
        }
    }
}

/// Whether a check bears on safety; only such a check can hold up the answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// Bears on safety.
    Safety,
    /// Worth knowing.
    Advice,
}

/// What a figure may be used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// It is, or rests only on, an approved figure that the operator entered.
    Approved,
    /// It is a fact given or measured.
    Measured,
    /// It comes from a model: planning only.
    PlanningOnly,
}

/// The limit that a value is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// Which side is allowed.
    pub bound: Bound,
    /// The limiting value.
    pub amount: Amount,
}

/// Where on the strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Lane, if it matters.
    pub lane: Option<Lane>,
}

/// What is missing for a check, and how to supply it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// The key to fill in, such as `aeroplane: mass.maximum_landing`, or what to measure.
    pub what: String,
    /// Why it is needed or how to get it.
    pub how: String,
}

/// A reason to trust a figure less.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caveat {
    /// What the reader must know.
    pub text: String,
}

/// One check with its outcome.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Permanent code of the rule, such as `G20`.
    pub code: &'static str,
    /// What was checked, in a few words; distinguishes several findings of one rule.
    pub title: String,
    /// Phase in which it matters.
    pub phase: Phase,
    /// Whether it bears on safety.
    pub weight: Weight,
    /// The answer.
    pub verdict: Verdict,
    /// The value found.
    pub value: Option<Amount>,
    /// The limit it is held against.
    pub limit: Option<Limit>,
    /// Where.
    pub place: Option<Place>,
    /// One sentence that says why, and what must be held for a conditional pass.
    pub because: String,
    /// What the crew or the strip's keeper must do, for the card.
    pub instruction: Option<String>,
    /// Approved, measured or planning only.
    pub mark: Mark,
    /// What is missing, when unproven.
    pub needs: Vec<Need>,
    /// Reasons to trust it less.
    pub caveats: Vec<Caveat>,
    /// Where the figure comes from.
    pub basis: Basis,
}

impl Finding {
    /// How far inside the limit the value lies, in the value's own unit;
    /// negative when outside.
    #[must_use]
    pub fn margin(&self) -> Option<Amount> {
        let (value, limit) = (self.value?, self.limit?);
        let inside = match limit.bound {
            Bound::AtMost => limit.amount.si - value.si,
            Bound::AtLeast => value.si - limit.amount.si,
        };
        Some(Amount::new(value.dimension, inside))
    }
}
