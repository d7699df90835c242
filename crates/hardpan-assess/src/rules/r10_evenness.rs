//! R10: bumps and ruts under the chords of common practice.

use crate::context::Context;
use crate::draft::{Draft, given, need, plain_step};
use crate::measured::Unavailable;
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, Tier};
use hardpan_quantity::Amount;
use hardpan_surface::{EdgeReport, EventKind, Grade};

pub(super) const RULE: Rule = Rule {
    code: "R10",
    name: "Evenness",
    checks: "The greatest bump and the greatest rut under a sliding chord of 100 ft and of 200 ft, \
             on every surveyed line, with the design grade left in and removed.",
    why: "A bump over the limit loads the gear, shakes the crew off the instruments, and strikes \
          deflectors and propellers; a rut holds water and catches a wheel.",
    limit: "3 in under 100 ft and 4 in under 200 ft.",
    applies: "Every flight; lines must run in the wheel lanes and reach both ends.",
    source: Source::new("", "3 in in 100 ft, 4 in in 200 ft", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    match &context.measured.surface {
        Err(why) => vec![Draft::new(&RULE, "bumps and ruts", Phase::Always).unavailable(why)],
        Ok(report) => report.edges.iter().map(|edge| judge_edge(context, edge)).collect(),
    }
}

fn judge_edge(context: &Context<'_>, edge: &EdgeReport) -> Finding {
    let chord = Amount::from(edge.rule.length);
    let title = match edge.rule.name {
        "chord-100-ft" => "bumps and ruts, 100 ft chord",
        "chord-200-ft" => "bumps and ruts, 200 ft chord",
        other => other,
    };
    let mut draft = Draft::new(&RULE, title, Phase::Always).at_most(edge.rule.limit);
    let Some((event, grade)) = edge.worst() else {
        let needs = edge
            .needs
            .iter()
            .cloned()
            .chain([need("strip: survey", "levels along each wheel lane, close together")]);
        return draft.unproven("the survey is too short or too sparse for this chord", needs);
    };
    let mut inputs = vec![crate::draft::constant("chord", chord, edge.rule.source)];
    if let Some(noise) =
        context.flight.strip.survey.as_ref().and_then(|survey| survey.level_noise.as_ref())
    {
        inputs.push(given("standard deviation of one level", noise));
    }
    let reading = match grade {
        Grade::LeftIn => "greatest deviation under the chord, grade left in",
        Grade::Removed => "greatest deviation under the chord, design grade removed",
    };
    inputs.push(survey_line(context, event.worst, event.offset));
    draft = draft.value(event.height).place(event.from, event.to, None).step(plain_step(
        reading,
        "max |z(x + tL) − (1 − t) z(x) − t z(x + L)|",
        edge.rule.source,
        inputs,
        event.height,
    ));
    let kind = match event.kind {
        EventKind::Bump => "bump",
        EventKind::Rut => "rut",
    };
    let offset = format!("{:+.1} m", hardpan_quantity::Quantity::si(event.offset));
    if edge.needs.is_empty() {
        draft.judged(
            format!("the worst is a {kind} on the line at offset {offset}, inside the limit"),
            format!("a {kind} on the line at offset {offset} is over the limit"),
        )
    } else if event.exceeds {
        draft.fail(format!("a {kind} on the line at offset {offset} is over the limit"))
    } else {
        draft.unavailable(&Unavailable {
            because: "what was surveyed is inside the limit, yet not all is proven".to_owned(),
            needs: edge.needs.clone(),
        })
    }
}

/// The level of the survey nearest to a place, as an input.
fn survey_line(
    context: &Context<'_>,
    station: hardpan_quantity::Length,
    offset: hardpan_quantity::Length,
) -> hardpan_model::BasisInput {
    let level = context.flight.strip.survey.as_ref().and_then(|survey| {
        let line = survey.lines.iter().find(|line| line.offset == offset)?;
        let gap = |point: &&hardpan_model::SurveyPoint| (point.station - station).abs();
        line.points
            .iter()
            .min_by(|a, b| gap(a).partial_cmp(&gap(b)).unwrap_or(std::cmp::Ordering::Equal))
    });
    let line = level.map_or(0, |point| point.line);
    let amount = level.map_or(station, |point| point.elevation);
    hardpan_model::BasisInput {
        name: "level at the worst point".to_owned(),
        amount: amount.into(),
        from: hardpan_model::InputFrom::File { origin: context.survey_origin(line), source: None },
    }
}
