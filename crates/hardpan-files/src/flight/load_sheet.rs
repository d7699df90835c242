//! The mass of a movement from what it is made of: operating mass, load and fuel.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use hardpan_model::{Flight, Given};
use hardpan_quantity::{Mass, Quantity, kilograms};

/// How far a stated mass may lie from the sum of its parts: each is written to
/// the nearest ten kilograms or fifty pounds (judgement).
const ROUNDED_KG: f64 = 50.0;

/// A mass and the load in it, each as stated.
type Stated = Option<Given<Mass>>;

/// Sum a mass that is left out; a stated one must agree with its parts.
///
/// A movement whose load is not stated is left as it is. Where the load is
/// stated and another part is not, a mass that is left out stays unknown.
pub(crate) fn complete(page: &Page<'_>, flight: &mut Flight) {
    let operating = &flight.aeroplane.mass.operating;
    let options = &flight.options;
    if let Some(landing) = &mut flight.landing {
        one(page, (&mut landing.mass, &landing.load), (operating, &options.landing_fuel));
    }
    if let Some(take_off) = &mut flight.take_off {
        one(page, (&mut take_off.mass, &take_off.load), (operating, &options.take_off_fuel));
    }
}

fn one(
    page: &Page<'_>,
    (mass, load): (&mut Stated, &Stated),
    (operating, fuel): (&Stated, &Stated),
) {
    let (Some(operating), Some(load), Some(fuel)) = (operating, load, fuel) else { return };
    let sum = kilograms(operating.value.si() + load.value.si() + fuel.value.si());
    let Some(stated) = mass else {
        *mass =
            Some(Given { value: sum, origin: load.origin.clone(), source: load.source.clone() });
        return;
    };
    if (stated.value.si() - sum.si()).abs() <= ROUNDED_KG {
        return;
    }
    let told = |part: &Given<Mass>| format!("{:.0} kg", part.value.si());
    let mistake = Mistake::LoadSheet {
        mass: stated.origin.key.to_string(),
        stated: told(stated),
        sum: format!("{:.0} kg", sum.si()),
        parts: format!(
            "operating mass {}, load {} and fuel {}",
            told(operating),
            told(load),
            told(fuel)
        ),
    };
    page.report(page.value_at(&stated.origin), &mistake);
}

/// State a mass or a load again: whichever is not stated again no longer fits
/// the other, and goes.
pub(crate) fn put(
    (mass, load): (&mut Stated, &mut Stated),
    (new_mass, new_load): (Stated, Stated),
) {
    if new_mass.is_some() || new_load.is_some() {
        *mass = new_mass;
        *load = new_load;
    }
}
