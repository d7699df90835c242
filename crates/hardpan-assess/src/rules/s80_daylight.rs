//! S80: the movements are made by daylight.

use crate::context::Context;
use crate::draft::{Draft, given_as, need, plain_step};
use crate::movements::daylight::darker;
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, Tier};
use hardpan_quantity::{Amount, Angle};
use hardpan_run::sunrise_elevation;

pub(super) const RULE: Rule = Rule {
    code: "S80",
    name: "Daylight",
    checks: "How high the sun stands at the time of the movement, and at the take-off after the \
             time on the ground.",
    why: "In the dark nobody sees ruts, water, stones or animals on the strip, nor its edges: what \
          was looked over by day says nothing of it.",
    limit: "The sun no lower than −0.833°: sunrise and sunset on a level horizon. In the dark what \
            the strip file states of lights and approval (`night`) is a condition to be kept; \
            where it states nothing, the movement is not shown to be safe. An hour that is dark \
            does not work in the year of a flight in any case.",
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
    vec![match (&context.flight.strip.night, light.is_dark()) {
        (_, false) => draft.pass("the sun is up"),
        (Some(night), true) => {
            let lit = given_as("lights and approval, as stated", night, Amount::count(1.0));
            draft
                .step(plain_step(
                    "what is stated for the night",
                    "in force at the movement",
                    Source::new("", "strip file, as entered", Tier::Approved),
                    vec![lit],
                    Amount::count(1.0),
                ))
                .instruct(format!("in the dark, only with {}", night.value))
                .conditional("the sun is down: the crew sees that lights and approval are there")
        }
        (None, true) => draft.unproven(
            "the sun is down, and neither lights of the strip nor an approval for the night there \
             are stated",
            [
                need("day: time_utc", "a time between sunrise and sunset"),
                need("strip: night", "its lights, and the approval for movements in the dark"),
            ],
        ),
    }]
}
