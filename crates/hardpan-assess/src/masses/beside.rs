//! The other movement: tyres are set once for both, and a take-off begins with the
//! brakes that the landing leaves.

use super::SheetMovement;
use super::pressures::pressure_alone;
use crate::ground::LegKind;
use crate::measured::{Known, Measured};
use crate::tyres::TyrePressure;
use hardpan_model::Flight;
use hardpan_quantity::{Energy, Mass, Pressure};

/// What the other movement at a mass asks of this one; nothing where there is none.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Beside {
    main: Option<Pressure>,
    nose: Option<Pressure>,
    /// Energy that the landing brings to the brakes.
    pub(super) brake_energy: Option<Energy>,
}

impl Beside {
    /// What a movement at a mass asks of the other.
    pub(crate) fn of(
        flight: &Flight,
        measured: &Measured,
        (movement, mass): (SheetMovement, Mass),
    ) -> Self {
        let (centre, landing) = match movement {
            SheetMovement::TakeOff => {
                (flight.take_off.as_ref().map(|it| &it.centre_of_gravity), None)
            }
            SheetMovement::Landing => (
                flight.landing.as_ref().map(|it| &it.centre_of_gravity),
                measured.landing_runs.as_deref(),
            ),
        };
        let centre = centre.and_then(Option::as_ref);
        let least = |kind| pressure_alone(flight, measured, kind, mass, centre).ok().flatten();
        let energy = landing.and_then(|runs| runs.at(mass, |run| run.brake_energy).ok());
        Self { main: least(LegKind::Main), nose: least(LegKind::Nose), brake_energy: energy }
    }

    /// Tyres as they are set for both.
    pub(crate) fn as_set(measured: &Measured) -> Self {
        let set = |tyre: &Known<TyrePressure>| tyre.as_ref().ok().map(|tyre| tyre.set);
        let (main, nose) = (set(&measured.main_tyre), set(&measured.nose_tyre));
        Self { main, nose, brake_energy: None }
    }

    /// The pressure that the other asks for, below which no tyre of a kind is set.
    pub(super) const fn least(&self, kind: LegKind) -> Option<Pressure> {
        match kind {
            LegKind::Main => self.main,
            LegKind::Nose => self.nose,
        }
    }
}
