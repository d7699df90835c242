//! Does the ground at one point carry a leg?
//!
//! `StrengthPoint` and requirement → [`PointJudgement`]: the layer that is
//! used most, or why nothing can be said. Ground below the known depth is
//! never assumed to be good.

use crate::RequirementTable;
use crate::demand::requirement::judged_depth;
use crate::sounding::penetrometer::credited;
use hardpan_model::{Need, Source, StrengthPoint, Tier};
use hardpan_quantity::{Amount, BearingRatio, Force, Length, Quantity, Ratio};

/// Ground is known deep enough where the requirement has fallen to this
/// bearing ratio, per cent.
pub const DEEP_ENOUGH_PERCENT: f64 = 3.0;
/// Ground must be known to this depth in any case, metres.
pub const LEAST_KNOWN_DEPTH_M: f64 = 0.300;
/// Where [`DEEP_ENOUGH_PERCENT`] and [`LEAST_KNOWN_DEPTH_M`] come from.
pub const DEEP_ENOUGH_SOURCE: Source =
    Source::new("", "depth to which ground must be known under a wheel", Tier::Judgement);

/// What one point asks of its governing layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointDemand {
    /// Station.
    pub station: Length,
    /// Top of the governing layer.
    pub depth: Length,
    /// Its mean bearing ratio.
    pub available: BearingRatio,
    /// The part that a decision may rest on.
    pub credited: BearingRatio,
    /// The bearing ratio needed there.
    pub needed: BearingRatio,
    /// Needed over credited; above 100 % the ground does not carry the leg.
    pub utilisation: Ratio,
}

impl PointDemand {
    /// Whether the ground carries the leg.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.utilisation.si() <= 1.0
    }
}

/// Why nothing can be said of a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum UnknownReason {
    /// No sounding lies within reach.
    NoSounding {
        /// Distance to the nearest one; infinite when there is none.
        nearest: Length,
    },
    /// The soundings end before the requirement has faded.
    TooShallow {
        /// Depth to which they went.
        known_to: Length,
        /// Depth to which they must go for this load; none when beyond 6 m.
        wanted: Option<Length>,
    },
}

/// A point of which nothing can be said.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnknownGround {
    /// Station.
    pub station: Length,
    /// Why.
    pub reason: UnknownReason,
    /// The demand on the layers that are known, all of which hold.
    pub so_far: Option<PointDemand>,
}

impl UnknownGround {
    /// What to measure.
    #[must_use]
    pub fn need(&self) -> Need {
        let show = |length: Length| Amount::from(length).told();
        let station = show(self.station);
        match self.reason {
            UnknownReason::NoSounding { nearest } if nearest.si().is_finite() => Need {
                what: format!("soundings: one at station {station}"),
                how: format!("the nearest is {} away, beyond reach", show(nearest)),
            },
            UnknownReason::NoSounding { .. } => Need {
                what: format!("soundings: one at station {station}"),
                how: "there is no sounding at all".to_owned(),
            },
            UnknownReason::TooShallow { known_to, wanted } => Need {
                what: format!("soundings: deeper at station {station}"),
                how: match wanted {
                    Some(wanted) => format!(
                        "known to {}; this load needs {} of known ground",
                        show(known_to),
                        show(wanted)
                    ),
                    None => {
                        format!("known to {}; this load reaches deeper than 6 m", show(known_to))
                    }
                },
            },
        }
    }
}

/// The outcome at one point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PointJudgement {
    /// The governing layer; it may hold or not.
    Known(PointDemand),
    /// Nothing can be said.
    Unknown(UnknownGround),
}

impl PointJudgement {
    /// Whether the ground is known to carry the leg.
    #[must_use]
    pub fn holds(&self) -> bool {
        matches!(self, Self::Known(demand) if demand.holds())
    }
}

/// Judge one point under one leg.
///
/// Each layer is held to the requirement at its top, those in the upper 150 mm
/// to that at 150 mm; the one with the greatest utilisation governs, the upper
/// among equals. The point is unknown without layers, and, where all known
/// layers hold, when they end above 300 mm or above the depth where the
/// requirement has fallen to CBR 3. A layer that does not hold fails the point
/// however little is known below.
#[must_use]
pub fn judge_point(
    point: &StrengthPoint,
    table: &RequirementTable,
    leg_load: Force,
) -> PointJudgement {
    let load = leg_load.si();
    let unknown = |reason, so_far| {
        PointJudgement::Unknown(UnknownGround { station: point.station, reason, so_far })
    };
    let mut governing: Option<PointDemand> = None;
    let mut above: Option<(f64, f64)> = None;
    for &(top, available) in &point.layers {
        let depth = judged_depth(top.si());
        let needed = match above {
            Some((same, needed)) if same == depth => needed,
            _ => table.needed_si(depth, load),
        };
        above = Some((depth, needed));
        let demand = demand(point.station, top, available, needed);
        if governing.is_none_or(|worst| demand.utilisation.si() > worst.utilisation.si()) {
            governing = Some(demand);
        }
    }
    let Some(worst) = governing else {
        return unknown(UnknownReason::NoSounding { nearest: point.nearest }, None);
    };
    if worst.holds() && !known_deep_enough(point, table, load) {
        let wanted = table
            .depth_of(BearingRatio::from_si(DEEP_ENOUGH_PERCENT), leg_load)
            .map(|depth| Length::from_si(depth.si().max(LEAST_KNOWN_DEPTH_M)));
        let reason = UnknownReason::TooShallow { known_to: point.known_to, wanted };
        return unknown(reason, Some(worst));
    }
    PointJudgement::Known(worst)
}

/// How much more than a shallower requirement is surely more than a deeper one:
/// requirements fall with depth but for rounding.
const SURELY: f64 = 1.0 + 1e-9;

/// Whether one point is known to carry a leg: what [`judge_point`] tells, found
/// sooner, as no layer is asked that has what a shallower one would need.
#[must_use]
pub fn point_carries(point: &StrengthPoint, table: &RequirementTable, leg_load: Force) -> bool {
    let load = leg_load.si();
    let (mut asked, mut enough) = (0.0, f64::INFINITY);
    for &(top, available) in &point.layers {
        let (depth, credited) = (top.si(), credited(available).percent());
        if depth >= asked && credited > 0.0 && credited >= enough * SURELY {
            continue;
        }
        let needed = table.needed_si(depth, load);
        let holds = needed / credited <= 1.0;
        if !holds {
            return false;
        }
        (asked, enough) = (depth, needed);
    }
    !point.layers.is_empty() && known_deep_enough(point, table, load)
}

fn known_deep_enough(point: &StrengthPoint, table: &RequirementTable, load: f64) -> bool {
    let known_to = point.known_to.si();
    known_to >= LEAST_KNOWN_DEPTH_M && table.needed_si(known_to, load) <= DEEP_ENOUGH_PERCENT
}

fn demand(station: Length, top: Length, available: BearingRatio, needed: f64) -> PointDemand {
    let credited = credited(available);
    let share = needed / credited.percent();
    PointDemand {
        station,
        depth: top,
        available,
        credited,
        needed: BearingRatio::from_si(needed),
        utilisation: Ratio::from_si(if share.is_nan() { f64::INFINITY } else { share }),
    }
}
