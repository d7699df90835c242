//! Amounts inside sentences. A sentence is written where an assessment is made
//! and read by people with either system of units: its amounts are told in
//! both, and whoever shows the sentence keeps the reader's.

use crate::{Amount, UnitSystem, units_of};

/// Stands before an amount that is told in both systems, before the second,
/// and after it. Invisible, so that an unread sentence is still a sentence.
const MARK: char = '\u{2063}';

impl Amount {
    /// The value inside a sentence, as `172 m (564 ft)` with marks for [`tell`];
    /// a value that both systems show alike stands alone.
    #[must_use]
    pub fn told(self) -> String {
        pair(&self.show(UnitSystem::Metric), &self.show(UnitSystem::Imperial))
    }

    /// The value inside a sentence, rounded up to the digits shown: for what is needed,
    /// which is told to nobody shorter than it is. A value within a millionth of the last
    /// digit counts as that digit.
    #[must_use]
    pub fn told_no_less(self) -> String {
        self.told_rounded(|steps| (steps - 1e-6).ceil())
    }

    /// The same rounded down: for what is allowed, which is told to nobody greater than it
    /// is.
    #[must_use]
    pub fn told_no_more(self) -> String {
        self.told_rounded(|steps| (steps + 1e-6).floor())
    }

    /// Told with whole steps of the last digit shown.
    fn told_rounded(self, whole: impl Fn(f64) -> f64) -> String {
        let [metric, imperial] = [UnitSystem::Metric, UnitSystem::Imperial].map(|system| {
            let (number, unit) = self.show_parts(system);
            let decimals = number.split_once('.').map_or(0, |(_, fraction)| fraction.len());
            let (factor, offset) = units_of(self.dimension)
                .iter()
                .find(|one| one.symbol == unit)
                .map_or((1.0, 0.0), |one| (one.factor, one.offset));
            let step = factor / 10_f64.powi(i32::try_from(decimals).unwrap_or(0));
            let steps = whole((self.si - offset) / step);
            Self::new(self.dimension, steps * step + offset).show(system)
        });
        pair(&metric, &imperial)
    }

    /// The value inside a sentence with its sign, as offsets are told.
    #[must_use]
    pub fn told_signed(self) -> String {
        let sign = if self.si > 0.0 { "+" } else { "" };
        let [metric, imperial] = [UnitSystem::Metric, UnitSystem::Imperial]
            .map(|system| format!("{sign}{}", self.show(system)));
        pair(&metric, &imperial)
    }

    /// A stretch from this value to another inside a sentence, as
    /// `837–1450 m (2746–4757 ft)` with marks for [`tell`]; one value where both ends
    /// show alike.
    #[must_use]
    pub fn told_to(self, end: Self) -> String {
        let [metric, imperial] = [UnitSystem::Metric, UnitSystem::Imperial].map(|system| {
            let ((from, unit), (to, last)) = (self.show_parts(system), end.show_parts(system));
            match unit == last {
                true if from == to => format!("{to} {last}"),
                true => format!("{from}–{to} {last}"),
                false => format!("{from} {unit}–{to} {last}"),
            }
        });
        pair(&metric, &imperial)
    }
}

fn pair(metric: &str, imperial: &str) -> String {
    match metric == imperial {
        true => metric.to_owned(),
        false => format!("{MARK}{metric}{MARK} ({imperial}){MARK}"),
    }
}

/// A sentence with every amount that it tells in one system of units.
#[must_use]
pub fn tell(sentence: &str, system: UnitSystem) -> String {
    let mut parts = sentence.split(MARK);
    let mut out = parts.next().unwrap_or_default().to_owned();
    while let Some(metric) = parts.next() {
        let imperial =
            parts.next().map(|second| second.trim_start_matches(" (").trim_end_matches(')'));
        out.push_str(match (system, imperial) {
            (UnitSystem::Imperial, Some(imperial)) => imperial,
            _ => metric,
        });
        out.push_str(parts.next().unwrap_or_default());
    }
    out
}
