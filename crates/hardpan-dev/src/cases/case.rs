//! A published value, as it is written down.

use hardpan_quantity::Dimension;
use std::collections::BTreeMap;

/// One file of cases: all from one source.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseFile {
    /// Path from the root of the workspace.
    pub path: String,
    /// Key of the document; empty for facts of the trade.
    pub source: String,
    /// Verification or validation.
    pub kind: Kind,
    /// Uncertainty of the measurements, for a validation.
    pub uncertainty: Option<String>,
    /// The cases in the order of the file.
    pub cases: Vec<Case>,
}

/// What agreement with a source shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// The published equation is solved correctly.
    Verification,
    /// The equation agrees with measurements.
    Validation,
}

/// How sure the expected value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tier {
    /// Printed in the named document and read there.
    Published,
    /// Printed in the named document and read as quoted by another.
    Secondary,
    /// A closed form that follows from the stated equation.
    Derived,
    /// Computed by an independent program from the stated equation.
    Oracle,
    /// Written from memory of the document.
    Memory,
    /// A fact of the trade without a printed source.
    CommonPractice,
}

impl Tier {
    /// Every tier, the surest first.
    pub const ALL: [Self; 6] = [
        Self::Published,
        Self::Secondary,
        Self::Derived,
        Self::Oracle,
        Self::Memory,
        Self::CommonPractice,
    ];

    /// The words people see.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Secondary => "published, read as quoted",
            Self::Derived => "derived",
            Self::Oracle => "computed independently",
            Self::Memory => "from memory",
            Self::CommonPractice => "common practice, no source",
        }
    }

    /// Whether agreement counts as evidence.
    #[must_use]
    pub const fn is_evidence(self) -> bool {
        !matches!(self, Self::Memory | Self::CommonPractice)
    }
}

/// One published value.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// Name, unique in the workspace.
    pub id: String,
    /// Place in the source.
    pub locator: String,
    /// How sure the expected value is.
    pub tier: Tier,
    /// What is held against it.
    pub subject: Subject,
    /// Expected value with its unit.
    pub expect: String,
    /// Greatest difference, with its unit.
    pub tolerance: String,
    /// Why that tolerance.
    pub reason: String,
    /// The worked example that it is a step of, as its document calls it.
    pub worked_example: Option<String>,
    /// Why a miss stands, if one is known.
    pub known_disagreement: Option<String>,
}

/// What is held against the expected value.
#[derive(Debug, Clone, PartialEq)]
pub enum Subject {
    /// The value of a formula of the catalogue.
    Formula {
        /// Its name.
        name: String,
        /// Its arguments by name, with units.
        input: BTreeMap<String, String>,
    },
    /// A text read as a quantity: the check of a unit factor.
    Reading {
        /// The text.
        text: String,
        /// What it measures.
        dimension: Dimension,
    },
}
