//! R30: crossfall that drains the strip.

use crate::context::Context;
use crate::draft::{Draft, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, Tier};
use hardpan_quantity::{Length, Quantity, Ratio, percent, ratio};
use hardpan_surface::Crossfall;

pub(super) const RULE: Rule = Rule {
    code: "R30",
    name: "Crossfall",
    checks: "The fall from the centre towards each edge, or from edge to edge, by station; the \
             flattest stretch is shown.",
    why: "Where the surface is flat or dished, rain stands and softens the ground.",
    limit: "At least 1 %.",
    applies: "Advice; every flight with at least two survey lines. Water seen on the day is \
              judged by W10.",
    source: Source::new("ICAO-ANNEX-14", "3.1.19", Tier::Secondary),
    judge,
};

/// Share of stations that may be flatter than the limit before it is called over.
const FLAT_SHARE: f64 = 0.05;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "crossfall", Phase::Always).advice().at_least(percent(1.0));
    let Ok(report) = &context.measured.shape.surface else {
        return vec![
            draft.unproven("there is no survey", [need("strip: survey", "cross-sections")]),
        ];
    };
    let falls: Vec<(Length, f64)> =
        report.crossfall.iter().map(|fall| (fall.station, drained(fall).si())).collect();
    let mut sorted: Vec<f64> = falls.iter().map(|fall| fall.1).collect();
    sorted.sort_by(f64::total_cmp);
    let Some(typical) = sorted.get((sorted.len() as f64 * FLAT_SHARE) as usize).copied() else {
        return vec![draft.unproven(
            "there are fewer than two survey lines side by side",
            [need("strip: survey", "lines at both edges and at the centre")],
        )];
    };
    let flat: Vec<Length> = falls.iter().filter(|fall| fall.1 < 0.01).map(|fall| fall.0).collect();
    let draft = match (flat.first(), flat.last()) {
        (Some(from), Some(to)) => draft.place(*from, *to, None),
        _ => draft,
    };
    vec![
        draft
            .value(ratio(typical))
            .step(plain_step(
                "crossfall that 95 % of the stations reach",
                "fall from the centre to the lower edge / distance",
                RULE.source,
                vec![crate::draft::computed(
                    "stations measured",
                    hardpan_quantity::Amount::count(falls.len() as f64),
                    "survey",
                )],
                ratio(typical),
            ))
            .judged("the strip sheds water", "too flat to shed water; look for ponds after rain"),
    ]
}

/// The fall that drains a station: the lesser of both sides for a crown, the
/// slope from edge to edge otherwise.
fn drained(fall: &Crossfall) -> Ratio {
    match (fall.left, fall.right) {
        (Some(left), Some(right)) => {
            let crowned = left.min(right);
            let across = fall.across.abs();
            if crowned > across { crowned } else { across.max(crowned) }
        }
        _ => fall.across.abs(),
    }
}
