//! One value of a record: read from text with units, kept as text or SI number.

use crate::picture::PictureFormat;
use hardpan_model::Verdict;
use hardpan_quantity::{Length, Mass, Pressure, Quantity, parse};
use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::types::Value;

/// One value of a record. What [`Cell::write`] gives, [`Cell::read`] takes back
/// unchanged.
pub(crate) trait Cell: Sized {
    fn read(text: Option<&str>) -> Result<Self, String>;
    fn write(&self) -> Option<String>;
    fn store(&self) -> Value;
    fn restore(value: Value) -> Result<Self, String>;
}

fn needed(text: Option<&str>) -> Result<&str, String> {
    match text.map(str::trim) {
        None => Err("is not stated".to_owned()),
        Some("") => Err("nothing is written".to_owned()),
        Some(text) => Ok(text),
    }
}

fn stored_text(value: Value) -> Result<String, String> {
    match value {
        Value::Text(text) => Ok(text),
        other => Err(format!("{:?} stands where text is kept", other.data_type())),
    }
}

impl<T: Cell> Cell for Option<T> {
    fn read(text: Option<&str>) -> Result<Self, String> {
        text.map(|text| T::read(Some(text))).transpose()
    }
    fn write(&self) -> Option<String> {
        self.as_ref().and_then(Cell::write)
    }
    fn store(&self) -> Value {
        self.as_ref().map_or(Value::Null, Cell::store)
    }
    fn restore(value: Value) -> Result<Self, String> {
        match value {
            Value::Null => Ok(None),
            value => T::restore(value).map(Some),
        }
    }
}

macro_rules! text_cell {
    ($($type:ty, $read:expr;)+) => {$(
        impl Cell for $type {
            fn read(text: Option<&str>) -> Result<Self, String> {
                $read(needed(text)?)
            }
            fn write(&self) -> Option<String> {
                Some(self.to_string())
            }
            fn store(&self) -> Value {
                Value::Text(self.to_string())
            }
            fn restore(value: Value) -> Result<Self, String> {
                Self::read(Some(&stored_text(value)?))
            }
        }
    )+};
}

fn plain_text(text: &str) -> Result<String, String> {
    if text.chars().any(|c| c.is_control() && c != '\n' && c != '\t') {
        return Err("holds control characters".to_owned());
    }
    Ok(text.to_owned())
}

fn timestamp(text: &str) -> Result<Timestamp, String> {
    text.parse().map_err(|_| {
        format!("`{text}` is no date and time with its offset; write 2026-06-18T15:00Z")
    })
}

fn date(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| format!("`{text}` is no date; write 2026-06-18"))
}

text_cell! {
    Timestamp, timestamp;
    Date, date;
}

/// A text stands as it was written, its outer spaces too.
impl Cell for String {
    fn read(text: Option<&str>) -> Result<Self, String> {
        needed(text)?;
        plain_text(text.unwrap_or_default())
    }
    fn write(&self) -> Option<String> {
        Some(self.clone())
    }
    fn store(&self) -> Value {
        Value::Text(self.clone())
    }
    fn restore(value: Value) -> Result<Self, String> {
        Self::read(Some(&stored_text(value)?))
    }
}

/// A number of things, from 1 on.
impl Cell for i64 {
    fn read(text: Option<&str>) -> Result<Self, String> {
        let text = needed(text)?;
        let number = text.parse::<Self>().ok().filter(|number| *number > 0);
        number.ok_or_else(|| format!("`{text}` is no whole number from 1 on"))
    }
    fn write(&self) -> Option<String> {
        Some(self.to_string())
    }
    fn store(&self) -> Value {
        Value::Integer(*self)
    }
    fn restore(value: Value) -> Result<Self, String> {
        match value {
            Value::Integer(number) if number > 0 => Ok(number),
            _ => Err("a value stands there that is no whole number from 1 on".to_owned()),
        }
    }
}

macro_rules! quantity_cell {
    ($($type:ty, $unit:literal, $fits:expr, $wanted:literal;)+) => {$(
        impl Cell for $type {
            fn read(text: Option<&str>) -> Result<Self, String> {
                let text = needed(text)?;
                let quantity = parse::<$type>(text).map_err(|error| error.to_string())?;
                if $fits(quantity.si()) {
                    Ok(quantity)
                } else {
                    Err(format!("`{text}` must be {}", $wanted))
                }
            }
            fn write(&self) -> Option<String> {
                Some(format!("{} {}", self.si(), $unit))
            }
            fn store(&self) -> Value {
                Value::Real(self.si())
            }
            fn restore(value: Value) -> Result<Self, String> {
                match value {
                    Value::Real(si) if si.is_finite() && $fits(si) => Ok(Self::from_si(si)),
                    _ => Err(format!("a value stands there that is not {}", $wanted)),
                }
            }
        }
    )+};
}

quantity_cell! {
    Length, "m", |si: f64| si >= 0.0, "0 or more";
    Mass, "kg", |si: f64| si > 0.0, "more than 0";
    Pressure, "Pa", |si: f64| si > 0.0, "more than 0";
}

macro_rules! choice {
    ($type:ident { $($name:ident, $word:literal;)+ }) => {
        impl $type {
            /// The words for it.
            #[must_use]
            pub const fn words(self) -> &'static str {
                match self { $(Self::$name => $word,)+ }
            }
        }
        impl std::fmt::Display for $type {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.words())
            }
        }
        impl Cell for $type {
            fn read(text: Option<&str>) -> Result<Self, String> {
                match needed(text)? {
                    $($word => Ok(Self::$name),)+
                    other => Err(format!("`{other}` is none of {}", [$($word),+].join(", "))),
                }
            }
            fn write(&self) -> Option<String> {
                Some(self.to_string())
            }
            fn store(&self) -> Value {
                Value::Text(self.to_string())
            }
            fn restore(value: Value) -> Result<Self, String> {
                Self::read(Some(&stored_text(value)?))
            }
        }
    };
}

/// Landing or take-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MovementKind {
    /// A landing.
    Landing,
    /// A take-off.
    TakeOff,
}

/// Phase in which damage was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DamagePhase {
    /// On landing.
    Landing,
    /// On take-off.
    TakeOff,
    /// While taxiing.
    Taxi,
    /// Nobody can tell.
    NotKnown,
}

/// What a closure record does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClosureAction {
    /// The strip is closed.
    Closed,
    /// The strip is opened again.
    Reopened,
}

/// State of a piece of equipment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EquipmentState {
    /// Fitted and working.
    Serviceable,
    /// Fitted and not working.
    Unserviceable,
    /// Not fitted.
    Removed,
}

/// What a survey or a set of tests holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SurveyedThing {
    /// Levels.
    Levels,
    /// Penetrometer soundings.
    Soundings,
    /// Other strength tests.
    StrengthTests,
    /// Ruts.
    Ruts,
}

choice! { PictureFormat { Jpeg, "jpeg"; Png, "png"; Webp, "webp"; } }
choice! { EquipmentState {
    Serviceable, "serviceable"; Unserviceable, "unserviceable"; Removed, "removed";
} }
choice! { SurveyedThing {
    Levels, "levels"; Soundings, "soundings"; StrengthTests, "strength tests"; Ruts, "ruts";
} }
choice! { MovementKind { Landing, "landing"; TakeOff, "take-off"; } }
choice! { DamagePhase {
    Landing, "landing"; TakeOff, "take-off"; Taxi, "taxi"; NotKnown, "not known";
} }
choice! { ClosureAction { Closed, "closed"; Reopened, "reopened"; } }

impl Cell for Verdict {
    fn read(text: Option<&str>) -> Result<Self, String> {
        const ALL: [Verdict; 4] =
            [Verdict::Pass, Verdict::Conditional, Verdict::Unproven, Verdict::Fail];
        let text = needed(text)?;
        let found = ALL.into_iter().find(|verdict| verdict.word() == text);
        found.ok_or_else(|| format!("`{text}` is none of {}", ALL.map(Verdict::word).join(", ")))
    }
    fn write(&self) -> Option<String> {
        Some(self.word().to_owned())
    }
    fn store(&self) -> Value {
        Value::Text(self.word().to_owned())
    }
    fn restore(value: Value) -> Result<Self, String> {
        Self::read(Some(&stored_text(value)?))
    }
}
