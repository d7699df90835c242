//! The ground that a run takes, and the rides over it: paths that begin alike are
//! ridden once as far as they are.

use super::{Asked, MOST_LIFT, Run, RunRide, SLOWEST};
use crate::measured::{Known, Unavailable};
use hardpan_model::{Lane, RunPoint};
use hardpan_quantity::{Acceleration, Length, Quantity, metres, metres_per_second, ratio};
use hardpan_surface::{Course, Lanes, Motion, Profile, ride_courses};
use std::cell::Cell;

/// Where a run goes on the ground.
pub(super) struct Path<'a> {
    run: &'a Run<'a>,
    /// By rising distance gone.
    points: Vec<(f64, RunPoint)>,
    /// Whether it goes down the stations.
    down: bool,
    from: Length,
    to: Length,
}

impl<'a> Path<'a> {
    pub(super) fn of(run: &'a Run<'a>) -> Known<Self> {
        let (points, down) = run.on_ground();
        let (Some(first), Some(last)) = (points.first(), points.last()) else {
            return Err(Unavailable::missing("the ride along the run", Vec::new()));
        };
        let wheelbase = run.aeroplane.nose_ahead + run.aeroplane.main_behind;
        let from = metres(first.0) - run.aeroplane.main_behind;
        let to = (metres(last.0) + run.aeroplane.nose_ahead).max(from + 2.0 * wheelbase);
        Ok(Self { run, points, down, from, to })
    }

    /// Up to where another path is the same; none where they begin apart.
    fn alike_up_to(&self, other: &Self) -> Option<Length> {
        let moves = |point: &(f64, RunPoint)| (point.0, point.1.ground_speed, point.1.lift);
        let mut pairs = self.points.iter().zip(&other.points);
        let same = pairs.by_ref().take_while(|(a, b)| moves(a) == moves(b)).count();
        let begins = self.down == other.down
            && self.from == other.from
            && self.run.aeroplane == other.run.aeroplane;
        self.points.get(same.checked_sub(1).filter(|_| begins)?).map(|point| metres(point.0))
    }

    /// How it moves at a place, looked for from where it was looked for before.
    fn motion(&self, along: Length, near: &Cell<usize>) -> Motion {
        motion(&self.points, self.run.weight, along, near)
    }
}

/// Paths one after the other that begin alike, and up to which station they are.
pub(super) fn alike<'p, 'a>(paths: &'p [Path<'a>]) -> Vec<(&'p [Path<'a>], Length)> {
    let mut found = Vec::new();
    let mut rest = paths;
    while let [first, after @ ..] = rest {
        let part_at = after.first().and_then(|second| first.alike_up_to(second));
        let (together, others) = rest.split_at(if part_at.is_some() { 2 } else { 1 });
        found.push((together, part_at.unwrap_or_default()));
        rest = others;
    }
    found
}

/// The rides of paths that are alike up to a station over each main lane, and what
/// noise alone would show.
pub(super) fn over<'a>(
    paths: &'a [Path<'_>],
    part_at: Length,
    [left, nose, right]: &[Profile; 3],
    noise: Option<&[Profile; 2]>,
    asked: Asked,
) -> Known<(Vec<RunRide>, Option<Acceleration>)> {
    let Some(first) = paths.first() else { return Ok((Vec::new(), None)) };
    let furthest = paths.iter().map(|path| path.to).fold(first.to, Length::max);
    let part = |profile: &Profile| {
        let along = if first.down { profile.turned() } else { profile.clone() };
        along.between(first.from, furthest)
    };
    let parts: Vec<(Profile, Profile)> = [(nose, left), (nose, right)]
        .into_iter()
        .chain(noise.map(|[nose, main]| (nose, main)))
        .map(|(nose, main)| (part(nose), part(main)))
        .collect();
    let grounds: Vec<Lanes<'_>> = parts.iter().map(|(nose, main)| Lanes { nose, main }).collect();
    let aeroplane = &first.run.aeroplane;
    let motion = |path: &'a Path<'_>| {
        let near = Cell::new(0);
        move |along| path.motion(along, &near)
    };
    let motions: Vec<_> = paths.iter().map(motion).collect();
    let courses: Vec<Course<'_>> = paths
        .iter()
        .zip(&motions)
        .map(|(path, motion)| Course { motion, to: path.to - aeroplane.nose_ahead })
        .collect();
    let ridden = ride_courses(aeroplane, &grounds, &courses, part_at)
        .map_err(|error| Unavailable::refused("the ride along the run", &error))?;
    let (mut all, mut shaken) = (Vec::new(), None);
    for (path, rides) in paths.iter().zip(ridden) {
        for ((lane, main), ride) in
            [(Lane::Left, left), (Lane::Right, right)].into_iter().zip(&rides)
        {
            let along = ride.worst_at_cockpit().1;
            let station = if path.down { -along } else { along };
            let at = (station, path.motion(along, &Cell::new(0)).speed);
            all.push(path.run.judged(*ride, (lane, nose, main), at, asked)?);
        }
        let by_noise = rides.get(2).map(|ride| ride.worst_at_cockpit().0);
        shaken = by_noise.map(|next| shaken.map_or(next, |most: Acceleration| most.max(next)));
    }
    Ok((all, shaken))
}

/// Speed and lift at a place of the run, straight between its points; `near` is the
/// point after the place asked for before, and then that after this one.
fn motion(points: &[(f64, RunPoint)], weight: f64, along: Length, near: &Cell<usize>) -> Motion {
    let at = along.si();
    let is_before = |index: usize| points.get(index).is_some_and(|point| point.0 < at);
    let mut after = near.get().min(points.len());
    if after == 0 || is_before(after - 1) {
        while is_before(after) {
            after += 1;
        }
    } else {
        after = points.partition_point(|point| point.0 < at);
    }
    near.set(after);
    let after = after.min(points.len().saturating_sub(1));
    let before = after.saturating_sub(1);
    let (speed, lift) = match (points.get(before), points.get(after)) {
        (Some(a), Some(b)) if b.0 > a.0 => {
            let share = ((at - a.0) / (b.0 - a.0)).clamp(0.0, 1.0);
            let between = |low: f64, high: f64| low + share * (high - low);
            (
                between(a.1.ground_speed.si(), b.1.ground_speed.si()),
                between(a.1.lift.si(), b.1.lift.si()),
            )
        }
        (_, Some(only)) => (only.1.ground_speed.si(), only.1.lift.si()),
        _ => (SLOWEST, 0.0),
    };
    Motion {
        speed: metres_per_second(speed.max(SLOWEST)),
        lift_share: ratio((lift / weight).clamp(0.0, MOST_LIFT)),
    }
}
