//! R30: crossfall that drains the strip, is not too steep, and has a form that
//! sheds water.

use crate::context::Context;
use crate::draft::{Draft, computed, need, plain_step};
use crate::rule::Rule;
use crate::shape::code::code_letter;
use hardpan_model::{BasisInput, Finding, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, percent, ratio};
use hardpan_surface::{CrossSection, Crossfall};

pub(super) const RULE: Rule = Rule {
    code: "R30",
    name: "Crossfall",
    checks: "The fall from the centre towards each edge, or from edge to edge, by station: the \
             fall that 95 % of the stations reach, the slope between neighbouring lines that they \
             stay under, and the share of stations that rise to both edges.",
    why: "Where the surface is flat or dished, rain stands and softens the ground; where it is \
          steep, wheels drift downhill and rain cuts gullies.",
    limit: "At least 1 %; at most 2 % for code letters A and B, 1.5 % for C to F; no more than one \
            station in twenty dished (judgement). The letter is that of `reference_code`, else by \
            the span.",
    applies: "Advice; every flight with at least two survey lines on the running surface. Water \
              seen on the day is judged by W10.",
    source: Source::new("ICAO-ANNEX-14", "3.1.19", Tier::Secondary),
    judge,
};

/// Share of stations that may be out of the limit before it is called over.
const SHARE: f64 = 0.05;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = |title: &str| Draft::new(&RULE, title, Phase::Always).advice();
    let Ok(report) = &context.measured.shape.surface else {
        let wanted = need("strip: survey", "cross-sections");
        return vec![draft("crossfall").unproven("there is no survey", [wanted])];
    };
    let falls = report.crossfall.as_slice();
    if falls.is_empty() {
        let wanted = need("strip: survey", "lines at both edges and at the centre");
        let why = "there are fewer than two survey lines side by side";
        return vec![draft("crossfall").unproven(why, [wanted])];
    }
    let mut findings = vec![
        flattest(draft("crossfall").at_least(percent(1.0)), falls),
        steepest(context, draft("steepest crossfall"), falls),
    ];
    if falls.iter().any(|fall| fall.form.is_some()) {
        findings.push(dished(draft("cross-sections that rise to both edges"), falls));
    }
    findings
}

/// The value that all but a twentieth of the stations reach, and from where to
/// where stations lie that pass `out`.
fn reached(values: &[(Length, f64)], out: impl Fn(f64) -> bool) -> Option<(f64, Option<Stretch>)> {
    let mut sorted: Vec<f64> = values.iter().map(|value| value.1).collect();
    sorted.sort_by(f64::total_cmp);
    let typical = *sorted.get((sorted.len() as f64 * SHARE) as usize)?;
    let mut over = values.iter().filter(|value| out(value.1)).map(|value| value.0);
    let first = over.next();
    Some((typical, first.map(|from| (from, over.last().unwrap_or(from)))))
}

type Stretch = (Length, Length);

fn placed(draft: Draft, stretch: Option<Stretch>) -> Draft {
    match stretch {
        Some((from, to)) => draft.place(from, to, None),
        None => draft,
    }
}

fn stations(falls: &[Crossfall]) -> BasisInput {
    computed("stations measured", Amount::count(falls.len() as f64), "survey")
}

fn flattest(draft: Draft, falls: &[Crossfall]) -> Finding {
    let drained: Vec<(Length, f64)> =
        falls.iter().map(|fall| (fall.station, drained(fall).si())).collect();
    let Some((typical, flat)) = reached(&drained, |fall| fall < 0.01) else {
        return draft.unproven("no station is measured", []);
    };
    placed(draft, flat)
        .value(ratio(typical))
        .step(plain_step(
            "crossfall that 95 % of the stations reach",
            "fall from the centre to the lower edge / distance",
            RULE.source,
            vec![stations(falls)],
            ratio(typical),
        ))
        .judged("the strip sheds water", "too flat to shed water; look for ponds after rain")
}

fn steepest(context: &Context<'_>, draft: Draft, falls: &[Crossfall]) -> Finding {
    let (letter, by) = match code_letter(context.flight) {
        Ok(known) => known,
        Err((why, wanted)) => return draft.unproven(why, wanted),
    };
    let (_, greatest) = letter.crossfall().value;
    // Downwards, so that the twentieth left out is the steepest.
    let steep: Vec<(Length, f64)> =
        falls.iter().map(|fall| (fall.station, -fall.steepest.si())).collect();
    let Some((typical, over)) = reached(&steep, |fall| -fall > greatest.si()) else {
        return draft.unproven("no station is measured", []);
    };
    let typical = ratio(-typical);
    placed(draft.at_most(greatest), over)
        .value(typical)
        .step(plain_step(
            "crossfall that 95 % of the stations stay under",
            "steepest slope between two lines side by side",
            letter.crossfall().source,
            vec![by, stations(falls)],
            typical,
        ))
        .judged(
            "within the civil norm",
            "steeper than the civil norm: wheels drift downhill in a crosswind",
        )
}

fn dished(draft: Draft, falls: &[Crossfall]) -> Finding {
    let is_dished = |fall: &&Crossfall| fall.form == Some(CrossSection::Dished);
    let with_form = falls.iter().filter(|fall| fall.form.is_some()).count();
    let share = ratio(falls.iter().filter(is_dished).count() as f64 / with_form.max(1) as f64);
    let mut at = falls.iter().filter(is_dished).map(|fall| fall.station);
    let first = at.next();
    placed(draft.at_most(ratio(SHARE)), first.map(|from| (from, at.next_back().unwrap_or(from))))
        .value(share)
        .step(plain_step(
            "share of the stations that rise to both edges",
            "both sides rise by more than 0.1 %",
            Source::new("", "a crown or a fall to one side drains", Tier::CommonPractice),
            vec![stations(falls)],
            share,
        ))
        .judged("the surface is crowned or falls to one side", "water stays in the middle there")
}

/// The fall that drains a station: the lesser of both sides for a crown, the
/// slope from edge to edge otherwise.
pub(super) fn drained(fall: &Crossfall) -> Ratio {
    match (fall.left, fall.right) {
        (Some(left), Some(right)) => {
            let crowned = left.min(right);
            let across = fall.across.abs();
            if crowned > across { crowned } else { across.max(crowned) }
        }
        _ => fall.across.abs(),
    }
}
