//! Stretches of the strip that nobody surveyed closely enough, in words.

use crate::context::Context;
use hardpan_model::Direction;
use hardpan_quantity::{Amount, Length, metres};
use hardpan_surface::EdgeReport;

/// Longest touchdown zone.
const TOUCHDOWN_ZONE_M: f64 = 900.0;
/// Most gaps that a sentence names.
const NAMED: usize = 2;

/// A stretch that is missing on one line or on several side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Gap {
    from: Length,
    to: Length,
    left: Length,
    right: Length,
}

/// Where an edge could not be laid, by rising station; stretches that overlap
/// along the strip are one gap.
pub(crate) fn gaps(edge: &EdgeReport) -> Vec<Gap> {
    let missing = edge.lines.iter().flat_map(|line| {
        let offset = line.offset;
        let gap = move |from, to| Gap { from, to, left: offset, right: offset };
        line.unsurveyed.iter().map(move |stretch| gap(stretch.from, stretch.to))
    });
    let mut missing: Vec<Gap> = missing.collect();
    missing.sort_by(|a, b| a.from.partial_cmp(&b.from).unwrap_or(std::cmp::Ordering::Equal));
    let mut gaps: Vec<Gap> = Vec::new();
    for next in missing {
        match gaps.last_mut().filter(|last| next.from <= last.to) {
            Some(last) => {
                last.to = last.to.max(next.to);
                last.left = last.left.min(next.left);
                last.right = last.right.max(next.right);
            }
            None => gaps.push(next),
        }
    }
    gaps
}

/// The gaps in words, and whether one lies where the landing touches down.
pub(crate) fn told(context: &Context<'_>, gaps: &[Gap]) -> String {
    let one = |gap: &Gap| {
        let stations = Amount::from(gap.from).told_to(gap.to.into());
        let (left, right) = (Amount::from(gap.left), Amount::from(gap.right));
        if gap.left == gap.right {
            format!("stations {stations} at offset {}", left.told_signed())
        } else {
            format!(
                "stations {stations} at offsets {} to {}",
                left.told_signed(),
                right.told_signed()
            )
        }
    };
    let mut words: Vec<String> = gaps.iter().take(NAMED).map(one).collect();
    match gaps.len().saturating_sub(NAMED) {
        0 => {}
        1 => words.push("one stretch more".to_owned()),
        more => words.push(format!("{more} stretches more")),
    }
    let mut words = words.join(", ");
    let zone = touchdown_zone(context);
    if zone.is_some_and(|(from, to)| gaps.iter().any(|gap| gap.from <= to && gap.to >= from)) {
        words.push_str("; the landing planned touches down in that third of the strip");
    }
    words
}

/// The third of the strip, 900 m at most, in which the landing planned touches
/// down: common practice, no source.
fn touchdown_zone(context: &Context<'_>) -> Option<(Length, Length)> {
    let landing = context.flight.landing.as_ref()?;
    let length = context.flight.strip.length.as_ref()?.value;
    let zone = (length / 3.0).min(metres(TOUCHDOWN_ZONE_M));
    Some(match landing.direction.as_ref()?.value {
        Direction::Up => (metres(0.0), zone),
        Direction::Down => (length - zone, length),
    })
}
