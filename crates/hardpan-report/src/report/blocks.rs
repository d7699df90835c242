//! Masses, tyre pressure, speeds, distances, air and remedies as strings.

use crate::measure::{
    Rounding, amount_text, at_least_text, at_most_text, limit_text, quantity_text, rounded, whole,
};
use crate::wrap::plain;
use hardpan_assess::{Assessment, HandlingRow, MassAnswer, TyreAnswer};
use hardpan_model::{Finding, Verdict};
use hardpan_quantity::{Amount, Mass, Quantity, UnitSystem};

/// Largest mass of one movement and what sets it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MassBlock {
    /// `take-off mass` or `landing mass`.
    pub name: &'static str,
    /// Mass planned.
    pub planned: Option<String>,
    /// Largest mass; none if none was found.
    pub largest: Option<String>,
    /// Load that the largest mass leaves over operating mass and the fuel planned.
    pub load: Option<String>,
    /// Limits by rising mass: the first sets the answer, unless one is not known.
    pub limits: Vec<MassLine>,
    /// The first limit that cannot be told for want of data.
    pub unknown: Option<String>,
}

impl MassBlock {
    /// The largest mass, or why there is none.
    #[must_use]
    pub fn largest_or_why(&self) -> String {
        match (&self.largest, &self.unknown) {
            (Some(largest), _) => largest.clone(),
            (None, Some(unknown)) => format!("not known, as {unknown} lacks data"),
            (None, None) => "none holds".to_owned(),
        }
    }

    /// The limit that sets the largest mass, or that no mass keeps.
    #[must_use]
    pub fn set_by(&self) -> Option<&MassLine> {
        self.limits.first().filter(|_| self.unknown.is_none())
    }
}

/// One limit on mass.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MassLine {
    /// Code of the rule.
    pub code: &'static str,
    /// In words.
    pub title: String,
    /// Largest mass; none when even the lightest is too much or nothing is known.
    pub mass: Option<String>,
}

/// Tyre pressure to set and what each pressure allows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TyreBlock {
    /// Pressure to set.
    pub set: Option<String>,
    /// Why that one.
    pub because: String,
    /// The range that holds at the planned mass.
    pub range: Option<String>,
    /// What each pressure allows.
    pub table: Vec<PressureLine>,
}

/// What one pressure allows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PressureLine {
    /// Pressure.
    pub pressure: String,
    /// Largest mass that the ground carries.
    pub ground: Option<String>,
    /// Largest mass that tyre and chart allow.
    pub tyre: Option<String>,
}

/// One speed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SpeedLine {
    /// Symbol of the trade.
    pub symbol: &'static str,
    /// In words.
    pub name: &'static str,
    /// Calibrated airspeed in knots.
    pub speed: String,
}

/// One distance needed against what is available.
#[derive(Debug, Clone, PartialEq)]
pub struct DistanceLine {
    /// Code of the rule.
    pub code: &'static str,
    /// In words.
    pub name: String,
    /// Needed, factors included.
    pub needed: String,
    /// Available; none if not declared.
    pub available: Option<String>,
    /// Needed over available, for drawing it to scale.
    pub share: Option<f64>,
}

/// One figure of the air and the wind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayLine {
    /// In words.
    pub name: String,
    /// Value.
    pub value: String,
    /// The limit that a finding of the same name and kind holds it against.
    pub limit: Option<String>,
}

/// A change that would help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RemedyLine {
    /// What to do.
    pub action: String,
    /// What it brings.
    pub effect: String,
    /// Verdict of the whole after it.
    pub verdict_after: Verdict,
    /// Codes of the findings that it mends.
    pub mends: String,
    /// Codes of the findings that still fail.
    pub left: String,
}

/// How far one figure of the day may move.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TurningLine {
    /// What is moved.
    pub what: &'static str,
    /// Its value in the plan.
    pub now: String,
    /// How far the answer holds, and what turns it there.
    pub sentence: String,
    /// How far it holds, in a few words; none where nothing turns it.
    pub short: Option<String>,
}

/// The answer in another state of the surface.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StateLine {
    /// The state.
    pub state: &'static str,
    /// Verdict of the whole in it.
    pub verdict: Verdict,
    /// What gives it.
    pub by: String,
}

pub(crate) fn turning(assessment: &Assessment, units: UnitSystem) -> Vec<TurningLine> {
    let line = |point: &hardpan_assess::TurningPoint| TurningLine {
        what: point.what,
        now: now_text(point, units),
        sentence: plain(&point.sentence.show(units)),
        short: point.turn.is_some().then(|| plain(&point.short.show(units))),
    };
    assessment.turning.points.iter().map(line).collect()
}

/// The value in the plan; nothing of a quantity in the unit of what it is moved to.
fn now_text(point: &hardpan_assess::TurningPoint, units: UnitSystem) -> String {
    if point.now.si != 0.0 {
        return amount_text(point.now, units);
    }
    let (_, unit) = point.beyond.show_parts(units);
    format!("0\u{a0}{unit}")
}

pub(crate) fn states(assessment: &Assessment) -> Vec<StateLine> {
    let line = |change: &hardpan_assess::StateChange| StateLine {
        state: change.state.word(),
        verdict: change.verdict,
        by: change
            .governed_by
            .as_ref()
            .map_or_else(String::new, |(code, title)| format!("{code} {}", plain(title))),
    };
    assessment.turning.states.iter().map(line).collect()
}

pub(crate) fn masses(assessment: &Assessment, units: UnitSystem) -> Vec<MassBlock> {
    let both =
        [("take-off mass", &assessment.take_off_mass), ("landing mass", &assessment.landing_mass)];
    both.into_iter()
        .filter_map(|(name, answer)| answer.as_ref().map(|answer| mass(name, answer, units)))
        .collect()
}

fn mass(name: &'static str, answer: &MassAnswer, units: UnitSystem) -> MassBlock {
    let most = |mass: Option<Mass>| mass.map(|mass| at_most_text(mass, units));
    let limits = answer.limits.iter().map(|limit| MassLine {
        code: limit.code,
        title: plain(&limit.title),
        mass: most(limit.mass),
    });
    MassBlock {
        name,
        planned: answer.planned.map(|mass| quantity_text(mass, units)),
        largest: most(answer.largest),
        load: most(answer.load),
        limits: limits.collect(),
        unknown: answer.unknown.as_ref().map(|one| format!("{} {}", one.code, plain(&one.title))),
    }
}

pub(crate) fn tyre(tyre: &TyreAnswer, units: UnitSystem) -> TyreBlock {
    let range = match (tyre.least, tyre.greatest) {
        (Some(least), Some(greatest)) => {
            let least = rounded(least.into(), Rounding::Up, units);
            let greatest = rounded(greatest.into(), Rounding::Down, units);
            let ((number, unit), (last, last_unit)) =
                (least.show_parts(units), greatest.show_parts(units));
            Some(if least.si >= greatest.si {
                format!("at {number} {unit} alone")
            } else if unit == last_unit {
                format!("{number}–{last} {unit}")
            } else {
                format!("{number} {unit} to {last} {last_unit}")
            })
        }
        (Some(least), None) => Some(format!("at least {}", at_least_text(least, units))),
        (None, Some(greatest)) => Some(format!("at most {}", at_most_text(greatest, units))),
        (None, None) => None,
    };
    let table = tyre.table.iter().map(|row| PressureLine {
        pressure: quantity_text(row.pressure, units),
        ground: row.ground.map(|mass| at_most_text(mass, units)),
        tyre: row.tyre.map(|mass| at_most_text(mass, units)),
    });
    TyreBlock {
        set: tyre.set.map(|pressure| match tyre.least {
            Some(least) if pressure <= least => at_least_text(pressure, units),
            _ => quantity_text(pressure, units),
        }),
        because: plain(&tyre.because),
        range,
        table: table.collect(),
    }
}

pub(crate) fn speeds(assessment: &Assessment, units: UnitSystem) -> Vec<SpeedLine> {
    let line = |row: &hardpan_assess::SpeedRow| SpeedLine {
        symbol: row.symbol,
        name: row.name,
        speed: quantity_text(row.speed, units),
    };
    assessment.speeds.iter().map(line).collect()
}

pub(crate) fn distances(assessment: &Assessment, units: UnitSystem) -> Vec<DistanceLine> {
    let line = |row: &hardpan_assess::DistanceRow| {
        let share = row.available.map(|available| row.needed.si() / available.si());
        DistanceLine {
            code: row.code,
            name: plain(&row.name),
            needed: at_least_text(row.needed, units),
            available: row.available.map(|available| at_most_text(available, units)),
            share: share.filter(|share| share.is_finite() && *share >= 0.0),
        }
    };
    assessment.distances.iter().map(line).collect()
}

pub(crate) fn day(assessment: &Assessment, units: UnitSystem) -> Vec<DayLine> {
    let line = |(name, amount): &(String, Amount)| DayLine {
        name: plain(name),
        value: amount_text(*amount, units),
        limit: day_limit(&assessment.findings, name, *amount, units),
    };
    assessment.day.rows.iter().map(line).collect()
}

/// The limit of the finding whose title and this name begin alike, one going on
/// where the other ends, and that measures the same kind; with the least margin
/// where several do.
fn day_limit(
    findings: &[Finding],
    name: &str,
    amount: Amount,
    units: UnitSystem,
) -> Option<String> {
    let name = name.to_lowercase();
    let tightest = findings
        .iter()
        .filter(|finding| begin_alike(&name, &finding.title.to_lowercase()))
        .filter(|finding| finding.limit.is_some_and(|l| l.amount.dimension == amount.dimension))
        .min_by(|a, b| {
            let margin = |f: &Finding| f.margin().map_or(f64::INFINITY, |margin| margin.si);
            margin(a).total_cmp(&margin(b))
        })?;
    tightest.limit.map(|limit| limit_text(limit, units))
}

fn begin_alike(one: &str, other: &str) -> bool {
    let (short, long) = if one.len() <= other.len() { (one, other) } else { (other, one) };
    let rest = long.strip_prefix(short);
    !short.is_empty() && rest.is_some_and(|rest| rest.is_empty() || rest.starts_with([',', ' ']))
}

pub(crate) fn remedies(assessment: &Assessment, units: UnitSystem) -> Vec<RemedyLine> {
    let line = |remedy: &hardpan_assess::Remedy| RemedyLine {
        action: plain(&remedy.action.show(units)),
        effect: plain(&remedy.effect.show(units)),
        verdict_after: remedy.verdict_after,
        mends: remedy.mends.join(", "),
        left: remedy.left.join(", "),
    };
    assessment.remedies.iter().map(line).collect()
}

/// One way to handle the aeroplane, by the stones that it meets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StonesLine {
    /// In words.
    pub name: String,
    /// Stones thrown at the airframe, such as `× 1.30`.
    pub thrown: Option<String>,
    /// Stones under an inlet vortex.
    pub swallowed: Option<String>,
    /// Strikes for each 1,000 movements with their limits.
    pub strikes: Option<String>,
}

pub(super) fn stones_by_handling(assessment: &Assessment) -> Vec<StonesLine> {
    let Some(table) = &assessment.handling else { return Vec::new() };
    let line = |name: String, row: &HandlingRow| StonesLine {
        name: plain(&name),
        thrown: row.thrown.map(|share| format!("× {:.2}", share.si())),
        swallowed: row.swallowed.map(|count| whole(count.ceil())),
        strikes: row.strikes.map(|[low, mean, high]| format!("{mean:.1} ({low:.1} to {high:.1})")),
    };
    let rows = table.rows.iter().map(|row| line(row.name.clone(), row));
    let best = table.best.iter().map(|row| line(format!("best: {}", row.name), row));
    rows.chain(best).collect()
}
