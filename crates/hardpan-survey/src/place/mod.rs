//! Where a point lies: from a plane frame to station and offset.

mod station_axis;

pub use station_axis::{PlanePoint, StationAxis};
