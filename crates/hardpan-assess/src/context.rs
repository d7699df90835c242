//! What a rule sees: the flight as given and as measured.

use crate::assessment::HandlingTable;
use crate::measured::{Known, Measured, Unavailable};
use crate::rides::Asked;
use crate::stones::Stones;
use hardpan_model::{ApprovedLimit, Flight, Need, Origin, Phase};
use hardpan_quantity::{Amount, Quantity, Speed};
use hardpan_run::WindComponents;

/// The flight as given and as measured.
pub(crate) struct Context<'a> {
    pub(crate) flight: &'a Flight,
    pub(crate) measured: &'a Measured,
    /// Thrown stones; none while a change is tried, or where none can be thrown.
    pub(crate) stones: Option<&'a Known<Stones>>,
    /// Handling compared by the stones that it meets; likewise.
    pub(crate) handling: Option<&'a Known<HandlingTable>>,
    /// Whether advice that costs time is wanted besides the verdict.
    pub(crate) asked: Asked,
}

impl<'a> Context<'a> {
    /// A change that is only tried: no stones are thrown again.
    pub(crate) fn tried(flight: &'a Flight, measured: &'a Measured, asked: Asked) -> Self {
        Self { flight, measured, stones: None, handling: None, asked }
    }
}

impl Context<'_> {
    /// The figure of this flight that an approved limit bounds; none when the
    /// phase is not flown.
    pub(crate) fn quantity(&self, name: &str, phase: Phase) -> Option<Known<Amount>> {
        let flight = self.flight;
        if !self.is_flown(phase) {
            return None;
        }
        let take_off = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
        let landing = flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
        let measured = self.measured;
        Some(match name {
            "crosswind" => self.wind(phase, |wind| wind.crosswind),
            "tailwind" => self.wind(phase, |wind| (-wind.headwind).max(Speed::from_si(0.0))),
            "take-off mass" => {
                flight.take_off.as_ref()?;
                stated(take_off.map(|mass| mass.value), "flight: take_off.mass")
            }
            "landing mass" => {
                flight.landing.as_ref()?;
                stated(landing.map(|mass| mass.value), "flight: landing.mass")
            }
            "main tyre pressure" => pressure(&measured.main_tyre),
            "nose tyre pressure" => pressure(&measured.nose_tyre),
            "outside temperature" => {
                let temperature = flight.day.temperature.as_ref();
                stated(temperature.map(|given| given.value), "day: temperature")
            }
            "pressure altitude" => measured
                .air
                .as_ref()
                .map(|air| air.pressure_altitude().into())
                .map_err(Clone::clone),
            "runway slope" => measured.centre_slopes().map(|slopes| {
                slopes.gradient.end_to_end.abs().max(slopes.gradient.effective).into()
            }),
            "surfacing thickness" => {
                let thinnest = measured.thinnest_surfacing(flight);
                stated(
                    thinnest.map(|found| found.thickness),
                    "strip: soundings through the surfacing",
                )
            }
            _ => {
                let width = flight.strip.width.as_ref();
                stated(width.map(|given| given.value), "strip: width")
            }
        })
    }

    pub(crate) fn is_flown(&self, phase: Phase) -> bool {
        match phase {
            Phase::Landing | Phase::AfterLanding => self.flight.landing.is_some(),
            Phase::BeforeBrakeRelease | Phase::TakeOff | Phase::Climb => {
                self.flight.take_off.is_some()
            }
            Phase::Taxi | Phase::Always => true,
        }
    }

    /// The worst of a wind component over the movements of a phase.
    fn wind(&self, phase: Phase, pick: fn(&WindComponents) -> Speed) -> Known<Amount> {
        let (landing, take_off) = (&self.measured.landing_wind, &self.measured.take_off_wind);
        let counted = match phase {
            Phase::Landing | Phase::AfterLanding => [landing, &None],
            Phase::BeforeBrakeRelease | Phase::TakeOff | Phase::Climb => [&None, take_off],
            Phase::Taxi | Phase::Always => [landing, take_off],
        };
        let mut worst: Option<Speed> = None;
        for wind in counted.into_iter().flatten() {
            let component = pick(wind.as_ref().map_err(Clone::clone)?);
            worst = Some(worst.map_or(component, |most| most.max(component)));
        }
        let missing = || Unavailable::missing("the wind", Vec::new());
        worst.map(Amount::from).ok_or_else(missing)
    }

    /// Where a level of the survey stands.
    pub(crate) fn survey_origin(&self, line: u32) -> Origin {
        let survey = self.flight.strip.survey.as_ref();
        let file = survey.map_or_else(|| "survey".into(), |survey| survey.file.clone());
        Origin { file, line, column: 1, key: "elevation".into() }
    }
}

/// Whether an approved limit bounds movements on the surface of this flight.
pub(crate) fn bounds_today(flight: &Flight, limit: &ApprovedLimit) -> bool {
    let surface = flight.strip.surface.as_ref().map(|given| given.value);
    let state = flight.day.surface_state.as_ref().map(|given| given.value);
    limit.bounds(surface, state)
}

fn stated<T: Into<Amount>>(value: Option<T>, key: &str) -> Known<Amount> {
    value.map(Into::into).ok_or_else(|| {
        let how = "needed to check an approved limit".to_owned();
        Unavailable::missing("the figure", vec![Need { what: key.to_owned(), how }])
    })
}

fn pressure(tyre: &Known<crate::tyres::TyrePressure>) -> Known<Amount> {
    tyre.as_ref().map(|tyre| tyre.set.into()).map_err(Clone::clone)
}
