//! One draw: the flight as it might really be.

use super::inputs::{Inputs, Kind};
use crate::ground::Ground;
use crate::ground::rut_drag::{RutDrag, RutsByPoint, over_ruts};
use crate::measure::{Standing, measure};
use crate::measured::{Known, Measured};
use crate::movements::LATE;
use crate::tyres::TyrePressure;
use hardpan_ground::{StrengthAlong, penetrometer::CREDIT_DIVISOR};
use hardpan_math::normal_quantile;
use hardpan_model::{Flight, Given, SurfaceFriction, Wind};
use hardpan_quantity::{
    Angle, Force, Length, Mass, Power, Pressure, Quantity, Ratio, Speed, Temperature, ratio,
};
use std::f64::consts::PI;
use std::sync::Arc;

/// Temperature below which no draw goes, K: that of the coldest plausible day.
const COLDEST_K: f64 = 193.15;

/// What every draw of one flight starts from.
pub(super) struct Start<'a> {
    flight: &'a Flight,
    /// The flight without the long lists that only the standing strip needs.
    lean: Flight,
    inputs: &'a Inputs,
    standing: Standing,
    strength: Known<(StrengthAlong, Ground)>,
    rolling: Option<Ratio>,
    braking: Option<Ratio>,
    /// Main and nose tyres as the assessment sets them.
    tyres: [Known<TyrePressure>; 2],
    /// Rolling over ruts as the assessment counts it.
    rut_drag: Option<Arc<RutDrag>>,
    /// What that rests on, where the laws of ruts are drawn.
    ruts: Option<RutsByPoint>,
}

/// A flight drawn, measured.
pub(super) struct Drawn {
    /// With the masses as they really are.
    pub(super) flight: Flight,
    pub(super) measured: Measured,
    /// The ground without the draw of the thickness law.
    pub(super) without_law: Known<Ground>,
    /// The ground as sounded and tested, with nothing taken out for what is credited of
    /// it; none where no rut was measured, which alone is held to it.
    pub(super) as_found: Option<Known<Ground>>,
    /// How the laws err that the ground does not stand for.
    pub(super) laws: Laws,
    /// Real mass over the mass planned.
    pub(super) mass: f64,
    /// Error of the levels, in deviations.
    pub(super) levels: f64,
}

/// How laws err in a draw.
#[derive(Debug, Clone, Copy)]
pub(super) struct Laws {
    /// Ruts over those of the laws.
    pub(super) ruts: f64,
    /// Probability that ruts stay under the one drawn, where measured ruts tell it;
    /// none where the law of ruts is exact.
    pub(super) rut_under: Option<f64>,
    /// Strain over that allowed, over what the laws of both say.
    pub(super) strain: f64,
}

impl<'a> Start<'a> {
    pub(super) fn new(
        flight: &'a Flight,
        inputs: &'a Inputs,
        standing: Standing,
        measured: &Measured,
    ) -> Self {
        let strength = Ground::new(flight).and_then(|ground| {
            let along = Ground::along(flight)?;
            Ok((along, ground))
        });
        let mut lean = flight.clone();
        lean.strip.survey = None;
        lean.strip.soundings = Vec::new();
        lean.strip.strength_tests = Vec::new();
        let friction = flight.day.surface_state.as_ref().and_then(|state| {
            hardpan_run::friction(&flight.strip, &flight.aeroplane, state.value).ok()
        });
        let is_varied = |kind: Kind| inputs.axes.iter().any(|axis| axis.kind == kind);
        // What is not varied keeps the credit that the assessment gives it.
        let of = |kind: Kind, one: &hardpan_run::Coefficient| {
            if is_varied(kind) { one.value } else { one.credited }
        };
        let rolling = friction.as_ref().map(|friction| of(Kind::Rolling, &friction.rolling));
        let braking = friction.as_ref().map(|friction| of(Kind::Braking, &friction.braking));
        let tyres = [measured.main_tyre.clone(), measured.nose_tyre.clone()];
        let rut_drag = measured.rut_drag.clone();
        let on_ruts = rut_drag.as_ref().zip(measured.ground.as_ref().ok());
        let ruts = on_ruts
            .filter(|_| is_varied(Kind::RutLaw))
            .map(|(drag, ground)| RutsByPoint::of(flight, ground, drag.of));
        Self { flight, lean, inputs, standing, strength, rolling, braking, tyres, rut_drag, ruts }
    }

    pub(super) const fn flight(&self) -> &Flight {
        self.flight
    }

    pub(super) const fn standing(&self) -> &Standing {
        &self.standing
    }

    /// The flight at one point of the cube, with each deviation as stated.
    pub(super) fn at(&self, point: &[f64], deviations: &[f64]) -> Drawn {
        let mut flight = self.lean.clone();
        let mut strengths = Strengths::new(self);
        let (mut rolling, mut braking) = (1.0, 1.0);
        let (mut blown, mut turned) = (0.0, 0.0);
        let (mut mass, mut levels, mut asked) = (1.0, 0.0, 1.0);
        let mut laws = Laws { ruts: 1.0, rut_under: None, strain: 1.0 };
        for ((axis, coordinate), deviation) in self.inputs.axes.iter().zip(point).zip(deviations) {
            let z = normal_quantile(*coordinate).unwrap_or(0.0);
            let (factor, error) = (lognormal(*deviation, z), deviation * z);
            match axis.kind {
                Kind::Law => strengths.law = factor,
                Kind::BearingLaw => asked = factor,
                Kind::Soundings(from, to) => strengths.set(&self.inputs.order[from..to], factor),
                Kind::Rolling => rolling = factor,
                Kind::Braking => braking = factor,
                Kind::WindSpeed => blown = error,
                Kind::WindDirection => turned = error,
                Kind::Temperature => {
                    change(&mut flight.day.temperature, |at: Temperature| {
                        Temperature::from_si((at.si() + error).max(COLDEST_K))
                    });
                }
                Kind::AirPressure => {
                    change(&mut flight.day.sea_level_pressure, |at: Pressure| {
                        at + Pressure::from_si(error)
                    });
                }
                Kind::Mass => mass = factor,
                Kind::Thrust => thrust(&mut flight, factor),
                Kind::Touchdown => touchdown(&mut flight, z * deviation),
                Kind::Levels => levels = z,
                Kind::RutLaw => {
                    laws.ruts = factor;
                    laws.rut_under = (*deviation > 0.0).then_some(*coordinate);
                }
                Kind::StrainLaw => laws.strain = factor,
            }
        }
        wind(&mut flight, self.flight, blown, turned);
        self.friction(&mut flight, rolling, braking);
        weigh(&mut flight, mass);
        let strengths = strengths.by_the_law();
        let without_law = strengths.ground();
        let as_found = (!flight.strip.ruts.is_empty()).then(|| strengths.as_found());
        let ground = without_law.clone().map(|ground| asked_more_of(ground, asked));
        let measured = self.measured(&flight, ground, ratio(laws.ruts));
        Drawn { flight, measured, without_law, as_found, laws, mass, levels }
    }

    /// Friction as drawn, in place of what is stated or published.
    fn friction(&self, flight: &mut Flight, rolling: f64, braking: f64) {
        let Some(state) = &self.flight.day.surface_state else { return };
        let (Some(rolls), Some(brakes)) = (self.rolling, self.braking) else { return };
        let drawn = |key: &str, value: Ratio, factor: f64| {
            Some(Given::stated(key, ratio((value.si() * factor).min(1.0))))
        };
        // Stretches of their own friction are drawn with the rest.
        flight.strip.friction.retain(|stated| stated.between.is_some());
        for stretch in &mut flight.strip.friction {
            change(&mut stretch.rolling, |value| ratio((value.si() * rolling).min(1.0)));
            change(&mut stretch.braking, |value| ratio((value.si() * braking).min(1.0)));
        }
        flight.strip.friction.push(SurfaceFriction {
            state: state.value,
            over_ruts: over_ruts(self.flight).cloned(),
            rolling: drawn("rolling", rolls, rolling),
            braking: drawn("braking", brakes, braking),
            between: None,
        });
    }

    /// The measures without what no limit on a mass asks for: tyres are those of the
    /// assessment, and so is rolling over ruts, but for how deep the law has them.
    fn measured(&self, flight: &Flight, ground: Known<Ground>, ruts: Ratio) -> Measured {
        let drawn = self.ruts.as_ref().map(|by_point| Arc::new(by_point.drag(ruts)));
        let standing = self.standing.for_a_draw(drawn.or_else(|| self.rut_drag.clone()));
        let mut measured = measure(flight, &standing, &[]);
        measured.ruts_over_laws = ruts;
        measured.ground = ground;
        let [main, nose] = &self.tyres;
        (measured.main_tyre, measured.nose_tyre) = (main.clone(), nose.clone());
        measured
    }
}

/// Strength of the ground of one draw.
struct Strengths<'a> {
    start: &'a Start<'a>,
    law: f64,
    soundings: Vec<f64>,
}

impl<'a> Strengths<'a> {
    fn new(start: &'a Start<'a>) -> Self {
        Self { start, law: 1.0, soundings: vec![1.0; start.flight.strip.soundings.len()] }
    }

    fn set(&mut self, soundings: &[usize], factor: f64) {
        for at in soundings {
            if let Some(one) = self.soundings.get_mut(*at) {
                *one = factor;
            }
        }
    }

    /// Each sounding read by the law as drawn.
    fn by_the_law(mut self) -> Self {
        for one in &mut self.soundings {
            *one *= self.law;
        }
        self
    }

    /// The lanes as drawn. The rules credit the mean of the law over a divisor;
    /// where the law itself is drawn, that divisor is taken out. Strength tests
    /// and a law that is not drawn keep it.
    fn ground(&self) -> Known<Ground> {
        let mut ground = self.with_tests(1.0 / CREDIT_DIVISOR)?;
        crate::repairs::weaken(Arc::make_mut(&mut ground.lanes), CREDIT_DIVISOR);
        Ok(ground)
    }

    /// The lanes as drawn, with nothing taken out.
    fn as_found(&self) -> Known<Ground> {
        self.with_tests(1.0)
    }

    fn with_tests(&self, of_tests: f64) -> Known<Ground> {
        let (along, ground) = self.start.strength.as_ref().map_err(Clone::clone)?;
        let mut ground = ground.clone();
        ground.lanes = along.varied(&self.soundings, of_tests).into();
        Ok(ground)
    }
}

/// Ground of which the thickness law asks so many times more: that which has so many
/// times less strength for it. Nothing is credited against the scatter of that law, so
/// that nothing is taken out.
fn asked_more_of(mut ground: Ground, factor: f64) -> Ground {
    if factor != 1.0 {
        crate::repairs::weaken(Arc::make_mut(&mut ground.lanes), 1.0 / factor);
    }
    ground
}

/// A factor with median 1 and a standard deviation over its mean.
fn lognormal(deviation: f64, z: f64) -> f64 {
    ((1.0 + deviation * deviation).ln().sqrt() * z).exp()
}

fn change<T: Copy>(given: &mut Option<Given<T>>, by: impl FnOnce(T) -> T) {
    if let Some(given) = given {
        given.value = by(given.value);
    }
}

/// The masses planned, times a factor.
fn weigh(flight: &mut Flight, factor: f64) {
    let landing = flight.landing.as_mut().map(|plan| &mut plan.mass);
    let take_off = flight.take_off.as_mut().map(|plan| &mut plan.mass);
    for mass in landing.into_iter().chain(take_off) {
        change(mass, |mass: Mass| mass * factor);
    }
}

fn thrust(flight: &mut Flight, factor: f64) {
    let engines = &mut flight.aeroplane.engines;
    change(&mut engines.static_thrust, |thrust: Force| thrust * factor);
    change(&mut engines.shaft_power, |power: Power| power * factor);
}

/// The stop after a late touchdown is computed for a scatter of one in twenty;
/// the scatter that brings it to the touchdown drawn. A touchdown before the
/// mean counts as one at the mean.
fn touchdown(flight: &mut Flight, error: f64) {
    if let Some(landing) = &mut flight.landing {
        let by = error.max(0.0) / LATE;
        change(&mut landing.touchdown_scatter, |_: Length| Length::from_si(by));
    }
}

/// The wind that the movement meets. A calm turns into a wind along the strip,
/// from either side; a wind without one direction keeps having none.
fn wind(flight: &mut Flight, planned: &Flight, blown: f64, turned: f64) {
    let bearing = planned.strip.bearing.as_ref().map(|bearing| bearing.value.si());
    change(&mut flight.day.wind, |wind: Wind| {
        let calm = wind.speed.si() == 0.0 && wind.from.is_none();
        let from = match (wind.from, calm, bearing) {
            (Some(from), ..) => Some(from.si() + turned),
            (None, true, Some(bearing)) => Some(if blown < 0.0 { bearing + PI } else { bearing }),
            _ => None,
        };
        let speed = if calm { blown.abs() } else { (wind.speed.si() + blown).max(0.0) };
        let more = Speed::from_si(speed) - wind.speed;
        Wind {
            from: from.map(|from| Angle::from_si(from.rem_euclid(2.0 * PI))),
            speed: Speed::from_si(speed),
            gust: wind.gust.map(|gust| (gust + more).max(Speed::from_si(speed))),
            between: wind.between,
        }
    });
}

#[cfg(test)]
mod tests {
    use super::lognormal;
    use hardpan_math::{EvenPoints, normal_quantile};

    /// Closed form: median 1, mean the root of (1 + d²), deviation over the mean d.
    #[test]
    fn a_factor_has_the_deviation_that_is_stated() {
        let points = EvenPoints::new(1, 3).expect("one axis");
        let factors: Vec<f64> = (0..16_384)
            .filter_map(|i| points.point(i))
            .filter_map(|point| normal_quantile(point[0]))
            .map(|z| lognormal(0.16, z))
            .collect();
        let count = factors.len() as f64;
        let mean = factors.iter().sum::<f64>() / count;
        let square = factors.iter().map(|one| (one - mean).powi(2)).sum::<f64>() / count;
        assert!((mean - (1.0_f64 + 0.16 * 0.16).sqrt()).abs() < 1e-4, "{mean}");
        assert!((square.sqrt() / mean - 0.16).abs() < 1e-3, "{}", square.sqrt() / mean);
    }
}
