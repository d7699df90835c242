//! F37: the swing after an engine failure against the room beside the wheels.

use crate::context::Context;
use crate::draft::{Draft, computed, constant, given, need, plain_step, wheel_distance};
use crate::rule::Rule;
use hardpan_model::{BasisInput, Finding, Mark, Need, Obstacle, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity, metres};

pub(super) const RULE: Rule = Rule {
    code: "F37",
    name: "Room to swing",
    checks: "That the outer main wheels stay on the running surface, and the wing tips off what \
             stands beside it, when the aeroplane swings off the centre line as far as its \
             minimum control speed on the ground allows.",
    why: "The published speed lets the aeroplane swing by 30 ft before it is held. A paved runway \
          has that room; a narrow strip may not.",
    limit: "30 ft, or the swing that the maker states at the lowest decision speed used. Where the \
            room is less than 30 ft and no swing is stated it is not known whether the wheels stay \
            on.",
    applies: "Take-offs under a rule that accounts for an engine failure. The swing is taken to \
              either side from the centre line; soft ground or wind may make it greater, F35. Every \
              obstacle beside the strip counts, however low.",
    source: Source::new("CFR-25-149", "(e), 30 ft at any point", Tier::Published),
    judge,
};

/// Greatest swing under the rule.
const THIRTY_FEET_M: f64 = 30.0 * 0.3048;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(Ok(run)) = &context.measured.take_off else { return Vec::new() };
    if run.decision.is_none() || run.speeds.control.is_none() {
        return Vec::new();
    }
    std::iter::once(wheels(context)).chain(tips(context)).collect()
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::TakeOff).mark(Mark::PlanningOnly)
}

fn wheels(context: &Context<'_>) -> Finding {
    let (gear, strip) = (&context.flight.aeroplane.gear, &context.flight.strip);
    let draft = draft("room beside the outer wheels");
    let is_single = gear.main.wheels.as_ref().is_some_and(|wheels| wheels.value == 1);
    let apart = gear.main.spacing.as_ref().filter(|_| !is_single);
    let beside = if is_single { Some(metres(0.0)) } else { apart.map(|spacing| spacing.value) };
    let (Some(width), Some(track), Some(beside), Some(tyre)) =
        (&strip.width, &gear.track, beside, &gear.main.tyre.width)
    else {
        let how = "how far the outer wheels are from the edge follows from it";
        let keys = [
            ("strip: width", strip.width.is_none()),
            ("aeroplane: gear.track", gear.track.is_none()),
            ("aeroplane: gear.main.spacing", beside.is_none()),
            ("aeroplane: gear.main.tyre.width", gear.main.tyre.width.is_none()),
        ];
        let needs = keys.into_iter().filter(|(_, missing)| *missing);
        let needs: Vec<Need> = needs.map(|(key, _)| need(key, how)).collect();
        return draft.unproven("where the outer wheels roll is not all stated", needs);
    };
    let room = 0.5 * (width.value - track.value - beside - tyre.value);
    let inputs = vec![
        given("width of the strip", width).under("width"),
        given("track", track).under("track"),
        wheel_distance("wheels apart", apart).under("wheels apart"),
        given("tyre width", tyre).under("tyre width"),
    ];
    let expression = "(width − track − wheels apart − tyre width) / 2";
    let draft = draft.value(room).step(plain_step(
        "from the outer wheels to the edge",
        expression,
        RULE.source,
        inputs,
        room,
    ));
    judged(context, draft, room, "the outer wheels", "stay on the running surface")
}

/// The nearest obstacle beside the strip.
fn tips(context: &Context<'_>) -> Option<Finding> {
    let strip = &context.flight.strip;
    let (length, span) =
        (strip.length.as_ref()?.value, context.flight.aeroplane.wing.span.as_ref()?);
    let beside = |one: &&Obstacle| (metres(0.0)..=length).contains(&one.station.value);
    let off = |one: &Obstacle| one.offset.value.si().abs();
    let obstacles = strip.obstacles.as_ref()?.iter().filter(beside);
    let nearest = obstacles.min_by(|a, b| off(a).total_cmp(&off(b)))?;
    let room = Length::from_si(off(nearest)) - 0.5 * span.value;
    let station = nearest.station.value;
    let offset = given("offset of the obstacle", &nearest.offset).under("offset");
    let inputs = vec![offset, given("span", span).under("span")];
    let draft = draft("room beside the wing tips").value(room).place(station, station, None).step(
        plain_step("from wing tip to obstacle", "|offset| − span / 2", RULE.source, inputs, room),
    );
    Some(judged(
        context,
        draft,
        room,
        "the wing tips",
        "stay clear of what stands beside the strip",
    ))
}

fn judged(context: &Context<'_>, draft: Draft, room: Length, what: &str, well: &str) -> Finding {
    let stated = context.flight.aeroplane.speeds.control_swing.as_ref();
    let most = stated.map_or(metres(THIRTY_FEET_M), |swing| swing.value);
    let swing: BasisInput = match stated {
        Some(swing) => given("swing stated", swing),
        None => constant("swing under the rule", most, RULE.source),
    };
    let draft = draft.at_least(most).step(plain_step(
        "swing from the centre line",
        "as stated by the maker, or the most that the rule allows",
        RULE.source,
        vec![swing, computed("room", room, "step above")],
        most,
    ));
    if room >= most {
        return draft.pass(format!("{what} {well} in a swing of {}", Amount::from(most).told()));
    }
    match stated {
        Some(_) => draft.fail(format!("{what} do not {well} in the swing that is stated")),
        None => draft.unproven(
            format!("the rule allows a swing in which {what} do not {well}"),
            [need(
                "aeroplane: speeds.control_swing",
                "from the maker: greatest swing after an engine failure at the lowest decision \
                 speed used",
            )],
        ),
    }
}
