//! Where a formula, constant or limit comes from, and how sure that is.

/// How a source was obtained; the weakest decides how far a figure is trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tier {
    /// An approved manual or the operator's own document, as the user entered it.
    Approved,
    /// Read in a copy of the named document.
    Published,
    /// Read as quoted by another document.
    Secondary,
    /// Follows from textbook physics; derived here.
    Derived,
    /// Written from memory of the document; to be read before it is trusted.
    Memory,
    /// A fact of the trade without a printed source.
    CommonPractice,
    /// Our own judgement.
    Judgement,
}

impl Tier {
    /// The label people see.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Approved => "approved, as entered",
            Self::Published => "published",
            Self::Secondary => "published, read as quoted",
            Self::Derived => "derived",
            Self::Memory => "from memory",
            Self::CommonPractice => "common practice, no source",
            Self::Judgement => "judgement",
        }
    }
}

/// A citation: key of `validation/sources.toml`, place in it, and tier.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// Key in `validation/sources.toml`; empty for common practice and judgement.
    pub key: &'static str,
    /// Section, table, equation or page.
    pub locator: &'static str,
    /// How sure.
    pub tier: Tier,
}

impl Source {
    /// A citation.
    #[must_use]
    pub const fn new(key: &'static str, locator: &'static str, tier: Tier) -> Self {
        Self { key, locator, tier }
    }
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match (self.key, self.locator) {
            ("", "") => write!(f, "{}", self.tier.label()),
            ("", locator) => write!(f, "{locator} ({})", self.tier.label()),
            (key, "") => write!(f, "[{key}] ({})", self.tier.label()),
            (key, locator) => write!(f, "[{key}] {locator} ({})", self.tier.label()),
        }
    }
}
