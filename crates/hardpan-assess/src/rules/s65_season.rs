//! S65: the ground with the strength of the season.

use crate::context::Context;
use crate::draft::{Draft, computed, given, given_as, need, plain_step};
use crate::ground::season::{frost_by_day, frost_on, season_name as name, season_of, share};
use crate::ground::{LegKind, Worst};
use crate::measured::Known;
use crate::repairs::weaken;
use crate::rule::Rule;
use hardpan_ground::{FrostState, PointJudgement};
use hardpan_model::{Finding, Given, Mark, MonthDay, Phase, Season, Source, Tier};
use hardpan_quantity::{Amount, Ratio, percent};
use jiff::civil::{Date, date};

pub(super) const RULE: Rule = Rule {
    code: "S65",
    name: "Season",
    checks: "The ground under the main and the nose wheels with every layer at the share of its \
             strength that the strip file states for the season; and, as advice, the days of the \
             year on which it carries this flight.",
    why: "Ground that thaws or stands in rain may have a fraction of the strength that it was \
          sounded with.",
    limit: "100 % of the strength credited, as G20 and G30. A day that lies in no season that is \
            stated is not known; nor is one on which the ground thaws over frost by the \
            temperatures of the year (`[frost]`), in a season of full strength.",
    applies: "Strips that state seasons. The shares are the user's: none is published for gravel \
              strips, and none is assumed. Where seasons overlap the least share counts.",
    source: Source::new("", "ground is judged at the strength of the season", Tier::CommonPractice),
    judge,
};

/// A year without a leap day.
const YEAR: i16 = 2025;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    if context.flight.strip.seasons.is_empty() {
        return Vec::new();
    }
    let frost = frost_by_day(context.flight);
    let frost = frost.as_ref();
    vec![
        today(context, LegKind::Main, frost),
        today(context, LegKind::Nose, frost),
        calendar(context, frost),
    ]
}

/// The worst place under a leg with the ground at a share of its strength.
fn worst(context: &Context<'_>, leg: LegKind, share: f64) -> Known<Worst> {
    let measured = context.measured;
    let carried = match leg {
        LegKind::Main => &measured.main_carried,
        LegKind::Nose => &measured.nose_carried,
    };
    let (as_sounded, table) = carried.as_ref().map_err(Clone::clone)?;
    let loads = measured.loads.as_ref().map_err(Clone::clone)?;
    let mut ground = measured.ground.clone()?;
    weaken(&mut ground.lanes, share);
    Ok(ground.worst(leg, table, loads.of(leg)).unwrap_or_else(|| as_sounded.clone()))
}

/// The frost by day, where the strip states it.
type Frost<'a> = Option<&'a Known<Vec<FrostState>>>;

fn today(context: &Context<'_>, leg: LegKind, frost: Frost<'_>) -> Finding {
    let title = format!("ground under the {} wheels in the season", leg.word());
    let draft =
        Draft::new(&RULE, title, Phase::Always).mark(Mark::PlanningOnly).at_most(percent(100.0));
    let Some(date) = &context.flight.day.date else {
        let needs = [need("day: date", "it tells the season")];
        return draft.unproven("the day is not stated", needs);
    };
    let day = MonthDay::from(date.value);
    let Some(season) = season_of(context.flight, day) else {
        let needs = [need("strip: [[season]]", &format!("one that {day} lies in"))];
        return draft.unproven(format!("{day} lies in no season of the strip"), needs);
    };
    if let Some(thaw) = thaw_not_stated(frost, day, season) {
        let needs = [need("strip: [[season]]", "the strength of the ground while it thaws")];
        return draft.unproven(thaw, needs);
    }
    let worst = match worst(context, leg, share(season)) {
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
    let told =
        format!("{}, {} of the strength sounded", name(season), shown(season.strength.value));
    draft
        .value(demand.utilisation)
        .step(plain_step(
            "strength used in the season",
            "needed / credited, every layer at the share of its strength",
            RULE.source,
            vec![
                given("share of the season", &season.strength),
                computed("needed", demand.needed, "the criterion of G20 at that depth"),
                computed("credited", demand.credited, "strength found × share, less its scatter"),
            ],
            demand.utilisation,
        ))
        .judged(told.clone(), format!("too weak in the season: {told}"))
}

/// Why the season of a day does not count: by the frost of the strip the ground
/// thaws over frost, and the season leaves it its full strength.
fn thaw_not_stated(frost: Frost<'_>, day: MonthDay, season: &Season) -> Option<String> {
    let year = match frost? {
        Ok(year) => year,
        Err(why) => return Some(format!("how the ground thaws is not known: {}", why.because)),
    };
    match frost_on(year, day)? {
        FrostState::Thawing(thawed, frozen) if share(season) >= 1.0 => Some(format!(
            "by the temperatures of the year the ground has thawed to {} over frost to {}, and \
             {} takes it at full strength",
            Amount::from(thawed).told(),
            Amount::from(frozen).told(),
            name(season),
        )),
        _ => None,
    }
}

fn shown(share: Ratio) -> String {
    Amount::from(share).told()
}

/// Every day of a year.
fn days() -> impl Iterator<Item = Date> {
    let first = date(YEAR, 1, 1);
    std::iter::successors(Some(first), |day| day.tomorrow().ok())
        .take_while(|day| day.year() == YEAR)
}

/// On how many days of the year the ground carries this flight.
fn calendar(context: &Context<'_>, frost: Frost<'_>) -> Finding {
    let draft = Draft::new(&RULE, "days of the year that carry this flight", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly);
    let seasons = &context.flight.strip.seasons;
    let mut holds = Vec::new();
    for season in seasons {
        let mut carried = true;
        for leg in [LegKind::Main, LegKind::Nose] {
            match worst(context, leg, share(season)) {
                Ok(worst) => carried &= worst.judgement.holds(),
                Err(why) => return draft.unavailable(&why),
            }
        }
        holds.push(carried);
    }
    let carried = |day: MonthDay| {
        let season = season_of(context.flight, day)?;
        if thaw_not_stated(frost, day, season).is_some() {
            return None;
        }
        let index = seasons.iter().position(|one| std::ptr::eq(one, season))?;
        holds.get(index).copied()
    };
    let of_year: Vec<Option<bool>> = days().map(|day| carried(day.into())).collect();
    let count = |wanted| of_year.iter().filter(|day| **day == wanted).count();
    let lines = seasons.iter().zip(&holds).map(|(season, holds)| {
        let word = if *holds { "carried" } else { "not carried" };
        format!("{} at {}: {word}", name(season), shown(season.strength.value))
    });
    let mut told: Vec<String> = lines.collect();
    if count(None) > 0 {
        told.push(format!(
            "{} days lie in no season that is stated, or thaw over frost in a full one: not known",
            count(None)
        ));
    }
    let number = Amount::count(count(Some(true)) as f64);
    let inputs = seasons.iter().map(|season| share_input(&name(season), &season.strength));
    draft
        .value(number)
        .step(plain_step(
            "days of the year",
            "days whose season carries the main and the nose wheels everywhere",
            RULE.source,
            inputs.collect(),
            number,
        ))
        .pass(told.join("; "))
}

fn share_input(name: &str, strength: &Given<Ratio>) -> hardpan_model::BasisInput {
    given_as(name, strength, strength.value.into())
}
