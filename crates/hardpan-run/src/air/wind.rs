//! Wind along and across the strip, and what of it a rule lets count.
//!
//! A direction that varies or is missing counts as the worst one: the whole
//! speed as crosswind and the whole speed as tailwind.

use crate::Error;
use crate::entry::{argument, coefficient, kernel};
use crate::need::Needs;
use hardpan_model::{Day, Direction, Formula, Need, Source, Strip, Tier, Wind};
use hardpan_quantity::{Angle, Dimension, Length, Quantity, Speed, ratio};
use std::f64::consts::{PI, TAU};

/// Share of a headwind that counts. Source: [CFR-25-105] (d)(1).
const HEADWIND_SHARE: f64 = 0.5;
/// Height over the ground at which wind is reported, m.
/// Source: [WIND-POWER-LAW] reference height.
const REPORTED_AT_M: f64 = 10.0;
/// Lowest height for which the law is used, m. Source: judgement.
const LOWEST_M: f64 = 0.5;
/// Share of a tailwind that is charged. Source: [CFR-25-105] (d)(1).
const TAILWIND_SHARE: f64 = 1.5;
/// Wind at a height, from that reported.
fn fallen(reported: f64, height: f64, exponent: f64) -> f64 {
    reported * (height / REPORTED_AT_M).powf(exponent)
}

/// Wind at a height by the power law.
pub(crate) static WIND_POWER_LAW: Formula = Formula {
    name: "wind-power-law",
    computes: "wind at a height from the wind reported at 10 m",
    expression: "u = u10 (z/10 m)^p; p about 1/7 in neutral air over open ground",
    arguments: &[
        argument("reported", "u10", Dimension::Speed, 0.0, 103.0),
        argument("height", "z", Dimension::Length, LOWEST_M, 100.0),
        coefficient("exponent", "p", 0.0, 0.5),
    ],
    result: Dimension::Speed,
    source: Source::new("WIND-POWER-LAW", "definition and neutral exponent", Tier::Secondary),
    scatter: "exponent about 0.05 to 0.4 by stability and roughness",
    evaluate: kernel!(fallen, reported, height, exponent),
};

const RULE: Source = Source::new("CFR-25-105", "(d)(1)", Tier::Published);
const PLANE: Source = Source::new("TEXTBOOK-PHYSICS", "components of a vector", Tier::Derived);

/// Wind along and across the strip for one direction of movement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindComponents {
    /// Least headwind of the mean wind; negative when it is a tailwind, and
    /// then the greatest tailwind, gusts included.
    pub headwind: Speed,
    /// Headwind that the rule lets count: half of a headwind, one and a half
    /// times a tailwind (negative).
    pub credited: Speed,
    /// Greatest crosswind, gusts included, from either side.
    pub crosswind: Speed,
    /// Whether one direction was reported, so that the components are exact.
    pub steady: bool,
}

impl WindComponents {
    /// Still air.
    #[must_use]
    pub fn calm() -> Self {
        Self::of(0.0, 0.0, true)
    }

    /// Components stated outright; a negative headwind is a tailwind.
    #[must_use]
    pub fn stated(headwind: Speed, crosswind: Speed) -> Self {
        Self::of(headwind.si(), crosswind.si().abs(), true)
    }

    /// Components of the wind of the day for a movement along the strip.
    ///
    /// # Errors
    /// A [`Need`] when the wind or the bearing of the strip is missing or not finite.
    pub fn at(strip: &Strip, day: &Day, direction: Direction) -> Result<Self, Vec<Need>> {
        let mut needs = Needs::default();
        let bearing = needs.quantity(
            "strip: bearing",
            strip.bearing.as_ref(),
            -TAU..=2.0 * TAU,
            "the wind along and across the strip depends on its true bearing",
        );
        let wind = needs.present(
            "day: wind",
            day.wind.as_ref(),
            "headwind, tailwind and crosswind follow from it",
        );
        if let Some(wind) = wind
            && !is_plausible(&wind)
        {
            needs.add(
                "day: wind",
                "speeds must be between 0 and 200 kt, directions finite".to_owned(),
            );
        }
        let wind = needs.finish(wind)?;
        let course = match direction {
            Direction::Up => bearing,
            Direction::Down => bearing + PI,
        };
        Ok(wind.map_or_else(Self::calm, |wind| components(&wind, course)))
    }

    /// The same over a strip on which wind falls towards the ground: a headwind
    /// counts with what of it blows at a height, a tailwind stays as reported.
    ///
    /// # Errors
    /// [`Error`] for an exponent outside 0 to 0.5.
    pub fn near_ground(self, exponent: f64, height: Length) -> Result<Self, Error> {
        Error::check("exponent of the wind near the ground", ratio(exponent), 0.0..=0.5)?;
        let height = height.si().clamp(LOWEST_M, REPORTED_AT_M);
        let share = if self.headwind.si() > 0.0 { fallen(1.0, height, exponent) } else { 1.0 };
        Ok(Self { credited: self.credited * share, ..self })
    }

    fn of(headwind: f64, crosswind: f64, steady: bool) -> Self {
        Self {
            headwind: Speed::from_si(headwind),
            credited: Speed::from_si(credited(headwind)),
            crosswind: Speed::from_si(crosswind),
            steady,
        }
    }
}

fn is_plausible(wind: &Wind) -> bool {
    let speeds = [Some(wind.speed), wind.gust];
    let angles = [wind.from, wind.between.map(|pair| pair.0), wind.between.map(|pair| pair.1)];
    speeds.iter().flatten().all(|speed| (0.0..=103.0).contains(&speed.si()))
        && angles.iter().flatten().all(|angle| angle.si().is_finite())
}

fn components(wind: &Wind, course: f64) -> WindComponents {
    let mean = wind.speed.si();
    let peak = wind.gust.map_or(mean, |gust| gust.si().max(mean));
    let (least, cross) = match (wind.between, wind.from) {
        (Some(between), from) => sector_extremes(between, from, course),
        (None, Some(from)) => (along(1.0, from.si(), course), across(1.0, from.si(), course).abs()),
        (None, None) => (-1.0, 1.0),
    };
    let headwind = if least >= 0.0 { mean * least } else { peak * least };
    let steady = peak == 0.0 || (wind.between.is_none() && wind.from.is_some());
    WindComponents::of(headwind, peak * cross, steady)
}

/// Least cosine and greatest sine of the angle off the course, over a sector
/// clockwise from its first bound to its second.
fn sector_extremes(
    (first, second): (Angle, Angle),
    from: Option<Angle>,
    course: f64,
) -> (f64, f64) {
    let start = (first.si() - course).rem_euclid(TAU);
    let width = (second.si() - first.si()).rem_euclid(TAU);
    let holds = |angle: f64| (angle - start).rem_euclid(TAU) <= width;
    let ends = [start, start + width];
    let reported = from.map(|from| from.si() - course);
    let quarters = [PI / 2.0, PI, 1.5 * PI].into_iter().filter(|angle| holds(*angle));
    ends.into_iter().chain(reported).chain(quarters).fold((1.0, 0.0), |(least, most), angle| {
        (f64::min(least, angle.cos()), f64::max(most, angle.sin().abs()))
    })
}

/// Headwind of a wind; negative for a tailwind.
fn along(speed: f64, from: f64, course: f64) -> f64 {
    speed * (from - course).cos()
}

/// Crosswind of a wind; positive from the right.
fn across(speed: f64, from: f64, course: f64) -> f64 {
    speed * (from - course).sin()
}

/// What the rule lets count of a headwind, or charges of a tailwind.
fn credited(headwind: f64) -> f64 {
    if headwind >= 0.0 { HEADWIND_SHARE * headwind } else { TAILWIND_SHARE * headwind }
}

/// Headwind component.
pub(crate) static HEADWIND: Formula = Formula {
    name: "headwind",
    computes: "component of the wind against the movement",
    expression: "v cos(direction - course)",
    arguments: &[
        argument("speed", "v", Dimension::Speed, 0.0, 103.0),
        argument("direction", "direction", Dimension::Angle, -TAU, 2.0 * TAU),
        argument("course", "course", Dimension::Angle, -TAU, 2.0 * TAU),
    ],
    result: Dimension::Speed,
    source: PLANE,
    scatter: "reports round the direction to 10 deg and the speed to 1 kt",
    evaluate: kernel!(along, speed, from, course),
};

/// Crosswind component.
pub(crate) static CROSSWIND: Formula = Formula {
    name: "crosswind",
    computes: "component of the wind across the movement, positive from the right",
    expression: "v sin(direction - course)",
    arguments: &[
        argument("speed", "v", Dimension::Speed, 0.0, 103.0),
        argument("direction", "direction", Dimension::Angle, -TAU, 2.0 * TAU),
        argument("course", "course", Dimension::Angle, -TAU, 2.0 * TAU),
    ],
    result: Dimension::Speed,
    source: PLANE,
    scatter: "reports round the direction to 10 deg and the speed to 1 kt",
    evaluate: kernel!(across, speed, from, course),
};

/// Headwind that counts.
pub(crate) static CREDITED_HEADWIND: Formula = Formula {
    name: "credited-headwind",
    computes: "headwind that the rule lets count; negative for a tailwind",
    expression: "0.5 v for a headwind, 1.5 v for a tailwind",
    arguments: &[argument("headwind", "v", Dimension::Speed, -103.0, 103.0)],
    result: Dimension::Speed,
    source: RULE,
    scatter: "none: a rule",
    evaluate: kernel!(credited, headwind),
};
