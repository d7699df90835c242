//! What became of the points of a cloud on the way to survey lines.

use super::AxisFrom;
use hardpan_quantity::Length;

/// How the ground was told from what stands on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GroundFrom {
    /// The file marks ground points (class 2); only they were used.
    Classes,
    /// No point was marked as ground, or the user asked for it: a filter.
    Filter,
}

/// A part of the strip without a level, by station and offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// Least station.
    pub from: Length,
    /// Greatest station.
    pub to: Length,
    /// Least offset.
    pub left: Length,
    /// Greatest offset.
    pub right: Length,
}

/// Counts and measures of a gridded point cloud.
#[derive(Debug, Clone, PartialEq)]
pub struct CloudFacts {
    /// How the axis was laid.
    pub axis: AxisFrom,
    /// How the ground was found.
    pub ground: GroundFrom,
    /// Points in the file.
    pub points: u64,
    /// Points that made up the levels.
    pub used: u64,
    /// Points beyond the ends and edges of the strip.
    pub off_strip: u64,
    /// Points left out by their class or because the file withholds them.
    pub excluded: u64,
    /// Points too far from the ground of their cell.
    pub rejected: u64,
    /// Length of a cell along the strip.
    pub cell_length: Length,
    /// Width of a cell, and distance between survey lines.
    pub cell_width: Length,
    /// Cells of the strip.
    pub cells: u64,
    /// Cells with a level of their own.
    pub measured: u64,
    /// Cells filled from their neighbours.
    pub filled: u64,
    /// Cells left out because something stands on them.
    pub objects: u64,
    /// Cells without a level: not surveyed.
    pub unsurveyed: u64,
    /// The largest holes, by falling count of cells.
    pub holes: Vec<Hole>,
    /// Standard deviation of one point about the ground of its cell.
    pub point_noise: Option<Length>,
    /// Standard deviation of one level, from that and the points in a cell.
    pub level_noise: Option<Length>,
}
