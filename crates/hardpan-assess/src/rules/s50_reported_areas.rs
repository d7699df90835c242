//! S50: areas of the ground that somebody reports.

use crate::context::Context;
use crate::draft::{Draft, computed, given_as, need, plain_step};
use crate::reported_area::{Stretch, holds, overlap, runs, stretch_of, taxi, wheel_band};
use crate::rule::Rule;
use hardpan_model::{Area, AreaKind, Finding, Phase, Sounding, Source, Survey, Tier};
use hardpan_quantity::Amount;
use jiff::civil::Date;

pub(super) const RULE: Rule = Rule {
    code: "S50",
    name: "Reported areas",
    checks: "Each area of the strip that is reported soft, loose, wet, rutted or closed, against \
             the ground where the wheels of this flight run.",
    why: "Somebody saw or felt that the ground differs there; soundings and levels from beside it \
          or from before it say nothing of it.",
    limit: "No wheel on closed ground. Soft and wet ground needs a sounding inside it, rutted \
            ground a survey, not older than the report. Loose ground is a condition for the crew.",
    applies: "Strips with reported areas. Wheels run within half the track and two standard \
              deviations of wander, over the declared distances of the movement and where the \
              flight taxis; without a stated taxi route everywhere on the strip.",
    source: Source::new("", "reported ground is looked at before it is used", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let areas = context.flight.strip.areas.iter().enumerate();
    areas.map(|(index, area)| judge_area(context, index, area)).collect()
}

fn judge_area(context: &Context<'_>, index: usize, area: &Area) -> Finding {
    let flight = context.flight;
    let kind = area.kind.value;
    let title = match &area.name {
        Some(name) => format!("{} area, {}", kind.word(), name.value),
        None => format!("{} area {}", kind.word(), index + 1),
    };
    let draft = Draft::new(&RULE, title, Phase::Always);
    let band = wheel_band(flight);
    let mut used = runs(flight);
    if kind != AreaKind::Closed || flight.taxi.is_some() {
        used.extend(taxi(flight));
    }
    let met = used.iter().filter_map(|stretch| overlap(area, *stretch, band));
    let met = met.reduce(|one, other| (one.0.min(other.0), one.1.max(other.1)));
    let Some(met) = met else {
        let (from, to) = stretch_of(area);
        return draft
            .place(from, to, None)
            .instruct(format!("keep all wheels off the ground that is reported {}", kind.word()))
            .conditional("it lies beside the wheel lanes or beyond the distances used");
    };
    let length = met.1 - met.0;
    let mut inputs = vec![given_as("reported", &area.kind, Amount::count(1.0))];
    if let Some(band) = band {
        inputs.push(computed("wheels within", band, "aeroplane: gear.track, and wander"));
    }
    let draft = draft.place(met.0, met.1, None).value(length).step(plain_step(
        "length of the area under the wheels",
        "stations where the area reaches into the band of the wheels",
        RULE.source,
        inputs,
        length,
    ));
    match kind {
        AreaKind::Closed => draft
            .instruct("do not use this strip until the closed ground is outside the distances used")
            .fail("closed ground lies where the wheels run"),
        AreaKind::Loose => draft
            .instruct("no high thrust and no turn over the loose stretch; roll it first")
            .conditional("loose ground is reported where the wheels run"),
        AreaKind::Soft | AreaKind::Wet => sounded(context, draft, area, met),
        AreaKind::Rutted => levelled(context, draft, area),
    }
}

fn sounded(context: &Context<'_>, draft: Draft, area: &Area, met: Stretch) -> Finding {
    let soundings = &context.flight.strip.soundings;
    let inside: Vec<&Sounding> = soundings.iter().filter(|one| holds(area, one)).collect();
    let word = area.kind.value.word();
    let ask = |how: &str| {
        let [from, to] = [met.0, met.1].map(|station| Amount::from(station).told());
        [need(&format!("a sounding between {from} and {to}"), how)]
    };
    if inside.is_empty() {
        return draft.unproven(
            format!("the ground is reported {word} and no sounding stands inside the area"),
            ask("inside the area, on a wheel lane"),
        );
    }
    let fresh = |one: &&Sounding| is_after(one.date.as_ref().map(|date| date.value), area);
    if !inside.iter().any(fresh) {
        return draft.unproven(
            format!("no sounding inside the area is known to be as late as the {word} report"),
            ask("made on the day of the report or later, both dated"),
        );
    }
    match area.kind.value {
        AreaKind::Wet => draft
            .instruct("look at the wet stretch before each movement; expect less braking there")
            .conditional("wet ground is reported where the wheels run; it has been sounded since"),
        _ => draft.pass("it has been sounded since; the strength found there is what counts"),
    }
}

fn levelled(context: &Context<'_>, draft: Draft, area: &Area) -> Finding {
    let date = |survey: &Survey| survey.date.as_ref().map(|date| date.value);
    if is_after(context.flight.strip.survey.as_ref().and_then(date), area) {
        return draft
            .instruct("look at the ruts before each movement")
            .conditional("ruts are reported where the wheels run; the strip was levelled since");
    }
    draft.unproven(
        "ruts are reported and no survey is known to be as late as the report",
        [need("strip: survey", "levels across the ruts, made on the day of the report or later")],
    )
}

fn is_after(made: Option<Date>, area: &Area) -> bool {
    match (made, &area.reported_on) {
        (Some(made), Some(reported)) => made >= reported.value,
        _ => false,
    }
}
