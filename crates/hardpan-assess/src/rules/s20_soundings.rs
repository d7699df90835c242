//! S20: the soundings are there, recent, and close enough together.

use super::s30_day_reports::judge_age;
use crate::context::Context;
use crate::draft::{Draft, constant, given, given_as, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{BasisInput, Finding, Given, Phase, Source, StrengthTest, Strip, Tier};
use hardpan_quantity::{Amount, Length, Quantity, metres};

pub(super) const RULE: Rule = Rule {
    code: "S20",
    name: "Soundings",
    checks: "Age of the oldest sounding or counted strength test, how many there are, and the \
             longest stretch of the strip without one.",
    why: "The soft place is where nobody sounded.",
    limit: "`survey_age` of the flight file. The fewest and the greatest spacing that the strip \
            file states; else five, and twice the reach of a sounding between neighbours: common \
            practice, no source.",
    applies: "Every flight.",
    source: Source::new("", "soundings close together and recent", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let strip = &context.flight.strip;
    if strip.soundings.is_empty() && counted_tests(strip).next().is_none() {
        return vec![Draft::new(&RULE, "soundings", Phase::Always).unproven(
            "the strip has no soundings",
            [need("strip: soundings", "cone penetrometer tests along the wheel lanes, as CSV")],
        )];
    }
    let soundings = strip.soundings.iter().map(|sounding| sounding.date.as_ref());
    let dates: Vec<_> =
        soundings.chain(counted_tests(strip).map(|test| test.date.as_ref())).collect();
    let undated = dates.iter().any(Option::is_none);
    let oldest = dates.into_iter().flatten().min_by_key(|date| date.value);
    let age = judge_age(
        Draft::new(&RULE, "age of the oldest sounding", Phase::Always),
        context,
        if undated { None } else { oldest },
        "strip: soundings, column date",
    );
    vec![age, number(context), spacing(context)]
}

/// Fewest soundings where the strip states none: fewer give no lower quartile.
const FEWEST: f64 = 5.0;

fn number(context: &Context<'_>) -> Finding {
    let strip = &context.flight.strip;
    let fewest = strip.sounding_rules.fewest.as_ref();
    let wanted = Amount::count(fewest.map_or(FEWEST, |fewest| f64::from(fewest.value)));
    let number = Amount::count((strip.soundings.len() + counted_tests(strip).count()) as f64);
    let limit = match fewest {
        Some(fewest) => given_as("fewest", fewest, wanted),
        None => constant("fewest", wanted, RULE.source),
    };
    let (soundings, tests) = (!strip.soundings.is_empty(), counted_tests(strip).next().is_some());
    let rule = match (soundings, tests) {
        (true, true) => "soundings + counted strength tests; at least the fewest",
        (true, false) => "soundings; at least the fewest",
        (false, true) => "counted strength tests; at least the fewest",
        (false, false) => "none; at least the fewest",
    };
    let draft = Draft::new(&RULE, "number of soundings", Phase::Always)
        .at_least(wanted)
        .value(number)
        .step(plain_step(
            "number of soundings",
            rule,
            RULE.source,
            all_soundings(strip).chain([limit]).collect(),
            number,
        ));
    if number.si >= wanted.si {
        return draft.pass("enough to show how the ground varies");
    }
    let more = Amount::count(wanted.si - number.si).told();
    draft.unproven(
        "too few soundings to show how the ground varies",
        [need(&format!("strip: soundings, {more} more"), "on the wheel lanes, spread along them")],
    )
}

fn counted_tests(strip: &Strip) -> impl Iterator<Item = &StrengthTest> {
    strip.strength_tests.iter().filter(|test| hardpan_ground::counted(test).is_ok())
}

/// How many soundings and counted strength tests there are, each from the first row of
/// its file on.
fn all_soundings(strip: &Strip) -> impl Iterator<Item = BasisInput> {
    let soundings = strip.soundings.first().map(|first| {
        let count = Amount::count(strip.soundings.len() as f64);
        given_as("soundings", &first.station, count).under("soundings")
    });
    let tests = counted_tests(strip).next().map(|first| {
        let count = Amount::count(counted_tests(strip).count() as f64);
        given_as("counted strength tests", &first.station, count).under("counted strength tests")
    });
    soundings.into_iter().chain(tests)
}

/// The place of a sounding or test, or an end of the strip.
fn station_input(strip: &Strip, at: Length, length: &Given<Length>) -> BasisInput {
    let soundings = strip.soundings.iter().map(|sounding| &sounding.station);
    let mut stations = soundings.chain(counted_tests(strip).map(|test| &test.station));
    match stations.find(|station| station.value == at) {
        Some(station) => given("station sounded", station),
        None if at == length.value => given("length of the strip", length),
        None => constant("low end of the strip", at, LOW_END),
    }
}

const LOW_END: Source = Source::new("", "stations count from the low end", Tier::Derived);

fn spacing(context: &Context<'_>) -> Finding {
    let strip = &context.flight.strip;
    let reach = context.measured.sounding_reach;
    let draft = Draft::new(&RULE, "longest stretch between soundings", Phase::Always);
    let Some(length) = &strip.length else {
        return draft.at_most(reach + reach).unproven(
            "the length of the strip is not stated",
            [need("strip: length", "of the running surface")],
        );
    };
    let stated = strip.sounding_rules.greatest_spacing.as_ref();
    let allowed = stated.map_or(reach + reach, |stated| stated.value.min(reach + reach));
    let soundings = strip.soundings.iter().map(|sounding| sounding.station.value);
    let stations = soundings.chain(counted_tests(strip).map(|test| test.station.value));
    let Some(widest) = widest(stations.collect(), length.value, (allowed, reach)) else {
        return draft.at_most(reach + reach).unproven("the strip has no soundings", []);
    };
    let Gap { from, to, allowed, at_an_end } = widest;
    let title = if at_an_end {
        "stretch between an end of the strip and its first sounding"
    } else {
        "longest stretch between soundings"
    };
    let gap = to - from;
    let draft = Draft::new(&RULE, title, Phase::Always)
        .at_most(allowed)
        .value(gap)
        .place(from, to, None)
        .step(plain_step(
            title,
            "far − near; between neighbours at most twice the reach and the greatest spacing stated, \
             to an end of the strip at most the reach",
            RULE.source,
            stated.map(|stated| given("greatest spacing", stated)).into_iter().chain([
                station_input(strip, from, length).under("near"),
                station_input(strip, to, length).under("far"),
                match &strip.sounding_reach {
                    Some(stated) => given("reach of a sounding", stated),
                    None => constant(
                        "reach of a sounding",
                        reach,
                        hardpan_ground::DEFAULT_REACH_SOURCE,
                    ),
                },
            ]).chain(all_soundings(strip).map(|one| BasisInput { symbol: None, ..one })).collect(),
            gap,
        ));
    if gap <= allowed {
        draft.pass("no stretch is out of reach of a sounding")
    } else {
        draft.unproven(
            match stated {
                Some(_) if gap <= reach + reach => {
                    "soundings lie further apart than the strip's own rule allows"
                }
                _ => "part of the strip is out of reach of any sounding",
            },
            [need(
                &format!(
                    "a sounding between {} and {}",
                    Amount::from(from).told(),
                    Amount::from(to).told()
                ),
                "on a wheel lane",
            )],
        )
    }
}

/// A stretch without a sounding, and how long it may be.
struct Gap {
    from: Length,
    to: Length,
    allowed: Length,
    at_an_end: bool,
}

/// The stretch that lies furthest beyond what is allowed between neighbours, or
/// to an end of the strip.
fn widest(
    mut stations: Vec<Length>,
    length: Length,
    (between_neighbours, to_an_end): (Length, Length),
) -> Option<Gap> {
    stations.sort_by(|a, b| a.si().total_cmp(&b.si()));
    let (first, last) = (*stations.first()?, *stations.last()?);
    let end = |from: Length, to: Length| Gap {
        from: from.max(metres(0.0)),
        to: to.min(length),
        allowed: to_an_end.min(between_neighbours),
        at_an_end: true,
    };
    let between = stations.windows(2).filter_map(|pair| {
        let [from, to] = *pair else { return None };
        Some(Gap { from, to, allowed: between_neighbours, at_an_end: false })
    });
    let beyond = |gap: &Gap| (gap.to - gap.from - gap.allowed).si();
    let all = [end(metres(0.0), first)].into_iter().chain(between).chain([end(last, length)]);
    all.reduce(|most, next| if beyond(&next) > beyond(&most) { next } else { most })
}
