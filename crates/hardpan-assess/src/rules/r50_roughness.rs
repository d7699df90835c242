//! R50: how rough the lines are as roads are measured.

use crate::context::Context;
use crate::draft::{Draft, beside, need, plain_step};
use crate::rule::Rule;
use crate::shape::levels::{ends, survey};
use crate::shape::survey_refusal::told;
use hardpan_model::{Finding, Need, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, metres, millimetres};
use hardpan_surface::{LineDetail, RoughnessIndex, Stretch};

pub(super) const RULE: Rule = Rule {
    code: "R50",
    name: "Roughness",
    checks: "The International Roughness Index of every line, overall and by 100 m, and the class \
             and exponent of its spectrum; the roughest line is shown.",
    why: "It tells the keeper how the surface wears from one survey to the next. It hardly hears \
          the waves of 30 m to 60 m that shake an aeroplane: R10 and R70 judge those.",
    limit: "None is published for unpaved strips. For comparison: maintained unpaved roads 3.5 to \
            10 m/km, rough ones 8 to 20 m/km.",
    applies: "Levels at least every 0.5 m, quiet enough that noise makes the index at most 5 % \
              high. Advice.",
    source: Source::new("WTP-46", "scale of the roughness index", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    vec![index(context), class(context)]
}

fn per_kilometre(index: Ratio) -> f64 {
    index.si() * 1e3
}

fn index(context: &Context<'_>) -> Finding {
    let draft = Draft::new(&RULE, "roughness index, m/km", Phase::Always).advice();
    let detail = match &context.measured.shape.detail {
        Ok(detail) => detail,
        Err(why) => return draft.unavailable(why),
    };
    let levels =
        levels(&format!("in the wheel lanes, to {}", Amount::from(millimetres(0.5)).told()));
    let noise = need("strip: survey_info.level_noise", "as the surveyor states it");
    let found = detail.lines.iter().filter_map(|line| {
        let all = line.roughness.as_ref()?.as_ref().ok()?;
        Some((line, all.iter().max_by(|a, b| a.overall.si().total_cmp(&b.overall.si()))?))
    });
    let roughest =
        found.reduce(|most, next| if next.1.overall > most.1.overall { next } else { most });
    let Some((line, index)) = roughest else {
        let why = detail.lines.iter().find_map(|line| line.roughness.as_ref());
        return match why {
            None => draft.unproven("the survey does not state its noise", [noise]),
            Some(Err(error)) => draft.unproven(told(error), [levels]),
            Some(Ok(_)) => draft.unproven("no stretch is long enough", [levels]),
        };
    };
    let Stretch { from, to } = index.stretch;
    draft
        .value(Amount::coefficient(per_kilometre(index.overall)))
        .place(from, to, None)
        .step(plain_step(
            "roughness index of the roughest line",
            "mean |zs' − zu'| of the reference quarter car at 80 km/h",
            Source::new("ASTM-E1926", "quarter car", Tier::Secondary),
            ends(context, (from, to), line.offset)
                .into_iter()
                .chain(survey(context))
                .chain([
                    beside("length of the stretch", to - from, "between the levels of its ends"),
                    beside(
                        "index of noise alone, m/km",
                        Amount::coefficient(per_kilometre(index.noise)),
                        "the same car over the noise stated",
                    ),
                ])
                .collect(),
            Amount::coefficient(per_kilometre(index.overall)),
        ))
        .pass(words(line, index))
}

fn words(line: &LineDetail, index: &RoughnessIndex) -> String {
    let overall = per_kilometre(index.overall);
    let like = match overall {
        low if low < 3.5 => "smoother than maintained unpaved roads",
        middle if middle <= 10.0 => "like maintained unpaved roads",
        high if high <= 20.0 => "like rough unpaved roads",
        _ => "rougher than rough unpaved roads",
    };
    let worst = index.segments.iter().max_by(|a, b| a.1.si().total_cmp(&b.1.si()));
    let worst = worst.map_or_else(String::new, |(stretch, segment)| {
        let at = |station: Length| Amount::from(station).told();
        format!(
            "; worst 100 m {:.1} m/km from station {} to {}",
            per_kilometre(*segment),
            at(stretch.from),
            at(stretch.to)
        )
    });
    format!("the line at offset {} is {like}{worst}", Amount::from(line.offset).told_signed())
}

fn class(context: &Context<'_>) -> Finding {
    let draft = Draft::new(&RULE, "exponent of the roughness spectrum", Phase::Always).advice();
    let detail = match &context.measured.shape.detail {
        Ok(detail) => detail,
        Err(why) => return draft.unavailable(why),
    };
    let levels = levels(&format!("over {} in the wheel lanes", Amount::from(metres(200.0)).told()));
    let found =
        detail.lines.iter().filter_map(|line| Some((line, line.class.as_ref()?.as_ref().ok()?)));
    let roughest = found.reduce(|most, next| {
        let denser = next.1.fit.at_ten_metres > most.1.fit.at_ten_metres;
        if denser { next } else { most }
    });
    let Some((line, class)) = roughest else {
        let why = detail.lines.iter().find_map(|line| line.class.as_ref()?.as_ref().err());
        let unstated = || "the survey does not state its noise".to_owned();
        let why = why.map_or_else(unstated, told);
        return draft.unproven(why, [levels]);
    };
    let exponent = Amount::coefficient(class.fit.exponent);
    draft
        .value(exponent)
        .step(plain_step(
            "straight line through the spectrum on log scales",
            "G(n) = G(0.1) (n / 0.1)^−w",
            Source::new("ISO-8608", "classes", Tier::Memory),
            survey(context)
                .into_iter()
                .chain([beside(
                    "spectral lines fitted",
                    Amount::count(class.fit.lines as f64),
                    "of the levels of that line",
                )])
                .collect(),
            exponent,
        ))
        .pass(format!(
            "the line at offset {} is of class {:?}: {:.0} × 10⁻⁶ m³ at a wavelength of 10 m",
            Amount::from(line.offset).told_signed(),
            class.class,
            class.fit.at_ten_metres.si() * 1e6
        ))
}

fn levels(how: &str) -> Need {
    let every = Amount::from(metres(0.5)).told();
    need("strip: survey", &format!("levels at least every {every} {how}"))
}
