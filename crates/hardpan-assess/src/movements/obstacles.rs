//! Obstacles beyond the end of the running surface, under the net path of a
//! take-off carried on with one engine out, straight ahead.

use crate::measured::{Known, Measured, Unavailable};
use crate::movements::declared;
use hardpan_model::{Direction, Flight, Need, Obstacle};
use hardpan_quantity::{Length, Quantity, metres};
use hardpan_run::{ClimbPath, PathKind, TakeOffRun, obstacle_half_width};

/// Height by which the net path clears an obstacle, 35 ft.
/// Source: [CAT-POL-A] .210(a); [CARS-704] 704.47.
pub(crate) const CLEARANCE_M: f64 = 35.0 * 0.3048;

/// The path, and every obstacle beyond the end of the running surface.
#[derive(Debug, Clone)]
pub(crate) struct FlownOver<'a> {
    pub(crate) path: ClimbPath,
    /// Take-off distance from the point of brake release.
    pub(crate) take_off_distance: Length,
    pub(crate) span: Length,
    /// By rising clearance.
    pub(crate) obstacles: Vec<Under<'a>>,
    /// How many stand beside the running surface or behind the take-off.
    pub(crate) elsewhere: usize,
    /// From the end of the take-off distance needed to that of the distance
    /// available, from where the corridor widens.
    widens_from: Length,
}

/// One obstacle under the path.
#[derive(Debug, Clone)]
pub(crate) struct Under<'a> {
    pub(crate) obstacle: &'a Obstacle,
    /// Its place in the file, counted from 1.
    pub(crate) number: usize,
    /// Distance beyond the end of the take-off distance; negative short of it,
    /// where no height is counted.
    pub(crate) beyond: Length,
    /// Distance beyond the end of the take-off distance available.
    pub(crate) beyond_available: Length,
    /// Its top over the surface at the end of the take-off distance.
    pub(crate) top: Length,
    pub(crate) net: Length,
    pub(crate) gross: Length,
    /// Half width of the corridor there.
    pub(crate) half_width: Length,
}

impl Under<'_> {
    pub(crate) fn clearance(&self) -> Length {
        self.net - self.top
    }

    pub(crate) fn is_in_corridor(&self) -> bool {
        self.obstacle.offset.value.si().abs() <= self.half_width.si()
    }

    pub(crate) fn name(&self) -> String {
        self.obstacle
            .name
            .as_ref()
            .map_or_else(|| format!("obstacle {}", self.number), |given| given.value.clone())
    }
}

impl FlownOver<'_> {
    /// Those that count, by rising clearance.
    pub(crate) fn counted(&self) -> impl Iterator<Item = &Under<'_>> {
        self.obstacles.iter().filter(|under| under.is_in_corridor())
    }

    /// Whether the net path clears every obstacle that counts.
    pub(crate) fn clears(&self) -> bool {
        self.counted().all(|under| under.clearance().si() >= CLEARANCE_M)
    }

    /// The least height over an obstacle that counts, less what the rule asks for;
    /// none where none counts.
    pub(crate) fn to_spare(&self) -> Option<Length> {
        Some(self.counted().next()?.clearance() - metres(CLEARANCE_M))
    }
}

/// The obstacles under the path of a take-off.
pub(crate) fn flown_over<'a>(
    flight: &'a Flight,
    measured: &Measured,
    run: &TakeOffRun,
) -> Known<FlownOver<'a>> {
    let obstacles = flight.strip.obstacles.as_ref().ok_or_else(|| {
        missing("strip: [[obstacle]]", "what stands beyond the ends, or obstacle = \"none\"")
    })?;
    let plan = flight.take_off.as_ref().ok_or_else(|| missing("flight: [take_off]", "planned"))?;
    let direction = plan.direction.as_ref();
    let direction = direction.ok_or_else(|| missing("flight: take_off.direction", "runway"))?.value;
    let span = flight.aeroplane.wing.span.as_ref();
    let span = span.ok_or_else(|| missing("aeroplane: wing.span", "the corridor follows"))?.value;
    let (Some(path), Some(distance)) = (run.climb_path, run.distance_needed) else {
        let why = &"with one engine out the take-off is not carried on";
        return Err(Unavailable::refused("the path over the obstacles", why));
    };
    let length = flight.strip.length.as_ref();
    let length = length.ok_or_else(|| missing("strip: length", "running surface"))?.value;
    let line_up = plan.line_up.as_ref().map_or(metres(0.0), |given| given.value);
    let end = line_up + distance;
    let along = |place: Length| match direction {
        Direction::Up => place,
        Direction::Down => length - place,
    };
    let available = declared(flight, direction).take_off_distance.as_ref();
    let available = available.map_or(length, |given| given.value);
    let profile = measured.profile.as_ref().map_err(Clone::clone)?;
    let surface = level(profile, along(end))? - level(profile, metres(0.0))?;
    let threshold = flight.strip.elevation.as_ref().map(|given| given.value);
    let (mut found, mut elsewhere) = (Vec::new(), 0);
    for (index, obstacle) in obstacles.iter().enumerate() {
        let at = along(obstacle.station.value);
        if at <= length {
            elsewhere += 1;
            continue;
        }
        let top = obstacle.top.value.over_threshold(threshold);
        let top = top.ok_or_else(|| missing("strip: elevation", "of the reference threshold"))?;
        let beyond = at - end;
        let height = |kind| match beyond.si() < 0.0 {
            true => metres(0.0),
            false => path.height(beyond, kind),
        };
        let beyond_available = (at - available).max(metres(0.0));
        found.push(Under {
            obstacle,
            number: index + 1,
            beyond,
            beyond_available,
            top: top - surface,
            net: height(PathKind::Net),
            gross: height(PathKind::Gross),
            half_width: obstacle_half_width(span, beyond_available),
        });
    }
    found.sort_by(|a, b| a.clearance().si().total_cmp(&b.clearance().si()));
    let widens_from = available - end;
    Ok(FlownOver {
        path,
        take_off_distance: distance,
        span,
        obstacles: found,
        elsewhere,
        widens_from,
    })
}

/// Elevation of the surface at a station; its ends are carried on level.
fn level(profile: &[(Length, Length)], station: Length) -> Known<Length> {
    let none = || Unavailable::missing("the level of the strip", Vec::new());
    let after = profile.partition_point(|(at, _)| *at <= station);
    let before = profile.get(after.saturating_sub(1)).or(profile.first()).ok_or_else(none)?;
    let next = profile.get(after).unwrap_or(before);
    let step = (next.0 - before.0).si();
    let share = if step > 0.0 { ((station - before.0).si() / step).clamp(0.0, 1.0) } else { 0.0 };
    Ok(before.1 + (next.1 - before.1) * share)
}

fn missing(what: &str, how: &str) -> Unavailable {
    let need = Need { what: what.to_owned(), how: how.to_owned() };
    Unavailable::missing("the path over the obstacles", vec![need])
}

/// The path after take-off with one engine out, for pictures. Distances count
/// from the end of the take-off distance, heights over the surface there.
#[derive(Debug, Clone, PartialEq)]
pub struct ClimbPicture {
    /// Points of the path: distance, gross height, net height, half width of the
    /// corridor.
    pub points: Vec<[Length; 4]>,
    /// What stands ahead, by rising clearance.
    pub obstacles: Vec<ClimbObstacle>,
    /// By how much the net path must clear it.
    pub clearance: Length,
    /// Take-off distance from the point of brake release.
    pub take_off_distance: Length,
    /// Where the gear is up; none when it is taken to stay down.
    pub gear_up: Option<Length>,
}

/// An obstacle ahead of a take-off.
#[derive(Debug, Clone, PartialEq)]
pub struct ClimbObstacle {
    /// Name, or its number in the file.
    pub name: String,
    /// Distance beyond the end of the take-off distance.
    pub beyond: Length,
    /// Offset from the axis of the strip.
    pub offset: Length,
    /// Its top.
    pub top: Length,
    /// Height of the net path over its top.
    pub clearance: Length,
    /// Whether it stands in the corridor.
    pub counts: bool,
}

/// Least distance that is drawn, m.
const LEAST_DRAWN_M: f64 = 1500.0;
/// Places at which the path is drawn.
const DRAWN: u32 = 120;

/// The picture of the planned take-off; none where its path is not known.
pub(crate) fn climb_picture(flight: &Flight, measured: &Measured) -> Option<ClimbPicture> {
    let run = measured.take_off.as_ref()?.as_ref().ok()?;
    let flown = flown_over(flight, measured, run).ok()?;
    let farthest = flown.counted().map(|under| under.beyond.si()).fold(LEAST_DRAWN_M, f64::max);
    let last = farthest * 1.08;
    let point = |index: u32| {
        let at = metres(last * f64::from(index) / f64::from(DRAWN));
        let height = |kind| flown.path.height(at, kind);
        let half_width = obstacle_half_width(flown.span, at - flown.widens_from);
        [at, height(PathKind::Gross), height(PathKind::Net), half_width]
    };
    let obstacles = flown.obstacles.iter().filter(|under| under.beyond.si() <= last);
    let shown = obstacles.map(|under| ClimbObstacle {
        name: under.name(),
        beyond: under.beyond,
        offset: under.obstacle.offset.value,
        top: under.top,
        clearance: under.clearance(),
        counts: under.is_in_corridor(),
    });
    Some(ClimbPicture {
        points: (0..=DRAWN).map(point).collect(),
        obstacles: shown.collect(),
        clearance: metres(CLEARANCE_M),
        take_off_distance: flown.take_off_distance,
        gear_up: flown.path.gear_up_beyond().filter(|at| at.si() < last),
    })
}
