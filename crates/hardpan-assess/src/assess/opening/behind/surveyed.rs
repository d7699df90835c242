//! Ruts and bumps of the survey, as other checks count them.

use super::figure;
use crate::assess::figure_basis::FigureBasis;
use crate::context::Context;
use crate::draft::plain_step;
use crate::shape::levels::{UNDER_EDGE, ends, level, survey, under_edge};
use crate::wheels_down::Ground;
use hardpan_model::Step;
use hardpan_quantity::Length;
use hardpan_surface::{EdgeReport, Event};

pub(super) fn figures(context: &Context<'_>) -> Option<FigureBasis> {
    let Ok(report) = &context.measured.shape.surface else { return None };
    let mut steps = Vec::new();
    for edge in &report.edges {
        let worst = [edge.worst_bump, edge.worst_rut].into_iter().flatten().map(|(event, _)| event);
        let over = edge.exceedances().map(|(event, _)| *event);
        steps.extend(worst.chain(over).map(|event| event_step(context, edge, &event)));
    }
    if let Ok(ground) = Ground::surveyed(context) {
        steps.push(of_ground(context, "ruts and bumps that noise alone shows", ground.noise));
        for none in [ground.rut, ground.bump].into_iter().filter(|one| *one == Length::default()) {
            steps.push(of_ground(context, "none stands off the edge", none));
        }
    }
    figure("survey of ruts and bumps", steps)
}

fn event_step(context: &Context<'_>, edge: &EdgeReport, event: &Event) -> Step {
    let name = format!("deviation, {}", edge.rule.told());
    let length = crate::draft::constant("length", edge.rule.length, edge.rule.source);
    let (rule, levels) = match under_edge(context, event) {
        Some(levels) => (UNDER_EDGE, levels),
        None => {
            let worst = level(context, "level at the worst point", (event.worst, event.offset));
            let ends = ends(context, (event.from, event.to), event.offset);
            let off =
                "of the worst point from the edge, with the design grade taken off the levels";
            (off, ends.into_iter().chain([worst]).collect())
        }
    };
    let inputs = [length].into_iter().chain(levels).collect();
    plain_step(&name, rule, edge.rule.source, inputs, event.height)
}

fn of_ground(context: &Context<'_>, name: &str, amount: Length) -> Step {
    plain_step(
        name,
        "by the levels of the survey and the noise of one",
        crate::draft::derived("survey"),
        survey(context),
        amount,
    )
}
