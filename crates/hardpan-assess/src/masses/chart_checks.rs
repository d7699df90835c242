//! Approved charts as limits on a mass.

use super::{Check, missing};
use crate::measured::Measured;
use crate::movements::charts::{approved, available, factor, is_charted};
use hardpan_model::{ChartFigure, Flight};
use hardpan_quantity::{Length, Mass, Quantity};

/// One check for each figure of a movement that has a chart.
pub(super) fn chart_checks<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    take_off: bool,
) -> Vec<Check<'a>> {
    let figures = ChartFigure::ALL.into_iter().filter(|one| one.is_of_take_off() == take_off);
    let charted = figures.filter(|figure| is_charted(flight, *figure));
    charted.map(|figure| check(flight, measured, figure)).collect()
}

fn check<'a>(flight: &'a Flight, measured: &'a Measured, figure: ChartFigure) -> Check<'a> {
    let read = move |mass| {
        let read = approved(flight, measured, figure, mass);
        read.ok_or_else(|| missing("the approved chart"))?
    };
    if figure.is_mass() {
        return Check::at_most("F15", title(figure), move |mass: Mass| {
            Ok(Some((mass, Mass::from_si(read(mass)?.amount.si))))
        });
    }
    Check::at_most("F15", title(figure), move |mass| {
        let read = read(mass)?;
        let factor = match (factor(flight, figure), figure) {
            (Some(factor), _) => factor,
            (None, ChartFigure::LandingDistance) => return Err(missing("the rule of the landing")),
            (None, _) => 1.0,
        };
        let (declared, line_up) =
            available(flight, figure).ok_or_else(|| missing("the declared distance"))?;
        Ok(Some((Length::from_si(read.amount.si * factor), declared.value - line_up)))
    })
}

const fn title(figure: ChartFigure) -> &'static str {
    match figure {
        ChartFigure::TakeOffDistance => "take-off distance, approved chart",
        ChartFigure::TakeOffRun => "take-off run, approved chart",
        ChartFigure::AccelerateStop => "accelerate-stop distance, approved chart",
        ChartFigure::LandingDistance | ChartFigure::LandingDistanceRequired => {
            "landing distance, approved chart"
        }
        ChartFigure::TakeOffMass | ChartFigure::LandingMass => "mass, approved chart",
    }
}
