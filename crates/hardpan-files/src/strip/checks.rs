//! Values of one strip that do not go together.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::strip::direction_of;
use hardpan_model::{Given, Strip, StripEnd};
use hardpan_quantity::{Amount, Length, Quantity, UnitSystem};
use std::f64::consts::{PI, TAU};

/// A clearway is seldom longer than half the run, a stopway than a third of it:
/// beyond that lies a slip. Source: judgement.
const CLEARWAY: f64 = 1.5;
const STOPWAY: f64 = 1.34;
/// Designators are magnetic and the bearing is true: only a right angle or
/// more is surely a slip.
const OPPOSED: f64 = PI / 2.0;

/// Note what does not go together.
pub(crate) fn check(page: &Page<'_>, strip: &Strip) {
    for end in [&strip.low_end, &strip.high_end] {
        declared(page, strip.length.as_ref(), end);
    }
    let bearing = strip.bearing.as_ref().map(|bearing| bearing.value.si());
    facing(page, &strip.low_end, bearing);
    facing(page, &strip.high_end, bearing.map(|bearing| (bearing + PI) % TAU));
    opposite(page, &strip.low_end, &strip.high_end);
    let length = strip.length.as_ref().map(|length| length.value);
    for stretch in &strip.loose_stones {
        if let Some(mistake) = on_strip("loose stones", stretch.to, length) {
            page.report(page.value_at(&stretch.from.origin), &mistake);
        }
    }
    for (from, to) in strip.friction.iter().filter_map(|friction| friction.between.as_ref()) {
        if let Some(mistake) = on_strip("the friction", *to, length) {
            page.report(page.value_at(&from.origin), &mistake);
        }
    }
    for cable in &strip.cables {
        if let Some(mistake) = on_strip("the cable", cable.station.value, length) {
            page.report(page.value_at(&cable.station.origin), &mistake);
        }
    }
}

fn declared(page: &Page<'_>, length: Option<&Given<Length>>, end: &StripEnd) {
    let Some(length) = length else {
        return;
    };
    let declared = &end.declared;
    for (distance, factor) in [
        (&declared.take_off_run, 1.0),
        (&declared.landing_distance, 1.0),
        (&declared.take_off_distance, CLEARWAY),
        (&declared.accelerate_stop, STOPWAY),
    ] {
        let Some(distance) = distance else {
            continue;
        };
        if distance.value.si() > length.value.si() * factor + 0.5 {
            let mistake = Mistake::DeclaredTooLong {
                key: distance.origin.key.to_string(),
                declared: shown(distance.value),
                length: shown(length.value),
            };
            page.report_with(
                page.value_at(&distance.origin),
                &mistake,
                page.value_at(&length.origin),
                "the length",
            );
        }
    }
}

fn facing(page: &Page<'_>, end: &StripEnd, towards: Option<f64>) {
    let (Some(designator), Some(towards)) = (&end.designator, towards) else {
        return;
    };
    let Some(tens) = direction_of(&designator.value) else {
        return;
    };
    let apart = (f64::from(tens) * 10.0).to_radians() - towards;
    let apart = apart.sin().atan2(apart.cos()).abs();
    if apart > OPPOSED {
        let bearing =
            Amount::new(hardpan_quantity::Dimension::Angle, towards).show(UnitSystem::Metric);
        let mistake = Mistake::DesignatorOpposed {
            key: designator.origin.key.to_string(),
            designator: designator.value.clone(),
            bearing,
        };
        page.report(page.value_at(&designator.origin), &mistake);
    }
}

fn opposite(page: &Page<'_>, low: &StripEnd, high: &StripEnd) {
    let (Some(low), Some(high)) = (&low.designator, &high.designator) else {
        return;
    };
    let (Some(one), Some(other)) = (direction_of(&low.value), direction_of(&high.value)) else {
        return;
    };
    if one.abs_diff(other) != 18 {
        let mistake =
            Mistake::DesignatorsApart { low: low.value.clone(), high: high.value.clone() };
        page.report_with(
            page.value_at(&high.origin),
            &mistake,
            page.value_at(&low.origin),
            "the other end",
        );
    }
}

/// A place must lie on the strip. Stations are read to the centimetre.
pub(crate) fn on_strip(what: &str, reach: Length, length: Option<Length>) -> Option<Mistake> {
    let length = length?;
    (reach.si() > length.si() + 0.01).then(|| Mistake::BeyondStrip {
        what: what.to_owned(),
        length: shown(length),
        reach: shown(reach),
    })
}

/// A station or offset for people, to the centimetre.
pub(crate) fn place(length: Length) -> String {
    let text = format!("{:.2}", length.si());
    format!("{} m", text.trim_end_matches('0').trim_end_matches('.'))
}

/// A length for people.
pub(crate) fn shown(length: Length) -> String {
    Amount::from(length).show(UnitSystem::Metric)
}
