//! S35: a surface that it rains on is not dry.

use crate::context::Context;
use crate::draft::{Draft, given, given_as, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, SurfaceState, Tier};
use hardpan_quantity::{Amount, Quantity};

pub(super) const RULE: Rule = Rule {
    code: "S35",
    name: "Rain on a dry surface",
    checks: "Rain that falls, as stated for the movement or as the weather report has it, against \
             a surface that is stated dry.",
    why: "A wet surface brakes worse, and wet ground carries less: figures for the dry one say \
          nothing of the one that the wheels meet.",
    limit: "No surface counts as dry while it rains, snows or hails on it.",
    applies: "Days that state a dry surface and have something fall: by `rain_in_an_hour`, or by a \
              group of the weather report.",
    source: Source::new("", "what it rains on is wet", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let day = &context.flight.day;
    let state = day.surface_state.as_ref().filter(|state| state.value == SurfaceState::Dry);
    let rain = day.rain.as_ref().filter(|rain| rain.value.si() > 0.0);
    let group = day.precipitation.as_ref();
    let Some(state) = state else { return Vec::new() };
    let (told, value) = match (rain, group) {
        (Some(rain), _) => {
            let depth = Amount::from(rain.value);
            (format!("{} of rain falls in an hour", depth.told()), depth)
        }
        (None, Some(group)) => {
            (format!("the weather report has {}", group.value), Amount::count(1.0))
        }
        (None, None) => return Vec::new(),
    };
    let falls = rain.map(|rain| given("rain in an hour", rain)).into_iter();
    let reported = group.map(|one| given_as("group of the report", one, Amount::count(1.0)));
    let stated = given_as("dry, as stated", state, Amount::count(1.0));
    let step = plain_step(
        "what falls on the surface",
        "nothing, where it is dry",
        RULE.source,
        falls.chain(reported).chain([stated]).collect(),
        value,
    );
    let draft = Draft::new(&RULE, "rain on a surface that is stated dry", Phase::Always);
    let draft = if rain.is_some() { draft.value(value) } else { draft };
    vec![draft.step(step).unproven(
        format!("{told}, and the surface is stated dry: what it rains on is wet"),
        [
            need("day: surface_state", "\"wet\" while it rains, or as found after the rain"),
            need(
                "day: rain_in_an_hour, metar",
                "\"0 mm\" and a report without rain, once the surface was seen dry after it",
            ),
        ],
    )]
}
