//! The ground along the wheel lanes, and what it carries of each leg.

pub(crate) mod bearing_curves;
pub(crate) mod held_to_ruts;
pub(crate) mod judged;
pub(crate) mod lane_coverages;
pub(crate) mod lee_leg;
pub(crate) mod leg_load;
pub(crate) mod loads;
pub(crate) mod passes_left;
pub(crate) mod rut_drag;
pub(crate) mod rut_record;
pub(crate) mod ruts_along;
pub(crate) mod season;
pub(crate) mod strain_response;
pub(crate) mod strength_finding;
pub(crate) mod strength_number;
pub(crate) mod surfacing;
pub(crate) mod top_shear;
pub(crate) mod two_layers;

use crate::measured::{Known, Unavailable};
use hardpan_ground::{
    EquivalentLoads, GreatestLoad, LegGeometry, PointJudgement, RequirementTable, StrengthAlong,
    UnknownGround,
};
use hardpan_model::{Flight, Lane, Need, StrengthLane, StrengthPoint};
use hardpan_quantity::{Force, Length, Pressure, Quantity, metres};
use std::sync::Arc;

/// Distance between the stations at which the ground is judged.
pub(crate) const STEP_M: f64 = 5.0;

/// The two kinds of leg.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum LegKind {
    Main,
    Nose,
}

impl LegKind {
    fn runs_in(self, lane: Lane) -> bool {
        (self == Self::Nose) == (lane == Lane::Nose)
    }
}

/// Strength along the lanes, and the legs that run there.
#[derive(Debug, Clone)]
pub(crate) struct Ground {
    /// Lanes from left to right, the same stations in each.
    pub(crate) lanes: Arc<[StrengthLane]>,
    /// The same as sounded, with the ground between soundings as uncertain as
    /// their reach lets it be; none where the strip states how far it is alike.
    pub(crate) grown: Option<Arc<[StrengthLane]>>,
    main: Legs,
    nose: Legs,
}

/// One kind of leg as the ground feels it.
#[derive(Debug, Clone)]
struct Legs {
    loads: EquivalentLoads,
    /// Coverages that the passes make of the busiest point.
    coverages: f64,
    /// Coverages that one pass makes of it.
    per_pass: f64,
}

/// Load of each kind of leg by station of the lanes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StationLoads {
    pub(crate) main: Vec<Force>,
    pub(crate) nose: Vec<Force>,
}

impl StationLoads {
    /// The loads of one kind of leg.
    pub(crate) fn of(&self, leg: LegKind) -> &[Force] {
        match leg {
            LegKind::Main => &self.main,
            LegKind::Nose => &self.nose,
        }
    }

    /// The greatest load of one kind of leg.
    pub(crate) fn greatest(&self, leg: LegKind) -> Force {
        self.of(leg).iter().copied().fold(Force::from_si(0.0), Force::max)
    }
}

/// The worst point under one kind of leg, and how much of the strip is too weak.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Worst {
    pub(crate) lane: Lane,
    pub(crate) index: usize,
    pub(crate) load: Force,
    pub(crate) judgement: PointJudgement,
    /// Stretches, first to last station, where the ground does not carry the
    /// leg or nothing is known.
    pub(crate) stretches: Vec<(Length, Length)>,
}

/// Why ground is not known to carry what comes to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Lack {
    /// It is too weak.
    Strength,
    /// Nothing can be said of a point.
    Knowledge(UnknownGround),
}

impl Ground {
    /// Strength along the lanes with the gear of the aeroplane.
    pub(crate) fn new(flight: &Flight) -> Known<Self> {
        let (strip, gear) = (&flight.strip, &flight.aeroplane.gear);
        let mut needs = Vec::new();
        if flight.passes.is_none() {
            needs.push(Need {
                what: "flight: passes".to_owned(),
                how: "how many passes the ground must carry before it is next mended".to_owned(),
            });
        }
        if strip.soundings.is_empty() && strip.strength_tests.is_empty() {
            needs.push(Need {
                what: "strip: soundings".to_owned(),
                how: "cone penetrometer tests along the wheel lanes, as CSV".to_owned(),
            });
        }
        let (Some(length), Some(track), Some(passes)) =
            (&strip.length, &gear.track, &flight.passes)
        else {
            if strip.length.is_none() {
                needs.push(Need {
                    what: "strip: length".to_owned(),
                    how: "of the running surface".to_owned(),
                });
            }
            if gear.track.is_none() {
                needs.push(Need {
                    what: "aeroplane: gear.track".to_owned(),
                    how: "between the main legs".to_owned(),
                });
            }
            return Err(Unavailable::missing("the strength of the ground", needs));
        };
        if !needs.is_empty() {
            return Err(Unavailable::missing("the strength of the ground", needs));
        }
        let lanes = wheel_lanes(track.value);
        let (lanes, grown) =
            hardpan_ground::strength_along_and_grown(strip, &lanes, metres(STEP_M), length.value)?;
        let (lanes, grown) = (lanes.into(), grown.map(Into::into));
        let main = Legs::new(flight, LegKind::Main, track.value, passes.value)?;
        let nose = Legs::new(flight, LegKind::Nose, track.value, passes.value)?;
        Ok(Self { lanes, grown, main, nose })
    }

    /// The ground as uncertain between soundings as their reach lets it be.
    pub(crate) fn between_soundings(&self) -> Option<Self> {
        let lanes = Arc::clone(self.grown.as_ref()?);
        Some(Self { lanes, grown: None, ..self.clone() })
    }

    /// The same lanes, ready to be varied by sounding.
    pub(crate) fn along(flight: &Flight) -> Known<StrengthAlong> {
        let (strip, gear) = (&flight.strip, &flight.aeroplane.gear);
        let (Some(length), Some(track)) = (&strip.length, &gear.track) else {
            return Err(Unavailable::missing("the strength of the ground", Vec::new()));
        };
        let lanes = wheel_lanes(track.value);
        Ok(StrengthAlong::new(strip, &lanes, metres(STEP_M), length.value)?)
    }

    fn legs(&self, kind: LegKind) -> &Legs {
        match kind {
            LegKind::Main => &self.main,
            LegKind::Nose => &self.nose,
        }
    }

    /// Stations of the lanes.
    pub(crate) fn stations(&self) -> Vec<Length> {
        self.lanes
            .first()
            .map_or_else(Vec::new, |lane| lane.points.iter().map(|point| point.station).collect())
    }

    /// What the ground must have under a kind of leg at a tyre pressure.
    pub(crate) fn requirement(&self, leg: LegKind, pressure: Pressure) -> Known<RequirementTable> {
        self.requirement_after(leg, pressure, self.legs(leg).coverages)
    }

    /// The same for a number of coverages.
    pub(crate) fn requirement_after(
        &self,
        leg: LegKind,
        pressure: Pressure,
        coverages: f64,
    ) -> Known<RequirementTable> {
        Ok(RequirementTable::new(&self.legs(leg).loads, pressure, coverages)?)
    }

    /// The single wheel that stands for a leg at a depth.
    pub(crate) fn single_wheel(
        &self,
        leg: LegKind,
        load: Force,
        pressure: Pressure,
        depth: Length,
    ) -> Option<Force> {
        self.legs(leg).loads.single_wheel(load, pressure, depth).ok()
    }

    /// Coverages that the passes of the flight make, and that one pass makes.
    pub(crate) fn coverages(&self, leg: LegKind) -> (f64, f64) {
        let legs = self.legs(leg);
        (legs.coverages, legs.per_pass)
    }

    /// The points that a kind of leg runs over, with lane and station index.
    pub(crate) fn points(
        &self,
        leg: LegKind,
    ) -> impl Iterator<Item = (Lane, usize, &StrengthPoint)> {
        self.lanes
            .iter()
            .filter(move |lane| leg.runs_in(lane.lane))
            .flat_map(|lane| lane.points.iter().enumerate().map(move |(i, p)| (lane.lane, i, p)))
    }

    /// The worst point under a kind of leg; none without points.
    pub(crate) fn worst(
        &self,
        leg: LegKind,
        table: &RequirementTable,
        loads: &[Force],
    ) -> Option<Worst> {
        self.worst_where(leg, table, loads, |_| true)
    }

    /// The same among the stations that are meant.
    pub(crate) fn worst_where(
        &self,
        leg: LegKind,
        table: &RequirementTable,
        loads: &[Force],
        meant: impl Fn(Length) -> bool,
    ) -> Option<Worst> {
        let mut worst: Option<(f64, Worst)> = None;
        let mut weak: Vec<Length> = Vec::new();
        let mut greatest = self.greatest(table, loads);
        for (lane, index, point) in self.points(leg) {
            if !meant(point.station) {
                continue;
            }
            let load = loads.get(index).copied().unwrap_or(Force::from_si(f64::INFINITY));
            let most = worst.as_ref().map_or(f64::NEG_INFINITY, |(most, _)| *most);
            if greatest.used_at_most(point).is_some_and(|used| used <= most) {
                continue;
            }
            let judgement = hardpan_ground::judge_point(point, table, load);
            if !judgement.holds() {
                weak.push(point.station);
            }
            let badness = badness(&judgement);
            if worst.as_ref().is_none_or(|(most, _)| badness > *most) {
                let found = Worst { lane, index, load, judgement, stretches: Vec::new() };
                worst = Some((badness, found));
            }
        }
        let (_, mut worst) = worst?;
        worst.stretches = stretches(weak);
        Some(worst)
    }

    /// Whether every point carries the load that comes there.
    pub(crate) fn carries(&self, leg: LegKind, table: &RequirementTable, loads: &[Force]) -> bool {
        self.not_held(leg, table, loads).next().is_none()
    }

    /// What keeps the ground from carrying the loads that come to it; none where it
    /// carries every one. One point that is too weak tells, whatever is not known.
    pub(crate) fn lacks(
        &self,
        leg: LegKind,
        table: &RequirementTable,
        loads: &[Force],
    ) -> Option<Lack> {
        let mut unknown = None;
        for judgement in self.not_held(leg, table, loads) {
            match judgement {
                PointJudgement::Known(_) => return Some(Lack::Strength),
                PointJudgement::Unknown(point) => unknown = unknown.or(Some(point)),
            }
        }
        unknown.map(Lack::Knowledge)
    }

    /// The points that are not known to carry the load that comes there.
    fn not_held(
        &self,
        leg: LegKind,
        table: &RequirementTable,
        loads: &[Force],
    ) -> impl Iterator<Item = PointJudgement> {
        let mut greatest = self.greatest(table, loads);
        self.loaded(leg, loads)
            .filter(move |(point, _)| greatest.used_at_most(point).is_none())
            .filter(|(point, load)| !hardpan_ground::point_carries(point, table, *load))
            .map(|(point, load)| hardpan_ground::judge_point(point, table, load))
    }

    /// The most of its credited strength that the ground has to give under a kind
    /// of leg; none where of some point nothing can be said.
    pub(crate) fn most_used(
        &self,
        leg: LegKind,
        table: &RequirementTable,
        loads: &[Force],
    ) -> Option<f64> {
        let mut greatest = self.greatest(table, loads);
        self.loaded(leg, loads).try_fold(0.0_f64, |most, (point, load)| {
            if greatest.used_at_most(point).is_some_and(|used| used <= most) {
                return Some(most);
            }
            match hardpan_ground::judge_point(point, table, load) {
                PointJudgement::Known(demand) => Some(most.max(demand.utilisation.si())),
                PointJudgement::Unknown(_) => None,
            }
        })
    }

    /// What the greatest of the loads asks for; without bound where one is not known.
    fn greatest<'t>(&self, table: &'t RequirementTable, loads: &[Force]) -> GreatestLoad<'t> {
        let all_known = self.lanes.iter().all(|lane| lane.points.len() <= loads.len());
        GreatestLoad::of(table, if all_known { loads } else { &[] })
    }

    /// The points under a kind of leg and the load that comes there, which is without
    /// bound where none is known; without those that are like the one before and bear
    /// no more.
    fn loaded(
        &self,
        leg: LegKind,
        loads: &[Force],
    ) -> impl Iterator<Item = (&StrengthPoint, Force)> {
        let mut before: Option<(&StrengthPoint, Force)> = None;
        self.points(leg).filter_map(move |(_, index, point)| {
            let load = loads.get(index).copied().unwrap_or(Force::from_si(f64::INFINITY));
            let is_like = |(other, most): (&StrengthPoint, Force)| {
                load <= most && other.known_to == point.known_to && other.layers == point.layers
            };
            if before.is_some_and(is_like) {
                return None;
            }
            before = Some((point, load));
            before
        })
    }

    /// Greatest pressure between two at which a kind of leg is carried
    /// everywhere; none when not even the lower one is.
    pub(crate) fn largest_pressure(
        &self,
        leg: LegKind,
        load: Force,
        low: Pressure,
        high: Pressure,
    ) -> Known<Option<Pressure>> {
        let legs = self.legs(leg);
        let points = self.points(leg).map(|(_, _, point)| point);
        let limit = hardpan_ground::largest_pressure(
            points,
            &legs.loads,
            legs.coverages,
            load,
            (low, high),
        )?;
        Ok(limit.and_then(|limit| limit.pressure))
    }

    /// The point of a lane at a station index.
    pub(crate) fn point(&self, lane: Lane, index: usize) -> Option<&StrengthPoint> {
        self.lanes.iter().find(|one| one.lane == lane)?.points.get(index)
    }
}

/// How far wheels wander across their lane: as stated, or as channelised traffic does.
pub(crate) fn wheel_wander(flight: &Flight) -> Length {
    let stated = flight.strip.wheel_wander.as_ref();
    stated.map_or(metres(hardpan_ground::CHANNELISED_WANDER_M), |stated| stated.value)
}

/// The lanes of the wheels for a track.
fn wheel_lanes(track: Length) -> [(Lane, Length); 3] {
    let half = 0.5 * track;
    [(Lane::Left, -half), (Lane::Nose, metres(0.0)), (Lane::Right, half)]
}

impl Legs {
    /// The legs of one kind, and the coverages that the passes of the flight
    /// make at the full section width of their tyres.
    fn new(flight: &Flight, kind: LegKind, track: Length, passes: f64) -> Known<Self> {
        let (leg, key) = (kind.leg(flight), kind.key());
        let geometry = LegGeometry::of_leg(leg, key)?;
        let per_pass = lane_coverages::of_one_pass(flight, kind, track, &geometry)?;
        let loads = EquivalentLoads::new(geometry);
        Ok(Self { loads, coverages: passes * per_pass, per_pass })
    }
}

/// Order of badness: known and too weak, then unknown, then by utilisation.
fn badness(judgement: &PointJudgement) -> f64 {
    match judgement {
        PointJudgement::Known(demand) if demand.holds() => demand.utilisation.si(),
        PointJudgement::Unknown(_) => 1e6,
        PointJudgement::Known(demand) => 1e9 + demand.utilisation.si().min(1e9),
    }
}

/// Neighbouring stations joined to stretches.
fn stretches(mut stations: Vec<Length>) -> Vec<(Length, Length)> {
    stations.sort_by(|a, b| a.si().total_cmp(&b.si()));
    let mut joined: Vec<(Length, Length)> = Vec::new();
    for station in stations {
        match joined.last_mut() {
            Some((_, to)) if station.si() - to.si() <= 1.5 * STEP_M => *to = station,
            _ => joined.push((station, station)),
        }
    }
    joined
}
