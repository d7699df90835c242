//! What would turn the answer turns it: every list assessed afresh, the shortest
//! with nothing shorter, the cheapest with nothing cheaper, and repairs that buy
//! what they cost.

mod support;

use hardpan_assess::{Assessment, Remedy, WayOut, WaysOut, assess, ways_out};
use hardpan_model::{Direction, Finding, Flight, Given, InputFrom, Verdict, Weight};
use hardpan_quantity::{Mass, Quantity, UnitSystem, kilograms, metres, psi, tonnes};
use hardpan_report::{Produced, Report, TextStyle, text, ways_opened_text, ways_text};
use snapbox::cmd::{Command, cargo_bin};
use support::{at_masses, change, changed_files, flight, flight_beside, rougher};

/// The demo too heavy for its ground and its distances.
fn heavy() -> Flight {
    flight(&[
        change("flight.toml", "mass = \"40.4 t\"", "mass = \"43.2 t\""),
        change("flight.toml", "mass = \"39.6 t\"", "mass = \"42.4 t\""),
    ])
}

fn found(flight: &Flight) -> WaysOut {
    ways_out(flight, |_| ())
}

fn set(flight: &mut Flight, landing: Mass, take_off: Mass) {
    let at = |given: &mut Option<Given<Mass>>, mass| {
        *given = given.take().map(|given| given.map(|_| mass));
    };
    at(&mut flight.landing.as_mut().expect("planned").mass, landing);
    at(&mut flight.take_off.as_mut().expect("planned").mass, take_off);
}

#[test]
fn the_shortest_list_turns_the_answer_when_it_is_planned() {
    let mut flight = heavy();
    assert_eq!(assess(&flight).answer.verdict, Verdict::Fail);
    let found = found(&flight);
    let way = found.shortest.expect("masses can be lowered");
    assert_eq!(way.actions.len(), 1);
    let said = way.actions[0].show(UnitSystem::Metric);
    let kilograms: Vec<f64> = said
        .split(" kg")
        .filter_map(|part| part.rsplit("than ").next()?.replace('\u{a0}', "").parse().ok())
        .collect();
    assert_eq!(kilograms.len(), 2, "{said}");
    set(&mut flight, tonnes(kilograms[0] / 1e3), tonnes(kilograms[1] / 1e3));
    assert_eq!(assess(&flight).answer.verdict, way.verdict_after, "{said}");
    let both = (42_400.0 - kilograms[0]) + (43_200.0 - kilograms[1]);
    assert!((way.load_left.si() - both).abs() < 1e-6);
    // 900 crowns a tonne, by the flight file.
    assert!(way.cost.is_some_and(|cost| (cost - 0.9 * both).abs() < 1e-6));
}

/// Where data are missing as well, no change supplies them; what leaves nothing that fails
/// is looked for all the same, and is not said to turn the answer.
#[test]
fn with_data_missing_as_well_the_shortest_list_leaves_nothing_that_fails() {
    let mut flight = heavy();
    flight.day.loose_material = None;
    let planned = assess(&flight);
    let has = |assessment: &Assessment, verdict| {
        let meant = |one: &&Finding| one.weight == Weight::Safety && one.verdict == verdict;
        assessment.findings.iter().filter(meant).count()
    };
    assert!(has(&planned, Verdict::Fail) > 0 && has(&planned, Verdict::Unproven) > 0);
    let found = found(&flight);
    let way = found.shortest.clone().expect("masses can be lowered");
    assert_eq!((way.verdict_after, way.left.len()), (Verdict::Unproven, 0));
    let said = way.actions[0].show(UnitSystem::Metric);
    let masses: Vec<f64> = said
        .split(" kg")
        .filter_map(|part| part.rsplit("than ").next()?.replace('\u{a0}', "").parse().ok())
        .collect();
    set(&mut flight, tonnes(masses[0] / 1e3), tonnes(masses[1] / 1e3));
    let then = assess(&flight);
    assert_eq!((has(&then, Verdict::Fail), then.answer.verdict), (0, Verdict::Unproven), "{said}");
    let text = ways_text(&found, UnitSystem::Metric, TextStyle { width: 100, colour: false });
    for words in ["list after which nothing fails; data are missing", "is still unproven"] {
        assert!(text.split_whitespace().collect::<Vec<_>>().join(" ").contains(words), "{text}");
    }
    assert!(!text.contains("turns it"), "{text}");
}

/// A nose tyre stated softer than it may be is set to what it does allow, and the flight
/// then passes that check.
#[test]
fn a_nose_tyre_stated_too_soft_is_set_as_it_may_be() {
    let mut flight = flight(&[]);
    flight.nose_tyre_pressure = Some(Given::stated("nose_tyre_pressure", psi(65.0)));
    let planned = assess(&flight);
    let of_nose = |assessment: &Assessment| {
        let is_nose = |one: &&Finding| one.code == "T10" && one.title.contains("nose");
        assessment.findings.iter().find(is_nose).expect("judged").verdict
    };
    assert_eq!(of_nose(&planned), Verdict::Fail);
    let is_nose = |words: String| words.starts_with("set the nose tyres");
    let advised = |one: &&Remedy| is_nose(one.action.show(UnitSystem::Metric));
    let advised = planned.remedies.iter().find(advised).expect("advice");
    assert!(advised.mends.contains(&"T10"));
    let single = |one: &&WayOut| is_nose(one.actions[0].show(UnitSystem::Metric));
    let found = found(&flight);
    let single = found.singles.iter().find(single).expect("a change");
    flight.nose_tyre_pressure = None;
    let then = assess(&flight);
    assert_ne!(of_nose(&then), Verdict::Fail);
    assert_eq!(then.answer.verdict, single.verdict_after);
}

/// The cheapest keeps the load by leaving fuel and laying gravel; without either
/// the flight still fails, and it costs no more than the shortest.
#[test]
fn the_cheapest_costs_least_and_each_of_its_changes_is_needed() {
    let flight = heavy();
    let found = found(&flight);
    let (shortest, cheapest) = (found.shortest.expect("found"), found.cheapest.expect("found"));
    assert!(cheapest.cost <= shortest.cost);
    assert!(cheapest.verdict_after <= Verdict::Conditional);
    assert!(cheapest.left.is_empty());
    for single in &found.singles {
        let alone = cheapest.actions.len() > 1 && cheapest.actions.contains(&single.actions[0]);
        if alone {
            assert_eq!(single.verdict_after, Verdict::Fail, "{:?}", single.actions);
        }
    }
}

fn turn(direction: &mut Option<Given<Direction>>) {
    *direction = direction.take().map(|given| {
        given.map(|way| match way {
            Direction::Up => Direction::Down,
            Direction::Down => Direction::Up,
        })
    });
}

fn leave_fuel(flight: &mut Flight, is_landing: bool, kilograms: f64) {
    let lighter = |given: &mut Option<Given<Mass>>| {
        let less = tonnes(kilograms / 1e3);
        *given = given.take().map(|given| given.map(|mass: Mass| mass - less));
    };
    if is_landing {
        lighter(&mut flight.landing.as_mut().expect("planned").mass);
        lighter(&mut flight.options.landing_fuel);
    } else {
        lighter(&mut flight.take_off.as_mut().expect("planned").mass);
        lighter(&mut flight.options.take_off_fuel);
    }
}

/// Single changes that can be planned outright give the same when they are.
#[test]
fn every_single_change_is_borne_out_by_planning_it() {
    let planned = heavy();
    let found = found(&planned);
    let mut tried = 0;
    for way in &found.singles {
        let mut flight = planned.clone();
        let said = way.actions[0].show(UnitSystem::Metric);
        let take_off = flight.take_off.as_mut().expect("planned");
        if said == "take off with flap 15" {
            take_off.flap = take_off.flap.take().map(|given| given.map(|_| "15".to_owned()));
        } else if said.starts_with("move at 18:00Z") {
            let hour = flight.day.forecast[0].clone();
            flight.day.observed_utc = Some(hour.time_utc.clone());
            flight.day.time_utc = Some(hour.time_utc);
            flight.day.wind = hour.wind;
            flight.day.temperature = hour.temperature;
            flight.day.sea_level_pressure = hour.sea_level_pressure;
        } else if said.ends_with("in the other direction") {
            let landing = flight.landing.as_mut().filter(|_| said.starts_with("land"));
            let take_off = flight.take_off.as_mut().filter(|_| said.contains("take off"));
            landing.into_iter().for_each(|plan| turn(&mut plan.direction));
            take_off.into_iter().for_each(|plan| turn(&mut plan.direction));
        } else if said.ends_with("less fuel, the load kept") {
            for part in said.split(" and ") {
                let less = part.split("with ").nth(1).and_then(|rest| rest.split(" kg").next());
                let less = less.and_then(|less| less.replace('\u{a0}', "").parse::<f64>().ok());
                leave_fuel(&mut flight, part.starts_with("land"), less.expect("an amount"));
            }
        } else {
            continue;
        }
        let fresh = assess(&flight);
        assert_eq!(fresh.answer.verdict, way.verdict_after, "{said}");
        let fails = |code: &str| {
            fresh.findings.iter().any(|one| one.code == code && one.verdict == Verdict::Fail)
        };
        assert!(way.left.iter().all(|code| fails(code)), "{said}: {:?}", way.left);
        assert!(!way.mends.iter().any(|code| fails(code)), "{said}: {:?}", way.mends);
        tried += 1;
    }
    assert!(tried >= 5, "{tried} of {:?}", found.singles);
}

#[test]
fn a_repair_buys_mass_and_nothing_stated_costs_nothing() {
    let mut flight = heavy();
    let priced = found(&flight);
    assert!(priced.trade.len() >= 2, "{:?}", priced.trade);
    for pair in priced.trade.windows(2) {
        assert!(pair[0].spare < pair[1].spare);
        assert!(pair[0].cost < pair[1].cost);
    }
    for point in priced.trade.iter().skip(1) {
        // 55 crowns a cubic metre, by the flight file.
        let (cost, gravel) = (point.cost.expect("stated"), 55.0 * point.cubic_metres);
        let is_gravel = point.repair.as_ref().is_some_and(|said| !said.told().contains("; "));
        assert!(if is_gravel { (cost - gravel).abs() < 1e-6 } else { cost > gravel });
    }
    flight.options.costs = hardpan_model::Costs::default();
    let free = found(&flight);
    assert!(free.cheapest.is_none() && free.unit.is_empty());
    assert!(free.notes.iter().any(|note| note.contains("no cost is stated")));
}

fn take_off_distance(flight: &Flight) -> (f64, Verdict) {
    let found = assess(flight);
    let finding = found.findings.iter().find(|one| one.code == "F10").expect("judged");
    (finding.value.expect("known").si, finding.verdict)
}

/// Another take-off distance from either end; 30 m of it go to lining up.
fn declare(flight: &mut Flight, distance: hardpan_quantity::Length) {
    for end in [&mut flight.strip.low_end, &mut flight.strip.high_end] {
        let given = &mut end.declared.take_off_distance;
        *given = given.take().map(|given| given.map(|_| distance));
    }
}

/// Water stands where the wheels roll: draining it is weighed with gravel, at 15
/// crowns a metre by the flight file, and drained ground is assessed as drained.
#[test]
fn draining_is_weighed_against_gravel() {
    let water = "\n[[standing_water]]\nfrom = \"1200 m\"\nto = \"1700 m\"\ndepth = \"6 mm\"\n\
                 \n[[loose_material]]";
    let mut flight = flight(&[
        change("day.toml", "standing_water = \"none\"\n", ""),
        change("day.toml", "\n[[loose_material]]", water),
    ]);
    set(&mut flight, tonnes(39.6), tonnes(40.4));
    let needed = take_off_distance(&flight).0;
    declare(&mut flight, metres(needed - 10.0 + 30.0));
    let found = found(&flight);
    let drained = |point: &&hardpan_assess::TradePoint| {
        point.repair.as_ref().is_some_and(|said| said.told().contains("drain"))
    };
    let point = found.trade.iter().find(drained).expect("draining leaves more mass");
    let cost = point.cost.expect("stated");
    assert!((cost - 55.0 * point.cubic_metres - 15.0 * 500.0).abs() < 1e-6, "{cost}");
    flight.day.standing_water = Some(Vec::new());
    if point.cubic_metres == 0.0 {
        let fresh = assess(&flight).take_off_mass.and_then(|answer| answer.largest);
        assert_eq!(fresh, point.take_off_mass);
    }
}

/// Where the price of gravel is not known, nobody can say that other work is cheaper.
#[test]
fn no_work_is_weighed_against_gravel_of_unknown_cost() {
    let water = "\n[[standing_water]]\nfrom = \"1200 m\"\nto = \"1700 m\"\ndepth = \"6 mm\"\n\
                 \n[[loose_material]]";
    let mut flight = flight(&[
        change("day.toml", "standing_water = \"none\"\n", ""),
        change("day.toml", "\n[[loose_material]]", water),
    ]);
    set(&mut flight, tonnes(41.0), tonnes(42.0));
    let drains = |flight: &Flight| {
        let found = found(flight);
        assert!(!found.trade.is_empty());
        let said = |point: &hardpan_assess::TradePoint| {
            point.repair.as_ref().is_some_and(|said| said.told().contains("drain"))
        };
        found.trade.iter().any(said)
    };
    assert!(drains(&flight));
    flight.options.costs.gravel_cubic_metre = None;
    assert!(!drains(&flight));
}

/// Brakes that take a little less than a decision speed asks of them: one chosen
/// afresh is lower and spares them, and to choose so is the way out where the other
/// is stated.
#[test]
fn a_lower_decision_speed_spares_the_brakes() {
    let mut flight = flight(&[]);
    set(&mut flight, tonnes(36.0), tonnes(40.4));
    let braked = |flight: &Flight| {
        let found = assess(flight);
        let of =
            |one: &&hardpan_model::Finding| one.code == "F60" && one.title.contains("take-off");
        let finding = found.findings.iter().find(of).expect("judged").clone();
        let decision = found.speeds.iter().find(|row| row.symbol == "V1").expect("decided").speed;
        (finding.value.expect("known").si, finding.verdict, decision)
    };
    let (energy, _, decision) = braked(&flight);
    let limit = hardpan_quantity::Energy::from_si(energy * 0.99);
    let brakes = &mut flight.aeroplane.brakes;
    brakes.energy_limit = brakes.energy_limit.take().map(|given| given.map(|_| limit));
    let (_, verdict, lower) = braked(&flight);
    assert_eq!(verdict, Verdict::Pass);
    assert!(lower < decision, "{lower:?} {decision:?}");
    let plan = flight.take_off.as_mut().expect("planned");
    plan.decision_speed = Some(Given::stated("decision_speed", decision));
    assert_eq!(braked(&flight).1, Verdict::Fail);
    let found = found(&flight);
    let afresh = |way: &&hardpan_assess::WayOut| {
        way.actions[0].told().starts_with("choose the decision speed afresh")
    };
    let way = found.singles.iter().find(afresh).expect("a decision speed chosen afresh");
    assert!(way.mends.contains(&"F60"), "{:?}", way.mends);
}

/// A take-off that fits only if thrust is set sooner than planned.
#[test]
fn thrust_set_sooner_fits_the_distance() {
    let mut flight = flight(&[]);
    let needed = take_off_distance(&flight).0;
    declare(&mut flight, metres(needed - 3.0 + 30.0));
    assert_eq!(take_off_distance(&flight).1, Verdict::Fail);
    let found = found(&flight);
    let sooner =
        |way: &&hardpan_assess::WayOut| way.actions[0].told().starts_with("set each thrust");
    let way = found.singles.iter().find(sooner).expect("thrust set sooner");
    assert!(way.mends.contains(&"F10"), "{:?}", way.mends);
}

/// A threshold laid up the strip takes as much from the landing distance.
#[test]
fn a_displaced_threshold_shortens_the_landing_distance_and_moves_the_touchdown() {
    let planned = flight(&[]);
    let mut moved = planned.clone();
    let laid = Given::stated("displaced_threshold", metres(150.0));
    moved.landing.as_mut().expect("planned").displaced_threshold = Some(laid);
    let (before, after) = (assess(&planned), assess(&moved));
    let limit = |found: &hardpan_assess::Assessment| {
        let finding = found.findings.iter().find(|one| one.code == "F50").expect("judged");
        finding.limit.expect("declared").amount.si
    };
    assert!((limit(&before) - limit(&after) - 150.0).abs() < 1e-9);
    let touchdown = |found: &hardpan_assess::Assessment| {
        let (_, trace) = found.sketch.runs.iter().find(|run| run.0 == "landing").expect("run");
        trace.points.first().expect("points").station.si()
    };
    // Runway 25 is landed down the stations.
    assert!((touchdown(&before) - touchdown(&after) - 150.0).abs() < 1.0);
}

#[test]
fn a_flight_without_ruts_or_water_is_offered_no_work_on_them() {
    let found = found(&flight(&[]));
    assert!(found.shortest.is_none() && found.cheapest.is_none());
    let said: Vec<String> =
        found.singles.iter().map(|way| way.actions[0].show(UnitSystem::Metric)).collect();
    assert!(!said.iter().any(|text| text.contains("drain")), "{said:?}");
}

#[test]
fn the_command_writes_text_in_both_units_and_json_that_fits_its_schema() {
    let folder = tempfile::tempdir().expect("a folder");
    let heavier = change("flight.toml", "mass = \"40.4 t\"", "mass = \"43.2 t\"");
    for (name, text) in changed_files(&[heavier]) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let hardpan = || Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1");
    let path = folder.path().join("flight.toml").to_string_lossy().into_owned();
    let run = |more: &[&str]| {
        let all = [&["remedies", path.as_str()], more].concat();
        hardpan().args(all).output().expect("it runs")
    };
    let json = run(&["--json"]);
    assert_eq!(json.status.code(), Some(1));
    let document: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
    let schema = hardpan().args(["schema", "remedies"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let faults: Vec<String> = validator.iter_errors(&document).map(|e| e.to_string()).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    let text = run(&["--units", "imperial"]);
    let text = String::from_utf8_lossy(&text.stdout).into_owned();
    for wanted in ["The shortest list", "lb", "crowns", "Absence of data is never a pass."] {
        assert!(text.contains(wanted), "{wanted} is not in\n{text}");
    }
    assert!(!text.contains(" kg"), "{text}");
}

/// Every figure that is told opens; a cost is so many at the price that the flight file
/// states, with its line, and comes out by hand.
#[test]
fn every_figure_opens_to_its_price_and_its_assessment() {
    let found = found(&heavy());
    let opened = found.opened();
    let figure = |name: &str| {
        opened.iter().find(|one| one.name == name).unwrap_or_else(|| panic!("{name} opens"))
    };
    for (name, way) in
        [("the shortest list", &found.shortest), ("the cheapest list", &found.cheapest)]
    {
        let way = way.as_ref().expect("found");
        let cost = figure(&format!("cost of {name}"));
        assert_eq!(Some(cost.amount.si), way.cost);
        let (sum, paid) = cost.basis.steps.split_last().expect("a sum");
        let by_hand: f64 = paid
            .iter()
            .map(|step| {
                let [many, price] = step.inputs.as_slice() else { panic!("{step:?}") };
                let InputFrom::File { origin, .. } = &price.from else { panic!("{price:?}") };
                assert!(origin.to_string().contains("flight.toml:"), "{origin}");
                assert!((many.amount.si * price.amount.si - step.result.si).abs() < 1e-9);
                step.result.si
            })
            .sum();
        assert!((by_hand - sum.result.si).abs() < 1e-9 && !paid.is_empty());
        let landing = figure(&format!("largest landing mass with {name}"));
        assert_eq!(Some(landing.amount.si), way.landing_mass.map(|mass| mass.si()));
    }
    for way in &found.singles {
        let name = way.actions[0].show(UnitSystem::Metric);
        assert_eq!(
            way.cost.is_some(),
            opened.iter().any(|one| one.name == format!("cost of {name}"))
        );
        if way.landing_mass.is_some() {
            figure(&format!("largest landing mass with {name}"));
        }
    }
    let style = TextStyle { width: 100, colour: false };
    let text = ways_opened_text(&found, "cost of the cheapest", UnitSystem::Metric, style);
    let text = text.expect("it opens");
    for wanted in ["n c", "price of one", "flight.toml:", "Absence of data is never a pass."] {
        assert!(text.contains(wanted), "{wanted} is not in\n{text}");
    }
    assert_eq!(ways_opened_text(&found, "no such", UnitSystem::Metric, style), None);
}

/// The masses of a sentence, in its order.
fn masses(said: &str) -> Vec<Mass> {
    let parts = said.split(" kg").filter_map(|part| part.rsplit(' ').next());
    parts.filter_map(|part| part.replace('\u{a0}', "").parse().ok()).map(kilograms).collect()
}

fn is_lighter(said: &str) -> bool {
    said.starts_with("land at no more") || said.starts_with("take off at no more")
}

/// Only the ride of the landing fails, by its mass.
fn rides_badly() -> Flight {
    at_masses(rougher(flight(&[]), 1.3), tonnes(41.2), tonnes(40.4))
}

/// The masses that the ride sets are told as the assessment tells them, a plan that fails
/// by them has nothing over, and a little less load is the cheapest way out.
#[test]
fn where_the_ride_fails_less_mass_is_the_cheapest_way_out() {
    let planned = rides_badly();
    let assessed = assess(&planned);
    assert_eq!(assessed.answer.verdict, Verdict::Fail);
    let found = found(&planned);
    assert_eq!(found.failing, ["R70"]);
    assert_eq!(found.landing_mass, assessed.landing_mass);
    assert_eq!(found.take_off_mass, assessed.take_off_mass);
    let as_it_is = found.trade.first().expect("gravel buys mass");
    assert!(as_it_is.repair.is_none() && as_it_is.spare.si() < 0.0, "{as_it_is:?}");
    let cheapest = found.cheapest.expect("found");
    let said = cheapest.actions[0].show(UnitSystem::Metric);
    assert!(cheapest.actions.len() == 1 && said.ends_with("less fuel, the load kept"), "{said}");
    let [less] = masses(&said)[..] else { panic!("{said}") };
    assert_eq!(less, -as_it_is.spare, "what it is too heavy by");
    assert!(cheapest.verdict_after <= Verdict::Conditional);
    let mut without = planned.clone();
    without.options.least_landing_fuel = None;
    let without = self::found(&without).cheapest.expect("found");
    let said = without.actions[0].show(UnitSystem::Metric);
    assert!(without.actions.len() == 1 && is_lighter(&said), "{said}");
    let [landing] = masses(&said)[..] else { panic!("{said}") };
    let lighter = assess(&at_masses(planned, landing, tonnes(40.4))).answer.verdict;
    assert_eq!(without.verdict_after, lighter, "{said}");
    let remedy = |one: &&Remedy| is_lighter(&one.action.show(UnitSystem::Metric));
    let remedy = assessed.remedies.iter().find(remedy).expect("advised");
    assert_eq!((remedy.action.show(UnitSystem::Metric), remedy.verdict_after), (said, lighter));
}

/// A plan so heavy that its ride fails too: less mass alone mends that as well, and no
/// work on the strip is listed beside it.
#[test]
fn less_mass_mends_the_ride_as_well() {
    let planned = at_masses(flight(&[]), tonnes(48.0), tonnes(52.0));
    let assessed = assess(&planned);
    let found = found(&planned);
    assert!(found.failing.contains(&"R70"), "{:?}", found.failing);
    let shortest = found.shortest.expect("found");
    let said = shortest.actions[0].show(UnitSystem::Metric);
    assert!(shortest.actions.len() == 1 && is_lighter(&said), "{:?}", shortest.actions);
    let [landing, take_off] = masses(&said)[..] else { panic!("{said}") };
    let then = assess(&at_masses(planned, landing, take_off)).answer.verdict;
    assert_eq!(shortest.verdict_after, then);
    let remedy = |one: &&Remedy| is_lighter(&one.action.show(UnitSystem::Metric));
    let remedy = assessed.remedies.iter().find(remedy).expect("advised");
    assert_eq!((remedy.verdict_after, &remedy.mends), (then, &shortest.mends));
}

/// What the assessment advises by itself is what the search of all changes finds: the
/// same gravel with the same gain of each movement, enough for the next limit.
#[test]
fn the_advice_of_the_assessment_is_that_of_the_search() {
    let landing_alone = Flight { take_off: None, ..flight(&[]) };
    for planned in [flight(&[]), landing_alone, rides_badly()] {
        let assessed = assess(&planned);
        let found = found(&planned);
        let is_gravel = |said: &str| said.starts_with("lay and compact");
        let advised = |one: &&Remedy| is_gravel(&one.action.show(UnitSystem::Metric));
        let advised = assessed.remedies.iter().find(advised).expect("advised");
        let said = advised.action.show(UnitSystem::Metric);
        let single = |one: &&WayOut| one.actions[0].show(UnitSystem::Metric) == said;
        let single = found.singles.iter().find(single).unwrap_or_else(|| panic!("{said}"));
        assert_eq!(advised.verdict_after, single.verdict_after);
        assert_eq!((&advised.mends, &advised.left), (&single.mends, &single.left));
        let effect = advised.effect.show(UnitSystem::Metric);
        let mut next = false;
        for (name, answer, after) in [
            ("landing", &assessed.landing_mass, single.landing_mass),
            ("take-off", &assessed.take_off_mass, single.take_off_mass),
        ] {
            let Some(answer) = answer else { continue };
            let gain = after.expect("found") - answer.largest.expect("found");
            let part = effect.split(" and ").find(|part| part.contains(name)).expect("told");
            assert_eq!(masses(part), [gain], "{effect}");
            let ground = ["G20", "G28"];
            let other = answer.limits.iter().find(|limit| !ground.contains(&limit.code));
            next |= other.and_then(|limit| limit.mass) == after;
        }
        let rides = assessed.answer.verdict < Verdict::Fail;
        assert!(next || !rides, "not enough gravel for the next limit: {said}, {effect}");
        let row = found.trade.iter().filter_map(|row| row.repair.as_ref());
        assert!(row.clone().any(|row| row.show(UnitSystem::Metric) == said), "{said}");
    }
}

/// A change of the tyres names the pressure that the assessment then sets.
#[test]
fn a_change_of_the_tyres_names_the_pressure() {
    let mut stated = flight_beside("examples/04-dirt-strip-turboprop", &[], &[]);
    assert!(stated.main_tyre_pressure.is_some());
    let is_main = |one: &&WayOut| {
        one.actions[0].show(UnitSystem::Metric).starts_with("set the main tyres as")
    };
    let found = found(&stated);
    let said = found.singles.iter().find(is_main).expect("it raises the masses");
    let said = said.actions[0].show(UnitSystem::Metric).replace('\u{a0}', " ");
    stated.main_tyre_pressure = None;
    let set = assess(&stated).tyre.set.expect("chosen").si() / 1e3;
    assert!(said.contains(&format!("{set:.0} kPa")), "{said}: {set}");
}

/// What still fails is told apart from what is mended.
#[test]
fn what_still_fails_after_a_remedy_is_told_as_such() {
    let assessed = assess(&at_masses(flight(&[]), tonnes(48.0), tonnes(52.0)));
    let is_gravel = |one: &&Remedy| one.action.show(UnitSystem::Metric).contains("gravel");
    let remedy = assessed.remedies.iter().find(is_gravel).expect("advised");
    assert_eq!(remedy.verdict_after, Verdict::Fail);
    assert!(remedy.mends.contains(&"G20") && remedy.left.contains(&"F10"), "{remedy:?}");
    assert!(remedy.left.iter().all(|code| !remedy.mends.contains(code)), "{remedy:?}");
    let report = Report::new(&assessed, UnitSystem::Metric, Produced::default());
    let text = text(&report, TextStyle { width: 300, colour: false });
    let (mends, left) = (remedy.mends.join(", "), remedy.left.join(", "));
    let told = format!("; mends {mends}; still fails {left}.");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains(&told), "{told} is not in\n{text}");
}
