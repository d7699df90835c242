//! Collecting everything that is missing before giving up.

use hardpan_model::{Given, Need};
use hardpan_quantity::{Amount, Quantity};
use std::ops::RangeInclusive;

/// The needs found so far; a value that is missing or out of range adds one
/// and gives not-a-number, which no caller sees because needs come first.
#[derive(Debug, Default)]
pub(crate) struct Needs {
    list: Vec<Need>,
}

impl Needs {
    /// The SI value of a quantity that must be there and in range.
    pub(crate) fn quantity<Q: Quantity>(
        &mut self,
        key: &str,
        given: Option<&Given<Q>>,
        range: RangeInclusive<f64>,
        why: &str,
    ) -> f64 {
        self.number(key, given.map(|given| Amount::new(Q::DIMENSION, given.value.si())), range, why)
    }

    /// A plain coefficient that must be there and in range.
    pub(crate) fn coefficient(
        &mut self,
        key: &str,
        given: Option<&Given<f64>>,
        range: RangeInclusive<f64>,
        why: &str,
    ) -> f64 {
        self.number(key, given.map(|given| Amount::coefficient(given.value)), range, why)
    }

    /// A count that must be there and in range.
    pub(crate) fn count(
        &mut self,
        key: &str,
        given: Option<&Given<u32>>,
        range: RangeInclusive<f64>,
        why: &str,
    ) -> f64 {
        self.number(key, given.map(|given| Amount::count(f64::from(given.value))), range, why)
    }

    /// A value of any kind that must be there.
    pub(crate) fn present<T: Copy>(
        &mut self,
        key: &str,
        given: Option<&Given<T>>,
        why: &str,
    ) -> Option<T> {
        if given.is_none() {
            self.add(key, why.to_owned());
        }
        given.map(|given| given.value)
    }

    /// State a need.
    pub(crate) fn add(&mut self, key: &str, how: String) {
        self.list.push(Need { what: key.to_owned(), how });
    }

    /// The value made of `part` if nothing is missing, `part` included.
    pub(crate) fn finish_with<P, T>(
        self,
        part: Option<P>,
        make: impl FnOnce(P) -> T,
    ) -> Result<T, Vec<Need>> {
        match part {
            Some(part) if self.list.is_empty() => Ok(make(part)),
            _ => Err(self.list),
        }
    }

    /// `value` if nothing is missing.
    pub(crate) fn finish<T>(self, value: T) -> Result<T, Vec<Need>> {
        if self.list.is_empty() { Ok(value) } else { Err(self.list) }
    }

    fn number(
        &mut self,
        key: &str,
        amount: Option<Amount>,
        range: RangeInclusive<f64>,
        why: &str,
    ) -> f64 {
        let Some(amount) = amount else {
            self.add(key, why.to_owned());
            return f64::NAN;
        };
        if range.contains(&amount.si) {
            return amount.si;
        }
        let show = |si: f64| Amount::new(amount.dimension, si).show(Default::default());
        self.add(
            key,
            format!(
                "{} is outside {} to {}; {why}",
                show(amount.si),
                show(*range.start()),
                show(*range.end())
            ),
        );
        f64::NAN
    }
}
