//! How many passes the ground still carries before it gives way.

use crate::ground::{Ground, LegKind, Worst};
use crate::measured::{Known, Unavailable};
use hardpan_ground::{FEWEST_COVERAGES, MOST_COVERAGES, PointJudgement, RequirementTable};
use hardpan_math::largest_holding;
use hardpan_quantity::{Force, Pressure};

/// Width of the bracket of the search, in decades of coverages.
const TOLERANCE_DECADES: f64 = 1e-6;

/// What one kind of leg leaves.
#[derive(Debug, Clone)]
pub(crate) struct PassesLeft {
    pub(crate) leg: LegKind,
    /// Whole passes that are carried; none where the first is not.
    pub(crate) passes: f64,
    /// Coverages that they make.
    pub(crate) coverages: f64,
    /// Coverages that one pass makes.
    pub(crate) per_pass: f64,
    /// The place that gives first, and what is asked of it then; none where
    /// every number for which the criterion is published is carried.
    pub(crate) gives: Option<(Worst, RequirementTable)>,
}

/// Passes that every point under a kind of leg carries at loads and a pressure.
///
/// Searched in coverages between the fewest and the most for which the
/// criterion is published, or the number asked for where that is more.
pub(crate) fn passes_left(
    ground: &Ground,
    leg: LegKind,
    pressure: Pressure,
    loads: &[Force],
    asked: f64,
) -> Known<PassesLeft> {
    let (coverages_asked, per_pass) = ground.coverages(leg);
    let carries = |coverages: f64| {
        ground
            .requirement_after(leg, pressure, coverages)
            .is_ok_and(|table| ground.carries(leg, &table, loads))
    };
    let fewest = FEWEST_COVERAGES;
    let most = MOST_COVERAGES.max(coverages_asked);
    let asked_holds = carries(coverages_asked);
    let (low, high) = if asked_holds {
        (coverages_asked.max(fewest), most)
    } else {
        (fewest, coverages_asked.max(fewest))
    };
    let found = largest_holding(
        |decade| carries(10f64.powf(decade)),
        low.log10(),
        high.log10(),
        TOLERANCE_DECADES,
    )
    .map(|decade| 10f64.powf(decade));
    let coverages = match found {
        Some(coverages) => coverages,
        None if asked_holds => coverages_asked,
        None => 0.0,
    };
    let passes = (coverages / per_pass).floor();
    let passes = if asked_holds { passes.max(asked) } else { passes };
    let beyond = 10f64.powf(coverages.max(fewest).log10() + 2.0 * TOLERANCE_DECADES);
    let table = ground.requirement_after(leg, pressure, beyond)?;
    let worst = ground
        .worst(leg, &table, loads)
        .ok_or_else(|| Unavailable::missing("the strength of the ground", Vec::new()))?;
    if let (0.0, PointJudgement::Unknown(unknown)) = (coverages, &worst.judgement) {
        return Err(Unavailable {
            because: "part of the lane is not known deep or densely enough for this load"
                .to_owned(),
            needs: vec![unknown.need()],
        });
    }
    let gives = (!worst.judgement.holds()).then_some((worst, table));
    Ok(PassesLeft { leg, passes, coverages, per_pass, gives })
}
