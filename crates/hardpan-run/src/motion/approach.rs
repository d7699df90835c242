//! From 50 ft over the threshold to touchdown.

use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Dimension, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};

/// Time from the threshold to touchdown. Source: [AC-25-32] from memory.
const SECONDS_TO_TOUCHDOWN: f64 = 7.0;
/// Approach path. Source: [ANDERSON-1999] example 6.7.
const APPROACH_DEG: f64 = 3.0;
/// Mean flare speed over stall speed. Source: [ANDERSON-1999] section 6.8.
const FLARE_OVER_STALL: f64 = 1.23;
/// Load factor of the flare. Source: [ANDERSON-1999] section 6.8.
const FLARE_LOAD: f64 = 1.2;
/// The path never gets flatter than this against the ground.
const FLATTEST_RAD: f64 = 0.004;

/// Air distance in the time from threshold to touchdown.
pub(crate) fn timed_distance(over_threshold: f64, touchdown: f64) -> f64 {
    SECONDS_TO_TOUCHDOWN * 0.5 * (over_threshold + touchdown)
}

/// Air distance of approach and flare over ground that falls by `fall`.
pub(crate) fn approach_distance(stall: f64, screen: f64, fall: f64) -> f64 {
    let path = (APPROACH_DEG.to_radians() - fall.atan()).max(FLATTEST_RAD);
    let speed = FLARE_OVER_STALL * stall;
    straight_part(speed, screen, path) + flare_part(speed, screen, path)
}

fn flare_radius(speed: f64) -> f64 {
    speed * speed / (GRAVITY * (FLARE_LOAD - 1.0))
}

/// Height at which the flare begins; at most the screen.
fn flare_height(speed: f64, screen: f64, path: f64) -> f64 {
    (flare_radius(speed) * (1.0 - path.cos())).min(screen)
}

fn straight_part(speed: f64, screen: f64, path: f64) -> f64 {
    (screen - flare_height(speed, screen, path)) / path.tan()
}

/// Horizontal length of the flare arc; of an arc cut off at the screen, its part below.
fn flare_part(speed: f64, screen: f64, path: f64) -> f64 {
    let radius = flare_radius(speed);
    let height = flare_height(speed, screen, path);
    (height * (2.0 * radius - height)).max(0.0).sqrt()
}

fn timed_by_share(over_threshold: f64, share: f64) -> f64 {
    timed_distance(over_threshold, share * over_threshold)
}

const ANDERSON: Source = Source::new("ANDERSON-1999", "example 6.7", Tier::Published);

/// Approach distance of the textbook method.
pub(crate) static APPROACH_DISTANCE: Formula = Formula {
    name: "approach-distance",
    computes: "distance from the screen to the beginning of the flare",
    expression: "R = V_f^2/[g (n - 1)], n = 1.2; h_f = R (1 - cos theta); s = (h - h_f)/tan theta",
    arguments: &[
        argument("flare_speed", "V_f", Dimension::Speed, 1.0, 150.0),
        argument("screen", "h", Dimension::Length, 1.0, 100.0),
        argument("path_angle", "theta", Dimension::Angle, 0.004, 0.2),
    ],
    result: Dimension::Length,
    source: ANDERSON,
    scatter: "not stated; touchdown points of line flying scatter by more than 100 m",
    evaluate: kernel!(straight_part, speed, screen, path),
};

/// Flare distance of the textbook method.
pub(crate) static FLARE_DISTANCE: Formula = Formula {
    name: "flare-distance",
    computes: "distance of the flare",
    expression: "s = R sin theta",
    arguments: &[
        argument("flare_speed", "V_f", Dimension::Speed, 1.0, 150.0),
        argument("screen", "h", Dimension::Length, 1.0, 100.0),
        argument("path_angle", "theta", Dimension::Angle, 0.004, 0.2),
    ],
    result: Dimension::Length,
    source: ANDERSON,
    scatter: "not stated; touchdown points of line flying scatter by more than 100 m",
    evaluate: kernel!(flare_part, speed, screen, path),
};

/// Air distance of seven seconds.
pub(crate) static TIMED_AIR_DISTANCE: Formula = Formula {
    name: "timed-air-distance",
    computes: "planning distance from the threshold to touchdown",
    expression: "7 s x (V_T + c V_T)/2, touchdown at c = 0.96 of threshold speed by default",
    arguments: &[
        argument("threshold_speed", "V_T", Dimension::Speed, 1.0, 150.0),
        coefficient("touchdown_share", "c", 0.7, 1.0),
    ],
    result: Dimension::Length,
    source: Source::new("AC-25-32", "default air distance", Tier::Memory),
    scatter: "touchdown points of line flying scatter by more than 100 m",
    evaluate: kernel!(timed_by_share, speed, share),
};
