//! Repairs and losses of a strip, as they change what the measures see.

use hardpan_model::StrengthLane;
use hardpan_quantity::{BearingRatio, Length, Quantity};

/// Gravel laid over a stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Gravel {
    pub(crate) from: Length,
    pub(crate) to: Length,
    pub(crate) thickness: Length,
    /// Mean bearing ratio that it must show in a penetrometer test.
    pub(crate) bearing_ratio: BearingRatio,
}

/// Lay gravel on the lanes: the layers there sink by its thickness.
pub(crate) fn lay(lanes: &mut [StrengthLane], gravel: &[Gravel]) {
    for one in gravel {
        for point in lanes.iter_mut().flat_map(|lane| &mut lane.points) {
            if point.station < one.from || point.station > one.to || point.layers.is_empty() {
                continue;
            }
            for layer in &mut point.layers {
                layer.0 += one.thickness;
            }
            point.known_to += one.thickness;
            point.layers.insert(0, (Length::default(), one.bearing_ratio));
        }
    }
}

/// Leave every layer of the lanes a share of its strength.
pub(crate) fn weaken(lanes: &mut [StrengthLane], share: f64) {
    weaken_where(lanes, share, |_| true);
}

/// Leave every layer of a stretch a share of its strength.
pub(crate) fn weaken_between(lanes: &mut [StrengthLane], from: Length, to: Length, share: f64) {
    weaken_where(lanes, share, |station| station >= from && station <= to);
}

fn weaken_where(lanes: &mut [StrengthLane], share: f64, is_meant: impl Fn(Length) -> bool) {
    let points = lanes.iter_mut().flat_map(|lane| &mut lane.points);
    for point in points.filter(|point| is_meant(point.station)) {
        for layer in &mut point.layers {
            layer.1 = BearingRatio::from_si(layer.1.si() * share);
        }
    }
}
