//! What stands against values that can be read each by itself: told of those that can,
//! whatever is wrong with the others.

use crate::cell::Cell;
use crate::ruts::metres_text;
use crate::{Fields, Kind};
use hardpan_quantity::{Length, Quantity as _};
use jiff::Timestamp;
use jiff::civil::{Date, Time};
use jiff::tz::Offset;

/// Depths with what must be stated where they are more than 0.
const PLACES: [(&str, &str); 4] = [
    ("rut", "rut_station"),
    ("rut", "rut_lane"),
    ("loose", "loose_station"),
    ("water", "water_station"),
];

fn read<T: Cell>(fields: &Fields, name: &str) -> Option<T> {
    T::read(Some(fields.get(name)?)).ok()
}

/// Values that contradict others, each with what is wrong.
pub(crate) fn contradictions(kind: Kind, fields: &Fields) -> Vec<(&'static str, String)> {
    let is_stated = |name: &str| fields.contains_key(name);
    match kind {
        Kind::Inspection => {
            let is_deep =
                |name: &str| read::<Length>(fields, name).is_some_and(|depth| depth.si() > 0.0);
            let missing =
                PLACES.into_iter().filter(|(depth, place)| is_deep(depth) && !is_stated(place));
            let what = "must be stated where the depth is more than 0";
            missing.map(|(_, place)| (place, what.to_owned())).collect()
        }
        Kind::Movement if is_stated("rolled_from") != is_stated("rolled_to") => {
            let field = if is_stated("rolled_from") { "rolled_to" } else { "rolled_from" };
            vec![(field, "must be stated with the other end of the stretch".to_owned())]
        }
        Kind::Repair => {
            let ends = read::<Length>(fields, "from").zip(read::<Length>(fields, "to"));
            let turned = ends.filter(|(from, to)| to < from).map(|ends| {
                let (from, to) = (metres_text(ends.0), metres_text(ends.1));
                ("to", format!("{to} m lies before {from} m"))
            });
            turned.into_iter().collect()
        }
        Kind::Assessment => {
            let json = fields.get("json").map(|text| serde_json::from_str(text));
            let broken = json.and_then(|read: Result<serde_json::Value, _>| read.err());
            broken.map(|error| ("json", format!("is no JSON text: {error}"))).into_iter().collect()
        }
        _ => Vec::new(),
    }
}

/// The moment or the beginning of the day at which it happened; none for what may lie
/// ahead.
pub(crate) fn happened(kind: Kind, fields: &Fields) -> Option<(&'static str, Timestamp)> {
    match kind {
        Kind::Movement | Kind::Inspection | Kind::Assessment | Kind::Equipment => {
            Some(("at", read(fields, "at")?))
        }
        Kind::Damage | Kind::Repair | Kind::Survey => {
            let day: Date = read(fields, "date")?;
            let moment = Offset::UTC.to_timestamp(day.to_datetime(Time::midnight())).ok()?;
            Some(("date", moment))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::{BookError, Fields, Kind, Record};

    fn wrong(kind: Kind, values: &[(&str, &str)]) -> Vec<&'static str> {
        let fields: Fields = values.iter().map(|(k, v)| ((*k).into(), (*v).into())).collect();
        let at = "2026-06-18T15:00:00Z".parse().expect("a moment");
        let all = Record::from_fields_at(kind, &fields, at).expect_err("it has mistakes");
        let field = |error: BookError| match error {
            BookError::Value { field, .. } => field,
            other => panic!("{other}"),
        };
        all.into_iter().map(field).collect()
    }

    #[test]
    fn everything_that_is_wrong_with_a_record_is_told() {
        let seen = [("at", "2026-06-19T15:00Z"), ("rut", "12 mm"), ("water", "3")];
        assert_eq!(
            wrong(Kind::Inspection, &seen),
            ["strip", "water", "rut_station", "rut_lane", "at"]
        );
        let mended = [("strip", " N"), ("date", "soon"), ("from", "9 m"), ("to", "8 m")];
        assert_eq!(wrong(Kind::Repair, &mended), ["date", "what", "strip", "to"]);
        let moved = [("strip", "N"), ("tail", "1"), ("rolled_from", "9 m"), ("at", "2026-06-18")];
        assert_eq!(wrong(Kind::Movement, &moved), ["kind", "at", "mass", "rolled_to"]);
    }
}
