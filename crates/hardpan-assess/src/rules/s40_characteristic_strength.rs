//! S40: one bearing ratio for the whole strip, by two published practices.

use crate::context::Context;
use crate::draft::{Draft, given_as, need, plain_step};
use crate::measured::Unavailable;
use crate::rule::Rule;
use hardpan_ground::{
    LOWER_QUARTILE_SOURCE, MEAN_LESS_DEVIATION_SOURCE, Strata, Stratum, characteristic,
};
use hardpan_model::{BasisInput, Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, BearingRatio, Quantity};

pub(super) const RULE: Rule = Rule {
    code: "S40",
    name: "Characteristic strength",
    checks: "The bearing ratio under the surfacing over all soundings: its lower quartile, and \
             its mean less one standard deviation.",
    why: "Reports and strength numbers of a strip rest on one figure; it also tells how even the \
          ground is.",
    limit: "None: the ground is judged place by place, by G20 and G30.",
    applies: "Strips with soundings. Of each sounding the stratum right under the surfacing \
              counts; where no weaker stratum was met, its weakest. Means of the penetrometer \
              law, not credited.",
    source: Source::new("TC-BEARING", "bearing strength of a runway: lower quartile", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let soundings = &context.flight.strip.soundings;
    let draft = |what: &str| {
        Draft::new(&RULE, format!("strength under the surfacing, {what}"), Phase::Always)
            .advice()
            .mark(Mark::PlanningOnly)
    };
    let (quartile, less) = (draft("lower quartile"), draft("mean less one deviation"));
    if soundings.is_empty() {
        let needs =
            || [need("strip: soundings", "cone penetrometer tests along the wheel lanes, as CSV")];
        let because = "the strip has no soundings";
        return vec![quartile.unproven(because, needs()), less.unproven(because, needs())];
    }
    let (mut values, mut inputs) = (Vec::new(), Vec::new());
    for sounding in soundings {
        match Strata::of(sounding) {
            Ok(strata) => {
                let ratio = under_surfacing(&strata);
                let name = format!("at {}", shown(sounding.station.value));
                inputs.push(given_as(&name, &sounding.station, ratio.into()));
                values.push(ratio);
            }
            Err(error) => {
                let why = Unavailable::from(error);
                return vec![quartile.unavailable(&why), less.unavailable(&why)];
            }
        }
    }
    let found = match characteristic(&values) {
        Ok(found) => found,
        Err(error) => {
            let why = Unavailable::from(error);
            return vec![quartile.unavailable(&why), less.unavailable(&why)];
        }
    };
    let because = format!(
        "of {} soundings; the least is {}, the mean {}",
        found.size,
        shown(found.least),
        shown(found.mean)
    );
    let step = |expression, source, inputs: Vec<BasisInput>, value: BearingRatio| {
        plain_step("bearing ratio that stands for the strip", expression, source, inputs, value)
    };
    let quartile = quartile
        .value(found.lower_quartile)
        .step(step(
            "quantile at 25 % of the soundings, median-unbiased",
            LOWER_QUARTILE_SOURCE,
            inputs.clone(),
            found.lower_quartile,
        ))
        .pass(because.clone());
    let less = match found.mean_less_deviation {
        Some(value) => less
            .value(value)
            .step(step(
                "mean − standard deviation with n − 1, not below zero",
                MEAN_LESS_DEVIATION_SOURCE,
                inputs,
                value,
            ))
            .pass(because),
        None => less.unproven(
            "one sounding has no deviation",
            [need("strip: soundings", "more of them along the wheel lanes")],
        ),
    };
    vec![quartile, less]
}

fn under_surfacing(strata: &Strata) -> BearingRatio {
    let under = strata.surfacing.and_then(|bottom| {
        strata.strata.iter().find(|stratum| stratum.top >= bottom).map(|at| at.bearing_ratio)
    });
    let ratios = strata.strata.iter().map(|stratum: &Stratum| stratum.bearing_ratio);
    under
        .or_else(|| ratios.reduce(|least, next| if next < least { next } else { least }))
        .unwrap_or_else(|| BearingRatio::from_si(0.0))
}

fn shown(amount: impl Into<Amount>) -> String {
    amount.into().told()
}
