//! How often has the busiest point of a lane been under a tyre?
//!
//! Passes → coverages. Tyres wander across the lane by a normal law; a
//! coverage is one tyre width over the busiest point. Wheels one behind the
//! other count once, because the equivalent single wheel already holds them.
//! Numbers: `validation/cases/ground/passes-to-coverages.toml`.

use crate::Error;
use crate::error::positive;
use crate::formulas::{argument, kernel};
use crate::wheel::tyre::contact_area;
use hardpan_math::error_function;
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Dimension, Force, Length, Pressure, Quantity};
use std::f64::consts::SQRT_2;

/// Standard deviation of wander for channelised traffic, metres: 30.435 in,
/// from a wander width of 70 in that holds 75 % of the passes.
pub const CHANNELISED_WANDER_M: f64 = 30.435 * 0.0254;

/// Where [`CHANNELISED_WANDER_M`] comes from.
pub const CHANNELISED_WANDER_SOURCE: Source =
    Source::new("HOSANG-1975", "channelised traffic: 70 in hold 75 % of passes", Tier::Memory);

const WIDTH: Argument = argument("tyre_width", "w", Dimension::Length, 0.02, 1.0);
const WANDER: Argument = argument("wander_deviation", "s", Dimension::Length, 0.05, 5.0);

/// Passes that make one coverage, one or two tracks.
pub static PASSES_PER_COVERAGE: Formula = Formula {
    name: "passes-per-coverage",
    computes: "passes that make one coverage of the busiest point under one or two equal tracks",
    expression: "1 / max over y of the sum over tracks of [Phi((y - y_i + w/2)/s) - \
                 Phi((y - y_i - w/2)/s)]; a track spacing of 0 stands for one track",
    arguments: &[WIDTH, WANDER, argument("track_spacing", "b", Dimension::Length, 0.0, 20.0)],
    result: Dimension::Coefficient,
    source: Source::new("HOSANG-1975", "pass to coverage by normal wander", Tier::Derived),
    scatter: "wander differs between strips; a narrow strip channels traffic more",
    evaluate: kernel!(|width, wander, spacing| passes_per_coverage(width, wander, spacing)),
};

/// Width of the contact area.
pub static CONTACT_WIDTH: Formula = Formula {
    name: "contact-width",
    computes: "width of a tyre's contact area",
    expression: "w = 0.878 sqrt(A)",
    arguments: &[argument("contact_area", "A", Dimension::Area, 0.0, 2.0)],
    result: Dimension::Length,
    source: Source::new("HOSANG-1975", "width of the contact ellipse", Tier::Memory),
    scatter: "an ellipse of length to width 1.6 gives 0.892",
    evaluate: kernel!(|area| contact_width(area)),
};

pub(crate) fn contact_width(area: f64) -> f64 {
    0.878 * area.sqrt()
}

fn passes_per_coverage(width: f64, wander: f64, spacing: f64) -> f64 {
    let both = [-0.5 * spacing, 0.5 * spacing];
    let tracks = if spacing > 0.0 { both.as_slice() } else { &[0.0] };
    1.0 / busiest(tracks, width, wander)
}

fn share_at(at: f64, tracks: &[f64], width: f64, wander: f64) -> f64 {
    let phi = |x: f64| 0.5 * error_function(x / (wander * SQRT_2));
    tracks.iter().map(|track| phi(at - track + 0.5 * width) - phi(at - track - 0.5 * width)).sum()
}

/// Share of passes that put a tyre on the busiest point: searched at each
/// track, at the middle of each pair and by golden steps around the best.
fn busiest(tracks: &[f64], width: f64, wander: f64) -> f64 {
    let share = |at: f64| share_at(at, tracks, width, wander);
    let middles = tracks
        .iter()
        .flat_map(|a| tracks.iter().map(move |b| 0.5 * (a + b)))
        .map(|at| (at, share(at)));
    let (mut best_at, mut best) =
        middles.fold((0.0, 0.0), |best, next| if next.1 > best.1 { next } else { best });
    let mut step = 0.5 * wander;
    while step > 1e-6 * wander {
        let next = [best_at - step, best_at + step]
            .into_iter()
            .map(|at| (at, share(at)))
            .find(|(_, value)| *value > best);
        match next {
            Some((at, value)) => (best_at, best) = (at, value),
            None => step *= 0.5,
        }
    }
    best
}

/// Coverages that one pass makes of the busiest point.
///
/// `tracks` are the distances of all tyre tracks of the aeroplane from any one
/// line along the strip, wheels one behind the other given once.
///
/// # Errors
/// [`Error::NotPositive`] for a width or wander that is not above zero, or
/// when no track is given; [`Error::OutOfRange`] for a track more than 50 m away.
pub fn coverages_per_pass(
    tracks: &[Length],
    tyre_width: Length,
    wander: Length,
) -> Result<f64, Error> {
    let width = positive("width of the contact area", "m", tyre_width.si())?;
    let wander = positive("standard deviation of wander", "m", wander.si())?;
    positive("number of tyre tracks", "", tracks.len() as f64)?;
    let tracks = tracks
        .iter()
        .map(|track| crate::error::within("tyre track", "m", track.si(), -50.0, 50.0))
        .collect::<Result<Vec<f64>, Error>>()?;
    positive("coverages of one pass", "", busiest(&tracks, width, wander))
}

/// Distances of all main tyre tracks from the middle of the aeroplane: the
/// tracks of one leg about the legs at half the gear track on either side.
#[must_use]
pub fn main_gear_tracks(leg: &crate::LegGeometry, gear_track: Length) -> Vec<Length> {
    let half = 0.5 * gear_track.si();
    [-half, half]
        .into_iter()
        .flat_map(|side| leg.tracks().into_iter().map(move |at| Length::from_si(side + at.si())))
        .collect()
}

/// Width of a tyre's contact area, `0.878 sqrt(P / p)`.
///
/// # Errors
/// [`Error::NotPositive`] for a load or pressure that is not above zero.
pub fn tyre_contact_width(load: Force, pressure: Pressure) -> Result<Length, Error> {
    let load = positive("load on the tyre", "N", load.si())?;
    let pressure = positive("pressure of the tyre", "Pa", pressure.si())?;
    Ok(Length::from_si(contact_width(contact_area(load, pressure))))
}
