//! Which strata does one sounding show, and how thick is the surfacing there?
//!
//! `Sounding` → [`Strata`]. Each row of blows is an interval with one rate;
//! intervals join to strata at the change points that
//! [`change_points`](crate::sounding::change_points) finds in the logarithm of the rate.
//! Below the last depth nothing is known, refusal or not.

use crate::Error;
use crate::sounding::change_points::{Interval, change_points};
use crate::sounding::penetrometer::{bearing_ratio, hammer_factor, lowest_bearing_ratio};
use hardpan_model::{SoilClass, Sounding};
use hardpan_quantity::{BearingRatio, Length, PenetrationRate, Quantity};

/// Depth up to which a first row without blows is the seating of the cone.
/// Judgement: the cone of the standard apparatus is 17 mm high.
const SEATING_M: f64 = 0.030;
/// Least rate given to a row without blows, where the cone sank under its own
/// weight. Source: [ASTM-D6951] Table 1, last row (CBR below 0.5; from memory).
const SINKING_RATE_M: f64 = 0.324;
/// Deepest reading accepted: several times the rods of the apparatus. Judgement.
const DEEPEST_M: f64 = 10.0;
/// A stratum ends the surfacing when the cone goes through it at this multiple
/// of the mean rate of all that lies above. Judgement: CBR falls by about 40 %.
pub const CLEARLY_WEAKER: f64 = 1.5;

/// A depth range of one mean rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stratum {
    /// Top, below the surface.
    pub top: Length,
    /// Bottom, below the surface.
    pub bottom: Length,
    /// Mean rate for the 8 kg hammer, weighted by thickness, which stays on
    /// the weak side of depth over blows.
    pub rate: PenetrationRate,
    /// Greatest rate of a single row in it.
    pub softest: PenetrationRate,
    /// Bearing ratio at the mean rate: the mean of the law, not yet credited.
    pub bearing_ratio: BearingRatio,
}

/// What one sounding shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Strata {
    /// From the surface down, without gaps; one or more.
    pub strata: Vec<Stratum>,
    /// Thickness of the surfacing: depth to the first clearly weaker stratum;
    /// none when the sounding does not reach under it or nothing is weaker.
    pub surfacing: Option<Length>,
    /// Depth of the last reading. Nothing is known below.
    pub known_to: Length,
    /// The cone met refusal there.
    pub refusal: bool,
    /// Soil class under the surfacing as stated; none when nobody stated it.
    pub soil: Option<SoilClass>,
}

impl Strata {
    /// The strata of a sounding.
    ///
    /// The stated class holds for the ground under the surfacing. Strata above
    /// that, and all strata of a sounding that does not reach under it, take
    /// the lower of its law and the law for all soils; ground of no stated
    /// class takes the lowest law of all. A first row without blows of at most
    /// 30 mm is the seating of the cone; any other row without blows counts as
    /// ground in which the cone sinks under its own weight.
    ///
    /// # Errors
    /// [`Error`] when there is no reading or no blow, or depths do not rise.
    pub fn of(sounding: &Sounding) -> Result<Self, Error> {
        let intervals = intervals(sounding)?;
        let known_to = intervals.last().map_or(0.0, |interval| interval.bottom);
        let soil = sounding.soil.as_ref().map(|soil| soil.value);
        let mut strata: Vec<Stratum> =
            change_points(&intervals).into_iter().map(|rows| stratum(&intervals[rows])).collect();
        let surfacing = surfacing(&strata);
        for stratum in &mut strata {
            let under = surfacing.is_some_and(|bottom| stratum.top >= bottom);
            stratum.bearing_ratio = law(stratum.rate, soil, under);
        }
        Ok(Self {
            strata,
            surfacing,
            known_to: Length::from_si(known_to),
            refusal: sounding.refusal,
            soil,
        })
    }
}

fn law(rate: PenetrationRate, soil: Option<SoilClass>, under: bool) -> BearingRatio {
    match soil {
        None => lowest_bearing_ratio(rate),
        Some(soil) if under => bearing_ratio(rate, soil),
        Some(soil) => {
            let (own, all) = (bearing_ratio(rate, soil), bearing_ratio(rate, SoilClass::Other));
            if own < all { own } else { all }
        }
    }
}

fn stratum(rows: &[Interval]) -> Stratum {
    let thickness: f64 = rows.iter().map(Interval::thickness).sum();
    let weighted: f64 = rows.iter().map(|row| row.rate * row.thickness()).sum();
    let softest = rows.iter().map(|row| row.rate).fold(0.0, f64::max);
    let ends = (rows.first().map_or(0.0, |row| row.top), rows.last().map_or(0.0, |row| row.bottom));
    Stratum {
        top: Length::from_si(ends.0),
        bottom: Length::from_si(ends.1),
        rate: PenetrationRate::from_si(weighted / thickness),
        softest: PenetrationRate::from_si(softest),
        bearing_ratio: BearingRatio::from_si(0.0),
    }
}

fn surfacing(strata: &[Stratum]) -> Option<Length> {
    let mut weighted = 0.0;
    for stratum in strata {
        let above = stratum.top.si();
        if above > 0.0 && stratum.rate.si() >= CLEARLY_WEAKER * weighted / above {
            return Some(stratum.top);
        }
        weighted += stratum.rate.si() * (stratum.bottom.si() - above);
    }
    None
}

fn intervals(sounding: &Sounding) -> Result<Vec<Interval>, Error> {
    let station_m = sounding.station.value.si();
    let line = sounding.station.origin.line;
    if sounding.readings.is_empty() {
        return Err(Error::SoundingEmpty { station_m, line });
    }
    if sounding.readings.iter().all(|reading| reading.blows == 0) {
        return Err(Error::SoundingNoBlows { station_m, line });
    }
    let factor = hammer_factor(sounding.hammer.value);
    let mut intervals: Vec<Interval> = Vec::with_capacity(sounding.readings.len());
    let (mut top, mut before) = (0.0, 0.0);
    for (index, reading) in sounding.readings.iter().enumerate() {
        let depth = reading.depth.si();
        if !(depth > before && depth.is_finite()) {
            return Err(Error::SoundingDepth {
                station_m,
                line: reading.line,
                depth_mm: depth * 1e3,
                before_mm: before * 1e3,
            });
        }
        if depth > DEEPEST_M {
            return Err(Error::SoundingTooDeep {
                station_m,
                line: reading.line,
                depth_mm: depth * 1e3,
                limit_mm: DEEPEST_M * 1e3,
            });
        }
        let advance = depth - before;
        before = depth;
        let rate = if reading.blows > 0 {
            factor * advance / f64::from(reading.blows)
        } else if index == 0 && depth <= SEATING_M {
            continue;
        } else {
            advance.max(SINKING_RATE_M)
        };
        intervals.push(Interval { top, bottom: depth, rate });
        top = depth;
    }
    Ok(intervals)
}
