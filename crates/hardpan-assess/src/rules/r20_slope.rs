//! R20: gradient of the centre line, beside the civil design limit.

use crate::context::Context;
use crate::draft::{Draft, plain_step};
use crate::rule::Rule;
use crate::shape::code::code_number;
use crate::shape::levels::level;
use hardpan_model::{Finding, Phase, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "R20",
    name: "Gradient",
    checks: "Highest less lowest level of the centre line over the length of the strip.",
    why: "Slope lengthens the take-off uphill and the stop downhill; the run is computed on the \
          real slopes, so this check only says how far the strip is from the civil norm.",
    limit: "2 % for code numbers 1 and 2, 1 % for 3 and 4; without `reference_code` the number is \
            taken from the length of the strip. An approved `runway slope` limit is judged by L10.",
    applies: "Advice; every flight with a survey.",
    source: Source::new("ICAO-ANNEX-14", "3.1.13", Tier::Secondary),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "gradient of the centre line", Phase::Always).advice();
    let strip = &context.flight.strip;
    let (Ok(slopes), Some(length), Some((code, by))) =
        (context.measured.centre_slopes(), &strip.length, code_number(strip))
    else {
        return vec![draft.unproven("there is no survey of the centre line", [])];
    };
    let gradient = slopes.gradient.effective;
    let limit = code.effective_gradient();
    vec![
        draft
            .value(gradient)
            .at_most(limit.value)
            .place(slopes.gradient.lowest.0, slopes.gradient.highest.0, None)
            .step(plain_step(
                "effective gradient",
                "(highest level − lowest level) / length",
                limit.source,
                vec![
                    level(context, "highest level", (slopes.gradient.highest.0, slopes.offset))
                        .under("highest level"),
                    level(context, "lowest level", (slopes.gradient.lowest.0, slopes.offset))
                        .under("lowest level"),
                    crate::draft::given("length", length).under("length"),
                    by,
                ],
                gradient,
            ))
            .judged("within the civil norm", "over the civil norm; the run counts the real slopes"),
    ]
}
