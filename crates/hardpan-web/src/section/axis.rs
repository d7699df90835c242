//! The station axis: from metres along the strip to places on the page.

use hardpan_assess::Sketch;
use hardpan_quantity::{Length, Quantity as _, UnitSystem};
use hardpan_report::{Scale, station_unit};
use maud::{Markup, html};

/// Width of the drawings in their own terms; the page stretches them.
pub(super) const WIDTH: f64 = 1000.0;

/// The axis from station 0 to the last one.
pub(super) struct Axis {
    last: f64,
    units: UnitSystem,
}

impl Axis {
    /// The axis of a strip; as far as its survey goes where it states no length.
    pub(super) fn of(sketch: &Sketch, units: UnitSystem) -> Option<Self> {
        let surveyed = || sketch.profile.last().map(|(station, _)| *station);
        let last = sketch.length.or_else(surveyed)?.si();
        (last.is_finite() && last > 0.0).then_some(Self { last, units })
    }

    pub(super) const fn units(&self) -> UnitSystem {
        self.units
    }

    /// Last station, metres.
    pub(super) const fn last(&self) -> f64 {
        self.last
    }

    /// Share of the length, held within the strip.
    pub(super) fn share(&self, station: f64) -> f64 {
        if station.is_finite() { (station / self.last).clamp(0.0, 1.0) } else { 0.0 }
    }

    /// Place of a station across the page.
    pub(super) fn at(&self, station: f64) -> String {
        percent(self.share(station))
    }

    /// Place and width of a stretch; a short one stays visible.
    pub(super) fn stretch(&self, from: Length, to: Length) -> (String, String) {
        let (from, to) = (self.share(from.si()), self.share(to.si()));
        let width = (to - from).abs().max(0.003);
        (percent(from.min(to).min(1.0 - width)), percent(width))
    }

    /// Place of a station in a drawing that is stretched.
    pub(super) fn across(&self, station: f64) -> f64 {
        station / self.last * WIDTH
    }

    /// Round stations, as shown and in metres.
    pub(super) fn ticks(&self) -> Vec<(String, f64)> {
        let (_, size) = station_unit(self.units);
        let ticks = Scale::new((0.0, self.last), (0.0, WIDTH)).ticks(size, 10);
        ticks.into_iter().map(|(shown, station)| (format!("{shown:.0}"), station)).collect()
    }

    /// Ticks and numbers under the handle.
    pub(super) fn drawing(&self) -> Markup {
        let (_, size) = station_unit(self.units);
        let end = format!("{:.0}", self.last / size);
        html! {
            svg.scale width="100%" height="30" aria-hidden="true" focusable="false" {
                line.axis x1="0" x2="100%" y1="1" y2="1" {}
                @for (index, (shown, station)) in self.ticks().iter().enumerate() {
                    @let place = self.at(*station);
                    line.axis x1=(place) x2=(place) y1="1" y2="7" {}
                    @let share = self.share(*station);
                    @if share < 0.95 {
                        @let odd = if index % 2 == 1 || share > 0.88 { " odd" } else { "" };
                        text class={ "tick" (odd) } x=(place) y="20" { (shown) }
                    }
                }
                line.axis x1="100%" x2="100%" y1="1" y2="7" {}
                text.tick.end x="100%" y="20" { (end) }
            }
        }
    }
}

/// A share as SVG and CSS write it.
pub(super) fn percent(share: f64) -> String {
    format!("{:.3}%", share * 100.0)
}
