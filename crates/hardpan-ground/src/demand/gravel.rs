//! How much gravel would mend a place?
//!
//! `StrengthPoint`, requirement and leg load → thickness of gravel to lay on
//! top so that no layer below is asked for more than it is credited with, and
//! how strong that gravel must be.

use crate::RequirementTable;
use crate::demand::requirement::NOMINAL_COVER_M;
use crate::sounding::penetrometer::{credited, mean_credited_as};
use hardpan_model::StrengthPoint;
use hardpan_quantity::{BearingRatio, Force, Length, Quantity};

/// Gravel that would mend a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeededGravel {
    /// Thickness to lay on the surface as it is; zero when none is needed.
    pub thickness: Length,
    /// Top of the layer that asks for it, below the present surface.
    pub over: Length,
    /// Bearing ratio that the gravel must show in the mean of a penetrometer
    /// test, so that the part credited meets the requirement at the top.
    pub bearing_ratio: BearingRatio,
}

/// Gravel that would mend a point under a leg load: for each layer, the cover
/// that its credited strength needs less what lies over it; none where nothing
/// is known, or 6 m would not do. Ground below the known depth stays unknown.
#[must_use]
pub fn needed_thickness(
    point: &StrengthPoint,
    table: &RequirementTable,
    leg_load: Force,
) -> Option<NeededGravel> {
    let top = table.needed(Length::from_si(NOMINAL_COVER_M), leg_load);
    let bearing_ratio = mean_credited_as(top);
    let mut needed: Option<NeededGravel> = None;
    for &(depth, available) in &point.layers {
        let credited = credited(available);
        let holds = table.needed(depth, leg_load) <= credited;
        let cover = if holds { depth } else { table.depth_of(credited, leg_load)? };
        let thickness = Length::from_si((cover.si() - depth.si()).max(0.0));
        if needed.is_none_or(|most| thickness > most.thickness) {
            needed = Some(NeededGravel { thickness, over: depth, bearing_ratio });
        }
    }
    needed
}
