//! Where a reported area meets the ground that a flight uses.

use crate::ground::wheel_wander;
use crate::movements::declared;
use hardpan_model::{Area, AreaOutline, AxisPoint, Direction, Flight, Given, Sounding};
use hardpan_quantity::{Length, Quantity, metres};

/// Wander on each side of the outer wheels, in standard deviations: 95 % of
/// the passes. Source: judgement.
const WANDER_DEVIATIONS: f64 = 2.0;
/// A place on the outline counts as inside. Source: stations are read to the
/// centimetre.
const EDGE_M: f64 = 0.01;

/// Stations between which something lies or runs, first and last.
pub(crate) type Stretch = (Length, Length);

/// Distance from the axis within which wheels run; none when the track of the
/// gear is not known, so that every wheel may be anywhere.
pub(crate) fn wheel_band(flight: &Flight) -> Option<Length> {
    let track = flight.aeroplane.gear.track.as_ref()?;
    Some(0.5 * track.value + WANDER_DEVIATIONS * wheel_wander(flight))
}

/// Stretches over which the flight lands and takes off: from the end where the
/// movement starts, over the longest declared distance that lies on the ground.
pub(crate) fn runs(flight: &Flight) -> Vec<Stretch> {
    let take_off = flight.take_off.as_ref().map(|plan| {
        let direction = plan.direction.as_ref().map(|given| given.value);
        run(flight, direction, |declared| vec![&declared.take_off_run, &declared.accelerate_stop])
    });
    let landing = flight.landing.as_ref().map(|plan| {
        let direction = plan.direction.as_ref().map(|given| given.value);
        run(flight, direction, |declared| vec![&declared.landing_distance])
    });
    take_off.into_iter().chain(landing).collect()
}

/// Stretches over which the flight taxis; all of the strip unless it says where.
pub(crate) fn taxi(flight: &Flight) -> Vec<Stretch> {
    match &flight.taxi {
        Some(stretches) => stretches.iter().map(|one| (one.from.value, one.to)).collect(),
        None => vec![everywhere(flight)],
    }
}

fn everywhere(flight: &Flight) -> Stretch {
    match &flight.strip.length {
        Some(length) => (metres(0.0), length.value),
        None => (metres(f64::NEG_INFINITY), metres(f64::INFINITY)),
    }
}

fn run(
    flight: &Flight,
    direction: Option<Direction>,
    distances: impl Fn(&hardpan_model::DeclaredDistances) -> Vec<&Option<Given<Length>>>,
) -> Stretch {
    let (Some(direction), Some(length)) = (direction, &flight.strip.length) else {
        return everywhere(flight);
    };
    let length = length.value;
    let longest = distances(declared(flight, direction))
        .into_iter()
        .map(|given| given.as_ref().map_or(length, |given| given.value))
        .fold(metres(0.0), Length::max);
    match direction {
        Direction::Up => (metres(0.0), longest),
        Direction::Down => (length - longest, length),
    }
}

/// First and last station of an area.
pub(crate) fn stretch_of(area: &Area) -> Stretch {
    match &area.outline {
        AreaOutline::Across { from, to } => (*from, *to),
        AreaOutline::Polygon(corners) => {
            extent(corners.iter().map(|corner| corner.station)).unwrap_or_default()
        }
    }
}

/// The part of a stretch where an area reaches into a band about the axis.
pub(crate) fn overlap(area: &Area, stretch: Stretch, band: Option<Length>) -> Option<Stretch> {
    let (first, last) = stretch;
    let corners = match &area.outline {
        AreaOutline::Across { from, to } => {
            let common = (from.max(first), to.min(last));
            return (common.0 <= common.1).then_some(common);
        }
        AreaOutline::Polygon(corners) => corners.clone(),
    };
    let station = |point: &AxisPoint| point.station.si();
    let offset = |point: &AxisPoint| point.offset.si();
    let mut kept = cut(corners, |point| station(point) - first.si());
    kept = cut(kept, |point| last.si() - station(point));
    if let Some(band) = band {
        kept = cut(kept, |point| offset(point) + band.si());
        kept = cut(kept, |point| band.si() - offset(point));
    }
    extent(kept.iter().map(|point| point.station))
}

/// The part of a polygon where `inside`, linear in the place, is not negative.
fn cut(corners: Vec<AxisPoint>, inside: impl Fn(&AxisPoint) -> f64) -> Vec<AxisPoint> {
    let mut kept = Vec::new();
    let next = corners.iter().cycle().skip(1);
    for (one, other) in corners.iter().zip(next) {
        let (a, b) = (inside(one), inside(other));
        if a >= 0.0 {
            kept.push(*one);
        }
        if (a > 0.0 && b < 0.0 || a < 0.0 && b > 0.0) && a.is_finite() && b.is_finite() {
            let share = a / (a - b);
            kept.push(AxisPoint {
                station: one.station + share * (other.station - one.station),
                offset: one.offset + share * (other.offset - one.offset),
            });
        }
    }
    kept
}

fn extent(stations: impl Iterator<Item = Length>) -> Option<Stretch> {
    stations.fold(None, |found: Option<Stretch>, station| {
        Some(found.map_or((station, station), |(from, to)| (from.min(station), to.max(station))))
    })
}

/// Whether a sounding stands inside an area.
pub(crate) fn holds(area: &Area, sounding: &Sounding) -> bool {
    let (x, y) = (sounding.station.value.si(), sounding.offset.si());
    let corners = match &area.outline {
        AreaOutline::Across { from, to } => {
            return x >= from.si() - EDGE_M && x <= to.si() + EDGE_M;
        }
        AreaOutline::Polygon(corners) => corners,
    };
    let mut within = false;
    for (one, other) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        let (ax, ay) = (one.station.si(), one.offset.si());
        let (bx, by) = (other.station.si(), other.offset.si());
        if from_side((x, y), (ax, ay), (bx, by)) <= EDGE_M {
            return true;
        }
        if (ay > y) != (by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax) {
            within = !within;
        }
    }
    within
}

/// Distance of a place from a side.
fn from_side((x, y): (f64, f64), (ax, ay): (f64, f64), (bx, by): (f64, f64)) -> f64 {
    let (dx, dy) = (bx - ax, by - ay);
    let squared = dx * dx + dy * dy;
    let along = if squared > 0.0 { ((x - ax) * dx + (y - ay) * dy) / squared } else { 0.0 };
    let along = along.clamp(0.0, 1.0);
    (x - ax - along * dx).hypot(y - ay - along * dy)
}

#[cfg(test)]
mod tests {
    use super::{cut, holds, overlap};
    use hardpan_model::{Area, AreaKind, AreaOutline, AxisPoint, Given, Hammer, Sounding};
    use hardpan_quantity::{Length, Quantity, metres};

    fn area(corners: &[(f64, f64)]) -> Area {
        let corner = |(x, y): &(f64, f64)| AxisPoint { station: metres(*x), offset: metres(*y) };
        Area {
            name: None,
            kind: Given::stated("kind", AreaKind::Soft),
            outline: AreaOutline::Polygon(corners.iter().map(corner).collect()),
            depth: None,
            sinkage: None,
            reported_on: None,
        }
    }

    fn sounding(station: f64, offset: f64) -> Sounding {
        Sounding {
            station: Given::stated("station", metres(station)),
            offset: metres(offset),
            date: None,
            hammer: Given::stated("hammer", Hammer::Standard),
            soil: None,
            readings: Vec::new(),
            refusal: false,
            moisture: None,
        }
    }

    fn met(area: &Area, band: f64) -> Option<(f64, f64)> {
        let whole = (metres(0.0), metres(1000.0));
        overlap(area, whole, Some(metres(band))).map(|(a, b): (Length, Length)| (a.si(), b.si()))
    }

    #[test]
    fn a_triangle_meets_the_band_where_its_sides_cross_it() {
        // The sides run from (100, 10) to (200, 0) and back to (300, 10).
        let triangle = area(&[(100.0, 10.0), (200.0, 0.0), (300.0, 10.0)]);
        assert_eq!(met(&triangle, 5.0), Some((150.0, 250.0)));
        assert_eq!(met(&area(&[(100.0, 10.0), (200.0, 6.0), (300.0, 10.0)]), 5.0), None);
    }

    #[test]
    fn an_area_around_the_whole_band_meets_all_of_it() {
        let wide = area(&[(-50.0, -40.0), (2000.0, -40.0), (2000.0, 40.0), (-50.0, 40.0)]);
        assert_eq!(met(&wide, 5.0), Some((0.0, 1000.0)));
    }

    #[test]
    fn a_sounding_is_inside_on_the_edge_but_not_beyond() {
        let square = area(&[(100.0, -5.0), (120.0, -5.0), (120.0, 5.0), (100.0, 5.0)]);
        assert!(holds(&square, &sounding(110.0, 0.0)));
        assert!(holds(&square, &sounding(120.0, 0.0)));
        assert!(!holds(&square, &sounding(120.5, 0.0)));
        assert!(!holds(&square, &sounding(110.0, 6.0)));
    }

    #[test]
    fn nothing_is_cut_from_nothing() {
        assert!(cut(Vec::new(), |_| 1.0).is_empty());
    }
}
