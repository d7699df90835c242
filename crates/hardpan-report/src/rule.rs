//! The text of a rule: what it checks, why it matters, its limit, when it
//! applies and where it comes from.

use crate::wrap::{hanging, plain};
use hardpan_assess::{CAUTION, Rule};
use serde_json::{Value, json};

/// One rule as its author documents it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RuleText<'a> {
    /// Permanent code.
    pub code: &'a str,
    /// Title.
    pub title: &'a str,
    /// Sections in order, such as `Checks`, `Why it matters`, `Limit`,
    /// `Applies when`, `Source`.
    pub sections: &'a [RuleSection<'a>],
}

/// One section of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RuleSection<'a> {
    /// Heading.
    pub heading: &'a str,
    /// Paragraphs, parted by empty lines.
    pub text: &'a str,
}

/// A rule for a person at a terminal of `width` columns; ends with a line feed.
#[must_use]
pub fn rule_text(rule: &RuleText<'_>, width: usize) -> String {
    let mut out = hanging(&format!("{}  {}", rule.code, plain(rule.title)), width, "");
    for section in rule.sections {
        out.push_str(&format!("\n{}\n", plain(section.heading)));
        for paragraph in section.text.split("\n\n").map(plain).filter(|text| !text.is_empty()) {
            out.push_str(&hanging(&paragraph, width, "  "));
        }
    }
    out
}

/// Rules for a program, as the text of a file.
#[must_use]
pub fn rules_json<'a>(rules: impl IntoIterator<Item = &'a Rule>) -> String {
    let row = |rule: &Rule| {
        json!({
            "code": rule.code, "name": rule.name, "checks": rule.checks, "why": rule.why,
            "limit": rule.limit, "applies": rule.applies, "source": rule.source.to_string(),
        })
    };
    let rows: Vec<Value> = rules.into_iter().map(row).collect();
    format!("{:#}\n", json!({ "caution": CAUTION, "rules": rows }))
}
