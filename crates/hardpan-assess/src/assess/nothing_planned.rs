//! A flight file that plans no movement.

use hardpan_model::{Basis, Finding, Mark, Need, Phase, Verdict, Weight};

/// The finding for a flight without landing and take-off.
pub(crate) fn finding() -> Finding {
    Finding {
        code: "A10",
        title: "movement".to_owned(),
        phase: Phase::Always,
        weight: Weight::Safety,
        verdict: Verdict::Unproven,
        value: None,
        limit: None,
        place: None,
        because: "the flight plans neither a landing nor a take-off".to_owned(),
        instruction: None,
        mark: Mark::Measured,
        needs: vec![Need {
            what: "flight: [landing] or [take_off]".to_owned(),
            how: "plan a movement".to_owned(),
        }],
        caveats: Vec::new(),
        basis: Basis::default(),
    }
}
