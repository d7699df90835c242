//! What the measures say of a flight, each figure or the reason why not.

use crate::ground::rut_drag::RutDrag;
use crate::ground::season::{FrostByDay, frost_by_day};
use crate::ground::surfacing::{Thinnest, thinnest};
use crate::ground::{Ground, StationLoads, Worst};
use crate::movements::{LandingCase, TakeOffCase};
use crate::rides::{Asked, Rides, rides};
use crate::runs::Runs;
use crate::shape::StripShape;
use crate::tyres::TyrePressure;
use hardpan_ground::{FrostState, GearArms, LegLoads, RequirementTable};
use hardpan_model::{Flight, Need, Step};
use hardpan_quantity::{Length, Ratio};
use hardpan_run::{Air, Friction, LandingRun, TakeOffRun, WindComponents};
use hardpan_surface::LineSlopes;
use std::sync::{Arc, OnceLock};

/// Why a figure is not known.
#[derive(Debug, Clone, PartialEq)]
pub struct Unavailable {
    /// In one sentence.
    pub because: String,
    /// What would supply it.
    pub needs: Vec<Need>,
}

/// A figure, or why it is not known.
pub type Known<T> = Result<T, Unavailable>;

impl Unavailable {
    /// Because inputs are missing.
    pub(crate) fn missing(what: &str, needs: Vec<Need>) -> Self {
        Self { because: format!("{what} cannot be computed: inputs are missing"), needs }
    }

    /// Because a method refused.
    pub(crate) fn refused(what: &str, error: &impl std::fmt::Display) -> Self {
        Self { because: format!("{what} cannot be computed: {error}"), needs: Vec::new() }
    }
}

impl From<hardpan_ground::Error> for Unavailable {
    fn from(error: hardpan_ground::Error) -> Self {
        match error {
            hardpan_ground::Error::Missing { needs } => {
                Self::missing("the load on the ground", needs)
            }
            other => Self::refused("the strength of the ground", &other),
        }
    }
}

impl From<hardpan_surface::Error> for Unavailable {
    fn from(error: hardpan_surface::Error) -> Self {
        let needs = vec![Need {
            what: "strip: survey".to_owned(),
            how: "levels along the centre, the wheel lanes and the edges, both ends included"
                .to_owned(),
        }];
        Self { because: format!("the shape of the strip is not known: {error}"), needs }
    }
}

/// Everything that the measures say of a flight.
#[derive(Debug, Clone)]
pub(crate) struct Measured {
    pub(crate) air: Known<Air>,
    pub(crate) landing_wind: Option<Known<WindComponents>>,
    pub(crate) take_off_wind: Option<Known<WindComponents>>,
    pub(crate) shape: Arc<StripShape>,
    pub(crate) rides: Arc<OnceLock<Known<Rides>>>,
    pub(crate) once: Arc<OfTheStrip>,
    /// How much is asked of the rides, where none were ridden yet.
    pub(crate) asked: Asked,
    pub(crate) profile: Known<Vec<(Length, Length)>>,
    pub(crate) friction: Known<Friction>,
    /// Share of its strength that the ground has on the day, where the strip
    /// states less than all of it.
    pub(crate) day_share: Option<f64>,
    /// What the ruts make of the rolling in a take-off; none where what that
    /// rests on is not stated.
    pub(crate) rut_drag: Option<Arc<RutDrag>>,
    /// Ruts over those of the laws: 1 but in a draw.
    pub(crate) ruts_over_laws: Ratio,
    pub(crate) sounding_reach: Length,
    pub(crate) ground: Known<Ground>,
    pub(crate) arms: Known<GearArms>,
    pub(crate) take_off_case: Option<Known<TakeOffCase>>,
    pub(crate) take_off_runs: Option<Arc<Runs<TakeOffCase>>>,
    pub(crate) landing_case: Option<Known<LandingCase>>,
    pub(crate) landing_runs: Option<Arc<Runs<LandingCase>>>,
    pub(crate) take_off: Option<Known<TakeOffRun>>,
    pub(crate) landing: Option<Known<LandingRun>>,
    /// Static leg loads of the planned movements, the greater of both.
    pub(crate) standing: Known<LegLoads>,
    pub(crate) loads: Known<StationLoads>,
    pub(crate) main_tyre: Known<TyrePressure>,
    pub(crate) nose_tyre: Known<TyrePressure>,
    pub(crate) main_carried: Known<Carried>,
    pub(crate) nose_carried: Known<Carried>,
}

/// What the strip alone says, found when first asked for.
#[derive(Debug, Default)]
pub(crate) struct OfTheStrip {
    frost: OnceLock<Option<Known<Vec<FrostState>>>>,
    thinnest: OnceLock<Option<Thinnest>>,
}

impl OfTheStrip {
    /// The frost of the strip by day, where it states one.
    pub(crate) fn frost(&self, flight: &Flight) -> FrostByDay<'_> {
        self.frost.get_or_init(|| frost_by_day(flight)).as_ref()
    }
}

/// The worst place under a kind of leg, and what was asked of the ground.
pub(crate) type Carried = (Worst, RequirementTable);

impl Measured {
    /// The rides of the runs, computed once for one standing strip.
    pub(crate) fn rides(&self, flight: &Flight) -> Result<&Rides, &Unavailable> {
        self.rides.get_or_init(|| rides(flight, self, self.asked)).as_ref()
    }

    /// The frost of the strip by day, where it states one.
    pub(crate) fn frost(&self, flight: &Flight) -> FrostByDay<'_> {
        self.once.frost(flight)
    }

    /// The thinnest surfacing that the soundings show.
    pub(crate) fn thinnest_surfacing(&self, flight: &Flight) -> Option<Thinnest> {
        *self.once.thinnest.get_or_init(|| thinnest(&flight.strip.soundings))
    }

    /// Slopes of the line nearest to the centre.
    pub(crate) fn centre_slopes(&self) -> Known<&LineSlopes> {
        let report = self.shape.surface.as_ref().map_err(Clone::clone)?;
        report
            .slopes
            .iter()
            .min_by(|a, b| {
                let size = |line: &LineSlopes| hardpan_quantity::Quantity::si(line.offset).abs();
                size(a).total_cmp(&size(b))
            })
            .ok_or_else(|| Unavailable::missing("the slope of the strip", Vec::new()))
    }

    /// How the friction of the day came about.
    pub(crate) fn friction_steps(&self) -> Vec<Step> {
        match &self.friction {
            Ok(friction) => vec![friction.rolling.step.clone(), friction.braking.step.clone()],
            Err(_) => Vec::new(),
        }
    }
}
