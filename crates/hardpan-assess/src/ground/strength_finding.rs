//! The finding of ground strength under one kind of leg, with its basis.

use crate::by_formula::{by_formula, catalogued};
use crate::context::Context;
use crate::draft::{
    Draft, beside, computed, constant, given, given_as, plain_step, wheel_count, wheel_distance,
};
use crate::ground::leg_load::load_there;
use crate::ground::{Ground, LegKind, Worst, wheel_wander};
use crate::mend::{mends, weak_length};
use crate::rule::Rule;
use hardpan_ground::{
    DEVIATION_BESIDE_SOUNDING, DEVIATION_BETWEEN_SOUNDINGS, PointDemand, PointJudgement,
    RequirementTable, penetrometer,
};
use hardpan_model::{
    BasisInput, Finding, Flight, InputFrom, Mark, Phase, SoilClass, Source, Step, StrengthFigure,
    StrengthPoint, StrengthTest, Tier,
};
use hardpan_quantity::{Amount, BearingRatio, Dimension, Length, Quantity, percent};

/// The finding of one rule of ground strength.
pub(crate) fn strength_finding(rule: &Rule, context: &Context<'_>, kind: LegKind) -> Finding {
    let title = format!("ground under the {} wheels", kind.word());
    let draft =
        Draft::new(rule, title, Phase::Always).mark(Mark::PlanningOnly).at_most(percent(100.0));
    let measured = context.measured;
    let carried = match kind {
        LegKind::Main => &measured.main_carried,
        LegKind::Nose => &measured.nose_carried,
    };
    let (ground, (worst, table)) = match (&measured.ground, carried) {
        (Ok(ground), Ok(carried)) => (ground, carried),
        (Err(why), _) | (_, Err(why)) => return draft.unavailable(why),
    };
    let draft = table.caveats().into_iter().fold(draft, |draft, caveat| draft.caveat(caveat.text));
    let draft = draft
        .caveat("the blow of touchdown is not counted; touch down on proven ground")
        .steps(load_steps(context, kind, worst));
    match &worst.judgement {
        PointJudgement::Known(demand) => known(draft, context, ground, kind, worst, table, demand),
        PointJudgement::Unknown(unknown) => {
            let (from, to) =
                worst.stretches.first().copied().unwrap_or((unknown.station, unknown.station));
            draft.place(from, to, Some(worst.lane)).unproven(
                "part of the lane is not known deep or densely enough for this load",
                [unknown.need()],
            )
        }
    }
}

fn known(
    draft: Draft,
    context: &Context<'_>,
    ground: &Ground,
    kind: LegKind,
    worst: &Worst,
    table: &RequirementTable,
    demand: &PointDemand,
) -> Finding {
    let (from, to) = stretch(ground, worst, demand.station);
    let strength = ground
        .point(worst.lane, worst.index)
        .map(|point| strength_steps(context, point, demand))
        .unwrap_or_default();
    let first = strength.len();
    let utilisation = Step {
        computes: "strength used".to_owned(),
        formula: None,
        expression: "needed / credited".to_owned(),
        source: crate::draft::derived("a ratio of the two above"),
        inputs: vec![
            step_input("needed", demand.needed, first).under("needed"),
            step_input("credited", demand.credited, first.saturating_sub(1)).under("credited"),
        ],
        result: demand.utilisation.into(),
    };
    let needed = needed_step(context, kind, worst, table, demand);
    let coverages = coverages_step(context, ground, kind, table);
    let chain: Vec<Step> =
        strength.into_iter().chain([needed, utilisation]).chain(coverages).collect();
    let draft = draft.value(demand.utilisation).place(from, to, Some(worst.lane)).steps(chain);
    if demand.holds() {
        return draft.pass("the weakest layer uses this share of the strength credited to it");
    }
    let loads = context.measured.loads.as_ref().map_or(&[][..], |loads| loads.of(kind));
    draft.instruct(mends(ground, kind, table, loads, &worst.stretches)).fail(format!(
        "a layer of the ground is too weak for this load, pressure and number of passes; {}",
        weak_length(&worst.stretches)
    ))
}

/// The stretch around the worst point that does not hold with it; where all
/// hold, the one that rests on the same soundings.
pub(crate) fn stretch(ground: &Ground, worst: &Worst, station: Length) -> (Length, Length) {
    let holds_it = |(from, to): &(Length, Length)| (from.si()..=to.si()).contains(&station.si());
    let weak = worst.stretches.iter().copied().find(holds_it);
    weak.unwrap_or_else(|| alike(ground, worst))
}

fn step_input(name: &str, amount: impl Into<Amount>, step: usize) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Step(step))
}

/// The stretch around the worst point that rests on the same soundings.
fn alike(ground: &Ground, worst: &Worst) -> (Length, Length) {
    let points = ground.lanes.iter().find(|lane| lane.lane == worst.lane).map(|lane| &lane.points);
    let Some((points, here)) = points.and_then(|points| Some((points, points.get(worst.index)?)))
    else {
        return (Length::from_si(0.0), Length::from_si(0.0));
    };
    let same = |point: &&StrengthPoint| point.layers == here.layers;
    let before = points[..worst.index].iter().rev().take_while(same).last();
    let after = points[worst.index..].iter().take_while(same).last();
    (before.unwrap_or(here).station, after.unwrap_or(here).station)
}

/// How the load of the leg came about.
pub(crate) fn load_steps(context: &Context<'_>, kind: LegKind, worst: &Worst) -> Vec<Step> {
    vec![load_there(context, kind, &format!("load of the {} leg there", kind.word()), worst.load)]
}

/// What the flight and the aeroplane say of the load of a leg.
pub(crate) fn load_inputs(flight: &Flight) -> Vec<BasisInput> {
    let take_off = flight.take_off.as_ref();
    let landing = flight.landing.as_ref();
    let masses = [
        take_off.and_then(|plan| plan.mass.as_ref()).map(|mass| given("take-off mass", mass)),
        landing.and_then(|plan| plan.mass.as_ref()).map(|mass| given("landing mass", mass)),
    ];
    let centres = [
        take_off.and_then(|plan| plan.centre_of_gravity.as_ref()),
        landing.and_then(|plan| plan.centre_of_gravity.as_ref()),
    ];
    let centres = centres.into_iter().flatten().map(|at| given("centre of gravity", at));
    let (balance, gear) = (&flight.aeroplane.balance, &flight.aeroplane.gear);
    let aeroplane = [
        balance.main_gear_at.as_ref().map(|at| given("main gear on the chord", at)),
        balance.mean_chord.as_ref().map(|chord| given("mean chord", chord)),
        gear.wheelbase.as_ref().map(|base| given("wheelbase", base)),
    ];
    masses.into_iter().flatten().chain(centres).chain(aeroplane.into_iter().flatten()).collect()
}

/// How the strength of the governing layer came about.
pub(crate) fn strength_steps(
    context: &Context<'_>,
    point: &StrengthPoint,
    demand: &PointDemand,
) -> Vec<Step> {
    let strip = &context.flight.strip;
    let soundings = point.soundings.iter().filter_map(|index| strip.soundings.get(*index));
    let soundings = soundings.map(|sounding| {
        given_as("sounding", &sounding.station, Amount::from(sounding.station.value))
    });
    let tests = point.strength_tests.iter().filter_map(|index| strip.strength_tests.get(*index));
    let inputs = soundings.chain(tests.map(test_input));
    let of_all = |index: &usize| {
        let soil = strip.soundings.get(*index).and_then(|sounding| sounding.soil.as_ref());
        soil.is_some_and(|soil| soil.value == SoilClass::Other)
    };
    let law = if point.soundings.is_empty() {
        (TESTS_EXPRESSION, TESTS_SOURCE)
    } else if point.soundings.iter().all(of_all) {
        (penetrometer::CBR_WEBSTER_1992.expression, penetrometer::CBR_WEBSTER_1992.source)
    } else {
        (CLAYS_EXPRESSION, penetrometer::CBR_LEAN_CLAY_WEBSTER_1994.source)
    };
    let rule = match strip.sounding_rules.correlation_length {
        Some(_) => BETWEEN_EXPRESSION.to_owned(),
        None => format!("the least that is found there at that depth; {}", law.0),
    };
    let mean = plain_step(
        "bearing ratio of the governing layer",
        &rule,
        law.1,
        inputs.collect(),
        demand.available,
    );
    let divisor = Amount::coefficient(penetrometer::credit_divisor(demand.available));
    let laws = penetrometer::laws_apart(demand.available).filter(|_| !point.soundings.is_empty());
    let laws = laws.into_iter().flat_map(|laws| {
        let by = "of five, at the rate at which the law for all soils gives the mean";
        [("least of the laws", laws.least), ("greatest of the laws", laws.greatest)]
            .map(|(name, ratio)| beside(name, ratio, by))
    });
    let divided = [
        step_input("mean", demand.available, 0).under("mean"),
        constant("divisor", divisor, penetrometer::CREDIT_SOURCE).under("divisor"),
    ];
    let credited = Step {
        computes: "bearing ratio credited".to_owned(),
        formula: None,
        expression:
            "mean / divisor; on ground below CBR 3 the spread of the published laws divides"
                .to_owned(),
        source: penetrometer::CREDIT_SOURCE,
        inputs: divided.into_iter().chain(laws).collect(),
        result: demand.credited.into(),
    };
    between_step(context, point).into_iter().chain([mean, credited]).collect()
}

/// How far the ground there may lie from what the soundings beside it found,
/// where the strip states over which length it is alike.
fn between_step(context: &Context<'_>, point: &StrengthPoint) -> Option<Step> {
    let length = context.flight.strip.sounding_rules.correlation_length.as_ref()?;
    let alike = given("correlation_length", length);
    let away = |name: &str, distance: &Length| {
        beside(name, *distance, "from the stations and offsets of the soundings of the next step")
    };
    let (name, mut inputs) = match point.away.as_slice() {
        [behind, ahead] => {
            (DEVIATION_BETWEEN_SOUNDINGS.name, vec![away("behind", behind), away("ahead", ahead)])
        }
        [only] => (DEVIATION_BESIDE_SOUNDING.name, vec![away("distance", only)]),
        _ => return None,
    };
    inputs.push(alike);
    by_formula(name, inputs).ok()
}

const BETWEEN_EXPRESSION: &str = "the least of what the soundings used found at the depth, and of \
                                  their mean less the share above of the scatter of all soundings, \
                                  in logarithms";
const CLAYS_EXPRESSION: &str = "CBR = 292 / DCP^1.12; lean clay (CL) above 18.58 mm per blow 1 / (0.017019 \
                                DCP)^2; fat clay (CH) 1 / (0.002871 DCP); the lower of its own and \
                                the first in the surfacing, the lowest of all where nobody states \
                                the soil; DCP in mm per blow of the 8 kg hammer";
const TESTS_EXPRESSION: &str = "bearing ratio as measured in place, or half of that from stiffness; \
                                the least at each depth";
const TESTS_SOURCE: Source = Source::new("", "strength tests in place", Tier::CommonPractice);

/// A strength test as an input of a step.
pub(crate) fn test_input(test: &StrengthTest) -> BasisInput {
    let amount = match test.figure.value {
        StrengthFigure::BearingRatio(ratio) => ratio.into(),
        StrengthFigure::Modulus(modulus) => modulus.into(),
        StrengthFigure::Index(index) => Amount::coefficient(index),
    };
    given_as(test.kind.value.word(), &test.figure, amount)
}

/// How the coverages came about.
fn coverages_step(
    context: &Context<'_>,
    ground: &Ground,
    kind: LegKind,
    table: &RequirementTable,
) -> Option<Step> {
    let flight = context.flight;
    let (passes, width) = (flight.passes.as_ref()?, kind.leg(flight).tyre.width.as_ref()?);
    let (coverages, per_pass) = ground.coverages(kind);
    let of_one = Amount::coefficient(per_pass);
    Some(plain_step(
        "coverages that the passes make",
        "greater of passes × coverages of one pass and 10; at the busiest point under all tracks of \
         the leg, by normal wander",
        hardpan_ground::PASSES_PER_COVERAGE.source,
        vec![
            given_as("passes", passes, Amount::count(passes.value)).under("passes"),
            given("section width of a tyre", width),
            wander_input(flight),
            computed("coverages of one pass", of_one, "wander of the wheels")
                .under("coverages of one pass"),
        ],
        Amount::coefficient(coverages.max(table.coverages())),
    ))
}

/// How far wheels wander across their lane, as stated or as is published.
pub(crate) fn wander_input(flight: &Flight) -> BasisInput {
    let name = "standard deviation of wander";
    match &flight.strip.wheel_wander {
        Some(stated) => given(name, stated),
        None => constant(name, wheel_wander(flight), hardpan_ground::CHANNELISED_WANDER_SOURCE),
    }
}

/// How the strength needed came about.
pub(crate) fn needed_step(
    context: &Context<'_>,
    kind: LegKind,
    worst: &Worst,
    table: &RequirementTable,
    demand: &PointDemand,
) -> Step {
    let flight = context.flight;
    let leg = kind.leg(flight);
    let cover = demand.depth.max(Length::from_si(hardpan_ground::NOMINAL_COVER_M));
    let mut inputs = vec![
        computed("leg_load", worst.load, "load step above"),
        wheel_count(leg.wheels.as_ref()),
        wheel_distance("wheel_spacing", leg.spacing.as_ref()),
        wheel_distance("tandem_spacing", leg.tandem_spacing.as_ref()),
        computed("pressure", table.pressure(), "T10"),
        computed("cover", cover, "top of the governing layer, at least 150 mm"),
        computed("coverages", Amount::coefficient(table.coverages()), "wander of the wheels"),
    ];
    inputs.extend(single_wheel(&inputs));
    Step {
        computes: "bearing ratio needed".to_owned(),
        ..catalogued(&hardpan_ground::LEG_BEARING, inputs, demand.needed)
    }
}

/// The equivalent single wheel in the formula of a leg, from its arguments.
fn single_wheel(arguments: &[BasisInput]) -> Option<BasisInput> {
    let amounts: Vec<Amount> = arguments.iter().map(|input| input.amount).collect();
    let [leg_load, wheels, spacing, tandem, pressure, cover, _] = amounts.as_slice() else {
        return None;
    };
    let wheel = Amount::new(Dimension::Force, leg_load.si / wheels.si);
    let formula = &hardpan_ground::EQUIVALENT_SINGLE_WHEEL;
    let load = formula.value(&[wheel, *pressure, *wheels, *spacing, *tandem, *cover]).ok()?;
    let input = beside("equivalent single wheel", load, "equal deflection at that depth");
    Some(input.under("ESWL"))
}

/// The bearing ratio credited and needed at a point, for pictures.
pub(crate) fn credited_and_needed(
    judgement: &PointJudgement,
) -> (Option<BearingRatio>, Option<BearingRatio>, Option<f64>) {
    match judgement {
        PointJudgement::Known(demand) => {
            (Some(demand.credited), Some(demand.needed), Some(demand.utilisation.si()))
        }
        PointJudgement::Unknown(unknown) => {
            (None, unknown.so_far.map(|demand| demand.needed), None)
        }
    }
}
