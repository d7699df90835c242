//! S65: the ground with the strength of the season.

use crate::context::Context;
use crate::draft::{Draft, computed, given, given_as, need, plain_step};
use crate::ground::season::{
    FrostByDay, season_name as name, season_of, share, strength_in_state, strength_on,
};
use crate::ground::{Ground, LegKind, Worst};
use crate::measured::{Carried, Known};
use crate::repairs::weaken;
use crate::rides::Asked;
use crate::rule::Rule;
use hardpan_ground::PointJudgement;
use hardpan_model::{Finding, Given, Mark, MonthDay, Phase, Source, Tier};
use hardpan_quantity::{Amount, Quantity, Ratio, percent};
use jiff::civil::{Date, date};
use std::sync::Arc;

pub(super) const RULE: Rule = Rule {
    code: "S65",
    name: "Season",
    checks: "The ground under the main and the nose wheels with every layer at the share of its \
             strength that the strip file states for the season, or for it while it is wet; and, \
             as advice, the days of the year on which it carries this flight.",
    why: "Ground that thaws or stands in rain may have a fraction of the strength that it was \
          sounded with.",
    limit: "100 % of the strength credited, as G20 and G30. A day that lies in no season that is \
            stated is not known; nor is one on which the ground thaws over frost by the \
            temperatures of the year (`[frost]`), in a season of full strength, unless \
            `thaw_strength` and `recovery` say how weak it is then and how long.",
    applies: "Strips that state seasons, or how thaw weakens them. The shares are the user's: none \
              is published for gravel strips, and none is assumed. Where seasons overlap the least \
              share counts. Frozen ground is credited with no more than was sounded; the largest \
              masses hold the share of the day.",
    source: Source::new("", "ground is judged at the strength of the season", Tier::CommonPractice),
    judge,
};

/// A year without a leap day.
const YEAR: i16 = 2025;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let strip = &context.flight.strip;
    let weakening = strip.frost.as_ref().is_some_and(|frost| frost.weakening.is_some());
    if strip.seasons.is_empty() && !weakening {
        return Vec::new();
    }
    let frost = context.measured.frost(context.flight);
    let mut weakened = Weakened { context, kept: Vec::new() };
    let mut findings = vec![
        today(&mut weakened, LegKind::Main, frost),
        today(&mut weakened, LegKind::Nose, frost),
    ];
    if context.asked == Asked::Whole {
        findings.push(calendar(&mut weakened, frost));
    }
    findings
}

/// The ground at each share of its strength that was asked for.
struct Weakened<'a> {
    context: &'a Context<'a>,
    kept: Vec<(f64, Ground)>,
}

impl<'a> Weakened<'a> {
    fn at(&mut self, share: f64) -> Known<&Ground> {
        let sounded = self.context.measured.ground.as_ref().map_err(Clone::clone)?;
        if share == 1.0 {
            return Ok(sounded);
        }
        let known = self.kept.iter().position(|(kept, _)| *kept == share);
        let index = known.unwrap_or_else(|| {
            let mut ground = sounded.clone();
            weaken(Arc::make_mut(&mut ground.lanes), share);
            self.kept.push((share, ground));
            self.kept.len() - 1
        });
        Ok(self.kept.get(index).map_or(sounded, |(_, ground)| ground))
    }

    fn carried(&self, leg: LegKind) -> Known<&'a Carried> {
        let measured = self.context.measured;
        let carried = match leg {
            LegKind::Main => &measured.main_carried,
            LegKind::Nose => &measured.nose_carried,
        };
        carried.as_ref().map_err(Clone::clone)
    }

    /// The worst place under a leg with the ground at a share of its strength.
    fn worst(&mut self, leg: LegKind, share: f64) -> Known<Worst> {
        let context = self.context;
        let loads = context.measured.loads.as_ref().map_err(Clone::clone)?;
        let (as_sounded, table) = self.carried(leg)?;
        let worst = self.at(share)?.worst(leg, table, loads.of(leg));
        Ok(worst.unwrap_or_else(|| as_sounded.clone()))
    }

    /// Whether the ground at a share of its strength carries a leg everywhere.
    fn carries(&mut self, leg: LegKind, share: f64) -> Known<bool> {
        let context = self.context;
        let loads = context.measured.loads.as_ref().map_err(Clone::clone)?;
        let (_, table) = self.carried(leg)?;
        Ok(self.at(share)?.carries(leg, table, loads.of(leg)))
    }
}

fn today(weakened: &mut Weakened<'_>, leg: LegKind, frost: FrostByDay<'_>) -> Finding {
    let context = weakened.context;
    let title = format!("ground under the {} wheels in the season", leg.word());
    let draft =
        Draft::new(&RULE, title, Phase::Always).mark(Mark::PlanningOnly).at_most(percent(100.0));
    let Some(date) = &context.flight.day.date else {
        let needs = [need("day: date", "it tells the season")];
        return draft.unproven("the day is not stated", needs);
    };
    let day = MonthDay::from(date.value);
    let state = context.flight.day.surface_state.as_ref().map(|state| state.value);
    let strength = match strength_in_state(context.flight, frost, (day, state)) {
        Ok(strength) => strength,
        Err(why) => return draft.unavailable(&why),
    };
    let worst = match weakened.worst(leg, strength.share) {
        Ok(worst) => worst,
        Err(why) => return draft.unavailable(&why),
    };
    let (from, to) = worst.stretches.first().copied().unwrap_or_else(|| {
        let station = match &worst.judgement {
            PointJudgement::Known(demand) => demand.station,
            PointJudgement::Unknown(unknown) => unknown.station,
        };
        (station, station)
    });
    let draft = draft.place(from, to, Some(worst.lane));
    let demand = match &worst.judgement {
        PointJudgement::Known(demand) => demand,
        PointJudgement::Unknown(unknown) => {
            let because = "part of the lane is not known deep or densely enough for this load";
            return draft.unproven(because, [unknown.need()]);
        }
    };
    let told = format!("{}, {} of the strength sounded", strength.told, shown(strength.share));
    let mut inputs = strength.inputs;
    inputs.extend([
        computed("needed", demand.needed, "the ground in the season").under("needed"),
        computed("credited", demand.credited, "the ground in the season").under("credited"),
    ]);
    draft
        .value(demand.utilisation)
        .step(plain_step(
            "strength used in the season",
            "needed / credited; every layer at the share of its strength",
            RULE.source,
            inputs,
            demand.utilisation,
        ))
        .judged(told.clone(), format!("too weak in the season: {told}"))
}

fn shown(share: f64) -> String {
    Amount::from(Ratio::from_si(share)).told()
}

/// Every day of a year.
fn days() -> impl Iterator<Item = Date> {
    let first = date(YEAR, 1, 1);
    std::iter::successors(Some(first), |day| day.tomorrow().ok())
        .take_while(|day| day.year() == YEAR)
}

/// On how many days of the year the ground carries this flight.
fn calendar(ground: &mut Weakened<'_>, frost: FrostByDay<'_>) -> Finding {
    let context = ground.context;
    let draft = Draft::new(&RULE, "days of the year that carry this flight", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly);
    let mut known: Vec<(f64, bool)> = Vec::new();
    let mut carried = |share: f64| -> Known<bool> {
        if let Some((_, holds)) = known.iter().find(|row| row.0 == share) {
            return Ok(*holds);
        }
        let mut holds = true;
        for leg in [LegKind::Main, LegKind::Nose] {
            holds &= ground.carries(leg, share)?;
        }
        known.push((share, holds));
        Ok(holds)
    };
    let mut told = Vec::new();
    for season in &context.flight.strip.seasons {
        match carried(share(season)) {
            Ok(holds) => {
                let word = if holds { "carried" } else { "not carried" };
                told.push(format!("{} at {}: {word}", name(season), shown(share(season))));
            }
            Err(why) => return draft.unavailable(&why),
        }
    }
    let (mut holding, mut unknown, mut weakened) = (0, 0, 0);
    for day in days() {
        let day = MonthDay::from(day);
        let Ok(strength) = strength_on(context.flight, frost, day) else {
            unknown += 1;
            continue;
        };
        let own = season_of(context.flight, day).map_or(1.0, share);
        weakened += i32::from(strength.share < own);
        match carried(strength.share) {
            Ok(holds) => holding += i32::from(holds),
            Err(why) => return draft.unavailable(&why),
        }
    }
    if weakened > 0 {
        told.push(format!(
            "{weakened} days weakened by thaw over frost and until it has recovered"
        ));
    }
    if unknown > 0 {
        told.push(format!(
            "{unknown} days lie in no season that is stated, or thaw over frost in a full one: not \
             known"
        ));
    }
    let number = Amount::count(f64::from(holding));
    let seasons = &context.flight.strip.seasons;
    let mut inputs: Vec<_> =
        seasons.iter().map(|season| share_input(&name(season), &season.strength)).collect();
    let frost = context.flight.strip.frost.as_ref();
    if let Some(weakening) = frost.and_then(|frost| frost.weakening.as_ref()) {
        inputs.push(share_input("while it thaws over frost", &weakening.strength));
        inputs.push(given("recovery", &weakening.recovery));
    }
    draft
        .value(number)
        .step(plain_step(
            "days of the year",
            "days on which the ground carries the main and the nose wheels everywhere",
            RULE.source,
            inputs,
            number,
        ))
        .pass(told.join("; "))
}

fn share_input(name: &str, strength: &Given<Ratio>) -> hardpan_model::BasisInput {
    given_as(name, strength, strength.value.into())
}
