//! `kind = "strip"`: axis, distances, surface, survey and soundings.

pub(crate) mod checks;
mod cloud;
mod ends;
mod features;
mod grid;
mod laid;
mod places;
mod positions;
pub(crate) mod stones;
mod survey_keys;

pub use ends::axis_on_globe;

use crate::aeroplane::checks::in_order;
use crate::aeroplane::limits::surfaces;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Files, Page};
use crate::paths::beside;
use crate::rows::{positions as position_rows, ruts, soundings, strength_tests, survey};
use crate::strip::ends::{Ends, Threshold};
use crate::strip::laid::Laid;
use crate::strip::positions::OnGlobe;
use crate::strip::survey_keys::{SurveyKeys, SurveyKind};
use crate::table::cursor::{Entry, Table};
use crate::table::plausible;
use hardpan_model::{
    Cable, DeclaredDistances, EdgeKind, EdgeLimit, Given, MeasuredRut, PublishedStrength,
    ReferenceCode, RollingOverRuts, Sounding, SoundingRules, StrengthTest, Strip, StripEnd,
    SubgradeCategory, SurfaceFriction, SurfaceState, Survey, SurveyFrom, TurningPlace,
};
use hardpan_quantity::{Length, Ratio};
use jiff::civil::Date;
use std::sync::Arc;
use toml::de::DeValue;

pub(crate) fn states() -> [(&'static str, SurfaceState); 4] {
    SurfaceState::ALL.map(|state| (state.word(), state))
}

/// Read the top table of a strip file and the files that it names.
pub(crate) fn strip(t: &mut Table<'_>, files: &mut Files<'_>) -> Strip {
    let survey_file = path(t, "survey");
    let soundings_file = path(t, "soundings");
    let tests_file = path(t, "strength_tests");
    let ruts_file = path(t, "ruts");
    let places_entry = t.alternative("places");
    let places_file = named(t, "places", places_entry);
    let survey_info = t.table("survey_info", |t| SurveyInfo::read(t, survey_file.is_some()));
    let (soundings_state, sounding_rules) =
        t.table("soundings_info", |t| soundings_info(t, soundings_file.is_some()));
    let (low_end, low) = t.table("low_end", end);
    let (high_end, high) = t.table("high_end", end);
    let mut strip = Strip {
        name: t.text("name"),
        elevation: t.quantity("elevation", plausible::STRIP_ELEVATION),
        length: t.quantity("length", plausible::STRIP_LENGTH),
        width: t.quantity("width", plausible::STRIP_WIDTH),
        reference_code: t.word("reference_code", &ReferenceCode::all()),
        bearing: t.quantity("bearing", plausible::CIRCLE),
        night: t.text("night"),
        surface: t.word("surface", &surfaces()),
        surfacing_thickness: t.quantity("surfacing_thickness", plausible::SURFACING),
        low_end,
        high_end,
        survey: None,
        survey_from: None,
        soundings: Vec::new(),
        soundings_state,
        sounding_rules,
        strength_tests: Vec::new(),
        ruts: Vec::new(),
        seasons: t.list("season", features::season),
        frost: t.table("frost", |t| features::frost(t, files)),
        climate: t.table("climate", features::climate),
        friction: t.list("friction", friction),
        sounding_reach: t.quantity("sounding_reach", plausible::SOUNDING_REACH),
        wheel_wander: t.quantity("wheel_wander", plausible::WHEEL_WANDER),
        turning: t.list("turning", turning_place),
        strength: t.table("strength", strength),
        obstacles: t.list_or_none("obstacle", features::obstacle),
        areas: t.list("area", features::area),
        dust_grain: t.quantity("dust_grain", plausible::DUST_GRAIN),
        cables: t.list("cable", cable),
        loose_stones: t.list("loose_stones", stones::loose_stones),
        evenness: t.list("evenness", edge_limit),
    };
    checks::check(t.page(), &strip);
    let length = strip.length.as_ref().map(|length| length.value);
    for place in &strip.turning {
        if let Some(mistake) = checks::on_strip("turning", place.to, length) {
            t.page().report(t.page().value_at(&place.from.origin), &mistake);
        }
    }
    let ends = Ends {
        length,
        width: strip.width.as_ref().map(|width| width.value),
        low: &low,
        high: &high,
    };
    if let Some(entry) = survey_file {
        (strip.survey, strip.survey_from) =
            surveyed(t, files, &entry, (&strip, &ends), survey_info);
    }
    if let Some(entry) = places_file {
        places::add(t, files, &entry, &mut strip);
    }
    strip.soundings =
        soundings_file.map_or_else(Vec::new, |entry| named_soundings(t, files, &entry, length));
    strip.strength_tests =
        tests_file.map_or_else(Vec::new, |entry| named_tests(t, files, &entry, length));
    strip.ruts = ruts_file.map_or_else(Vec::new, |entry| named_ruts(t, files, &entry, length));
    strip
}

fn end(t: &mut Table<'_>) -> (StripEnd, Threshold) {
    let designator = designator(t);
    let threshold = Threshold::read(t);
    let end = StripEnd {
        designator,
        latitude: threshold.latitude(),
        longitude: threshold.longitude(),
        declared: DeclaredDistances {
            take_off_run: t.quantity("take_off_run", plausible::DECLARED),
            take_off_distance: t.quantity("take_off_distance", plausible::DECLARED),
            accelerate_stop: t.quantity("accelerate_stop", plausible::DECLARED),
            landing_distance: t.quantity("landing_distance", plausible::DECLARED),
        },
    };
    (end, threshold)
}

fn designator(t: &mut Table<'_>) -> Option<Given<String>> {
    let read = t.text("designator")?;
    if direction_of(&read.value).is_none() {
        let mistake = Mistake::BadDesignator { key: read.origin.key.to_string() };
        t.page().report(t.span_of("designator"), &mistake);
        return None;
    }
    Some(read)
}

/// Tens of degrees of a runway designator such as `07` or `25L`.
pub(crate) fn direction_of(designator: &str) -> Option<u32> {
    let (digits, suffix) = designator.split_at_checked(2)?;
    let number: u32 =
        digits.bytes().all(|byte| byte.is_ascii_digit()).then(|| digits.parse().ok())??;
    let known = matches!(suffix, "" | "L" | "C" | "R" | "T");
    (known && (1..=36).contains(&number)).then_some(number)
}

fn turning_place(t: &mut Table<'_>) -> Option<TurningPlace> {
    let from: Option<Given<Length>> = t.quantity("from", plausible::STATION);
    let to: Option<Given<Length>> = t.quantity("to", plausible::STATION);
    for (key, example) in [("from", "\"0 m\""), ("to", "\"40 m\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    in_order(t.page(), &from, &to);
    let radius = t.quantity("radius", plausible::TURN_RADIUS);
    let speed = t.quantity("speed", plausible::TURN_SPEED);
    Some(TurningPlace { from: from?, to: to?.value, radius, speed })
}

fn strength(t: &mut Table<'_>) -> PublishedStrength {
    let categories = SubgradeCategory::ALL.map(|category| (category.word(), category));
    PublishedStrength {
        number: t.coefficient("number", plausible::STRENGTH_NUMBER),
        subgrade: t.word("subgrade", &categories),
        tyre_pressure_limit: t.quantity("tyre_pressure_limit", plausible::TYRE_PRESSURE),
    }
}

fn cable(t: &mut Table<'_>) -> Option<Cable> {
    let station = t.quantity("station", plausible::STATION);
    let top = t.quantity("top", plausible::CABLE_TOP);
    let tension = t.quantity("tension", plausible::CABLE_TENSION);
    let kilograms_per_metre = t.coefficient("kilograms_per_metre", plausible::CABLE_MASS);
    let rut = t.quantity("rut", plausible::AT_CABLE);
    let bump = t.quantity("bump", plausible::AT_CABLE);
    for (key, example) in [("station", "\"350 m\""), ("top", "\"80 mm\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(Cable { station: station?, top: top?, tension, kilograms_per_metre, rut, bump })
}

fn edge_limit(t: &mut Table<'_>) -> Option<EdgeLimit> {
    let edges = EdgeKind::ALL.map(|edge| (edge.word(), edge));
    let edge = t.word("edge", &edges);
    let length = t.quantity("length", plausible::EDGE_LENGTH);
    let limit = t.quantity("limit", plausible::EDGE_LIMIT);
    for (key, example) in [
        ("edge", "\"straightedge\" (or chord, mid-chord)"),
        ("length", "\"3 m\""),
        ("limit", "\"25 mm\""),
    ] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(EdgeLimit { edge: edge?, length: length?, limit: limit? })
}

fn friction(t: &mut Table<'_>) -> Option<SurfaceFriction> {
    let state = t.word("state", &states());
    let rolling = t.coefficient("rolling", plausible::ROLLING);
    let braking = t.coefficient("braking", plausible::BRAKING);
    if !t.has("state") {
        t.lacks("state", "\"dry\"");
    }
    let ratio = |value: Given<f64>| value.map(hardpan_quantity::ratio);
    let (rolling, braking): (Option<Given<Ratio>>, _) = (rolling.map(ratio), braking.map(ratio));
    let over_ruts =
        over_ruts(t).map(|(rolling, depth)| RollingOverRuts { rolling: ratio(rolling), depth });
    let between = stretch(t);
    Some(SurfaceFriction { state: state?.value, rolling, over_ruts, braking, between })
}

/// A stretch of its own, where both of its ends are stated.
fn stretch(t: &mut Table<'_>) -> Option<(Given<Length>, Length)> {
    let from: Option<Given<Length>> = t.quantity("from", plausible::STATION);
    let to: Option<Given<Length>> = t.quantity("to", plausible::STATION);
    for (given, missing, example) in [("from", "to", "\"700 m\""), ("to", "from", "\"640 m\"")] {
        if t.has(given) && !t.has(missing) {
            t.lacks(missing, example);
        }
    }
    in_order(t.page(), &from, &to);
    from.zip(to).map(|(from, to)| (from, to.value))
}

/// A coefficient says nothing without the depth of the ruts, nor they without it.
fn over_ruts(t: &mut Table<'_>) -> Option<(Given<f64>, Given<Length>)> {
    let rolling = t.coefficient("rolling_over_ruts", plausible::ROLLING);
    let depth = t.quantity("rut_depth", plausible::RUT_DEPTH);
    match (t.has("rolling_over_ruts"), t.has("rut_depth")) {
        (true, false) => t.lacks("rut_depth", "\"50 mm\""),
        (false, true) => t.lacks("rolling_over_ruts", "0.06"),
        _ => {}
    }
    rolling.zip(depth)
}

/// What is said of the survey beside its file.
struct SurveyInfo {
    date: Option<Given<Date>>,
    level_noise: Option<Given<Length>>,
    keys: SurveyKeys,
}

impl SurveyInfo {
    fn read(t: &mut Table<'_>, named: bool) -> Self {
        orphan(t, named, "survey");
        Self {
            date: t.date("date"),
            level_noise: t.quantity("level_noise", plausible::LEVEL_NOISE),
            keys: SurveyKeys::read(t),
        }
    }
}

fn soundings_info(t: &mut Table<'_>, named: bool) -> (Option<Given<SurfaceState>>, SoundingRules) {
    orphan(t, named, "soundings");
    let rules = SoundingRules {
        fewest: t.count("fewest", 1, 1000),
        greatest_spacing: t.quantity("greatest_spacing", plausible::SOUNDING_SPACING),
        percentile: t.quantity("percentile", plausible::STRENGTH_PERCENTILE),
        correlation_length: t.quantity("correlation_length", plausible::CORRELATION_LENGTH),
    };
    (t.word("state", &states()), rules)
}

/// A table about a file that is not named.
fn orphan(t: &Table<'_>, named: bool, file: &str) {
    if t.is_present() && !named {
        let mistake = Mistake::Orphan { key: t.path().to_owned(), file: file.to_owned() };
        t.page().report(t.span(), &mistake);
    }
}

/// An entry that holds the path of another file.
pub(crate) fn path<'p>(t: &mut Table<'p>, key: &'static str) -> Option<Entry<'p>> {
    let entry = t.entry(key);
    named(t, key, entry)
}

/// The entry, if it is the path of a file.
fn named<'p>(t: &Table<'p>, key: &str, entry: Option<Entry<'p>>) -> Option<Entry<'p>> {
    let entry = entry?;
    if entry.value.as_str().is_some() {
        return Some(entry);
    }
    let example = format!("{key} = \"{key}.csv\"");
    t.wrong_type(&entry.path, entry.span, entry.value, "the path of a file, in quotes", &example);
    None
}

/// Path and text of the file that an entry names.
pub(crate) fn load(
    page: &Page<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
) -> Option<(Arc<str>, Arc<str>)> {
    let DeValue::String(named) = entry.value else {
        return None;
    };
    let path = beside(&page.file, named);
    let text = files.load(&path, Some((page, entry.span.clone())))?;
    Some((path.into(), text))
}

/// The levels of the survey that an entry names, whatever its kind.
fn surveyed(
    t: &Table<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
    (strip, ends): (&Strip, &Ends<'_>),
    info: SurveyInfo,
) -> (Option<Survey>, Option<SurveyFrom>) {
    let SurveyInfo { date, level_noise, keys } = info;
    let kind = SurveyKind::of(entry);
    let bearing = strip.bearing.as_ref();
    let laid = match kind {
        SurveyKind::Cloud => {
            keys.of_other_kinds(t, kind);
            cloud::cloud(t, files, entry, (ends, &keys, bearing), level_noise)
        }
        SurveyKind::Grid => {
            keys.of_other_kinds(t, kind);
            grid::grid(t, files, entry, (ends, &keys, bearing), level_noise)
        }
        _ => {
            let Some((file, text)) = load(t.page(), files, entry) else {
                return (None, None);
            };
            let page = Page::new(&file, &text);
            let laid = if position_rows::are_in(&text) {
                keys.of_other_kinds(t, SurveyKind::Positions);
                let on = OnGlobe {
                    ends,
                    keys: &keys,
                    bearing,
                    elevation: strip.elevation.as_ref().map(|elevation| elevation.value),
                };
                positions::laid(t, &page, entry, &on, level_noise)
            } else {
                keys.of_other_kinds(t, SurveyKind::Levels);
                let lines = survey::survey(&page, ends.length);
                files.close(page);
                let survey = lines.map(|lines| Survey { file, date, level_noise, lines });
                return (survey, None);
            };
            files.close(page);
            laid
        }
    };
    let Some(Laid { file, lines, noise, from }) = laid else {
        return (None, None);
    };
    (Some(Survey { file, date, level_noise: noise, lines }), Some(from))
}

fn named_soundings(
    t: &Table<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
    length: Option<Length>,
) -> Vec<Sounding> {
    let Some((file, text)) = load(t.page(), files, entry) else {
        return Vec::new();
    };
    let page = Page::new(&file, &text);
    let soundings = soundings::soundings(&page, length, entry.source.clone());
    files.close(page);
    soundings
}

fn named_ruts(
    t: &Table<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
    length: Option<Length>,
) -> Vec<MeasuredRut> {
    let Some((file, text)) = load(t.page(), files, entry) else {
        return Vec::new();
    };
    let page = Page::new(&file, &text);
    let ruts = ruts::ruts(&page, length, entry.source.as_ref());
    files.close(page);
    ruts
}

fn named_tests(
    t: &Table<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
    length: Option<Length>,
) -> Vec<StrengthTest> {
    let Some((file, text)) = load(t.page(), files, entry) else {
        return Vec::new();
    };
    let page = Page::new(&file, &text);
    let tests = strength_tests::strength_tests(&page, length, entry.source.clone());
    files.close(page);
    tests
}
