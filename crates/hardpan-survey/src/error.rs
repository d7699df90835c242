//! Why a survey gives no lines; all wording of this crate's errors.

/// Why no survey line is given.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A coordinate is not finite or lies beyond any plane frame.
    #[error(
        "{name} is {value_m} m; a coordinate of a plane frame lies between -{limit_m} m and {limit_m} m"
    )]
    CoordinateOutOfRange {
        /// Which coordinate.
        name: &'static str,
        /// Its value, metres.
        value_m: f64,
        /// Greatest size accepted, metres.
        limit_m: f64,
    },
    /// The two thresholds are too close together or too far apart for a strip.
    #[error(
        "the thresholds are {apart_m} m apart; an axis needs them {least_m} m to {most_m} m apart"
    )]
    ThresholdsApart {
        /// Distance between them, metres.
        apart_m: f64,
        /// Least accepted, metres.
        least_m: f64,
        /// Greatest accepted, metres.
        most_m: f64,
    },
    /// A setting is outside what can be gridded.
    #[error("the {name} is {value_m} m, outside {least_m} m to {most_m} m")]
    SettingOutOfRange {
        /// Setting in words.
        name: &'static str,
        /// Its value, metres.
        value_m: f64,
        /// Least allowed, metres.
        least_m: f64,
        /// Greatest allowed, metres.
        most_m: f64,
    },
    /// The cells are too small for the strip.
    #[error(
        "cells of {cell_length_m} m by {cell_width_m} m make {cells:.0} of them on this strip; at most {limit:.0} are kept: state a larger cell"
    )]
    TooManyCells {
        /// Cells asked for.
        cells: f64,
        /// Most allowed.
        limit: f64,
        /// Length of a cell, metres.
        cell_length_m: f64,
        /// Width of a cell, metres.
        cell_width_m: f64,
    },
    /// Points were read, but none lies on the strip.
    #[error(
        "no point lies on the strip of {length_m:.0} m: the points lie at stations {from_m:.0} m to {to_m:.0} m and offsets {left_m:.0} m to {right_m:.0} m from its axis; check the coordinates of the two ends, the frame and the units"
    )]
    OffTheStrip {
        /// Least station of a point, metres.
        from_m: f64,
        /// Greatest station, metres.
        to_m: f64,
        /// Least offset, metres.
        left_m: f64,
        /// Greatest offset, metres.
        right_m: f64,
        /// Length of the strip, metres.
        length_m: f64,
    },
    /// No point may count as ground.
    #[error(
        "none of the {points} points counts as ground; use all points through the filter, or have the ground classified"
    )]
    NoGroundPoint {
        /// Points read.
        points: u64,
    },
    /// Too few cells have a level.
    #[error(
        "only {covered_percent:.1} % of the cells of {cell_length_m} m by {cell_width_m} m have a level from {points} points; state a larger cell, or check that the survey covers the strip"
    )]
    TooSparse {
        /// Cells with a level, per cent.
        covered_percent: f64,
        /// Points used.
        points: u64,
        /// Length of a cell, metres.
        cell_length_m: f64,
        /// Width of a cell, metres.
        cell_width_m: f64,
    },
    /// The bytes are no point cloud.
    #[error("this is no point cloud: it does not begin with the letters LASF")]
    NotACloud,
    /// A version that is not read.
    #[error("the point cloud is of version {major}.{minor}; versions 1.0 to 1.4 are read")]
    CloudVersion {
        /// Major number.
        major: u8,
        /// Minor number.
        minor: u8,
    },
    /// A point format that is not read.
    #[error(
        "points of format {format} with {record_length} bytes are not read; formats 0 to 10 are, with their full length"
    )]
    PointFormat {
        /// Format number.
        format: u8,
        /// Length of a record, bytes.
        record_length: u16,
    },
    /// The file promises no point.
    #[error("the point cloud holds no point")]
    NoPoint,
    /// A part of the file contradicts its size.
    #[error(
        "{what} cannot be right for a file of this size; it may have been cut short: copy it again"
    )]
    CutShort {
        /// Which part.
        what: &'static str,
    },
    /// Fewer points than promised.
    #[error("the file promises {points} points and holds {held}; it was cut short: copy it again")]
    Truncated {
        /// Points promised.
        points: u64,
        /// Points there.
        held: u64,
    },
    /// The bytes contradict themselves.
    #[error("the file is damaged after {points} points: {what}")]
    Damaged {
        /// Points decoded before.
        points: u64,
        /// What is wrong.
        what: String,
    },
    /// The system refuses to read on.
    #[error("the file cannot be read on: {reason}")]
    Refused {
        /// What the system says.
        reason: String,
    },
    /// The coordinates are degrees, or geocentric.
    #[error(
        "the coordinates of the survey are not those of a plane frame; have it projected, for instance to its zone of the transverse Mercator projection"
    )]
    NotPlane,
    /// Nobody states a unit.
    #[error(
        "the {which} unit of the survey is stated neither in the file nor by the user; state it as \"m\", \"ft\" or \"ftUS\""
    )]
    UnitUnknown {
        /// Horizontal or vertical.
        which: &'static str,
    },
    /// The file and the user state different units.
    #[error(
        "the file says that its {which} unit is {file_m} m, and the user says `{user}`; one of them is wrong"
    )]
    UnitsDisagree {
        /// Horizontal or vertical.
        which: &'static str,
        /// The unit of the file, metres.
        file_m: f64,
        /// The word of the user.
        user: &'static str,
    },
    /// A place that is on no globe, or too near to a pole.
    #[error(
        "latitude {latitude_deg}°, longitude {longitude_deg}° is no place of a strip: latitudes go from -{limit_deg}° to {limit_deg}°, longitudes from -360° to 360°"
    )]
    OffTheGlobe {
        /// Latitude, degrees.
        latitude_deg: f64,
        /// Longitude, degrees.
        longitude_deg: f64,
        /// Greatest latitude accepted, degrees.
        limit_deg: f64,
    },
    /// A place that belongs to no part of the strip.
    #[error(
        "latitude {latitude_deg:.6}°, longitude {longitude_deg:.6}° lies more than {reach_km} km from the strip; check the coordinates of the two ends, and that latitude and longitude are not exchanged"
    )]
    FarFromTheStrip {
        /// Latitude, degrees.
        latitude_deg: f64,
        /// Longitude, degrees.
        longitude_deg: f64,
        /// Greatest distance, kilometres.
        reach_km: f64,
    },
    /// The projection refuses.
    #[error("the place cannot be laid on a plane: {why}")]
    Projection {
        /// What the library says.
        why: String,
    },
    /// Positions that no lines can be told from.
    #[error(
        "the positions run together from offset {left_m:.1} m to {right_m:.1} m; lines of at most {most_m} m are told apart where 0.8 m lie between them"
    )]
    NotInLines {
        /// Least offset, metres.
        left_m: f64,
        /// Greatest offset, metres.
        right_m: f64,
        /// Widest line, metres.
        most_m: f64,
    },
    /// Too few points to lay an axis along.
    #[error(
        "points stand in {sections} of the stretches of the strip; an axis is laid along at least {least}"
    )]
    NoAxis {
        /// Stretches with points.
        sections: usize,
        /// Fewest.
        least: usize,
    },
    /// The points lie along no line.
    #[error(
        "the middles of the cross-sections stand {spread_m:.1} m off any straight line; at most {most_m} m make an axis"
    )]
    AxisSpread {
        /// Standard deviation, metres.
        spread_m: f64,
        /// Greatest, metres.
        most_m: f64,
    },
    /// A cloud or a grid that does not end at the edges of the strip.
    #[error(
        "the survey covers {covered_m:.0} m across and the strip is {width_m:.0} m wide; an axis is laid along ground that ends at the edges of the strip"
    )]
    CoveredWidth {
        /// Width of the ground covered, metres.
        covered_m: f64,
        /// Width of the strip, metres.
        width_m: f64,
    },
    /// A threshold beside the middle of the ground covered.
    #[error(
        "the threshold that is given stands {aside_m:.1} m aside of the middle of the ground covered, on a strip {width_m:.0} m wide"
    )]
    ThresholdAside {
        /// Distance from the middle, metres.
        aside_m: f64,
        /// Width of the strip, metres.
        width_m: f64,
    },
    /// A cloud that covers far more than a strip.
    #[error(
        "the cloud covers more than {most} m²; an axis is laid along a cloud that was cut to the strip"
    )]
    WideCloud {
        /// Most.
        most: usize,
    },
    /// Levels side by side, of which one is the other told in feet.
    #[error(
        "at station {station_m:.1} m, offset {offset_m:.1} m the level is {level_m:.2} m and {beside_m:.2} m beside it: pieces in metres and in feet were put together"
    )]
    TwoUnits {
        /// Station of the level, metres.
        station_m: f64,
        /// Offset of it, metres.
        offset_m: f64,
        /// The level, metres if the unit were right.
        level_m: f64,
        /// The level beside it.
        beside_m: f64,
    },
    /// The points do not reach from end to end.
    #[error(
        "the points span {span_m:.1} m and the strip is {length_m:.1} m long; without a threshold they must reach from end to end"
    )]
    FittedSpan {
        /// Span, metres.
        span_m: f64,
        /// Length of the strip, metres.
        length_m: f64,
    },
    /// A grid whose size contradicts itself or memory.
    #[error(
        "a grid of {columns} by {rows} cells with {levels} levels is not read; at most {limit} cells are: have it cut to the strip"
    )]
    GridSize {
        /// Columns.
        columns: usize,
        /// Rows.
        rows: usize,
        /// Levels that stand in the file.
        levels: usize,
        /// Most cells.
        limit: usize,
    },
    /// A cell that spans no area.
    #[error("the cells of the grid span {area_m2} m² each; something is wrong with their place")]
    GridCell {
        /// Area, square metres.
        area_m2: f64,
    },
    /// The bytes are no image of levels.
    #[error("this is no grid of levels: {why}")]
    NotAGrid {
        /// What is wrong.
        why: String,
    },
}
