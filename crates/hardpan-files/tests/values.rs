//! Values of TOML files: units, sources, places, and what absence means.

use hardpan_files::{Memory, Reading, read_aeroplane, read_day, read_strip};
use hardpan_model::{Aeroplane, Bound, Phase};
use hardpan_quantity::{Dimension, Quantity};
use proptest::prelude::*;
use rstest::rstest;

fn aeroplane(text: &str) -> Reading<Aeroplane> {
    let text = format!("kind = \"aeroplane\"\n{text}");
    read_aeroplane(&Memory::default().with("a.toml", text), "a.toml")
}

fn sound(text: &str) -> Aeroplane {
    let reading = aeroplane(text);
    assert_eq!(reading.errors(), 0, "{:#?}", reading.diagnostics);
    reading.value.expect("no error")
}

/// Factors by definition: 1 lb = 0.45359237 kg, 1 ft = 0.3048 m, 1 in = 25.4 mm,
/// standard gravity 9.80665 m/s². Source: [NIST-SP-811] appendix B.
#[rstest]
#[case("mass.minimum = \"30 t\"", |a: &Aeroplane| a.mass.minimum.as_ref().map(|v| v.value.si()), 30e3)]
#[case("mass.minimum = \"66000 lb\"", |a: &Aeroplane| a.mass.minimum.as_ref().map(|v| v.value.si()), 66e3 * 0.453_592_37)]
#[case("wing.area = \"1000 ft2\"", |a: &Aeroplane| a.wing.area.as_ref().map(|v| v.value.si()), 92.903_04)]
#[case("wing.span = \"28.5m\"", |a: &Aeroplane| a.wing.span.as_ref().map(|v| v.value.si()), 28.5)]
#[case("balance.aft_limit = \"34 %\"", |a: &Aeroplane| a.balance.aft_limit.as_ref().map(|v| v.value.si()), 0.34)]
#[case("gear.main.tyre.width = \"14 in\"", |a: &Aeroplane| a.gear.main.tyre.width.as_ref().map(|v| v.value.si()), 0.3556)]
#[case("gear.main.tyre.rated_pressure = \"100 psi\"", |a: &Aeroplane| a.gear.main.tyre.rated_pressure.as_ref().map(|v| v.value.si()), 100.0 * 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254))]
#[case("engines.static_thrust = \"16000 lbf\"", |a: &Aeroplane| a.engines.static_thrust.as_ref().map(|v| v.value.si()), 16e3 * 0.453_592_37 * 9.806_65)]
#[case("engines.flat_rated_to = \"86 degF\"", |a: &Aeroplane| a.engines.flat_rated_to.as_ref().map(|v| v.value.si()), 303.15)]
#[case("brakes.energy_limit = \"35 MJ\"", |a: &Aeroplane| a.brakes.energy_limit.as_ref().map(|v| v.value.si()), 35e6)]
#[case("brakes.force_limit = \"10000 lbf\"", |a: &Aeroplane| a.brakes.force_limit.as_ref().map(|v| v.value.si()), 1e4 * 0.453_592_37 * 9.806_65)]
#[case("brakes.torque_limit = \"15000 ft-lb\"", |a: &Aeroplane| a.brakes.torque_limit.as_ref().map(|v| v.value.si()), 15e3 * 0.453_592_37 * 9.806_65 * 0.3048)]
#[case("[[engines.reverse.row]]\nairspeed = \"90 kt\"\nforce = \"14 kN\"", |a: &Aeroplane| a.engines.reverse.rows.first().map(|row| row.force.value.si()), 14e3)]
#[case("speeds.rotation_time = \"2.5 s\"", |a: &Aeroplane| a.speeds.rotation_time.as_ref().map(|v| v.value.si()), 2.5)]
fn val_units(
    #[case] text: &str,
    #[case] get: fn(&Aeroplane) -> Option<f64>,
    #[case] expected: f64,
) {
    let read = get(&sound(text)).expect("given");
    assert!((read - expected).abs() <= 1e-12 * expected.abs(), "{read} is not {expected}");
}

#[test]
fn a_source_holds_for_its_table_and_those_below_until_another_is_stated() {
    let aeroplane = sound(
        "source = \"Manual\"\nname = \"T\"\n[gear]\nsource = \"Chapter 3\"\ntrack = \"5 m\"\n\
         wheelbase = { value = \"11 m\", source = \"Drawing 4\" }\n[gear.main.tyre]\n\
         width = \"0.3 m\"\n[wing]\narea = \"92 m2\"\nsource = \"\"\n",
    );
    let source = |source: Option<std::sync::Arc<str>>| source.map(|source| source.to_string());
    assert_eq!(source(aeroplane.name.expect("given").source).as_deref(), Some("Manual"));
    assert_eq!(source(aeroplane.gear.track.expect("given").source).as_deref(), Some("Chapter 3"));
    let wheelbase = aeroplane.gear.wheelbase.expect("given");
    assert_eq!(source(wheelbase.source).as_deref(), Some("Drawing 4"));
    let width = aeroplane.gear.main.tyre.width.expect("given");
    assert_eq!(source(width.source).as_deref(), Some("Chapter 3"));
    assert_eq!(width.origin.to_string(), "a.toml:9:9 (gear.main.tyre.width)");
    assert_eq!(source(aeroplane.wing.area.expect("given").source).as_deref(), Some("Manual"));
}

#[test]
fn what_is_not_given_is_none_and_listed() {
    let reading = aeroplane("name = \"\"\n[wing]\nspan = \"28 m\"\n");
    assert!(reading.diagnostics.is_empty());
    let aeroplane = reading.value.expect("no error");
    assert!(aeroplane.name.is_none(), "empty text is not given");
    assert!(aeroplane.wing.area.is_none() && aeroplane.flaps.is_empty());
    assert!(reading.absent.contains(&"wing.area".to_owned()));
    assert!(!reading.absent.contains(&"wing.span".to_owned()));
}

#[test]
fn limits_keep_their_kind_and_side() {
    let aeroplane = sound(
        "[[limit]]\nphase = \"taxi\"\nquantity = \"engine pressure ratio\"\nat_most = 1.25\n\
         [[limit]]\nphase = \"before brake release\"\nquantity = \"runway slope\"\nat_most = \"1.6 %\"\n\
         [[limit]]\nphase = \"always\"\nquantity = \"oil temperature\"\nat_least = \"40 degC\"\nwhen = \"cold\"\n\
         [[limit]]\nphase = \"climb\"\nquantity = \"gear speed\"\nat_most = \"188 kt\"\nsource = \"S\"\n",
    );
    let read: Vec<(Phase, Bound, Dimension)> = aeroplane
        .limits
        .iter()
        .map(|limit| (limit.phase, limit.bound, limit.value.value.dimension))
        .collect();
    assert_eq!(
        read,
        [
            (Phase::Taxi, Bound::AtMost, Dimension::Coefficient),
            (Phase::BeforeBrakeRelease, Bound::AtMost, Dimension::Ratio),
            (Phase::Always, Bound::AtLeast, Dimension::Temperature),
            (Phase::Climb, Bound::AtMost, Dimension::Speed),
        ]
    );
    assert_eq!(aeroplane.limits[3].value.source.as_deref(), Some("S"));
    assert_eq!(aeroplane.limits[2].when.as_ref().map(|when| when.value.as_str()), Some("cold"));
}

#[test]
fn every_limit_that_is_checked_has_a_kind() {
    for quantity in hardpan_model::ApprovedLimit::CHECKED {
        let text = format!(
            "[[limit]]\nphase = \"always\"\nquantity = \"{quantity}\"\nat_least = true\nat_most = \"\"\n"
        );
        let reading = aeroplane(&text);
        let wanted = reading.diagnostics.iter().find(|one| one.code == "E207");
        let wanted = wanted.unwrap_or_else(|| panic!("{quantity}: {:#?}", reading.diagnostics));
        assert!(wanted.expected.contains("with its unit"), "{quantity} has no kind of its own");
    }
}

#[rstest]
#[case("standing_water = \"none\"", Some(0))]
#[case("", None)]
#[case("standing_water = \"\"", None)]
#[case("[[standing_water]]\nfrom = \"10 m\"\nto = \"20 m\"\ndepth = \"5 mm\"", Some(1))]
fn none_is_not_the_same_as_unknown(#[case] text: &str, #[case] patches: Option<usize>) {
    let files = Memory::default().with("d.toml", format!("kind = \"day\"\n{text}\n"));
    let day = read_day(&files, "d.toml").value.expect("no error");
    assert_eq!(day.standing_water.map(|list| list.len()), patches);
}

#[rstest]
#[case("time_utc = \"14:30Z\"", Some("2026-06-18T14:30:00"))]
#[case("time_utc = \"14:30:20Z\"", Some("2026-06-18T14:30:20"))]
#[case("time_utc = \"2026-06-19T01:30Z\"", Some("2026-06-19T01:30:00"))]
#[case("time_utc = 2026-06-19T01:30:00Z", Some("2026-06-19T01:30:00"))]
#[case("time_utc = 2026-06-18T18:30:00-07:00", Some("2026-06-19T01:30:00"))]
#[case("time_utc = \"14:30\"", None)]
#[case("time_utc = 14:30:00", None)]
#[case("time_utc = 2026-06-18T14:30:00", None)]
#[case("time_utc = \"24:30Z\"", None)]
#[case("time_utc = \"4:30Z\"", None)]
#[case("time_utc = \"14:30:2Z\"", None)]
#[case("time_utc = 1430", None)]
fn times_must_say_that_they_are_utc(#[case] text: &str, #[case] moment: Option<&str>) {
    let files =
        Memory::default().with("d.toml", format!("kind = \"day\"\ndate = 2026-06-18\n{text}\n"));
    let reading = read_day(&files, "d.toml");
    let read = reading.value.and_then(|day| day.time_utc).map(|time| time.value.to_string());
    assert_eq!(read.as_deref(), moment);
    assert_eq!(reading.diagnostics.is_empty(), moment.is_some());
}

#[rstest]
#[case("2026-05-01", true)]
#[case("\"2026-05-01\"", true)]
#[case("\"2026-5-1\"", false)]
#[case("\"20260501\"", false)]
#[case("\"2026-02-29\"", false)]
#[case("\"1926-05-01\"", false)]
#[case("2026-05-01T10:00:00Z", false)]
#[case("20260501", false)]
fn dates(#[case] date: &str, #[case] good: bool) {
    let files = Memory::default().with("d.toml", format!("kind = \"day\"\ndate = {date}\n"));
    assert_eq!(read_day(&files, "d.toml").value.is_some(), good);
}

#[rstest]
#[case("07", true)]
#[case("25L", true)]
#[case("36", true)]
#[case("00", false)]
#[case("37", false)]
#[case("7", false)]
#[case("07X", false)]
#[case("é7", false)]
fn designators(#[case] designator: &str, #[case] good: bool) {
    let text = format!("kind = \"strip\"\n[low_end]\ndesignator = \"{designator}\"\n");
    assert_eq!(read_strip(&Memory::default().with("s.toml", text), "s.toml").value.is_some(), good);
}

proptest! {
    /// A mass written in any unit, with or without a blank, is the mass read.
    #[test]
    fn prop_masses_are_read_as_written(
        tonnes in 1.0_f64..600.0,
        unit in prop::sample::select(vec![("t", 1e3), ("kg", 1.0), ("lb", 0.453_592_37)]),
        blank in prop::sample::select(vec!["", " ", "  "]),
    ) {
        let number = tonnes * 1e3 / unit.1;
        let read = sound(&format!("mass.minimum = \"{number}{blank}{}\"", unit.0));
        let read = read.mass.minimum.expect("given").value.si();
        prop_assert!((read - tonnes * 1e3).abs() < 1e-9 * tonnes * 1e3);
    }

    /// Whatever stands between the quotes: a value, or a diagnostic on its line.
    #[test]
    fn prop_any_text_gives_a_value_or_a_word(text in "[^\"\\\\\\x00-\\x1f\\x7f]{0,40}") {
        let reading = aeroplane(&format!("[wing]\narea = \"{text}\"\n"));
        match &reading.value {
            Some(aeroplane) => {
                let given = aeroplane.wing.area.as_ref();
                prop_assert_eq!(given.is_none(), text.trim().is_empty());
                prop_assert!(given.is_none_or(|area| (5.0..=1000.0).contains(&area.value.si())));
            }
            None => prop_assert!(reading.diagnostics.iter().all(|one| one.line == 3)),
        }
    }

    /// Spans are bytes of the file's own text.
    #[test]
    fn prop_spans_lie_in_the_text(text in "[a-zäß€ =\\[\\]\"0-9.\n]{0,200}") {
        let reading = aeroplane(&text);
        for one in &reading.diagnostics {
            let source = reading.sources.text(&one.file).expect("a file that was read");
            prop_assert!(source.get(one.span.clone()).is_some(), "{:?}", one);
        }
    }
}
