//! The strip on its station axis as SVG: every band is drawn over the same
//! stations. Patterns, dashes and words carry the meaning; colour repeats it.

mod axis;
mod bearing;
mod by_run;
mod canvas;
mod climb;
mod decision;
mod frame;
mod labels;
mod masses;
mod palette;
mod panel;
mod patterns;
mod plan;
mod profile;
mod runs;
mod scale;
mod stones;
mod strength;
mod strip;

pub use bearing::bearing_figure;
pub use climb::climb_figure;
pub use decision::decision_figure;
pub use masses::masses_figure;
pub use palette::mark_word;
pub use plan::mark_label;
pub use runs::{event_label, event_word};
pub use scale::Scale;
pub use stones::stone_figure;
pub use strip::{StripFigure, strip_figures};

use crate::Report;
use canvas::Canvas;
use frame::{Frame, Size};

/// The strip for the card: runs, plan, labels and axis, about 186 mm by 45 mm.
///
/// A self-contained SVG document. What is not known is said in words.
#[must_use]
pub fn strip_sketch(report: &Report) -> String {
    let mut canvas = Canvas::new(186.0);
    let frame = Frame::new(report, Size::Card, &canvas);
    canvas.raw(&palette::definitions(frame.prefix()));
    let mut y = runs::draw(&mut canvas, &frame, 0.0);
    y = plan::draw(&mut canvas, &frame, y + 1.2);
    y = axis::stations(&mut canvas, &frame, y);
    canvas.finish(y, "Strip sketch", &describe(report))
}

/// The full figure: runs, plan, profile, strength and speed over one station
/// axis, about 260 mm wide; its height follows from what there is to show.
///
/// A self-contained SVG document. What is not known is said in words.
#[must_use]
pub fn strip_figure(report: &Report) -> String {
    let mut canvas = Canvas::new(260.0);
    let frame = Frame::new(report, Size::Full, &canvas);
    canvas.raw(&palette::definitions(frame.prefix()));
    let top = runs::draw(&mut canvas, &frame, 1.0);
    let below = plan::draw(&mut canvas, &frame, top + 1.5);
    let bottom = below + profile::HEIGHT + strength::HEIGHT + by_run::HEIGHT;
    plan::guides(&mut canvas, &frame, below, bottom);
    let mut y = profile::draw(&mut canvas, &frame, below);
    y = strength::draw(&mut canvas, &frame, y);
    y = by_run::draw(&mut canvas, &frame, y, &by_run::SPEED);
    y = axis::stations(&mut canvas, &frame, y);
    y = plan::legend(&mut canvas, &frame, y);
    canvas.finish(y, "Strip by station", &describe(report))
}

/// The runs over one station axis, about 260 mm wide: plan and profile of the strip,
/// and speed, thrust, friction and wheel load of each run under them.
///
/// A self-contained SVG document. What is not known is said in words.
#[must_use]
pub fn runs_figure(report: &Report) -> String {
    const FIGURES: [&by_run::Figure; 4] =
        [&by_run::SPEED, &by_run::THRUST, &by_run::FRICTION, &by_run::LOAD];
    let mut canvas = Canvas::new(260.0);
    let frame = Frame::new(report, Size::Full, &canvas);
    canvas.raw(&palette::definitions(frame.prefix()));
    let top = runs::draw(&mut canvas, &frame, 1.0);
    let below = plan::draw(&mut canvas, &frame, top + 1.5);
    let bottom = below + profile::HEIGHT + FIGURES.len() as f64 * by_run::HEIGHT;
    plan::guides(&mut canvas, &frame, below, bottom);
    let mut y = profile::draw(&mut canvas, &frame, below);
    for figure in FIGURES {
        y = by_run::draw(&mut canvas, &frame, y, figure);
    }
    y = axis::stations(&mut canvas, &frame, y);
    y = plan::legend(&mut canvas, &frame, y);
    canvas.finish(y, "Runs by station", &describe(report))
}

/// The sketch in words.
pub(crate) fn describe(report: &Report) -> String {
    plan::describe(&report.assessment.sketch, report.units)
}
