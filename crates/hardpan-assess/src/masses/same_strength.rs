//! Limits that rest on the same strength of the ground: whoever mends it mends them all,
//! so that they count once where the next limit is named.

use super::ground_checks::SEASON_NOSE;
use crate::assessment::MassLimit;
use crate::ground::LegKind;

/// The wheels on whose ground a limit rests; none of a limit that rests on other things.
fn rests_on(code: &str, title: &str) -> Option<LegKind> {
    match code {
        "G20" | "G28" => Some(LegKind::Main),
        "G30" => Some(LegKind::Nose),
        "S65" if title == SEASON_NOSE => Some(LegKind::Nose),
        "S65" => Some(LegKind::Main),
        _ => None,
    }
}

/// The first of each strength, and whatever rests on other things, in the same order.
pub(super) fn once_each<T>(limits: Vec<T>, named: impl Fn(&T) -> (&str, &str)) -> Vec<T> {
    let mut seen: Vec<LegKind> = Vec::new();
    let mut is_new = |limit: &T| {
        let (code, title) = named(limit);
        let Some(kind) = rests_on(code, title) else { return true };
        let is_new = !seen.contains(&kind);
        seen.push(kind);
        is_new
    };
    limits.into_iter().filter(|limit| is_new(limit)).collect()
}

/// Code and title of a limit.
pub(super) fn names(limit: &MassLimit) -> (&str, &str) {
    (limit.code, &limit.title)
}

#[cfg(test)]
mod tests {
    use super::once_each;

    /// By definition.
    #[test]
    fn limits_on_one_strength_count_once() {
        let all = vec![("G28", ""), ("G20", ""), ("F10", ""), ("G30", ""), ("S65", "")];
        let once = once_each(all, |limit| *limit);
        assert_eq!(once, [("G28", ""), ("F10", ""), ("G30", "")]);
    }
}
