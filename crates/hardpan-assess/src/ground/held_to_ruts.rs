//! The law of ruts held to those that were measured, and the rut that it gives after
//! all passes at the worst place.

use crate::context::Context;
use crate::draft::need;
use crate::ground::rut_record::of_law;
use crate::ground::two_layers::{TwoLayers, passes_asked, two_layers};
use crate::measured::{Known, Unavailable};
use hardpan_ground::{BARBER_RUT, FEWEST_RUTS, RutCalibration};
use hardpan_model::{MeasuredRut, Step};
use hardpan_quantity::{Amount, Force, Length, Quantity, inches};

/// Probability that a place stays under the rut that is told of it.
pub(crate) const STAYS_UNDER: f64 = 0.95;

/// Greatest rut that a published rule for unpaved surfaces allows.
pub(crate) fn limit() -> Length {
    inches(3.0)
}

/// The ruts and what they say of the law.
pub(crate) struct HeldToRuts<'a> {
    /// Each with that of the law.
    pub(crate) used: Vec<(&'a MeasuredRut, Length)>,
    /// Why others are not.
    pub(crate) aside: Vec<String>,
    pub(crate) found: Known<RutCalibration>,
}

impl<'a> HeldToRuts<'a> {
    pub(crate) fn of(context: &Context<'_>, ruts: &'a [MeasuredRut]) -> Self {
        let (mut used, mut aside) = (Vec::new(), Vec::new());
        for rut in ruts {
            if rut.depth.value.si() <= 0.0 {
                aside.push("no rut was found".to_owned());
                continue;
            }
            match of_law(context.flight, context.measured, rut) {
                Ok(law) => used.push((rut, law)),
                Err(why) => aside.push(why.because),
            }
        }
        let pairs: Vec<(Length, Length)> =
            used.iter().map(|(rut, law)| (rut.depth.value, *law)).collect();
        let found = if pairs.len() < FEWEST_RUTS {
            let how =
                format!("{FEWEST_RUTS} or more where a stronger layer lies over a weaker one");
            let because = format!("{} of {} ruts can be held to the law", pairs.len(), ruts.len());
            Err(Unavailable { because, needs: vec![need("strip: ruts", &how)] })
        } else {
            RutCalibration::of(&pairs).map_err(Unavailable::from)
        };
        aside.sort();
        aside.dedup();
        Self { used, aside, found }
    }

    /// Passes that the ruts have had.
    pub(crate) fn so_far(&self) -> f64 {
        self.used.iter().map(|(rut, _)| rut.passes.value).fold(0.0, f64::max)
    }
}

/// The worst place and all passes by then.
pub(crate) struct Ahead<'a> {
    pub(crate) place: TwoLayers<'a>,
    pub(crate) single: Force,
    /// The steps to that load.
    pub(crate) load: Vec<Step>,
    pub(crate) passes: f64,
}

/// The worst place after the passes that the flight asks for on top of those so far.
pub(crate) fn ahead<'a>(context: &Context<'a>, so_far: f64) -> Known<Ahead<'a>> {
    let place = two_layers(context)?;
    let passes = passes_asked(context)?;
    let (single, load) = place.equivalent(context)?;
    Ok(Ahead { place, single, load, passes: so_far + passes.value })
}

impl Ahead<'_> {
    /// Rut of the law, with the strength that is most likely there.
    pub(crate) fn law(&self) -> Known<Length> {
        let rut = BARBER_RUT.value(&[
            self.single.into(),
            self.place.pressure.into(),
            Amount::coefficient(self.passes),
            self.place.thickness.into(),
            self.place.above.into(),
            self.place.below.into(),
        ]);
        rut.map(|rut| Length::from_si(rut.si))
            .map_err(|error| Unavailable::refused("the rut", &error))
    }
}

/// Logarithm of the limit over the rut that the worst place stays under with a
/// probability.
pub(crate) fn left(context: &Context<'_>, probability: f64) -> Known<f64> {
    let held = HeldToRuts::of(context, &context.flight.strip.ruts);
    let law = ahead(context, held.so_far())?.law()?;
    let over_law = held.found?.log_under(probability);
    let over_law = over_law.ok_or_else(|| Unavailable::refused("the rut", &"no probability"))?;
    Ok((limit() / law).si().ln() - over_law)
}
