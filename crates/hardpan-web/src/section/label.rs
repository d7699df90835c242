//! Which labels along the strip have room beside one another.

/// Widths of the page for which labels are chosen, pixels: a desk or
/// paper, and a hand.
const PAGES: [f64; 2] = [700.0, 330.0];
/// Width of a letter, pixels.
const LETTER: f64 = 6.6;

/// Whether each label is shown on a wide page and on a narrow one. Labels stand
/// at a share of the width and are given in the order of their importance.
pub(super) fn shown(labels: &[(f64, &str)]) -> Vec<[bool; 2]> {
    let mut taken: [Vec<(f64, f64)>; 2] = [Vec::new(), Vec::new()];
    labels
        .iter()
        .map(|(share, text)| {
            let half = text.chars().count() as f64 * LETTER / 2.0 + 4.0;
            let mut fits = [false; 2];
            for (page, (taken, width)) in taken.iter_mut().zip(PAGES).enumerate() {
                let middle = middle(*share, half, width);
                let (from, to) = (middle - half, middle + half);
                if taken.iter().all(|(left, right)| to <= *left || from >= *right) {
                    taken.push((from, to));
                    fits[page] = true;
                }
            }
            fits
        })
        .collect()
}

/// Middle of a label, which near an end of the strip stands beside its place.
fn middle(share: f64, half: f64, width: f64) -> f64 {
    match anchor(share) {
        "start" => share * width + half,
        "end" => share * width - half,
        _ => share * width,
    }
}

/// Side of a label's text that stands at its place.
pub(super) fn anchor(share: f64) -> &'static str {
    if share < 0.08 {
        "start"
    } else if share > 0.92 {
        "end"
    } else {
        "middle"
    }
}

/// Class of a label by where it has room.
pub(super) const fn class(fits: [bool; 2]) -> &'static str {
    match fits {
        [_, true] => "label",
        [true, false] => "label wide-only",
        [false, false] => "label unseen-label",
    }
}
