//! The flight that stands behind one place of a sheet of masses.

use super::cell::{at, with_flap};
use super::{MassCell, SheetMovement, of_one_movement, on_a_day};
use crate::masses::lightest;
use hardpan_model::{Flight, Given, Origin};
use hardpan_quantity::{Mass, Speed, Temperature};

/// The flight of one place of a sheet, alone, on its day, with its flap and its largest
/// mass: assessed, it opens what the place tells to its steps. Where no mass holds it has
/// the lightest that was tried, as the place itself was judged.
#[must_use]
pub fn flight_of_place(
    flight: &Flight,
    movement: SheetMovement,
    (temperature, headwind): (Temperature, Speed),
    cell: &MassCell,
) -> Flight {
    let alone = of_one_movement(flight, movement, None, (None, None));
    let mut on = on_a_day(&alone, movement, temperature, headwind);
    if let Some(name) = &cell.flap {
        let origin =
            Origin { file: "the sheet of masses".into(), line: 0, column: 0, key: "flap".into() };
        let name = Given { value: name.clone(), origin, source: None };
        on = with_flap(&on, movement, &name);
    }
    let maximum = match movement {
        SheetMovement::TakeOff => flight.aeroplane.mass.maximum_take_off.as_ref(),
        SheetMovement::Landing => flight.aeroplane.mass.maximum_landing.as_ref(),
    };
    let least = |maximum: Mass| lightest(flight, maximum).min(maximum);
    match cell.mass.or_else(|| maximum.map(|given| least(given.value))) {
        Some(mass) => at(&on, movement, mass),
        None => on,
    }
}
