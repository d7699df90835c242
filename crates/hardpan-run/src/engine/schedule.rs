//! How much of the take-off thrust is set at which ground speed.

use crate::error::Error;
use hardpan_quantity::{Quantity, Ratio, Speed, ratio};

/// Most rows of a schedule.
const MOST_ROWS: usize = 8;

/// Share of take-off thrust by ground speed: the first share up to the first
/// speed, straight lines between, full thrust from the last speed on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThrustSchedule {
    rows: [(f64, f64); MOST_ROWS],
    count: usize,
}

impl ThrustSchedule {
    /// Full thrust from brake release on.
    #[must_use]
    pub const fn full() -> Self {
        Self { rows: [(0.0, 1.0); MOST_ROWS], count: 0 }
    }

    /// A schedule of ground speeds, rising, with the share of take-off thrust
    /// set there.
    ///
    /// # Errors
    /// [`Error`] for more than eight rows, a speed that is not above the one
    /// before or not between 0 and 150 m/s, a share outside 1 % to 100 %, or a
    /// last share below 100 %.
    pub fn new(stated: &[(Speed, Ratio)]) -> Result<Self, Error> {
        let mut schedule = Self::full();
        if stated.len() > MOST_ROWS {
            return Err(Error::ScheduleTooLong { rows: stated.len(), most: MOST_ROWS });
        }
        let mut before = f64::NEG_INFINITY;
        for (row, (speed, share)) in schedule.rows.iter_mut().zip(stated) {
            let si = Error::check("ground speed of the thrust schedule", *speed, 0.0..=150.0)?;
            let set = Error::check("share of take-off thrust", *share, 0.01..=1.0)?;
            if si <= before {
                return Err(Error::ScheduleNotRising { speed: (*speed).into() });
            }
            *row = (si, set);
            before = si;
        }
        if let Some((_, share)) = stated.last() {
            Error::check("last share of the thrust schedule", *share, 1.0..=1.0)?;
        }
        schedule.count = stated.len();
        Ok(schedule)
    }

    /// Share of take-off thrust at a ground speed.
    #[must_use]
    pub fn share(&self, ground_speed: Speed) -> Ratio {
        ratio(self.share_si(ground_speed.si()))
    }

    /// Whether full thrust is set at every speed.
    pub(crate) fn is_full(&self) -> bool {
        self.rows.iter().take(self.count).all(|(_, share)| *share == 1.0)
    }

    #[inline]
    pub(crate) fn share_si(&self, speed: f64) -> f64 {
        let mut before: Option<(f64, f64)> = None;
        for (at, share) in self.rows.iter().take(self.count) {
            if speed < *at {
                return before.map_or(*share, |(from, low)| {
                    low + (share - low) * ((speed - from) / (at - from))
                });
            }
            before = Some((*at, *share));
        }
        1.0
    }
}

impl Default for ThrustSchedule {
    fn default() -> Self {
        Self::full()
    }
}
