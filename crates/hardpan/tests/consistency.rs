//! The assessment agrees with itself: limits from both sides, bases with their
//! formulas, and what must be monotone.

mod support;

use hardpan_assess::{Answered, Assessment, Turning, answer_alone, assess, formulas};
use hardpan_model::{BasisInput, Given, InputFrom, Verdict, Weight};
use hardpan_quantity::{Amount, Mass, Quantity, kilograms, psi};
use std::sync::atomic::{AtomicUsize, Ordering};
use support::{change, flight};

fn at(take_off: Mass, landing: Mass) -> Assessment {
    let mut changed = flight(&[]);
    let set = |mass: &mut Option<Given<Mass>>, to: Mass| {
        *mass = mass.clone().map(|given| given.map(|_| to));
    };
    if let Some(plan) = changed.take_off.as_mut() {
        set(&mut plan.mass, take_off);
    }
    if let Some(plan) = changed.landing.as_mut() {
        set(&mut plan.mass, landing);
    }
    assess(&changed)
}

/// What is shown first is what stands in the end.
#[test]
fn exact_the_answer_alone_is_that_of_the_whole() {
    for changes in [vec![], vec![change("flight.toml", "passes = 60", "passes = 5000")]] {
        let (alone, whole) = (answer_alone(&flight(&changes)), assess(&flight(&changes)));
        let rest = Assessment {
            turning: Turning::default(),
            remedies: Vec::new(),
            account: Vec::new(),
            figures: Vec::new(),
            ..whole
        };
        assert_eq!(alone, rest);
        let begun = Answered::of(flight(&changes));
        assert_eq!(begun.alone(), alone);
        assert_eq!(begun.whole(), assess(&flight(&changes)));
    }
}

/// What nobody waits for any more is left off, and what somebody waits for comes to the
/// same bits.
#[test]
fn exact_advice_that_is_given_up_stops_and_begins_anew() {
    let begun = Answered::of(flight(&[]));
    let asked = AtomicUsize::new(0);
    let count = || asked.fetch_add(1, Ordering::Relaxed);
    assert_eq!(begun.whole_unless(&|| count() > usize::MAX / 2).as_ref(), Some(&begun.whole()));
    let all = asked.swap(0, Ordering::Relaxed);
    assert_eq!(begun.whole_unless(&|| count() >= 4), None);
    assert!(all > 20, "only {all} flights were tried for the advice");
    assert_eq!(begun.whole_unless(&|| true), None);
    assert_eq!(begun.whole_unless(&|| false), Some(begun.whole()));
}

/// What goes on from an answer before comes to the same bits as what begins afresh.
#[test]
fn exact_an_answer_after_another_is_that_of_its_own() {
    let flown = |from: &str, to: &str| vec![change("flight.toml", from, to)];
    let on_the_day = |from: &str, to: &str| vec![change("day.toml", from, to)];
    let changes = [
        flown("mass = \"40.4 t\"", "mass = \"38.2 t\""),
        flown("mass = \"39.6 t\"", "mass = \"36.1 t\""),
        flown("passes = 60", "main_tyre_pressure = \"90 psi\"\npasses = 60"),
        flown("passes = 60", "main_tyre_pressure = \"110 psi\"\npasses = 60"),
        flown("\nflap = \"25\"", "\nflap = \"15\""),
        on_the_day("9999 FEW040 14/06", "9999 FEW040 31/06"),
        on_the_day("25009KT", "20016KT"),
        on_the_day("surface_state = \"dry\"", "surface_state = \"wet\""),
        flown("passes = 60", "passes = 400"),
        vec![change("strip.toml", "bearing = \"68 deg\"", "bearing = \"66 deg\"")],
        vec![change("aeroplane.toml", "wheelbase = \"11.4 m\"", "wheelbase = \"11.6 m\"")],
        Vec::new(),
    ];
    let mut before = Answered::of(flight(&[])).footing();
    for changes in changes {
        let after = Answered::after(flight(&changes), &before);
        assert!(after.alone() == answer_alone(&flight(&changes)), "after {changes:?}");
        before = after.footing();
    }
    let after = Answered::after(flight(&[]), &before);
    assert_eq!(after.whole(), assess(&flight(&[])));
    // What the whole tried does not count in the next answer either.
    let lighter = flown("mass = \"40.4 t\"", "mass = \"37.7 t\"");
    let after = Answered::after(flight(&lighter), &after.footing());
    assert_eq!(after.whole(), assess(&flight(&lighter)));
}

/// Checks on safety that fail: advice limits no mass.
fn fails(assessment: &Assessment) -> Vec<&'static str> {
    let safety = assessment.findings.iter().filter(|finding| finding.weight == Weight::Safety);
    let bad = safety.filter(|finding| finding.verdict == Verdict::Fail);
    bad.map(|finding| finding.code).collect()
}

/// Tyres are set once for landing and take-off, so that one is heavier at the cost of
/// the other: the masses that are told must hold together, and not a little more.
#[test]
fn exact_largest_masses_hold_together_and_a_little_more_does_not() {
    let flown = |from: &str, to: &str| change("flight.toml", from, to);
    let behind = flown("centre_of_gravity = \"24 %\"", "centre_of_gravity = \"33 %\"");
    let ahead = flown("centre_of_gravity = \"23 %\"", "centre_of_gravity = \"18 %\"");
    for changes in [vec![], vec![behind, ahead]] {
        let at = |take_off: Mass, landing: Mass| {
            let tons = |mass: Mass| format!("mass = \"{:.2} t\"", mass.si() / 1000.0);
            let landing = flown("mass = \"39.6 t\"", &tons(landing));
            let take_off = flown("mass = \"40.4 t\"", &tons(take_off));
            fails(&assess(&flight(&[changes.as_slice(), &[landing, take_off]].concat())))
        };
        let planned = assess(&flight(&changes));
        let answers = [&planned.take_off_mass, &planned.landing_mass];
        let [(take_off, its), (landing, other)] = answers.map(|answer| {
            let answer = answer.as_ref().expect("planned");
            (answer.largest.expect("found"), answer.set_by().expect("limited").code)
        });
        assert_eq!(at(take_off, landing), [""; 0], "{take_off:?} and {landing:?}");
        let light = kilograms(32_000.0);
        assert_eq!(at(take_off, light), [""; 0]);
        assert_eq!(at(light, landing), [""; 0]);
        let more = kilograms(40.0);
        let over = at(take_off + more, landing);
        assert!(over.contains(&its), "{over:?} without {its}");
        let over = at(take_off, landing + more);
        assert!(over.contains(&other), "{over:?} without {other}");
    }
}

#[test]
fn exact_a_lean_on_the_lee_leg_limits_the_mass() {
    let share = "wheelbase = \"11.4 m\"\ncrosswind_share = \"2 %\"";
    let leaning = flight(&[change("aeroplane.toml", "wheelbase = \"11.4 m\"", share)]);
    let largest = |flight| {
        let mass = assess(flight).take_off_mass.expect("planned");
        (mass.set_by().expect("limited").code, mass.largest.expect("found"))
    };
    let ((level, more), (code, less)) = (largest(&flight(&[])), largest(&leaning));
    assert_eq!((level, code), ("G20", "G28"));
    assert!(less < more, "{less:?} leaning, {more:?} level");
}

#[test]
fn prop_heavier_never_turns_a_failed_check_into_one_that_holds() {
    let mut before: Vec<&'static str> = Vec::new();
    for mass in [34_000.0, 38_000.0, 41_000.0, 43_000.0, 46_000.0, 50_000.0] {
        let now = fails(&at(kilograms(mass), kilograms(32_000.0)));
        for code in &before {
            assert!(now.contains(code), "{code} failed at less than {mass} kg and holds there");
        }
        before = now;
    }
    assert!(!before.is_empty(), "nothing failed at 50 t");
}

#[test]
fn prop_weaker_ground_and_more_passes_never_carry_more() {
    let largest = |changes: &[support::Change]| {
        assess(&flight(changes))
            .take_off_mass
            .and_then(|mass| mass.largest)
            .map_or(0.0, Quantity::si)
    };
    let mut last = f64::INFINITY;
    for passes in ["10", "60", "200", "1000"] {
        let now = largest(&[change("flight.toml", "passes = 60", &format!("passes = {passes}"))]);
        assert!(now <= last, "{passes} passes carry {now} kg, fewer carried {last} kg");
        last = now;
    }
}

#[test]
fn prop_more_pressure_never_carries_more() {
    let planned = assess(&flight(&[]));
    let rows: Vec<f64> =
        planned.tyre.table.iter().map(|row| row.ground.map_or(0.0, Quantity::si)).collect();
    assert!(rows.len() > 5);
    assert!(rows.windows(2).all(|pair| pair[1] <= pair[0]), "{rows:?}");
    let tyre: Vec<f64> =
        planned.tyre.table.iter().map(|row| row.tyre.map_or(0.0, Quantity::si)).collect();
    assert!(tyre.windows(2).all(|pair| pair[1] >= pair[0]), "{tyre:?}");
}

#[test]
fn a_pressure_set_by_the_crew_is_used_as_it_is() {
    let changes =
        [change("flight.toml", "passes = 60", "main_tyre_pressure = \"102 psi\"\npasses = 60")];
    let assessment = assess(&flight(&changes));
    let set = assessment.tyre.set.expect("a pressure");
    assert!((set.si() - psi(102.0).si()).abs() < 1.0);
}

#[test]
fn same_flight_same_bits() {
    let first = assess(&flight(&[]));
    let second = assess(&flight(&[]));
    assert_eq!(format!("{first:?}"), format!("{second:?}"));
}

/// Every step that names a catalogued formula gives what the formula gives for
/// the inputs that are shown. The product tabulates the equivalent single
/// wheel, within 0.3 % of the search behind the formula.
#[test]
fn exact_every_step_with_a_formula_can_be_done_by_hand() {
    let catalogue = formulas();
    let mut done = 0;
    for finding in assess(&flight(&[])).findings {
        for step in &finding.basis.steps {
            for input in &step.inputs {
                if let InputFrom::Step(index) = input.from {
                    let named = finding.basis.steps.get(index).expect("a step before");
                    assert!(
                        (named.result.si - input.amount.si).abs() <= 1e-9 * named.result.si.abs(),
                        "{}: {} is not the result of step {}",
                        finding.code,
                        input.name,
                        index + 1
                    );
                }
            }
            let Some(name) = step.formula else { continue };
            let formula = catalogue
                .iter()
                .find(|formula| formula.name == name)
                .unwrap_or_else(|| panic!("{name} is not in the catalogue"));
            let is_argument = |input: &&BasisInput| {
                formula.arguments.iter().any(|one| Some(one.symbol) == input.symbol)
            };
            let of_formula = step.inputs.iter().filter(is_argument);
            let values: Vec<Amount> = of_formula.map(|input| input.amount).collect();
            let by_hand = formula.value(&values).unwrap_or_else(|error| panic!("{error}"));
            let close = (by_hand.si - step.result.si).abs() <= 4e-3 * by_hand.si.abs();
            assert!(close, "{}: {name} gives {by_hand:?}, shown {:?}", finding.code, step.result);
            done += 1;
        }
    }
    assert!(done >= 2, "{done} steps name a formula");
}

#[test]
fn every_figure_has_a_basis_and_every_unproven_finding_a_need_or_a_reason() {
    for changes in [vec![], vec![change("day.toml", "surface_state = \"dry\"\n", "")]] {
        for finding in assess(&flight(&changes)).findings {
            assert!(!finding.because.is_empty(), "{} says nothing", finding.code);
            if finding.value.is_some() {
                assert!(
                    !finding.basis.steps.is_empty(),
                    "{} {} has a value without a basis",
                    finding.code,
                    finding.title
                );
            }
        }
    }
}

/// Every figure of the card is a finding with steps, or opens to steps whose
/// inputs stand in a file at a line, are constants, or are steps or figures of
/// their own.
#[test]
fn every_figure_of_the_card_opens_to_what_it_came_from() {
    let wet = change("day.toml", "surface_state = \"dry\"", "surface_state = \"wet\"");
    let heavy = change("flight.toml", "mass = \"40.4 t\"", "mass = \"44 t\"");
    for changes in [vec![], vec![wet], vec![heavy]] {
        let found = assess(&flight(&changes));
        let masses = [&found.take_off_mass, &found.landing_mass].into_iter().flatten();
        let masses = masses.flat_map(|mass| {
            let limits = mass.limits.iter().filter_map(|limit| limit.mass);
            mass.largest.into_iter().chain(mass.load).chain(limits).map(Amount::from)
        });
        let tyre = &found.tyre;
        let pressures = [tyre.set, tyre.least, tyre.greatest].into_iter().flatten();
        let table = tyre.table.iter().flat_map(|row| [row.ground, row.tyre]).flatten();
        let wanted: Vec<Amount> = masses
            .chain(pressures.map(Amount::from))
            .chain(table.map(Amount::from))
            .chain(found.speeds.iter().map(|row| row.speed.into()))
            .chain(found.distances.iter().map(|row| row.needed.into()))
            .chain(found.day.rows.iter().map(|row| row.1))
            .chain(found.turning.points.iter().map(|point| point.holds_to))
            .chain(found.sketch.marks.iter().filter_map(|mark| mark.amount))
            .collect();
        assert!(wanted.len() > 40, "{} figures", wanted.len());
        let steps = found.findings.iter().flat_map(|finding| &finding.basis.steps);
        let steps: Vec<Amount> = steps.map(|step| step.result).collect();
        for available in found.distances.iter().filter_map(|row| row.available) {
            let opened = steps.contains(&available.into());
            assert!(opened, "{available:?} available does not open");
        }
        for amount in wanted {
            let opened = found.figures.iter().any(|figure| figure.amount == amount);
            assert!(opened, "{amount:?} does not open");
        }
        let of_figures = found.figures.iter().map(|figure| (&figure.name, &figure.basis));
        let of_findings = found.findings.iter().filter(|finding| finding.value.is_some());
        let of_findings = of_findings.map(|finding| (&finding.title, &finding.basis));
        for (name, basis) in of_figures.chain(of_findings) {
            assert!(!basis.steps.is_empty(), "{name} opens to nothing");
            for (at, step) in basis.steps.iter().enumerate() {
                assert!(!step.expression.is_empty(), "{name}, step {at}");
                for input in &step.inputs {
                    match &input.from {
                        InputFrom::File { origin, .. } => assert!(origin.line > 0, "{name}"),
                        InputFrom::Step(before) => assert!(*before < at, "{name}, step {at}"),
                        InputFrom::Constant(_) | InputFrom::Beside(_) => {}
                        InputFrom::Computed(what) => assert!(!what.is_empty(), "{name}"),
                        InputFrom::Entries(entries) => assert!(!entries.is_empty(), "{name}"),
                    }
                }
            }
        }
        let last = |one: &hardpan_assess::FigureBasis| one.basis.steps.last().map(|s| s.result);
        let strays: Vec<_> = found
            .figures
            .iter()
            .filter(|figure| last(figure).is_some_and(|last| last != figure.amount))
            .map(|figure| &figure.name)
            .filter(|name| found.distances.iter().all(|row| row.name != **name))
            .filter(|name| !name.contains("least main tyre"))
            .collect();
        assert!(strays.is_empty(), "the last step gives another figure: {strays:?}");
    }
}

/// The plain words answer the five questions in order and name what governs.
#[test]
fn the_account_answers_in_the_order_in_which_a_captain_asks() {
    let heavy = change("flight.toml", "mass = \"40.4 t\"", "mass = \"44 t\"");
    let unknown = change("day.toml", "surface_state = \"dry\"\n", "");
    for (changes, opening) in [
        (vec![], "Yes, while every condition is kept"),
        (vec![heavy], "No, not as planned"),
        (vec![unknown], "That cannot be shown"),
    ] {
        let found = assess(&flight(&changes));
        let asked: Vec<&str> = found.account.iter().map(|line| line.asked).collect();
        let order = [
            "Can I go?",
            "How heavy?",
            "What limits it?",
            "What must hold?",
            "What would change it?",
            "How sure is it?",
        ];
        let mut rest = order.iter();
        assert!(asked.iter().all(|one| rest.any(|next| next == one)), "{asked:?}");
        assert_eq!(asked.last(), Some(&"How sure is it?"));
        assert!(found.account[0].said.starts_with(opening), "{:?}", found.account);
        if let (Some(governing), Some(limits)) = (
            found.answer.governing,
            found.account.iter().find(|line| line.asked.contains("limits")),
        ) {
            assert!(limits.said.contains(found.findings[governing].code), "{}", limits.said);
        }
    }
}

/// A number in a sentence with a unit of the other system, and the word before.
fn metric_amounts(text: &str) -> Vec<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let unit = |word: &str| {
        let unit = word.trim_end_matches(['.', ',', ';', ':', ')']);
        ["m", "mm", "km", "kg", "kPa", "kN", "m2", "m3", "°C"].contains(&unit)
    };
    let number = |word: &str| word.ends_with(|c: char| c.is_ascii_digit());
    let pairs = words.windows(2).filter(|pair| number(pair[0]) && unit(pair[1]));
    pairs.map(|pair| pair.join(" ")).collect()
}

#[test]
fn sentences_are_told_in_the_units_of_the_reader() {
    let report = hardpan_report::Report::new(
        &assess(&flight(&[])),
        hardpan_quantity::UnitSystem::Imperial,
        hardpan_report::Produced::default(),
    );
    let instructions = report.findings.iter().filter_map(|row| row.instruction.as_ref());
    let because = report.findings.iter().map(|row| &row.because);
    for sentence in instructions.chain(because).chain(&report.answer.conditions) {
        assert_eq!(metric_amounts(sentence), Vec::<String>::new(), "{sentence}");
        assert!(!sentence.contains('\u{2063}'), "{sentence}");
    }
}

#[test]
fn ground_that_drags_on_a_stretch_lengthens_the_runs_over_it() {
    let needed = |changes: &[support::Change], code: &str| {
        let found = assess(&flight(changes));
        let of =
            |finding: &&hardpan_model::Finding| finding.code == code && finding.value.is_some();
        let finding = found.findings.iter().find(of).cloned().expect("judged");
        (finding.value.expect("a value").si, finding)
    };
    let before = "# How the ground freezes and thaws, to tell the thaw over frost.";
    let stated = |text: &str| vec![change("strip.toml", before, &format!("{text}\n\n{before}"))];
    let place = "from = \"1200 m\"\nto = \"1260 m\"\nsource = \"Walk\"";
    let soft = |depth: u32| {
        stated(&format!("[[area]]\nkind = \"soft\"\n{place}\nsinkage = \"{depth} mm\""))
    };
    let friction = stated(&format!("[[friction]]\nstate = \"dry\"\nrolling = 0.10\n{place}"));
    let elsewhere = stated(&format!("[[friction]]\nstate = \"wet\"\nrolling = 0.10\n{place}"));
    let pond = |depth: u32| {
        let patch = format!("[[standing_water]]\n{place}\ndepth = \"{depth} mm\"");
        vec![change("day.toml", "standing_water = \"none\"", &patch)]
    };
    let (dry, _) = needed(&[], "F10");
    assert_eq!(needed(&elsewhere, "F10").0.to_bits(), dry.to_bits(), "of another state");
    assert!(needed(&friction, "F10").0 > dry + 1.0);
    let (less, finding) = needed(&soft(10), "F10");
    let named = finding.basis.steps.iter().flat_map(|step| &step.inputs);
    assert!(named.clone().any(|input| input.name.contains("sinking")), "{:?}", finding.basis);
    assert!(dry < less && less < needed(&soft(30), "F10").0);
    assert!(
        dry < needed(&pond(3), "F10").0 && needed(&pond(3), "F10").0 < needed(&pond(9), "F10").0
    );
    assert!(needed(&pond(3), "F50").0 > needed(&[], "F50").0, "no brakes in the water");
}

/// No law of the drag of loose material is published: what somebody measured counts
/// where it is more than the ground has, and without it the take-off says so.
#[test]
fn loose_material_drags_by_what_is_stated_of_it() {
    let take_off = |rolling: Option<f64>| {
        let stated = rolling.map(|rolling| format!("\nrolling = {rolling}")).unwrap_or_default();
        let text = format!("depth = \"12 mm\"{stated}");
        let found = assess(&flight(&[change("day.toml", "depth = \"12 mm\"", &text)]));
        let finding = found.findings.into_iter().find(|one| one.title == "take-off distance");
        let finding = finding.expect("judged");
        let says = finding.caveats.iter().any(|one| one.text.contains("loose material lies at"));
        let inputs = finding.basis.steps.iter().flat_map(|step| &step.inputs);
        let named = inputs.filter(|input| input.name.contains("rolling over loose")).count();
        (finding.value.expect("a value").si, says, named > 0)
    };
    let (silent, easy) = (take_off(None), take_off(Some(0.02)));
    assert_eq!((silent.1, silent.2), (true, false));
    assert_eq!((easy.1, easy.2), (false, true));
    assert!((easy.0 / silent.0 - 1.0).abs() < 1e-6, "rolls no easier than the ground");
    let (deep, deeper) = (take_off(Some(0.08)), take_off(Some(0.16)));
    assert!(silent.0 < deep.0 && deep.0 < deeper.0, "{silent:?} {deep:?} {deeper:?}");
}
