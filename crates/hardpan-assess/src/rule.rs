//! A rule: one check with a permanent code, and the words that explain it.

use crate::context::Context;
use hardpan_model::{Finding, Source};

/// One check. Its code is permanent; a withdrawn code is never used again.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Permanent code, such as `G20`.
    pub code: &'static str,
    /// Short name.
    pub name: &'static str,
    /// What is compared with what.
    pub checks: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// Where the limit comes from.
    pub limit: &'static str,
    /// When the rule applies.
    pub applies: &'static str,
    /// Source of the limit or the method.
    pub source: Source,
    pub(crate) judge: fn(&Context<'_>) -> Vec<Finding>,
}
