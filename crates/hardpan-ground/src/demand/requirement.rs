//! How strong must the ground be at every depth under one kind of leg?
//!
//! Leg, tyre pressure and coverages → [`RequirementTable`], which answers for
//! any depth and leg load at once. The upper 150 mm is held to the requirement
//! under 150 mm of cover; everything below to that at its own depth.
//!
//! Published together, the equivalent wheel and the criterion ask a little
//! less of deep ground when the contact circle shrinks. That would let more
//! tyre pressure help; here the greatest of all wider circles counts instead,
//! up to 5 % more for two wheels and 11 % for six, at few coverages only.

use crate::demand::unsurfaced::{
    FEWEST_COVERAGES, MOST_COVERAGES, STRENGTH_PA, cover_term, factor,
};
use crate::error::positive;
use crate::wheel::equivalent_loads::DEEPEST_M;
use crate::wheel::tyre::contact_area;
use crate::{EquivalentLoads, Error};
use hardpan_model::{Caveat, Source, Tier};
use hardpan_quantity::{BearingRatio, Force, Length, Pressure, Quantity};
use std::f64::consts::PI;

/// Cover for which the top of the ground is judged, metres: the strength of
/// the top six inches.
pub const NOMINAL_COVER_M: f64 = 0.150;

/// Where [`NOMINAL_COVER_M`] comes from.
pub const NOMINAL_COVER_SOURCE: Source =
    Source::new("", "the top six inches are tested and judged as one", Tier::CommonPractice);

/// Bearing ratio needed by depth and leg load, for one leg, pressure and
/// number of coverages.
#[derive(Debug, Clone, PartialEq)]
pub struct RequirementTable {
    loads: EquivalentLoads,
    pressure: f64,
    coverages: f64,
    factor: f64,
}

/// The depth whose requirement holds at a depth.
pub(crate) fn judged_depth(depth: f64) -> f64 {
    depth.clamp(NOMINAL_COVER_M, DEEPEST_M)
}

impl RequirementTable {
    /// The requirement of a leg at a tyre pressure for a number of coverages.
    ///
    /// Fewer than 10 coverages count as 10: the criterion is not to be
    /// extrapolated to less. See [`Self::caveats`]. When pressures are
    /// compared, use one number of coverages, that of the widest contact area.
    ///
    /// # Errors
    /// [`Error::NotPositive`] for a pressure or coverages that are not above zero.
    pub fn new(loads: &EquivalentLoads, pressure: Pressure, coverages: f64) -> Result<Self, Error> {
        let pressure = positive("pressure of the tyres", "Pa", pressure.si())?;
        let coverages = positive("coverages", "", coverages)?;
        let factor = factor(coverages.max(FEWEST_COVERAGES));
        Ok(Self { loads: loads.clone(), pressure, coverages, factor })
    }

    /// The same requirement at another pressure; none unless it is above zero.
    pub(crate) fn at_pressure(&self, pressure: f64) -> Option<Self> {
        (pressure > 0.0 && pressure.is_finite()).then(|| Self { pressure, ..self.clone() })
    }

    /// Tyre pressure.
    #[must_use]
    pub fn pressure(&self) -> Pressure {
        Pressure::from_si(self.pressure)
    }

    /// Coverages used: those asked for, at least 10.
    #[must_use]
    pub fn coverages(&self) -> f64 {
        self.coverages.max(FEWEST_COVERAGES)
    }

    /// Bearing ratio that the ground must be credited with at a depth, per
    /// cent. It rises with the load and does not rise with depth; below 6 m it is
    /// that at 6 m. A load that
    /// is not above zero needs none; a load or depth that is not a number
    /// gives infinity, which nothing meets.
    #[must_use]
    pub fn needed(&self, depth: Length, leg_load: Force) -> BearingRatio {
        BearingRatio::from_si(self.needed_si(depth.si(), leg_load.si()))
    }

    pub(crate) fn needed_si(&self, depth: f64, leg_load: f64) -> f64 {
        if depth.is_nan() || leg_load.is_nan() || leg_load == f64::INFINITY {
            return f64::INFINITY;
        }
        if leg_load <= 0.0 {
            return 0.0;
        }
        let depth = judged_depth(depth);
        let wheel = leg_load / f64::from(self.loads.leg().wheels());
        let square = contact_area(wheel, self.pressure) / PI;
        let cover = cover_term(depth, self.factor);
        wheel / (STRENGTH_PA * self.loads.resistance(depth, cover, square))
    }

    /// Depth at which the requirement has fallen to `bearing_ratio`, not less
    /// than the nominal cover; none when it has not by 6 m.
    #[must_use]
    pub fn depth_of(&self, bearing_ratio: BearingRatio, leg_load: Force) -> Option<Length> {
        let (wanted, load) = (bearing_ratio.percent(), leg_load.si());
        let falls = |depth: f64| self.needed_si(depth, load) <= wanted;
        if falls(NOMINAL_COVER_M) {
            return Some(Length::from_si(NOMINAL_COVER_M));
        }
        if !falls(DEEPEST_M) {
            return None;
        }
        let (mut low, mut high) = (NOMINAL_COVER_M, DEEPEST_M);
        while high - low > 1e-6 {
            let middle = 0.5 * (low + high);
            if falls(middle) { high = middle } else { low = middle }
        }
        Some(Length::from_si(high))
    }

    /// What the reader must know of the requirement.
    #[must_use]
    pub fn caveats(&self) -> Vec<Caveat> {
        let mut texts = vec![
            "the criterion knows vertical load only; braking and tight turns can break a surface \
             that it passes"
                .to_owned(),
        ];
        if self.coverages < FEWEST_COVERAGES {
            texts.push(format!(
                "{:.1} coverages are fewer than the criterion is known for; {FEWEST_COVERAGES} are used",
                self.coverages
            ));
        }
        if self.coverages > MOST_COVERAGES {
            texts.push(format!(
                "{:.0} coverages are more than the {MOST_COVERAGES} that the criterion is published for",
                self.coverages
            ));
        }
        texts.into_iter().map(|text| Caveat { text }).collect()
    }
}
