//! Where the two thresholds lie: in a plane frame, on the globe, or both, and
//! the axis between them.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::strip::checks::shown;
use crate::table::cursor::{Entry, Table};
use crate::table::plausible::{self, Bounds};
use hardpan_model::{Given, Strip, StripEnd};
use hardpan_quantity::{Amount, Angle, Dimension, Length, Quantity, UnitSystem, metres};
use hardpan_survey::{AxisStart, Error, Geographic, GlobeAxis, PlanePoint, StationAxis};

/// Coordinates of thresholds and the length of the strip agree within this
/// share and this much: the scale of a projection and a tape lie inside.
/// Source: judgement.
const LENGTH_SHARE: f64 = 0.01;
const LENGTH_MORE_M: f64 = 5.0;
/// The bearing through two places and the stated bearing agree within this; a
/// bearing is stated to the whole degree. Source: judgement.
const BEARING_APART_DEG: f64 = 2.0;

/// A key that stands in for another one, and whether it stands in the file.
type Coordinate<T> = (Option<Given<T>>, bool);

/// The middle of a threshold, as far as it is stated.
pub(super) struct Threshold {
    easting: Coordinate<Length>,
    northing: Coordinate<Length>,
    latitude: Coordinate<Angle>,
    longitude: Coordinate<Angle>,
}

impl Threshold {
    pub(super) fn read(t: &mut Table<'_>) -> Self {
        let read = Self {
            easting: length(t, "easting", plausible::COORDINATE),
            northing: length(t, "northing", plausible::COORDINATE),
            latitude: angle(t, "latitude", plausible::LATITUDE),
            longitude: angle(t, "longitude", plausible::LONGITUDE),
        };
        for (given, missing) in [("latitude", "longitude"), ("longitude", "latitude")] {
            if t.has(given) && !t.has(missing) {
                let (given_path, missing) = (t.path_of(given), t.path_of(missing));
                let mistake = Mistake::HalfPlace { given: given_path, missing };
                t.page().report(t.span_of(given), &mistake);
            }
        }
        read
    }

    pub(super) fn latitude(&self) -> Option<Given<Angle>> {
        self.latitude.0.clone()
    }

    pub(super) fn longitude(&self) -> Option<Given<Angle>> {
        self.longitude.0.clone()
    }

    fn point(&self) -> Option<PlanePoint> {
        let easting = self.easting.0.as_ref()?.value;
        let northing = self.northing.0.as_ref()?.value;
        Some(PlanePoint { easting, northing })
    }

    /// Its place on the globe.
    pub(super) fn place(&self) -> Option<Geographic> {
        let latitude = self.latitude.0.as_ref()?.value;
        let longitude = self.longitude.0.as_ref()?.value;
        Some(Geographic { latitude, longitude })
    }

    /// Whether a place on the globe stands in the file, readable or not.
    pub(super) fn has_place(&self) -> bool {
        self.latitude.1 || self.longitude.1
    }
}

/// A length that only some surveys need.
pub(super) fn length(t: &mut Table<'_>, key: &'static str, bounds: Bounds) -> Coordinate<Length> {
    let amount = |amount: Amount| metres(amount.si);
    coordinate(t, key, Dimension::Length, bounds, amount)
}

fn angle(t: &mut Table<'_>, key: &'static str, bounds: Bounds) -> Coordinate<Angle> {
    coordinate(t, key, Dimension::Angle, bounds, |amount| Angle::from_si(amount.si))
}

fn coordinate<T>(
    t: &mut Table<'_>,
    key: &'static str,
    dimension: Dimension,
    bounds: Bounds,
    make: impl Fn(Amount) -> T,
) -> Coordinate<T> {
    let Some(entry) = t.alternative(key) else {
        return (None, false);
    };
    let amount = t.amount_of(&entry, dimension, bounds);
    (amount.map(|amount| t.given(&entry, amount).map(make)), true)
}

/// What a survey is laid on.
pub(super) struct Ends<'g> {
    pub(super) length: Option<Length>,
    pub(super) width: Option<Length>,
    pub(super) low: &'g Threshold,
    pub(super) high: &'g Threshold,
}

/// Name the keys that a survey of some kind cannot do without.
pub(super) struct Lacking<'l, 't> {
    pub(super) t: &'l Table<'t>,
    pub(super) entry: &'l Entry<'t>,
    pub(super) what: &'static str,
}

impl Lacking<'_, '_> {
    pub(super) fn unless(&self, stands: bool, key: &str, example: &str) {
        if !stands {
            let mistake = Mistake::AxisNeeds {
                what: self.what.to_owned(),
                key: key.to_owned(),
                example: example.to_owned(),
            };
            self.t.page().report(self.entry.span.clone(), &mistake);
        }
    }
}

impl Ends<'_> {
    /// The axis between thresholds in a plane frame, with the size of the strip.
    pub(super) fn plane_axis(
        &self,
        lacking: &Lacking<'_, '_>,
    ) -> Option<Result<(StationAxis, Length, Length), Error>> {
        let t = lacking.t;
        lacking.unless(t.has("length"), "length", "\"1980 m\"");
        lacking.unless(t.has("width"), "width", "\"45 m\"");
        lacking.unless(self.low.easting.1, "low_end.easting", "\"500000 m\"");
        lacking.unless(self.low.northing.1, "low_end.northing", "\"4100000 m\"");
        lacking.unless(self.high.easting.1, "high_end.easting", "\"501836 m\"");
        lacking.unless(self.high.northing.1, "high_end.northing", "\"4100742 m\"");
        let (low, high) = (self.low.point()?, self.high.point()?);
        let (length, width) = (self.length?, self.width?);
        let axis = match StationAxis::between(low, high) {
            Ok(axis) => axis,
            Err(error) => return Some(Err(error)),
        };
        let at = self.high.easting.0.as_ref();
        at.and_then(|at| agrees(t.page(), at, axis.length(), length))?;
        Some(Ok((axis, length, width)))
    }

    /// Where an axis along a survey in a plane frame begins, with the size of the
    /// strip; none when something is missing: it is noted then.
    pub(super) fn plane_start(
        &self,
        lacking: &Lacking<'_, '_>,
        bearing: Option<&Given<Angle>>,
    ) -> Option<(AxisStart, Length, Length)> {
        let t = lacking.t;
        lacking.unless(t.has("length"), "length", "\"1980 m\"");
        lacking.unless(t.has("width"), "width", "\"45 m\"");
        let stands = |end: &Threshold| end.easting.1 || end.northing.1;
        let told = stands(self.low) || stands(self.high) || t.has("bearing");
        lacking.unless(told, "low_end.easting", "\"500000 m\" and its northing");
        for (end, key, example) in [
            (self.low, "low_end", ("\"500000 m\"", "\"4100000 m\"")),
            (self.high, "high_end", ("\"501836 m\"", "\"4100742 m\"")),
        ] {
            if stands(end) {
                lacking.unless(end.easting.1, &format!("{key}.easting"), example.0);
                lacking.unless(end.northing.1, &format!("{key}.northing"), example.1);
            }
        }
        let start = match (self.low.point(), self.high.point(), bearing) {
            (Some(low), ..) => AxisStart::Low(low),
            (None, Some(high), _) => AxisStart::High(high),
            (None, None, Some(bearing)) => AxisStart::Bearing(bearing.value),
            (None, None, None) => return None,
        };
        Some((start, self.length?, self.width?))
    }

    /// The axis between thresholds on the globe.
    pub(super) fn globe_axis(
        &self,
        page: &Page<'_>,
        bearing: Option<&Given<Angle>>,
        height: Length,
    ) -> Option<Result<GlobeAxis, Error>> {
        let (low, high) = (self.low.place()?, self.high.place()?);
        let laid = GlobeAxis::between(low, high, height);
        if let (Ok(laid), Some(at)) = (&laid, &self.high.latitude.0) {
            let axis = laid.axis();
            if let Some(length) = self.length {
                agrees(page, at, axis.length(), length)?;
            }
            bearing.map_or(Some(()), |bearing| faces(page, bearing, axis))?;
        }
        Some(laid)
    }
}

/// The thresholds are as far apart as the strip is long.
fn agrees<T>(page: &Page<'_>, at: &Given<T>, apart: Length, length: Length) -> Option<()> {
    let allowed = length * LENGTH_SHARE + metres(LENGTH_MORE_M);
    if apart <= length + allowed && apart >= length - allowed {
        return Some(());
    }
    let mistake = Mistake::AxisApart { apart: shown(apart), length: shown(length) };
    page.report(page.value_at(&at.origin), &mistake);
    None
}

/// The axis through two places points where the file says.
fn faces(page: &Page<'_>, bearing: &Given<Angle>, axis: &StationAxis) -> Option<()> {
    let found = axis.grid_bearing();
    let turned = (found - bearing.value).si();
    let apart = turned.sin().atan2(turned.cos()).abs();
    if apart.to_degrees() <= BEARING_APART_DEG {
        return Some(());
    }
    let words = |angle: Angle| Amount::from(angle).show(UnitSystem::Metric);
    let mistake = Mistake::BearingApart { found: words(found), stated: words(bearing.value) };
    page.report(page.value_at(&bearing.origin), &mistake);
    None
}

/// The axis of a strip whose thresholds are given by latitude and longitude;
/// none where they are not. Its stations are distances at the elevation of the
/// strip, or at sea level where nobody states one: 0.3 m shorter over 2 km for
/// each 1000 m of elevation.
#[must_use]
pub fn axis_on_globe(strip: &Strip) -> Option<Result<GlobeAxis, Error>> {
    let place = |end: &StripEnd| {
        let (latitude, longitude) = (end.latitude.as_ref()?.value, end.longitude.as_ref()?.value);
        Some(Geographic { latitude, longitude })
    };
    let (low, high) = (place(&strip.low_end)?, place(&strip.high_end)?);
    let height = strip.elevation.as_ref().map_or(metres(0.0), |given| given.value);
    Some(GlobeAxis::between(low, high, height))
}
