//! Where a point lies: from a plane frame or the globe to station and offset.

mod covered_axis;
mod fitted_axis;
mod globe_axis;
mod local_plane;
mod station_axis;

pub use covered_axis::covered_axis;
pub use fitted_axis::{AxisStart, FittedAxis, fitted_axis};
pub use globe_axis::GlobeAxis;
pub use local_plane::{Geographic, LocalPlane};
pub use station_axis::{PlanePoint, StationAxis};
