//! Labels that do not run into one another.

/// A label that wants to stand at a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted {
    /// Where its leader stands.
    pub(super) at: f64,
    /// Its width, and the width of a shorter wording for want of room.
    pub(super) widths: (f64, f64),
}

/// Where a label stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Placed {
    /// Its middle.
    pub(super) middle: f64,
    /// Its row, from 0 next to the thing labelled.
    pub(super) row: usize,
    /// Whether only the shorter wording has room.
    pub(super) short: bool,
}

const GAP: f64 = 1.6;
const STEP: f64 = 0.5;

/// A place for each label, in the order of importance; none where there is no
/// room left. Each label lies over its own leader, leaders run straight from
/// row 0 outwards and cross no label. A place that leaves the leaders of the
/// labels still to come free is preferred.
pub(super) fn spread(wanted: &[Wanted], ends: (f64, f64), rows: usize) -> Vec<Option<Placed>> {
    let mut taken: Vec<Vec<(f64, f64)>> = vec![Vec::new(); rows];
    let mut placed = Vec::with_capacity(wanted.len());
    for (index, label) in wanted.iter().enumerate() {
        let to_come = wanted.get(index + 1..).unwrap_or_default();
        let full = place(*label, label.widths.0, to_come, ends, &mut taken);
        placed.push(full.or_else(|| {
            let short = place(*label, label.widths.1, to_come, ends, &mut taken)?;
            Some(Placed { short: true, ..short })
        }));
    }
    placed
}

fn place(
    label: Wanted,
    width: f64,
    to_come: &[Wanted],
    ends: (f64, f64),
    taken: &mut [Vec<(f64, f64)>],
) -> Option<Placed> {
    let half = width / 2.0;
    let leader = (label.at - 0.3, label.at + 0.3);
    let mut best: Option<(f64, Placed)> = None;
    for (row, spans) in taken.iter().enumerate() {
        if taken.iter().take(row).any(|above| clashes(above, leader, 0.4)) {
            continue;
        }
        for shift in shifts(half) {
            let middle = label.at + shift;
            let span = (middle - half, middle + half);
            let inside = span.0 >= ends.0 - 1e-9 && span.1 <= ends.1 + 1e-9;
            if !inside || clashes(spans, span, GAP) {
                continue;
            }
            let near = (span.0 - 1.0, span.1 + 1.0);
            let hidden = to_come.iter().filter(|other| other.at > near.0 && other.at < near.1);
            let each = if row == 0 { 10.0 } else { 3.0 };
            let cost = hidden.count() as f64 * each + 2.0 * row as f64 + 0.15 * shift.abs();
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, Placed { middle, row, short: false }));
            }
        }
    }
    let (_, chosen) = best?;
    for (row, spans) in taken.iter_mut().enumerate().take(chosen.row + 1) {
        let span = (chosen.middle - half, chosen.middle + half);
        spans.push(if row == chosen.row { span } else { leader });
    }
    Some(chosen)
}

/// Shifts that keep the label over its leader.
fn shifts(half: f64) -> impl Iterator<Item = f64> {
    let count = (half / STEP).clamp(0.0, 200.0) as usize;
    std::iter::once(0.0)
        .chain((1..=count).flat_map(|n| [n as f64 * STEP, -(n as f64) * STEP]))
        .chain([half, -half])
}

fn clashes(row: &[(f64, f64)], span: (f64, f64), gap: f64) -> bool {
    row.iter().any(|other| span.0 < other.1 + gap && other.0 < span.1 + gap)
}

/// Advance widths of the regular face for U+0020 to U+007E, hundredths of the
/// type size.
const ADVANCES: [u8; 95] = [
    28, 28, 40, 63, 64, 81, 64, 22, 36, 36, 50, 66, 28, 46, 28, 36, 62, 46, 61, 64, 64, 61, 62, 57,
    62, 62, 28, 28, 66, 66, 66, 51, 94, 68, 65, 73, 72, 60, 59, 74, 74, 26, 54, 65, 56, 89, 75, 76,
    63, 76, 64, 64, 64, 74, 68, 95, 64, 66, 62, 36, 36, 36, 47, 45, 50, 56, 62, 56, 62, 58, 36, 61,
    59, 24, 24, 54, 24, 87, 59, 60, 61, 61, 37, 52, 36, 58, 56, 81, 54, 56, 54, 36, 33, 36, 66,
];

/// Width of a text in the type of the figures, in millimetres, a little on the
/// wide side.
pub(super) fn text_width(text: &str, size: f64, strong: bool) -> f64 {
    let sum: f64 = text.chars().map(advance).sum();
    sum * size * if strong { 1.05 } else { 1.01 }
}

fn advance(c: char) -> f64 {
    let index = u32::from(c).checked_sub(0x20).and_then(|index| usize::try_from(index).ok());
    match (c, index.and_then(|index| ADVANCES.get(index))) {
        (_, Some(hundredths)) => f64::from(*hundredths) / 100.0,
        ('\u{a0}', None) => 0.28,
        ('–' | '…', None) => 0.66,
        _ => 0.8,
    }
}

/// The text cut to a width, with an ellipsis when it was cut.
pub(super) fn fitted(text: &str, size: f64, strong: bool, width: f64) -> String {
    if text_width(text, size, strong) <= width {
        return text.to_owned();
    }
    let mut out = String::new();
    for c in text.chars() {
        out.push(c);
        if text_width(&out, size, strong) > width - size {
            out.pop();
            break;
        }
    }
    format!("{}…", out.trim_end())
}
