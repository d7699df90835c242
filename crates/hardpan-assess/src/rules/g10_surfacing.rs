//! G10: thickness of the gravel surfacing that is really there.

use crate::context::Context;
use crate::draft::{Draft, computed, given, need, plain_step};
use crate::ground::surfacing::Thinnest;
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, SurfaceKind, Tier};
use hardpan_quantity::{Amount, inches};

pub(super) const RULE: Rule = Rule {
    code: "G10",
    name: "Surfacing thickness",
    checks: "The thinnest surfacing that the soundings show: depth to the first clearly weaker \
             layer.",
    why: "A thin skin of gravel breaks through at once where the ground below is soft, and lets \
          stones loose.",
    limit: "6 in. An approved `surfacing thickness` limit is judged by L10.",
    applies: "Gravel strips.",
    source: Source::new("", "surfacing at least 6 in thick", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let strip = &context.flight.strip;
    let draft = Draft::new(&RULE, "surfacing thickness", Phase::Always).at_least(inches(6.0));
    match &strip.surface {
        Some(surface) if surface.value != SurfaceKind::Gravel => return Vec::new(),
        None => {
            return vec![draft.unproven(
                "the surface of the strip is not stated",
                [need("strip: surface", "gravel, dirt or grass")],
            )];
        }
        Some(_) => {}
    }
    let found = context.measured.thinnest_surfacing(context.flight);
    let found = found.and_then(|found| Some((strip.soundings.get(found.sounding)?, found)));
    let Some((sounding, Thinnest { thickness, bottomed, .. })) = found else {
        return vec![draft.unproven(
            "no sounding shows the surfacing",
            [need("strip: soundings", "cone penetrometer tests through the surfacing")],
        )];
    };
    let at = Amount::from(sounding.station.value).told();
    let name = format!("thickness of the surfacing by the sounding at {at}");
    let mut inputs = vec![computed(&name, thickness, "surfacing by the soundings")];
    if let Some(built) = &strip.surfacing_thickness {
        inputs.push(given("thickness as built", built));
    }
    let draft = draft
        .value(thickness)
        .place(sounding.station.value, sounding.station.value, None)
        .step(plain_step(
            "thinnest surfacing",
            "the least of all soundings: depth to the first layer that the cone enters 1.5 times as fast as \
             all above",
            Source::new("", "bottom of the surfacing in a blow record", Tier::Judgement),
            inputs,
            thickness,
        ));
    let finding = if bottomed || thickness >= inches(6.0) {
        draft.judged("thick enough at every sounding", "thinner than 6 in at a sounding")
    } else {
        draft.unproven(
            "a sounding ends inside the surfacing",
            [need("strip: soundings", "deeper tests, through the surfacing")],
        )
    };
    vec![finding]
}
