//! What one draw comes to: which limits hold, and the largest masses.

use super::draw::Drawn;
use super::findings::{Findings, Wanted};
use super::levels::LevelLimit;
use super::search::{Lines, largest};
use crate::context::{Context, bounds_today};
use crate::masses::{
    BEYOND, Beside, Check, SheetMovement, control_checks, joint_limits, landing_limits, lightest,
    take_off_limits,
};
use crate::rides::Asked;
use hardpan_model::{Bound, Flight, Phase};
use hardpan_quantity::{Mass, Quantity};

/// Approved limits on these figures hold whatever the mass.
const OF_THE_DAY: [&str; 4] = ["crosswind", "tailwind", "outside temperature", "pressure altitude"];

/// Which movement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moving {
    /// The landing.
    Landing,
    /// The take-off.
    TakeOff,
}

impl Moving {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Landing => "landing",
            Self::TakeOff => "take-off",
        }
    }

    /// As the sheets of masses have it.
    const fn of_sheet(self) -> SheetMovement {
        match self {
            Self::Landing => SheetMovement::Landing,
            Self::TakeOff => SheetMovement::TakeOff,
        }
    }

    const fn other(self) -> Self {
        match self {
            Self::Landing => Self::TakeOff,
            Self::TakeOff => Self::Landing,
        }
    }
}

/// One limit of a flight by name; the same limits in the same order in each draw.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Named {
    pub(super) code: &'static str,
    pub(super) title: String,
    pub(super) moving: Option<Moving>,
    /// Whether it can be judged as planned.
    pub(super) is_known: bool,
    /// Whether it only advises: it counts for no answer.
    pub(super) advises: bool,
}

/// What a draw comes to.
#[derive(Debug, Clone, Default)]
pub(super) struct Trial {
    /// Whether each limit holds; none where something is missing.
    pub(super) holds: Vec<Option<bool>>,
    /// What is left of each, in a measure of its own; none where not known.
    pub(super) margins: Vec<Option<f64>>,
    /// Largest mass that may be planned for landing and take-off, kg; none where
    /// not even the lightest holds.
    pub(super) largest: [Option<f64>; 2],
}

/// The movements of a flight.
pub(super) fn movements(flight: &Flight) -> Vec<Moving> {
    let landing = flight.landing.as_ref().map(|_| Moving::Landing);
    landing.into_iter().chain(flight.take_off.as_ref().map(|_| Moving::TakeOff)).collect()
}

/// The limits of a movement, with the other as it is planned.
fn limits<'a>(drawn: &'a Drawn, moving: Moving) -> Vec<Check<'a>> {
    let (flight, measured) = (&drawn.flight, &drawn.measured);
    let other = moving.other();
    let beside = planned(flight, other)
        .map(|mass| Beside::of(flight, measured, (other.of_sheet(), mass)))
        .unwrap_or_default();
    match moving {
        Moving::Landing => landing_limits(flight, measured, &beside),
        Moving::TakeOff => take_off_limits(flight, measured, &beside),
    }
    .unwrap_or_default()
}

/// Those of them that rest on the tyres, with these as they are set.
fn as_set<'a>(drawn: &'a Drawn, moving: Moving) -> Vec<Check<'a>> {
    let (flight, measured) = (&drawn.flight, &drawn.measured);
    joint_limits(flight, measured, moving.of_sheet(), &Beside::as_set(measured)).unwrap_or_default()
}

pub(super) fn planned(flight: &Flight, moving: Moving) -> Option<Mass> {
    let given = match moving {
        Moving::Landing => flight.landing.as_ref()?.mass.as_ref(),
        Moving::TakeOff => flight.take_off.as_ref()?.mass.as_ref(),
    };
    given.map(|given| given.value)
}

fn structural(flight: &Flight, moving: Moving) -> Option<Mass> {
    let mass = &flight.aeroplane.mass;
    let given = match moving {
        Moving::Landing => mass.maximum_landing.as_ref(),
        Moving::TakeOff => mass.maximum_take_off.as_ref(),
    };
    given.map(|given| given.value)
}

/// The limits by name, as [`trial`] asks them.
pub(super) fn named(drawn: &Drawn, levels: &[LevelLimit], findings: &Findings) -> Vec<Named> {
    let mut names = Vec::new();
    for moving in movements(&drawn.flight) {
        names.extend(limits(drawn, moving).iter().map(|check| Named {
            code: check.code,
            title: check.title.to_owned(),
            moving: Some(moving),
            is_known:
                planned(&drawn.flight, moving).is_some_and(|mass| check.tried(mass).is_some()),
            advises: false,
        }));
    }
    names.extend(of_the_day(drawn).into_iter().map(|(title, holds, _)| Named {
        code: "L10",
        title,
        moving: None,
        is_known: holds.is_some(),
        advises: false,
    }));
    for moving in movements(&drawn.flight) {
        names.extend(control(drawn, moving).iter().map(|check| Named {
            code: check.code,
            title: check.title.to_owned(),
            moving: Some(moving),
            is_known:
                planned(&drawn.flight, moving).is_some_and(|mass| check.tried(mass).is_some()),
            advises: false,
        }));
    }
    let level = |limit: &LevelLimit| Named {
        code: limit.code,
        title: limit.title.clone(),
        moving: None,
        is_known: true,
        advises: limit.advises,
    };
    names.extend(levels.iter().map(level));
    names.extend_from_slice(findings.names());
    names
}

/// Limits on control that mass does not mend.
fn control(drawn: &Drawn, moving: Moving) -> Vec<Check<'_>> {
    control_checks(&drawn.flight, &drawn.measured, moving.of_sheet())
}

/// Approved limits on the weather, whether each holds, and what is left of it.
fn of_the_day(drawn: &Drawn) -> Vec<(String, Option<bool>, Option<f64>)> {
    let (flight, measured) = (&drawn.flight, &drawn.measured);
    let context = Context::tried(flight, measured, Asked::Verdict);
    let meant = flight.aeroplane.limits.iter().filter(|limit| {
        OF_THE_DAY.contains(&limit.quantity.value.as_str()) && bounds_today(flight, limit)
    });
    let judged = meant.filter_map(|limit| {
        let quantity = limit.quantity.value.as_str();
        let value = context.quantity(quantity, limit.phase)?;
        let most = limit.value.value;
        let value = value.ok().filter(|value| value.dimension == most.dimension);
        let left = value.map(|value| match limit.bound {
            Bound::AtMost => most.si - value.si,
            Bound::AtLeast => value.si - most.si,
        });
        let holds = left.map(|left| left >= 0.0);
        let phase = match limit.phase {
            Phase::Always => String::new(),
            phase => format!(", {}", phase.word()),
        };
        Some((format!("{quantity}{phase}"), holds, left))
    });
    judged.collect()
}

/// How the margins of each movement run over mass in the middle of the draws, by
/// landing and take-off.
pub(super) fn slopes(drawn: &Drawn, about: [Option<f64>; 2]) -> [Option<Lines>; 2] {
    [Moving::Landing, Moving::TakeOff].map(|moving| {
        let about = planned(&drawn.flight, moving).map(|mass| mass.si()).or(about[moving as usize]);
        Some(Lines::about(&limits(drawn, moving), about?))
    })
}

/// Limits that stand beside those on mass and on the day.
pub(super) struct Limits<'a> {
    pub(super) levels: &'a [LevelLimit],
    pub(super) findings: &'a Findings,
    pub(super) wanted: Wanted,
}

/// Judge a draw; the largest masses are looked for where the margins of the plan
/// say that they lie, or else about those of the assessment.
pub(super) fn trial(
    drawn: &mut Drawn,
    other: &Limits<'_>,
    about: [Option<f64>; 2],
    slopes: &[Option<Lines>; 2],
) -> Trial {
    let mut trial = Trial::default();
    for moving in movements(&drawn.flight) {
        let at = moving as usize;
        let checks = limits(drawn, moving);
        let real = planned(&drawn.flight, moving);
        let mut lines = slopes[at].as_ref().map_or_else(Lines::default, |lines| lines.afresh());
        let as_set = as_set(drawn, moving);
        for (of, check) in checks.iter().enumerate() {
            let is_it = |one: &&Check<'_>| (one.code, one.title) == (check.code, check.title);
            let check = as_set.iter().find(is_it).unwrap_or(check);
            let (holds, left) = real.map_or((None, None), |mass| check.judged(mass));
            if let Some(mass) = real {
                lines.saw(of, mass.si(), left);
            }
            trial.holds.push(holds);
            trial.margins.push(left);
        }
        let bound = structural(&drawn.flight, moving);
        trial.largest[at] = bound.and_then(|bound| {
            let low = lightest(&drawn.flight, bound).min(bound);
            let range = (low.si(), bound.si() * BEYOND);
            let about = about[at].unwrap_or(range.0);
            Some(largest(&checks, range, about, &mut lines)? / drawn.mass)
        });
    }
    for (_, holds, left) in of_the_day(drawn) {
        trial.holds.push(holds);
        trial.margins.push(left);
    }
    for moving in movements(&drawn.flight) {
        let real = planned(&drawn.flight, moving);
        for check in control(drawn, moving) {
            let (holds, left) = real.map_or((None, None), |mass| check.judged(mass));
            trial.holds.push(holds);
            trial.margins.push(left);
        }
    }
    for limit in other.levels {
        let left = limit.left(drawn.levels);
        trial.holds.push(Some(left >= 0.0));
        trial.margins.push(Some(left));
    }
    for (holds, left) in other.findings.judged(drawn, other.wanted) {
        trial.holds.push(holds);
        trial.margins.push(left);
    }
    trial
}
