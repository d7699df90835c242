//! The flight path after the screen with one engine out: gross as it climbs,
//! net as the rule lets it count. Distances count from the end of the take-off
//! distance, heights over the surface there.

use crate::entry::{argument, kernel};
use crate::motion::airborne::Climb;
use crate::motion::departure::{Carried, Departure};
use crate::regulation::net_gradient_reduction;
use crate::situation::Loaded;
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{
    Dimension, Length, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2 as GRAVITY, Time, ratio,
};

/// Gas constant of dry air, J/(kg K). Source: [ICAO-7488].
const GAS_CONSTANT: f64 = 287.052_87;
/// Air in which pressure is taken to fall with height, -40 °C: colder than most
/// days, so that more thrust is lost than is likely, and heat never helps.
const COLD_K: f64 = 233.15;
/// Least half width of the corridor beyond half the span, m. Source: [CAT-POL-A] .210(a).
const BESIDE_WINGTIP_M: f64 = 60.0;
/// Half width at its start for spans from 60 m on, m. Source: [CAT-POL-A] .210(a).
const WIDE_SPAN_START_M: f64 = 90.0;
/// Span from which that start holds, m. Source: [CAT-POL-A] .210(a).
const WIDE_SPAN_M: f64 = 60.0;
/// How much wider the corridor gets by distance. Source: [CAT-POL-A] .210(a).
const WIDENING: f64 = 0.125;

/// Least height at which the path may be levelled, 400 ft. Source: [CFR-25-111] (c).
const LEAST_LEVEL_OFF_M: f64 = 400.0 * 0.3048;

/// How the aeroplane climbs away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ClimbAway {
    /// Time from lift-off until the gear is up, s; it is taken to stay down
    /// when that is not known.
    gear_up_after: f64,
    /// Height over the surface at which the path is levelled to gain speed, m.
    level_off: f64,
}

impl ClimbAway {
    pub(crate) fn of(gear_up_after: Option<Time>) -> Self {
        let gear_up_after = gear_up_after.map_or(f64::INFINITY, |after| after.si());
        Self { gear_up_after, level_off: LEAST_LEVEL_OFF_M }
    }

    pub(crate) fn with_level_off(self, height: Length) -> Self {
        Self { level_off: height.si().max(LEAST_LEVEL_OFF_M), ..self }
    }
}

/// The path with one engine out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClimbPath {
    screen: f64,
    /// Gross gradients over the ground, gear down and up.
    gross: [f64; 2],
    /// What the rule takes off them, over the ground.
    reduction: f64,
    /// Where the gear is up.
    gear_up_at: f64,
    level_off: f64,
}

/// Height of the path that counts: gross or net.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PathKind {
    /// As the aeroplane climbs.
    Gross,
    /// Less what the rule takes off.
    Net,
}

impl ClimbPath {
    /// The path of a take-off carried on with one engine out.
    ///
    /// Both gradients are those at the level-off height, where thrust has
    /// fallen with the pressure of the air, so that the path errs low below it.
    pub(crate) fn new(loaded: &Loaded, departure: &Departure, carried: &Carried) -> Option<Self> {
        let away = &loaded.model.away;
        let one_out = departure.one_out?;
        let speed = carried.screen_airspeed;
        let over_ground = speed - departure.headwind;
        if over_ground <= 0.0 {
            return None;
        }
        let level_off = away.level_off.max(departure.screen);
        let falls = 1.0 - pressure_share(level_off);
        let lost = falls * one_out.climb.thrust.at(speed) / one_out.climb.weight;
        let gear = loaded.model.polar.gear;
        let up = Climb { zero_lift: one_out.climb.zero_lift - gear, ..one_out.climb };
        let by_ground = speed / over_ground;
        let gross = [&one_out.climb, &up].map(|climb| (climb.gradient(speed) - lost) * by_ground);
        let gear_up_at = (away.gear_up_after - carried.air.time).max(0.0) * over_ground;
        let reduction = net_gradient_reduction(loaded.model.engines).si() * by_ground;
        Some(Self { screen: departure.screen, gross, reduction, gear_up_at, level_off })
    }

    /// Height over the surface at the end of the take-off distance, a distance
    /// beyond it. The path never sinks below the surface.
    #[must_use]
    pub fn height(&self, beyond: Length, kind: PathKind) -> Length {
        let reduction = match kind {
            PathKind::Gross => 0.0,
            PathKind::Net => self.reduction,
        };
        let to = beyond.si().max(0.0).min(self.level_at());
        let down = to.min(self.gear_up_at);
        let at_gear_up = net_height(self.screen, self.gross[0], reduction, down);
        let height = net_height(at_gear_up, self.gross[1], reduction, to - down);
        Length::from_si(height.max(0.0))
    }

    /// Height of the screen, from which it begins.
    #[must_use]
    pub fn screen(&self) -> Length {
        Length::from_si(self.screen)
    }

    /// Gross gradient over the ground with the gear down, and up.
    #[must_use]
    pub fn gross_gradients(&self) -> [Ratio; 2] {
        self.gross.map(ratio)
    }

    /// What the rule takes off the gradients, over the ground.
    #[must_use]
    pub fn reduction(&self) -> Ratio {
        ratio(self.reduction)
    }

    /// Where the gear is up; none when it is taken to stay down.
    #[must_use]
    pub fn gear_up_beyond(&self) -> Option<Length> {
        self.gear_up_at.is_finite().then(|| Length::from_si(self.gear_up_at))
    }

    /// Where the gross path reaches the level-off height; none when it never does.
    #[must_use]
    pub fn level_beyond(&self) -> Option<Length> {
        let at = self.level_at();
        at.is_finite().then(|| Length::from_si(at))
    }

    fn level_at(&self) -> f64 {
        let reach = |from: f64, gradient: f64| {
            if gradient > 0.0 { (self.level_off - from).max(0.0) / gradient } else { f64::INFINITY }
        };
        let down = reach(self.screen, self.gross[0]);
        if down <= self.gear_up_at {
            return down;
        }
        let at_gear_up = self.screen + self.gross[0] * self.gear_up_at;
        self.gear_up_at + reach(at_gear_up, self.gross[1])
    }
}

/// Pressure at a height over that at the surface, in air so cold that it errs low.
pub(crate) fn pressure_share(height: f64) -> f64 {
    (-GRAVITY * height / (GAS_CONSTANT * COLD_K)).exp()
}

fn net_height(from: f64, gross: f64, reduction: f64, distance: f64) -> f64 {
    from + (gross - reduction) * distance
}

fn half_width(span: f64, distance: f64) -> f64 {
    let start = if span < WIDE_SPAN_M { 0.5 * span + BESIDE_WINGTIP_M } else { WIDE_SPAN_START_M };
    start + WIDENING * distance
}

/// Half width of the corridor in which obstacles count, at a distance beyond
/// the end of the take-off distance.
#[must_use]
pub fn obstacle_half_width(span: Length, beyond: Length) -> Length {
    Length::from_si(half_width(span.si(), beyond.si().max(0.0)))
}

/// Height of the net path.
pub(crate) static NET_PATH_HEIGHT: Formula = Formula {
    name: "net-path-height",
    computes: "height of the net take-off flight path on one straight segment",
    expression: "h0 + (gross - reduction) x",
    arguments: &[
        argument("start_height", "h0", Dimension::Length, 0.0, 2000.0),
        argument("gross", "gross", Dimension::Ratio, -0.5, 1.0),
        argument("reduction", "reduction", Dimension::Ratio, 0.0, 0.02),
        argument("distance", "x", Dimension::Length, 0.0, 50_000.0),
    ],
    result: Dimension::Length,
    source: Source::new("CFR-25-115", "(b), (c)", Tier::Memory),
    scatter: "none: a rule",
    evaluate: kernel!(net_height, from, gross, reduction, distance),
};

/// Half width of the corridor in which obstacles count.
pub static OBSTACLE_CORRIDOR: Formula = Formula {
    name: "obstacle-corridor",
    computes: "half width of the corridor in which obstacles count",
    expression: "90 m + 0.125 D, or b/2 + 60 m + 0.125 D where b is under 60 m",
    arguments: &[
        argument("span", "b", Dimension::Length, 2.0, 120.0),
        argument("distance", "D", Dimension::Length, 0.0, 50_000.0),
    ],
    result: Dimension::Length,
    source: Source::new("CAT-POL-A", ".210(a)", Tier::Secondary),
    scatter: "none: a rule",
    evaluate: kernel!(half_width, span, distance),
};
