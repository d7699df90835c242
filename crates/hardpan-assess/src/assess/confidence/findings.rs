//! What the rules themselves say of a draw: findings that no limit on a mass stands
//! for.
//!
//! A rule that judges ground by the thickness law is asked on the ground of the draw;
//! one that judges it by another law, on the same ground without the draw of the
//! thickness law; how the laws of ruts and of strain err is drawn on top. What is held to
//! measured ruts is asked of the ground as it was found, since that is what they lie in.

mod alone;

use super::draw::Drawn;
use super::trial::{Moving, Named};
use crate::assess::ADVISORY;
use crate::context::Context;
use crate::ground::strain_response::Strains;
use crate::measure::put_on;
use crate::rides::Asked;
use crate::rules::RULES;
use alone::{
    along_the_strip, by_measured_ruts, deflections, lightest, on_arrival, over_water, passes_left,
    strain,
};
use hardpan_model::{Bound, Finding, Phase, Verdict, Weight};
use std::mem::replace;

/// Rules that are asked on the ground with the thickness law as drawn.
const BY_THICKNESS: [&str; 2] = ["G24", "G26"];
/// Rules that are asked on the ground without it.
const BY_OTHER_LAWS: [&str; 5] = ["F25", "G22", "G24", "G50", "W40"];

/// Whether a limit holds in a draw, and what is left of it; none where not known.
pub(super) type Left = (Option<bool>, Option<f64>);

/// Which findings are wanted of a draw.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wanted {
    /// All.
    All,
    /// Those that bear on safety; of the others nothing is known.
    Safety,
}

/// The findings that are asked for.
#[derive(Debug)]
pub(super) struct Findings {
    asked: Vec<Named>,
    strains: Strains,
}

impl Findings {
    /// Those of the middle of the draws that are held to a limit.
    pub(super) fn of(middle: &mut Drawn) -> Self {
        let strains = Strains::default();
        let mut asked: Vec<Named> = Vec::new();
        for (named, _) in found(middle, &strains, |_| true) {
            if !asked.iter().any(|one| is_same(one, &named)) {
                asked.push(named);
            }
        }
        Self { asked, strains }
    }

    pub(super) fn names(&self) -> &[Named] {
        &self.asked
    }

    /// What each says of a draw, in their order; nothing is known of one that a draw
    /// does not have.
    pub(super) fn judged(&self, drawn: &mut Drawn, wanted: Wanted) -> Vec<Left> {
        let is_wanted = |one: &Named| wanted == Wanted::All || !one.advises;
        let of = |code: &str| self.asked.iter().any(|one| one.code == code && is_wanted(one));
        let found = found(drawn, &self.strains, of);
        let judged = |asked: &Named| {
            let same = found.iter().filter(|(named, _)| is_same(named, asked));
            same.map(|(_, left)| *left).reduce(worse).unwrap_or((None, None))
        };
        self.asked.iter().map(judged).collect()
    }
}

fn is_same(one: &Named, other: &Named) -> bool {
    (one.code, one.moving, &one.title) == (other.code, other.moving, &other.title)
}

fn worse(one: Left, other: Left) -> Left {
    match (one.1, other.1) {
        (Some(a), Some(b)) if a <= b => one,
        (Some(_), Some(_)) => other,
        _ => (one.0.min(other.0), None),
    }
}

/// Findings by name, and what is left of each.
type Found = Vec<(Named, Left)>;
/// A rule of which only what it is held to is found.
type Alone = (&'static str, fn(&Drawn) -> Found);

const ALONE_BY_THICKNESS: [Alone; 3] =
    [("A10", lightest), ("G40", passes_left), ("T40", on_arrival)];
const ALONE_BY_OTHER_LAWS: [Alone; 3] =
    [("F54", over_water), ("G52", along_the_strip), ("T20", deflections)];

/// The findings of a draw that have a limit, of the rules whose codes are wanted.
fn found(drawn: &mut Drawn, strains: &Strains, is_wanted: impl Fn(&str) -> bool) -> Found {
    let ground = drawn.measured.ground.clone();
    put_on(&drawn.flight, &mut drawn.measured, ground);
    let mut found: Found = Vec::new();
    let ask = |found: &mut Found, drawn: &Drawn, alone: &[Alone]| {
        let alone = alone.iter().filter(|(code, _)| is_wanted(code));
        alone.for_each(|(_, of)| found.extend(of(drawn)));
    };
    let wanted = |codes: &[&'static str]| -> Vec<&'static str> {
        codes.iter().copied().filter(|code| is_wanted(code)).collect()
    };
    found.extend(asked(drawn, &wanted(&BY_THICKNESS), OnTop::No));
    ask(&mut found, drawn, &ALONE_BY_THICKNESS);
    let other = drawn.without_law.clone();
    let ground = replace(&mut drawn.measured.ground, other.clone());
    put_on(&drawn.flight, &mut drawn.measured, other);
    found.extend(asked(drawn, &wanted(&BY_OTHER_LAWS), OnTop::Yes));
    ask(&mut found, drawn, &ALONE_BY_OTHER_LAWS);
    if is_wanted("G60") {
        found.push(strain(drawn, strains));
    }
    if is_wanted("G55")
        && let Some(as_found) = drawn.as_found.clone()
    {
        put_on(&drawn.flight, &mut drawn.measured, as_found);
        found.extend(by_measured_ruts(drawn));
    }
    drawn.measured.ground = ground;
    found
}

/// Whether a turning place is meant by the shear of its top, or by all its depth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum OnTop {
    No,
    Yes,
}

fn context(drawn: &Drawn) -> Context<'_> {
    Context::tried(&drawn.flight, &drawn.measured, Asked::Verdict)
}

fn judge(drawn: &Drawn, codes: &[&str]) -> Vec<Finding> {
    let context = context(drawn);
    let rules = RULES.iter().filter(|rule| codes.contains(&rule.code));
    rules.flat_map(|rule| (rule.judge)(&context)).collect()
}

/// The findings of rules that are held to a limit.
fn asked(drawn: &Drawn, codes: &[&str], meant: OnTop) -> Found {
    let is_meant = |finding: &Finding| {
        let on_top = finding.title.starts_with("surface");
        finding.limit.is_some() && (finding.code != "G24" || on_top == (meant == OnTop::Yes))
    };
    let findings = judge(drawn, codes).into_iter().filter(is_meant);
    findings.map(|finding| (name(&finding), left_of(&finding))).collect()
}

/// Turning places go by the worst, wherever it lies.
fn name(finding: &Finding) -> Named {
    let title = match finding.code {
        "G24" if finding.title.starts_with("surface") => "surface of the turning places".to_owned(),
        "G24" => "ground under the outer wheels where the aeroplane turns".to_owned(),
        _ => finding.title.clone(),
    };
    let moving = match finding.phase {
        Phase::Landing => Some(Moving::Landing),
        Phase::TakeOff => Some(Moving::TakeOff),
        _ => None,
    };
    let is_known = left_of(finding).0.is_some();
    named(finding.code, title, (moving, is_known), finding.weight)
}

fn named(
    code: &'static str,
    title: impl Into<String>,
    (moving, is_known): (Option<Moving>, bool),
    weight: Weight,
) -> Named {
    let advises = weight == Weight::Advice || ADVISORY.contains(&code);
    Named { code, title: title.into(), moving, is_known, advises }
}

fn left_of(finding: &Finding) -> Left {
    let (Some(value), Some(limit)) = (finding.value, finding.limit) else { return (None, None) };
    if finding.verdict == Verdict::Unproven {
        return (None, None);
    }
    let holds = finding.margin().map(|margin| margin.si >= 0.0);
    let over = match limit.bound {
        Bound::AtMost => limit.amount.si / value.si,
        Bound::AtLeast => value.si / limit.amount.si,
    };
    (holds, Some(over.ln()).filter(|left| left.is_finite()))
}

fn of_margin(margin: Option<f64>) -> Left {
    (margin.map(|margin| margin >= 0.0), margin.filter(|margin| margin.is_finite()))
}
