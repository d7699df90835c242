//! How strong is the ground by station along each lane?
//!
//! `Strip` → `Vec<StrengthLane>`. At each station the nearest sounding behind
//! and the nearest ahead are taken, and at every depth the weaker of the two
//! counts, so that a soft place reaches to the next sounding on either side.
//! Away from a sounding the ground may be weaker than both: where the strip says
//! over which length it is alike, their mean less the deviation that grows with
//! the distance counts, if that is lower.
//! Where no sounding lies within reach, nothing is known and `layers` is empty.

use crate::error::positive;
use crate::sounding::between::{Between, LENGTHS_IN_REACH, beside};
use crate::sounding::scatter::GroundScatter;
use crate::sounding::strength_tests::{Standing, counted};
use crate::{Error, Strata};
use hardpan_model::{
    Lane, SoilClass, Source, StrengthLane, StrengthPoint, StrengthTest, Strip, Tier,
};
use hardpan_quantity::{BearingRatio, Length, Quantity};

/// Distance beyond which a sounding says nothing, where the strip states none, metres.
pub const DEFAULT_REACH_M: f64 = 100.0;

/// Where [`DEFAULT_REACH_M`] comes from.
pub const DEFAULT_REACH_SOURCE: Source =
    Source::new("", "reach of one sounding along a strip built in one way", Tier::Judgement);

/// One metre across the strip counts as this many along it when the nearest
/// sounding is chosen. Judgement: a strip is built, drained and trafficked
/// along its length, so that ground differs sooner across than along.
pub const ACROSS_WEIGHT: f64 = 10.0;

const MOST_STATIONS: usize = 100_000;

/// A depth range with its bearing ratio.
#[derive(Clone, Copy)]
pub(super) struct SoundedLayer {
    pub(super) top: f64,
    pub(super) bottom: f64,
    pub(super) percent: f64,
}

/// What was found at one place: a sounding, or the strength tests made there.
#[derive(Clone)]
pub(super) struct Sounded {
    /// Index of the sounding; none for strength tests.
    sounding: Option<usize>,
    /// Indices of the strength tests.
    pub(super) tests: Vec<usize>,
    pub(super) station: f64,
    offset: f64,
    pub(super) layers: Vec<SoundedLayer>,
    /// Depth down to which the layers leave no gap.
    known_to: f64,
    /// Bottom of the surfacing.
    pub(super) surfacing: Option<f64>,
    soil: Option<SoilClass>,
}

impl Sounded {
    /// Squares of the distance by which the nearest is chosen, and of that in plan.
    fn squares(&self, station: f64, offset: f64) -> (f64, f64) {
        let (along, across) = (self.station - station, self.offset - offset);
        let weighted = ACROSS_WEIGHT * across;
        (along * along + weighted * weighted, along * along + across * across)
    }

    fn distance(&self, station: f64, offset: f64) -> f64 {
        (self.station - station).hypot(self.offset - offset)
    }

    /// Bearing ratio at a depth.
    pub(super) fn percent_at(&self, depth: f64) -> Option<f64> {
        let here = |layer: &&SoundedLayer| layer.top <= depth && layer.bottom > depth;
        self.layers.iter().find(here).map(|layer| layer.percent)
    }
}

/// Everything found on the strip, the better kinds first.
pub(super) struct Found {
    pub(super) soundings: Vec<Sounded>,
    in_place: Vec<Sounded>,
    stiffness: Vec<Sounded>,
    /// How the soundings scatter from place to place.
    pub(super) scatter: GroundScatter,
}

/// Length over which the ground along a strip may be taken to be alike where
/// the strip states none: the reach of a sounding over [`LENGTHS_IN_REACH`].
#[must_use]
pub fn correlation_from_reach(strip: &Strip) -> Length {
    let reach = strip.sounding_reach.as_ref().map_or(DEFAULT_REACH_M, |reach| reach.value.si());
    Length::from_si(reach / LENGTHS_IN_REACH)
}

impl Found {
    /// Places of strength tests.
    pub(super) fn tested(&self) -> impl Iterator<Item = &Sounded> {
        self.in_place.iter().chain(&self.stiffness)
    }
}

/// Strength by station along each lane, from station 0 to `length` every
/// `step`, both ends included.
///
/// Behind and ahead, the sounding with the least weighted distance is taken
/// among those within reach: plan distance at most `strip.sounding_reach`, or
/// [`DEFAULT_REACH_M`] where the strip states none. A sounding at the station
/// itself counts as both. With soundings on one side only, those alone are
/// used. Field tests of the bearing ratio are taken likewise beside them, each
/// for its own depths. Where the strip states a correlation length, the ground
/// between soundings counts no stronger than their mean by ordinary kriging of
/// the logarithm, less one deviation of all soundings; fewer than three show
/// none. Where neither is within reach, tests of stiffness stand
/// in. `known_to` is the lesser depth of the soundings used, or of the tests
/// where those leave no gap to a greater one. `soil` is the class
/// under the surfacing whose law gives least among those used; a sounding
/// without a class counts as lean clay.
///
/// # Errors
/// [`Error`] when a length is not above zero, more than 100,000 stations are
/// asked for, or a sounding cannot be used.
pub fn strength_along(
    strip: &Strip,
    lanes: &[(Lane, Length)],
    step: Length,
    length: Length,
) -> Result<Vec<StrengthLane>, Error> {
    let correlation = stated_correlation(strip)?;
    let both = along(strip, lanes, (step, length), (correlation, None))?;
    Ok(both.into_iter().map(|(lane, _)| lane).collect())
}

/// The same; and, where the strip states no correlation length, beside it the
/// strength with that of [`correlation_from_reach`].
///
/// # Errors
/// As [`strength_along`].
pub fn strength_along_and_grown(
    strip: &Strip,
    lanes: &[(Lane, Length)],
    step: Length,
    length: Length,
) -> Result<(Vec<StrengthLane>, Option<Vec<StrengthLane>>), Error> {
    let correlation = stated_correlation(strip)?;
    let by_reach = correlation.is_none().then(|| correlation_from_reach(strip).si());
    let both = along(strip, lanes, (step, length), (correlation, by_reach))?;
    let (stated, grown): (Vec<_>, Vec<_>) = both.into_iter().unzip();
    Ok((stated, grown.into_iter().collect()))
}

fn stated_correlation(strip: &Strip) -> Result<Option<f64>, Error> {
    let stated = strip.sounding_rules.correlation_length.as_ref();
    stated.map(|length| positive("correlation length", "m", length.value.si())).transpose()
}

/// Each lane by a correlation length, and by another where one is given.
fn along(
    strip: &Strip,
    lanes: &[(Lane, Length)],
    (step, length): (Length, Length),
    (correlation, by_reach): (Option<f64>, Option<f64>),
) -> Result<Vec<(StrengthLane, Option<StrengthLane>)>, Error> {
    let reach = match &strip.sounding_reach {
        Some(reach) => positive("reach of a sounding", "m", reach.value.si())?,
        None => DEFAULT_REACH_M,
    };
    let stations = stations(step, length)?;
    let found = found(strip)?;
    let offsets = lanes.iter().map(|&(lane, offset)| match offset.si() {
        across if across.is_finite() => Ok((lane, offset)),
        across => Err(Error::NotPositive { what: "lane offset", value: across, unit: "m" }),
    });
    let offsets = offsets.collect::<Result<Vec<_>, _>>()?;
    Ok(offsets
        .into_iter()
        .map(|(lane, offset)| {
            let (mut stated, mut grown) = (Vec::new(), Vec::new());
            for &station in &stations {
                let around = Around::at(&found, station, offset.si(), reach);
                stated.push(around.point(&found, correlation));
                grown.extend(by_reach.map(|length| around.point(&found, Some(length))));
            }
            let lane = |points| StrengthLane { lane, offset, points };
            (lane(stated), by_reach.map(|_| lane(grown)))
        })
        .collect())
}

fn stations(step: Length, length: Length) -> Result<Vec<f64>, Error> {
    let step = positive("step between stations", "m", step.si())?;
    let length = positive("length of the strip", "m", length.si())?;
    let wanted = (length / step).ceil() + 1.0;
    if wanted > MOST_STATIONS as f64 {
        return Err(Error::TooManyStations { wanted, limit: MOST_STATIONS });
    }
    let mut stations = Vec::new();
    let mut count = 0u32;
    loop {
        let station = f64::from(count) * step;
        if station >= length - 1e-9 * step {
            stations.push(length);
            return Ok(stations);
        }
        stations.push(station);
        count += 1;
    }
}

pub(super) fn found(strip: &Strip) -> Result<Found, Error> {
    let soundings = strip.soundings.iter().enumerate().map(|(index, sounding)| {
        let (station, offset) = (sounding.station.value.si(), sounding.offset.si());
        if !(station.is_finite() && offset.is_finite()) {
            let line = sounding.station.origin.line;
            return Err(Error::SoundingPlace { number: index + 1, line });
        }
        let strata = Strata::of(sounding)?;
        let layers = strata.strata.iter().map(|stratum| SoundedLayer {
            top: stratum.top.si(),
            bottom: stratum.bottom.si(),
            percent: stratum.bearing_ratio.percent(),
        });
        Ok(Sounded {
            sounding: Some(index),
            tests: Vec::new(),
            station,
            offset,
            layers: layers.collect(),
            known_to: strata.known_to.si(),
            surfacing: strata.surfacing.map(Quantity::si),
            soil: strata.soil,
        })
    });
    let soundings: Vec<Sounded> = soundings.collect::<Result<_, _>>()?;
    Ok(Found {
        scatter: GroundScatter::of(&soundings),
        soundings,
        in_place: tested(&strip.strength_tests, Standing::InPlace),
        stiffness: tested(&strip.strength_tests, Standing::Stiffness),
    })
}

/// Strength tests of one standing, those of one place and day together.
fn tested(tests: &[StrengthTest], standing: Standing) -> Vec<Sounded> {
    let mut places: Vec<Sounded> = Vec::new();
    let date = |index: usize| tests.get(index).and_then(|test| test.date.as_ref()).map(|d| d.value);
    for (index, test) in tests.iter().enumerate() {
        let Some((own, bearing)) = counted(test).ok() else { continue };
        let (station, offset) = (test.station.value.si(), test.offset.si());
        if own != standing || !(station.is_finite() && offset.is_finite()) {
            continue;
        }
        let layer = SoundedLayer {
            top: test.top.si(),
            bottom: test.bottom.si(),
            percent: bearing.percent(),
        };
        let same = |place: &&mut Sounded| {
            let first = place.tests.first().copied();
            place.station == station
                && place.offset == offset
                && first.is_some_and(|first| date(first) == date(index))
        };
        match places.iter_mut().find(same) {
            Some(place) => {
                place.layers.push(layer);
                place.tests.push(index);
            }
            None => places.push(Sounded {
                sounding: None,
                tests: vec![index],
                station,
                offset,
                layers: vec![layer],
                known_to: 0.0,
                surfacing: None,
                soil: None,
            }),
        }
    }
    places
        .into_iter()
        .map(|mut place| {
            place.layers.sort_by(|a, b| a.top.total_cmp(&b.top));
            let deeper = |known: f64, layer: &SoundedLayer| {
                if layer.top <= known + 1e-9 { known.max(layer.bottom) } else { known }
            };
            place.known_to = place.layers.iter().fold(0.0, deeper);
            place
        })
        .collect()
}

/// The nearest behind and the nearest ahead, within reach.
fn either_side(some: &[Sounded], station: f64, offset: f64, reach: f64) -> Vec<&Sounded> {
    let mut behind: Option<(f64, &Sounded)> = None;
    let mut ahead: Option<(f64, &Sounded)> = None;
    for one in some {
        let (weighted, plan) = one.squares(station, offset);
        if plan > reach * reach {
            continue;
        }
        let nearer = |best: &Option<(f64, &Sounded)>| best.is_none_or(|best| weighted < best.0);
        if one.station <= station && nearer(&behind) {
            behind = Some((weighted, one));
        }
        if one.station >= station && nearer(&ahead) {
            ahead = Some((weighted, one));
        }
    }
    let mut used: Vec<&Sounded> =
        [behind, ahead].into_iter().flatten().map(|best| best.1).collect();
    used.dedup_by_key(|one| (one.sounding, one.tests.first().copied()));
    used
}

/// Deviation of the ground at a place from what the soundings beside it found.
pub(super) struct Growth<'a> {
    soundings: &'a [&'a Sounded],
    scatter: GroundScatter,
    /// Weight of the first.
    weight: f64,
    /// Deviation as a share of the scatter.
    deviation: f64,
}

impl<'a> Growth<'a> {
    pub(super) fn at(
        soundings: &'a [&'a Sounded],
        scatter: GroundScatter,
        distances: &[f64],
        correlation: Option<f64>,
    ) -> Self {
        let none = Between { weight_behind: 1.0, deviation: 0.0 };
        let Between { weight_behind: weight, deviation } = match (correlation, distances) {
            (Some(length), &[behind, ahead]) => Between::at(behind, ahead, length),
            (Some(length), &[only]) => Between { deviation: beside(only, length), ..none },
            _ => none,
        };
        let soundings = if correlation.is_some() { soundings } else { &[] };
        Self { soundings, scatter, weight, deviation }
    }

    /// What may be counted on at a depth, whatever the soundings found; none
    /// where they do not reach.
    fn counted_on(&self, depth: f64) -> Option<f64> {
        let surfaced = |one: &&Sounded| one.surfacing.is_some_and(|bottom| depth < bottom);
        let all_surfaced = self.soundings.iter().all(surfaced);
        let scatter = if all_surfaced { self.scatter.surfacing } else { self.scatter.under }?;
        let known: Vec<f64> =
            self.soundings.iter().filter_map(|one| one.percent_at(depth)).collect();
        let mean = match *known.as_slice() {
            [first, second] => self.weight * first.ln() + (1.0 - self.weight) * second.ln(),
            [only] => only.ln(),
            _ => return None,
        };
        Some((mean - scatter * self.deviation).exp())
    }
}

/// What tells of the ground at a place.
struct Around<'a> {
    station: f64,
    /// Soundings beside the place, and how far away they are.
    beside: Vec<&'a Sounded>,
    away: Vec<f64>,
    used: Vec<&'a Sounded>,
    known_to: f64,
    nearest: f64,
}

impl<'a> Around<'a> {
    fn at(found: &'a Found, station: f64, offset: f64, reach: f64) -> Self {
        let around = |some| either_side(some, station, offset, reach);
        let mut groups = vec![around(&found.soundings), around(&found.in_place)];
        if groups.iter().all(Vec::is_empty) {
            groups = vec![around(&found.stiffness)];
        }
        let beside = groups.first().cloned().unwrap_or_default();
        let away: Vec<f64> = beside.iter().map(|one| one.distance(station, offset)).collect();
        let known_to = groups.iter().map(|group| known_to(group)).fold(0.0, f64::max);
        let used: Vec<&Sounded> = groups.into_iter().flatten().collect();
        let distances = |some: &mut dyn Iterator<Item = &Sounded>| {
            some.map(|one| one.distance(station, offset)).fold(f64::INFINITY, f64::min)
        };
        let nearest = if used.is_empty() {
            let all = found.soundings.iter().chain(&found.in_place).chain(&found.stiffness);
            distances(&mut all.into_iter())
        } else {
            distances(&mut used.iter().copied())
        };
        Self { station, beside, away, used, known_to, nearest }
    }

    /// The strength there, alike over a length.
    fn point(&self, found: &Found, correlation: Option<f64>) -> StrengthPoint {
        let growth = Growth::at(&self.beside, found.scatter, &self.away, correlation);
        StrengthPoint {
            station: Length::from_si(self.station),
            layers: weaker_by_depth(&self.used, self.known_to, &growth),
            away: self.away.iter().copied().map(Length::from_si).collect(),
            known_to: Length::from_si(self.known_to),
            nearest: Length::from_si(self.nearest),
            soil: weakest_soil(&self.used),
            soundings: self.used.iter().filter_map(|one| one.sounding).collect(),
            strength_tests: self.used.iter().flat_map(|one| one.tests.iter().copied()).collect(),
        }
    }
}

/// Depth down to which all of a group know the ground.
fn known_to(group: &[&Sounded]) -> f64 {
    group.iter().map(|one| one.known_to).reduce(f64::min).unwrap_or(0.0)
}

fn weakest_soil(used: &[&Sounded]) -> SoilClass {
    let classes: Vec<SoilClass> =
        used.iter().map(|one| one.soil.unwrap_or(SoilClass::LeanClay)).collect();
    if classes.is_empty() || classes.contains(&SoilClass::LeanClay) {
        SoilClass::LeanClay
    } else if classes.contains(&SoilClass::Other) {
        SoilClass::Other
    } else {
        SoilClass::FatClay
    }
}

/// Layers of the weakest bearing ratio at each depth, down to `known_to`.
pub(super) fn weaker_by_depth(
    used: &[&Sounded],
    known_to: f64,
    growth: &Growth<'_>,
) -> Vec<(Length, BearingRatio)> {
    let all = || used.iter().flat_map(|one| &one.layers);
    let edges = all().flat_map(|layer| [layer.top, layer.bottom]);
    let mut tops: Vec<f64> = edges.filter(|top| *top < known_to).collect();
    tops.sort_by(f64::total_cmp);
    tops.dedup();
    let mut layers: Vec<(Length, BearingRatio)> = Vec::with_capacity(tops.len());
    for (index, &top) in tops.iter().enumerate() {
        let bottom = tops.get(index + 1).copied().unwrap_or(known_to);
        let counted_on = growth.counted_on(0.5 * (top + bottom));
        let weakest = all()
            .filter(|layer| layer.top <= top && layer.bottom > top)
            .map(|layer| layer.percent)
            .fold(counted_on.unwrap_or(f64::INFINITY), f64::min);
        let weakest = BearingRatio::from_si(weakest);
        if layers.last().is_none_or(|(_, above)| *above != weakest) {
            layers.push((Length::from_si(top), weakest));
        }
    }
    layers
}
