//! Vortex, reverse and cables of the demo and of the turboprop example, with changes.

mod support;

use hardpan_assess::Assessment;
use hardpan_model::{BasisInput, Finding, Verdict, Weight};
use support::{Change, assessed, assessed_in, change};

const TURBOPROP: &str = "examples/04-dirt-strip-turboprop";

fn named<'a>(assessment: &'a Assessment, code: &str, title: &str) -> &'a Finding {
    let mut findings = assessment.findings.iter();
    findings.find(|one| one.code == code && one.title == title).unwrap_or_else(|| panic!("{title}"))
}

fn value(finding: &Finding) -> f64 {
    finding.value.expect("a value").si
}

/// The result of the step that computes something named so.
fn step(finding: &Finding, computes: &str) -> f64 {
    let mut steps = finding.basis.steps.iter();
    let found = steps.find(|step| step.computes.contains(computes));
    found.unwrap_or_else(|| panic!("no step {computes} in {:#?}", finding.basis.steps)).result.si
}

fn input(inputs: &[BasisInput], name: &str) -> f64 {
    let found = inputs.iter().find(|input| input.name == name);
    found.unwrap_or_else(|| panic!("no input {name}")).amount.si
}

/// Strength of a uniform sink disc with its image over a height of 3.15/3.7 of
/// its diameter: 13.1 by independent integration at 0.85 (the cases of the disc),
/// 13.2 here. [TEXTBOOK-PHYSICS], momentum theory.
#[test]
fn the_propeller_vortex_goes_by_the_disc_over_its_image() {
    const STRENGTH: f64 = 13.18;
    let assessment = assessed_in(TURBOPROP, &[]);
    let finding = named(&assessment, "D15", "propeller vortex at take-off power");
    let first = &finding.basis.steps[0];
    let thrust = input(&first.inputs, "thrust of one propeller, standing");
    let density = input(&first.inputs, "air density");
    let area = std::f64::consts::FRAC_PI_4 * 3.7 * 3.7;
    let half = 0.5 * STRENGTH;
    let blown = (thrust / (2.0 * density * area) / (half * (1.0 + half))).sqrt();
    assert!((first.result.si / blown - 1.0).abs() < 0.01, "{} {blown}", first.result.si);
    let headwind = input(&finding.basis.steps[1].inputs, "headwind, the least that is sure");
    let wanted = blown / 0.8 - headwind;
    assert!((value(finding) - wanted).abs() < 0.02 * blown, "{} {wanted}", value(finding));
    assert_eq!((finding.verdict, finding.weight), (Verdict::Conditional, Weight::Advice));
    assert!(finding.instruction.as_deref().is_some_and(|say| say.contains("until 7.3 kt")));
}

#[test]
fn a_flat_tyre_never_lowers_the_speed_from_which_no_vortex_stands() {
    let jet = assessed(&[]);
    let inlet = named(&jet, "D10", "inlet vortex at take-off thrust");
    assert!(step(inlet, "with a flat tyre") > value(inlet));
    // Pods 9.2 m aft and 4.9 m out, wheelbase 11.4 m, track 5.2 m, main tyre 0.12 m:
    // 0.12 · (0.5 + 4.9/5.2) · 9.2/11.4 = 0.1397 m below 1.25 m, by hand.
    assert!((step(inlet, "the tyres of one leg flat") - 1.1103).abs() < 5e-4);
    let along = named(&jet, "D20", "inlet vortex along the run");
    assert!(step(along, "with a flat tyre") >= value(along));
    let taxi = named(&jet, "D25", "vortex while taxiing");
    assert!(step(taxi, "with a flat tyre") <= value(taxi));
    let propeller = assessed_in(TURBOPROP, &[]);
    let power = named(&propeller, "D15", "propeller vortex at take-off power");
    assert!(step(power, "with a flat tyre") > value(power));
}

#[test]
fn without_the_radius_of_a_flat_tyre_the_finding_says_so() {
    let assessment = assessed(&[change("aeroplane.toml", "flat_radius = \"0.335 m\"\n", "")]);
    let finding = named(&assessment, "D10", "inlet vortex at take-off thrust");
    let told = finding.caveats.iter().any(|caveat| caveat.text.contains("with a flat tyre it is"));
    assert!(told, "{:?}", finding.caveats);
}

fn without_schedule() -> Change {
    let rows = "[[take_off.thrust]]\n\
                source = \"Flight manual supplement 7 (invented), 3-3\"\n\
                ground_speed = \"0 kt\"\nshare = \"60 %\"\n\n\
                [[take_off.thrust]]\n\
                source = \"Flight manual supplement 7 (invented), 3-3\"\n\
                ground_speed = \"50 kt\"\nshare = \"100 %\"\n";
    change("flight.toml", rows, "")
}

#[test]
fn the_schedule_without_a_vortex_costs_distance_and_is_for_the_crew() {
    let assessment = assessed(&[without_schedule()]);
    let finding = named(&assessment, "D30", "schedule without a vortex");
    assert_eq!((finding.verdict, finding.weight), (Verdict::Conditional, Weight::Advice));
    assert!(value(finding) > 0.0 && value(finding) < 400.0, "{}", value(finding));
    let say = finding.instruction.as_deref().expect("an instruction");
    assert!(say.contains("do not set more than") && say.contains("100 % at"), "{say}");
    // Calm air asks for more speed than a headwind does, and costs no less.
    let calm = assessed(&[without_schedule(), change("day.toml", "25009KT", "00000KT")]);
    assert!(value(named(&calm, "D30", "schedule without a vortex")) >= value(finding));
}

#[test]
fn the_schedule_is_not_told_where_no_stones_lie() {
    let patch = "[[loose_material]]\nfrom = \"1500 m\"\nto = \"1540 m\"\ndepth = \"12 mm\"\n\
                 stones_per_square_metre = 40\nlargest_stone = \"32 mm\"\n";
    let water = "standing_water = \"none\"\n";
    let none = format!("{water}loose_material = \"none\"\n");
    let assessment = assessed(&[change("day.toml", patch, ""), change("day.toml", water, &none)]);
    let titles = assessment.findings.iter().filter(|one| one.code == "D30");
    assert!(titles.into_iter().all(|one| one.title != "schedule without a vortex"));
}

#[test]
fn a_patch_that_nobody_counted_takes_the_stones_of_the_strip() {
    let counted = assessed_in(TURBOPROP, &[]);
    let found = named(&counted, "D15", "loose stones under the propellers");
    assert_ne!(found.verdict, Verdict::Unproven);
    let away =
        change("strip.toml", "from = \"0 m\"\nto = \"400 m\"", "from = \"90 m\"\nto = \"400 m\"");
    let without = assessed_in(TURBOPROP, &[away]);
    let found = named(&without, "D15", "loose stones under the propellers");
    assert_eq!(found.verdict, Verdict::Unproven);
}

#[test]
fn stones_too_large_for_the_sheet_do_not_forbid_reverse() {
    let tells = |size: &str| {
        let to = format!("largest_stone = \"{size}\"");
        let assessment = assessed(&[change("day.toml", "largest_stone = \"32 mm\"", &to)]);
        let finding = named(&assessment, "D40", "reverse thrust");
        finding.instruction.as_deref().is_some_and(|say| say.contains("no reverse over"))
    };
    assert!(tells("32 mm"));
    assert!(!tells("80 mm"));
}

const PATCH: &str = "[[loose_material]]\nfrom = \"1500 m\"\nto = \"1540 m\"\ndepth = \"12 mm\"\n\
                     stones_per_square_metre = 40\nlargest_stone = \"32 mm\"\n";
const ROWS: &str = "[[engines.reverse.row]]\nairspeed = \"70 kt\"\nforce = \"14 kN\"\n\
                    [[engines.reverse.row]]\nairspeed = \"140 kt\"\nforce = \"20 kN\"\n";
const APPROVAL: &str = "[[engines.reverse.approval]]\nsurface = \"gravel\"\n\
                        manual = \"Flight manual supplement 7 (invented), 3-7\"\n";

/// The landing that counts reverse thrust, but for one thing that it takes.
fn counting(left_out: &str) -> Vec<Change> {
    let is_in = |what: &str| left_out != what;
    let used = if is_in("full reverse") { "full" } else { "idle" };
    let asked = if is_in("asked") { "count_reverse = true" } else { "" };
    let rule = if is_in("rule") { "landing-15" } else { "landing-60" };
    let rows = if is_in("rows") { ROWS } else { "" };
    let approval = if is_in("approval") { APPROVAL } else { "" };
    let idle_by = if is_in("idle by") { "idle_by = \"80 kt\"" } else { "" };
    let known = format!("stowed_by = \"72 kt\"\n{idle_by}\nengines = 2\nset_after = \"4 s\"");
    let mut changes = vec![
        change("flight.toml", "reverse = \"idle\"", &format!("reverse = \"{used}\"\n{asked}")),
        change("flight.toml", "rule = \"landing-60\"", &format!("rule = \"{rule}\"")),
        change("aeroplane.toml", "stowed_by = \"72 kt\"", &known),
        change(
            "aeroplane.toml",
            "[gear]\nwheelbase",
            &format!("{rows}{approval}[gear]\nwheelbase"),
        ),
    ];
    if is_in("swept") {
        changes.push(change("day.toml", PATCH, ""));
        let none = "standing_water = \"none\"\nloose_material = \"none\"";
        changes.push(change("day.toml", "standing_water = \"none\"", none));
    }
    changes
}

fn told(finding: &Finding) -> String {
    finding.caveats.iter().map(|caveat| caveat.text.clone() + "; ").collect()
}

#[test]
fn reverse_is_counted_in_a_landing_only_where_everything_says_so() {
    let counted = assessed(&counting(""));
    let landing = named(&counted, "F50", "landing distance");
    assert!(told(landing).contains("counted down to"), "{}", told(landing));
    assert!(told(landing).contains("supplement 7 (invented), 3-7"));
    assert!(
        told(named(&counted, "D40", "reverse thrust")).contains("the landing distance counts it")
    );
    let plain = assessed(&counting("asked"));
    let without = named(&plain, "F50", "landing distance");
    assert!(value(landing) < value(without) - 20.0, "{} {}", value(landing), value(without));
    assert!(!told(without).contains("reverse"), "{}", told(without));
    for (left_out, why) in [
        ("approval", "no approval of it on gravel"),
        ("rows", "two rows or more"),
        ("idle by", "lacks one of idle_by"),
        ("full reverse", "does not plan full reverse"),
        ("swept", "loose stones lie at stations"),
    ] {
        let assessment = assessed(&counting(left_out));
        let landing = named(&assessment, "F50", "landing distance");
        assert_eq!(value(landing).to_bits(), value(without).to_bits(), "{left_out}");
        assert!(told(landing).contains(why), "{left_out}: {}", told(landing));
    }
    let dispatch = assessed(&counting("rule"));
    let landing = named(&dispatch, "F50", "landing distance");
    let as_before = assessed(&[]);
    let before = named(&as_before, "F50", "landing distance");
    assert_eq!(value(landing).to_bits(), value(before).to_bits());
    assert!(told(landing).contains("distances of dispatch"), "{}", told(landing));
}

/// [CFR-25-109] (f): not on a dry runway, and (b): a wet one needs no less than that.
#[test]
fn a_rejected_take_off_counts_reverse_on_a_wet_strip_no_shorter_than_dry() {
    let wet = [
        change("day.toml", "surface_state = \"dry\"", "surface_state = \"wet\""),
        change(
            "strip.toml",
            "# How the ground freezes and thaws, to tell the thaw over frost.",
            "[[friction]]\nstate = \"wet\"\nrolling = 0.045\nbraking = 0.10\n",
        ),
    ];
    let asked = change(
        "flight.toml",
        "level_off = \"800 ft\"",
        "level_off = \"800 ft\"\ncount_reverse = true",
    );
    let stop = |changes: &[Change]| {
        let assessment = assessed(&[counting("asked"), changes.to_vec()].concat());
        let finding = named(&assessment, "F20", "accelerate-stop distance");
        (value(finding), told(finding))
    };
    let (dry, _) = stop(&[]);
    let (dry_asked, why) = stop(std::slice::from_ref(&asked));
    assert_eq!(dry.to_bits(), dry_asked.to_bits());
    assert!(why.contains("on a wet surface only"), "{why}");
    let (plain, silent) = stop(&wet);
    let (counted, says) = stop(&[wet.to_vec(), vec![asked]].concat());
    assert!(!silent.contains("reverse") && says.contains("counted down to"), "{says}");
    assert!((dry..=plain).contains(&counted), "{dry} {counted} {plain}");
}
