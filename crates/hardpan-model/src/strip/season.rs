//! Seasons of the ground, as the user states them.

use crate::Given;
use hardpan_quantity::Ratio;
use jiff::civil::Date;

/// A day of every year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct MonthDay {
    /// 1 to 12.
    pub month: i8,
    /// 1 to 31.
    pub day: i8,
}

impl From<Date> for MonthDay {
    fn from(date: Date) -> Self {
        Self { month: date.month(), day: date.day() }
    }
}

impl std::fmt::Display for MonthDay {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:02}-{:02}", self.month, self.day)
    }
}

/// A part of every year and the strength that the ground then has.
#[derive(Debug, Clone, PartialEq)]
pub struct Season {
    /// Name.
    pub name: Option<Given<String>>,
    /// First day.
    pub from: Given<MonthDay>,
    /// Last day; before the first where the season goes over the new year.
    pub to: MonthDay,
    /// Strength as a share of that found by the soundings.
    pub strength: Given<Ratio>,
}

impl Season {
    /// Whether a day lies in it.
    #[must_use]
    pub fn covers(&self, day: MonthDay) -> bool {
        let from = self.from.value;
        if from <= self.to { from <= day && day <= self.to } else { from <= day || day <= self.to }
    }
}
