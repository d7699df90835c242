//! The ground under a run, by distance from the threshold of the movement.
//!
//! Between points rolling, braking, grade and the depth of water are linear; the grade at a point
//! is the central difference of the elevations, so that its integral gives the
//! difference in height back. Beyond the first and last point the end values
//! hold. Grade is taken as the sine of the slope and the cosine as one, which
//! errs by 0.02 % of the weight at 2 %.

use crate::Error;
use crate::error::GroundFault;
use hardpan_model::{Condition, Direction};
use hardpan_quantity::{Amount, Length, Quantity};

const STEEPEST: f64 = 0.20;
const GREATEST_FRICTION: f64 = 2.0;
/// Points that follow one another within this are taken in one step of the run.
const CLOSE_POINTS_M: f64 = 4.0;
/// A point this near counts as reached.
const REACHED_M: f64 = 0.1;

/// Rolling surface ahead of the aeroplane, ready for a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    segments: Vec<Segment>,
    direction: Direction,
    length: f64,
    /// How far the threshold lies from the end of the strip.
    displaced: f64,
    surveyed: (f64, f64),
    friction: Along,
    /// First point and points per metre, where they lie equally far apart.
    even: Option<(f64, f64)>,
}

/// Whether the coefficients change along the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Along {
    Alike,
    Changing,
}

/// Values at `start` and their change per metre, up to the next segment.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Segment {
    start: f64,
    elevation: f64,
    grade: (f64, f64),
    rolling: (f64, f64),
    braking: (f64, f64),
    water: (f64, f64),
    /// Rolling and braking coefficient and depth of water integrated up to `start`.
    before: [f64; 3],
    /// Up to where all three stay as they are at `start`.
    alike_to: f64,
}

/// The surface under the aeroplane at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Local {
    pub(crate) grade: f64,
    pub(crate) rolling: f64,
    pub(crate) braking: f64,
    /// Depth of standing water, m.
    pub(crate) water: f64,
}

impl Ground {
    /// The ground for a movement in `direction` on a strip of `length`.
    ///
    /// # Errors
    /// [`Error::TooFewStations`] or [`Error::GroundPoint`] when the condition
    /// cannot carry a run.
    pub fn new(condition: &Condition, direction: Direction, length: Length) -> Result<Self, Error> {
        let length = Error::check("length of the strip", length, 1.0..=20_000.0)?;
        check(condition)?;
        let mut points: Vec<Point> = condition
            .points
            .iter()
            .map(|p| {
                let (rolling, braking) = (p.rolling.si(), p.braking.si());
                [p.station.si(), p.elevation.si(), rolling, braking, p.water.si()]
            })
            .collect();
        if direction == Direction::Down {
            points.reverse();
            for point in &mut points {
                point[0] = length - point[0];
            }
        }
        let alike = points.iter().all(|point| point[2..] == points[0][2..]);
        let friction = if alike { Along::Alike } else { Along::Changing };
        let (surveyed, even) = (ends(&points), even(&points));
        let segments = segments(&points);
        Ok(Self { surveyed, segments, direction, length, displaced: 0.0, friction, even })
    }

    /// The same ground from a threshold that lies farther along the movement.
    #[must_use]
    pub fn displaced_by(mut self, distance: Length) -> Self {
        let by = distance.si();
        for segment in &mut self.segments {
            segment.start -= by;
            segment.alike_to -= by;
        }
        self.surveyed = (self.surveyed.0 - by, self.surveyed.1 - by);
        self.even = self.even.map(|(first, per_metre)| (first - by, per_metre));
        self.displaced += by;
        self
    }

    /// Ground that is the same everywhere.
    pub(crate) fn uniform(rolling: f64, braking: f64, grade: f64) -> Self {
        let segment = Segment {
            start: 0.0,
            elevation: 0.0,
            grade: (grade, 0.0),
            rolling: (rolling, 0.0),
            braking: (braking, 0.0),
            water: (0.0, 0.0),
            before: [0.0; 3],
            alike_to: f64::INFINITY,
        };
        let surveyed = (f64::NEG_INFINITY, f64::INFINITY);
        Self {
            segments: vec![segment],
            direction: Direction::Up,
            length: 0.0,
            displaced: 0.0,
            surveyed,
            friction: Along::Alike,
            even: None,
        }
    }

    /// The least braking coefficient anywhere.
    pub(crate) fn least_braking(&self) -> f64 {
        let ends = self.segments.iter().map(|segment| segment.braking.0);
        ends.fold(f64::INFINITY, f64::min)
    }

    /// Which way the movement goes.
    #[must_use]
    pub fn direction(&self) -> Direction {
        self.direction
    }

    /// Station of a distance from the threshold of the movement.
    #[must_use]
    pub fn station(&self, distance: Length) -> Length {
        Length::from_si(self.station_si(distance.si()))
    }

    /// Whether water stands anywhere.
    pub(crate) fn has_water(&self) -> bool {
        self.segments.iter().any(|segment| segment.water.0 > 0.0)
    }

    /// Whether coefficients and water are the same everywhere.
    pub(crate) fn is_alike(&self) -> bool {
        self.friction == Along::Alike
    }

    /// How far ahead coefficients and water stay the same; not positive where
    /// they change.
    #[inline]
    pub(crate) fn alike_ahead(&self, distance: f64, cursor: &mut usize) -> f64 {
        self.segment(distance, cursor).alike_to - distance
    }

    pub(crate) fn station_si(&self, distance: f64) -> f64 {
        match self.direction {
            Direction::Up => self.displaced + distance,
            Direction::Down => self.length - self.displaced - distance,
        }
    }

    /// Whether a stretch lies wholly between the first and the last point.
    pub(crate) fn covers(&self, from: f64, to: f64) -> bool {
        from >= self.surveyed.0 && to <= self.surveyed.1
    }

    /// Values at a distance; `cursor` remembers the segment between calls.
    #[inline]
    pub(crate) fn local(&self, distance: f64, cursor: &mut usize) -> Local {
        let segment = self.segment(distance, cursor);
        let into = distance - segment.start;
        Local {
            grade: segment.grade.0 + segment.grade.1 * into,
            rolling: segment.rolling.0 + segment.rolling.1 * into,
            braking: segment.braking.0 + segment.braking.1 * into,
            water: segment.water.0 + segment.water.1 * into,
        }
    }

    /// Elevation and the integrals of coefficients and water up to a distance.
    #[inline]
    fn summed(&self, distance: f64, cursor: &mut usize) -> [f64; 4] {
        let segment = self.segment(distance, cursor);
        let into = distance - segment.start;
        let sum = |(value, change): (f64, f64)| into * (value + 0.5 * change * into);
        [
            segment.elevation + sum(segment.grade),
            segment.before[0] + sum(segment.rolling),
            segment.before[1] + sum(segment.braking),
            segment.before[2] + sum(segment.water),
        ]
    }

    /// Mean values over a stretch ahead that is longer than a few centimetres.
    #[inline]
    pub(crate) fn mean(&self, from: f64, length: f64, cursor: &mut usize) -> Local {
        let low = self.summed(from, cursor);
        let high = self.summed(from + length, &mut { *cursor });
        let per_metre = 1.0 / length;
        let mean = |index: usize| (high[index] - low[index]) * per_metre;
        Local { grade: mean(0), rolling: mean(1), braking: mean(2), water: mean(3) }
    }

    #[inline]
    fn segment(&self, distance: f64, cursor: &mut usize) -> &Segment {
        let last = self.segments.len() - 1;
        let near = match self.even {
            Some((first, per_metre)) => ((distance - first) * per_metre) as usize + 1,
            None => *cursor,
        };
        let mut at = near.min(last);
        while at < last && self.segments[at + 1].start <= distance {
            at += 1;
        }
        while at > 0 && self.segments[at].start > distance {
            at -= 1;
        }
        *cursor = at;
        &self.segments[at]
    }

    /// Distance to the next point where a step of the run should end: the
    /// farthest of those that are close, or else the first.
    #[inline]
    pub(crate) fn next_point(&self, distance: f64, cursor: usize) -> Option<f64> {
        let mut ahead = None;
        for segment in self.segments.get(cursor + 1..)? {
            let gap = segment.start - distance;
            if gap <= REACHED_M {
                continue;
            }
            if gap > CLOSE_POINTS_M {
                return ahead.or(Some(gap));
            }
            ahead = Some(gap);
        }
        ahead
    }

    pub(crate) fn elevation(&self, distance: f64) -> f64 {
        self.elevation_near(distance, 0)
    }

    /// Elevation at a distance, looked for from the segment of a cursor.
    #[inline]
    pub(crate) fn elevation_near(&self, distance: f64, mut cursor: usize) -> f64 {
        let segment = self.segment(distance, &mut cursor);
        let into = distance - segment.start;
        segment.elevation + into * (segment.grade.0 + 0.5 * segment.grade.1 * into)
    }

    /// Mean grade over a stretch, uphill positive.
    pub(crate) fn mean_grade(&self, from: f64, length: f64) -> f64 {
        (self.elevation(from + length) - self.elevation(from)) / length
    }
}

fn check(condition: &Condition) -> Result<(), Error> {
    let points = &condition.points;
    if points.len() < 2 {
        return Err(Error::TooFewStations { count: points.len() });
    }
    let mut before: Option<(f64, f64)> = None;
    for (index, point) in points.iter().enumerate() {
        let (station, elevation) = (point.station.si(), point.elevation.si());
        let friction = [point.rolling.si(), point.braking.si()];
        let water = point.water.si();
        let fault = if !(station.is_finite() && elevation.is_finite() && water.is_finite()) {
            Some(GroundFault::NotFinite)
        } else if !friction.iter().all(|value| (0.0..=GREATEST_FRICTION).contains(value)) {
            Some(GroundFault::Friction)
        } else {
            before.and_then(|(station_before, elevation_before)| {
                let (run, rise) = (station - station_before, elevation - elevation_before);
                if run <= 0.0 {
                    Some(GroundFault::NotRising)
                } else {
                    (rise.abs() > STEEPEST * run).then_some(GroundFault::Steep)
                }
            })
        };
        if let Some(fault) = fault {
            let station = Amount::from(point.station);
            return Err(Error::GroundPoint { index: index + 1, station, fault });
        }
        before = Some((station, elevation));
    }
    Ok(())
}

/// Distance, elevation, rolling, braking, water.
type Point = [f64; 5];

fn ends(points: &[Point]) -> (f64, f64) {
    match (points.first(), points.last()) {
        (Some(first), Some(last)) => (first[0], last[0]),
        _ => (0.0, 0.0),
    }
}

fn even(points: &[Point]) -> Option<(f64, f64)> {
    let (first, last) = (points.first()?[0], points.last()?[0]);
    let gap = (last - first) / (points.len() as f64 - 1.0);
    let is_even = |pair: &[Point]| (pair[1][0] - pair[0][0] - gap).abs() < 1e-6 * gap;
    points.windows(2).all(is_even).then(|| (first, 1.0 / gap))
}

/// One segment that holds the first values before the first point, one from
/// each point to the next, and one that holds the last values.
fn segments(points: &[Point]) -> Vec<Segment> {
    let grades = point_grades(points);
    let hold = |[start, elevation, rolling, braking, water]: Point, grade: f64| Segment {
        start,
        elevation,
        grade: (grade, 0.0),
        rolling: (rolling, 0.0),
        braking: (braking, 0.0),
        water: (water, 0.0),
        before: [0.0; 3],
        alike_to: f64::INFINITY,
    };
    let mut segments = Vec::with_capacity(points.len() + 1);
    let mut before = [0.0; 3];
    if let (Some(first), Some(grade)) = (points.first(), grades.first()) {
        segments.push(hold(*first, *grade));
    }
    for (pair, grade) in points.windows(2).zip(grades.windows(2)) {
        if let ([a, b], [grade_a, grade_b]) = (pair, grade) {
            let per_metre = |from: f64, to: f64| (from, (to - from) / (b[0] - a[0]));
            segments.push(Segment {
                start: a[0],
                elevation: a[1],
                grade: per_metre(*grade_a, *grade_b),
                rolling: per_metre(a[2], b[2]),
                braking: per_metre(a[3], b[3]),
                water: per_metre(a[4], b[4]),
                before,
                alike_to: a[0],
            });
            let length = b[0] - a[0];
            for (index, sum) in before.iter_mut().enumerate() {
                *sum += 0.5 * (a[index + 2] + b[index + 2]) * length;
            }
        }
    }
    if let (Some(last), Some(grade)) = (points.last(), grades.last()) {
        segments.push(Segment { before, ..hold(*last, *grade) });
    }
    let mut alike_to = f64::INFINITY;
    for index in (0..segments.len()).rev() {
        let segment = &mut segments[index];
        if [segment.rolling.1, segment.braking.1, segment.water.1] != [0.0; 3] {
            alike_to = segment.start;
        }
        segment.alike_to = alike_to;
    }
    segments
}

fn point_grades(points: &[Point]) -> Vec<f64> {
    let last = points.len().saturating_sub(1);
    (0..points.len())
        .map(|index| {
            let (a, b) = (points[index.saturating_sub(1)], points[(index + 1).min(last)]);
            if b[0] > a[0] { (b[1] - a[1]) / (b[0] - a[0]) } else { 0.0 }
        })
        .collect()
}
