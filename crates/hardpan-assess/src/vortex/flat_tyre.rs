//! The vortex with a flat tyre: inlet or propeller at the least of its heights.

use crate::draft::{Draft, beside, computed, given, plain_step};
use crate::measured::{Known, Unavailable};
use crate::propeller_vortex::propeller;
use crate::vortex::inlet;
use crate::wheels_down::height_on_flat_tyre;
use hardpan_debris::{Inlet, Propeller};
use hardpan_model::{BasisInput, Flight, Given, Leg, LowPart, Source, Step, Tier};
use hardpan_quantity::{Amount, Length};

const PLANE: Source =
    Source::new("", "plane through three wheels, the worst leg flat", Tier::Derived);

/// The inlet with the tyres of any one leg flat, and how low it comes.
pub(crate) fn inlet_on_flat_tyre(flight: &Flight) -> Known<(Inlet, Step)> {
    let standing = inlet(flight)?;
    let height = height_on_flat_tyre(flight, standing.height, LowPart::Pod)?;
    let stated = flight.aeroplane.engines.inlet_height.as_ref();
    Ok((Inlet { height, ..standing }, lowered(flight, "inlet height", stated, height)))
}

/// The propeller likewise.
pub(crate) fn propeller_on_flat_tyre(flight: &Flight) -> Known<(Propeller, Step)> {
    let standing = propeller(flight)?;
    let height = height_on_flat_tyre(flight, standing.height, LowPart::Propeller)?;
    let stated = flight.aeroplane.engines.propeller_height.as_ref();
    Ok((
        Propeller { height, ..standing },
        lowered(flight, "height of the propeller's axis", stated, height),
    ))
}

fn lowered(flight: &Flight, name: &str, stated: Option<&Given<Length>>, height: Length) -> Step {
    let gear = &flight.aeroplane.gear;
    let radii = |leg: &Leg, name: &str| -> Vec<BasisInput> {
        let loaded = leg.tyre.loaded_radius.as_ref();
        let flat = leg.tyre.flat_radius.as_ref();
        let loaded = loaded.map(|value| given(&format!("{name} loaded radius"), value));
        let flat = flat.map(|value| given(&format!("{name} flat radius"), value));
        loaded.into_iter().chain(flat).collect()
    };
    let mut inputs: Vec<BasisInput> =
        stated.map(|value| given(name, value).under("height")).into_iter().collect();
    let by = "greatest at the low points beside it, by the plane through the wheels";
    let lowering = stated.map(|stated| beside("lowering", stated.value - height, by));
    inputs.extend(lowering.map(|lowering| lowering.under("lowering")));
    inputs.extend(gear.wheelbase.as_ref().map(|value| given("wheelbase", value)));
    inputs.extend(gear.track.as_ref().map(|value| given("track", value)));
    inputs.extend(radii(&gear.nose, "nose"));
    inputs.extend(radii(&gear.main, "main"));
    plain_step(
        &format!("{name}, the tyres of one leg flat"),
        "height − lowering",
        PLANE,
        inputs,
        height,
    )
}

/// What a flat tyre makes of a figure, added to its basis; where it is not
/// known, the finding says so.
pub(crate) fn with_flat_tyre<T: Copy + Into<Amount>>(
    draft: Draft,
    what: &str,
    source: Source,
    found: Known<(T, Step)>,
) -> (Draft, Option<T>) {
    match found {
        Ok((value, lowered)) => {
            let step = plain_step(
                &format!("{what}, with a flat tyre"),
                &format!("the rule of the {what}, at the height with a flat tyre"),
                source,
                vec![computed("least height", lowered.result, "the step above")],
                value,
            );
            (draft.step(lowered).step(step), Some(value))
        }
        Err(why) => (draft.caveat(unknown(&why)), None),
    }
}

fn unknown(why: &Unavailable) -> String {
    let needs: Vec<&str> = why.needs.iter().map(|need| need.what.as_str()).collect();
    if needs.is_empty() {
        format!("with a flat tyre it is not known: {}", why.because)
    } else {
        format!("with a flat tyre it is not known; {} would tell", needs.join("; "))
    }
}
