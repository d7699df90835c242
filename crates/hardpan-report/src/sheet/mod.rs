//! Largest masses over a range of days, as people and programs read them: one
//! value in their units, then text, CSV, JSON and a page to print.

mod csv;
mod json;
mod pdf;
mod text;

pub use csv::masses_csv;
pub use json::{MASSES_FORMAT, MASSES_VERSION, masses_json, masses_schema};
pub use pdf::masses_pdf;
pub use text::masses_text;

use crate::Produced;
use crate::measure::{Rounding, amount_text, quantity_text, rounded};
use crate::wrap::plain;
use hardpan_assess::{FlapsTried, MassCell, MassPanel, MassSheet};
use hardpan_model::Verdict;
use hardpan_quantity::{Amount, Dimension, Quantity, Speed, UnitSystem};

/// What a sheet of masses leaves out.
pub const MASSES_LEAVE_OUT: &str = "Each movement stands by itself: tyres are set once for both, so that \
    the two masses of a day need not hold together. \
    The wind blows straight along the movement, without crosswind and gusts. \
    Everything else is as the flight file has it: assess the flight itself before it goes.";

/// Largest masses over a range of days, in the reader's units.
#[derive(Debug, Clone, PartialEq)]
pub struct MassesReport {
    pub(crate) units: UnitSystem,
    produced: Produced,
    pub(crate) sheet: MassSheet,
}

impl MassesReport {
    /// The sheet in one system of units.
    #[must_use]
    pub fn new(sheet: &MassSheet, units: UnitSystem, produced: Produced) -> Self {
        let produced = Produced {
            by: plain(&produced.by),
            at: plain(&produced.at),
            identifier: plain(&produced.identifier),
        };
        Self { units, produced, sheet: sheet.clone() }
    }

    pub(crate) fn title(&self) -> String {
        let identity = &self.sheet.identity;
        format!("Largest masses of {} at {}", plain(&identity.aeroplane), plain(&identity.strip))
    }

    pub(crate) fn subtitle(&self) -> String {
        let identity = &self.sheet.identity;
        format!("{}; {}", plain(&identity.flight), plain(&identity.directions))
    }

    /// Codes that stand in the sheet, and what each checks; in order of code.
    pub(crate) fn codes(&self) -> Vec<(&'static str, String)> {
        let rows = self.sheet.panels.iter().flat_map(|panel| &panel.rows);
        let mut codes: Vec<(&'static str, String)> = rows
            .flatten()
            .filter_map(|cell| cell.by.as_ref())
            .map(|(code, title)| (*code, plain(title)))
            .collect();
        codes.sort();
        codes.dedup();
        codes
    }

    /// Name of the unit of mass.
    fn mass_unit(&self) -> &'static str {
        match self.units {
            UnitSystem::Metric => "kg",
            UnitSystem::Imperial => "lb",
        }
    }

    pub(crate) fn panel_title(&self, panel: &MassPanel) -> String {
        let mut parts =
            vec![format!("Largest {} mass, {}", panel.movement.word(), self.mass_unit())];
        parts.push(panel.state.map_or("state not stated".to_owned(), |s| s.word().to_owned()));
        parts.push(match panel.pressure {
            Some(pressure) => format!("main tyres {}", quantity_text(pressure, self.units)),
            None => "main tyres at the least that each mass allows".to_owned(),
        });
        let first = self.sheet.panels.first().and_then(|first| first.air_pressure);
        let is_varied = self.sheet.panels.iter().any(|panel| panel.air_pressure != first);
        parts.extend(panel.air_pressure.filter(|_| is_varied).map(|pressure| {
            let pressure = Amount::new(Dimension::AirPressure, pressure.si());
            format!("air pressure at sea level {}", amount_text(pressure, self.units))
        }));
        if self.sheet.flaps == FlapsTried::Best {
            parts.push("best flap that is allowed".to_owned());
        }
        parts.extend(
            panel.planned.map(|mass| format!("planned {}", quantity_text(mass, self.units))),
        );
        parts.join("; ")
    }

    /// Headings of the columns of wind.
    pub(crate) fn winds(&self) -> Vec<String> {
        self.sheet.headwinds.iter().map(|wind| wind_text(*wind, self.units)).collect()
    }

    pub(crate) fn temperatures(&self) -> Vec<String> {
        self.sheet.temperatures.iter().map(|one| quantity_text(*one, self.units)).collect()
    }

    /// What limits a cell, with flap and decision speed where the best flap was
    /// looked for.
    fn by(&self, cell: &MassCell) -> String {
        let mut words = code(cell).to_owned();
        if self.sheet.flaps == FlapsTried::Best && cell.mass.is_some() {
            if let Some(flap) = &cell.flap {
                words.push_str(&format!(" · {}", plain(flap)));
            }
            if let Some(speed) = cell.decision {
                words.push_str(&format!(" · V1 {}", quantity_text(speed, self.units)));
            }
        }
        words
    }

    /// The mass of a cell without its unit; a sign where there is none.
    fn mass(&self, cell: &MassCell) -> String {
        match (cell.mass, cell.verdict) {
            (Some(mass), _) => {
                rounded(mass.into(), Rounding::Down, self.units).show_parts(self.units).0
            }
            (None, Verdict::Unproven) => "? unproven".to_owned(),
            (None, _) => "✗ none".to_owned(),
        }
    }
}

fn wind_text(wind: Speed, units: UnitSystem) -> String {
    let size = quantity_text(Speed::from_si(wind.si().abs()), units);
    match wind.si() {
        si if si < 0.0 => format!("tail {size}"),
        si if si > 0.0 => format!("head {size}"),
        _ => "calm".to_owned(),
    }
}

fn code(cell: &MassCell) -> &'static str {
    cell.by.as_ref().map_or("", |(code, _)| code)
}

fn amount_in<Q: Quantity>(quantity: Q, units: UnitSystem) -> (String, String) {
    parts_of(Amount::new(Q::DIMENSION, quantity.si()), units)
}

fn parts_of(amount: Amount, units: UnitSystem) -> (String, String) {
    let (number, unit) = amount.show_parts(units);
    (number.replace(['\u{a0}', '\u{202f}'], "").replace('−', "-"), unit.to_owned())
}
