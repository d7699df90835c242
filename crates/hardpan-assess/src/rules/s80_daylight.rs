//! S80: the movements are made by daylight.

use crate::context::Context;
use crate::draft::{Draft, need};
use crate::movements::daylight::darker;
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, Tier};
use hardpan_quantity::Angle;
use hardpan_run::sunrise_elevation;

pub(super) const RULE: Rule = Rule {
    code: "S80",
    name: "Daylight",
    checks: "How high the sun stands at the time of the movement, and at the take-off after the \
             time on the ground.",
    why: "In the dark nobody sees ruts, water, stones or animals on the strip, nor its edges: what \
          was looked over by day says nothing of it.",
    limit: "The sun no lower than −0.833°: sunrise and sunset on a level horizon. Lights of a strip \
            and an approval for night are not judged: a movement in the dark is not shown to be \
            safe, as an hour that is dark does not work in the year of a flight.",
    applies: "Flights with a time on strips whose place is stated: latitude and longitude of a \
              threshold or of `[climate]`. Terrain, cloud, twilight and local rules are not in it.",
    source: Source::new("MEEUS-1998", "sunrise at −0.833°", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(light) = darker(context.flight) else { return Vec::new() };
    let draft = Draft::new(&RULE, "daylight", Phase::Always);
    let steps = match light.steps() {
        Ok(steps) => steps,
        Err(why) => return vec![draft.unavailable(&why)],
    };
    let sun: Angle = steps.last().and_then(|step| step.result.get()).unwrap_or_default();
    let draft = draft.value(sun).at_least(sunrise_elevation()).steps(steps);
    vec![if light.is_dark() {
        draft.unproven(
            "the sun is down: the lights of the strip and the operator's approval for night there \
             are needed, and neither is judged here",
            [need("day: time_utc", "a time between sunrise and sunset")],
        )
    } else {
        draft.pass("the sun is up")
    }]
}
