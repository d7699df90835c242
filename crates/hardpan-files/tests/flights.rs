//! A flight with all it names: every key reaches its own field, and mistakes
//! show the file they are in.

use hardpan_files::{AnyFile, Memory, read_any, read_flight, templates};
use hardpan_model::{AntiSkid, Direction, EngineKind, FieldRule, Flight, SurfaceState};
use hardpan_quantity::{Amount, Quantity};
use rstest::rstest;

/// The templates with every key put in force and each number changed, so that
/// no two keys of a file hold the same value.
fn all_different() -> Memory {
    let mut count = 0;
    let mut files = Memory::default();
    for (name, text) in templates::all() {
        let mut out = String::new();
        for line in text.lines() {
            let bare = line.strip_prefix("# ").unwrap_or(line);
            let key = bare.split(" = ").next().unwrap_or("");
            let is_key = !key.is_empty()
                && key.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_')
                && bare.contains(" = ");
            let is_head = bare.starts_with('[') && bare.ends_with(']');
            if is_key || is_head {
                count += usize::from(is_key);
                out.push_str(bare);
                out.push('\n');
            }
        }
        files = files.with(name, if name.ends_with("csv") { text.to_owned() } else { out });
    }
    assert!(count > 120, "{count} keys");
    files
}

fn flight() -> Flight {
    let reading = read_flight(&all_different(), "flight.toml");
    assert_eq!(reading.errors(), 0, "{:#?}", reading.diagnostics);
    reading.value.expect("no error")
}

/// Each value's key, as it remembers it.
macro_rules! keys {
    ($($value:expr),+ $(,)?) => {
        vec![$($value.as_ref().map_or("", |given| &*given.origin.key)),+]
    };
}

#[test]
fn every_key_of_an_aeroplane_reaches_its_field() {
    let a = flight().aeroplane;
    let (engines, speeds, brakes) = (&a.engines, &a.speeds, &a.brakes);
    assert_eq!(
        keys![
            a.name,
            a.description,
            a.mass.minimum,
            a.mass.maximum_take_off,
            a.mass.maximum_landing,
            a.mass.maximum_zero_fuel,
            a.mass.operating
        ],
        [
            "name",
            "description",
            "mass.minimum",
            "mass.maximum_take_off",
            "mass.maximum_landing",
            "mass.maximum_zero_fuel",
            "mass.operating"
        ]
    );
    let b = &a.balance;
    assert_eq!(
        keys![
            b.mean_chord,
            b.main_gear_at,
            b.centre_of_gravity_height,
            b.forward_limit,
            b.aft_limit
        ],
        [
            "balance.mean_chord",
            "balance.main_gear_at",
            "balance.centre_of_gravity_height",
            "balance.forward_limit",
            "balance.aft_limit"
        ]
    );
    let w = &a.wing;
    assert_eq!(
        keys![w.area, w.span, w.height, w.engine_out_drag, w.gear_drag],
        ["wing.area", "wing.span", "wing.height", "wing.engine_out_drag", "wing.gear_drag"]
    );
    let f = &a.flaps[0];
    assert_eq!(
        keys![f.lift_maximum, f.lift_rolling, f.lift_stopping, f.drag_zero_lift, f.drag_spoilers],
        [
            "flap[1].lift_maximum",
            "flap[1].lift_rolling",
            "flap[1].lift_stopping",
            "flap[1].drag_zero_lift",
            "flap[1].drag_spoilers"
        ]
    );
    assert_eq!(
        keys![f.induced_factor, f.take_off, f.landing],
        ["flap[1].induced_factor", "flap[1].take_off", "flap[1].landing"]
    );
    assert_eq!(engines.kind.as_ref().map(|kind| kind.value), Some(EngineKind::Turbofan));
    assert_eq!(
        keys![
            engines.count,
            engines.static_thrust,
            engines.bypass_ratio,
            engines.flat_rated_to,
            engines.shaft_power,
            engines.propeller_diameter,
            engines.propeller_efficiency,
            engines.idle_share,
            engines.inlet_diameter,
            engines.inlet_height,
            engines.air_flow,
            engines.bleed_loss
        ],
        [
            "engines.count",
            "engines.static_thrust",
            "engines.bypass_ratio",
            "engines.flat_rated_to",
            "engines.shaft_power",
            "engines.propeller_diameter",
            "engines.propeller_efficiency",
            "engines.idle_share",
            "engines.inlet_diameter",
            "engines.inlet_height",
            "engines.air_flow",
            "engines.bleed_loss"
        ]
    );
    assert_eq!(brakes.anti_skid.as_ref().map(|skid| skid.value), Some(AntiSkid::FullyModulating));
    assert_eq!(
        keys![brakes.wheels, brakes.paved_dry_coefficient, brakes.energy_limit],
        ["brakes.wheels", "brakes.paved_dry_coefficient", "brakes.energy_limit"]
    );
    let row = &brakes.cooling[0];
    assert_eq!(
        [&*row.energy.origin.key, &*row.wait.origin.key],
        ["brakes.cooling[1].energy", "brakes.cooling[1].wait"]
    );
    assert_eq!(
        keys![
            speeds.rotation,
            speeds.lift_off,
            speeds.safety,
            speeds.reference,
            speeds.touchdown,
            speeds.minimum_control_ground,
            speeds.minimum_control_air,
            speeds.minimum_unstick,
            speeds.minimum_control_approach,
            speeds.rotation_time,
            speeds.brake_delay
        ],
        [
            "speeds.rotation",
            "speeds.lift_off",
            "speeds.safety",
            "speeds.reference",
            "speeds.touchdown",
            "speeds.minimum_control_ground",
            "speeds.minimum_control_air",
            "speeds.minimum_unstick",
            "speeds.minimum_control_approach",
            "speeds.rotation_time",
            "speeds.brake_delay"
        ]
    );
}

#[test]
fn every_key_of_the_gear_and_its_protection_reaches_its_field() {
    let a = flight().aeroplane;
    assert_eq!(keys![a.gear.wheelbase, a.gear.track], ["gear.wheelbase", "gear.track"]);
    for (name, leg) in [("main", &a.gear.main), ("nose", &a.gear.nose)] {
        let t = &leg.tyre;
        let expected = |keys: &[&str]| -> Vec<String> {
            keys.iter().map(|key| format!("gear.{name}.{key}")).collect()
        };
        assert_eq!(
            keys![leg.legs, leg.wheels, leg.spacing, leg.tandem_spacing],
            expected(&["legs", "wheels", "spacing", "tandem_spacing"])
        );
        assert_eq!(
            keys![t.diameter, t.width, t.rated_load, t.rated_pressure, t.rated_speed],
            expected(&[
                "tyre.diameter",
                "tyre.width",
                "tyre.rated_load",
                "tyre.rated_pressure",
                "tyre.rated_speed"
            ])
        );
        assert_eq!(
            keys![t.minimum_pressure, t.maximum_pressure],
            expected(&["tyre.minimum_pressure", "tyre.maximum_pressure"])
        );
        assert_eq!(&*t.chart[0].pressure.origin.key, format!("gear.{name}.tyre.chart[1].pressure"));
    }
    assert_eq!(a.gear.main.tyre.chart.len(), 2);
    let e = &a.equipment[0];
    assert_eq!(
        keys![e.fitted, e.serviceable, e.inspected_on, e.inspect_every],
        [
            "equipment[1].fitted",
            "equipment[1].serviceable",
            "equipment[1].inspected_on",
            "equipment[1].inspect_every"
        ]
    );
    assert_eq!(e.required_on.len(), 2);
    assert_eq!((a.limits.len(), a.handling.len()), (2, 1));
}

#[test]
fn every_key_of_strip_day_and_flight_reaches_its_field() {
    let flight = flight();
    let s = &flight.strip;
    assert_eq!(
        keys![s.name, s.elevation, s.length, s.width, s.bearing, s.surface],
        ["name", "elevation", "length", "width", "bearing", "surface"]
    );
    assert_eq!(
        keys![s.surfacing_thickness, s.sounding_reach, s.wheel_wander],
        ["surfacing_thickness", "sounding_reach", "wheel_wander"]
    );
    let rules = &s.sounding_rules;
    assert_eq!(
        keys![rules.fewest, rules.greatest_spacing, rules.percentile, rules.correlation_length],
        [
            "soundings_info.fewest",
            "soundings_info.greatest_spacing",
            "soundings_info.percentile",
            "soundings_info.correlation_length",
        ]
    );
    let weakening = s.frost.as_ref().and_then(|frost| frost.weakening.as_ref());
    let weakening = weakening.expect("stated");
    assert_eq!(&*weakening.strength.origin.key, "frost.thaw_strength");
    assert_eq!(&*weakening.recovery.origin.key, "frost.recovery");
    let gear = &flight.aeroplane.gear;
    assert_eq!(
        keys![gear.side_force_area, gear.side_force_height, gear.crosswind_share],
        ["gear.side_force_area", "gear.side_force_height", "gear.crosswind_share"]
    );
    assert_eq!(keys![flight.day.ground_moisture], ["ground_moisture"]);
    let number = &s.strength;
    assert_eq!(
        keys![number.number, number.subgrade, number.tyre_pressure_limit],
        ["strength.number", "strength.subgrade", "strength.tyre_pressure_limit"]
    );
    for (name, end) in [("low_end", &s.low_end), ("high_end", &s.high_end)] {
        let d = &end.declared;
        let keys =
            keys![d.take_off_run, d.take_off_distance, d.accelerate_stop, d.landing_distance];
        let expected = ["take_off_run", "take_off_distance", "accelerate_stop", "landing_distance"];
        assert_eq!(keys, expected.map(|key| format!("{name}.{key}")));
    }
    let friction = &s.friction[0];
    assert_eq!(
        keys![friction.rolling, friction.braking],
        ["friction[1].rolling", "friction[1].braking"]
    );
    let d = &flight.day;
    assert_eq!(
        keys![d.date, d.time_utc, d.observed_utc, d.wind, d.temperature, d.sea_level_pressure],
        ["date", "time_utc", "metar", "wind.speed", "temperature", "sea_level_pressure"]
    );
    assert_eq!(d.surface_state.as_ref().map(|state| state.value), Some(SurfaceState::Dry));
    let patch = &d.standing_water.as_ref().expect("a list")[0];
    assert_eq!(
        (patch.from.value.si(), patch.to.si(), patch.depth.value.si()),
        (1180.0, 1200.0, 0.008)
    );
    let wind = d.wind.as_ref().expect("given").value;
    assert!(wind.gust.is_some() && wind.between.is_some() && wind.from.is_some());
    let (l, t) = (flight.landing.expect("planned"), flight.take_off.expect("planned"));
    assert_eq!(
        keys![l.direction, l.mass, l.load, l.centre_of_gravity, l.flap, l.rule, l.speed_addition],
        [
            "landing.direction",
            "landing.mass",
            "landing.load",
            "landing.centre_of_gravity",
            "landing.flap",
            "landing.rule",
            "landing.speed_addition"
        ]
    );
    assert_eq!(
        keys![
            l.touchdown_scatter,
            l.factor,
            l.brake_target,
            l.go_around_flap,
            flight.turn_round,
            flight.technique.taxi_stops
        ],
        [
            "landing.touchdown_scatter",
            "landing.factor",
            "landing.brake_target",
            "landing.go_around_flap",
            "turn_round",
            "technique.taxi_stops"
        ]
    );
    assert_eq!(
        keys![
            t.direction,
            t.mass,
            t.load,
            t.centre_of_gravity,
            t.flap,
            t.rule,
            t.line_up,
            t.final_flap
        ],
        [
            "take_off.direction",
            "take_off.mass",
            "take_off.load",
            "take_off.centre_of_gravity",
            "take_off.flap",
            "take_off.rule",
            "take_off.line_up",
            "take_off.final_flap"
        ]
    );
    assert_eq!(
        keys![flight.main_tyre_pressure, flight.nose_tyre_pressure, flight.passes],
        ["main_tyre_pressure", "nose_tyre_pressure", "passes"]
    );
    assert_eq!(flight.report_hours.map(|hours| hours.value), Some(2.0));
    assert_eq!(flight.survey_days.map(|days| days.value), Some(365.0));
    assert_eq!(flight.taxi.map(|taxi| taxi[0].to.si()), Some(400.0));
}

#[rstest]
#[case("large-take-off", "take_off", FieldRule::LargeTakeOff)]
#[case("all-engines-take-off", "take_off", FieldRule::AllEnginesTakeOff)]
#[case("landing-60", "landing", FieldRule::LandingSixtyPercent)]
#[case("landing-70", "landing", FieldRule::LandingSeventyPercent)]
#[case("landing-15", "landing", FieldRule::LandingFifteenPercent)]
fn rules_by_name(#[case] word: &str, #[case] table: &str, #[case] rule: FieldRule) {
    let other = if table == "landing" { "take_off" } else { "landing" };
    let text = |table: &str| format!("kind = \"flight\"\n[{table}]\nrule = \"{word}\"\n");
    let flight = read_flight(&Memory::default().with("f.toml", text(table)), "f.toml");
    let flight = flight.value.expect("no error");
    let read = flight.landing.and_then(|l| l.rule).or(flight.take_off.and_then(|t| t.rule));
    assert_eq!(read.map(|read| read.value), Some(rule));
    let wrong = read_flight(&Memory::default().with("f.toml", text(other)), "f.toml");
    assert_eq!(wrong.errors(), 1, "a rule for landing is none for take-off");
}

#[rstest]
#[case("07", Some(Direction::Up))]
#[case("25", Some(Direction::Down))]
#[case("up", Some(Direction::Up))]
#[case("down", Some(Direction::Down))]
#[case("26", None)]
fn directions(#[case] word: &str, #[case] way: Option<Direction>) {
    let strip = "kind = \"strip\"\nlow_end.designator = \"07\"\nhigh_end.designator = \"25\"\n";
    let flight =
        format!("kind = \"flight\"\nstrip = \"s.toml\"\n[landing]\ndirection = \"{word}\"\n");
    let reading =
        read_flight(&Memory::default().with("s.toml", strip).with("f.toml", flight), "f.toml");
    let read = reading.value.and_then(|flight| flight.landing).and_then(|l| l.direction);
    assert_eq!(read.map(|read| read.value), way);
}

#[test]
fn mistakes_show_the_file_they_are_in() {
    let files = Memory::default()
        .with("d/f.toml", "kind = \"flight\"\nstrip = \"../s/s.toml\"\nday = \"d.toml\"\naeroplane = \"a.toml\"\n[landing]\ndirection = \"07\"\n")
        .with("d/../s/s.toml", "kind = \"strip\"\nlength = \"1000 m\"\nwidth = 45\nsurvey = \"x.csv\"\n")
        .with("d/../s/x.csv", "station_m,offset_m,elevation_m\n0,0,a\n")
        .with("d/d.toml", "kind = \"day\"\n[[standing_water]]\nfrom = \"900 m\"\nto = \"1100 m\"\ndepth = \"5 mm\"\n");
    let reading = read_flight(&files, "d/f.toml");
    let places: Vec<(&str, &str, u32)> =
        reading.diagnostics.iter().map(|one| (&*one.file, one.code, one.line)).collect();
    assert_eq!(
        places,
        [
            ("d/f.toml", "E101", 4),
            ("d/f.toml", "E405", 6),
            ("d/../s/s.toml", "E301", 3),
            ("d/../s/x.csv", "E508", 2),
            ("d/d.toml", "E406", 3),
        ]
    );
    assert!(reading.value.is_none());
}

#[test]
fn a_flight_that_names_nothing_holds_nothing() {
    let files = Memory::default().with("f.toml", "kind = \"flight\"\n");
    let reading = read_flight(&files, "f.toml");
    assert!(reading.diagnostics.is_empty());
    assert_eq!(reading.value, Some(Flight::default()));
}

#[rstest]
#[case("aeroplane.toml", "aeroplane")]
#[case("strip.toml", "strip")]
#[case("day.toml", "day")]
#[case("flight.toml", "flight")]
#[case("survey.csv", "survey")]
#[case("soundings.csv", "soundings")]
#[case("strength_tests.csv", "strength tests")]
#[case("ruts.csv", "ruts")]
#[case("report.METAR", "weather report")]
#[case("report.txt", "weather report")]
fn any_file_is_known_by_what_it_holds(#[case] path: &str, #[case] word: &str) {
    let report = "METAR XXHP 181200Z 25009KT 9999 14/06 Q1013";
    let files = all_different().with("report.METAR", report).with("report.txt", report);
    let reading = read_any(&files, path);
    assert_eq!(reading.value.as_ref().map(AnyFile::word), Some(word), "{:#?}", reading.diagnostics);
}

#[test]
fn friction_is_a_plain_number_in_the_file_and_a_ratio_after() {
    let strip = "kind = \"strip\"\n[[friction]]\nstate = \"wet\"\nrolling = 0.05\n";
    let strip = hardpan_files::read_strip(&Memory::default().with("s.toml", strip), "s.toml");
    let friction = strip.value.expect("no error").friction.remove(0);
    assert_eq!(friction.state, SurfaceState::Wet);
    let rolling = friction.rolling.expect("given");
    assert_eq!(Amount::from(rolling.value).si, 0.05);
    assert!(friction.braking.is_none() && friction.over_ruts.is_none());
}

#[rstest]
#[case("rolling_over_ruts = 0.06\nrut_depth = \"50 mm\"", true)]
#[case("rolling_over_ruts = 0.06", false)]
#[case("rut_depth = \"50 mm\"", false)]
fn rolling_over_ruts_and_their_depth_go_together(#[case] keys: &str, #[case] is_whole: bool) {
    let strip =
        format!("kind = \"strip\"\n[[friction]]\nstate = \"dry\"\nrolling = 0.03\n{keys}\n");
    let strip = hardpan_files::read_strip(&Memory::default().with("s.toml", strip), "s.toml");
    assert_eq!(strip.diagnostics.is_empty(), is_whole, "{:#?}", strip.diagnostics);
    if let (true, Some(strip)) = (is_whole, strip.value) {
        let over = strip.friction[0].over_ruts.as_ref().expect("both");
        assert_eq!((over.rolling.value.si(), over.depth.value.si()), (0.06, 0.05));
    }
}

#[rstest]
#[case("\"4-1\"")]
#[case("\"02-30\"")]
#[case("\"13-01\"")]
#[case("\"April\"")]
fn a_season_that_begins_on_no_day_is_told(#[case] from: &str) {
    let text = format!(
        "kind = \"strip\"\n[[season]]\nfrom = {from}\nto = \"05-20\"\nstrength = \"60 %\"\n"
    );
    let reading = hardpan_files::read_strip(&Memory::default().with("s.toml", text), "s.toml");
    let found = reading.diagnostics.iter().map(|one| (one.code, one.line)).collect::<Vec<_>>();
    assert_eq!(found, [("E550", 3)], "{:#?}", reading.diagnostics);
}

/// No source says what frost or a dry summer adds: no share is above what was sounded.
#[rstest]
#[case("strength", "\"130 %\"", 5)]
#[case("wet_strength", "\"101 %\"", 6)]
fn a_season_is_never_stronger_than_it_was_sounded(
    #[case] key: &str,
    #[case] share: &str,
    #[case] line: u32,
) {
    let strength = if key == "strength" { "" } else { "strength = \"90 %\"\n" };
    let text = format!(
        "kind = \"strip\"\n[[season]]\nfrom = \"11-01\"\nto = \"03-20\"\n{strength}{key} = {share}\n"
    );
    let reading = hardpan_files::read_strip(&Memory::default().with("s.toml", text), "s.toml");
    let [found] = &reading.diagnostics[..] else { panic!("{:#?}", reading.diagnostics) };
    assert_eq!((found.code, found.line), ("E306", line));
    assert!(found.message.contains("which cannot be right"), "{}", found.message);
    assert!(found.expected.contains("to 100 %"), "{}", found.expected);
    assert!(!found.hint.is_empty());
}
