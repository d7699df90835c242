//! The free constants, and the runs of an aeroplane whose constants are scaled.

use crate::fit::chart_points::{Charted, Point};
use crate::grip::friction::friction;
use crate::landing::{LandingPlan, landing};
use crate::motion::ground::Ground;
use crate::run_model::RunModel;
use crate::situation::Situation;
use crate::take_off::{Available, TakeOffPlan, take_off};
use crate::{Air, WindComponents};
use hardpan_model::{
    Aeroplane, ChartFigure, Condition, Direction, EngineKind, FieldRule, Fitted, FittedFlap,
    FittedFriction, FlapSetting, Given, GroundPoint, Need, Strip, SurfaceKind, SurfaceState,
};
use hardpan_quantity::{Amount, Length, Mass, Quantity, Ratio, Speed, Temperature, ratio};

/// Ground of the charts: even, long enough for any of them.
const LENGTH_M: f64 = 12_000.0;
const POINTS: u32 = 12;
/// Greatest deviation that is told of a constant: twice that it is held with.
const WIDEST: f64 = 0.40;

/// What a factor scales.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Scales {
    Thrust,
    Lift,
    Drag,
    Rolling(SurfaceKind, SurfaceState),
    Braking(SurfaceKind, SurfaceState),
}

/// One free constant as the file has it.
#[derive(Debug, Clone)]
pub(super) struct Constant {
    pub(super) scales: Scales,
    pub(super) name: String,
    pub(super) stated: Amount,
}

/// The free constants of an aeroplane and its charts.
#[derive(Debug, Clone)]
pub(super) struct Constants<'a> {
    aeroplane: &'a Aeroplane,
    centre: Ratio,
    pub(super) list: Vec<Constant>,
}

impl<'a> Constants<'a> {
    /// The constants of an aeroplane, and rolling and braking of each surface
    /// and state that a chart is for.
    pub(super) fn of(aeroplane: &'a Aeroplane, charts: &[Charted]) -> Result<Self, Vec<Need>> {
        let need =
            |what: &str| vec![Need { what: what.to_owned(), how: "to be fitted".to_owned() }];
        let engines = &aeroplane.engines;
        let (name, stated) = match engines.kind.as_ref().map(|kind| kind.value) {
            Some(EngineKind::Turboprop) => {
                ("engines.shaft_power", engines.shaft_power.as_ref().map(|p| p.value.into()))
            }
            _ => ("engines.static_thrust", engines.static_thrust.as_ref().map(|f| f.value.into())),
        };
        let thrust: Amount = stated.ok_or_else(|| need(&format!("aeroplane: {name}")))?;
        let constant = |scales, name: String, stated| Constant { scales, name, stated };
        let mut list = vec![
            constant(Scales::Thrust, name.to_owned(), thrust),
            constant(Scales::Lift, "lift_maximum of every flap, factor".to_owned(), one()),
            constant(Scales::Drag, "drag_zero_lift of every flap, factor".to_owned(), one()),
        ];
        for chart in charts {
            let (surface, state) = (chart.surface, chart.state);
            let rolling = Scales::Rolling(surface, state);
            if list.iter().any(|known| known.scales == rolling) {
                continue;
            }
            let [roll, brake] = planned(aeroplane, surface, state)?;
            let on = format!("{} {}", state.word(), surface.word());
            let coefficient = Amount::coefficient;
            list.push(constant(rolling, format!("rolling on {on}"), coefficient(roll)));
            let braking = Scales::Braking(surface, state);
            list.push(constant(braking, format!("braking on {on}"), coefficient(brake)));
        }
        let limits = (&aeroplane.balance.forward_limit, &aeroplane.balance.aft_limit);
        let (Some(forward), Some(aft)) = limits else {
            return Err(need("aeroplane: balance.forward_limit, balance.aft_limit"));
        };
        let centre = (forward.value + aft.value) * 0.5;
        let constants = Self { aeroplane, centre, list };
        charts.iter().try_for_each(|chart| constants.model(aeroplane, chart).map(|_| ()))?;
        Ok(constants)
    }

    /// Run over chart less one, at each point; none where there is no run.
    pub(super) fn errors(&self, chart: &Charted, logarithms: &[f64]) -> Vec<Option<f64>> {
        let none = || vec![None; chart.points.len()];
        let scaled = self.scaled(logarithms);
        let Ok(model) = self.model(&scaled, chart) else { return none() };
        let planned = planned(self.aeroplane, chart.surface, chart.state);
        let Ok([rolling, braking]) = planned else { return none() };
        let factor = |scales| self.factor(scales, logarithms);
        let rolling = rolling * factor(Scales::Rolling(chart.surface, chart.state));
        let braking = braking * factor(Scales::Braking(chart.surface, chart.state));
        let error = |point: &Point| {
            let run = self.run(&model, chart, point, (rolling, braking))?;
            Some(run / point.value - 1.0).filter(|error| error.is_finite())
        };
        chart.points.iter().map(error).collect()
    }

    fn factor(&self, scales: Scales, logarithms: &[f64]) -> f64 {
        let place = self.list.iter().position(|constant| constant.scales == scales);
        place.and_then(|place| logarithms.get(place)).map_or(1.0, |logarithm| logarithm.exp())
    }

    /// The constants with their factors, as an aeroplane file takes them in.
    pub(super) fn fitted(&self, logarithms: &[f64], deviations: &[f64]) -> Fitted {
        let scaled = self.scaled(logarithms);
        let of = |wanted: Scales| {
            let place = self.list.iter().position(|constant| constant.scales == wanted)?;
            let share = deviations.get(place).copied().filter(|share| share.is_finite())?;
            let value = self.list.get(place)?.stated.si * self.factor(wanted, logarithms);
            Some((
                Given::stated("fitted", value),
                Given::stated("fitted", ratio(share.min(WIDEST))),
            ))
        };
        let on = |constant: &Constant| {
            let Scales::Rolling(surface, state) = constant.scales else { return None };
            let (rolling, rolling_deviation) = of(constant.scales)?;
            let (braking, braking_deviation) = of(Scales::Braking(surface, state))?;
            Some(FittedFriction {
                surface,
                state,
                rolling,
                braking,
                rolling_deviation,
                braking_deviation,
            })
        };
        Fitted {
            static_thrust: scaled.engines.static_thrust,
            shaft_power: scaled.engines.shaft_power,
            flaps: scaled
                .flaps
                .into_iter()
                .map(|flap| FittedFlap {
                    name: flap.name,
                    lift_maximum: flap.lift_maximum,
                    drag_zero_lift: flap.drag_zero_lift,
                })
                .collect(),
            friction: self.list.iter().filter_map(on).collect(),
        }
    }

    fn scaled(&self, logarithms: &[f64]) -> Aeroplane {
        let mut scaled = self.aeroplane.clone();
        let [thrust, lift, drag] =
            [Scales::Thrust, Scales::Lift, Scales::Drag].map(|one| self.factor(one, logarithms));
        scale(&mut scaled.engines.static_thrust, |force| force * thrust);
        scale(&mut scaled.engines.shaft_power, |power| power * thrust);
        for flap in &mut scaled.flaps {
            scale(&mut flap.lift_maximum, |value| value * lift);
            scale(&mut flap.drag_zero_lift, |value| value * drag);
        }
        scaled
    }

    fn model(&self, aeroplane: &Aeroplane, chart: &Charted) -> Result<RunModel, Vec<Need>> {
        let name = &chart.flap.name.value;
        let own = aeroplane.flaps.iter().find(|flap| flap.name.value == *name);
        let flap: &FlapSetting = own.unwrap_or(&chart.flap);
        match chart.gives.is_of_take_off() {
            true => RunModel::for_take_off(aeroplane, flap),
            false => RunModel::for_landing(aeroplane, flap),
        }
    }

    fn run(
        &self,
        model: &RunModel,
        chart: &Charted,
        point: &Point,
        (rolling, braking): (f64, f64),
    ) -> Option<f64> {
        let ground = even(point.slope, rolling, braking)?;
        let standard = Air::standard(Length::from_si(point.altitude), 0.0).ok()?;
        let temperature = point.temperature.map(Temperature::from_si);
        let air = match temperature {
            Some(temperature) => Air::new(standard.pressure(), temperature).ok()?,
            None => standard,
        };
        let headwind = Speed::from_si(point.reported_headwind);
        let situation = Situation {
            mass: Mass::from_si(point.mass),
            centre_of_gravity: self.centre,
            air,
            wind: WindComponents::stated(headwind, Speed::from_si(0.0)),
            ground: &ground,
        };
        match chart.gives {
            ChartFigure::LandingDistance => {
                let plan = LandingPlan {
                    own_factor: None,
                    rule: FieldRule::LandingFifteenPercent,
                    state: chart.state,
                    speed_addition: Speed::from_si(0.0),
                    late_by: None,
                    brake_target: None,
                    traces: false,
                };
                landing(model, &situation, &plan).ok().map(|run| run.stop.si())
            }
            figure => {
                let rule = match model.engines() {
                    0 | 1 => FieldRule::AllEnginesTakeOff,
                    _ => FieldRule::LargeTakeOff,
                };
                let line_up = Length::from_si(0.0);
                let available = Available::default();
                let plan = TakeOffPlan {
                    rule,
                    line_up,
                    available,
                    wet_screen: None,
                    decision_speed: None,
                    brake_allowance: None,
                    traces: false,
                };
                let run = take_off(model, &situation, &plan).ok()?;
                let needed = match figure {
                    ChartFigure::AccelerateStop => run.accelerate_stop_needed,
                    _ => run.distance_needed,
                };
                needed.map(|length| length.si())
            }
        }
    }
}

fn one() -> Amount {
    Amount::coefficient(1.0)
}

fn scale<T: Copy>(given: &mut Option<Given<T>>, by: impl Fn(T) -> T) {
    if let Some(given) = given {
        given.value = by(given.value);
    }
}

/// Best estimate of rolling and braking on a surface in a state.
fn planned(
    aeroplane: &Aeroplane,
    surface: SurfaceKind,
    state: SurfaceState,
) -> Result<[f64; 2], Vec<Need>> {
    let surface = Some(Given::stated("chart", surface));
    let strip = Strip { surface, ..Strip::default() };
    let found = friction(&strip, aeroplane, state)?;
    Ok([found.rolling.value.si(), found.braking.value.si()])
}

fn even(slope: f64, rolling: f64, braking: f64) -> Option<Ground> {
    let points = (0..=POINTS).map(|index| {
        let station = LENGTH_M * f64::from(index) / f64::from(POINTS);
        GroundPoint {
            station: Length::from_si(station),
            elevation: Length::from_si(slope * station),
            rolling: ratio(rolling),
            braking: ratio(braking),
            water: Length::from_si(0.0),
        }
    });
    let condition = Condition { points: points.collect() };
    Ground::new(&condition, Direction::Up, Length::from_si(LENGTH_M)).ok()
}
