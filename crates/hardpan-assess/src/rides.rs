//! The ride of the planned runs over the lanes that the wheels really take, at
//! the speed and with the lift that the aeroplane has at each station.

mod path;
pub(crate) mod steady;

use crate::draft::need;
use crate::ground::LegKind;
use crate::measured::{Known, Measured, Unavailable};
use crate::rides::path::{Path, alike, over};
use hardpan_ground::{TyreSize, deflection};
use hardpan_model::{
    Flight, Given, Lane, Need, RunEventKind, RunPoint, RunTrace, Strut, SurveyLine,
};
use hardpan_quantity::{
    Acceleration, Force, Length, Mass, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2, Speed, metres,
    metres_per_second, ratio,
};
use hardpan_surface::{
    Lanes, Oleo, Profile, Ride, RigidAeroplane, Support, cockpit_limit, natural_spacing,
    noise_profile, resample, ride_by_speed,
};
use rayon::prelude::*;

/// Longest distance between two levels: four to the wave of 10 m, below which a
/// rigid aeroplane at speed feels little. Judgement.
pub(crate) const LEVELS_M: f64 = 2.5;
/// A line within this distance of a wheel path stands for it.
const REACH_M: f64 = 1.5;
/// Slowest speed that is ridden: nearly standing.
const SLOWEST: f64 = 1.0;
/// Greatest share of lift that is ridden: the wheels still carry something.
const MOST_LIFT: f64 = 0.95;
/// Shape coefficient of the tyres, as for their deflection (T20).
const PROFILE: f64 = 0.03;
/// How far about a rough place steady speeds are tried.
const ABOUT_M: f64 = 100.0;
/// Step of those speeds, m/s.
const SPEED_STEP: f64 = 2.5;
/// Any number: the same noise each time.
const SEED: u64 = 70;

/// One run over one lane.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct RunRide {
    /// The run in words.
    pub(crate) run: &'static str,
    /// The main lane; the nose wheels take the centre.
    pub(crate) lane: Lane,
    /// How it rode.
    pub(crate) ride: Ride,
    /// Greatest acceleration at the cockpit, either way.
    pub(crate) worst: Acceleration,
    /// Where the centre of gravity was then.
    pub(crate) station: Length,
    /// How fast the aeroplane was there.
    pub(crate) speed: Speed,
    /// Mass on the struts.
    pub(crate) mass: Mass,
    /// Where it is over the limit: up to which steady speed the place rides
    /// inside it; none where no speed does.
    pub(crate) slower: Option<Speed>,
}

/// The rides of all planned runs.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Rides {
    pub(crate) all: Vec<RunRide>,
    /// What survey noise alone would show at the cockpit; none where only the
    /// verdict was asked for and the limit is kept: the verdict on safety is then
    /// the same.
    pub(crate) noise: Option<Acceleration>,
}

/// How much is asked of the rides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Asked {
    /// All that the finding says.
    Whole,
    /// Whether the limit is kept.
    Verdict,
}

/// One run with what rides it.
struct Run<'a> {
    name: &'static str,
    trace: &'a RunTrace,
    aeroplane: RigidAeroplane,
    weight: f64,
}

/// Ride every planned run over both main lanes.
pub(crate) fn rides(flight: &Flight, measured: &Measured, asked: Asked) -> Known<Rides> {
    let runs = runs(flight, measured)?;
    let lanes = lane_profiles(flight)?;
    let noise = noisy(flight, &lanes)?;
    let found = ridden(&runs, &lanes, (asked == Asked::Whole).then_some(&noise), asked)?;
    let over = found.all.iter().any(|ride| ride.worst > cockpit_limit());
    if over && found.noise.is_none() {
        return ridden(&runs, &lanes, Some(&noise), asked);
    }
    Ok(found)
}

fn ridden(
    runs: &[Run<'_>],
    lanes: &[Profile; 3],
    noise: Option<&[Profile; 2]>,
    asked: Asked,
) -> Known<Rides> {
    let mut all = Vec::new();
    let mut shaken = noise.map(|_| Acceleration::from_si(0.0));
    let paths = runs.iter().map(Path::of).collect::<Known<Vec<Path<'_>>>>()?;
    let over: Vec<_> = alike(&paths)
        .into_par_iter()
        .map(|(together, part_at)| over(together, part_at, lanes, noise, asked))
        .collect();
    for over in over {
        let (ridden, by_noise) = over?;
        all.extend(ridden);
        shaken = shaken.zip(by_noise).map(|(most, next)| most.max(next));
    }
    if all.is_empty() {
        return Err(Unavailable::missing("the ride", Vec::new()));
    }
    Ok(Rides { all, noise: shaken })
}

/// The levels that survey noise alone would show under the nose and a main lane.
fn noisy(flight: &Flight, [left, nose, _]: &[Profile; 3]) -> Known<[Profile; 2]> {
    let survey = flight.strip.survey.as_ref();
    let stated = survey.and_then(|survey| survey.level_noise.as_ref());
    let wanted = || vec![need("strip: survey_info.level_noise", "as the surveyor states it")];
    let noise = stated.ok_or_else(|| Unavailable::missing("the noise of the ride", wanted()))?;
    let noisy = |profile: &Profile, seed: u64| {
        noise_profile(profile, noise.value, seed)
            .map_err(|error| Unavailable::refused("the noise of the ride", &error))
    };
    Ok([noisy(nose, SEED)?, noisy(left, SEED + 1)?])
}

fn runs<'a>(flight: &Flight, measured: &'a Measured) -> Known<Vec<Run<'a>>> {
    let mut runs = Vec::new();
    if let Some((run, plan)) = measured.landing.as_ref().zip(flight.landing.as_ref()) {
        let run = run.as_ref().map_err(Clone::clone)?;
        let aeroplane = aeroplane(flight, measured, &plan.mass, &plan.centre_of_gravity)?;
        runs.extend(run.trace.iter().map(|trace| Run::of("landing", trace, aeroplane)));
    }
    if let Some((run, plan)) = measured.take_off.as_ref().zip(flight.take_off.as_ref()) {
        let run = run.as_ref().map_err(Clone::clone)?;
        let aeroplane = aeroplane(flight, measured, &plan.mass, &plan.centre_of_gravity)?;
        runs.extend(run.trace.iter().map(|trace| Run::of("take-off", trace, aeroplane)));
        let rejected = run.rejected_trace.iter();
        runs.extend(rejected.map(|trace| Run::of("rejected take-off", trace, aeroplane)));
    }
    Ok(runs)
}

impl<'a> Run<'a> {
    fn of(name: &'static str, trace: &'a RunTrace, aeroplane: RigidAeroplane) -> Self {
        let weight = aeroplane.mass.si() * STANDARD_GRAVITY_M_PER_S2;
        Self { name, trace, aeroplane, weight }
    }

    /// Points with all wheels on the ground, up to rotation, by rising distance gone, and
    /// whether the run goes down the stations.
    fn on_ground(&self) -> (Vec<(f64, RunPoint)>, bool) {
        let events = &self.trace.events;
        let rotation = events.iter().find(|event| event.kind == RunEventKind::Rotation);
        let on = self.trace.points.iter().filter(|point| {
            point.height.si() <= 1e-6 && rotation.is_none_or(|event| point.time <= event.time)
        });
        let points: Vec<&RunPoint> = on.collect();
        let down = match (points.first(), points.last()) {
            (Some(first), Some(last)) => last.station < first.station,
            _ => false,
        };
        let along = |point: &RunPoint| if down { -point.station.si() } else { point.station.si() };
        let mut by_distance: Vec<(f64, RunPoint)> =
            points.into_iter().map(|point| (along(point), *point)).collect();
        by_distance.sort_by(|a, b| a.0.total_cmp(&b.0));
        self.settle(&mut by_distance);
        (by_distance, down)
    }

    /// A landing settles on its wheels before it rides: from touchdown until
    /// the brakes are on the wing carries what it carries then, by the square
    /// of the speed.
    fn settle(&self, points: &mut [(f64, RunPoint)]) {
        let events = &self.trace.events;
        let braking = events.iter().find(|event| event.kind == RunEventKind::BrakesOn);
        let touchdown = events.iter().any(|event| event.kind == RunEventKind::Touchdown);
        let Some(braking) = braking.filter(|_| touchdown) else { return };
        let (early, settled) =
            points.split_at_mut(points.partition_point(|point| point.1.time <= braking.time));
        let Some((_, then)) = settled.first() else { return };
        for (_, point) in early {
            let faster = point.ground_speed.si() / then.ground_speed.si().max(SLOWEST);
            point.lift = faster * faster * then.lift;
        }
    }

    fn judged(
        &self,
        ride: Ride,
        (lane, nose, main): (Lane, &Profile, &Profile),
        (station, speed): (Length, Speed),
        asked: Asked,
    ) -> Known<RunRide> {
        let worst = ride.worst_at_cockpit().0;
        let over = asked == Asked::Whole && worst > cockpit_limit();
        let slower = if over { self.slower(nose, main, station, speed)? } else { None };
        let (run, mass) = (self.name, self.aeroplane.mass);
        Ok(RunRide { slower, run, lane, worst, station, speed, mass, ride })
    }

    /// The greatest of the steady speeds below `speed` up to which all keep the
    /// cockpit inside the limit about a station.
    fn slower(
        &self,
        nose: &Profile,
        main: &Profile,
        station: Length,
        speed: Speed,
    ) -> Known<Option<Speed>> {
        let about = metres(ABOUT_M);
        let part = |profile: &Profile| profile.between(station - about, station + about);
        let (nose, main) = (part(nose), part(main));
        let count = (speed.si() / SPEED_STEP).floor().clamp(0.0, 60.0) as u32;
        let speeds: Vec<Speed> =
            (1..=count).map(|step| metres_per_second(f64::from(step) * SPEED_STEP)).collect();
        let rides = ride_by_speed(&self.aeroplane, Lanes { nose: &nose, main: &main }, &speeds)
            .map_err(|error| Unavailable::refused("the ride by speed", &error))?;
        let holds =
            rides.iter().take_while(|(_, ride)| ride.worst_at_cockpit().0 <= cockpit_limit());
        Ok(holds.last().map(|(speed, _)| *speed))
    }
}

/// Left, centre and right lane, each without a gap.
fn lane_profiles(flight: &Flight) -> Known<[Profile; 3]> {
    let survey = flight.strip.survey.as_ref();
    let missing = |what: &str, how: &str| Unavailable::missing("the ride", vec![need(what, how)]);
    let survey = survey.ok_or_else(|| missing("strip: survey", "levels along the lanes"))?;
    let track = flight.aeroplane.gear.track.as_ref();
    let track = track.ok_or_else(|| missing("aeroplane: gear.track", "where the wheels run"))?;
    let half = 0.5 * track.value;
    let lane = |offset: Length| -> Known<Profile> {
        let away = |line: &&SurveyLine| (line.offset - offset).abs().si();
        let line = survey.lines.iter().min_by(|a, b| away(a).total_cmp(&away(b)));
        let line = line.filter(|line| away(line) <= REACH_M).ok_or_else(|| {
            missing("strip: survey", "a line within 1.5 m of the centre and of each wheel path")
        })?;
        whole(line, flight)
    };
    Ok([lane(-half)?, lane(metres(0.0))?, lane(half)?])
}

fn whole(line: &SurveyLine, flight: &Flight) -> Known<Profile> {
    let interval = metres(LEVELS_M);
    let spacing = natural_spacing(line, interval).map_err(Unavailable::from)?;
    let mut found = resample(line, spacing, interval).map_err(Unavailable::from)?;
    let covers = |profile: &Profile| {
        let stretch = profile.stretch();
        let end = flight.strip.length.as_ref().map(|length| length.value);
        stretch.from.si() <= LEVELS_M
            && end.is_none_or(|end| stretch.to.si() >= end.si() - LEVELS_M)
    };
    match found.profiles.pop() {
        Some(profile) if found.profiles.is_empty() && covers(&profile) => Ok(profile),
        _ => Err(Unavailable {
            because: "the lanes are not levelled closely from end to end".to_owned(),
            needs: vec![need(
                "strip: survey",
                "a level at least every 2.5 m along the centre and each wheel lane, end to end",
            )],
        }),
    }
}

/// Collects everything that is missing.
#[derive(Default)]
struct Gather {
    needs: Vec<Need>,
}

impl Gather {
    fn take<T: Copy>(&mut self, given: Option<&Given<T>>, key: &str, how: &str) -> Option<T> {
        if given.is_none() {
            self.needs.push(need(key, how));
        }
        given.map(|given| given.value)
    }
}

fn aeroplane(
    flight: &Flight,
    measured: &Measured,
    mass: &Option<Given<Mass>>,
    centre: &Option<Given<Ratio>>,
) -> Known<RigidAeroplane> {
    let data = &flight.aeroplane;
    let mut gather = Gather::default();
    let manual = "from the weight and balance manual";
    let mass = gather.take(mass.as_ref(), "flight: mass", "the mass planned");
    let centre = gather.take(centre.as_ref(), "flight: centre_of_gravity", "as planned");
    let chord =
        gather.take(data.balance.mean_chord.as_ref(), "aeroplane: balance.mean_chord", manual);
    let main_at =
        gather.take(data.balance.main_gear_at.as_ref(), "aeroplane: balance.main_gear_at", manual);
    let wheelbase = gather.take(data.gear.wheelbase.as_ref(), "aeroplane: gear.wheelbase", manual);
    let gyration = gather.take(
        data.ride.pitch_gyration.as_ref(),
        "aeroplane: ride.pitch_gyration",
        "radius of gyration in pitch, from the maker",
    );
    let cockpit = gather.take(
        data.ride.cockpit_ahead.as_ref(),
        "aeroplane: ride.cockpit_ahead",
        "crew seats ahead of the nose wheels",
    );
    for leg in [LegKind::Main, LegKind::Nose] {
        strut_needs(&mut gather, leg, &leg.leg(flight).strut);
    }
    let known = (mass, centre, chord, main_at, wheelbase, gyration, cockpit);
    let (
        Some(mass),
        Some(centre),
        Some(chord),
        Some(main_at),
        Some(wheelbase),
        Some(gyration),
        Some(cockpit),
    ) = known
    else {
        return Err(Unavailable::missing("the ride", gather.needs));
    };
    if !gather.needs.is_empty() {
        return Err(Unavailable::missing("the ride", gather.needs));
    }
    let main_behind = (main_at - centre).si() * chord;
    let nose_ahead = wheelbase - main_behind;
    let loads = measured.arms.as_ref().map_err(Clone::clone)?.standing(mass, centre)?;
    let (main, main_wheels) = support(flight, measured, LegKind::Main, loads.main_leg)?;
    let (nose, nose_wheels) = support(flight, measured, LegKind::Nose, loads.nose_leg)?;
    Ok(RigidAeroplane {
        mass: mass - main_wheels - nose_wheels,
        gyration,
        nose_ahead,
        main_behind,
        cockpit_ahead: nose_ahead + cockpit,
        nose,
        main,
        lift_share: ratio(0.0),
    })
}

fn strut_needs(gather: &mut Gather, leg: LegKind, strut: &Strut) {
    let rows = [
        (strut.piston_area.is_none(), "piston_area"),
        (strut.preload_pressure.is_none(), "preload_pressure"),
        (strut.gas_volume.is_none(), "gas_volume"),
        (strut.polytropic.is_none(), "polytropic"),
        (strut.damping_force.is_none(), "damping_force"),
        (strut.damping_rate.is_none(), "damping_rate"),
        (strut.unsprung_mass.is_none(), "unsprung_mass"),
    ];
    let missing = rows.into_iter().filter(|(gone, _)| *gone);
    gather.needs.extend(missing.map(|(_, key)| {
        need(&format!("aeroplane: {}.strut.{key}", leg.key()), "from the maker of the gear")
    }));
}

/// All legs of one kind as one support, and the mass of their wheels.
fn support(
    flight: &Flight,
    measured: &Measured,
    kind: LegKind,
    leg_load: Force,
) -> Known<(Support, Mass)> {
    let leg = kind.leg(flight);
    let missing = || Unavailable::missing("the ride", Vec::new());
    let strut = &leg.strut;
    let value = |given: &Option<Given<f64>>| given.as_ref().map(|given| given.value);
    let legs = f64::from(leg.legs.as_ref().map_or(1, |legs| legs.value.max(1)));
    let wheels = leg.wheels.as_ref().map(|wheels| f64::from(wheels.value.max(1)));
    let wheels = wheels.ok_or_else(missing)?;
    let (squash, exponent) = tyre(flight, measured, kind, leg_load / wheels)?;
    let unsprung = strut.unsprung_mass.as_ref().ok_or_else(missing)?.value * legs;
    let force = strut.damping_force.as_ref().ok_or_else(missing)?.value * legs;
    let oleo = Oleo {
        piston_area: strut.piston_area.as_ref().ok_or_else(missing)?.value * legs,
        preload: strut.preload_pressure.as_ref().ok_or_else(missing)?.value,
        gas_volume: strut.gas_volume.as_ref().ok_or_else(missing)?.value * legs,
        polytropic: value(&strut.polytropic).ok_or_else(missing)?,
        damping: (force, strut.damping_rate.as_ref().ok_or_else(missing)?.value),
        unsprung,
        tyre: (leg_load * legs, squash),
        tyre_exponent: exponent,
    };
    Ok((Support::Oleo(oleo), unsprung))
}

/// Deflection of a tyre under its standing load at the pressure set, and the
/// power of its load by deflection there, from half that load.
fn tyre(
    flight: &Flight,
    measured: &Measured,
    kind: LegKind,
    wheel_load: Force,
) -> Known<(Length, f64)> {
    let data = &kind.leg(flight).tyre;
    let (Some(diameter), Some(width), Some(rated)) =
        (&data.diameter, &data.width, &data.rated_pressure)
    else {
        let key = format!("aeroplane: {}.tyre.diameter, width, rated_pressure", kind.key());
        return Err(Unavailable::missing("the ride", vec![need(&key, "from the tyre maker")]));
    };
    let set = match kind {
        LegKind::Main => &measured.main_tyre,
        LegKind::Nose => &measured.nose_tyre,
    };
    let set = set.as_ref().map_err(Clone::clone)?.set;
    let size = TyreSize {
        diameter: diameter.value,
        width: width.value,
        rated_pressure: rated.value,
        profile_coefficient: PROFILE,
    };
    let whole = deflection(&size, wheel_load, set)?;
    let half = deflection(&size, 0.5 * wheel_load, set)?;
    let exponent = 2.0_f64.ln() / (whole.si() / half.si()).ln();
    Ok((whole, exponent.clamp(0.5, 3.0)))
}
