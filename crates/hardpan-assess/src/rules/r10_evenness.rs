//! R10: bumps and ruts under the chords of common practice.

use crate::context::Context;
use crate::draft::{Draft, given, need, plain_step};
use crate::measured::Unavailable;
use crate::rule::Rule;
use crate::shape::edge_rule;
use crate::shape::gaps::{gaps, told};
use crate::shape::levels::{UNDER_EDGE, ends, level, survey, under_edge};
use hardpan_model::{EdgeLimit, Finding, Flight, Mark, Phase, Source, Tier, Verdict};
use hardpan_quantity::{Amount, millimetres};
use hardpan_surface::{Edge, EdgeReport, EventKind, Grade};

pub(super) const RULE: Rule = Rule {
    code: "R10",
    name: "Evenness",
    checks: "The greatest bump and the greatest rut under a sliding chord of 100 ft and of 200 ft, \
             on every surveyed line, with the design grade left in and removed; and whatever the \
             strip file sets under `[[evenness]]` for a chord, its middle, or a straightedge.",
    why: "A bump over the limit loads the gear, shakes the crew off the instruments, and strikes \
          deflectors and propellers; a rut holds water and catches a wheel.",
    limit: "3 in under 100 ft and 4 in under 200 ft; each limit of `[[evenness]]` binds beside them.",
    applies: "Every flight; lines must run in the wheel lanes and reach both ends.",
    source: Source::new("", "3 in in 100 ft, 4 in in 200 ft", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    match &context.measured.shape.surface {
        Err(why) => vec![Draft::new(&RULE, "bumps and ruts", Phase::Always).unavailable(why)],
        Ok(report) => {
            let judged = report.edges.iter().filter(|edge| !edge.looks_for_holes());
            judged.map(|edge| judge_edge(context, edge)).collect()
        }
    }
}

fn judge_edge(context: &Context<'_>, edge: &EdgeReport) -> Finding {
    let chord = Amount::from(edge.rule.length);
    let title = format!("bumps and ruts, {}", edge.rule.told());
    let set = set_limit(context, edge);
    let mut draft = Draft::new(&RULE, &title, Phase::Always).at_most(edge.rule.limit);
    if set.is_some() {
        draft = draft.mark(Mark::Approved);
    }
    let Some((event, grade)) = edge.worst() else {
        if edge.is_laid() {
            return plane(context, draft, edge, chord);
        }
        let needs = edge
            .needs
            .iter()
            .cloned()
            .chain([need("strip: survey", "levels along each wheel lane, close together")]);
        return draft.unproven("the survey is too short or too sparse for this chord", needs);
    };
    let mut inputs = match set {
        Some(set) => vec![given("length", &set.length), given("limit", &set.limit)],
        None => vec![crate::draft::constant("chord", chord, edge.rule.source)],
    };
    if let Some(noise) =
        context.flight.strip.survey.as_ref().and_then(|survey| survey.level_noise.as_ref())
    {
        inputs.push(given("standard deviation of one level", noise));
    }
    let reading = match (edge.rule.edge, grade) {
        (Edge::Straightedge, _) => "deepest gap under the straightedge",
        (_, Grade::LeftIn) => "greatest deviation under the chord, grade left in",
        (_, Grade::Removed) => "greatest deviation under the chord, design grade removed",
    };
    let how = match edge.rule.edge {
        Edge::Chord => "a chord laid at every station, worst anywhere under it",
        Edge::MidChord => "a chord laid at every station, worst at its middle",
        Edge::Straightedge => "a straightedge laid at every station, on its two supports",
    };
    let under = under_edge(context, &event).filter(|_| grade == Grade::LeftIn);
    let expression = match &under {
        Some(_) => format!("{UNDER_EDGE}; {how}"),
        None => format!("{how}; with the design grade taken off the levels"),
    };
    inputs.extend(under.unwrap_or_else(|| {
        let worst = level(context, "level at the worst point", (event.worst, event.offset));
        let ends = ends(context, (event.from, event.to), event.offset);
        ends.into_iter().chain([worst]).collect()
    }));
    draft = draft.value(event.height).place(event.from, event.to, None).step(plain_step(
        reading,
        &expression,
        edge.rule.source,
        inputs,
        event.height,
    ));
    let kind = match event.kind {
        EventKind::Bump => "bump",
        EventKind::Rut => "rut",
    };
    let offset = Amount::from(event.offset).told_signed();
    if edge.needs.is_empty() {
        draft.judged(
            format!("the worst is a {kind} on the line at offset {offset}, inside the limit"),
            format!("a {kind} on the line at offset {offset} is over the limit"),
        )
    } else if edge.verdict == Verdict::Fail {
        draft.fail(format!("a {kind} on the line at offset {offset} is over the limit"))
    } else {
        let inside = "what was surveyed is inside the limit";
        let gaps = gaps(edge);
        let because = match (event.exceeds, gaps.is_empty()) {
            (true, _) => "what is over the limit may be noise of the survey".to_owned(),
            (false, true) => format!("{inside}, yet not all is proven"),
            (false, false) => format!("{inside}; not surveyed: {}", told(context, &gaps)),
        };
        draft.unavailable(&Unavailable { because, needs: edge.needs.clone() })
    }
}

/// Ground that nowhere stands off the edge.
fn plane(context: &Context<'_>, draft: Draft, edge: &EdgeReport, length: Amount) -> Finding {
    let none = millimetres(0.0);
    let draft = draft.value(none).step(plain_step(
        "greatest deviation under the edge",
        "no level stands off it by 0.001 mm",
        edge.rule.source,
        std::iter::once(crate::draft::constant("length", length, edge.rule.source))
            .chain(survey(context))
            .collect(),
        none,
    ));
    if edge.needs.is_empty() {
        return draft.pass("no level stands off it");
    }
    draft.unavailable(&Unavailable {
        because: "what was surveyed is plane, yet not all is proven".to_owned(),
        needs: edge.needs.clone(),
    })
}

/// The limit of the strip file behind an edge, if one is.
fn set_limit<'a>(context: &Context<'a>, edge: &EdgeReport) -> Option<&'a EdgeLimit> {
    let flight: &'a Flight = context.flight;
    flight.strip.evenness.iter().find(|set| {
        edge.rule.source.tier == Tier::Approved
            && edge.rule.name == edge_rule(set).name
            && edge.rule.limit == set.limit.value
    })
}
