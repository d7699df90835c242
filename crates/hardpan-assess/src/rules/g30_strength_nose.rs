//! G30: the ground carries the nose wheels.

use crate::context::Context;
use crate::ground::LegKind;
use crate::ground::strength_finding::strength_finding;
use crate::rule::Rule;
use hardpan_model::{Finding, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "G30",
    name: "Ground strength, nose wheels",
    checks: "As G20 for the nose lane, with the load that braking brings to the nose.",
    why: "A nose wheel that digs in takes the steering, and a deflector that touches soft ground \
          may be torn off.",
    limit: "Needed over credited strength at most 100 %.",
    applies: "Every flight.",
    source: Source::new("HAMMITT-1970", "thickness by coverages", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    vec![strength_finding(&RULE, context, LegKind::Nose)]
}
