//! Rolling resistance by station where the ground gives way under the wheels of
//! a take-off.
//!
//! The coefficient of the day holds for the ground as it mostly is. Where a first
//! pass presses a deeper rut than there, the work of pressing it adds; where the
//! coefficient is a published one, firm ground with that work counts if it comes
//! to more; and where somebody measured the rolling over ruts, that counts for
//! ruts as deep as they will be. The greatest counts: ruts never shorten a run.
//! A landing and a rejected take-off stop without their help.

use crate::ground::{Ground, LegKind, STEP_M};
use crate::tyres::no_less_than_set;
use hardpan_ground::{
    BARBER_RUT, FIRM_ROLLING, GearArms, ROLLING_OF_RUTTING, penetrometer::credited,
};
use hardpan_model::{
    Flight, Lane, Mark, MeasuredRut, RollingOverRuts, RunTrace, StrengthPoint, TakeOff,
};
use hardpan_quantity::{
    Amount, BearingRatio, Force, Length, Mass, Pressure, Quantity, Ratio, ratio,
};
use hardpan_run::Coefficient;

/// The upper layer counts as one where its bearing ratio is this multiple of
/// that below: the cone then goes 1.5 times as fast, as at the bottom of a
/// surfacing. Judgement.
pub(crate) const CLEARLY_STRONGER: f64 = 1.57;

/// What rolls over the ground: the heaviest that it may be, so that one ground
/// serves every mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rolling {
    /// Standing load of a main leg.
    pub(crate) leg: Force,
    /// Load of one of its wheels.
    pub(crate) wheel: Force,
    pub(crate) pressure: Pressure,
    pub(crate) passes: f64,
    /// Rolling coefficient credited on the day.
    pub(crate) credited: Ratio,
    /// Whether the user states it.
    pub(crate) mark: Mark,
}

/// The ruts of the law where a stronger layer lies over a weaker one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LawRut {
    pub(crate) thickness: Length,
    pub(crate) single: Force,
    /// Strengths credited above and below.
    pub(crate) above: BearingRatio,
    pub(crate) below: BearingRatio,
    /// Rut of the first pass.
    pub(crate) first: Length,
    /// Rut after all passes.
    pub(crate) after: Length,
}

/// Ruts at a place, and the rolling that they come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RutPlace {
    pub(crate) station: Length,
    pub(crate) lane: Lane,
    /// None where no stronger layer lies over a weaker one as the law has it.
    pub(crate) law: Option<LawRut>,
    /// Rolling resistance of pressing the rut of a first pass.
    pub(crate) pressing: Ratio,
    /// The deepest that was measured there.
    pub(crate) measured: Option<Length>,
    /// Rolling coefficient that counts.
    pub(crate) rolling: Ratio,
}

/// Ruts point by point of the main lanes, from which the rolling over them is counted.
pub(crate) struct RutsByPoint {
    of: Rolling,
    points: Vec<RutPoint>,
    /// Pressing in the middle of all points.
    mostly: Ratio,
    stations: usize,
    stated: Option<RollingOverRuts>,
    arms: (f64, f64, f64),
}

struct RutPoint {
    /// Number of its station.
    index: usize,
    station: Length,
    lane: Lane,
    law: Option<LawRut>,
    pressing: Ratio,
    measured: Option<Length>,
}

/// Rolling coefficients along the strip above the one credited.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct RutDrag {
    pub(crate) of: Rolling,
    /// Rolling resistance of pressing ruts in the middle of all ground, by rising
    /// resistance.
    pub(crate) mostly: Ratio,
    /// The place with the greatest; none where no law speaks.
    pub(crate) worst: Option<RutPlace>,
    /// Share of the ground of which the law says nothing.
    pub(crate) silent: Ratio,
    /// By station, [`STEP_M`] apart from the low end.
    counted: Vec<Ratio>,
    /// Height of the centre of gravity over the wheelbase, main and nose legs.
    arms: (f64, f64, f64),
}

/// The rolling of a take-off over the ground, where all that it rests on is
/// stated: at the greatest take-off mass, which hardly changes the work of
/// pressing, and at no less than the pressure that is set.
pub(crate) fn rolling(
    flight: &Flight,
    ground: &Ground,
    arms: &GearArms,
    friction: &Coefficient,
) -> Option<Rolling> {
    let plan = flight.take_off.as_ref()?;
    let centre = plan.centre_of_gravity.as_ref()?.value;
    let mass = heaviest(flight, plan)?;
    let leg = arms.standing(mass, centre).ok()?.main_leg;
    let planned = arms.standing(plan.mass.as_ref()?.value, centre).ok()?.main_leg;
    let wheels = flight.aeroplane.gear.main.wheels.as_ref()?.value.max(1);
    Some(Rolling {
        leg,
        wheel: leg / f64::from(wheels),
        pressure: no_less_than_set(flight, (mass, leg), planned, ground)?,
        passes: flight.passes.as_ref()?.value,
        credited: friction.credited,
        mark: friction.mark,
    })
}

/// The greatest mass that a take-off may have, or the one planned.
fn heaviest(flight: &Flight, plan: &TakeOff) -> Option<Mass> {
    let masses = [flight.aeroplane.mass.maximum_take_off.as_ref(), plan.mass.as_ref()];
    masses.into_iter().flatten().map(|mass| mass.value).reduce(Mass::max)
}

/// Rolling over ruts as stated for the state of the day.
pub(crate) fn over_ruts(flight: &Flight) -> Option<&RollingOverRuts> {
    let state = flight.day.surface_state.as_ref()?.value;
    let stated = flight.strip.friction.iter().rev().filter(|friction| friction.state == state);
    stated.filter_map(|friction| friction.over_ruts.as_ref()).next()
}

impl RutsByPoint {
    pub(crate) fn of(flight: &Flight, ground: &Ground, of: Rolling) -> Self {
        let found = ground.points(LegKind::Main).zip(laws(ground, &of));
        let points = found.map(|((lane, index, point), law)| {
            let (station, pressing) = (point.station, pressing(&of, law.as_ref()));
            let measured = measured(flight, lane, station);
            RutPoint { index, station, lane, law, pressing, measured }
        });
        let points: Vec<RutPoint> = points.collect();
        let pressing: Vec<Ratio> = points.iter().map(|point| point.pressing).collect();
        Self {
            of,
            points,
            mostly: middle(&pressing),
            stations: ground.stations().len(),
            stated: over_ruts(flight).cloned(),
            arms: moments(flight),
        }
    }

    /// Rolling where every rut of the law is so many times as deep as the law says.
    pub(crate) fn drag(&self, over_law: Ratio) -> RutDrag {
        let (of, times) = (self.of, over_law.si());
        let mostly = self.mostly * times;
        let without = self.points.iter().filter(|point| point.law.is_none()).count();
        let silent = ratio(without as f64 / self.points.len().max(1) as f64);
        let mut counted = vec![of.credited; self.stations];
        let mut worst: Option<RutPlace> = None;
        let stated = self.stated.as_ref();
        for point in &self.points {
            let RutPoint { index, station, lane, law, pressing, measured } = *point;
            let pressing = pressing * times;
            let law =
                law.map(|law| LawRut { first: law.first * times, after: law.after * times, ..law });
            if law.is_none() && measured.is_none_or(|_| stated.is_none()) {
                continue;
            }
            let ruts = [law.map(|law| law.after), measured];
            let rut = ruts.into_iter().flatten().reduce(Length::max);
            let over = stated.zip(rut).map(|(stated, rut)| stated_rolling(&of, stated, rut));
            let firm = of.firm().map(|firm| firm + pressing);
            let more = of.credited + (pressing - mostly).max(ratio(0.0));
            let rolling = [over, firm].into_iter().flatten().fold(more, Ratio::max).min(ratio(1.0));
            if let Some(one) = counted.get_mut(index) {
                *one = one.max(rolling);
            }
            if worst.is_none_or(|worst| rolling > worst.rolling) {
                worst = Some(RutPlace { station, lane, law, pressing, measured, rolling });
            }
        }
        RutDrag { of, mostly, worst, silent, counted, arms: self.arms }
    }
}

impl RutDrag {
    /// Rolling along the main lanes of the ground.
    pub(crate) fn of(flight: &Flight, ground: &Ground, of: Rolling) -> Self {
        RutsByPoint::of(flight, ground, of).drag(ratio(1.0))
    }

    /// What a run leaves out where no stronger layer lies over a weaker one.
    pub(crate) fn left_out(&self) -> Option<String> {
        let share = self.silent;
        (share.si() > 0.0).then(|| {
            let share = Amount::from(share).told();
            format!(
                "over {share} of the ground no stronger layer lies over a weaker one: no drag of \
                 sinking into it is counted, since published laws are of tractor tyres; where \
                 wheels sink, state the rolling of the stretch"
            )
        })
    }

    /// Whether it is above the credited anywhere.
    pub(crate) fn raises(&self) -> bool {
        self.counted.iter().any(|one| *one > self.of.credited)
    }

    /// Length of the strip over which it is above the credited.
    pub(crate) fn raised_length(&self) -> Length {
        let raised = self.counted.iter().filter(|one| **one > self.of.credited).count();
        Length::from_si(raised as f64 * STEP_M)
    }

    /// The most that ruts add between two stations, and as far outside as the
    /// nearest ground that is known.
    pub(crate) fn added_between(&self, from: Length, to: Length) -> Ratio {
        let last = self.counted.len().saturating_sub(1);
        let first = ((from.si() / STEP_M).floor().max(0.0) as usize).min(last);
        let to = ((to.si() / STEP_M).ceil().max(0.0) as usize).min(last);
        let near = self.counted.get(first..=to.max(first)).unwrap_or_default();
        near.iter().copied().fold(self.of.credited, Ratio::max) - self.of.credited
    }

    /// Leaves on the main legs what the drag of the ruts would move to the nose:
    /// the ground is never asked for less because of its ruts.
    pub(crate) fn keep_on_main_legs(&self, trace: &mut RunTrace) {
        let (height, main_legs, nose_legs) = self.arms;
        for point in &mut trace.points {
            let rise = self.added_between(point.station, point.station);
            let all = main_legs * point.main_leg_load + nose_legs * point.nose_leg_load;
            point.main_leg_load += all * (rise.si() * height / main_legs);
        }
    }
}

fn moments(flight: &Flight) -> (f64, f64, f64) {
    let (gear, balance) = (&flight.aeroplane.gear, &flight.aeroplane.balance);
    let height = balance.centre_of_gravity_height.as_ref().map_or(0.0, |one| one.value.si());
    let wheelbase = gear.wheelbase.as_ref().map_or(1.0, |one| one.value.si().max(0.1));
    let legs = |count: Option<u32>| f64::from(count.unwrap_or(1).max(1));
    let main = legs(gear.main.legs.as_ref().map(|one| one.value));
    (height / wheelbase, main, legs(gear.nose.legs.as_ref().map(|one| one.value)))
}

/// The deepest rut of the law at a point, over every layer that lies under a
/// clearly stronger one.
fn deepest(ground: &Ground, point: &StrengthPoint, of: &Rolling) -> Option<LawRut> {
    let mut least: Option<BearingRatio> = None;
    let mut deepest: Option<LawRut> = None;
    for (top, bearing) in &point.layers {
        let above = least;
        least = Some(least.filter(|least| least < bearing).unwrap_or(*bearing));
        let stronger =
            |above: &BearingRatio| above.percent() >= CLEARLY_STRONGER * bearing.percent();
        let Some(above) = above.filter(stronger) else { continue };
        let found = law_rut(ground, (*top, above, *bearing), of);
        deepest = [deepest, found]
            .into_iter()
            .flatten()
            .max_by(|a, b| a.first.si().total_cmp(&b.first.si()));
    }
    deepest
}

fn law_rut(
    ground: &Ground,
    (thickness, above, below): (Length, BearingRatio, BearingRatio),
    of: &Rolling,
) -> Option<LawRut> {
    let single = ground.single_wheel(LegKind::Main, of.leg, of.pressure, thickness)?;
    let (above, below) = (credited(above), credited(below));
    let after = |passes: f64| {
        let rut = BARBER_RUT.value(&[
            single.into(),
            of.pressure.into(),
            Amount::coefficient(passes),
            thickness.into(),
            above.into(),
            below.into(),
        ]);
        rut.ok().map(|rut| Length::from_si(rut.si))
    };
    Some(LawRut { thickness, single, above, below, first: after(1.0)?, after: after(of.passes)? })
}

/// The deepest rut that was measured in a lane within half a step of the ground.
fn measured(flight: &Flight, lane: Lane, station: Length) -> Option<Length> {
    let near = |rut: &&MeasuredRut| {
        rut.lane == lane && (rut.station.value.si() - station.si()).abs() <= 0.5 * STEP_M
    };
    let ruts = flight.strip.ruts.iter().filter(near).map(|rut| rut.depth.value);
    ruts.reduce(Length::max)
}

impl Rolling {
    /// Rolling coefficient of ground that does not give way, where the one of the
    /// day is a published one.
    pub(crate) fn firm(&self) -> Option<Ratio> {
        (self.mark != Mark::Measured).then(|| ratio(FIRM_ROLLING))
    }
}

/// The deepest ruts of the law at every point of the main lanes.
fn laws(ground: &Ground, of: &Rolling) -> Vec<Option<LawRut>> {
    let mut before: Option<(&StrengthPoint, Option<LawRut>)> = None;
    let mut laws = Vec::new();
    for (_, _, point) in ground.points(LegKind::Main) {
        let same = before.filter(|(other, _)| other.layers == point.layers);
        let law = same.map_or_else(|| deepest(ground, point, of), |(_, law)| law);
        before = Some((point, law));
        laws.push(law);
    }
    laws
}

fn pressing(of: &Rolling, law: Option<&LawRut>) -> Ratio {
    let pressing = law.and_then(|law| {
        let inputs = [law.first.into(), of.wheel.into(), of.pressure.into()];
        ROLLING_OF_RUTTING.value(&inputs).ok()
    });
    ratio(pressing.map_or(0.0, |pressing| pressing.si))
}

fn middle(values: &[Ratio]) -> Ratio {
    let mut sorted = values.to_vec();
    sorted.sort_by(|a, b| a.si().total_cmp(&b.si()));
    sorted.get(sorted.len().saturating_sub(1) / 2).copied().unwrap_or(ratio(0.0))
}

/// Rolling coefficient over a rut, in proportion to its depth from the credited
/// one to the one that was measured.
pub(crate) fn stated_rolling(of: &Rolling, stated: &RollingOverRuts, rut: Length) -> Ratio {
    let more = (stated.rolling.value - of.credited).max(ratio(0.0));
    of.credited + more * (rut.si() / stated.depth.value.si())
}
