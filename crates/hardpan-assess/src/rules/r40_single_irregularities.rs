//! R40: single irregularities by height and length, and holes.

use crate::context::Context;
use crate::draft::{Draft, beside, constant, need, plain_step};
use crate::rule::Rule;
use crate::shape::levels::{ends, level, survey};
use crate::shape::survey_noise::{EventNoise, NOISE_SHARE};
use crate::shape::survey_refusal::told;
use hardpan_model::{BasisInput, Finding, Need, Phase, Source, Tier, Verdict};
use hardpan_quantity::{Amount, Length, Quantity, metres, ratio};
use hardpan_surface::{
    EdgeReport, EventKind, IrregularityGrade, LineDetail, SingleEvent, irregularity_grade,
};

pub(super) const RULE: Rule = Rule {
    code: "R40",
    name: "Single irregularities",
    checks: "The worst single bump or dip of every line by height against its length, under every \
             straight edge of up to 120 m; and the deepest hole under a straightedge of 3 m.",
    why: "A short sharp bump strikes the gear harder than a long one of the same height, and a \
          chord of one length sees neither as it is. A hole catches a wheel.",
    limit: "The acceptable height by length of paved runways, 17 mm for a step to 160 mm over \
            60 m, for comparison; 3 in for a hole or depression of an unpaved surface.",
    applies: "Levels at least every 1 m, and every 0.3 m for holes. Advice, because the limit by \
              length is for pavement; a hole over 3 in bears on safety. Blind to waves that \
              repeat: see R60 and R70. What noise of the survey may have made is unproven.",
    source: Source::new("FAA-AC-150-5380-9", "acceptable height by length", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    vec![irregularity(context), hole(context)]
}

fn irregularity(context: &Context<'_>) -> Finding {
    let draft =
        Draft::new(&RULE, "worst single irregularity", Phase::Always).advice().at_most(ratio(1.0));
    let detail = match &context.measured.shape.detail {
        Ok(detail) => detail,
        Err(why) => return draft.unavailable(why),
    };
    let worst = detail
        .lines
        .iter()
        .filter_map(worst_of_line)
        .reduce(|most, next| if next.1.ratio > most.1.ratio { next } else { most });
    let Some((line, event)) = worst else {
        let why = detail.lines.iter().find_map(|line| line.irregularities.as_ref().err());
        let why = why.map_or_else(|| "there is none".to_owned(), told);
        return draft.unproven(why, [dense_enough()]);
    };
    let unseen = detail.lines.iter().filter(|line| line.irregularities.is_err()).count();
    let kind = match event.kind {
        EventKind::Bump => "bump",
        EventKind::Rut => "dip",
    };
    let paved = match irregularity_grade(event.length, event.height) {
        Some(IrregularityGrade::Within) => "within the table for paved runways",
        Some(IrregularityGrade::TemporarilyAccepted) => {
            "over the table for paved runways, within what it accepts for a time"
        }
        Some(IrregularityGrade::Beyond) => "beyond both rows of the table for paved runways",
        None => "outside the lengths of the table for paved runways",
    };
    let words = format!(
        "a {kind} {} high over {} at station {}, offset {}; {paved}",
        shown(event.height),
        shown(event.length),
        shown(event.station),
        Amount::from(line.offset).told_signed()
    );
    let draft =
        draft.value(event.ratio).place(event.edge_from, event.edge_from + event.edge_length, None);
    let draft = draft.step(plain_step(
        "height of the worst irregularity over the acceptable one",
        "max over all edges of deviation / acceptable height at the shorter distance to an end",
        RULE.source,
        irregular(context, line.offset, &event),
        event.ratio,
    ));
    match too_noisy(context, &event) {
        Some((why, surely_over)) if event.height < surely_over => {
            draft.unproven(why, [need("strip: survey", "levels with less noise")])
        }
        _ if event.ratio.si() <= 1.0 && unseen > 0 => draft.unproven(
            format!("{words}; {unseen} of {} lines are too sparse to show one", detail.lines.len()),
            [dense_enough()],
        ),
        _ => draft.judged(words.clone(), words),
    }
}

/// Levels under the edge, and what they show.
fn irregular(context: &Context<'_>, offset: Length, event: &SingleEvent) -> Vec<BasisInput> {
    let [first, last] =
        ends(context, (event.edge_from, event.edge_from + event.edge_length), offset);
    vec![
        first,
        level(context, "level at the worst point", (event.station, offset)),
        last,
        beside("height", event.height, "level off the edge"),
        beside("length", event.length, "to the nearer end of the edge"),
    ]
}

fn dense_enough() -> Need {
    need("strip: survey", &format!("levels at least every {}", shown(metres(1.0))))
}

fn worst_of_line(line: &LineDetail) -> Option<(&LineDetail, SingleEvent)> {
    let worst = line.irregularities.as_ref().ok()?.worst.first()?;
    Some((line, *worst))
}

/// Why noise alone could be such an irregularity, and the height that is over
/// the acceptable one all the same.
fn too_noisy(context: &Context<'_>, event: &SingleEvent) -> Option<(String, Length)> {
    let survey = context.flight.strip.survey.as_ref()?;
    let acceptable = event.height / event.ratio.si().max(1e-9);
    let Some(noise) = EventNoise::of(survey) else {
        return Some(("the survey does not state its noise".to_owned(), acceptable));
    };
    noise.hides(acceptable).then(|| {
        let why = format!(
            "survey noise alone shows up to {} somewhere; {} is acceptable at that length",
            shown(noise.false_worst),
            shown(acceptable)
        );
        (why, noise.sure_from(acceptable))
    })
}

fn hole(context: &Context<'_>) -> Finding {
    let draft = || Draft::new(&RULE, "holes and depressions", Phase::Always);
    let report = match &context.measured.shape.surface {
        Ok(report) => report,
        Err(why) => return draft().advice().unavailable(why),
    };
    let Some(edge) = report.edges.iter().find(|edge| edge.looks_for_holes()) else {
        return draft().advice().unproven("holes were not looked for", []);
    };
    let Some((event, _)) = edge.worst() else {
        if edge.is_laid() {
            return no_hole(context, draft().advice(), edge);
        }
        return draft().advice().at_most(edge.rule.limit).unproven(
            "levels stand too far apart to show a hole",
            [need(
                "strip: survey",
                &format!("levels at least every {} in the wheel lanes", shown(metres(0.3))),
            )],
        );
    };
    let draft = if event.exceeds { draft() } else { draft().advice() };
    let draft =
        draft.at_most(edge.rule.limit).value(event.height).place(event.from, event.to, None).step(
            plain_step(
                "deepest gap under the straightedge",
                "max (upper hull of the edge's reach − z)",
                edge.rule.source,
                hole_inputs(context, edge, Some(&event)),
                event.height,
            ),
        );
    let at = format!(
        "station {}, offset {}",
        shown(event.worst),
        Amount::from(event.offset).told_signed()
    );
    if event.exceeds && edge.verdict != Verdict::Fail {
        let why = format!("what looks like a hole may be noise of the survey: {at}");
        draft.unproven(why, edge.needs.iter().cloned())
    } else if event.exceeds || edge.needs.is_empty() {
        draft
            .judged(format!("the deepest is at {at}"), format!("fill it before the movement: {at}"))
    } else {
        draft.unproven(not_proven(edge), edge.needs.iter().cloned())
    }
}

/// The straightedge, and the levels under it.
fn hole_inputs(
    context: &Context<'_>,
    edge: &EdgeReport,
    event: Option<&hardpan_surface::Event>,
) -> Vec<BasisInput> {
    let length = constant("length of the straightedge", edge.rule.length, edge.rule.source);
    let levels = event.map_or_else(
        || survey(context),
        |event| {
            let [first, last] = ends(context, (event.from, event.to), event.offset);
            let worst = (event.worst, event.offset);
            vec![first, level(context, "level at the worst point", worst), last]
        },
    );
    std::iter::once(length).chain(levels).collect()
}

/// Ground on which the straightedge lies without a gap.
fn no_hole(context: &Context<'_>, draft: Draft, edge: &EdgeReport) -> Finding {
    let none = metres(0.0);
    let draft = draft.at_most(edge.rule.limit).value(none).step(plain_step(
        "deepest gap under the straightedge",
        "max (upper hull of the edge's reach − z)",
        edge.rule.source,
        hole_inputs(context, edge, None),
        none,
    ));
    if edge.needs.is_empty() {
        draft.pass("there is none")
    } else {
        draft.unproven(not_proven(edge), edge.needs.iter().cloned())
    }
}

/// Why a strip without a hole in its survey is not proven to have none.
fn not_proven(edge: &EdgeReport) -> &'static str {
    let noisy = edge.noise.is_none_or(|floor| floor.share_of_limit.si() > NOISE_SHARE);
    if noisy {
        "survey noise alone would look like a hole, or is not stated"
    } else {
        "not the whole strip is levelled so closely"
    }
}

fn shown(length: Length) -> String {
    Amount::from(length).told()
}
