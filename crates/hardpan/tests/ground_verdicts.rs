//! Each outcome of the rules on ruts along the strip, the strain at the weak
//! layer, the ground between soundings, its water and the lee leg.

mod support;

use hardpan_assess::{Assessment, assess, carrying_weeks};
use hardpan_model::{Finding, Flight, Given, SurfaceState, Verdict, Weight};
use hardpan_quantity::{Quantity, UnitSystem, tell};
use hardpan_report::weeks_text;
use jiff::civil::Date;
use proptest::prelude::*;
use support::{Change, GravelOver, assessed, change, demo_text, flight, gravel_over};

fn titled<'a>(assessment: &'a Assessment, code: &str, title: &str) -> Option<&'a Finding> {
    let mut all = assessment.findings.iter().filter(|finding| finding.code == code);
    all.find(|finding| finding.title.contains(title))
}

fn verdict(assessment: &Assessment, code: &str, title: &str) -> Verdict {
    titled(assessment, code, title).expect(title).verdict
}

fn si(finding: Option<&Finding>) -> f64 {
    finding.and_then(|finding| finding.value).expect("a value").si
}

fn gravel(ground_mm_per_blow: f64, thickness_mm: u32) -> GravelOver {
    GravelOver { gravel_blows: 4, thickness_mm, ground_mm_per_blow, moisture_percent: "" }
}

fn over(ground_mm_per_blow: f64, thickness_mm: u32, changes: &[Change]) -> Assessment {
    assess(&gravel_over(gravel(ground_mm_per_blow, thickness_mm), changes))
}

fn passes(count: &str) -> Change {
    change("flight.toml", "passes = 60", &format!("passes = {count}"))
}

const ALONG: &str = "ruts along the strip";
const UNTIL: &str = "passes until ruts";
const DRAG: &str = "rolling resistance of the ruts";

#[test]
fn ruts_along_the_strip_pass_fail_and_stay_unproven() {
    let planned = assessed(&[]);
    for title in [ALONG, UNTIL, DRAG] {
        let found = titled(&planned, "G52", title).expect(title);
        assert_eq!((found.verdict, found.weight), (Verdict::Pass, Weight::Advice), "{title}");
        assert!(found.value.is_some() && found.place.is_some(), "{title}");
    }
    let many = assessed(&[passes("5000")]);
    assert_eq!(verdict(&many, "G52", ALONG), Verdict::Fail);
    assert_eq!(verdict(&many, "G52", UNTIL), Verdict::Fail);
    let silent = assessed(&[change("flight.toml", "passes = 60\n", "")]);
    for title in [ALONG, UNTIL, DRAG] {
        let found = titled(&silent, "G52", title).expect(title);
        assert_eq!((found.verdict, found.value), (Verdict::Unproven, None), "{title}");
        assert!(found.needs.iter().any(|need| need.what == "flight: passes"), "{title}");
    }
}

#[test]
fn ground_alike_all_the_way_down_has_no_ruts_by_the_law() {
    let alike = over(5.0, 300, &[]);
    for title in [ALONG, UNTIL, DRAG] {
        assert_eq!(verdict(&alike, "G52", title), Verdict::Unproven, "{title}");
    }
}

/// [BARBER-1978]: ruts grow with passes to the power 0.2476.
#[test]
fn exact_ruts_along_grow_as_the_law_has_them() {
    let set = |passes: &str| {
        change(
            "flight.toml",
            "passes = 60",
            &format!("main_tyre_pressure = \"110 psi\"\npasses = {passes}"),
        )
    };
    let at = |passes: &str| si(titled(&assessed(&[set(passes)]), "G52", ALONG));
    assert!((at("160") / at("10") - 16f64.powf(0.2476)).abs() < 1e-3);
}

const STRAIN: &str = "strain";

#[test]
fn strain_at_the_weak_layer_passes_warns_and_stays_unproven() {
    let light = [
        change("flight.toml", "mass = \"39.6 t\"", "mass = \"30.4 t\""),
        change("flight.toml", "mass = \"40.4 t\"", "mass = \"31 t\""),
        passes("2"),
    ];
    let thick = assess(&gravel_over(GravelOver { gravel_blows: 10, ..gravel(15.0, 380) }, &light));
    let found = titled(&thick, "G60", STRAIN).expect("a finding");
    assert_eq!(found.verdict, Verdict::Pass, "{:?} {}", found.value, found.because);
    let planned = assessed(&[]);
    let found = titled(&planned, "G60", STRAIN).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Conditional, Weight::Advice));
    assert!(found.value.expect("a strain").si > found.limit.expect("a limit").amount.si);
    let far = assessed(&[change("strip.toml", "value = \"60 m\"", "value = \"20 m\"")]);
    assert_eq!(verdict(&far, "G60", STRAIN), Verdict::Unproven);
    let alike = over(5.0, 300, &[]);
    assert_eq!(verdict(&alike, "G60", STRAIN), Verdict::Unproven, "no other layer lies over it");
}

#[test]
fn strain_grows_on_weaker_ground() {
    let at = |rate: f64| si(titled(&over(rate, 240, &[]), "G60", STRAIN));
    let strains = [20.0, 30.0, 45.0].map(at);
    assert!(strains.windows(2).all(|pair| pair[0] < pair[1]), "{strains:?}");
}

const BETWEEN: &str = "between soundings";

#[test]
fn ground_between_soundings_holds_may_not_and_is_silent_where_stated() {
    let even = over(12.0, 400, &[]);
    let found = titled(&even, "S45", BETWEEN).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Pass, Weight::Advice), "{}", found.because);
    let planned = assessed(&[]);
    let found = titled(&planned, "S45", BETWEEN).expect("a finding");
    assert_eq!(found.verdict, Verdict::Unproven);
    assert!(found.needs.iter().any(|need| need.what.contains("correlation_length")));
    let ground = titled(&planned, "G20", "main").expect("the ground as sounded");
    assert!(si(Some(found)) > si(Some(ground)), "less is credited between soundings");
    let silent = assessed(&[change("flight.toml", "passes = 60\n", "")]);
    let found = titled(&silent, "S45", BETWEEN).expect("a finding");
    assert_eq!((found.verdict, found.value), (Verdict::Unproven, None));
    let keys = "[soundings_info]\ncorrelation_length = \"400 m\"";
    let stated = assessed(&[change("strip.toml", "[soundings_info]", keys)]);
    assert!(titled(&stated, "S45", BETWEEN).is_none());
}

const WATER: &str = "water in the ground";

/// The water of the day against soundings at 9 %.
fn water(tested: &'static str, today: Option<&str>) -> Assessment {
    let stated = today.map(|share| {
        let line = format!("surface_state = \"dry\"\nground_moisture = \"{share}\"");
        change("day.toml", "surface_state = \"dry\"", &line)
    });
    let changes: Vec<Change> = stated.into_iter().collect();
    assess(&gravel_over(GravelOver { moisture_percent: tested, ..gravel(12.0, 400) }, &changes))
}

#[test]
fn water_in_the_ground_is_held_to_that_when_it_was_tested() {
    let dry = water("9", Some("8.5 %"));
    let found = titled(&dry, "S60", WATER).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Pass, Weight::Safety));
    assert!((found.limit.expect("a limit").amount.si - 0.09).abs() < 1e-12);
    let wet = water("9", Some("9.5 %"));
    let found = titled(&wet, "S60", WATER).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Unproven, Weight::Safety));
    assert!(tell(&found.because, UnitSystem::Metric).contains("wetter"));
    assert_eq!(wet.answer.verdict, Verdict::Unproven);
    let untested = water("", Some("8.5 %"));
    let found = titled(&untested, "S60", WATER).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Unproven, Weight::Safety));
    let unseen = water("9", None);
    let found = titled(&unseen, "S60", WATER).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Unproven, Weight::Advice));
    assert_eq!(found.needs[0].what, "day: ground_moisture");
    assert!(titled(&water("", None), "S60", WATER).is_none(), "nobody states either");
}

const LEE: &str = "crosswind";

fn wind(report: &str) -> Change {
    change("day.toml", "25009KT", report)
}

fn gear(line: &str, instead: &str) -> Change {
    let value = if line == "side_force_area" { "75 m2" } else { "2.6 m" };
    let source = "Stability report (invented), 5-1";
    let whole = format!("{line} = {{ value = \"{value}\", source = \"{source}\" }}\n");
    change("aeroplane.toml", &whole, instead)
}

/// 15 kt gusting 30 from the side, air at 284 m and 14 degC: half the density
/// times the square of the speed, times 75 m2 x 2.6 m / 5.2 m.
#[test]
fn exact_the_lee_leg_by_side_area() {
    let calm = assessed(&[]);
    assert_eq!(verdict(&calm, "G28", LEE), Verdict::Pass);
    let softer = assessed(&[wind("33015G30KT")]);
    assert_eq!(verdict(&softer, "G28", LEE), Verdict::Pass);
    let set = |assessment: &Assessment| assessment.tyre.set.expect("a pressure").si();
    assert!(set(&softer) < set(&calm), "the tyres are set for the lee leg");
    let as_calm = format!("main_tyre_pressure = \"{} Pa\"\npasses = 60", set(&calm));
    let gusty = assessed(&[wind("33015G30KT"), change("flight.toml", "passes = 60", &as_calm)]);
    let found = titled(&gusty, "G28", LEE).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Fail, Weight::Safety));
    assert_eq!(verdict(&gusty, "G20", "main"), Verdict::Pass);
    let pressure = 101_325.0 * (1.0 - 284.0 / 44_330.8f64).powf(5.255_88);
    let density = pressure / (287.053 * 287.15);
    let across = 30.0 * 0.514_444 * (330.0f64 - 248.0).to_radians().sin();
    let by_hand = 0.5 * density * across * across * 75.0 * 2.6 / 5.2;
    let moved = found.basis.steps[0].result.si;
    assert!((moved / by_hand - 1.0).abs() < 0.01, "{moved} and {by_hand}");
}

#[test]
fn the_lee_leg_stays_unproven_where_nobody_states_what_leans_it() {
    let silent = assessed(&[gear("side_force_area", ""), gear("side_force_height", "")]);
    let found = titled(&silent, "G28", LEE).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Unproven, Weight::Advice));
    let share = gear("side_force_area", "crosswind_share = \"4 %\"\n");
    let share = assessed(&[share, gear("side_force_height", "")]);
    assert_eq!(verdict(&share, "G28", LEE), Verdict::Fail);
    let unknown = assessed(&[change("day.toml", "25009KT ", "")]);
    let found = titled(&unknown, "G28", LEE).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Unproven, Weight::Safety));
}

#[test]
fn more_wind_across_never_lightens_the_lee_leg() {
    let used = ["33005KT", "33012KT", "33020KT", "33028KT"]
        .map(|report| si(titled(&assessed(&[wind(report)]), "G28", LEE)));
    assert!(used.windows(2).all(|pair| pair[0] < pair[1]), "{used:?}");
}

/// Distances needed; without end where the aeroplane never gets there.
fn distances(assessment: &Assessment) -> [f64; 3] {
    ["F10", "F20", "F50"].map(|code| {
        let of_code =
            |finding: &&Finding| finding.code == code && finding.title.contains("distance");
        let value = assessment.findings.iter().find(of_code).and_then(|finding| finding.value);
        value.map_or(f64::INFINITY, |value| value.si)
    })
}

fn over_ruts(coefficient: f64, depth_mm: f64) -> Change {
    let line = format!(
        "rolling = 0.035\nrolling_over_ruts = {coefficient}\nrut_depth = \"{depth_mm} mm\""
    );
    change("strip.toml", "rolling = 0.035", &line)
}

/// The rut after 60 passes of the law, by hand, makes the coefficient grow in
/// proportion from 0.035 to 0.09 at 40 mm.
#[test]
fn exact_rolling_over_ruts_grows_with_the_rut() {
    let stated = assessed(&[over_ruts(0.09, 40.0)]);
    let found = titled(&stated, "G52", DRAG).expect("a finding");
    let steps = &found.basis.steps;
    let over = steps.iter().find(|step| step.computes.contains("over the ruts")).expect("a step");
    let rut = |name: &str| {
        over.inputs.iter().find(|input| input.name == name).map(|input| input.amount.si)
    };
    let deeper = [rut("rut after the passes"), rut("rut measured")];
    let deeper = deeper.into_iter().flatten().fold(0.0, f64::max);
    assert!((si(Some(found)) - (0.035 + 0.055 * deeper / 0.040)).abs() < 1e-9);
    let more = assessed(&[over_ruts(0.09, 40.0), passes("1000")]);
    assert!(si(titled(&more, "G52", DRAG)) > si(Some(found)), "more passes, deeper ruts");
    let basis = |code: &str| {
        let finding = stated.findings.iter().find(|finding| finding.code == code).expect(code);
        let inputs = finding.basis.steps.iter().flat_map(|step| &step.inputs);
        inputs.filter(|input| input.name.contains("over ruts")).count()
    };
    assert_eq!([basis("F10"), basis("F20")], [1, 1], "the run shows what it counts");
}

#[test]
fn gravel_that_ends_the_ruts_ends_their_drag() {
    let soft = over(30.0, 200, &[]);
    let firm = over(30.0, 600, &[]);
    let unstated = change("strip.toml", "rolling = 0.035\n", "");
    let published = over(30.0, 200, &[unstated]);
    // Alike everywhere: what was measured there holds, what was published may not.
    let same = |assessment: &Assessment| si(titled(assessment, "G52", DRAG));
    assert!((same(&soft) - 0.035).abs() < 1e-9 && (same(&firm) - 0.035).abs() < 1e-9);
    assert!(same(&published) > 0.05, "firm ground with the work of pressing");
    assert!(distances(&published)[0] > distances(&soft)[0]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]
    #[test]
    fn prop_ruts_never_shorten_a_distance_nor_spare_the_main_wheels(
        coefficient in 0.005f64..0.4, depth in 5.0f64..200.0, rolling in 0.01f64..0.06
    ) {
        let line = format!("rolling = {rolling:.4}");
        let level = assessed(&[change("strip.toml", "rolling = 0.035", &line)]);
        let line = format!(
            "{line}\nrolling_over_ruts = {coefficient:.4}\nrut_depth = \"{depth:.1} mm\""
        );
        let rutted = assessed(&[change("strip.toml", "rolling = 0.035", &line)]);
        for (level, rutted) in distances(&level).into_iter().zip(distances(&rutted)) {
            prop_assert!(rutted >= level - 1e-6, "{rutted} m under {level} m");
        }
        let used = |assessment: &Assessment| {
            titled(assessment, "G20", "main").and_then(|finding| finding.value)
        };
        let (rutted, level) = (used(&rutted), used(&level).expect("a value"));
        prop_assert!(rutted.is_none_or(|rutted| rutted.si >= level.si - 1e-9));
    }
}

const STATE: &str = "state of the ground";
const SEASON: &str = "ground under the main wheels in the season";

fn wet() -> Change {
    change("day.toml", "surface_state = \"dry\"", "surface_state = \"wet\"")
}

fn no_wet_strength() -> Change {
    change("strip.toml", "wet_strength = \"80 %\"\n", "")
}

#[test]
fn exact_wet_ground_counts_at_the_share_that_is_stated() {
    let stated = assessed(&[wet()]);
    assert_eq!(verdict(&stated, "S60", STATE), Verdict::Pass);
    let used = titled(&stated, "S65", SEASON).expect("a finding");
    let sounded = titled(&stated, "G20", "main").expect("a finding");
    assert!((si(Some(used)) - si(Some(sounded)) / 0.8).abs() < 1e-9);
    assert_eq!((used.verdict, used.weight), (Verdict::Fail, Weight::Safety));
    let silent = assessed(&[wet(), no_wet_strength()]);
    let found = titled(&silent, "S60", STATE).expect("a finding");
    assert_eq!((found.verdict, found.weight), (Verdict::Unproven, Weight::Safety));
    let sounded_wet = change(
        "strip.toml",
        "state = \"dry\"\n\n[survey_info]",
        "state = \"wet\"\n\n[survey_info]",
    );
    let as_wet = assessed(&[wet(), no_wet_strength(), sounded_wet]);
    let tests = titled(&as_wet, "S60", STATE).expect("a finding");
    assert_eq!(
        tests.verdict,
        Verdict::Unproven,
        "a test of its own was made dry: {}",
        tests.because
    );
    let thawing = change("day.toml", "surface_state = \"dry\"", "surface_state = \"thawing\"");
    assert_eq!(verdict(&assessed(std::slice::from_ref(&thawing)), "S60", STATE), Verdict::Unproven);
    let keys = "water_content = \"8 %\"\nthaw_strength = \"50 %\"\nrecovery = \"30 d\"";
    let keys = change("strip.toml", "water_content = \"8 %\"", keys);
    assert_eq!(verdict(&assessed(&[thawing, keys]), "S60", STATE), Verdict::Pass);
}

/// The share of the day bounds the masses too: the largest holds and 40 kg more do not.
#[test]
fn exact_the_season_limits_the_mass() {
    let weaker = |mass: Option<f64>| {
        let mut changes = vec![
            change("strip.toml", "strength = \"100 %\"", "strength = \"93 %\""),
            change("flight.toml", "mass = \"39.6 t\"", "mass = \"32 t\""),
        ];
        if let Some(mass) = mass {
            let line = format!("mass = \"{mass} kg\"");
            changes.push(change("flight.toml", "mass = \"40.4 t\"", &line));
        }
        assessed(&changes)
    };
    let planned = weaker(None);
    let answer = planned.take_off_mass.as_ref().expect("planned");
    let largest = answer.largest.expect("found").si();
    assert_eq!(answer.set_by().map(|limit| limit.code), Some("S65"));
    let plain = assessed(&[]).take_off_mass.expect("planned").largest.expect("found").si();
    assert!(largest < plain, "{largest} in the season, {plain} as sounded");
    assert_eq!(verdict(&weaker(Some(largest)), "S65", SEASON), Verdict::Pass);
    assert_eq!(verdict(&weaker(Some(largest + 40.0)), "S65", SEASON), Verdict::Fail);
}

#[test]
fn the_calendar_tells_wet_weeks_where_the_strip_does() {
    let weeks = |changes: &[Change]| {
        carrying_weeks(&flight(changes), None).expect("the demo has everything")
    };
    let stated = weeks(&[]);
    let mut seen = 0;
    for week in &stated.movements[0].weeks {
        let Some(ground) = &week.ground else { continue };
        let wet = ground.wet.expect("both seasons say");
        assert!(wet.share <= ground.share && wet.largest <= ground.largest);
        seen += usize::from(wet.largest < ground.largest);
    }
    assert!(seen > 10, "{seen} weeks carry less when wet");
    let silent = weeks(&[no_wet_strength()]);
    let summer = &silent.movements[0].weeks[25];
    assert!(summer.ground.as_ref().is_some_and(|ground| ground.wet.is_none()));
    let told = weeks_text(&silent, UnitSystem::Metric, Default::default());
    assert!(told.contains("wet: not known"), "{told}");
}

/// The demo with its ground tested and used in frost, on days of one winter.
fn in_frost(tested: Option<&str>, today: &str, changes: &[Change]) -> Assessment {
    let mut flight = flight(changes);
    let date = |text: &str| Given::stated("date", text.parse::<Date>().expect("a date"));
    let frozen = || Some(Given::stated("state", SurfaceState::Frozen));
    flight.strip.soundings_state = frozen();
    flight.day.surface_state = frozen();
    flight.day.date = Some(date(today));
    for sounding in &mut flight.strip.soundings {
        sounding.date = tested.map(date);
    }
    assess(&flight)
}

#[test]
fn ground_tested_in_frost_counts_with_as_much_frost_and_no_less() {
    let of = |tested, today| {
        let found = in_frost(tested, today, &[]);
        titled(&found, "S60", STATE).expect("a finding").clone()
    };
    let deeper = of(Some("2026-01-10"), "2026-02-20");
    assert_eq!((deeper.verdict, deeper.weight), (Verdict::Pass, Weight::Safety));
    for (tested, today) in [
        (Some("2026-02-20"), "2026-01-10"),
        (Some("2026-02-20"), "2026-06-18"),
        (Some("2026-06-18"), "2026-02-20"),
        (None, "2026-02-20"),
    ] {
        let found = of(tested, today);
        assert_eq!((found.verdict, found.weight), (Verdict::Unproven, Weight::Safety), "{today}");
        assert!(found.needs.iter().any(|need| need.what.starts_with("strip: soundings")));
    }
    let text = demo_text("strip.toml");
    let frost = &text[text.find("[frost]").expect("there")..];
    let frost = &frost[..frost.find("\n\n").expect("it ends")];
    let silent = in_frost(Some("2026-01-10"), "2026-02-20", &[change("strip.toml", frost, "")]);
    let found = titled(&silent, "S60", STATE).expect("a finding");
    assert_eq!(found.verdict, Verdict::Unproven);
    assert!(found.needs.iter().any(|need| need.what == "strip: [frost]"), "{:?}", found.needs);
}

#[test]
fn exact_frost_adds_nothing_to_ground_that_was_sounded_without_it() {
    let frozen = |flight: &mut Flight| {
        flight.day.surface_state = Some(Given::stated("state", SurfaceState::Frozen));
    };
    let rolling = "state = \"dry\"\nrolling = 0.035";
    let mut day = flight(&[change("strip.toml", rolling, "state = \"frozen\"\nrolling = 0.035")]);
    frozen(&mut day);
    let (frozen, dry) = (assess(&day), assessed(&[]));
    let found = titled(&frozen, "S60", STATE).expect("a finding");
    assert_eq!(found.verdict, Verdict::Pass);
    assert!(tell(&found.because, UnitSystem::Metric).contains("counts as sounded"));
    let used = |found: &Assessment| si(titled(found, "G20", "main"));
    assert!((used(&frozen) - used(&dry)).abs() < 1e-9, "the same ground under the same load");
}

/// Sinking that was seen and the law of ruts tell of one work on one ground.
#[test]
fn sinking_and_ruts_of_one_place_cost_no_more_than_the_greater() {
    let ruts = || over_ruts(0.09, 40.0);
    let area = || {
        let end = "# How the ground freezes";
        let sinks = "[[area]]\nkind = \"soft\"\nfrom = \"1500 m\"\nto = \"1900 m\"\n\
                     sinkage = \"12 mm\"\n\n# How the ground freezes";
        change("strip.toml", end, sinks)
    };
    let run = |changes: &[Change]| distances(&assessed(changes))[0];
    let (plain, ruts_only) = (run(&[]), run(&[ruts()]));
    let (area_only, both) = (run(&[area()]), run(&[ruts(), area()]));
    assert!(plain < ruts_only && plain < area_only, "{plain} {ruts_only} {area_only}");
    assert!(both >= ruts_only.max(area_only) - 1e-6, "{both}");
    let summed = ruts_only + area_only - plain;
    assert!(both < summed - 1.0, "{both} m, {summed} m if both were counted");
}

/// [WES-S-77-1], in inches and pounds: t = α sqrt(P/(8.1 CBR) − A/π), and the cubic in
/// x = log10(CBR A/P); α = 0.23 log10 C + 0.15; A is the contact area of one tyre.
#[test]
fn exact_both_forms_of_the_design_equation_beside_the_strain() {
    let found = over(25.0, 250, &[passes("400")]);
    let finding = titled(&found, "G60", "strain at the top").expect("judged");
    let step = |name: &str| {
        let mut steps = finding.basis.steps.iter().filter(|step| step.formula == Some(name));
        steps.next().expect("a step")
    };
    let of = |name: &str, key: &str| {
        let all = &step(name).inputs;
        all.iter().find(|input| input.name == key).expect("an input").amount.si
    };
    const ROOT: &str = "flexible-cover-root";
    let pounds = of(ROOT, "load") / 4.448_221_6;
    let square_inches = pounds / (of(ROOT, "pressure") / 6_894.757);
    let wheel = of("equivalent-single-wheel-load", "wheel_load") / 4.448_221_6;
    let tyre = of("equivalent-single-wheel-load", "pressure") / 6_894.757;
    assert!((square_inches / (wheel / tyre) - 1.0).abs() < 1e-6);
    let alpha = 0.23 * of("load-repetition-factor-single-wheel", "coverages").log10() + 0.15;
    let cbr = of(ROOT, "bearing_ratio");
    let root = alpha * (pounds / (8.1 * cbr) - square_inches / std::f64::consts::PI).sqrt();
    let x = (cbr * square_inches / pounds).log10();
    let cubic = -0.0481 - 1.1562 * x - 0.6414 * x * x - 0.4730 * x.powi(3);
    let cubic = alpha * square_inches.sqrt() * cubic;
    for (name, inches) in [(ROOT, root), ("flexible-cover-cubic", cubic)] {
        let ours = step(name).result.si / 0.0254;
        assert!((ours / inches - 1.0).abs() < 1e-5, "{name}: {ours} {inches}");
    }
    assert!(finding.caveats.iter().any(|caveat| caveat.text.contains("in its cubic form")));
}

const IN_THE_TURN: &str = "surface of turning place";

fn turned(surface: &str, speed: &str) -> Assessment {
    let text = demo_text("strip.toml").replace("speed = \"6 kt\"", &format!("speed = \"{speed}\""));
    let whole = change("strip.toml", &demo_text("strip.toml"), &text);
    let stated = format!("surface = \"{surface}\"");
    assessed(&[whole, change("strip.toml", "surface = \"gravel\"", &stated)])
}

/// [GREEN-1954]: N = 1 + π − arcsin h + sqrt(1 − h²) on one shear strength, which is
/// 30 kPa for each CBR [GIROUD-HAN-2004]; side force of a steady turn v²/(g r) of the load.
#[test]
fn exact_the_top_of_dirt_in_a_turn() {
    let found = turned("dirt", "6 kt");
    let finding = titled(&found, "G24", IN_THE_TURN).expect("judged");
    assert_eq!(finding.verdict, Verdict::Conditional, "{}", finding.because);
    let input = |name: &str| {
        let all = finding.basis.steps.iter().flat_map(|step| &step.inputs);
        all.filter(|input| input.name == name).map(|input| input.amount.si).next().expect("stated")
    };
    let share = (6.0_f64 * 1852.0 / 3600.0).powi(2) / (9.806_65 * 16.0);
    let (pressure, strength) = (input("tyre pressure"), 30e3 * input("bearing_ratio"));
    let across = share * pressure / strength;
    let factor = 1.0 + std::f64::consts::PI - across.asin() + (1.0 - across * across).sqrt();
    let by_hand = across.max(pressure / (strength * factor));
    assert!((si(Some(finding)) / by_hand - 1.0).abs() < 1e-9, "{} {by_hand}", si(Some(finding)));
}

#[test]
fn a_faster_turn_never_spares_the_top_and_gravel_has_no_law() {
    assert!(titled(&turned("gravel", "6 kt"), "G24", IN_THE_TURN).is_none());
    let used = ["4 kt", "10 kt", "16 kt", "24 kt"].map(|speed| {
        let found = turned("grass", speed);
        let finding = titled(&found, "G24", IN_THE_TURN).expect("judged").clone();
        assert_eq!(finding.verdict == Verdict::Fail, si(Some(&finding)) > 1.0);
        si(Some(&finding))
    });
    assert!(used.windows(2).all(|pair| pair[0] < pair[1]), "{used:?}");
}
