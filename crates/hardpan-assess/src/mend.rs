//! How much of the strip is too weak, and the gravel that would mend it.

use crate::ground::{Ground, LegKind, STEP_M};
use hardpan_ground::{PointJudgement, RequirementTable, judge_point, needed_thickness};
use hardpan_quantity::{Amount, BearingRatio, Force, Length, Quantity, metres, millimetres};

/// Gravel is laid in whole steps.
pub(crate) const GRAVEL_STEP_MM: f64 = 10.0;

/// What one stretch needs.
enum Mend {
    /// So much gravel of at least this bearing ratio.
    Gravel(Length, BearingRatio),
    /// Nothing is known of a part of it.
    Sound,
    /// No thickness up to 6 m.
    Rebuild,
}

/// What to do on each stretch for the loads that come there, in words.
pub(crate) fn mends(
    ground: &Ground,
    leg: LegKind,
    table: &RequirementTable,
    loads: &[Force],
    stretches: &[(Length, Length)],
) -> String {
    let one = |&(from, to): &(Length, Length)| {
        let at = format!("from station {} to {}", shown(from), shown(to));
        match mend(ground, leg, table, loads, (from, to)) {
            Mend::Gravel(thickness, bearing) => format!(
                "lay and compact {} of gravel of at least CBR {} {at}",
                shown(thickness),
                shown(bearing)
            ),
            Mend::Sound => format!("sound the ground {at}"),
            Mend::Rebuild => format!("rebuild the ground {at}: no thickness of gravel would do"),
        }
    };
    let parts: Vec<String> = stretches.iter().map(one).collect();
    format!("for the planned load: {}", parts.join("; "))
}

fn mend(
    ground: &Ground,
    leg: LegKind,
    table: &RequirementTable,
    loads: &[Force],
    (from, to): (Length, Length),
) -> Mend {
    let mut most = (0.0_f64, BearingRatio::from_si(0.0));
    let mut mend = None;
    for (_, index, point) in ground.points(leg) {
        let Some(load) = loads.get(index).copied() else { return Mend::Sound };
        let inside = point.station >= from && point.station <= to;
        let judged = judge_point(point, table, load);
        if !inside || judged.holds() {
            continue;
        }
        if let PointJudgement::Unknown(_) = judged {
            mend = Some(Mend::Sound);
            continue;
        }
        match needed_thickness(point, table, load) {
            Some(needed) => {
                most.0 = most.0.max(needed.thickness.si());
                if needed.bearing_ratio > most.1 {
                    most.1 = needed.bearing_ratio;
                }
            }
            None => return Mend::Rebuild,
        }
    }
    mend.unwrap_or_else(|| {
        let steps = (most.0 * 1e3 / GRAVEL_STEP_MM).ceil();
        Mend::Gravel(millimetres(steps * GRAVEL_STEP_MM), most.1)
    })
}

/// How much is too weak or unknown, and where, in words.
pub(crate) fn weak_length(stretches: &[(Length, Length)]) -> String {
    let length: f64 = stretches.iter().map(|(from, to)| (*to - *from).si() + STEP_M).sum();
    let places: Vec<String> =
        stretches.iter().map(|(from, to)| Amount::from(*from).told_to((*to).into())).collect();
    format!("{} do not hold: {}", shown(metres(length)), places.join(", "))
}

fn shown(amount: impl Into<Amount>) -> String {
    amount.into().told()
}
