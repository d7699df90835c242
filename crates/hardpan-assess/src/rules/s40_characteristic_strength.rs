//! S40: one bearing ratio for the whole strip, by published practices, and one
//! for each section of like ground.

use crate::context::Context;
use crate::draft::{Draft, computed, given, need, plain_step};
use crate::measured::Unavailable;
use crate::rule::Rule;
use hardpan_ground::{
    LOWER_QUARTILE_SOURCE, MEAN_LESS_DEVIATION_SOURCE, SECTIONS_SOURCE, Section, Strata, Stratum,
    characteristic, percentile, sections,
};
use hardpan_model::{BasisInput, Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, BearingRatio, Length, Quantity, percent};

pub(super) const RULE: Rule = Rule {
    code: "S40",
    name: "Characteristic strength",
    checks: "The bearing ratio under the surfacing over all soundings: its lower quartile, its \
             mean less one standard deviation, and the percentile that the strip file states; \
             and for each section of like ground, parted by cumulative differences.",
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
    let draft = |what: &str| -> Draft {
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
                inputs.push(computed(&name, ratio, "soundings of the strip"));
                values.push(ratio);
            }
            Err(error) => {
                let why = Unavailable::from(error);
                return vec![quartile.unavailable(&why), less.unavailable(&why)];
            }
        }
    }
    let whole = match characteristic(&values) {
        Ok(whole) => whole,
        Err(error) => {
            let why = Unavailable::from(error);
            return vec![quartile.unavailable(&why), less.unavailable(&why)];
        }
    };
    let because = format!(
        "of {} soundings; the least is {}, the mean {}",
        whole.size,
        shown(whole.least),
        shown(whole.mean)
    );
    let step = |expression, source, inputs: Vec<BasisInput>, value: BearingRatio| {
        plain_step("bearing ratio that stands for the strip", expression, source, inputs, value)
    };
    let quartile = quartile
        .value(whole.lower_quartile)
        .step(step(
            "quantile at 25 % of the soundings, median-unbiased",
            LOWER_QUARTILE_SOURCE,
            inputs.clone(),
            whole.lower_quartile,
        ))
        .pass(because.clone());
    let less = match whole.mean_less_deviation {
        Some(value) => less
            .value(value)
            .step(step(
                "greater of mean of strength − standard deviation of strength and 0; the deviation with one \
                 fewer than there are",
                MEAN_LESS_DEVIATION_SOURCE,
                inputs.iter().cloned().map(|one| one.under("strength")).collect(),
                value,
            ))
            .pass(because),
        None => less.unproven(
            "one sounding has no deviation",
            [need("strip: soundings", "more of them along the wheel lanes")],
        ),
    };
    let stations: Vec<Length> = soundings.iter().map(|sounding| sounding.station.value).collect();
    let found = Found { values, stations, inputs };
    let percentile = percentile_of(context, &found, draft);
    let sections = by_section(context, &found, draft);
    [quartile, less].into_iter().chain(percentile).chain(sections).collect()
}

/// What stands under the surfacing, sounding by sounding.
struct Found {
    values: Vec<BearingRatio>,
    stations: Vec<Length>,
    inputs: Vec<BasisInput>,
}

/// The percentile that the strip states.
fn percentile_of(
    context: &Context<'_>,
    found: &Found,
    draft: impl Fn(&str) -> Draft,
) -> Option<Finding> {
    let share = context.flight.strip.sounding_rules.percentile.as_ref()?;
    let told = shown(share.value);
    let draft = draft(&format!("that {told} of the strengths lie below"));
    let value = match percentile(&found.values, share.value) {
        Ok(value) => value,
        Err(error) => return Some(draft.unavailable(&Unavailable::from(error))),
    };
    let inputs = [given("percentile", share)].into_iter().chain(found.inputs.iter().cloned());
    Some(
        draft
            .value(value)
            .step(plain_step(
                "bearing ratio that stands for the strip",
                "quantile of the soundings at the percentile stated, median-unbiased",
                Source::new("", "percentile as the strip file states it", Tier::CommonPractice),
                inputs.collect(),
                value,
            ))
            .pass(format!("of {} soundings, as the strip file asks", found.values.len())),
    )
}

/// Each section of like ground, where there is more than one.
fn by_section(context: &Context<'_>, found: &Found, draft: impl Fn(&str) -> Draft) -> Vec<Finding> {
    let last = found.stations.iter().copied().fold(Length::default(), Length::max);
    let length = context.flight.strip.length.as_ref().map_or(last, |length| length.value);
    let rows: Vec<(Length, BearingRatio)> =
        found.stations.iter().copied().zip(found.values.iter().copied()).collect();
    let parted = match sections(&rows, length) {
        Ok(parted) if parted.len() > 1 => parted,
        _ => return Vec::new(),
    };
    let stated = context.flight.strip.sounding_rules.percentile.as_ref();
    let share = stated.map_or(percent(25.0), |stated| stated.value);
    let number = parted.len();
    let tell = |(index, section): (usize, &Section)| {
        let values: Vec<BearingRatio> =
            section.members.iter().filter_map(|at| found.values.get(*at).copied()).collect();
        let inputs = section.members.iter().filter_map(|at| found.inputs.get(*at).cloned());
        let draft = draft(&format!("section {} of {number}", index + 1)).place(
            section.from,
            section.to,
            None,
        );
        let value = match percentile(&values, share) {
            Ok(value) => value,
            Err(error) => return draft.unavailable(&Unavailable::from(error)),
        };
        draft
            .value(value)
            .step(plain_step(
                "bearing ratio that stands for the section",
                "quantile of its soundings at 25 %, or at the percentile stated; sections where \
                 cumulative differences turn and means differ by more than chance (99 in 100)",
                SECTIONS_SOURCE,
                inputs.collect(),
                value,
            ))
            .pass(format!("{} of {} soundings lie in it", values.len(), found.values.len()))
    };
    parted.iter().enumerate().map(tell).collect()
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
