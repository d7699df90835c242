//! The ground that a cloud covers, as even places: what an axis is laid along.

use super::CloudInput;
use super::read::{Batch, each_batch};
use super::unit::CloudUnit;
use crate::gridding::is_noise;
use crate::{Error, PlanePoint};
use hardpan_quantity::metres;
use std::collections::BTreeSet;

/// Side of the squares that are covered or not.
const SQUARE_M: f64 = 1.0;
/// Most squares that are kept: 10 km by 200 m.
const MOST_SQUARES: usize = 2_000_000;

/// The middles of the squares of one metre with a point in them; noise and
/// withheld points do not count. `progress` is told the share that is done.
///
/// # Errors
/// [`Error`] as for reading a cloud, and for one that covers far more than a
/// strip.
pub fn cloud_footprint(
    input: Box<dyn CloudInput>,
    units: (Option<CloudUnit>, Option<CloudUnit>),
    progress: &mut dyn FnMut(f64),
) -> Result<Vec<PlanePoint>, Error> {
    let mut squares: BTreeSet<(i64, i64)> = BTreeSet::new();
    let mut some: Vec<(i64, i64)> = Vec::new();
    each_batch(input, units, progress, &mut |batch: &Batch<'_>| {
        some.clear();
        batch.each(|point, withheld| {
            if withheld || is_noise(point.class) {
                return;
            }
            let square = |place: f64| (place / SQUARE_M).floor() as i64;
            some.push((square(point.easting), square(point.northing)));
        });
        some.sort_unstable();
        some.dedup();
        squares.extend(some.iter().copied());
        if squares.len() > MOST_SQUARES {
            return Err(Error::WideCloud { most: MOST_SQUARES });
        }
        Ok(())
    })?;
    let middle = |at: i64| metres((at as f64 + 0.5) * SQUARE_M);
    let points = squares.into_iter();
    Ok(points.map(|(e, n)| PlanePoint { easting: middle(e), northing: middle(n) }).collect())
}
