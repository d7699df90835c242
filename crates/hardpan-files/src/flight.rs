//! `kind = "flight"`: one landing, take-off or both, and the files of its
//! aeroplane, strip and day.

use crate::aeroplane::checks::in_order;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::{list, nearest};
use crate::diagnose::page::{Files, Page, shortened};
use crate::strip::checks::on_strip;
use crate::strip::stones::counted_by_strip;
use crate::strip::{load, path};
use crate::table::cursor::Table;
use crate::table::plausible;
use crate::table::toml_text::of_kind;
use crate::{aeroplane, day, strip};
use hardpan_model::{
    Aeroplane, Costs, DamageRecord, Day, Direction, FieldRule, FlapsWhileTaxiing, Flight, Given,
    Landing, Options, OtherBleeds, Patch, ReverseUse, Strip, TakeOff, TaxiStretch, Technique,
    ThrustRow, TyresSet, Uncertainty,
};
use hardpan_quantity::{Dimension, Length, Quantity, Temperature, Time};

pub(crate) mod load_sheet;

/// What the other files of a flight hold; none when a file is not sound.
struct Named {
    aeroplane: Option<Aeroplane>,
    strip: Option<Strip>,
    /// Whether the flight names a strip at all.
    strip_named: bool,
}

/// Read the top table of a flight file and the files that it names.
pub(crate) fn flight(t: &mut Table<'_>, files: &mut Files<'_>) -> Flight {
    let aeroplane = named(t, files, "aeroplane", aeroplane::aeroplane);
    let strip = named(t, files, "strip", strip::strip);
    let day = named(t, files, "day", |t, _| day::day(t));
    let others = Named { aeroplane, strip, strip_named: t.has("strip") };
    let landing_named = t.has("landing");
    let take_off_named = t.has("take_off");
    let tyres_set_named = t.has("tyres_set");
    let tyres_set = t.table("tyres_set", |t| TyresSet {
        temperature: t.quantity("temperature", plausible::TEMPERATURE),
        elevation: t.quantity("elevation", plausible::STRIP_ELEVATION),
    });
    let landing = t.table("landing", |t| landing(t, &others));
    let take_off = t.table("take_off", |t| take_off(t, &others));
    patches_on_strip(files, others.strip.as_ref(), day.as_ref());
    let mut day = day.unwrap_or_default();
    let strip_stones = others.strip.as_ref().map(|strip| strip.loose_stones.as_slice());
    day.loose_material = day
        .loose_material
        .map(|patches| counted_by_strip(patches, strip_stones.unwrap_or_default()));
    let mut flight = Flight {
        name: t.text("name"),
        aeroplane: others.aeroplane.unwrap_or_default(),
        strip: others.strip.unwrap_or_default(),
        day,
        landing: landing_named.then_some(landing),
        take_off: take_off_named.then_some(take_off),
        main_tyre_pressure: t.quantity("main_tyre_pressure", plausible::TYRE_PRESSURE),
        nose_tyre_pressure: t.quantity("nose_tyre_pressure", plausible::TYRE_PRESSURE),
        tyres_set: tyres_set_named.then_some(tyres_set),
        passes: t.coefficient("passes", plausible::PASSES),
        taxi: t.list_or_none("taxi", taxi_stretch),
        turn_round: t.quantity("turn_round", plausible::TURN_ROUND),
        technique: t.table("technique", technique),
        damage_record: t.table("damage_record", damage_record),
        strip_records: Vec::new(),
        options: t.table("options", options),
        uncertainty: t.table("uncertainty", uncertainty),
        report_hours: age(t, "report_age", plausible::REPORT_AGE, 3600.0),
        survey_days: age(t, "survey_age", plausible::SURVEY_AGE, 86_400.0),
    };
    taxi_on_strip(t.page(), &flight);
    load_sheet::complete(t.page(), &mut flight);
    flight
}

/// Taxiing must stay on the strip.
fn taxi_on_strip(page: &Page<'_>, flight: &Flight) {
    let length = flight.strip.length.as_ref().map(|length| length.value);
    for stretch in flight.taxi.iter().flatten() {
        if let Some(mistake) = on_strip("taxiing", stretch.to, length) {
            page.report(page.value_at(&stretch.from.origin), &mistake);
        }
    }
}

fn taxi_stretch(t: &mut Table<'_>) -> Option<TaxiStretch> {
    let from: Option<Given<Length>> = t.quantity("from", plausible::STATION);
    let to: Option<Given<Length>> = t.quantity("to", plausible::STATION);
    for (key, example) in [("from", "\"0 m\""), ("to", "\"400 m\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    in_order(t.page(), &from, &to);
    Some(TaxiStretch { from: from?, to: to?.value })
}

fn age(
    t: &mut Table<'_>,
    key: &'static str,
    bounds: plausible::Bounds,
    unit_s: f64,
) -> Option<Given<f64>> {
    let age: Option<Given<Time>> = t.quantity(key, bounds);
    age.map(|age| age.map(|age| age.si() / unit_s))
}

/// Read the file that a key names; its mistakes stand under its own name.
fn named<T>(
    t: &mut Table<'_>,
    files: &mut Files<'_>,
    kind: &'static str,
    read: impl FnOnce(&mut Table<'_>, &mut Files<'_>) -> T,
) -> Option<T> {
    let entry = path(t, kind)?;
    let (file, text) = load(t.page(), files, &entry)?;
    let page = Page::new(&file, &text);
    let value = of_kind(&page, kind, |t| read(t, files));
    files.close(page);
    value
}

fn landing(t: &mut Table<'_>, others: &Named) -> Landing {
    Landing {
        direction: direction(t, others),
        mass: t.quantity("mass", plausible::MASS),
        load: t.quantity("load", plausible::FUEL),
        centre_of_gravity: t.quantity("centre_of_gravity", plausible::CHORD_PLACE),
        flap: flap(t, others),
        rule: t.word("rule", &FieldRule::OF_LANDING),
        speed_addition: t.quantity("speed_addition", plausible::SPEED_ADDITION),
        touchdown_scatter: t.quantity("touchdown_scatter", plausible::TOUCHDOWN_SCATTER),
        factor: t.coefficient("factor", plausible::LANDING_FACTOR),
        brake_target: t.quantity("brake_target", plausible::BRAKE_TARGET),
        go_around_flap: flap_named(t, others, "go_around_flap"),
        displaced_threshold: t.quantity("displaced_threshold", plausible::DISPLACED),
        reverse: t.word("reverse", &ReverseUse::WORDS),
        count_reverse: t.flag("count_reverse"),
    }
}

fn take_off(t: &mut Table<'_>, others: &Named) -> TakeOff {
    TakeOff {
        direction: direction(t, others),
        mass: t.quantity("mass", plausible::MASS),
        load: t.quantity("load", plausible::FUEL),
        centre_of_gravity: t.quantity("centre_of_gravity", plausible::CHORD_PLACE),
        flap: flap(t, others),
        rule: t.word("rule", &FieldRule::OF_TAKE_OFF),
        line_up: t.quantity("line_up", plausible::LINE_UP),
        level_off: t.quantity("level_off", plausible::LEVEL_OFF),
        final_flap: flap_named(t, others, "final_flap"),
        bleeds: t.text("bleeds"),
        wet_screen: t.quantity("wet_screen", plausible::WET_SCREEN),
        count_reverse: t.flag("count_reverse"),
        decision_speed: t.quantity("decision_speed", plausible::DECISION_SPEED),
        setting: t.coefficient("setting", plausible::SETTING),
        thrust: t.list("thrust", thrust_row),
    }
}

fn technique(t: &mut Table<'_>) -> Technique {
    const FLAPS: [(&str, FlapsWhileTaxiing); 2] =
        [("up", FlapsWhileTaxiing::Up), ("down", FlapsWhileTaxiing::Down)];
    Technique {
        taxi_speed: t.quantity("taxi_speed", plausible::TAXI_SPEED),
        taxi_stops: t.count("taxi_stops", 0, 100),
        taxi_thrust: t.quantity("taxi_thrust", plausible::THRUST_SHARE),
        flaps_while_taxiing: t.word("flaps_while_taxiing", &FLAPS),
        reverse_until: t.quantity("reverse_until", plausible::SCHEDULE_SPEED),
    }
}

fn options(t: &mut Table<'_>) -> Options {
    Options {
        landing_fuel: t.quantity("landing_fuel", plausible::FUEL),
        least_landing_fuel: t.quantity("least_landing_fuel", plausible::FUEL),
        take_off_fuel: t.quantity("take_off_fuel", plausible::FUEL),
        least_take_off_fuel: t.quantity("least_take_off_fuel", plausible::FUEL),
        bleeds: t.table("bleeds", other_bleeds),
        displaced_up_to: t.quantity("displaced_threshold_up_to", plausible::DISPLACED),
        costs: t.table("costs", costs),
    }
}

fn other_bleeds(t: &mut Table<'_>) -> Option<OtherBleeds> {
    let (name, loss) = (t.text("name"), t.quantity("loss", plausible::BLEED_LOSS));
    if t.is_present() {
        for (key, example) in [("name", "\"off\""), ("loss", "\"0 %\"")] {
            if !t.has(key) {
                t.lacks(key, example);
            }
        }
    }
    Some(OtherBleeds { name: name?, loss: loss? })
}

fn costs(t: &mut Table<'_>) -> Costs {
    Costs {
        unit: t.text("unit"),
        load_tonne: t.coefficient("load_tonne", plausible::COST),
        hour: t.coefficient("hour", plausible::COST),
        gravel_cubic_metre: t.coefficient("gravel_cubic_metre", plausible::COST),
        earth_cubic_metre: t.coefficient("earth_cubic_metre", plausible::COST),
        rolling_metre: t.coefficient("rolling_metre", plausible::COST),
        draining_metre: t.coefficient("draining_metre", plausible::COST),
        clearing_square_metre: t.coefficient("clearing_square_metre", plausible::COST),
    }
}

fn uncertainty(t: &mut Table<'_>) -> Uncertainty {
    let kelvins: Option<Given<Temperature>> = t.quantity("temperature", plausible::UNSURE_KELVINS);
    Uncertainty {
        level: t.quantity("level", plausible::LEVEL),
        penetrometer_law: t.quantity("penetrometer_law", plausible::UNSURE),
        bearing_law: t.quantity("bearing_law", plausible::UNSURE),
        rut_law: t.quantity("rut_law", plausible::UNSURE),
        strain_law: t.quantity("strain_law", plausible::UNSURE),
        sounding: t.quantity("sounding", plausible::UNSURE),
        rolling_friction: t.quantity("rolling_friction", plausible::UNSURE),
        braking_friction: t.quantity("braking_friction", plausible::UNSURE),
        wind_speed: t.quantity("wind_speed", plausible::UNSURE_WIND),
        wind_direction: t.quantity("wind_direction", plausible::UNSURE_DIRECTION),
        temperature_kelvins: kelvins.map(|given| given.map(|kelvins| kelvins.si())),
        air_pressure: t.quantity_as(
            "air_pressure",
            Dimension::AirPressure,
            plausible::UNSURE_AIR_PRESSURE,
        ),
        mass: t.quantity("mass", plausible::UNSURE_LOAD),
        thrust: t.quantity("thrust", plausible::UNSURE_LOAD),
    }
}

fn damage_record(t: &mut Table<'_>) -> Option<DamageRecord> {
    let movements = t.count("movements", 1, 1_000_000);
    let strikes = t.count("strikes", 0, 1_000_000);
    let (from, to) = (t.date("from"), t.date("to"));
    if t.is_present() {
        for (key, example) in [("movements", "240"), ("strikes", "3")] {
            if !t.has(key) {
                t.lacks(key, example);
            }
        }
    }
    if let (Some(from), Some(to)) = (&from, &to)
        && from.value > to.value
    {
        let mistake = Mistake::OutOfOrder {
            lower: from.origin.key.to_string(),
            low: from.value.to_string(),
            upper: to.origin.key.to_string(),
            high: to.value.to_string(),
        };
        t.page().report(t.span_of("from"), &mistake);
        return None;
    }
    Some(DamageRecord { movements: movements?, strikes: strikes?, from, to })
}

fn thrust_row(t: &mut Table<'_>) -> Option<ThrustRow> {
    let ground_speed = t.quantity("ground_speed", plausible::SCHEDULE_SPEED);
    let share = t.quantity("share", plausible::THRUST_SHARE);
    for (key, example) in [("ground_speed", "\"50 kt\""), ("share", "\"100 %\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(ThrustRow { ground_speed: ground_speed?, share: share? })
}

fn direction(t: &mut Table<'_>, others: &Named) -> Option<Given<Direction>> {
    // A strip that could not be read has errors of its own, and its ends are not known.
    let is_lost = others.strip.is_none() && others.strip_named;
    let read = t.text("direction")?;
    let found = way(&read.value, others.strip.as_ref());
    if found.is_none() && !is_lost {
        no_such_end(t, &read.value, others.strip.as_ref());
    }
    found.map(|way| read.map(|_| way))
}

/// The direction that a word names on a strip; a word that names none is refused.
pub(crate) fn direction_word(t: &mut Table<'_>, strip: Option<&Strip>) -> Option<Given<Direction>> {
    let read = t.text("direction")?;
    let found = way(&read.value, strip);
    if found.is_none() {
        no_such_end(t, &read.value, strip);
    }
    found.map(|way| read.map(|_| way))
}

/// Words for the two ways along a strip: its designators, then `up` and `down`.
fn ways(strip: Option<&Strip>) -> Vec<(&str, Direction)> {
    let ends = strip.into_iter().flat_map(|strip| {
        [(&strip.low_end, Direction::Up), (&strip.high_end, Direction::Down)]
            .into_iter()
            .filter_map(|(end, way)| Some((end.designator.as_ref()?.value.as_str(), way)))
    });
    ends.chain([("up", Direction::Up), ("down", Direction::Down)]).collect()
}

fn way(word: &str, strip: Option<&Strip>) -> Option<Direction> {
    ways(strip).into_iter().find(|(known, _)| *known == word).map(|(_, way)| way)
}

fn no_such_end(t: &Table<'_>, word: &str, strip: Option<&Strip>) {
    let known: Vec<&str> = ways(strip).into_iter().map(|(word, _)| word).collect();
    let mistake = Mistake::UnknownEnd { read: shortened(word), ends: list(&known) };
    t.page().report(t.span_of("direction"), &mistake);
}

fn flap(t: &mut Table<'_>, others: &Named) -> Option<Given<String>> {
    flap_named(t, others, "flap")
}

/// A flap setting of the aeroplane under a key.
fn flap_named(t: &mut Table<'_>, others: &Named, key: &'static str) -> Option<Given<String>> {
    let Some(aeroplane) = &others.aeroplane else { return t.text(key) };
    let known: Vec<String> = aeroplane.flaps.iter().map(|flap| flap.name.value.clone()).collect();
    flap_word(t, key, &known)
}

/// One of the flap settings of an aeroplane; any other is refused.
pub(crate) fn flap_word(
    t: &mut Table<'_>,
    key: &'static str,
    known: &[String],
) -> Option<Given<String>> {
    let read = t.text(key)?;
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    if known.contains(&read.value.as_str()) {
        return Some(read);
    }
    let advice = match nearest(&read.value, known.iter().copied()) {
        Some(near) => format!("write \"{near}\", if that is what is meant"),
        None => "name one of the aeroplane's flap settings, or add it to the aeroplane".to_owned(),
    };
    let listed = if known.is_empty() {
        "the aeroplane's flap settings, of which its file has none".to_owned()
    } else {
        list(&known)
    };
    let mistake = Mistake::UnknownFlap { flap: shortened(&read.value), known: listed, advice };
    t.page().report(t.span_of(key), &mistake);
    None
}

/// Water and loose material of the day must lie on the strip.
fn patches_on_strip(files: &mut Files<'_>, strip: Option<&Strip>, day: Option<&Day>) {
    let length = strip.and_then(|strip| strip.length.as_ref()).map(|length| length.value);
    let patches = |list: &Option<Vec<Patch>>| list.clone().unwrap_or_default();
    let Some(day) = day else {
        return;
    };
    for (what, list) in
        [("standing water", &day.standing_water), ("loose material", &day.loose_material)]
    {
        for patch in patches(list) {
            if let Some(mistake) = on_strip(what, patch.to, length) {
                files.report_at(&patch.from.origin, &mistake);
            }
        }
    }
}
