//! Friction fitted to the operator's charts.

use super::friction::{Coefficient, from_file};
use hardpan_model::{FittedFriction, Mark, Source, Step, Tier};
use hardpan_quantity::{Amount, Quantity, ratio};

/// Deviations on the safe side at which a fitted coefficient is credited:
/// judgement, no document.
const CREDITED_DEVIATIONS: f64 = 2.0;

/// Which of the two coefficients.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Of {
    Rolling,
    Braking,
}

/// A fitted coefficient: credited on the safe side of its deviation, for planning.
pub(super) fn fitted_value(on: &FittedFriction, of: Of) -> Coefficient {
    let (what, given, deviation, side) = match of {
        Of::Rolling => ("rolling", &on.rolling, &on.rolling_deviation, 1.0),
        Of::Braking => ("braking", &on.braking, &on.braking_deviation, -1.0),
    };
    let share = deviation.value.si();
    let value = given.value;
    let credited = (value * (1.0 + side * CREDITED_DEVIATIONS * share)).clamp(0.0, 1.0);
    Coefficient {
        value: ratio(value),
        credited: ratio(credited),
        mark: Mark::PlanningOnly,
        scatter: format!("± {:.0} % at two deviations of the fit", 200.0 * share),
        step: Step {
            computes: format!("{what} coefficient, {} {}", on.state.word(), on.surface.word()),
            formula: None,
            expression: "as fitted to the operator's charts, which bind where they reach"
                .to_owned(),
            source: Source::new("", "fitted to the operator's charts", Tier::Judgement),
            inputs: vec![
                from_file(what, Amount::coefficient(value), given),
                from_file("deviation of the fit", deviation.value.into(), deviation),
            ],
            result: Amount::coefficient(value),
        },
    }
}
