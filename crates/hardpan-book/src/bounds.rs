//! What a value of a record can be at all. Outside these bounds lies a slip of the pen or
//! of the unit. They are wide on purpose. Source: judgement, no document.

use crate::cell::Cell;
use crate::{Fields, Kind};
use hardpan_quantity::{Length, Mass, Pressure, Quantity as _};
use jiff::Timestamp;
use jiff::civil::{Date, date};
use jiff::tz::Offset;

/// Longest strip on which a station can lie, metres.
const LONGEST_STRIP: f64 = 10_000.0;

/// Least and greatest value, SI, and both in words.
type Bounds = (f64, f64, &'static str);

const STATION: Bounds = (0.0, LONGEST_STRIP, "0 m to 10 km");
const DEPTH: Bounds = (0.0, 2.0, "0 mm to 2 m");
const EXTENT: Bounds = (0.0, 10.0, "0 mm to 10 m");
const STONE: Bounds = (0.0, 1.0, "0 mm to 1 m");
const MASS: Bounds = (500.0, 700e3, "500 kg to 700 t");
const PRESSURE: Bounds = (50e3, 3e6, "50 kPa to 3 MPa");

/// First and last day that a record can tell of.
const DAYS: (Date, Date) = (date(1900, 1, 1), date(2199, 12, 31));

/// Values with a unit, by name.
const fn of_quantity(name: &str) -> Option<Bounds> {
    Some(match name.as_bytes() {
        b"rut_station" | b"loose_station" | b"water_station" | b"station" | b"rolled_from"
        | b"rolled_to" | b"from" | b"to" => STATION,
        b"rut" | b"loose" | b"water" => DEPTH,
        b"size" => EXTENT,
        b"stone" => STONE,
        b"mass" => MASS,
        b"pressure" => PRESSURE,
        _ => return None,
    })
}

fn si(kind: Kind, name: &str, text: &str) -> Option<f64> {
    let text = Some(text);
    match (kind, name) {
        (Kind::Movement, "mass") => Mass::read(text).ok().map(|mass| mass.si()),
        (Kind::Movement, "pressure") => Pressure::read(text).ok().map(|pressure| pressure.si()),
        (Kind::Movement | Kind::Inspection | Kind::Damage | Kind::Repair, _) => {
            Length::read(text).ok().map(|length| length.si())
        }
        _ => None,
    }
}

fn day(name: &str, text: &str) -> Option<Date> {
    match name {
        "date" | "due" => Date::read(Some(text)).ok(),
        "at" | "from" => {
            let at = Timestamp::read(Some(text)).ok()?;
            Some(Offset::UTC.to_datetime(at).date())
        }
        _ => None,
    }
}

/// Values that can be read and lie out of all bounds, each with the bounds.
pub(crate) fn out_of_bounds(kind: Kind, fields: &Fields) -> Vec<(&'static str, String)> {
    let mut found = Vec::new();
    for name in kind.fields() {
        let Some(text) = fields.get(*name) else { continue };
        if let Some((low, high, words)) = of_quantity(name)
            && si(kind, name, text).is_some_and(|si| !(low..=high).contains(&si))
        {
            found.push((
                *name,
                format!("`{text}` lies outside {words}; check the number and its unit"),
            ));
        }
        let (first, last) = DAYS;
        // What happened must not lie ahead of the time of recording, which is told apart.
        let is_after = |day: Date| day > last && matches!(*name, "due" | "from");
        if day(name, text).is_some_and(|day| day < first || is_after(day)) {
            found.push((*name, format!("`{text}` lies outside {first} to {last}; check the year")));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::out_of_bounds;
    use crate::{Fields, Kind};

    fn wrong(kind: Kind, name: &str, text: &str) -> bool {
        let fields = Fields::from([(name.to_owned(), text.to_owned())]);
        !out_of_bounds(kind, &fields).is_empty()
    }

    #[test]
    fn what_nothing_can_be_is_told_with_its_bounds() {
        for (kind, name, fits, over) in [
            (Kind::Movement, "mass", "640 t", "4000000 t"),
            (Kind::Movement, "mass", "500 kg", "40 kg"),
            (Kind::Movement, "pressure", "100 psi", "100 MPa"),
            (Kind::Movement, "pressure", "50 kPa", "100 Pa"),
            (Kind::Movement, "rolled_to", "10 km", "10001 m"),
            (Kind::Movement, "at", "2026-06-18T15:00Z", "1026-06-18T15:00Z"),
            (Kind::Inspection, "rut", "120 mm", "120 m"),
            (Kind::Inspection, "rut_station", "999 m", "99999 m"),
            (Kind::Inspection, "water", "0 mm", "3 m"),
            (Kind::Damage, "size", "2 m", "50 m"),
            (Kind::Damage, "stone", "60 mm", "60 m"),
            (Kind::Repair, "to", "1980 m", "19800 m"),
            (Kind::Closure, "from", "2027-01-01T00:00Z", "9999-01-01T00:00Z"),
            (Kind::Survey, "due", "2027-06-18", "2722-06-18"),
        ] {
            assert!(!wrong(kind, name, fits), "{kind} {name} {fits}");
            assert!(wrong(kind, name, over), "{kind} {name} {over}");
        }
    }
}
