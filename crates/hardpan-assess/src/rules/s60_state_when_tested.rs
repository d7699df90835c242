//! S60: the ground is no weaker today than when it was tested.

use crate::context::Context;
use crate::draft::{Draft, given, given_as, need, plain_step};
use crate::ground::season::{frost_by_day, frost_on, stated_in};
use crate::ground::strength_finding::test_input;
use crate::rule::Rule;
use hardpan_ground::{FrostState, Standing, counted};
use hardpan_model::{
    BasisInput, Finding, Flight, Given, MonthDay, Phase, Source, StrengthFigure, StrengthTest,
    SurfaceState, Tier,
};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, UnitSystem, metres};
use jiff::civil::Date;

pub(super) const RULE: Rule = Rule {
    code: "S60",
    name: "State of the ground when tested",
    checks: "The state of the surface on the day against its state while the soundings and the \
             counted strength tests were made; the water in the ground then and now, where it \
             is stated; and, as advice, the strength tests that do not \
             count, with the reason.",
    why: "Dry or frozen ground is stronger than the same ground wet or thawing: a sounding of the \
          one says nothing of the other.",
    limit: "Tested thawing, wet, dry or frozen, in this order of strength, no stronger than on \
            the day, unless the strip states the share of its strength in the state of the day: \
            S65 then judges it. Ground tested frozen counts on a day with as much frost, by the \
            temperatures of the year (`[frost]`); ground tested otherwise counts as it was \
            sounded when it is frozen. Not stated is not known.",
    applies: "Strips with soundings or strength tests.",
    source: Source::new("", "ground is tested in the state it is used in", Tier::CommonPractice),
    judge,
};

/// What the strip states of its frost, as inputs.
fn frost_inputs(flight: &Flight) -> Vec<BasisInput> {
    let Some(frost) = &flight.strip.frost else { return Vec::new() };
    let factors = [
        ("surface over air index, freezing", &frost.freezing_factor),
        ("surface over air index, thawing", &frost.thawing_factor),
    ];
    let factors = factors.map(|(name, one)| given_as(name, one, Amount::coefficient(one.value)));
    factors.into_iter().chain([given("water content", &frost.water_content)]).collect()
}

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let strip = &context.flight.strip;
    if strip.soundings.is_empty() && strip.strength_tests.is_empty() {
        return Vec::new();
    }
    let mut findings = vec![state(context)];
    findings.extend(water(context));
    findings.extend(set_aside(context));
    findings
}

/// The water in the ground on the day against that in the driest ground tested;
/// nothing where nobody states either.
fn water(context: &Context<'_>) -> Option<Finding> {
    let strip = &context.flight.strip;
    let soundings = strip.soundings.iter().map(|sounding| sounding.moisture.as_ref());
    let tests = strip.strength_tests.iter().filter(|test| counted(test).is_ok());
    let stated: Vec<Option<&Given<Ratio>>> =
        soundings.chain(tests.map(|test| test.moisture.as_ref())).collect();
    let today = context.flight.day.ground_moisture.as_ref();
    if today.is_none() && strip.soundings.iter().all(|sounding| sounding.moisture.is_none()) {
        return None;
    }
    let draft = Draft::new(&RULE, "water in the ground when tested", Phase::Always);
    let Some(today) = today else {
        let how = "water over dry mass of the ground under the surfacing, on the day";
        return Some(draft.advice().unproven(
            "how wet the ground is on the day is not stated",
            [need("day: ground_moisture", how)],
        ));
    };
    let driest = stated.iter().flatten().min_by(|a, b| a.value.si().total_cmp(&b.value.si()));
    let draft = draft.value(today.value);
    let Some(driest) = driest.filter(|_| stated.iter().all(Option::is_some)) else {
        return Some(draft.unproven(
            "how wet the ground was is not stated for every sounding and counted strength test",
            [need("strip: soundings, column moisture_percent", "of the ground when tested")],
        ));
    };
    let draft = draft.at_most(driest.value).step(plain_step(
        "water in the ground",
        "on the day ≤ in the driest ground tested",
        RULE.source,
        vec![given("on the day", today), given("driest tested", driest)],
        today.value,
    ));
    if today.value <= driest.value {
        return Some(draft.pass("no wetter than the driest ground tested"));
    }
    Some(draft.unproven(
        "the ground is wetter than some of it was when tested: it may be weaker",
        [need("strip: soundings", "tests of the ground as wet as it is now")],
    ))
}

/// Order of strength of one ground in its states.
const fn rank(state: SurfaceState) -> u8 {
    match state {
        SurfaceState::Thawing => 0,
        SurfaceState::Wet => 1,
        SurfaceState::Dry => 2,
        SurfaceState::Frozen => 3,
    }
}

fn state(context: &Context<'_>) -> Finding {
    let strip = &context.flight.strip;
    let draft = Draft::new(&RULE, "state of the ground when tested", Phase::Always);
    let Some(today) = &context.flight.day.surface_state else {
        return draft.unproven(
            "the state of the surface on the day is not stated",
            [need("day: surface_state", "dry, wet, frozen or thawing, as found on the day")],
        );
    };
    let tests = strip.strength_tests.iter().filter(|test| counted(test).is_ok());
    let soundings = (!strip.soundings.is_empty()).then_some(&strip.soundings_state);
    let states: Vec<&Option<Given<SurfaceState>>> =
        soundings.into_iter().chain(tests.map(|test| &test.state)).collect();
    if states.iter().any(|state| state.is_none()) {
        let rows = [
            (soundings.is_some_and(Option::is_none), "strip: soundings_info.state"),
            (
                states.iter().skip(usize::from(soundings.is_some())).any(|state| state.is_none()),
                "strip: strength_tests, column state",
            ),
        ];
        let needs = rows.iter().filter(|row| row.0);
        return draft.unproven(
            "nobody says in which state the ground was tested",
            needs.map(|row| need(row.1, "dry, wet, frozen or thawing, as it was then")),
        );
    }
    let strongest = states.into_iter().flatten().max_by_key(|state| rank(state.value));
    let Some(tested) = strongest else {
        return draft.unproven(
            "no sounding and no strength test counts",
            [need("strip: soundings", "cone penetrometer tests along the wheel lanes, as CSV")],
        );
    };
    let shown = |state: SurfaceState| Amount::count(f64::from(rank(state)));
    let draft = draft.step(plain_step(
        "order of strength",
        "thawing 0, wet 1, dry 2, frozen 3: as tested ≤ on the day",
        RULE.source,
        vec![
            given_as("strongest state tested", tested, shown(tested.value)),
            given_as("state on the day", today, shown(today.value)),
        ],
        shown(tested.value),
    ));
    let (then, now) = (tested.value.word(), today.value.word());
    match (tested.value, today.value) {
        (SurfaceState::Frozen, SurfaceState::Frozen) => return frozen_then_and_now(context, draft),
        (_, SurfaceState::Frozen) => {
            return draft.pass(format!(
                "tested {then}, {now} on the day: it counts as sounded, since no source says what \
                 frost adds"
            ));
        }
        (tested, today) if rank(tested) <= rank(today) => {
            return draft.pass(format!("tested {then}, {now} on the day"));
        }
        _ => {}
    }
    let date = context.flight.day.date.as_ref().map(|date| MonthDay::from(date.value));
    if let Some(strength) = date.and_then(|day| stated_in(context.flight, day, today.value)) {
        let share = Amount::from(Ratio::from_si(strength.share)).told();
        return draft.pass(format!(
            "tested {then}, {now} on the day: S65 judges it at {share} of the strength sounded, as \
             the strip states"
        ));
    }
    let tests = need("strip: soundings", &format!("tests of the ground while it is {now}"));
    let share = match today.value {
        SurfaceState::Wet => Some("strip: [[season]] wet_strength"),
        SurfaceState::Thawing => Some("strip: frost.thaw_strength"),
        SurfaceState::Dry | SurfaceState::Frozen => None,
    };
    let share = share.map(|key| need(key, "or its share of the strength sounded, from a report"));
    draft.unproven(
        format!("the ground was tested {then} and is {now}: it may be weaker than it was found"),
        [tests].into_iter().chain(share),
    )
}

/// Ground that was tested frozen, on a frozen day: as strong as it was found only
/// if the frost goes as deep as it did then.
fn frozen_then_and_now(context: &Context<'_>, draft: Draft) -> Finding {
    let how = "tests of the ground as it is now, or while it is not frozen";
    let afresh = || need("strip: soundings", how);
    let flight = context.flight;
    let Some(year) = frost_by_day(flight) else {
        let because = "tested frozen, frozen on the day: how deep the frost went then and goes now \
                       is not known, and under it the ground may be weaker than it was found";
        return draft.unproven(because, [afresh(), need("strip: [frost]", "its depth by the day")]);
    };
    let year = match year {
        Ok(year) => year,
        Err(why) => return draft.unavailable(&why),
    };
    let depth = |date: &Option<Given<Date>>| match frost_on(&year, date.as_ref()?.value.into())? {
        FrostState::Frozen(depth) | FrostState::Thawing(_, depth) => Some(depth),
        FrostState::Thawed => None,
    };
    let today = match flight.day.date.as_ref().map(|date| frost_on(&year, date.value.into())) {
        Some(Some(FrostState::Frozen(depth))) => depth,
        Some(_) => metres(0.0),
        None => return draft.unproven("the day is not stated", [need("day: date", "of the day")]),
    };
    let strip = &flight.strip;
    let is_frozen = |state: &Option<Given<SurfaceState>>| {
        state.as_ref().is_some_and(|state| state.value == SurfaceState::Frozen)
    };
    let soundings = strip.soundings.iter().filter(|_| is_frozen(&strip.soundings_state));
    let tests = strip.strength_tests.iter();
    let tests = tests.filter(|test| counted(test).is_ok() && is_frozen(&test.state));
    let dates = soundings.map(|one| &one.date).chain(tests.map(|test| &test.date));
    let depths: Option<Vec<Length>> = dates.map(depth).collect();
    let Some(deepest) = depths.and_then(|depths| depths.into_iter().reduce(Length::max)) else {
        let because = "tested frozen, but the date of a test is not stated or lies in no frost by \
                       the temperatures of the year: how deep it went then is not known";
        return draft.unproven(because, [need("strip: soundings, column date", how)]);
    };
    let (then, now) = (Amount::from(deepest).told(), Amount::from(today).told());
    let draft = draft.step(plain_step(
        "frost of the day",
        "by the temperatures of the year: on the day ≥ deepest when tested",
        RULE.source,
        [
            crate::draft::beside(
                "deepest when tested",
                deepest,
                "by the year's temperatures, dates of the tests",
            ),
            crate::draft::beside(
                "on the day",
                today,
                "by the year's temperatures, on the date of the day",
            ),
        ]
        .into_iter()
        .chain(frost_inputs(flight))
        .collect(),
        today,
    ));
    if today >= deepest {
        return draft.pass(format!("tested with {then} of frost, {now} on the day"));
    }
    let because = format!(
        "the ground was tested with {then} of frost and has {now} on the day: what has thawed may \
         be weaker than it was found"
    );
    draft.unproven(because, [afresh()])
}

/// The tests that do not count, if there are any.
fn set_aside(context: &Context<'_>) -> Option<Finding> {
    let tests = &context.flight.strip.strength_tests;
    let aside: Vec<(&StrengthTest, String)> =
        tests.iter().filter_map(|test| Some((test, reason(context, test)?))).collect();
    let (first, _) = aside.first()?;
    let stations = aside.iter().map(|(test, _)| test.station.value);
    let last = stations.clone().fold(first.station.value, |a, b| if b > a { b } else { a });
    let least = stations.fold(first.station.value, |a, b| if b < a { b } else { a });
    let count = Amount::count(aside.len() as f64);
    let mut reasons: Vec<&String> = aside.iter().map(|(_, why)| why).collect();
    reasons.sort();
    reasons.dedup();
    let mut draft = Draft::new(&RULE, "strength tests that do not count", Phase::Always)
        .advice()
        .value(count)
        .place(least, last, None)
        .step(plain_step(
            "strength tests that do not count",
            "tests with a reason against them",
            RULE.source,
            aside.iter().map(|(test, _)| test_input(test)).collect(),
            count,
        ));
    let wettest = aside.iter().filter_map(|(test, _)| test.moisture.as_ref()).map(|one| one.value);
    if let Some(wettest) = wettest.reduce(|a, b| if b > a { b } else { a }) {
        let shown = Amount::from(wettest).show(UnitSystem::Metric);
        draft = draft.caveat(format!("the wettest of them was tested at {shown} of water"));
    }
    let reasons: Vec<&str> = reasons.into_iter().map(String::as_str).collect();
    Some(draft.pass(reasons.join("; ")))
}

/// Why a test is set aside; a stiffness too, where soundings reach.
fn reason(context: &Context<'_>, test: &StrengthTest) -> Option<String> {
    let word = test.kind.value.word();
    match counted(test) {
        Err(why) => Some(format!("{word}: {}{}", why.why(), beside(context, test))),
        Ok((Standing::InPlace, _)) => None,
        Ok((Standing::Stiffness, _)) => within_reach(context, test).then(|| {
            format!("{word}: soundings or field tests reach there, and they are the better measure")
        }),
    }
}

/// Whether strength was measured in place within reach of a test.
fn within_reach(context: &Context<'_>, test: &StrengthTest) -> bool {
    let strip = &context.flight.strip;
    let reach = context.measured.sounding_reach.si();
    let near = |station: f64, offset: f64| {
        (station - test.station.value.si()).hypot(offset - test.offset.si()) <= reach
    };
    let field = strip
        .strength_tests
        .iter()
        .filter(|one| matches!(counted(one), Ok((Standing::InPlace, _))))
        .any(|one| near(one.station.value.si(), one.offset.si()));
    field || strip.soundings.iter().any(|one| near(one.station.value.si(), one.offset.si()))
}

/// For a specimen, the lower bearing ratio that it would give.
fn beside(context: &Context<'_>, test: &StrengthTest) -> String {
    let StrengthFigure::BearingRatio(specimen) = test.figure.value else {
        return String::new();
    };
    let Ok(ground) = &context.measured.ground else { return String::new() };
    let station = test.station.value.si();
    let layers = ground.lanes.iter().flat_map(|lane| &lane.points);
    let close = layers.filter(|point| (point.station.si() - station).abs() <= 2.5);
    let at_depth = close.filter_map(|point| {
        let above = point.layers.iter().rev().find(|(top, _)| *top <= test.top);
        above.map(|(_, bearing)| bearing.percent())
    });
    let least = at_depth.fold(f64::INFINITY, f64::min);
    if specimen.percent() < least && least.is_finite() {
        format!(
            "; it is weaker ({}) than what was found in place there ({}): sound there again",
            Amount::from(specimen).show(UnitSystem::Metric),
            Amount::from(hardpan_quantity::bearing_percent(least)).show(UnitSystem::Metric),
        )
    } else {
        String::new()
    }
}
