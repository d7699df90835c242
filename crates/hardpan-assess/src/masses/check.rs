//! One limit on a mass.

use crate::assessment::MassLimit;
use crate::measured::Known;
use hardpan_quantity::{Mass, Quantity};

/// One limit: whether it holds at a mass, and by how much where that is known.
pub(crate) struct Check<'a> {
    pub(crate) code: &'static str,
    pub(crate) title: &'static str,
    /// Whether a trial is so dear that it is made only where it matters.
    pub(super) is_dear: bool,
    holds: Box<dyn Fn(Mass) -> Known<bool> + Sync + 'a>,
    margin: Option<Box<dyn Fn(Mass) -> Option<f64> + Sync + 'a>>,
}

impl<'a> Check<'a> {
    pub(crate) fn new(
        code: &'static str,
        title: &'static str,
        holds: impl Fn(Mass) -> Known<bool> + Sync + 'a,
    ) -> Self {
        Self { code, title, is_dear: false, holds: Box::new(holds), margin: None }
    }

    /// One whose trials are dear.
    pub(super) fn dear(
        code: &'static str,
        title: &'static str,
        holds: impl Fn(Mass) -> Known<bool> + Sync + 'a,
    ) -> Self {
        Self { is_dear: true, ..Self::new(code, title, holds) }
    }

    /// One that holds a value to the most that it may be: both at a mass, or none
    /// where it does not hold for want of a value.
    pub(crate) fn at_most<T: Quantity + PartialOrd>(
        code: &'static str,
        title: &'static str,
        both: impl Fn(Mass) -> Known<Option<(T, T)>> + Copy + Sync + 'a,
    ) -> Self {
        let holds = move |mass| Ok(both(mass)?.is_some_and(|(value, most)| value <= most));
        Self::new(code, title, holds).with_margin(move |mass| {
            let (value, most) = both(mass).ok()??;
            left(value.si(), most.si())
        })
    }

    /// The same with what is left to the limit, in any measure that is above 0
    /// where the limit holds, below 0 where it does not, and even in between.
    pub(crate) fn with_margin(self, margin: impl Fn(Mass) -> Option<f64> + Sync + 'a) -> Self {
        Self { margin: Some(Box::new(margin)), ..self }
    }

    /// Whether it holds at a mass; none when something is missing. What a
    /// method refuses at a mass does not hold there.
    pub(crate) fn tried(&self, mass: Mass) -> Option<bool> {
        match (self.holds)(mass) {
            Ok(holds) => Some(holds),
            Err(why) if why.needs.is_empty() => Some(false),
            Err(_) => None,
        }
    }

    /// What it allows at most.
    pub(super) fn limit(&self, mass: Option<Mass>) -> MassLimit {
        MassLimit { code: self.code, title: self.title.to_owned(), mass }
    }

    pub(crate) fn holds_at(&self, mass: Mass) -> bool {
        self.tried(mass) == Some(true)
    }

    /// What is left at a mass; none where it is not known.
    pub(crate) fn margin_at(&self, mass: Mass) -> Option<f64> {
        self.margin.as_ref().and_then(|margin| margin(mass)).filter(|margin| margin.is_finite())
    }

    /// Whether it holds, and what is left where that is known: the verdict never
    /// rests on the margin.
    pub(crate) fn judged(&self, mass: Mass) -> (Option<bool>, Option<f64>) {
        let (holds, left) = (self.tried(mass), self.margin_at(mass));
        debug_assert!(
            left.zip(holds).is_none_or(|(left, holds)| left.abs() < 1e-9 || (left > 0.0) == holds),
            "{} {}: {left:?} left, {holds:?}",
            self.code,
            self.title
        );
        (holds, left)
    }
}

/// What is left of a limit, over the limit.
pub(super) fn left(value: f64, most: f64) -> Option<f64> {
    (most > 0.0).then(|| 1.0 - value / most)
}
