//! How strong is the ground by station along each lane?
//!
//! `Strip` → `Vec<StrengthLane>`. At each station the nearest sounding behind
//! and the nearest ahead are taken, and at every depth the weaker of the two
//! counts, so that a soft place reaches to the next sounding on either side.
//! Where no sounding lies within reach, nothing is known and `layers` is empty.

use crate::error::positive;
use crate::{Error, Strata};
use hardpan_model::{Lane, SoilClass, Source, StrengthLane, StrengthPoint, Strip, Tier};
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

/// A sounding with its place and strata.
struct Sounded {
    index: usize,
    station: f64,
    offset: f64,
    strata: Strata,
}

impl Sounded {
    /// Distance by which the nearest is chosen.
    fn weighted(&self, station: f64, offset: f64) -> f64 {
        (self.station - station).hypot(ACROSS_WEIGHT * (self.offset - offset))
    }

    fn distance(&self, station: f64, offset: f64) -> f64 {
        (self.station - station).hypot(self.offset - offset)
    }
}

/// Strength by station along each lane, from station 0 to `length` every
/// `step`, both ends included.
///
/// Behind and ahead, the sounding with the least weighted distance is taken
/// among those within reach: plan distance at most `strip.sounding_reach`, or
/// [`DEFAULT_REACH_M`] where the strip states none. A sounding at the station
/// itself counts as both. With soundings on one side only, those alone are
/// used. `known_to` is the lesser depth of those used. `soil` is the class
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
    let reach = match &strip.sounding_reach {
        Some(reach) => positive("reach of a sounding", "m", reach.value.si())?,
        None => DEFAULT_REACH_M,
    };
    let stations = stations(step, length)?;
    let sounded = sounded(strip)?;
    lanes
        .iter()
        .map(|&(lane, offset)| {
            let across = offset.si();
            if !across.is_finite() {
                return Err(Error::NotPositive { what: "lane offset", value: across, unit: "m" });
            }
            let points =
                stations.iter().map(|&at| strength_at(&sounded, at, across, reach)).collect();
            Ok(StrengthLane { lane, offset, points })
        })
        .collect()
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

fn sounded(strip: &Strip) -> Result<Vec<Sounded>, Error> {
    strip
        .soundings
        .iter()
        .enumerate()
        .map(|(index, sounding)| {
            let (station, offset) = (sounding.station.value.si(), sounding.offset.si());
            if !(station.is_finite() && offset.is_finite()) {
                let line = sounding.station.origin.line;
                return Err(Error::SoundingPlace { number: index + 1, line });
            }
            Ok(Sounded { index, station, offset, strata: Strata::of(sounding)? })
        })
        .collect()
}

fn strength_at(sounded: &[Sounded], station: f64, offset: f64, reach: f64) -> StrengthPoint {
    let nearest = |ahead: bool| {
        sounded
            .iter()
            .filter(|one| if ahead { one.station >= station } else { one.station <= station })
            .filter(|one| one.distance(station, offset) <= reach)
            .min_by(|a, b| a.weighted(station, offset).total_cmp(&b.weighted(station, offset)))
    };
    let mut used: Vec<&Sounded> = [nearest(false), nearest(true)].into_iter().flatten().collect();
    used.dedup_by_key(|one| one.index);
    let distances = |some: &mut dyn Iterator<Item = &Sounded>| {
        some.map(|one| one.distance(station, offset)).fold(f64::INFINITY, f64::min)
    };
    let nearest = if used.is_empty() {
        distances(&mut sounded.iter())
    } else {
        distances(&mut used.iter().copied())
    };
    let known_to = used.iter().map(|one| one.strata.known_to.si()).fold(f64::INFINITY, f64::min);
    let known_to = if used.is_empty() { 0.0 } else { known_to };
    StrengthPoint {
        station: Length::from_si(station),
        layers: weaker_by_depth(&used, known_to),
        known_to: Length::from_si(known_to),
        nearest: Length::from_si(nearest),
        soil: weakest_soil(&used),
        soundings: used.iter().map(|one| one.index).collect(),
    }
}

fn weakest_soil(used: &[&Sounded]) -> SoilClass {
    let classes: Vec<SoilClass> =
        used.iter().map(|one| one.strata.soil.unwrap_or(SoilClass::LeanClay)).collect();
    if classes.is_empty() || classes.contains(&SoilClass::LeanClay) {
        SoilClass::LeanClay
    } else if classes.contains(&SoilClass::Other) {
        SoilClass::Other
    } else {
        SoilClass::FatClay
    }
}

/// Layers of the weakest bearing ratio at each depth, down to `known_to`.
fn weaker_by_depth(used: &[&Sounded], known_to: f64) -> Vec<(Length, BearingRatio)> {
    let all = || used.iter().flat_map(|one| &one.strata.strata);
    let mut tops: Vec<f64> =
        all().map(|stratum| stratum.top.si()).filter(|top| *top < known_to).collect();
    tops.sort_by(f64::total_cmp);
    tops.dedup();
    let mut layers: Vec<(Length, BearingRatio)> = Vec::with_capacity(tops.len());
    for top in tops {
        let weakest = all()
            .filter(|stratum| stratum.top.si() <= top && stratum.bottom.si() > top)
            .map(|stratum| stratum.bearing_ratio.percent())
            .fold(f64::INFINITY, f64::min);
        let weakest = BearingRatio::from_si(weakest);
        if layers.last().is_none_or(|(_, above)| *above != weakest) {
            layers.push((Length::from_si(top), weakest));
        }
    }
    layers
}
