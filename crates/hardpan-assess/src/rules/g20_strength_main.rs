//! G20: the ground carries the main wheels, everywhere that they roll.

use crate::context::Context;
use crate::ground::LegKind;
use crate::ground::strength_finding::strength_finding;
use crate::rule::Rule;
use hardpan_model::{Finding, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "G20",
    name: "Ground strength, main wheels",
    checks: "At each station of both main lanes, and at each depth, the strength that the ground \
             is credited with against the strength that the wheels ask of it, for the load that \
             really comes there, the tyre pressure and the passes still to be carried.",
    why: "Where the ground is too weak the wheels break through: drag, loss of control, a stuck \
          or damaged aeroplane.",
    limit: "Needed over credited strength at most 100 %. Strength is credited at the penetrometer \
            law's mean divided by 1.3, below CBR 3 at the least of the published laws; away from \
            soundings less, where the strip states over which length its ground is alike; the \
            upper 150 mm are held to the need under 150 mm of cover.",
    applies: "Every flight. Vertical load only: braking and tight turns ask more of the surface.",
    source: Source::new("HAMMITT-1970", "thickness by coverages", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    vec![strength_finding(&RULE, context, LegKind::Main)]
}
